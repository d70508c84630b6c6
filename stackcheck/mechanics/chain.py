"""Chains of lengths: how long a stack is, how wide its gaps are, how far apart two faces lie.

Always the same two states side by side: the reference, and what was found as an explanation believes it stood. Every
answer can be opened to its terms. Nothing here knows a force: a clamped stack is a little shorter than its sum.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement, as_believed, as_wanted
from stackcheck.mechanics.distance import distance
from stackcheck.mechanics.loops import LoopState, as_found_loops, loops
from stackcheck.mechanics.sums import Sum, passing, stack_lengths
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference

__all__ = ["LoopState", "Sum", "as_found_loops", "as_found_sum", "distance", "loops", "stack_sum"]


def stack_sum(reference: Reference, stack_name: str) -> Sum:
    """The length of a stack by the reference: nominal and worst case, between its outermost fixed faces."""
    return _summed(as_wanted(reference), stack_name)


def as_found_sum(reference: Reference, found: Found, explanation: Explanation, stack_name: str) -> Sum:
    """The length of a stack as found: readings where something was measured, the reference's limits elsewhere."""
    return _summed(as_believed(reference, found, explanation), stack_name)


def _summed(arrangement: Arrangement, stack_name: str) -> Sum:
    if name := passing(as_wanted(arrangement.reference), stack_name):
        return Sum(terms=(), total=None, needs=(f"a length: {name} passes through or lies across",), passing=name)
    lengths, between = stack_lengths(arrangement, stack_name)
    return lengths.summed(between)
