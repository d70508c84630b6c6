"""Whether what was read off a part is the number of a part of the reference.

A machine's maker gives numbers; a standard part carries its designation instead: "6204-2RS C3" on a bearing whose part
says `standard = "6204 C3"`. Two designations agree when they name the same standard and sizes; seals are no difference,
a clearance group is one only where both say it.
"""

from __future__ import annotations

from functools import lru_cache

from stackcheck.model.part import Part
from stackcheck.tables import UnknownStandard, resolve
from stackcheck.value import Value


class Designation(Value):
    """A standard part as its designation names it; `clearance` is "" where none is marked."""

    kind: str
    sizes: tuple[tuple[str, float], ...]
    standard: str
    clearance: str

    def agrees_with(self, other: Designation) -> bool:
        same = (self.kind, self.sizes, self.standard) == (other.kind, other.sizes, other.standard)
        return same and (not self.clearance or not other.clearance or self.clearance == other.clearance)


@lru_cache(maxsize=512)
def designation(text: str) -> Designation | None:
    """What a designation names, None for a text that is none we have a table for."""
    try:
        row = resolve(text)
    except UnknownStandard:
        return None
    sizes = tuple((size.name, size.nominal_mm) for size in row.sizes if size.name != "radial_clearance")
    groups = [
        feature for feature in row.features if feature.startswith("clearance group") and "not marked" not in feature
    ]
    return Designation(row.kind, sizes, row.standard, groups[0] if groups else "")


def is_own_number(part: Part, marked: str) -> bool:
    """Whether the part carries this number: its maker's, or its designation."""
    if marked == part.number:
        return True
    read, wanted = designation(marked), designation(part.standard) if part.standard else None
    return read is not None and wanted is not None and read.agrees_with(wanted)


def is_anothers(part: Part, marked: str) -> bool:
    """Whether the number says that this is not the part: another maker's number, or another designation."""
    if is_own_number(part, marked) or marked in part.accepts:
        return False
    return bool(part.standard) if designation(marked) is not None else bool(part.number)
