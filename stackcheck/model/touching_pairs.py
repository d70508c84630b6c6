"""Two bearings of one direction that stand face to face, by their inner rings and by their outer ones.

No length stands between them, so they close no loop of lengths (`stackcheck.model.loops`), yet a force can be in their
place as in that of a gap: it has the name and the shape of a loop with nothing on either path.
"""

from __future__ import annotations

from itertools import pairwise

from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.model.reference import Loop, Reference


def touching_pairs(reference: Reference) -> tuple[Loop, ...]:
    """Every two bearings of one direction that touch by their inner rings and by their outer ones, as a loop of faces."""
    touches: dict[str, dict[frozenset[str], str]] = {"inner rings": {}, "outer rings": {}}
    for stack in reference.stacks:
        for a, b in pairwise(stack.items):
            if stack.through in touches and isinstance(a, str) and isinstance(b, str):
                touches[stack.through][frozenset((a, b))] = stack.name
    inner, outer = touches["inner rings"], touches["outer rings"]
    pairs = []
    for stack in reference.stacks:
        for a, b in pairwise(stack.places):
            both = frozenset((a, b))
            if inner.get(both) == stack.name and both in outer and _are_a_pair(reference, a, b):
                pairs.append(_loop(a, b, inner=stack.name, outer=outer[both]))
    return tuple(pairs)


def pair_name(*places: str) -> str:
    """Of two places; the same from whichever side they are seen."""
    return f"pair of {' and '.join(sorted(places))}"


def _are_a_pair(reference: Reference, *places: str) -> bool:
    """Of one direction each, and not meant to look the same way, as two that share one load do."""
    ways = [reference.place(place).facing for place in places]
    kinds = {reference.part_at(place).kind for place in places}
    return kinds <= SINGLE_DIRECTION_KINDS and not (ways[0] and ways[0] == ways[1])


def _loop(start: str, end: str, *, inner: str, outer: str) -> Loop:
    return Loop(
        name=pair_name(start, end), start=start, end=end, open_stack=outer, closed_stack=inner,
        open_path=(), closed_path=(), gap_between=(start, end), stated=False,
    )  # fmt: skip


def bearing_loops(reference: Reference) -> tuple[Loop, ...]:
    """The loops of lengths, and the pairs that touch: everything in whose place a preload can be."""
    return (*reference.loops, *touching_pairs(reference))


def is_touching(loop: Loop) -> bool:
    return bool(loop.closed_stack) and not loop.open_path and not loop.closed_path
