"""The size of a part that the reference does not have, by the number read off it: what the table of its standard gives.

A number names a new part of that standard and is no measurement: the size counts in sums with the limits of the table,
and nothing is written into the list. A number of another kind of part than the entry is said to be gives nothing.
"""

from __future__ import annotations

from stackcheck.model.found import Entry
from stackcheck.model.part import Size
from stackcheck.tables import UnknownStandard, resolve


def size_by_number(entry: Entry, names: tuple[str, ...]) -> Size | None:
    """The first of these sizes that the table has; None where no table has the number."""
    if not entry.marked:
        return None
    try:
        row = resolve(entry.marked)
    except UnknownStandard:
        return None
    if entry.kind not in ("", row.kind):
        return None
    size = next((size for name in names if (size := row.size(name)) is not None), None)
    if size is None:
        return None
    return Size(
        text=row.designation, nominal_mm=size.nominal_mm, least_mm=size.least_mm, most_mm=size.most_mm,
        limits_from=row.standard,
    )  # fmt: skip
