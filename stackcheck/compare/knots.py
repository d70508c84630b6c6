"""The cheapest slips that turn one arrangement into another: the same parts, another sequence, some faces turned.

Given are the parts as found, first end to second end, and which of them the reference orders. V = pairs found one way
that the reference orders the other. Parts that V connects are a *knot*; a knot is settled alone. One slip is recognised
from V at once: a swap, a run moved, a run end for end. Two and more slips are searched by trying every first slip, as
deep as is cheaper than moving parts singly, where the fewest parts to move are the least cover of V (what stays is an
antichain of V: Dilworth, Annals of Mathematics 51 (1950) 161-166). Sorting by moved runs is NP-hard, so the search
counts its steps; when they run out the answer carries the bound below which nothing was left unseen.

A slip may start from any line of the same arrangement. Parts of equal number that have a face never pass one another,
except in a run that was turned. Sets of parts are bit masks: bit i is the i-th part as found.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from stackcheck.compare.prices import ORDINARY_SLIP, PRICES, end_for_end, moved
from stackcheck.compare.sets import bits, hull_of, reach_of, union, violations, within
from stackcheck.value import Value, replace

SWAP, MOVE, REVERSE, TURN = "swap", "move", "reverse", "turn"
MOST_LINES = 24
MOST_LINES_OF_FEW = 2_000
MOST_WITH_FREE_PARTS = 12  # parts that nothing orders to a knot may be swapped into it; looked at in short lines only
MOST_STEPS = 8_000  # for one comparison
MOST_SLIPS = 5
MOST_STEPS_FOR_A_KNOT = 5_000
MOST_STEPS_FOR_A_LONG_KNOT = 600
LONG_KNOT = 12
IMPOSSIBLE = 1 << 30


class Item(Value, eq=False):
    """A part, or a block of parts that stay together. `turned` None: it has no face that could be compared.

    `low` and `rank` say what it lies before (`stackcheck.compare.spots.lies_before`); equal spots that stand together
    share a `group` and are not ordered. `equal` is the number that parts with a face share, `facing` what its place wants.
    """

    key: object
    low: tuple[int, ...]
    rank: tuple[int, ...]
    parts: int = 1
    movable: bool = True
    turned: bool | None = None
    equal: str | None = None
    facing: str = ""
    group: object = None

    @property
    def is_lump(self) -> bool:
        """Whether it is several pieces of one counted place that stand together."""
        return self.parts == 1 and isinstance(self.key, tuple) and len(self.key) > 1

    @property
    def is_deep(self) -> bool:
        """Whether it stands for places that were not reached."""
        return not isinstance(self.key, tuple)


@dataclass(slots=True)
class Budget:
    """Arrangements that may still be looked at in one comparison, counted so that the answer never depends on the clock."""

    left: int = MOST_STEPS
    thorough: bool = False  # a short line, where a knot may take all of it and every line of an arrangement is tried


class Slip(Value):
    """One operation: kind and items (positions in the line as found)."""

    kind: str
    items: tuple[int, ...]
    price: int


class Settled(Value):
    """Slips that together lead from the reference to what was found, last one first."""

    price: int
    slips: tuple[Slip, ...]
    bound: int

    @property
    def proved(self) -> bool:
        return self.bound >= self.price


def settle(items: Sequence[Item], before: Sequence[int], limit: int, budget: Budget) -> Settled:
    """The cheapest slips; at `limit` or above the search may stop, and the price is only an upper bound."""
    knots = _knots(items, before)
    alone = [_settle_knot(items, before, members, limit, budget) for members in knots]
    price, bound = sum(found.price for found in alone), sum(found.bound for found in alone)
    slips = tuple(slip for found in alone for slip in found.slips)
    if price <= 2 * ORDINARY_SLIP:
        return Settled(price, slips, bound)
    if any(items[i].is_lump for knot in knots for i in knot):
        bound = min(bound, 2 * ORDINARY_SLIP)  # the pieces of a lump might have been swapped one by one
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
    return Settled(joint.price, joint.slips, min(bound, joint.price)) if joint.price < price else Settled(price, slips, bound)


def _leaves_pairs_free(before: Sequence[int]) -> bool:
    """Whether the reference leaves any two items unordered."""
    return sum(mask.bit_count() for mask in before) < len(before) * (len(before) - 1) // 2


def _settle_knot(
    items: Sequence[Item], before: Sequence[int], members: list[int], limit: int, budget: Budget
) -> Settled:
    found = _Knot([items[i] for i in members], within(before, members), budget).settle(limit)
    slips = tuple(Slip(slip.kind, tuple(members[i] for i in slip.items), slip.price) for slip in found.slips)
    return Settled(found.price, slips, found.bound)


def _side_by_side(knots: Sequence[Sequence[int]]) -> bool:
    return any(a[-1] + 1 >= b[0] for a, b in pairwise(knots))


def slips_needed(items: Sequence[Item], before: Sequence[int]) -> int:
    """0, 1 or 2: no slip, one slip, or at least two, with whatever else may stand in the line.

    Two turned faces may be those of one swap whose other part is not placed yet, so faces alone never ask for two.
    """
    if any(item.turned for item in items):
        return max(1, slips_needed([replace(item, turned=None) for item in items], before))
    knots = _knots(items, before)
    if len(knots) != 1:
        return min(len(knots), 2)
    members = knots[0]
    knot = _Knot([items[i] for i in members], within(before, members), Budget())
    return 1 if knot.single(knot.start) else 2


def _knots(items: Sequence[Item], before: Sequence[int]) -> list[list[int]]:
    """Items that contradictions connect, with what stands between them; what nothing orders to a knot belongs to it."""
    against = violations(before)
    turned = union(1 << i for i, item in enumerate(items) if item.turned)
    touched = turned | union(against)
    if not touched:
        return []
    after = [0] * len(items)
    for i, mask in enumerate(before):
        for j in bits(mask):
            after[j] |= 1 << i
    ordered = [a | b for a, b in zip(before, after)]
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


def steps_for(items: int) -> int:
    return MOST_STEPS_FOR_A_KNOT if items <= LONG_KNOT else MOST_STEPS_FOR_A_LONG_KNOT


class _Knot:
    def __init__(self, items: Sequence[Item], before: Sequence[int], budget: Budget):
        size = len(items)
        self.items = items
        self.before = before
        self.budget = budget
        after = [0] * size
        for i, mask in enumerate(before):
            for j in bits(mask):
                after[j] |= 1 << i
        self.ordered = [a | b for a, b in zip(before, after)]
        self.movable = union(1 << i for i, item in enumerate(items) if item.movable)
        self.faced = union(1 << i for i, item in enumerate(items) if item.turned is not None)
        self.single_parts = union(1 << i for i, item in enumerate(items) if item.parts == 1)
        self.never_pass = [
            union(1 << j for j in bits(self.ordered[i]) if a.equal is not None and a.equal == items[j].equal)
            for i, a in enumerate(items)
        ]
        self.all_lines_seen = True
        self.start = (tuple(range(size)), union(1 << i for i, item in enumerate(items) if item.turned))

    def settle(self, limit: int) -> Settled:
        one = self.single(self.start)
        if one is not None:
            return Settled(one.price, (one,), one.price)
        against = violations(self.before)
        if any(against[i] & ~self.movable for i in bits(~self.movable & (1 << len(self.items)) - 1)):
            return Settled(IMPOSSIBLE, (), IMPOSSIBLE)  # two marks that stay contradict one another
        best = self.singly()
        self.floor = 0 if self.budget.thorough else max(0, self.budget.left - steps_for(len(self.items)))
        slips_tried = 2
        while slips_tried <= MOST_SLIPS and slips_tried * ORDINARY_SLIP < min(limit, best.price):
            self.tried: dict[tuple, int] = {}
            found = self._search(self.start, slips_tried, min(limit, best.price))
            if found is not None:
                best = Settled(sum(slip.price for slip in found), found, 0)
            if self.budget.left <= self.floor:
                break
            slips_tried += 1
        seen = slips_tried if self.all_lines_seen else min(slips_tried, 2)
        return Settled(best.price, best.slips, min(best.price, seen * ORDINARY_SLIP))

    def singly(self) -> Settled:
        """Every part moved by itself, every turned part turned by itself."""
        turned = self.start[1]
        against = violations(self.before)
        cover = self._cover(against, self.movable)
        if cover is None or any(mask & never for mask, never in zip(against, self.never_pass)):
            return Settled(IMPOSSIBLE, (), IMPOSSIBLE)
        slips = [self._move(1 << i) for i in bits(cover)]
        slips += [Slip(TURN, (i,), PRICES["turned_round"].of()) for i in bits(turned)]
        return Settled(sum(slip.price for slip in slips), tuple(slips), 0)

    def _move(self, mask: int) -> Slip:
        return Slip(MOVE, tuple(bits(mask)), moved(sum(self.items[i].parts for i in bits(mask))))

    def _cover(self, against: Sequence[int], allowed: int) -> int | None:
        """The cheapest set of items to move so that no contradiction is left, by branching on one contradiction."""
        best: list = [1 << 40, None]
        prices = [moved(item.parts) for item in self.items]
        budget = [4000]

        def branch(left: int, chosen: int, price: int) -> None:
            if price >= best[0] or budget[0] <= 0:
                return
            budget[0] -= 1
            worst = max(bits(left), key=lambda i: (against[i] & left).bit_count(), default=None)
            if worst is None or not against[worst] & left:
                best[:] = [price, chosen]
                return
            if allowed >> worst & 1:
                branch(left & ~(1 << worst), chosen | 1 << worst, price + prices[worst])
            others = against[worst] & left
            if not others & ~allowed:
                branch(
                    left & ~others & ~(1 << worst), chosen | others, price + sum(prices[i] for i in bits(others))
                )

        branch((1 << len(self.items)) - 1, 0, 0)
        return best[1]

    # One slip

    def single(self, state: tuple) -> Slip | None:
        """The one slip that settles everything, or None. The state must not be settled already."""
        self.budget.left -= 1
        order, turned = state
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
            return Slip(TURN, tuple(bits(turned)), PRICES["turned_round"].of())
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
            if not self.ordered[a] >> b & 1 or self._turned_by_swap(a, b) != turned:
                continue
            if self._is_swap(a, b, against, reach) or self._is_swap(b, a, against, reach):
                return Slip(SWAP, (min(a, b), max(a, b)), PRICES["swapped"].of())
        return None

    def _turned_by_swap(self, a: int, b: int) -> int:
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
            ways += [self._move(mask) for mask in (one, other) if mask & self.movable == mask]
        return min(ways, key=lambda slip: slip.price, default=None)

    def _turned_run(self, touched: int, turned: int, against: Sequence[int], reach: Sequence[int]) -> Slip | None:
        run = hull_of(touched | turned, reach)
        if run & ~self.movable or run & ~self.single_parts or run & self.faced != turned or run.bit_count() < 2:
            return None
        if any(self.ordered[i] & run != against[i] for i in bits(run)):
            return None
        return Slip(REVERSE, tuple(bits(run)), end_for_end(run.bit_count()))

    # Several slips

    def _search(self, state: tuple, slips: int, limit: int) -> tuple[Slip, ...] | None:
        """At most so many slips (two or more) that settle the state below `limit`."""
        if self.tried.get((state, slips), 0) >= limit:
            return None
        best = None
        start_limit = limit
        for slip, after in self._first_slips(state, limit - (slips - 1) * ORDINARY_SLIP):
            if self.budget.left <= self.floor:
                break
            rest: tuple[Slip, ...] | None
            one = self.single(after)
            if one is not None:
                rest = (one,)
            elif slips > 2:
                rest = self._search(after, slips - 1, limit - slip.price)
            else:
                rest = None
            if rest is not None:
                price = slip.price + sum(other.price for other in rest)
                if price < limit:
                    best, limit = (slip, *rest), price
        if best is None:
            self.tried[state, slips] = start_limit
        return best

    def _first_slips(self, state: tuple, limit: int) -> Iterator[tuple[Slip, tuple]]:
        """Every slip that touches a part in contradiction, with the arrangement after it; each arrangement once."""
        order, turned = state
        start = self._signature(order, turned)
        cheapest: dict[tuple, tuple[Slip, tuple]] = {}
        for slip, new_order, new_turned in self._slips(order, turned):
            if slip.price < limit:
                signature = self._signature(new_order, new_turned)
                if signature != start and (signature not in cheapest or slip.price < cheapest[signature][0].price):
                    cheapest[signature] = slip, (new_order, new_turned)
        yield from cheapest.values()

    def _signature(self, order: Sequence[int], turned: int) -> tuple:
        later = 0
        pairs = []
        for i in reversed(order):
            pairs.append((i, self.ordered[i] & later))
            later |= 1 << i
        return turned, tuple(sorted(pairs))

    def _slips(self, order: Sequence[int], turned: int) -> Iterator[tuple[Slip, tuple[int, ...], int]]:
        for i in bits(turned):
            yield Slip(TURN, (i,), PRICES["turned_round"].of()), tuple(order), turned & ~(1 << i)
        size = len(order)
        for line in self._lines(order):
            masks = [1 << i for i in line]
            for start in range(size):
                inside = 0
                for end in range(start + 1, size + 1):
                    inside |= masks[end - 1]
                    if end - start >= 2:
                        yield from self._slips_of_run(line, start, end, inside, turned)

    def _slips_of_run(
        self, line: tuple[int, ...], start: int, end: int, inside: int, turned: int
    ) -> Iterator[tuple[Slip, tuple[int, ...], int]]:
        """The swap of its two ends, the run end for end, and every way to move its head past its tail."""
        a, b = line[start], line[end - 1]
        head, run, tail = line[:start], line[start:end], line[end:]
        both = 1 << a | 1 << b
        if self.ordered[a] >> b & 1 and not both & ~(self.movable & self.single_parts) and not (self.never_pass[a] | self.never_pass[b]) & inside:
            yield Slip(SWAP, (a, b), PRICES["swapped"].of()), (*head, b, *run[1:-1], a, *tail), turned ^ self._turned_by_swap(a, b)
        if not inside & ~self.movable and not inside & ~self.single_parts:
            yield (
                Slip(REVERSE, tuple(sorted(run)), end_for_end(len(run))),
                (*head, *reversed(run), *tail),
                turned ^ (inside & self.faced),
            )
        first = 0
        for middle in range(start + 1, end):
            first |= 1 << line[middle - 1]
            second = inside & ~first
            if any(self.never_pass[i] & second for i in bits(first)):
                continue
            ways = [self._move(mask) for mask in (first, second) if not mask & ~self.movable]
            if ways:
                slip = min(ways, key=lambda slip: slip.price)
                yield slip, (*head, *line[middle:end], *line[start:middle], *tail), turned

    def _lines(self, order: Sequence[int]) -> Iterator[tuple[int, ...]]:
        """Lines of the same arrangement, the given one first, at most so many; whether all is kept in `all_lines_seen`."""
        reach = reach_of(order, self.ordered)
        ahead = [union(1 << i for i in range(len(order)) if reach[i] >> j & 1) for j in range(len(order))]
        def extend(line: tuple[int, ...], done: int) -> Iterator[tuple[int, ...]]:
            if len(line) == len(order):
                yield line
                return
            for i in order:
                if not done >> i & 1 and not ahead[i] & ~done:
                    yield from extend((*line, i), done | 1 << i)

        most = MOST_LINES_OF_FEW if self.budget.thorough else MOST_LINES
        for given, line in enumerate(extend((), 0)):
            if given >= most:
                self.all_lines_seen = False
                return
            yield line
