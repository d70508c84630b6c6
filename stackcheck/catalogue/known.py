"""Known parts by what can be measured on them: rows of the standard tables and parts of the references, with limits.

The one place where either becomes sizes to be told by. A size has limits, never a bare nominal: where a drawing gives
none, the general limits of ISO 2768-1 class m stand in (edition 1989, from memory), and the part says so. What a part
is made for (the shaft of a circlip) is no size of it; a circlip has the diameter it has when free, a nut the hole
between the crests of its thread. A thread has a name and no limits: M20x1.5 is that and nothing near it.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from stackcheck.value import Value

if TYPE_CHECKING:  # a look-up in a catalogue of its own opens no table
    from stackcheck.model.hardware import HardwareRow
    from stackcheck.model.part import Part

SIZES = (
    "bore",
    "outside",
    "length",
    "across_flats",
    "ball",
    "disc_thickness",
    "width",
    "thread_diameter",
    "thread_pitch",
)
"""Sizes by which a part is told from others."""
NAMED_SIZES = frozenset({"thread_diameter", "thread_pitch"})
"""Sizes that are the name of something: no limits of a drawing or of ISO 2768 go with them."""
ALSO_LENGTH = "disc_height"
"""What a disc spring measures along the axis: its free height, as every other part its length."""
BORE_OF_A_NUT = "core_diameter"
"""What a calliper measures in the hole of a nut: the minor diameter of its thread."""
GENERAL = ((3.0, 0.1), (6.0, 0.1), (30.0, 0.2), (120.0, 0.3), (400.0, 0.5), (1000.0, 0.8), (2000.0, 1.2))
"""ISO 2768-1 class m: up to so many mm, plus or minus."""
BEYOND_GENERAL = 2.0
"""The same above 2 m."""
LEAST_PIN_SHARE = ((1.2, 0.66), (float("inf"), 0.8))
"""The closed legs of a split pin are never thinner than this share of its hole: ISO 1234 has 0.67 to 0.80 at least for
holes to 1.2 mm, 0.81 to 0.95 from 1.6 to 20 mm."""
TABLES = "tables of standard parts"


class Limits(Value):
    """A size with the limits of a new part [mm]."""

    name: str
    low_mm: float
    high_mm: float


class Known(Value, kw_only=True):
    """A known part: its name, kind, where it stands, and its sizes with limits.
    `assumed`: ISO 2768-1 stands in for some.
    """

    name: str
    kind: str
    where: str
    sizes: tuple[Limits, ...]
    assumed: bool = False

    def size(self, name: str) -> Limits | None:
        name = "length" if name == ALSO_LENGTH else name
        for size in self.sizes:
            if size.name == name:
                return size
        return None


@cache
def standard_parts() -> tuple[tuple[str, Known], ...]:
    """Every row of every table that has a size to be told by, with the id of its table, in the sequence of the shelf.

    >>> next(part.size("bore") for _, part in standard_parts() if part.name == "ISO 7089 M16")
    Limits(name='bore', low_mm=17.0, high_mm=17.27)
    """
    from stackcheck.tables import rows, tables

    parts = ((table.id, _of_row(row)) for table in tables() for row in rows(table.id))
    return tuple((id, part) for id, part in parts if any(size.name not in NAMED_SIZES for size in part.sizes))


def _of_row(row: HardwareRow) -> Known:
    sizes = tuple(Limits(name, size.least_mm, size.most_mm) for name in SIZES if (size := _size(row, name)))
    return Known(name=row.designation, kind=row.kind, where=TABLES, sizes=sizes)


def _size(part: HardwareRow | Part, name: str) -> Any:
    if own := part.size(name):
        return own
    if name == "bore" and part.kind == "nut":
        return part.size(BORE_OF_A_NUT)
    return part.size(ALSO_LENGTH) if name == "length" else None


def reference_part(reference_id: str, part: Part) -> Known:
    """A part of a reference as a known part."""
    sizes, assumed = [], False
    hole = part.size("shaft")
    if part.kind == "split pin" and part.size("outside") is None and hole is not None:
        share = next(share for most, share in LEAST_PIN_SHARE if hole.nominal_mm <= most)
        sizes.append(Limits("outside", round(share * hole.nominal_mm, 6), hole.high_mm))
        assumed = True
    for name in SIZES:
        size = _size(part, name)
        if size is None or size.nominal_mm <= 0:
            continue
        low, high = size.low_mm, size.high_mm
        if not size.has_limits and name not in NAMED_SIZES:
            general = next((half for most, half in GENERAL if size.nominal_mm <= most), BEYOND_GENERAL)
            low = size.nominal_mm - general if size.least_mm is None else low
            high = size.nominal_mm + general if size.most_mm is None else high
            assumed = True
        sizes.append(Limits(name, low, high))
    return Known(name=part.name, kind=part.kind, where=reference_id, sizes=tuple(sizes), assumed=assumed)
