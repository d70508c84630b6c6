"""Who is it and where did it sit, in one search: every piece gets a home or is extra, every place is filled or empty.

A choice costs what the identities cost, what is absent or over, and the slips that the sequence then needs. The
cheapest assignment without regard to sequence gives each choice a lower bound (its reduced prices); what is settled so
far adds the slips that it already needs. Branches that cannot come below the limit are cut, the others are priced to
the end.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property

from stackcheck.compare.assignment import assign
from stackcheck.compare.breaks import Breaks, cheapest_of, swaps_needed
from stackcheck.compare.identity import Identity
from stackcheck.compare.knots import slips_needed
from stackcheck.compare.prices import ORDINARY_SLIP, PRICES
from stackcheck.compare.pricing import FORBIDDEN, Priced, Pricing
from stackcheck.compare.slips import IMPOSSIBLE, Budget
from stackcheck.compare.spots import Group, Spots
from stackcheck.compare.stretches import Stretch, needed, placed
from stackcheck.compare.task import Task
from stackcheck.model.found import Entry
from stackcheck.value import replace

MOST_NODES = 800
MOST_NODES_OF_MANY = 400  # where more than so many pieces are to be decided the search is cut early and says so
MANY = 14
SLIPS_OF_A_PIECE = 2 * ORDINARY_SLIP  # what leaving it out may save, one slip either side of it


class Pairing(Pricing):
    """The search over one way to read the list."""

    def __init__(
        self, spots: Spots, identity: Identity, task: Task, loose: Sequence[Entry],
        *, finished: bool, budget: Budget,
    ):  # fmt: skip
        super().__init__(spots, identity, task, loose, finished=finished, budget=budget)
        self._hinted = {token.hint for token in self.tokens if token.hint is not None}
        self._prepare()
        self._needed_between: dict[tuple, int] = {}
        self._needed_without: dict[int, int] = {}
        self._presumed = [self._as_good_as_sure(ways) if self._hinted else None for ways in self.reduced]
        self._may_stand = [any(home is not None for home in ways) for ways in self.reduced]
        self._owner = {home: p for p, home in enumerate(self._presumed) if home is not None}

    # Lower bounds

    def _prepare(self) -> None:
        groups = self.groups
        columns = [group for group in groups for _ in range(group.size)]
        self.missing_price = [self._missing_at_least(group) for group in groups]
        seats: dict[Group, list[int]] = {}
        for j, group in enumerate(columns):
            seats.setdefault(group, []).append(j)
        costs = []
        for p, options in enumerate(self.options):
            row = [FORBIDDEN] * (len(columns) + len(self.tokens))
            for group, match in options.items():
                for j in seats[group]:
                    row[j] = match.price - self.missing_price[group.index]
            row[len(columns) + p] = self._extra_at_least(p)
            costs.append(row)
        _, u, v = assign(costs)
        self.least = sum(u) + sum(v) + sum(self.missing_price[group.index] for group in columns)
        self.reduced: list[dict[Group | None, int]] = []
        for p, options in enumerate(self.options):
            reduced: dict[Group | None, int] = {}
            if self.tokens[p].piece is not None:  # a block is never over
                reduced[None] = costs[p][len(columns) + p] - u[p] - v[len(columns) + p]
            for group in options:
                reduced[group] = min([costs[p][j] - u[p] - v[j] for j in seats[group]])
            self.reduced.append(reduced)

    def _missing_at_least(self, group: Group) -> int:
        if not self.finished or group.fixed or group.may_be_absent:
            return 0
        return PRICES["missing"].points // group.size if group.counted else PRICES["missing"].points

    def _extra_at_least(self, p: int) -> int:
        if self.tokens[p].piece is None:
            return FORBIDDEN
        named = self.named[p]
        groups = self.by_part.get(named, ()) if named else ()
        if groups and groups[0].fixed:
            room = sum(group.size for group in self.options[p])
            rivals = sum(1 for q, other in enumerate(self.named) if other == named)
            return FORBIDDEN if rivals <= room else PRICES["extra"].points
        if any(group.counted for group in groups):
            return PRICES["count_differs"].further
        return PRICES["extra"].points

    @staticmethod
    def _as_good_as_sure(ways: dict[Group | None, int]) -> Group | None:
        """The one home of a piece that any other costs as much more as the slips that it may save."""
        cheap = [home for home, more in ways.items() if more < SLIPS_OF_A_PIECE]
        return cheap[0] if len(cheap) == 1 and ways[cheap[0]] == 0 else None

    # Search

    def search(self, limit: int, most_nodes: int = MOST_NODES, *, all_below: bool = False) -> list[Priced]:
        """The cheapest choices below `limit`; with `all_below` every one that was seen, not only the improving ones."""
        self.kept: list[Priced] = []
        nodes = (
            min(most_nodes, MOST_NODES_OF_MANY) if len(self.tokens) > MANY and most_nodes <= MOST_NODES else most_nodes
        )
        self.limit, self.nodes, self.all_below = limit, nodes, all_below
        self.floor = IMPOSSIBLE  # nothing cheaper than this was left unseen
        self._room = [group.size for group in self.groups]
        self._homes: list[Group | None] = []
        self._placed = 0
        if self.least < limit:
            if self._hinted and not all_below:
                self._keep(self._first_guess())
            self._branch(self.least, None, 0)
        return sorted(self.kept, key=lambda priced: priced.price)

    def _branch(self, least: int, line: Stretch | None, slips: int) -> None:
        """Places the next piece; `least` is what the choices cost so far,
        `slips` what the slips of the line do at least.
        """
        if self.nodes <= 0 or self.budget.is_spent:
            self.floor = min(self.floor, least + slips)
            return
        self.nodes -= 1
        p = len(self._homes)
        if p == len(self.tokens):
            self._keep(self._homes)
            return
        ways = []
        for home, more in self._homes_for(p):
            if home is None or self._room[home.index]:
                ways.append((self._promise(p, home, more, slips), home.index if home else FORBIDDEN, home, more))
        for _, _, home, more in sorted(ways, key=lambda way: way[:2]):
            price = least + more
            certain = slips if home is self._presumed[p] or self._presumed[p] is None else slips - SLIPS_OF_A_PIECE
            if price + certain >= self.limit:
                continue
            placed_before = self._placed
            self._homes.append(home)
            longer = line
            if home is not None:
                # A piece that stays where it is as good as sure was counted when the last doubtful one was placed.
                longer = self._with_last(line, at_once=not self._hinted or home is not self._presumed[p])
                self._room[home.index] -= 1
                self._placed |= 1 << home.index
            owed, certain = self._at_least(p, longer, price, slips)
            if price + owed + certain < self.limit:
                self._branch(price, longer, certain)
            if home is not None:
                self._room[home.index] += 1
                self._placed = placed_before
            self._homes.pop()

    def _homes_for(self, p: int) -> Iterable[tuple[Group | None, int]]:
        """Where a piece may belong. Of pieces of one entry side by side it makes no difference which are over:
        the last are.
        """
        if p and self._homes[p - 1] is None and self.tokens[p].piece is self.tokens[p - 1].piece is not None:
            return [(None, self.reduced[p][None])]
        return self.reduced[p].items()

    def _keep(self, homes: Sequence[Group | None]) -> None:
        """Prices a choice of homes and keeps what lies below the limit."""
        for priced in self._price_all(tuple(homes)):
            if priced.price < self.limit:
                self.kept.append(priced)
                if not self.all_below:
                    self.limit = priced.price

    def _first_guess(self) -> list[Group | None]:
        """Every piece in the place of its hint, the others in the cheapest that is left: a limit to begin with."""
        room = list(self._room)
        homes: list[Group | None] = [None] * len(self.tokens)
        for hinted in (True, False):
            for p, token in enumerate(self.tokens):
                if homes[p] is None and (token.hint is not None or token.piece is None) is hinted:
                    wanted = [token.hint] if hinted and token.piece is not None else self.options[p]
                    free = [home for home in wanted if room[home.index] and home in self.options[p]]
                    homes[p] = min(free, key=lambda home: self.options[p][home].price, default=None)
                    if homes[p] is not None:
                        room[homes[p].index] -= 1
        return self._equal_in_sequence(homes)

    def _equal_in_sequence(self, homes: Sequence[Group | None]) -> list[Group | None]:
        """The same homes with pieces of equal parts that have a face in the sequence of their places:
        none passes another.
        """
        seats: dict[str, list[int]] = {}
        for p, home in enumerate(homes):
            if home is not None and home.faced:
                seats.setdefault(home.part, []).append(p)
        given = list(homes)
        for pieces in seats.values():
            for p, home in zip(pieces, sorted([homes[p] for p in pieces], key=lambda home: home.index)):
                given[p] = home
        return given

    def _at_least(self, p: int, line: Stretch | None, price: int, slips: int) -> tuple[int, int]:
        """Points that pieces still to be placed must cost, and points that the slips of the line do, at least.

        Two turned faces may be those of one swap whose other part is not placed yet. In a short line a part that agrees
        may have been swapped twice, so no more than two slips are certain there. In a long one every piece whose home
        is doubtful is laid against all those whose homes are as good as sure.
        """
        home = self._homes[p]
        now = max(needed(line), int(home is not None and bool(self._turned(p, home)))) * ORDINARY_SLIP
        if not self._hinted:
            return 0, max(slips, min(now, 2 * ORDINARY_SLIP))
        if p and home is self._presumed[p]:
            return 0, max(slips, now)
        owner = self._owner.get(home, 0)
        given_away = p if self._presumed[p] is not None else owner if owner > p and not self._room[home.index] else 0
        if given_away:
            owed, now = self._elsewhere(owner) if given_away > p else 0, max(now, self._without(given_away))
            if price + owed + now >= self.limit:
                return owed, now
        owed, line, stand = self._to_the_end(line)
        return owed, max(now, needed(line) * ORDINARY_SLIP, self._parted(stand))

    def _elsewhere(self, p: int) -> int:
        """What it costs more that a piece does not go to the home that is as good as sure."""
        return min((more for home, more in self.reduced[p].items() if home is not self._presumed[p]), default=FORBIDDEN)

    def _without(self, p: int) -> int:
        """What the slips cost at least that all other pieces need whose homes are as good as sure."""
        if p in self._idle:
            return self._without(-1)
        if p not in self._needed_without:
            line = self._sure_line(without=p)
            self._needed_without[p] = needed(line) * ORDINARY_SLIP
        return self._needed_without[p]

    @cached_property
    def _idle(self) -> set[int]:
        """Pieces that agree between pieces that agree: the others need the same slips without them."""
        stretches, line = [], self._sure_line()
        while line is not None:
            stretches.append(line)
            line = line.nearer
        alone = zip(stretches[2:], stretches[1:], stretches)
        return {
            here.start for nearer, here, further in alone
            if not nearer.slips | here.slips | further.slips and here.groups.bit_count() == 1
        }  # fmt: skip

    def _sure_line(self, without: int = -1) -> Stretch | None:
        """The stretches of all pieces whose homes are as good as sure, one of them left out."""
        homes, room, presumed = self._homes, self._room, self._presumed
        self._homes, self._room = [], [group.size for group in self.groups]
        self._presumed = [home if p != without else None for p, home in enumerate(presumed)]
        line = self._to_the_end(None)[1]
        self._homes, self._room, self._presumed = homes, room, presumed
        return line

    def _to_the_end(self, line: Stretch | None) -> tuple[int, Stretch | None, list[Group | None]]:
        """What is placed laid together with every piece behind it whose home is as good as sure, and these homes.

        Where that home was given away the piece must go elsewhere; what that costs at least comes first.
        """
        now, owed = len(self._homes), 0
        self.budget.look(len(self.tokens) - now)
        for p in range(now, len(self.tokens)):
            home = self._presumed[p]
            if home is not None and not self._room[home.index]:
                owed += self._elsewhere(p)
                home = None
            self._homes.append(home)
            if home is not None:
                line = self._with_last(line, at_once=False)
        homes = list(self._homes)
        del self._homes[now:]
        return owed, line, homes

    def _parted(self, homes: Sequence[Group | None]) -> int:
        """What the slips cost at least that part the neighbours of a line; swaps are told apart where it is whole.

        A piece not placed yet may be the other part of a swap. That a piece which is as good as sure goes elsewhere
        mends three breaks at most, as a moved run does, and costs more than the slip that it saves.
        """
        placed = [home for home in homes if home is not None]
        slips = Breaks(placed).slips_needed(range(len(placed)))
        whole = not any(homes[p] is None and self._may_stand[p] for p in range(len(self._homes), len(homes)))
        return cheapest_of(slips, swaps_needed(_seats(placed)) if whole and self.spots.is_one_line else 0)

    def _promise(self, p: int, home: Group | None, more: int, slips: int) -> tuple[int, int]:
        """Which home to try first: the cheapest, then the one that the fewest edits give,
        then one that nobody is given.
        """
        if self._hinted:
            return more, 0 if home is self.tokens[p].hint else 2 if home in self._hinted else 1
        against = slips == 0 and home is not None and self._contradicts(home)
        return more + (ORDINARY_SLIP if against else 0), 0

    def _contradicts(self, home: Group) -> bool:
        return bool(self.further[home.index] & self._placed)

    def _with_last(self, line: Stretch | None, *, at_once: bool) -> Stretch:
        """The stretches of what is placed, the last piece with them."""
        p, home = len(self._homes) - 1, self._homes[-1]
        index = home.index
        return placed(
            line, p, 1 << index, self.nearer[index], self.further[index], self._slips_between, at_once=at_once
        )

    def _slips_between(self, start: int, end: int) -> int:
        homes = tuple(self._homes[start:end])
        known = self._needed_between.get((start, homes))
        if known is None:
            items = self._items([*[None] * start, *homes])
            items = [item if item.turned is None else replace(item, turned=None) for item in items]
            known = self._needed_between[start, homes] = slips_needed(items, self._masks(items))
        return known


def _seats(homes: Sequence[Group]) -> list[int]:
    """For each home of one stack how many of the others lie nearer the first end."""
    ranks = sorted([home.rank for home in homes])
    seat = {rank: number for number, rank in enumerate(ranks)}
    return [seat[home.rank] for home in homes]
