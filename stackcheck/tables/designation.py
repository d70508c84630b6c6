"""Reads what people type for a standard part: which table, which size in it, and what the suffixes say.

    "din 471 - 20x1,2"   -> table din-471, size "20"
    "6204/2RS C3"        -> table iso-15-62, size "6204", two seals, clearance group C3
    "32004X"             -> table iso-355-320, size "32004 X"

A suffix that is not known is refused, not skipped: it may change a size (P6, a taper bore) or only the cage, and a
reference must not guess which. Whether the size exists is for `lookup` to say.
"""

from __future__ import annotations

import re

from stackcheck.tables.catalogue import SPECS
from stackcheck.value import Value

WITHOUT_PART = {"ISO 3290": "ISO 3290-1"}
"""Standards that people name without the part that is meant -> its name."""
CLEARANCE_GROUPS = ("C2", "CN", "C3", "C4", "C5")
TWO_SEALS = ("2RS1", "2RSH", "2RSL", "2RSR", "2RS", "2RZ", "DDU", "DD", "LLU", "LLB", "LLH", "VV", "EE")
ONE_SEAL = ("RS1", "RSH", "RSL", "RSR", "RS", "RZ", "DU", "LU", "LB")
TWO_SHIELDS = ("2ZR", "2Z", "ZZ")
ONE_SHIELD = ("ZR", "Z")
CLOSURES = {
    **dict.fromkeys(TWO_SEALS, "two seals"),
    **dict.fromkeys(ONE_SEAL, "one seal"),
    **dict.fromkeys(TWO_SHIELDS, "two shields"),
    **dict.fromkeys(ONE_SHIELD, "one shield"),
}
"""Suffix letters of seals and shields as several makers write them -> the fact in words."""
SNAP_RING = {"NR": "snap ring in the outer ring", "N": "snap ring groove in the outer ring"}
CONTACT_ANGLES = {"A5": 25, "AC": 25, "A": 30, "B": 40, "C": 15}
"""Contact angle suffixes [degrees]. Without one the angle is not marked, and makers differ on what that means."""


class Typed(Value, kw_only=True):
    """A designation taken apart. `suffix` is written again behind the row's own designation.

    `or_else` is a size to look for where there is no `size`; `also` are nominal sizes that the row must then have.
    """

    table_id: str
    size: str
    or_else: str = ""
    suffix: str = ""
    features: tuple[str, ...] = ()
    clearance_group: str = ""
    also: tuple[tuple[str, float], ...] = ()


class Unreadable(Exception):
    """The text is no designation of a table: `why` in words, `base` is the part of it that could be read."""

    def __init__(self, why: str, base: str = ""):
        super().__init__(why)
        self.why = why
        self.base = base


def tidy(text: str) -> str:
    """Upper case, single blanks, decimal points, one kind of dash and of multiplication sign."""
    text = text.upper().replace(",", ".").replace("\u00d7", "X")
    text = re.sub("[\u2010-\u2015]", "-", text)
    return re.sub(r"\s+", " ", text).strip()


def read(text: str) -> Typed:
    """Take a designation apart.

    Raises:
        Unreadable: no table is meant, or a suffix is not known.
    """
    plain = tidy(text)
    standard = re.match(
        r"(?:DIN ?)?(?:EN ?)?(?=ISO)ISO ?([0-9]{3,4}(?:-1(?![0-9]))?)(?![0-9])|DIN ?(47[12])(?![0-9])"
        r"|(?:DIN ?)?EN ?(16983)(?![0-9])",
        plain,
    )
    if standard:
        return _standard_part(plain, standard)
    if inch := re.match(r"(?:ANSI[ /]?)?ASME ?B18\.21\.1(?![0-9.])(?:-20[0-9]{2})?", plain):
        return _inch_washer(plain[inch.end() :].lstrip(" -:"))
    bearing = re.match(r"[0-9]{2,3}/[0-9]{2}|[0-9]{3,5}", plain)
    if bearing:
        return _bearing(plain, bearing[0])
    raise Unreadable("it names no standard and is no bearing number")


_SERIES = tuple((spec.id.rpartition("-")[2], spec) for spec in SPECS if not spec.prefix)


def _bearing(plain: str, number: str) -> Typed:
    for series, spec in _SERIES:
        if not number.startswith(series):
            continue
        # Two digits or /28 behind the series; one digit in the small sizes, 608 or 625.
        if re.fullmatch(r"/?[0-9]{2}" if len(series) > 2 else r"/?[0-9]{2}|[0-9]", number[len(series) :]):
            break
    else:
        raise Unreadable(f"no series in the tables fits the bearing number {number}")
    rest = plain[len(number) :]
    if spec.kind == "taper bearing":
        return _taper(spec.id, series, number, rest)
    if spec.kind == "angular bearing":
        return _angular(spec.id, number, rest)
    return _ball(spec.id, number, rest)


