"""A spring at the length that its place leaves it: the coil spring of a mechanical seal, a wave washer beside a ring that
slides. F = k (L0 - L).

The room of a coil spring is the chain between the two faces that its stack stands between, less what stands beside it
there; that of a wave washer the chain between its two neighbours, of which one stands across the gap that it fills. A
room larger than the free length presses nothing; one shorter than the length at which all coils touch, or the waves are
flat (`length` of the part, where given), cannot be. Where a joint clamps the two bearings that a wave washer stands
between, `forces` tells what they feel of it.

Source: a linear spring, EN 13906-1; its scatter is what the reference gives for stiffness and free length.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.bodies import Missing, called
from stackcheck.mechanics.clamp import clamps_loop
from stackcheck.mechanics.distance import distance_in
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.spring_rate import spring_rate
from stackcheck.mechanics.sums import Lengths, length_of
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part
from stackcheck.model.place_words import in_its_place, place_words, the
from stackcheck.model.reference import Reference, Stack
from stackcheck.value import Value, replace


class WorkingSpring(Value, kw_only=True):
    """One spring: the length it has when fitted [mm], its force there [N], and whether that length can be.

    `name` is what the bench calls it, `coils_touch_mm` the length of the spring with all coils together, of a wave
    washer that of its sheet, None where the reference gives none.
    """

    place: str
    length: Interval | None = None
    force_n: Spanned | None = None
    name: str = ""
    coils_touch_mm: float | None = None
    is_washer: bool = False
    needs: tuple[str, ...] = ()


def working_springs(arrangement: Arrangement) -> tuple[WorkingSpring, ...]:
    """Every coil spring that stands in a stack between two other places, and every wave washer in a room of its own."""
    reference = arrangement.reference
    return tuple(
        _working(arrangement, stack, place)
        for stack in reference.stacks for place in stack.places[1:-1] if _is_told(reference, stack, place)
    )  # fmt: skip


def _is_told(reference: Reference, stack: Stack, place: str) -> bool:
    kind = reference.part_at(place).kind
    return kind == "spring" or kind == "spring washer" and not is_felt_by_bearings(reference, stack, place)


def is_felt_by_bearings(reference: Reference, stack: Stack, place: str) -> bool:
    """Whether a place stands between two bearings that a joint clamps, so that their preload is told of it."""
    spots = {name: i for i, name in enumerate(stack.places)}
    return any(
        clamps_loop(reference, joint, loop) and stack.name in (loop.open_stack, loop.closed_stack)
        and min(spots[loop.start], spots[loop.end]) < spots[place] < max(spots[loop.start], spots[loop.end])
        for loop in reference.loops for joint in reference.joints
    )  # fmt: skip


def _working(arrangement: Arrangement, stack: Stack, place: str) -> WorkingSpring:
    spring = arrangement.reference.part_at(place)
    solid, is_washer = spring.size("length"), spring.kind == "spring washer"
    name = the(place_words(arrangement.reference, place))
    told = WorkingSpring(
        place=place, name=name, coils_touch_mm=solid.nominal_mm if solid else None, is_washer=is_washer
    )
    spot = stack.places.index(place)
    ends = (stack.places[spot - 1], stack.places[spot + 1]) if is_washer else (stack.places[0], stack.places[-1])
    try:
        standing, room = _room(arrangement, stack, place, ends)
        lengths = room.summed()
        if lengths.total is None:
            raise Missing(*lengths.needs)
        free = arrangement.ruler.size(standing, "free_length")
        unknowns, force = with_variants(lambda unknowns: _force(unknowns, spring, free, lengths.total))
    except Missing as problem:
        return replace(told, needs=tuple(map(str, problem.args)))
    return replace(told, length=lengths.total, force_n=unknowns.spanned(force))


def _room(arrangement: Arrangement, stack: Stack, place: str, ends: tuple[str, str]) -> tuple[Standing, Lengths]:
    """The spring, and what two other places of its stack leave between them, less what stands there beside it."""
    members = [item for item in arrangement.paths[stack.name] if isinstance(item, Member)]
    homes = [member.standing.home for member in members]
    absent = [end for end in (ends[0], place, ends[1]) if end not in homes]
    if absent:
        raise Missing(*(in_its_place(arrangement.reference, end) for end in absent))
    first, last = homes.index(ends[0]), homes.index(ends[1])
    room = distance_in(arrangement, *ends)
    for member in members[first + 1 : last]:
        if member.standing.home != place:
            room += -length_of(arrangement.ruler, member, stack.through)
    return members[homes.index(place)].standing, room


def _force(unknowns: Unknowns, spring: Part, free: Interval | None, room: Interval) -> Any:
    its = called(spring)
    if free is None:
        raise Missing(f"free length of the {its}")
    k = spring_rate(unknowns, spring)
    length = unknowns.value(f"free length of the {its}", free.least_mm, free.nominal_mm, free.most_mm)
    # Rings of bearings and circlips are only ever below their nominal length, so the usual room is no nominal one.
    at = unknowns.value(f"room of the {its}", room.least_mm, room.middle_mm, room.most_mm)
    return k * np.maximum(length - at, 0.0)
