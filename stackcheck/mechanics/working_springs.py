"""A coil spring at the length that its place leaves it, such as that of a mechanical seal: F = k (L0 - L).

The room is the chain between the two faces that its stack stands between, less what stands beside it there. A room
larger than the free length presses nothing; one shorter than the length at which all coils touch (`length` of the part,
where given) cannot be.

Source: a linear spring, EN 13906-1; its scatter is what the reference gives for stiffness and free length.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.bodies import Missing, called
from stackcheck.mechanics.distance import distance_in
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.spring_rate import free_length, spring_rate
from stackcheck.mechanics.sums import Lengths, length_of
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.part import Part
from stackcheck.model.place_words import in_its_place
from stackcheck.model.reference import Stack
from stackcheck.value import Value


class WorkingSpring(Value, kw_only=True):
    """One coil spring: the length it has when fitted [mm], its force there [N], and whether that length can be.

    `coils_touch_mm` is the length of the spring with all coils together, None where the reference gives none.
    """

    place: str
    length: Interval | None = None
    force_n: Spanned | None = None
    coils_touch_mm: float | None = None
    needs: tuple[str, ...] = ()


def working_springs(arrangement: Arrangement) -> tuple[WorkingSpring, ...]:
    """Every coil spring that stands in a stack between two other places."""
    reference = arrangement.reference
    return tuple(
        _working(arrangement, stack, place)
        for stack in reference.stacks for place in stack.places[1:-1] if reference.part_at(place).kind == "spring"
    )  # fmt: skip


def _working(arrangement: Arrangement, stack: Stack, place: str) -> WorkingSpring:
    spring = arrangement.reference.part_at(place)
    solid = spring.size("length")
    touch = None if solid is None else solid.nominal_mm
    try:
        lengths = _room(arrangement, stack, place).summed()
        if lengths.total is None:
            raise Missing(*lengths.needs)
        unknowns, force = with_variants(lambda unknowns: _force(unknowns, spring, lengths.total))
    except Missing as problem:
        return WorkingSpring(place=place, coils_touch_mm=touch, needs=tuple(map(str, problem.args)))
    return WorkingSpring(place=place, length=lengths.total, force_n=unknowns.spanned(force), coils_touch_mm=touch)


def _room(arrangement: Arrangement, stack: Stack, place: str) -> Lengths:
    """What the two ends of the stack leave between them, less what stands beside the spring."""
    members = [item for item in arrangement.paths[stack.name] if isinstance(item, Member)]
    homes = [member.standing.home for member in members]
    absent = [end for end in (stack.places[0], place, stack.places[-1]) if end not in homes]
    if absent:
        raise Missing(*(in_its_place(arrangement.reference, end) for end in absent))
    first, last = homes.index(stack.places[0]), homes.index(stack.places[-1])
    room = distance_in(arrangement, stack.places[0], stack.places[-1])
    for member in members[first + 1 : last]:
        if member.standing.home != place:
            room += -length_of(arrangement.ruler, member, stack.through)
    return room


def _force(unknowns: Unknowns, spring: Part, room: Interval) -> Any:
    k, length = spring_rate(unknowns, spring), free_length(unknowns, spring)
    at = unknowns.value(f"room of the {called(spring)}", room.least_mm, room.nominal_mm, room.most_mm)
    return k * np.maximum(length - at, 0.0)