def _ball(table_id: str, number: str, rest: str) -> Typed:
    closure, rest = _take(rest, CLOSURES)
    ring, rest = _take(rest, SNAP_RING)
    group, rest = _take(rest, dict.fromkeys(CLEARANCE_GROUPS, ""))
    _nothing_left(rest, number)
    words = tuple(words for words in (CLOSURES.get(closure), SNAP_RING.get(ring)) if words)
    clearance = f"clearance group {group}" if group else "clearance group CN (not marked)"
    return Typed(
        table_id=table_id,
        size=number,
        suffix="".join(f"-{letters}" for letters in (closure, ring) if letters) + (f" {group}" if group else ""),
        features=(*words, clearance),
        clearance_group=group or "CN",
    )


def _angular(table_id: str, number: str, rest: str) -> Typed:
    angle, rest = _take(rest, CONTACT_ANGLES)
    closure, rest = _take(rest, CLOSURES)
    _nothing_left(rest, number)
    features = (f"contact angle {CONTACT_ANGLES[angle]}",) if angle else ()
    if closure:
        features += (CLOSURES[closure],)
    return Typed(
        table_id=table_id,
        size=number,
        suffix=(f" {angle}" if angle else "") + (f"-{closure}" if closure else ""),
        features=features,
    )


def _taper(table_id: str, series: str, number: str, rest: str) -> Typed:
    if series == "320":
        _, rest = _take(rest, {"X": ""})
        number += " X"
    _nothing_left(rest, number)
    return Typed(table_id=table_id, size=number)


def _take(rest: str, known: dict[str, object]) -> tuple[str, str]:
    """The longest known suffix that stands at the start of `rest` and ends there or before a mark, and what follows."""
    bare = rest.lstrip(" -/.")
    for letters in sorted(known, key=len, reverse=True):
        if bare.startswith(letters):
            after = bare[len(letters) :]
            if not after or after[0] in " -/." or _may_follow(after):
                return letters, after
    return "", rest


def _may_follow(after: str) -> bool:
    """True where suffixes are written without a mark between them: "2RSC3", "ZZNR"."""
    return any(after == other for other in (*CLEARANCE_GROUPS, *SNAP_RING)) or any(
        after.startswith(ring) and after[len(ring) :].lstrip(" -/.") in CLEARANCE_GROUPS for ring in SNAP_RING
    )


def _nothing_left(rest: str, base: str) -> None:
    unknown = rest.strip(" -/.")
    if not unknown:
        return
    if re.match(r"P[2-6]|CL", unknown):
        raise Unreadable(f'"{unknown[:12]}" is a class of accuracy; the tables hold class Normal only', base)
    raise Unreadable(f'the suffix "{unknown[:12]}" is not known here', base)


def _standard_part(plain: str, match: re.Match[str]) -> Typed:
    name = f"ISO {match[1]}" if match[1] else f"DIN {match[2]}" if match[2] else f"EN {match[3]}"
    name = WITHOUT_PART.get(name, name)
    spec = next((spec for spec in SPECS if spec.standard == name and spec.prefix), None)
    rest = plain[match.end() :].lstrip(" -:")
    if spec is None:
        raise Unreadable(f"{name} is not among the tables", plain)
    if spec.kind in _OTHER_SIZES:
        return _OTHER_SIZES[spec.kind](spec.id, name, rest)
    size = re.match(r"M ?([0-9]{1,2}(?:\.[0-9])?)(?![0-9.])|([0-9]{1,2}(?:\.[0-9])?)(?![0-9.])", rest)
    if size is None:
        raise Unreadable(f"{name} is read with a thread size, such as {name} M12", name)
    number = f"{float(size[1] or size[2]):g}"
    rest = rest[size.end() :]
    base = f"{name} M{number}"
    if spec.kind == "washer":
        hardness = re.fullmatch(r"[ -]*([0-9]{3}) ?HV", rest)
        if not hardness:
            _nothing_left(rest, base)
            return Typed(table_id=spec.id, size=f"M{number}")
        return Typed(
            table_id=spec.id, size=f"M{number}", suffix=f" {hardness[1]} HV", features=(f"hardness {hardness[1]} HV",)
        )
    pitch = re.match(r" ?X ?([0-9](?:\.[0-9]{1,2})?)(?![0-9.])", rest)
    also = (("thread_pitch", float(pitch[1])),) if pitch else ()
    rest = rest[pitch.end() :] if pitch else rest
    strength = re.fullmatch(r"[ -]*(04|05|[4-9]|10|12|A[1-5]-[0-9]{2,3})", rest)
    if not strength:
        _nothing_left(rest, base)
        return Typed(table_id=spec.id, size=f"M{number}", also=also)
    return Typed(
        table_id=spec.id,
        size=f"M{number}",
        suffix=f"-{strength[1]}",
        features=(f"property class {strength[1]}",),
        also=also,
    )


