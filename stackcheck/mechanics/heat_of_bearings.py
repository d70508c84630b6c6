"""What heat does to the bearings of a reference:
which part they are seated in, and how warm the axle beside them is.
"""

from __future__ import annotations

from operator import mul
from typing import Any

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.heat import Heat, clearance_growth, outer_growth, race_diameter
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.expansion import expansion, of_metal
from stackcheck.model.part import SEATS, SINGLE_DIRECTION_KINDS, Part
from stackcheck.model.reference import Joint, Reference
from stackcheck.model.state import AXLE

TURNS = frozenset({"axle", "shaft", "arbor"})
"""Kinds that a joint stretches."""


def clearance_change(unknowns: Unknowns, part: Part, place: str, seat: Part | None, heat: Heat) -> Any:
    """How much the clearance of one bearing grows across [mm], its outer ring in a seat.

    The seat counts for a bearing of one direction. What a warm seat gives back to a deep-groove bearing its fit has
    taken before, and that is part of the range of its clearance already.
    """
    if not heat.is_grown or part.size("bore") is None or part.size("outside") is None:
        return 0.0
    seat = seat if part.kind in SINGLE_DIRECTION_KINDS else None
    grows = outer_growth(unknowns, part, place, seat, heat)
    return clearance_growth(
        race_mm=race_diameter(part), inner_kelvin=heat.ring(part, place, "inner"), outer_grows=grows
    )


def seat_of(arrangement: Arrangement, place: str, outer_stack: str) -> Part | None:
    """The part that an outer ring sits in: the nearest in its stack that can hold one."""
    reference = arrangement.reference
    places = reference.stack(outer_stack).places
    if place not in places:
        return None
    at = places.index(place)
    near = sorted(range(len(places)), key=lambda i: abs(i - at))
    return next((part for i in near if (part := reference.part_at(places[i])).kind in SEATS), None)


def axle_part(reference: Reference) -> Part | None:
    """The axle that a joint stretches, where the reference has just one such part with a material."""
    parts = {part.id: part for part in reference.parts if part.kind in TURNS and part.material}
    return next(iter(parts.values())) if len(parts) == 1 else None


def axle_expansion(reference: Reference, joint: Joint) -> float:
    """Linear expansion of what a joint stretches [1/K]: of the steps of its shank together where it says them, each of
    its own metal; what is left as far as the nut counts as they do. Else that of the axle.
    """
    axle = axle_part(reference)
    lengths = [step.length.nominal_mm for step in joint.shank]
    if not lengths:
        return expansion(axle)
    metals = [of_metal(step.material) if step.material else expansion(axle) for step in joint.shank]
    return sum(map(mul, lengths, metals)) / sum(lengths)


def axle_kelvin(reference: Reference, heat: Heat) -> float:
    """How much warmer than 20 °C the axle is [K]: as told for it, or for its part."""
    return heat.kelvin(AXLE, *(part.id for part in reference.parts if part.kind in TURNS))
