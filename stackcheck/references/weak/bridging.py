"""Rings and washers that reach from one ring of a bearing over to the other.

A washer that is clamped against the inner ring and reaches the outer one brakes the bearing. Where the rings end is
estimated from bore and outside diameter, by the usual share of makers' sizes (`mechanics.ring_share`).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from stackcheck.mechanics.arrangement import standing_in
from stackcheck.mechanics.bridges import PLAIN_KINDS
from stackcheck.mechanics.faces import face_size
from stackcheck.mechanics.lengths import Ruler
from stackcheck.mechanics.ring_share import face_share
from stackcheck.model.part import RING_BEARINGS, Part, Size
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness, mm


def bridging(reference: Reference) -> Iterator[Weakness]:
    for stack in reference.stacks:
        for one, other in pairwise(stack.places):
            for bearing, beside, end in ((one, other, "second"), (other, one, "first")):
                facing = reference.place(bearing).facing
                at_wide = facing == end if facing else None
                ring = "outside" if stack.through == "inner rings" else "bore"
                part = reference.part_at(beside)
                size = _end_size(reference, beside, part, "first" if end == "second" else "second", ring)
                weak = _bridges(reference.part_at(bearing), part, size, beside, stack.through, at_wide)
                if weak is not None:
                    yield weak


def _end_size(reference: Reference, place: str, part: Part, end: str, name: str) -> Size | None:
    """The outside or the bore of the face that a part has at this end."""
    face = face_size(Ruler(reference=reference), standing_in(reference.place(place)), part, end, name)
    return part.size(name) if face is None else Size(text=f"{face:g} mm", nominal_mm=face)


def _bridges(
    bearing: Part, part: Part, size: Size | None, place: str, through: str, at_wide: bool | None
) -> Weakness | None:
    bore, outside = bearing.size("bore"), bearing.size("outside")
    if bearing.kind not in RING_BEARINGS or part.kind not in PLAIN_KINDS or part.fixed or not (bore and outside):
        return None
    other = "outer" if through == "inner rings" else "inner"
    ring_mm = face_share(bearing.kind, other, at_wide).usual * (outside.nominal_mm - bore.nominal_mm)
    if through == "inner rings" and size and size.high_mm > outside.nominal_mm - ring_mm:
        reaches, other_ring, key, at = size.high_mm, "outer", "outside", outside.nominal_mm - ring_mm
    elif through == "outer rings" and size and size.low_mm < bore.nominal_mm + ring_mm:
        reaches, other_ring, key, at = size.low_mm, "inner", "bore", bore.nominal_mm + ring_mm
    else:
        return None
    return Weakness(
        check="bridging",
        grade=TO_MEND,
        about=("parts", part.id, "sections" if part.sections else key),
        sentence=f"{part.name} ({place}) stands beside {bearing.name} in the stack through the {through}, "
        f"and its {key} of {mm(reaches)} reaches the {other_ring} ring, which begins at about {mm(at)}",
        mend="look at its sizes; where its face is smaller than that, write face_outside or face_bore",
    )
