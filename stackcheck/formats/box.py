"""A box of shims as somebody says it: "0.10 x4, 0.30 x2, 0.50 x6 mm"."""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.formats.sizes import size_of
from stackcheck.model.part import Shim
from stackcheck.units import read_limits

MOST_KINDS, MOST_OF_A_KIND = 60, 200
WANTED = 'write thickness x count, like "0.10 x4, 0.30 x2 mm"'
_TIMES = r"\s*[x×*]\s*(\d+)\s*"
# A count ends a piece, and so does a comma with a space behind it: one without may stand inside a figure.
_PIECE = re.compile(rf"\s*([^;]+?)(?:{_TIMES}(?:[,;]|$)|(?<![x×*\s])\s*(?:;|,\s|,?$))")
_UNIT_OF_ALL = re.compile(r"(\d)\s*([a-wyz][a-z]*)$")


def read_box(text: str) -> tuple[Shim, ...]:
    """The shims of a box, in the sequence said, one of each without a count; a unit behind the last is that of all.

    Thickness texts are those of the files: "0.10", "0,10 ±0.005", "4 thou".
    Raises:
        SizeError: says which piece cannot be read and how to write it.

    >>> [(shim.thickness.nominal_mm, shim.count) for shim in read_box("0.10 x4, 0.30 x2 mm")]
    [(0.1, 4), (0.3, 2)]
    >>> [(shim.thickness.nominal_mm, shim.count) for shim in read_box("2,40, 2,20 x2")]
    [(2.4, 1), (2.2, 2)]
    """
    said, unit = text.strip(), "mm"
    if behind := _UNIT_OF_ALL.search(said):
        said, unit = said[: behind.end(1)], behind[2]
    shims: list[Shim] = []
    position = 0
    while position < len(said) or not shims:
        piece = _PIECE.match(said, position)
        if piece is None:
            raise SizeError(said[position:][:60], WANTED)
        if len(shims) == MOST_KINDS:
            raise SizeError(said[position:][:60], f"name at most {MOST_KINDS} thicknesses")
        shims.append(_shim(piece[1], piece[2] or "1", unit))
        position = piece.end()
    return tuple(shims)


def _shim(size: str, count: str, unit: str) -> Shim:
    thickness = size_of(read_limits(size, default_unit=unit))
    if not thickness.low_mm > 0:
        raise SizeError(size, "a shim is thicker than nothing")
    if not 1 <= int(count[:9]) <= MOST_OF_A_KIND:
        raise SizeError(f"{size} x{count[:9]}", f"a box holds 1 to {MOST_OF_A_KIND} of a kind")
    return Shim(thickness=thickness, count=int(count))