def _inch_washer(rest: str) -> Typed:
    """Reads "TYPE A 1/4 N", "A NO. 10", "TYPE B 3/8 WIDE". The type must be said: A and B have other sizes."""
    name = "ASME B18.21.1 type A"
    number = r"(?:NO\.? ?|#)([0-9]{1,2})"
    fraction = r"([0-9]{1,2}(?:/[0-9]{1,2})?) ?(?:IN\.?|\")?"
    size = re.fullmatch(rf"(?:TYPE ?)?([AB])[ -]+(?:{number}|{fraction})(?:[ -]*(N|R|W|NARROW|REGULAR|WIDE))?", rest)
    if size is None:
        raise Unreadable(
            f"{name} or B is read with type and size, such as {name} 1/4 N or {name} No. 10", f"{name} {rest}"
        )
    written = f"{f'No. {int(size[2])}' if size[2] else size[3]} {(size[4] or '')[:1]}".strip()
    return Typed(table_id=f"asme-b18-21-1-{size[1].lower()}", size=written)


def _ball_alone(table_id: str, name: str, rest: str) -> Typed:
    """Reads "1/4 IN", "3/8\"", "6 MM", "6". A whole number without a unit is millimetres."""
    size = re.fullmatch(
        r"([0-9]{1,2}/[0-9]{1,2}|1(?= ?(?:IN|\"))) ?(?:IN(?:CH)?\.?|\")?|([0-9]{1,2}(?:\.[0-9])?) ?(?:MM)?", rest
    )
    if size is None:
        raise Unreadable(f"{name} is read with the ball, such as {name} 1/4 in or {name} 6 mm", f"{name} {rest}")
    return Typed(table_id=table_id, size=f"{size[1]} in" if size[1] else f"{float(size[2]):g} mm")


def _split_pin(table_id: str, name: str, rest: str) -> Typed:
    """Reads "3.2" or "3.2 X 20": the hole it is made for, and a length, which stands in no table."""
    size = re.fullmatch(r"([0-9]{1,2}(?:\.[0-9])?) ?(?:X ?([0-9]{1,3}))?", rest)
    if size is None:
        raise Unreadable(f"{name} is read with the hole it is made for, such as {name} 3.2", name)
    return Typed(
        table_id=table_id, size=f"{float(size[1]):g}", suffix=f"x{size[2]}" if size[2] else "",
        features=(f"{size[2]} mm long",) if size[2] else (),
    )  # fmt: skip


def _thread(table_id: str, name: str, rest: str) -> Typed:
    """Reads "M10", "M10X1.25"; the coarse pitch may be written too."""
    size = re.fullmatch(r"M ?([0-9]{1,2}(?:\.[0-9])?) ?(?:X ?([0-9](?:\.[0-9]{1,2})?))?", rest)
    if size is None:
        raise Unreadable(f"{name} is read with a thread, such as {name} M10 or {name} M10x1.25", f"{name} {rest}")
    coarse = f"M{float(size[1]):g}"
    if not size[2]:
        return Typed(table_id=table_id, size=coarse)
    pitch = float(size[2])
    return Typed(table_id=table_id, size=f"{coarse}x{pitch:g}", or_else=coarse, also=(("thread_pitch", pitch),))


def _disc_spring(table_id: str, name: str, rest: str) -> Typed:
    """Reads "A 20", "A20": the series and the outside diameter."""
    size = re.fullmatch(r"([ABC]) ?-?([0-9]{1,3}(?:\.[0-9])?)", rest)
    if size is None:
        raise Unreadable(f"{name} is read with series and outside diameter, such as {name} A 20", name)
    return Typed(table_id=table_id, size=f"{size[1]} {float(size[2]):g}")


def _circlip(table_id: str, name: str, rest: str) -> Typed:
    size = re.fullmatch(r"([0-9]{1,3}) ?(?:X ?([0-9](?:\.[0-9]{1,2})?))?", rest)
    if size is None:
        raise Unreadable(f"{name} is read with the diameter it is made for, such as {name} 20", name)
    also = (("length", float(size[2])),) if size[2] else ()
    return Typed(table_id=table_id, size=str(int(size[1])), also=also)


_OTHER_SIZES = {
    "circlip": _circlip,
    "loose balls": _ball_alone,
    "split pin": _split_pin,
    "bolt": _thread,
    "disc spring": _disc_spring,
}
"""Kinds whose size is no thread with a letter -> what reads it."""
