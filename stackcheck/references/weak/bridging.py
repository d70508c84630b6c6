"""Rings and washers that reach from one ring of a bearing over to the other.

A washer that is clamped against the inner ring and reaches the outer one brakes the bearing. Where the rings end is
estimated from bore and outside diameter: each ring takes about 0.31 of their difference in a ball bearing, and the
outer ring of a taper bearing, which is thin where the inner ring is wide, about 0.2 (from memory, dimensions in makers'
lists).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from stackcheck.mechanics.bridges import PLAIN_KINDS, RING_SHARE
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness, mm


def bridging(reference: Reference) -> Iterator[Weakness]:
    for stack in reference.stacks:
        for one, other in pairwise(stack.places):
            for bearing, beside in ((one, other), (other, one)):
                weak = _bridges(reference.part_at(bearing), reference.part_at(beside), beside, stack.through)
                if weak is not None:
                    yield weak


def _bridges(bearing: Part, part: Part, place: str, through: str) -> Weakness | None:
    bore, outside = bearing.size("bore"), bearing.size("outside")
    if bearing.kind not in RING_SHARE or part.kind not in PLAIN_KINDS or part.fixed or not (bore and outside):
        return None
    ring_mm = RING_SHARE[bearing.kind] * (outside.nominal_mm - bore.nominal_mm)
    if through == "inner rings" and (size := part.size("outside")) and size.high_mm > outside.nominal_mm - ring_mm:
        reaches, other_ring, key, at = size.high_mm, "outer", "outside", outside.nominal_mm - ring_mm
    elif through == "outer rings" and (size := part.size("bore")) and size.low_mm < bore.nominal_mm + ring_mm:
        reaches, other_ring, key, at = size.low_mm, "inner", "bore", bore.nominal_mm + ring_mm
    else:
        return None
    return Weakness(
        check="bridging",
        grade=TO_MEND,
        about=("parts", part.id, key),
        sentence=f"{part.name} ({place}) stands beside {bearing.name} in the stack through the {through}, "
        f"and its {key} of {mm(reaches)} reaches the {other_ring} ring, which begins at about {mm(at)}",
        mend="look at its sizes; if it is hollowed out there, note it as a cover or flange",
    )
