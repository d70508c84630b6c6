"""Chains of lengths: how long a stack is, how wide its gaps are, how far apart two faces lie.

Always the same two states side by side: the reference, and what was found as an explanation believes it stood. Every
answer can be opened to its terms. Nothing here knows a force: a clamped stack is a little shorter than its sum.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement, as_believed, as_wanted
from stackcheck.mechanics.distance import distance
from stackcheck.mechanics.lengths import total_of
from stackcheck.mechanics.loops import LoopState, as_found_loops, loops
from stackcheck.mechanics.sums import Lengths, Sum, passing, stack_lengths
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace

__all__ = ["LoopState", "Sum", "as_found_loops", "as_found_sum", "distance", "loops", "stack_sum"]


SPRINGS = frozenset({"spring", "spring washer"})


def stack_sum(reference: Reference, stack_name: str) -> Sum:
    """The length of a stack by the reference: nominal and worst case, between its outermost fixed faces."""
    return _summed(as_wanted(reference), stack_name)


def as_found_sum(reference: Reference, found: Found, explanation: Explanation, stack_name: str) -> Sum:
    """The length of a stack as found: readings where something was measured, the reference's limits elsewhere."""
    return _summed(as_believed(reference, found, explanation), stack_name)


def _summed(arrangement: Arrangement, stack_name: str) -> Sum:
    if name := passing(as_wanted(arrangement.reference), stack_name):
        return Sum(
            terms=(),
            total=None,
            needs=(f"a length: {name} passes through, lies across or sits in a bore",),
            passing=name,
        )
    lengths, between = stack_lengths(arrangement, stack_name)
    own, fills = lengths.summed(between), _fill_their_room(arrangement, stack_name, lengths)
    if not fills:
        return own
    needs = tuple(need for need in own.needs if need not in fills)
    beside = None if needs else total_of(own.terms)
    return replace(own, needs=needs, fills=tuple(fills.values()), beside_them=beside)


def _fill_their_room(arrangement: Arrangement, stack_name: str, lengths: Lengths) -> dict[str, str]:
    """The springs of a stack without a length, by what would be said to be missing: they are as long as their room."""
    ruler, springs = arrangement.ruler, {}
    for member in arrangement.members(stack_name):
        part, need = ruler.part(member.standing), ruler.needs_length(member.standing)
        if part is not None and part.kind in SPRINGS and need in lengths.missing:
            springs[need] = part.name
    return springs
