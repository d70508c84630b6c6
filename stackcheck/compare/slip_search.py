"""The cheapest slips that settle a knot, one or several.

Several are searched by trying every first slip, as deep as is cheaper than moving parts singly, where the fewest parts
to move are the least cover of V (what stays is an antichain of V: Dilworth, Annals of Mathematics 51 (1950) 161-166).
Breaks between neighbours say how many slips are needed at least, so that the search begins there and leaves what cannot
lead home. Sorting by moved runs is NP-hard: the search counts its steps, and when they run out the answer carries the
bound below which nothing was left unseen. In a long knot only slips between breaks are tried, those first that leave
the fewest.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from heapq import nsmallest
from itertools import accumulate, islice
from operator import or_

from stackcheck.compare.breaks import MENDED_AT_MOST, MENDED_BY_A_RUN, Breaks, cheapest_of, swaps_needed
from stackcheck.compare.one_slip import Knot
from stackcheck.compare.prices import ORDINARY_SLIP, PRICES, end_for_end, moved
from stackcheck.compare.sets import bits, reach_of, union, violations
from stackcheck.compare.slips import IMPOSSIBLE, REVERSE, SHORT_LINE, SWAP, Budget, Item, Settled, Slip, turned_round

MOST_LINES = 24
MOST_LINES_OF_FEW = 2_000
MOST_SLIPS = 5
MOST_STEPS_FOR_A_KNOT = 5_000
MOST_STEPS_FOR_A_LONG_KNOT = 600
LONG_KNOT = 12
LEFT_OUT_IN_A_STEP = 2
LEFT_OUT_IN_A_STEP_OF_FEW = 16
MOST_LOOKS_FOR_A_COVER = 48_000
MOST_FIRST_SLIPS = 1_500  # of a long knot
MOST_SEARCHED_AT_ONCE = 3 * ORDINARY_SLIP  # two slips are searched in full as soon as they are guessed
MOST_LIKELY = 9
MOST_TRIED_OF_LIKELY = 400
BREAK_BESIDE_A_PAIR = 3


class SlipSearch(Knot):
    """One knot, settled."""

    def __init__(self, items: Sequence[Item], before: Sequence[int], budget: Budget):
        super().__init__(items, before, budget)
        self.is_long = len(items) > LONG_KNOT
        self.breaks = Breaks(items)
        self.some_never_pass = any(self.never_pass)
        self.all_seen = True  # whether no slip that may help was left out

    def settle(self, limit: int) -> Settled:
        """The cheapest slips; at `limit` or above the search may stop, and the price is only an upper bound."""
        one = self.single(self.start)
        if one is not None:
            return Settled(one.price, (one,), one.price)
        against = violations(self.before)
        if any(against[i] & ~self.movable for i in bits(~self.movable & (1 << len(self.items)) - 1)):
            return Settled(IMPOSSIBLE, (), IMPOSSIBLE)  # two marks that stay contradict one another
        least = max(2, self.breaks.slips_needed(self.start[0]))
        swaps = swaps_needed([mask.bit_count() for mask in self.before])
        if cheapest_of(least, swaps) >= limit:
            return Settled(IMPOSSIBLE, (), cheapest_of(least, swaps))
        best = self.singly()
        is_short = len(self.items) <= SHORT_LINE
        if (
            is_short
            and min(limit, best.price) > MOST_SEARCHED_AT_ONCE
            and cheapest_of(least, swaps) < min(limit, best.price)
        ):
            best = min(self._likely(min(limit, best.price)), best, key=lambda way: way.price)
        self.floor = 0 if self.budget.thorough else max(0, self.budget.left - self._most_steps())
        slips_tried = least
        while (
            slips_tried <= MOST_SLIPS and cheapest_of(slips_tried, swaps) < min(limit, best.price) and self._may_go_on()
        ):
            self.tried: dict[tuple, int] = {}
            found = self._search(self.start, slips_tried, min(limit, best.price))
            if found is not None:
                best = Settled(sum(slip.price for slip in found), found, 0)
            slips_tried += self._may_go_on()
        seen = slips_tried if self.all_seen else min(slips_tried, least)
        return Settled(best.price, best.slips, min(best.price, cheapest_of(seen, swaps)))

    def _likely(self, limit: int) -> Settled:
        """Slips that leave the fewest breaks and contradictions, one after the other:
        a price to begin with, and no proof.
        """
        best = Settled(IMPOSSIBLE, (), 0)
        all_seen, self.all_seen = self.all_seen, True
        ahead: list[tuple[int, tuple[Slip, ...], tuple]] = [(0, (), self.start)]
        seen = {self.start}
        while ahead and not best.slips and self.budget.likely > 0:
            further = []
            for price, slips, (order, turned) in ahead:
                for slip, new_order, new_turned in self._between_breaks(order, turned):
                    state = new_order, new_turned
                    if price + slip.price + ORDINARY_SLIP >= min(limit, best.price) or state in seen:
                        continue
                    seen.add(state)
                    further.append((self._disorder(state), price + slip.price, (*slips, slip), state))
            ahead = [way[1:] for way in nsmallest(MOST_LIKELY, further, key=lambda way: way[:2])]
            for price, slips, state in ahead:
                one = self.single(state)
                if one is not None and price + one.price < min(limit, best.price):
                    best = Settled(price + one.price, (*slips, one), 0)
        self.all_seen = all_seen
        return best

    def _between_breaks(self, order: tuple[int, ...], turned: int) -> Iterator[tuple[Slip, tuple[int, ...], int]]:
        is_long, self.is_long = self.is_long, True
        yield from islice(self._slips(order, turned, IMPOSSIBLE, 1), MOST_TRIED_OF_LIKELY)
        self.is_long = is_long

    def _disorder(self, state: tuple[tuple[int, ...], int]) -> int:
        order, turned = state
        later = pairs = 0
        for i in reversed(order):
            pairs += (self.before[i] & later).bit_count()
            later |= 1 << i
        self.budget.look(len(order))
        self.budget.likely -= 1
        return BREAK_BESIDE_A_PAIR * self.breaks.most(order) + pairs + turned.bit_count()

    def _may_go_on(self) -> bool:
        return self.budget.left > self.floor and not self.budget.is_spent

    def _most_steps(self) -> int:
        return MOST_STEPS_FOR_A_LONG_KNOT if self.is_long else MOST_STEPS_FOR_A_KNOT

    def singly(self) -> Settled:
        """Every part moved by itself, every turned part turned by itself."""
        turned = self.start[1]
        against = violations(self.before)
        cover = self._cover(against, self.movable)
        if cover is None or any(mask & never for mask, never in zip(against, self.never_pass)):
            return Settled(IMPOSSIBLE, (), IMPOSSIBLE)
        slips = [self.move_of(1 << i) for i in bits(cover)] + [turned_round(i) for i in bits(turned)]
        return Settled(sum(slip.price for slip in slips), tuple(slips), 0)

    def _cover(self, against: Sequence[int], allowed: int) -> int | None:
        """The cheapest set of items to move so that no contradiction is left, by branching on one contradiction."""
        least, cover = 1 << 40, None
        prices = [moved(item.parts) for item in self.items]
        looks = MOST_LOOKS_FOR_A_COVER // max(len(self.items), LONG_KNOT)
        waiting = [
            (union(against), 0, 0)
        ]  # what is still left, what was chosen, its price: the next one to look at last
        while waiting:
            left, chosen, price = waiting.pop()
            if price >= least or looks <= 0 and cover is not None:
                continue
            looks -= 1
            self.budget.look(len(self.items))
            worst = max(bits(left), key=lambda i: (against[i] & left).bit_count(), default=None)
            if worst is None or not against[worst] & left:
                least, cover = price, chosen
                continue
            others, left = against[worst] & left, left & ~(1 << worst)
            if not others & ~allowed:
                waiting.append((left & ~others, chosen | others, price + sum(prices[i] for i in bits(others))))
            if allowed >> worst & 1:
                waiting.append((left, chosen | 1 << worst, price + prices[worst]))
        return cover

    def _search(self, state: tuple, slips: int, limit: int) -> tuple[Slip, ...] | None:
        """At most so many slips (two or more) that settle the state below `limit`."""
        if self.tried.get((state, slips), 0) >= limit:
            return None
        best = None
        start_limit = limit
        for slip, after in self._first_slips(state, slips, limit - (slips - 1) * ORDINARY_SLIP):
            if not self._may_go_on():
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

    def _first_slips(self, state: tuple, slips: int, limit: int) -> Iterator[tuple[Slip, tuple]]:
        """Every slip after which one less may do, with the arrangement after it; each arrangement once."""
        order, turned = state
        start = self._signature(order, turned)
        cheapest: dict[tuple, tuple[Slip, tuple]] = {}
        left_out = 0
        to_mend = self.breaks.most(order) - MENDED_AT_MOST * (slips - 1)
        for tried, (slip, new_order, new_turned) in enumerate(self._slips(order, turned, limit, to_mend)):
            self.budget.look(len(order))
            self.budget.slips -= 1
            if self.budget.is_spent or self.is_long and tried == MOST_FIRST_SLIPS:
                self.all_seen = False
                break
            if slip.price >= limit:
                continue
            if self.breaks.slips_needed(new_order) >= slips:
                left_out += 1
            else:
                signature = self._signature(new_order, new_turned)
                if signature != start and (signature not in cheapest or slip.price < cheapest[signature][0].price):
                    cheapest[signature] = slip, (new_order, new_turned)
        self.budget.left -= left_out // (LEFT_OUT_IN_A_STEP_OF_FEW if self.budget.thorough else LEFT_OUT_IN_A_STEP)
        found = cheapest.values()
        if self.is_long:
            found = sorted(found, key=lambda way: len(self.breaks.cuts(way[1][0])))
        yield from found

    def _signature(self, order: Sequence[int], turned: int) -> tuple:
        later = 0
        pairs = [0] * len(order)
        for i in reversed(order):
            pairs[i] = self.ordered[i] & later
            later |= 1 << i
        return turned, tuple(pairs)

    def _slips(
        self, order: Sequence[int], turned: int, limit: int, to_mend: int
    ) -> Iterator[tuple[Slip, tuple[int, ...], int]]:
        """Slips that may cost less than `limit` and mend so many breaks,
        each with the sequence and turned faces after it.
        """
        for i in bits(turned):
            yield turned_round(i), tuple(order), turned & ~(1 << i)
        for line in self._lines(order):
            broken = self.breaks.broken(line)
            runs_too = limit > moved(1) and to_mend <= MENDED_BY_A_RUN
            cuts = self._cuts(line) if runs_too else []
            broken_cuts = [cut for cut in cuts if broken[cut]]
            up_to = [*accumulate((1 << i for i in line), or_, initial=0)]
            for start in range(len(line) - 1):
                from_a_cut = start in cuts
                for end in range(start + 2, len(line) + 1):
                    if broken[start] + broken[start + 1] + broken[end - 1] + broken[end] >= to_mend:
                        swapped = self._swap_of_ends(line, start, end, turned, up_to)
                        if swapped is not None:
                            yield swapped
                    may_mend = to_mend - broken[start] - broken[end]
                    if from_a_cut and may_mend <= 1 and end in cuts:
                        inner = cuts if may_mend <= 0 else broken_cuts
                        middles = inner[bisect_right(inner, start) : bisect_left(inner, end)]
                        yield from self._runs(line, start, end, turned, middles, up_to, reverse=may_mend <= 0)

    def _cuts(self, line: Sequence[int]) -> Sequence[int]:
        """Where a run may begin and end: anywhere, but in a long knot only between breaks."""
        if not self.is_long:
            return range(len(line) + 1)
        self.all_seen = False
        return self.breaks.cuts(line)

    def _swap_of_ends(
        self, line: tuple[int, ...], start: int, end: int, turned: int, up_to: Sequence[int]
    ) -> tuple[Slip, tuple[int, ...], int] | None:
        a, b = line[start], line[end - 1]
        if not self.ordered[a] >> b & 1 or (1 << a | 1 << b) & ~(self.movable & self.single_parts):
            return None
        if (self.never_pass[a] | self.never_pass[b]) & up_to[end] & ~up_to[start]:
            return None
        swapped = (*line[:start], b, *line[start + 1 : end - 1], a, *line[end:])
        return Slip(SWAP, (a, b), PRICES["swapped"].of()), swapped, turned ^ self.turned_by_swap(a, b)

    def _runs(
        self, line: tuple[int, ...], start: int, end: int, turned: int, middles: Sequence[int], up_to: Sequence[int],
        *, reverse: bool,
    ) -> list[tuple[Slip, tuple[int, ...], int]]:  # fmt: skip
        """The run end for end, and every way to move its head past its tail;
        `up_to` are the sets of the line's heads.
        """
        head, run, tail = line[:start], line[start:end], line[end:]
        inside = up_to[end] & ~up_to[start]
        ways = []
        if reverse and not inside & ~(self.movable & self.single_parts):
            slip = Slip(REVERSE, tuple(sorted(run)), end_for_end(len(run)))
            ways.append((slip, (*head, *reversed(run), *tail), turned ^ (inside & self.faced)))
        never, done = 0, start  # what no part of the run's head may pass
        for middle in middles:
            if self.some_never_pass:
                never |= union(self.never_pass[i] for i in line[done:middle])
                done = middle
            first = inside & up_to[middle]
            second = inside & ~first
            if not never & second:
                slip = self._cheaper_move(first, second)
                if slip is not None:
                    ways.append((slip, (*head, *line[middle:end], *line[start:middle], *tail), turned))
        return ways

    def _cheaper_move(self, one: int, other: int) -> Slip | None:
        """Of two runs that change places the one that is moved at the lower price, where any can be."""
        moves = [self.move_of(mask) for mask in (one, other) if not mask & ~self.movable]
        if len(moves) == 2:
            return moves[1] if moves[1].price < moves[0].price else moves[0]
        return moves[0] if moves else None

    def _lines(self, order: Sequence[int]) -> Iterator[tuple[int, ...]]:
        """Lines of the same arrangement, the given one first, at most so many;
        whether that is all is kept in `all_seen`.
        """
        whole = (1 << len(order)) - 1
        if all(ordered == whole & ~(1 << i) for i, ordered in enumerate(self.ordered)):
            yield tuple(order)  # nothing may pass another
            return
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
                self.all_seen = False
                return
            yield line
