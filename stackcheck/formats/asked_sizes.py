"""Sizes of a part as somebody types them behind a command: "washer 28x20x0.5 mic", "bore 17 outside 30 cal".

Bare sizes with "x" between them are the two diameters in either sequence and then the thickness. Named sizes may stand
in any sequence. A unit or an instrument at the very end counts for every size that has none of its own.
"""

from __future__ import annotations

import re

from stackcheck.errors import InputError, Mistake, SizeError
from stackcheck.formats.words import kind_of
from stackcheck.model.part import Reading
from stackcheck.units import is_measured, read_reading
from stackcheck.value import Value

SIZES = ("bore", "outside", "thickness")
_SPOKEN = {
    "bore": "bore", "id": "bore", "hole": "bore", "inside": "bore",
    "outside": "outside", "od": "outside", "outer": "outside",
    "thickness": "thickness", "thick": "thickness", "length": "thickness", "width": "thickness",
}  # fmt: skip
_NAMED = re.compile(rf"\b({'|'.join(_SPOKEN)})\b(?! cal)\s*(?=[0-9.,Øø⌀])", re.IGNORECASE)
_FIGURE = re.compile(r"(?:\d+[ -])?\d+/\d+|\d+(?:[.,]\d+)?|[.,]\d+")
_BETWEEN = re.compile(r"\s*[x×X*]\s*(?=[\d.,])")
EXAMPLE = 'write "28x20x0.5 mic" or "washer bore 17 outside 30 cal"'


class AskedSizes(Value, kw_only=True):
    """What somebody measured on a part: its kind, "" when not said, and a reading for each size, None when not taken."""

    text: str
    kind: str = ""
    bore: Reading | None = None
    outside: Reading | None = None
    thickness: Reading | None = None

    @property
    def readings(self) -> tuple[Reading | None, Reading | None, Reading | None]:
        return self.bore, self.outside, self.thickness


def read_asked(text: str) -> AskedSizes:
    """Read kind and sizes.

    Raises:
        InputError: no size is given, one cannot be read, or the sizes together cannot be (bore not below outside).

    >>> asked = read_asked("washer 28x20x0.5 mic")
    >>> asked.kind, asked.bore.value_mm, asked.outside.value_mm, asked.thickness.how
    ('washer', 20.0, 28.0, 'micrometer')
    """
    named = list(_NAMED.finditer(text))
    first = _FIGURE.search(text)
    if first is None:
        raise _refused(text, "no size is given", EXAMPLE)
    if named:
        head = text[: named[0].start()]
        if stray := _FIGURE.search(head):
            raise _refused(text, f'"{stray.group()}" stands before the first named size', "name every size, or none")
        ends = [*(match.start() for match in named[1:]), len(text)]
        pairs = [(_SPOKEN[match[1].lower()], text[match.end() : end].strip(" ,;")) for match, end in zip(named, ends)]
    else:
        head = text[: first.start()]
        pairs = _bare(text, text[first.start() :])
    names = [name for name, _ in pairs]
    if len(set(names)) < len(names):
        raise _refused(text, "a size is given twice", "give several readings of one size behind its name: bore 17.1 17.2")
    readings = {name: _reading(text, name, piece) for name, piece in _with_common_end(pairs)}
    asked = AskedSizes(text=text, kind=kind_of(head), **readings)
    if asked.bore and asked.outside and asked.bore.value_mm >= asked.outside.value_mm:
        what = f"the bore ({asked.bore.value_mm:g} mm) is not below the outside diameter ({asked.outside.value_mm:g} mm)"
        raise _refused(text, what, "look which figure is which; a solid part has no bore")
    if head.strip() and not asked.kind:
        raise _refused(text, f'"{head.strip()}" is no kind of part known here', "name a kind such as washer, or sizes only")
    return asked


def _bare(text: str, sizes: str) -> list[tuple[str, str]]:
    pieces = _BETWEEN.split(sizes)
    if len(pieces) not in (2, 3):
        raise _refused(text, f"{len(pieces)} size{'s' if len(pieces) > 1 else ''} without a name", f"two diameters, or two diameters and a thickness; {EXAMPLE}")
    whole = _with_common_end([("diameter", piece) for piece in pieces])
    figures = [_reading(text, name, piece).value_mm for name, piece in whole[:2]]
    diameters = ("outside", "bore") if figures[0] > figures[1] else ("bore", "outside")
    return list(zip((*diameters, "thickness"), pieces))


def _with_common_end(pairs: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """What stands behind the last figure also stands behind every size that is a bare figure."""
    last = pairs[-1][1]
    figures = list(_FIGURE.finditer(last))
    end = last[figures[-1].end() :] if figures else ""
    return [(name, piece + end if _FIGURE.fullmatch(piece) and "±" not in end else piece) for name, piece in pairs[:-1]] + pairs[-1:]


def _reading(text: str, name: str, piece: str) -> Reading:
    try:
        written = read_reading(piece)
    except SizeError as problem:
        raise _refused(text, f'the {name} "{piece}" cannot be read', problem.wanted) from None
    if not is_measured(written.value_mm, written.how):
        what = f'the {name} "{piece}" is below what a {written.how} can show: that is "not measured"'
        raise _refused(text, what, "leave this size out, or measure it with a finer instrument")
    return Reading(
        text=written.text, value_mm=written.value_mm, good_to_mm=written.good_to_mm, how=written.how, readings_mm=written.readings_mm
    )


def _refused(text: str, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=f'"{text}"', what=what, wanted=wanted)], consequence="Nothing was looked up.")
