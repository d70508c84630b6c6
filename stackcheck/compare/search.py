"""The least explanation over all ways to read the list, and those that come close to it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from stackcheck.compare import pieces as listing
from stackcheck.compare.identity import Identity
from stackcheck.compare.pairing import MOST_NODES, Pairing
from stackcheck.compare.parted import is_turned, least_price
from stackcheck.compare.pieces import Typed
from stackcheck.compare.prices import ORDINARY_SLIP
from stackcheck.compare.pricing import Priced, Pricing
from stackcheck.compare.slips import IMPOSSIBLE, Budget
from stackcheck.compare.spots import Spots, closed_units
from stackcheck.compare.task import Task, shortened, whole
from stackcheck.model.found import Entry, Found
from stackcheck.model.reference import Reference
from stackcheck.value import Value, replace

MOST_NODES_AT_FIRST = 60  # of a short list, which is gone through again
MOST_NODES_FOR_OTHERS = 150
MOST_ENTRIES_TRIED_TURNED = 100  # from the other end, where the list agrees better as it was typed
MOST_PIECES_OF_FEW = 12
MOST_NODES_OF_FEW = 40_000
MOST_STEPS_OF_FEW = 40_000
MOST_PIECES_GONE_THROUGH = 24
MOST_NODES_OF_SOME = 20_000
MOST_STEPS_OF_SOME = 16_000
LIMIT_RISES_BY = 55


class Reading(Value):
    """One way to read the list with one choice of homes."""

    typed: Typed
    task: Task
    priced: Priced
    price: int


class Readings(Value):
    """Cheapest first. No explanation costs less than `bound`."""

    readings: tuple[Reading, ...]
    bound: int


class Search:
    def __init__(self, reference: Reference, found: Found):
        self.found = found
        self.spots = Spots(reference, closed_units(reference, found))
        self.identity = Identity(reference)
        self.budget = Budget()
        self.twins = listing.twins(found)
        self.ends, self.all_ends = listing.ways_to_read(found)
        self.as_typed = Typed(self.ends[0])
        self._lines: dict[tuple, tuple[list[listing.Piece], int]] = {}
        self._tasks: dict[Typed, Task] = {}
        self.tried: list[tuple[Typed, Pairing]] = []

    def readings(self, margin: int) -> Readings:
        best: Reading | None = None
        floor = IMPOSSIBLE
        for typed in self._ways():
            price = best.price if best else IMPOSSIBLE
            if best and (price == 0 or typed.price and typed.price >= price + margin):
                continue
            if typed.mirrored and price <= listing.mirrored_price():
                continue
            if best:
                least = typed.price + least_price(self.spots, self.identity, self._sides(typed))
                # That the list was typed from the other end and all turned round since is no other explanation of use.
                if least >= price + (0 if typed.mirrored else margin):
                    continue
                if self.budget.is_spent:
                    floor = min(floor, least)
                    continue
                if typed.mirrored and self._is_long and is_turned(self.spots, self.identity, self._sides(typed)):
                    floor = min(floor, least)
                    continue
            pairing = self._pairing(typed)
            self.tried.append((typed, pairing))
            for priced in pairing.search(price - typed.price, MOST_NODES_AT_FIRST if self._is_small else MOST_NODES):
                if best is None or priced.price + typed.price < best.price:
                    best = Reading(typed, pairing.task, priced, priced.price + typed.price)
            floor = min(floor, pairing.floor + typed.price)
        best = best or self._nothing_in_place()
        bound = min(
            best.price, floor, best.priced.bound + best.typed.price, self._left_unread(), self._kept_together(best)
        )
        if bound < best.price and self._size <= MOST_PIECES_GONE_THROUGH:
            best, bound = self._thoroughly(best, bound)
        return Readings((best, *self._others(best, margin)), bound)

    def _nothing_in_place(self) -> Reading:
        typed = self.as_typed
        line, gap = self.pieces(typed)
        task = whole(self.spots, line, gap)
        pricing = Pricing(
            self.spots, self.identity, task, self._loose(typed), finished=self.found.finished, budget=self.budget
        )
        priced = pricing.with_nothing_in_place()
        return Reading(typed, task, priced, priced.price + typed.price)

    def _left_unread(self) -> int:
        """What the cheapest way to read the list that was not tried costs at least."""
        return min(listing.untried_slips(self.twins), IMPOSSIBLE if self.all_ends else 0)

    def _kept_together(self, best: Reading) -> int:
        """What another choice inside the blocks of a long line costs at least: equal parts there were not exchanged.

        One slip costs no less than the least there is, so only an answer dearer than that is in doubt.
        """
        alike = {group for group in self.spots.groups if self.spots.wanted[group.part] > 1}
        if all(alike.isdisjoint(token.homes) for token in best.task.tokens):
            return IMPOSSIBLE
        return max(ORDINARY_SLIP, best.typed.price + least_price(self.spots, self.identity, self._sides(best.typed)))

    @property
    def _is_long(self) -> bool:
        return len(self.found.entries) > MOST_ENTRIES_TRIED_TURNED

    @cached_property
    def _size(self) -> int:
        return max(sum([entry.count for entry in self.found.entries]), sum([group.size for group in self.spots.groups]))

    @property
    def _is_small(self) -> bool:
        return self._size <= MOST_PIECES_OF_FEW

    def _thoroughly(self, best: Reading, bound: int) -> tuple[Reading, int]:
        """Every way to read a list that is not long again, below a limit that rises until an explanation lies below it.

        What costs more than the limit is cut at once, so that the steps go where an answer can be. Where they run out
        the bound is that of the last limit looked through.
        """
        budget = Budget(MOST_STEPS_OF_FEW, thorough=True) if self._is_small else Budget(MOST_STEPS_OF_SOME)
        pairings = [
            (typed, self._pairing(typed, budget, equal_apart=True))
            for typed in self._ways()
            if typed.price < best.price
        ]
        pairings.sort(
            key=lambda way: -way[0].price
        )  # what a way to read costs is not left for slips: few steps, and a limit
        nodes = MOST_NODES_OF_FEW if self._is_small else MOST_NODES_OF_SOME
        looked_below = bound
        while looked_below < best.price and budget.left > 0 and nodes > 0:
            limit = min(best.price, looked_below + LIMIT_RISES_BY)
            floor, least = limit, best
            for typed, pairing in pairings:
                if pairing.least + typed.price >= min(limit, least.price):
                    continue
                for priced in pairing.search(min(limit, least.price) - typed.price, nodes):
                    if priced.price + typed.price < least.price:
                        least = Reading(typed, pairing.task, priced, priced.price + typed.price)
                        floor = min(floor, priced.bound + typed.price)
                nodes = max(pairing.nodes, 0)
                floor = min(floor, pairing.floor + typed.price)
            if bound == looked_below:  # nothing was left unseen so far
                bound = max(bound, min(floor, limit, least.price))
            best, looked_below = least, min(limit, least.price)
        return best, bound

    def _ways(self) -> Iterator[Typed]:
        """As typed first, then with a typing slip, then from the other end;
        where most stands the other way round that first.
        """
        slips = [((), 0), *listing.typing_slips(self.twins)]
        for mirrored in (True, False) if self._looks_turned else (False, True):
            for twice, price in slips:
                for ends in self.ends:
                    yield Typed(ends, mirrored, twice, price + (listing.mirrored_price() if mirrored else 0))

    @cached_property
    def _looks_turned(self) -> bool:
        """Whether a list that is not short agrees better from the other end:
        as typed it would take all steps in vain.
        """
        return (
            self._size > MOST_PIECES_GONE_THROUGH
            and 2 * len(self._task(self.as_typed).tokens) > self._size
            and is_turned(self.spots, self.identity, self._sides(self.as_typed))
        )

    def _sides(self, typed: Typed) -> list[list[Entry]]:
        """The line of one way to read the list, cut where an unfinished teardown stopped."""
        pieces, gap = self.pieces(replace(typed, mirrored=False))
        sides = (pieces,) if self.found.finished else (pieces[:gap], pieces[gap:])
        entries = [[piece.entry for piece in side] for side in sides]
        return [side[::-1] for side in entries[::-1]] if typed.mirrored else entries

    def pieces(self, typed: Typed) -> tuple[list[listing.Piece], int]:
        """The line of one way to read the list, kept because it is wanted more than once."""
        key = typed.ends, typed.mirrored, typed.twice
        if key not in self._lines:
            self._lines[key] = listing.pieces_of(self.found, typed)
        return self._lines[key]

    def _pairing(self, typed: Typed, budget: Budget | None = None, *, equal_apart: bool = False) -> Pairing:
        loose = self._loose(typed)
        task = (
            shortened(self.spots, self.identity, *self.pieces(typed), equal_apart=True)
            if equal_apart
            else self._task(typed)
        )
        return Pairing(
            self.spots, self.identity, task, loose, finished=self.found.finished, budget=budget or self.budget
        )

    def _task(self, typed: Typed) -> Task:
        if typed not in self._tasks:
            self._tasks[typed] = shortened(self.spots, self.identity, *self.pieces(typed))
        return self._tasks[typed]

    def _loose(self, typed: Typed) -> list[Entry]:
        gone = {number for _, number in typed.twice}
        return [entry for entry in self.found.entries if entry.is_loose and entry.number not in gone]

    def _others(self, best: Reading, margin: int) -> list[Reading]:
        others = []
        same = best.priced.homes, best.priced.unreached
        for typed, pairing in self.tried:
            limit = best.price + margin - typed.price
            if pairing.least < limit:
                for priced in pairing.search(limit, MOST_NODES_FOR_OTHERS, all_below=True):
                    if typed == best.typed and (priced.homes, priced.unreached) == same:
                        continue
                    others.append(Reading(typed, pairing.task, priced, priced.price + typed.price))
        return sorted(others, key=lambda reading: reading.price)
