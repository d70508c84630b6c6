"""The members that a stack stands between, such as the legs of a fork, and the room that they have to spare over it."""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.model.reference import Loop, Reference


def frame(reference: Reference, place: str) -> Loop | None:
    """The loop of the members that a stack stands between, one of them this place:
    its one path all stays on the machine.
    """
    for loop in reference.loops:
        is_end = place in (loop.start, loop.end) and bool(loop.closed_stack)
        if is_end and is_frame(reference, loop.closed_path) != is_frame(reference, loop.open_path):
            return loop
    return None


def is_frame(reference: Reference, path: tuple[str, ...]) -> bool:
    return bool(path) and all(reference.part_at(place).fixed for place in path)


def room(arrangement: Arrangement, loop: Loop) -> Interval | None:
    """What the members have to spare over the stack between them [mm]."""
    total = loop_lengths(arrangement, loop).total
    return total if total is None or is_frame(arrangement.reference, loop.closed_path) else -total


def floats(reference: Reference, place: str) -> bool:
    return any(support.place == place and support.floating for support in reference.supports)
