"""Which parts a joint presses together: told from the sequence alone, no force is computed.

A joint names two places. What stands between them is clamped, and so is what stands beyond them as far as the nut, the
bolt or the shoulder that the pull ends at: a washer under the nut, a shim against the shoulder.
A gap left open ends it.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.model.reference import Gap, Joint, Loop, Reference, Stack

TURNED = frozenset({"nut", "bolt"})
"""Kinds that are turned on a thread, and press with a face of their own."""

PULLS = frozenset({"nut", "bolt", "axle", "shaft", "arbor"})
"""Kinds of part that a pull ends at."""


def clamped_stack(reference: Reference, joint: Joint) -> str | None:
    """The stack through inner rings that holds both places a joint clamps; None where its nut presses outer rings."""
    holding = [stack for stack in reference.stacks if all(place in stack.places for place in joint.clamps)]
    turned = {stack.through for stack in holding if any(reference.part_at(at).kind in TURNED for at in stack.places)}
    if "outer rings" in turned and "inner rings" not in turned:
        return None  # an adjuster: two bearings stand in both stacks, its thread in one
    return next((stack.name for stack in holding if stack.through == "inner rings"), None)


def joins_bearings(reference: Reference, loop: Loop) -> bool:
    """Whether a loop runs from bearing to bearing, by their inner rings and by their outer ones."""
    return bool(loop.closed_stack) and all(
        "bearing" in reference.part_at(place).kind for place in (loop.start, loop.end)
    )


def inner_stack(reference: Reference, loop: Loop) -> str:
    """That one of the two stacks of a loop which runs through the inner rings; "" where none does."""
    through = {reference.stack(name).through: name for name in (loop.open_stack, loop.closed_stack)}
    return through.get("inner rings", "")


def clamps_loop(reference: Reference, joint: Joint, loop: Loop) -> bool:
    """Whether both bearings of a loop stand among the parts that the joint presses together."""
    if not joins_bearings(reference, loop):
        return False
    stack = clamped_stack(reference, joint)
    if stack is None or stack not in (loop.closed_stack, loop.open_stack):
        return False
    places = reference.stack(stack).places
    first, last = sorted(places.index(place) for place in joint.clamps)
    return all(first <= places.index(place) <= last for place in (loop.start, loop.end))


def grip(arrangement: Arrangement, joint: Joint, stack: str) -> range:
    """Positions in the path of a stack (gaps counted) that a joint presses together; empty where it presses none."""
    reference, path = arrangement.reference, arrangement.paths[stack]
    places = reference.stack(stack).places
    named = sorted(places.index(place) for place in joint.clamps if place in places)
    if not named:
        return range(0)
    # By what stands in the places between: the parts of the two that are named may be elsewhere, or missing.
    between = set(places[named[0] : named[-1] + 1])
    inside = [i for i, item in enumerate(path) if isinstance(item, Member) and item.place in between]
    if not inside:
        return range(0)
    # A stack that holds only one of the two places is clamped where the nut, the bolt or the axle itself stands in it.
    first, last = (
        _end(arrangement, stack, inside[at], step, at_shoulder=len(named) == 2) for at, step in ((0, -1), (-1, 1))
    )
    return range(first, last + 1) if len(named) == 2 or last > first else range(0)


def pinching(reference: Reference, loop: Loop) -> str:
    """The joint that presses what a gap should leave free as soon as the gap is none; "" for none.

    It clamps the path that closes the gap from end to end. Between two bearings it is their preload.
    """
    if loop.set_by or not loop.closed_stack or joins_bearings(reference, loop):
        return ""
    places = reference.stack(loop.closed_stack).places
    ends = [places.index(place) for place in (loop.start, loop.end)]
    for joint in reference.joints:
        if set(joint.clamps) <= set(places):
            first, last = sorted(places.index(place) for place in joint.clamps)
            if first <= min(ends) and max(ends) <= last:
                return joint.name
    return ""


def drawn_shut(reference: Reference, joint: Joint) -> tuple[str, ...]:
    """The gaps between its two places that a joint must draw shut before it clamps, and no support says what that takes."""
    return tuple(
        gap.name
        for stack in reference.stacks if set(joint.clamps) <= set(stack.places)
        for gap, beside in _gaps_between(stack, joint)
        if not (gap.clamped or gap.set_by) and not any(support.place in beside for support in reference.supports)
    )  # fmt: skip


def _gaps_between(stack: Stack, joint: Joint) -> list[tuple[Gap, tuple[str, str]]]:
    """Each gap of a stack between the two places of a joint, with what stands beside it."""
    first, last = sorted(stack.items.index(place) for place in joint.clamps)
    items = stack.items
    return [(items[i], (items[i - 1], items[i + 1])) for i in range(first + 1, last) if isinstance(items[i], Gap)]


def ends_the_pull(arrangement: Arrangement, member: Member, joint: Joint) -> bool:
    """Whether a member of the grip is the nut, or the shoulder that the joint pulls against."""
    part = arrangement.ruler.part(member.standing)
    return part is not None and (part.kind in PULLS or part.fixed and member.place not in joint.clamps)


def _end(arrangement: Arrangement, stack: str, start: int, step: int, *, at_shoulder: bool) -> int:
    """Onward from a clamped part to what the pull ends at; no further than where it started when there is none."""
    path, spot = arrangement.paths[stack], start + step
    while 0 <= spot < len(path) and not isinstance(path[spot], Gap):
        part = arrangement.ruler.part(path[spot].standing)
        if part is not None and (part.fixed and at_shoulder or part.kind in PULLS and not part.fixed):
            return spot
        spot += step
    return start
