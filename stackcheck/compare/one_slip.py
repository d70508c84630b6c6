"""Whether one slip settles a knot: a swap, a run moved, a run end for end, a part turned round.

It is recognised from the contradictions at once, without trying slips one by one. Sets of parts are bit masks: bit i is
the i-th part as found; a state is a sequence of parts and the set of those that are turned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stackcheck.compare.prices import PRICES, end_for_end, moved
from stackcheck.compare.sets import bits, hull_of, ordered_pairs, reach_of, union
from stackcheck.compare.slips import MOVE, REVERSE, SWAP, Budget, Item, Slip, turned_round


class Knot:
    """The parts of one knot in the line as found, and what may be done with them."""

    def __init__(self, items: Sequence[Item], before: Sequence[int], budget: Budget):
        size = len(items)
        self.items = items
        self.before = before
        self.budget = budget
        self.ordered = ordered_pairs(before)
        self.movable = union(1 << i for i, item in enumerate(items) if item.movable)
        self.faced = union(1 << i for i, item in enumerate(items) if item.turned is not None)
        self.single_parts = union(1 << i for i, item in enumerate(items) if item.parts == 1)
        self.never_pass = [
            union(1 << j for j in bits(self.ordered[i]) if a.equal == items[j].equal) if a.equal is not None else 0
            for i, a in enumerate(items)
        ]
        self._moves: dict[int, Slip] = {}
        self.start = (tuple(range(size)), union(1 << i for i, item in enumerate(items) if item.turned))

    def move_of(self, mask: int) -> Slip:
        known = self._moves.get(mask)
        if known is None:
            slip = Slip(MOVE, tuple(bits(mask)), moved(sum(self.items[i].parts for i in bits(mask))))
            known = self._moves[mask] = slip
        return known

    def single(self, state: tuple) -> Slip | None:
        """The one slip that settles everything, or None. The state must not be settled already."""
        self.budget.left -= 1
        order, turned = state
        self.budget.look(len(order))
        before = self.before
        against = [0] * len(order)
        firsts = lasts = later = 0
        for i in reversed(order):
            wanted = before[i] & later
            if wanted:
                against[i] |= wanted
                firsts |= 1 << i
                lasts |= wanted
                for j in bits(wanted):
                    against[j] |= 1 << i
            later |= 1 << i
        if not firsts and turned.bit_count() == 1:
            return turned_round(*bits(turned))
        touched = firsts | lasts
        pairs = list(_meeting_all(order, touched, against)) if firsts and turned.bit_count() <= 2 else []
        may_run = not turned and not firsts & lasts
        may_turn = self._all_against_all(touched | turned, against)
        if not (pairs or may_run or may_turn):
            return None  # most arrangements that the search tries end here
        reach = reach_of(order, self.ordered)
        found = []
        if pairs:
            found.append(self._swap(pairs, turned, against, reach))
        if may_run:
            found.append(self._run(firsts, lasts, against, reach))
        if may_turn and not any(found):
            found.append(self._turned_run(touched, turned, against, reach))
        return min((slip for slip in found if slip), key=lambda slip: slip.price, default=None)

    def _all_against_all(self, touched: int, against: Sequence[int]) -> bool:
        """Whether parts that can be turned as one lump contradict one another wherever the reference orders them."""
        if touched & ~(self.movable & self.single_parts):
            return False
        return all(self.ordered[i] & touched == against[i] for i in bits(touched))

    def _swap(
        self, pairs: Sequence[tuple[int, int]], turned: int, against: Sequence[int], reach: Sequence[int]
    ) -> Slip | None:
        for a, b in pairs:
            if not self.ordered[a] >> b & 1 or self.turned_by_swap(a, b) != turned:
                continue
            if self._is_swap(a, b, against, reach) or self._is_swap(b, a, against, reach):
                return Slip(SWAP, (min(a, b), max(a, b)), PRICES["swapped"].of())
        return None

    def turned_by_swap(self, a: int, b: int) -> int:
        """The faces that a swap turns: each part stands as the other's place wants it, so a mirror pair turns both."""
        wants = {self.items[a].facing, self.items[b].facing}
        return (1 << a | 1 << b) & self.faced if len(wants) == 2 and "" not in wants else 0

    def _is_swap(self, a: int, b: int, against: Sequence[int], reach: Sequence[int]) -> bool:
        """Whether a, what is in contradiction with the two, and b stand together in that sequence in some line."""
        bit_a, bit_b = 1 << a, 1 << b
        between = (against[a] | against[b]) & ~(bit_a | bit_b)
        if (bit_a | bit_b) & ~(self.movable & self.single_parts) or reach[b] & (bit_a | between):
            return False
        if self.never_pass[a] & (between | bit_b) or self.never_pass[b] & between:
            return False
        if self.ordered[a] & (between | bit_b) != against[a] or self.ordered[b] & (between | bit_a) != against[b]:
            return False
        if any(reach[x] & bit_a for x in bits(between)):
            return False
        whole = between | bit_a | bit_b
        return hull_of(whole, reach) == whole

    def _run(self, firsts: int, lasts: int, against: Sequence[int], reach: Sequence[int]) -> Slip | None:
        """A run moved past its neighbours: every pair across is a contradiction, none else is."""
        near, far = hull_of(firsts, reach), hull_of(lasts, reach)
        between = hull_of(near | far, reach) & ~(near | far)
        ways = []
        for one, other in ((near | between, far), (near, far | between)):
            if one & other or any(self.ordered[i] & other != against[i] for i in bits(one)):
                continue
            if any(against[i] & ~one for i in bits(other)) or any(self.never_pass[i] & other for i in bits(one)):
                continue
            ways += [self.move_of(mask) for mask in (one, other) if mask & self.movable == mask]
        return min(ways, key=lambda slip: slip.price, default=None)

    def _turned_run(self, touched: int, turned: int, against: Sequence[int], reach: Sequence[int]) -> Slip | None:
        run = hull_of(touched | turned, reach)
        if run & ~self.movable or run & ~self.single_parts or run & self.faced != turned or run.bit_count() < 2:
            return None
        if any(self.ordered[i] & run != against[i] for i in bits(run)):
            return None
        return Slip(REVERSE, tuple(bits(run)), end_for_end(run.bit_count()))


def _one_pair(touched: int, against: Sequence[int]) -> tuple[int, int]:
    """The two items of one contradiction."""
    first = (touched & -touched).bit_length() - 1
    other = against[first]
    return first, (other & -other).bit_length() - 1


def _meeting_all(order: Sequence[int], touched: int, against: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Pairs of items so that every contradiction is with one of the two."""
    for a in _one_pair(touched, against):
        apart = union(1 << i for i in bits(touched & ~(1 << a)) if against[i] & ~(1 << a))
        # With a in all of them any part may be the other one.
        for b in _one_pair(apart, [mask & ~(1 << a) for mask in against]) if apart else order:
            if a != b and not any(against[i] & ~(1 << a | 1 << b) for i in bits(apart & ~(1 << b))):
                yield a, b
