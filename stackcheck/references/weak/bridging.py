"""Rings and washers that reach from one ring of a bearing over to the other.

A washer that is clamped against the inner ring and reaches the outer one brakes the bearing. Where the rings end is
estimated from bore and outside diameter: each ring takes about 0.31 of their difference in a ball bearing, and the
outer ring of a taper bearing, which is thin where the inner ring is wide, about 0.2 (from memory, dimensions in makers'
lists).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from stackcheck.mechanics.arrangement import standing_in
from stackcheck.mechanics.bridges import PLAIN_KINDS, RING_SHARE
from stackcheck.mechanics.faces import face_size
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness, mm


def bridging(reference: Reference) -> Iterator[Weakness]:
    for stack in reference.stacks:
        for one, other in pairwise(stack.places):
            for bearing, beside, end in ((one, other, "first"), (other, one, "second")):
                weak = _bridges(reference, reference.part_at(bearing), beside, stack.through, end)
                if weak is not None:
                    yield weak


def _bridges(reference: Reference, bearing: Part, place: str, through: str, end: str) -> Weakness | None:
    """`end` is where the face looks that touches the bearing."""
    part = reference.part_at(place)
    bore, outside = bearing.size("bore"), bearing.size("outside")
    if bearing.kind not in RING_SHARE or part.kind not in PLAIN_KINDS or part.fixed or not (bore and outside):
        return None
    ring_mm = RING_SHARE[bearing.kind] * (outside.nominal_mm - bore.nominal_mm)
    key, other_ring = ("outside", "outer") if through == "inner rings" else ("bore", "inner")
    face, size = face_size(reference, standing_in(reference.place(place)), part, end, key), part.size(key)
    if not through or face is None and size is None:
        return None
    if key == "outside":
        reaches, at = size.high_mm if face is None else face, outside.nominal_mm - ring_mm
    else:
        reaches, at = size.low_mm if face is None else face, bore.nominal_mm + ring_mm
    if reaches <= at if key == "outside" else reaches >= at:
        return None
    return Weakness(
        check="bridging",
        grade=TO_MEND,
        about=("parts", part.id, key),
        sentence=f"{part.name} ({place}) stands beside {bearing.name} in the stack through the {through}, "
        f"and its {key} of {mm(reaches)} reaches the {other_ring} ring, which begins at about {mm(at)}",
        mend="look at its sizes; where its face is smaller than that, write face_outside or face_bore",
    )
