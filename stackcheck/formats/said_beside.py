"""What somebody writes into the line of a part beside its name and sizes:
that it stays on, must be measured, locks itself.

Each is taken out of the line, so that it stands in no name and no figure of it is taken for a length ("45 Nm"). The
first word of a line is always its name.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from stackcheck.pattern import Pattern
from stackcheck.value import Value, replace


class Beside(Value, kw_only=True):
    """What was said; `stays` and `in_bore` are None where nothing was, `toward` an end, "bearing", "outside" or ""."""

    stays: bool | None = None
    must_measure: bool = False
    self_locking: bool = False
    new_every_time: bool = False
    in_bore: bool | None = None
    feature: str = ""
    toward: str = ""
    torque: str = ""
    thread_condition: str = ""
    locked_by: str = ""
    lock: str = ""
    """The lock of a nut with its sizes, as it was said: "split pin 4x32"."""

    @property
    def words(self) -> tuple[str, ...]:
        """What was said, to be read back."""
        said = (
            ("stays on the machine" if self.stays else "comes off", self.stays is not None),
            ("must be measured", self.must_measure),
            ("locks itself", self.self_locking), ("new every time", self.new_every_time),
            ("sits in a bore" if self.in_bore else "sits on the shaft", self.in_bore is not None),
            (f"{self.feature} toward {self.toward}", self.toward),
            (self.torque, self.torque), (self.thread_condition, self.thread_condition),
            (f"kept from turning by the {self.lock}", self.lock),
        )  # fmt: skip
        return tuple(word for word, holds in said if holds)


_SAID: tuple[tuple[str, dict[str, object]], ...] = (
    (r"(?:stays|remains)(?: (?:on|put)(?: the)?(?: [a-z]+)?)?|does not come off", {"stays": True}),
    (r"comes off", {"stays": False}),
    (r"(?:must|to|has to)(?: be)? measured?|measure it", {"must_measure": True}),
    (r"self[- ]?locking|locks itself", {"self_locking": True}),
    (r"(?:new|renewed?) every time|single[- ]use", {"new_every_time": True}),
    (r"in (?:the |its |a )?(?:[a-z'-]+ )?bore(?! *[:=]? *\d)", {"in_bore": True}),
    (r"on the shaft", {"in_bore": False}),
    (r"(?:thread )?(?:dry|oiled|greased)", {"thread_condition": ""}),
)
"""What is looked for -> what it sets; "" is set to the last word itself."""
_TORQUE = r"\d+(?:[.,]\d+)?\s*N[·.* ]?m\b"
_FEATURES = {
    "hex head": "head",
    "hexagon head": "head",
    "lip": "spring side",
    "spring side": "spring side",
    "flange": "flange",
    "step": "step",
    "chamfer": "chamfer",
    "insert": "insert",
    "head": "head",
}
_FOUND_WITHOUT_END = ("hex head", "hexagon head")
_LOCKS = {
    "split pin": "split pin",
    "cotter pin": "split pin",
    "tab washer": "tab washer",
    "tab": "tab washer",
    "lock wire": "lock wire",
    "lockwire": "lock wire",
}
_LOCK = Pattern(
    r"\bnut\b.*?(?P<said>[\s,;]+(?:(?:and|with|by|locked by|secured by)\s+)?(?:a\s+|the\s+)?"
    rf"(?P<lock>(?:{'|'.join(_LOCKS)})\b[ \d.,x×]*))$",
    re.IGNORECASE,
)
"""What keeps a nut from turning, at the end of its line."""
_OUTSIDE = Pattern(r"\b(?:shank|shaft|seat|body)?\s*(?:dia(?:meter)?|diam)\b\.?(?=\s*[:=]?\s*[\d.,])", re.IGNORECASE)

_LONG = Pattern(r"(?<![\w.,])(\d+(?:[.,]\d+)?)\s+long\b(?!\s+[A-Za-z])", re.IGNORECASE)


def said_beside(line: str, ends: Sequence[str]) -> tuple[str, Beside]:
    """The line without what was said beside name and sizes, and that.

    >>> said_beside("lock nut M12 self locking, new every time, 45 Nm dry", ("left", "right"))[0]
    'lock nut M12'
    >>> said_beside("frame plate 8.0, stays", ("left", "right"))[1].stays
    True
    >>> said_beside("bolt hex head left, shank dia 15 h6", ("left", "right"))[0]
    'bolt, od 15 h6'
    >>> said_beside("castellated nut M16x1.5 with split pin 4x32; 60 Nm, dry", ("left", "right"))[1].lock
    'split pin 4x32'
    >>> said_beside("collar 15.0 flange toward the outside", ("left", "right"))[1].toward
    'outside'
    """
    beside = Beside()
    for pattern, values in _SAID:
        line, word = _taken(line, rf"\b(?:{pattern})\b")
        if word:
            beside = replace(
                beside, **{name: value if value != "" else word.lower().split()[-1] for name, value in values.items()}
            )
    line, torque = _taken(line, rf"(?<![\w.,]){_TORQUE}")
    line = re.sub(r"\boutwards?\b", "outside", line, flags=re.IGNORECASE)
    faced = (*ends, "bearing", *(() if "outside" in ends else ("outside",)))
    toward = "|".join(map(re.escape, faced))
    named = "|".join(_FEATURES)
    line, word = _taken(
        line,
        rf"\b(?:{named})[,:]?\s+(?:(?:to|toward|towards|faces|facing)\s+)?(?:the\s+)?(?:{toward})\b"
        r"(?!\s+\w+\s+\d|\s*[:=]?\s*\d)",
    )
    if word:
        feature = next(name for name in _FEATURES if word.lower().startswith(name))
        beside = replace(beside, feature=_FEATURES[feature], toward=_end_of(word, faced))
    else:
        line, word = _taken(line, rf"\b(?:{'|'.join(_FOUND_WITHOUT_END)})\b")
        beside = replace(beside, feature="head") if word else beside
    # What is said there is at which end the thread of a bolt is, or its head.
    line = re.sub(rf"\bat (?:the )?(?:{'|'.join(map(re.escape, ends))})(?: end)?\b", " ", line, flags=re.IGNORECASE)
    line = re.sub(r"\bthread\s+(?=M\d)", "", line, flags=re.IGNORECASE)
    line = _LONG.sub(r"length \1", _OUTSIDE.sub(" od", line))
    line = _tidy(line)
    if match := _LOCK.search(line):
        kind = next(own for name, own in _LOCKS.items() if match["lock"].lower().startswith(name))
        line, beside = (
            _tidy(line[: match.start("said")]),
            replace(beside, locked_by=kind, lock=match["lock"].strip(" ,")),
        )
    return line, replace(beside, torque=torque)


def _end_of(word: str, ends: Sequence[str]) -> str:
    return max((end for end in ends if word.lower().endswith(end.lower())), key=len)


def _taken(line: str, pattern: str) -> tuple[str, str]:
    """The line without the first match behind its first word, and the match."""
    for match in re.finditer(pattern, line, re.IGNORECASE):
        if line[: match.start()].strip():
            return f"{line[: match.start()]} {line[match.end() :]}", match.group()
    return line, ""


def _tidy(line: str) -> str:
    line = re.sub(r"\s+([,;])", r"\1", line)
    return re.sub(r"[,;]\s*(?=[,;]|$)", "", " ".join(line.split())).strip(" ,;")
