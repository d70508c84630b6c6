"""Which other assemblies hold the same part: by its number, by a number accepted for it,
as a standard part, or by size.

Equal sizes are no proof of the same part and are said as what they are; they count where the kind is the same and at
least two sizes are given on both sides, all of those equal within their limits.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.value import Value

LEAST_SIZES = 2

NUMBER, ACCEPTED, STANDARD, SIZES = "number", "accepted number", "standard part", "equal sizes"


class Shared(Value, kw_only=True):
    """A part of one reference and the part of another that is the same, and how we know."""

    part: str
    reference: Reference
    other: str
    by: str


def shared(reference: Reference, others: Iterable[Reference], ids: Iterable[str] = ()) -> tuple[Shared, ...]:
    """For each part (or each of `ids`) the same part in other references, the surest reason of each."""
    wanted = [reference.part(id) for id in ids] or list(reference.parts)
    return tuple(
        Shared(part=part.id, reference=other, other=candidate.id, by=by)
        for part in wanted
        for other in others
        if other.id != reference.id
        for candidate in other.parts
        if (by := same_part(part, candidate))
    )


def same_part(one: Part, other: Part) -> str:
    """How two parts are known to be the same, "" where they are not."""
    if one.number and one.number == other.number:
        return NUMBER
    if one.number in other.accepts or other.number in one.accepts:
        return ACCEPTED
    if one.standard and one.standard == other.standard:
        return STANDARD
    sizes = dict(other.sizes)
    both = [(size, sizes[name]) for name, size in one.sizes if name in sizes]
    alike = len(both) >= LEAST_SIZES and all(
        a.low_mm <= b.nominal_mm <= a.high_mm and b.low_mm <= a.nominal_mm <= b.high_mm for a, b in both
    )
    return SIZES if alike and one.kind == other.kind and not one.fixed and not other.fixed else ""
