"""The cheapest slips that turn one arrangement into another: the same parts, another sequence, some faces turned.

Given are the parts as found, first end to second end, and which of them the reference orders. V = pairs found one way
that the reference orders the other. Parts that V connects are a *knot*; a knot is settled alone: one slip is recognised
at once (`one_slip`), several are searched (`slip_search`). A slip may start from any line of the same arrangement.
Parts of equal number that have a face never pass one another, except in a run that was turned. Pieces of a counted
place that came off together are one part throughout: no slip takes them apart, nor puts together what came off apart.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from stackcheck.compare.one_slip import Knot
from stackcheck.compare.prices import ORDINARY_SLIP
from stackcheck.compare.sets import bits, hull_of, ordered_pairs, reach_of, union, violations, within
from stackcheck.compare.slip_search import SlipSearch
from stackcheck.compare.slips import Budget, Item, Settled, Slip

MOST_WITH_FREE_PARTS = 12  # parts that nothing orders to a knot may be swapped into it; looked at in short lines only


def settle(items: Sequence[Item], before: Sequence[int], limit: int, budget: Budget) -> Settled:
    """The cheapest slips; at `limit` or above the search may stop, and the price is only an upper bound."""
    knots = _knots(items, before)
    alone: list[Settled] = []
    for number, members in enumerate(knots, 1):
        others = sum(found.bound for found in alone) + ORDINARY_SLIP * (len(knots) - number)
        alone.append(_settle_knot(items, before, members, limit - others, budget))
    price, bound = sum(found.price for found in alone), sum(found.bound for found in alone)
    slips = tuple(slip for found in alone for slip in found.slips)
    if price <= 2 * ORDINARY_SLIP:
        return Settled(price, slips, bound)
    if not budget.thorough and _leaves_pairs_free(before) and any(found.price > 2 * ORDINARY_SLIP for found in alone):
        bound = min(bound, 2 * ORDINARY_SLIP)
    if budget.thorough:
        # A part that agrees may still have been swapped twice: nothing is left out of a short line.
        members = list(range(len(items)))
    elif len(knots) > 1 and _side_by_side(knots):
        # Two slips across knots that touch may settle what takes three one knot at a time.
        members = list(range(min(knot[0] for knot in knots), max(knot[-1] for knot in knots) + 1))
    else:
        return Settled(price, slips, bound)
    if members in knots:
        return Settled(price, slips, bound)
    joint = _settle_knot(items, before, members, min(limit, price), budget)
    bound = min(bound, joint.bound) if budget.thorough or not _leaves_pairs_free(before) else 2 * ORDINARY_SLIP
    return (
        Settled(joint.price, joint.slips, min(bound, joint.price))
        if joint.price < price
        else Settled(price, slips, bound)
    )


def _leaves_pairs_free(before: Sequence[int]) -> bool:
    """Whether the reference leaves any two items unordered."""
    return sum(mask.bit_count() for mask in before) < len(before) * (len(before) - 1) // 2


def _settle_knot(
    items: Sequence[Item], before: Sequence[int], members: list[int], limit: int, budget: Budget
) -> Settled:
    found = SlipSearch([items[i] for i in members], within(before, members), budget).settle(limit)
    slips = tuple(Slip(slip.kind, tuple(members[i] for i in slip.items), slip.price) for slip in found.slips)
    return Settled(found.price, slips, found.bound)


def _side_by_side(knots: Sequence[Sequence[int]]) -> bool:
    return any(a[-1] + 1 >= b[0] for a, b in pairwise(knots))


def slips_needed(items: Sequence[Item], before: Sequence[int]) -> int:
    """0, 1 or 2: no slip, one slip, or at least two, with whatever else may stand in the line."""
    knots = _knots(items, before)
    if len(knots) != 1:
        return min(len(knots), 2)
    members = knots[0]
    knot = Knot([items[i] for i in members], within(before, members), Budget())
    return 1 if knot.single(knot.start) else 2


def _knots(items: Sequence[Item], before: Sequence[int]) -> list[list[int]]:
    """Items that contradictions connect, with what stands between them; what nothing orders to a knot belongs to it."""
    against = violations(before)
    turned = union(1 << i for i, item in enumerate(items) if item.turned)
    touched = turned | union(against)
    if not touched:
        return []
    ordered = ordered_pairs(before)
    knots: list[int] = []
    for i in bits(touched):
        mask = against[i] | touched & ~ordered[i] | 1 << i
        apart = []
        for knot in knots:
            if knot & mask:
                mask |= knot
            else:
                apart.append(knot)
        knots = [*apart, mask]
    reach = reach_of(range(len(items)), ordered)
    free = (1 << len(items)) - 1 if len(items) <= MOST_WITH_FREE_PARTS else 0
    free &= ~touched
    whole = []
    for knot in sorted(knots, key=lambda knot: knot & -knot):
        unordered = free & union(~(ordered[i] | 1 << i) for i in bits(knot))
        whole.append(list(bits(hull_of(knot | unordered, reach))))
    return whole
