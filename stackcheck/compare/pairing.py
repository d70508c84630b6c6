"""Who is it and where did it sit, in one search: every piece gets a home or is extra, every place is filled or empty.

A choice costs what the identities cost, what is absent or over, and the slips that the sequence then needs. The cheapest
assignment without regard to sequence gives each choice a lower bound (its reduced prices); what is settled so far adds
the slips that it already needs. Branches that cannot come below the limit are cut, the others are priced to the end.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, islice, product

from stackcheck.compare import knots
from stackcheck.compare.assignment import assign
from stackcheck.compare.identity import DIFFERENT, SAME, Identity, Match
from stackcheck.compare.prices import EXTRA_WITH_AN_EMPTY_PLACE, ORDINARY_SLIP, PRICES, count_off_by
from stackcheck.compare.sets import union
from stackcheck.compare.spots import Group, Spots, lies_before
from stackcheck.compare.task import Task
from stackcheck.model.found import Entry
from stackcheck.model.part import Part
from stackcheck.value import Value, replace

FORBIDDEN = 1 << 20
IMPOSSIBLE = knots.IMPOSSIBLE
MOST_NODES = 800
MOST_NODES_OF_MANY = 400  # where more than so many pieces are to be decided the search is cut early and says so
MANY = 14
MOST_EXCHANGED = 4
MOST_PASSED = 6
MOST_WITNESSES = 16


class Priced(Value, eq=False):
    """One choice priced to the end: a home for each piece, the empty places, the slips, and what each piece was taken for.

    `unreached` counts the spots of a group that the teardown did not come to, `missing` those that are empty for good.
    `loose` pairs an entry that was found loose with the group it belongs to, None where it is over. `surplus` says of
    each piece over the count of a counted place beside which pieces it stood and what it was taken for.
    """

    homes: tuple[Group | None, ...]
    matches: tuple[Match | None, ...]
    missing: tuple[tuple[Group, int], ...]
    unreached: tuple[tuple[Group, int], ...]
    loose: tuple[tuple[Entry, Group | None, Match | None], ...]
    surplus: dict[int, tuple[Group, Match]]
    items: tuple[knots.Item, ...]
    slips: tuple[knots.Slip, ...]
    price: int
    bound: int


class Pairing:
    """The search over one way to read the list."""

    def __init__(
        self, spots: Spots, identity: Identity, task: Task, loose: Sequence[Entry],
        *, finished: bool, budget: knots.Budget,
    ):  # fmt: skip
        self.spots, self.identity, self.task = spots, identity, task
        self.tokens, self.gap, self.groups = task.tokens, task.gap, task.groups
        self.by_part: dict[str, list[Group]] = {}
        for group in task.groups:
            self.by_part.setdefault(group.part, []).append(group)
        self.loose, self.finished = loose, finished
        self.budget = budget
        self._settled: dict[tuple, tuple[int, knots.Settled]] = {}
        self.named = [self._named_part(token.piece.entry) if token.piece else None for token in self.tokens]
        self.options = [
            self._options(token.piece.entry) if token.piece else {token.home: Match(SAME, 0)} for token in self.tokens
        ]
        self._after: dict[int, int] = {}
        self._hinted = {token.hint for token in self.tokens if token.hint is not None}
        self._prepare()

    # What a piece may be

    def _named_part(self, entry: Entry) -> str | None:
        if entry.part in self.spots.closed:
            return entry.part
        part = self.identity.listed(entry)
        return part.id if part else None

    def _options(self, entry: Entry) -> dict[Group, Match]:
        if entry.part in self.spots.closed:
            return {group: Match("same", 0) for group in self.by_part.get(entry.part, ())}
        named = self.identity.named(entry)
        options: dict[Group, Match] = {}
        for part, groups in self.by_part.items():
            if groups[0].unit or not part:
                continue
            if groups[0].fixed and (named is None or named.id != part):
                continue
            match = self.identity.match(entry, part)
            if match is not None:
                options.update(dict.fromkeys(groups, match))
        if named is not None and named.fixed:
            exact = {group: match for group, match in options.items() if group.name == entry.part}
            return exact or options
        return options

    # Lower bounds

    def _prepare(self) -> None:
        groups = self.groups
        columns = [group for group in groups for _ in range(group.size)]
        self.missing_price = [self._missing_at_least(group) for group in groups]
        costs = []
        for p, options in enumerate(self.options):
            row = [
                options[group].price - self.missing_price[group.index] if group in options else FORBIDDEN
                for group in columns
            ]
            costs.append(row + [self._extra_at_least(p) if p == q else FORBIDDEN for q in range(len(self.tokens))])
        _, u, v = assign(costs)
        self.least = sum(u) + sum(v) + sum(self.missing_price[group.index] for group in columns)
        self.reduced: list[dict[Group | None, int]] = []
        for p, options in enumerate(self.options):
            reduced: dict[Group | None, int] = {}
            if self.tokens[p].piece is not None:  # a block is never over
                reduced[None] = costs[p][len(columns) + p] - u[p] - v[len(columns) + p]
            for j, group in enumerate(columns):
                if group in options:
                    more = costs[p][j] - u[p] - v[j]
                    reduced[group] = min(more, reduced.get(group, more))
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

    # Search

    def search(self, limit: int, most_nodes: int = MOST_NODES, *, all_below: bool = False) -> list[Priced]:
        """The cheapest choices below `limit`; with `all_below` every one that was seen, not only the improving ones."""
        self.kept: list[Priced] = []
        nodes = most_nodes if len(self.tokens) <= MANY else min(most_nodes, MOST_NODES_OF_MANY)
        self.limit, self.nodes, self.all_below = limit, nodes, all_below
        self.floor = IMPOSSIBLE  # nothing cheaper than this was left unseen
        self._room = [group.size for group in self.groups]
        self._homes: list[Group | None] = []
        self._placed = 0
        if self.least < limit:
            self._branch(self.least, 0)
        return sorted(self.kept, key=lambda priced: priced.price)

    def _branch(self, least: int, needed: int) -> None:
        if self.nodes <= 0:
            self.floor = min(self.floor, least + needed * ORDINARY_SLIP)
            return
        self.nodes -= 1
        p = len(self._homes)
        if p == len(self.tokens):
            for priced in self._price_all(tuple(self._homes)):
                if priced.price < self.limit:
                    self.kept.append(priced)
                    if not self.all_below:
                        self.limit = priced.price
            return
        ways = []
        for home, more in self.reduced[p].items():
            if home is None or self._room[home.index]:
                ways.append((self._promise(p, home, more, needed), home.index if home else FORBIDDEN, home, more))
        for _, _, home, more in sorted(ways, key=lambda way: way[:2]):
            price = least + more
            if price + needed * ORDINARY_SLIP >= self.limit:
                continue
            self._homes.append(home)
            now = self._slips_needed(needed) if home is not None else needed
            if price + now * ORDINARY_SLIP < self.limit:
                placed = self._placed
                if home is not None:
                    self._room[home.index] -= 1
                    self._placed |= 1 << home.index
                self._branch(price, now)
                self._placed = placed
                if home is not None:
                    self._room[home.index] += 1
            self._homes.pop()

    def _promise(self, p: int, home: Group | None, more: int, needed: int) -> tuple[int, int]:
        """Which home to try first: the cheapest, then the one that the fewest edits give, then one that nobody is given."""
        if self._hinted:
            return more, 0 if home is self.tokens[p].hint else 2 if home in self._hinted else 1
        against = needed == 0 and home is not None and self._contradicts(home)
        return more + (ORDINARY_SLIP if against else 0), 0

    def _groups_after(self, group: Group) -> int:
        """The groups that the reference wants after this one, as bits."""
        mask = self._after.get(group.index)
        if mask is None:
            mask = union(1 << other.index for other in self.groups if lies_before(group, other))
            self._after[group.index] = mask
        return mask

    def _masks(self, items: Sequence[knots.Item], exchanged: frozenset[int] = frozenset()) -> list[int]:
        """For each item the items that the reference wants before it.

        Equal spots that stand together are not ordered, but one that was not reached stays where it is: what was found
        belongs on the side of it where it stands, or, if it is `exchanged`, on the other.
        """
        before = [0] * len(items)
        indices = [item.group.index for item in items]
        for j, item in enumerate(items):
            after = self._groups_after(item.group)
            for i, index in enumerate(indices):
                if after >> index & 1:
                    before[i] |= 1 << j
                elif (
                    i != j and index == item.group.index and (item.is_deep or items[i].is_deep)
                    and (i > j) is exchanged.isdisjoint((i, j))
                ):  # fmt: skip
                    before[i] |= 1 << j
        return before

    def _contradicts(self, home: Group) -> bool:
        return bool(self._groups_after(home) & self._placed)

    def _slips_needed(self, so_far: int) -> int:
        """A lower bound from the pieces placed so far: leaving parts out never makes more slips necessary."""
        if so_far >= 2 or (so_far == 0 and not self._last_matters()):
            return so_far
        items = self._items(self._homes)
        return knots.slips_needed(items, self._masks(items))

    def _last_matters(self) -> bool:
        home = self._homes[-1]
        return bool(self._turned(len(self._homes) - 1, home)) or self._contradicts(home)

    # Price of one choice

    def _turned(self, p: int, home: Group) -> bool | None:
        piece = self.tokens[p].piece
        toward = piece.toward if piece else ""
        return toward != home.facing if toward and home.facing else None

    def _items(self, homes: Sequence[Group | None]) -> list[knots.Item]:
        """What the sequence is about: one item a piece, pieces of a counted place that stand together one item."""
        items: list[knots.Item] = []
        for p, home in enumerate(homes):
            if home is None:
                continue
            turned = self._turned(p, home)
            last = items[-1] if items else None
            if last is not None and home.counted and last.group is home and last.turned == turned:
                items[-1] = replace(last, key=(*last.key, *self.tokens[p].pieces))
                continue
            items.append(
                knots.Item(
                    key=self.tokens[p].pieces, parts=len(self.tokens[p].pieces), low=home.low, rank=home.rank,
                    movable=not home.fixed, turned=turned, group=home,
                    equal=home.part if home.faced else None, facing=home.facing,
                )
            )  # fmt: skip
        return items

    def _price_all(self, homes: tuple[Group | None, ...]) -> Iterator[Priced]:
        matches = tuple(
            self.options[p][home] if home is not None else None for p, home in enumerate(homes)
        )
        room = {group: group.size for group in self.groups if not group.fixed}
        for home in homes:
            if home in room:
                room[home] -= 1
        empty = {group: left for group, left in room.items() if left}
        price = sum(match.price for match in matches if match)
        head, tail = self._items(homes[: self.gap]), self._items([*[None] * self.gap, *homes[self.gap :]])
        for unreached in self._ways_to_stop(homes, empty):
            missing = {group: left for group, left in empty.items() if group not in unreached}
            loose, loose_price, still_empty = self._place_loose(empty, missing)
            surplus, extra = self._extras(homes, still_empty)
            total = price + extra + loose_price + sum(self._missing(group, left) for group, left in missing.items())
            if total >= self.limit:
                continue
            deep = [
                knots.Item(key=group, low=group.low, rank=group.rank, movable=False, group=group) for group in unreached
            ]
            line = [*head, *deep, *tail]
            wanted = [group for group in missing if not group.may_be_absent]
            settled = self._settle(line, len(head), wanted, self.limit - total)
            if total + settled.price < self.limit:
                yield Priced(
                    homes=homes, matches=matches, missing=tuple(missing.items()), unreached=tuple(unreached.items()),
                    loose=loose, surplus=surplus, items=tuple(line), slips=settled.slips,
                    price=total + settled.price, bound=total + settled.bound,
                )  # fmt: skip
            elif not settled.proved:
                self.floor = min(self.floor, total + settled.bound)

    def _settle(self, line: list[knots.Item], first: int, missing: list[Group], limit: int) -> knots.Settled:
        """The cheapest slips that leave in place, for every missing part, something that shows it was passed."""
        settled = self._settle_line(line, limit)
        if settled.price > ORDINARY_SLIP and not self.finished:
            for exchanged in self._exchanged(line):
                other = self._settle_line(line, min(limit, settled.price), exchanged)
                bound = min(settled.bound, other.bound)
                settled = replace(min(other, settled, key=lambda way: way.price), bound=bound)
        if self.finished or not missing or settled.price >= limit:
            return settled
        shows = [self._shows(line, first, group) for group in missing]
        out_of_place = {i for slip in settled.slips if slip.kind != knots.TURN for i in slip.items}
        if all(not set(witnesses) <= out_of_place for witnesses in shows):
            return settled
        held = islice(dict.fromkeys(frozenset(choice) for choice in product(*shows)), MOST_WITNESSES)
        ways = [
            self._settle_line([replace(item, movable=item.movable and i not in stay) for i, item in enumerate(line)], limit)
            for stay in held
        ]
        return min(ways, key=lambda way: way.price, default=knots.Settled(IMPOSSIBLE, (), IMPOSSIBLE))

    def _exchanged(self, line: Sequence[knots.Item]) -> Iterator[frozenset[int]]:
        """Found items that may belong on the other side of an equal place which was not reached, in every choice."""
        deep = {item.group for item in line if item.is_deep}
        equal = [i for i, item in enumerate(line) if not item.is_deep and item.group in deep][:MOST_EXCHANGED]
        for size in range(1, len(equal) + 1):
            yield from map(frozenset, combinations(equal, size))

    def _settle_line(
        self, line: list[knots.Item], limit: int, exchanged: frozenset[int] = frozenset()
    ) -> knots.Settled:
        """Settled once for every line of the same homes and faces; a search that was cut by a lower limit is done again."""
        key = tuple((item.group.index, item.turned, item.movable, len(item.key) if item.movable else 0) for item in line), exchanged
        known = self._settled.get(key)
        if known is None or known[1].price >= known[0] and known[0] < limit:
            known = self._settled[key] = limit, knots.settle(line, self._masks(line, exchanged), limit, self.budget)
        return known[1]

    def _shows(self, line: Sequence[knots.Item], first: int, group: Group) -> list[int]:
        """Items that, kept in place, show that the teardown passed an empty place."""
        return [
            i
            for i, item in enumerate(line)
            if isinstance(item.key, tuple)
            and (lies_before(group, item.group) if i < first else lies_before(item.group, group))
        ]

    def _missing(self, group: Group, left: int) -> int:
        if group.may_be_absent:
            return 0
        if group.counted and left < group.size:
            return count_off_by(left)
        return PRICES["missing"].of() * (1 if group.counted else left)

    def _extras(
        self, homes: Sequence[Group | None], empty: Sequence[Group]
    ) -> tuple[dict[int, tuple[Group, Match]], int]:
        """Pieces over: those that fit their own counted group beside them go together, the others each by itself."""
        surplus: dict[int, tuple[Group, Match]] = {}
        price = 0
        start = 0
        while start < len(homes):
            end = start + 1
            while end < len(homes) and self.named[end] is not None and self.named[end] == self.named[start]:
                end += 1
            over = [p for p in range(start, end) if homes[p] is None]
            beside = next((homes[p] for p in range(start, end) if over and homes[p] is not None and homes[p].counted), None)
            fits = self._fitting(over, beside) if beside else []
            by_itself = {p: self._over(self.tokens[p].piece.entry, empty) for p in over}
            ways = []
            for number in range(len(fits), -1, -1):
                together = fits[:number]
                ways.append((
                    (count_off_by(number) if number else 0)
                    + sum(self.options[p][beside].price for p in together)
                    + sum(by_itself[p] for p in over if p not in together),
                    number,
                ))  # fmt: skip
            cheapest, number = min(ways, key=lambda way: way[0])
            surplus.update({p: (beside, self.options[p][beside]) for p in fits[:number]})
            price += cheapest
            start = end
        return surplus, price

    def _fitting(self, pieces: Iterable[int], group: Group) -> list[int]:
        """The pieces that may be one more of a counted place, those about which least has to be said first."""
        fits = [p for p in pieces if group in self.options[p] and self.options[p][group].how != DIFFERENT]
        return sorted(fits, key=lambda p: self.options[p][group].price)

    def _over(self, entry: Entry, empty: Iterable[Group]) -> int:
        """An extra piece: dearer where a place is empty whose own or accepted number it bears, for it came from there."""
        from_there = any(
            group.part == entry.part if group.unit else self.identity.bears_number_of(entry, self._part(group))
            for group in empty if not group.fixed
        )  # fmt: skip
        return PRICES["extra"].of() + from_there * EXTRA_WITH_AN_EMPTY_PLACE.of()

    def _part(self, group: Group) -> Part:
        return self.spots.reference.part(group.part)

    def _ways_to_stop(self, homes: Sequence[Group | None], empty: dict[Group, int]) -> Iterator[dict[Group, int]]:
        """Which empty groups may lie where the teardown stopped.

        Those that nothing found lies beyond do. The others do where what lies beyond them is out of place: the slips that
        say so are priced with the line.
        """
        if self.finished:
            yield {}
            return
        passed = {
            group: None
            for p, home in enumerate(homes) if home is not None
            for group in empty
            if not group.may_be_absent and (lies_before(group, home) if p < self.gap else lies_before(home, group))
        }  # fmt: skip
        sizes = range(len(passed) + 1) if len(passed) <= MOST_PASSED else (0, len(passed))
        for size in sizes:
            for deep in combinations(passed, size):
                yield {
                    group: left for group, left in empty.items()
                    if not group.may_be_absent and (group not in passed or group in deep)
                }  # fmt: skip

    def _place_loose(self, empty: dict[Group, int], missing: dict[Group, int]) -> tuple[tuple, int, list[Group]]:
        """Parts found loose belong to empty places, missing ones first; what fits none is over. What stays empty."""
        room = dict(empty)
        placed, price = [], 0
        for entry in self.loose:
            for _ in range(entry.count):
                ways = []
                for group, left in room.items():
                    match = None if group.unit or not left else self.identity.match(entry, group.part)
                    if match is not None and match.how != DIFFERENT:
                        charged = group in missing and not group.may_be_absent
                        ways.append((match.price + (0 if charged else PRICES["missing"].of()), group.index, group, match))
                over = self._over(entry, [group for group, left in room.items() if left])
                cost, _, group, match = min([*ways, (over, FORBIDDEN, None, None)], key=lambda way: way[:2])
                if group is not None:
                    room[group] -= 1
                price += cost
                placed.append((entry, group, match))
        return tuple(placed), price, [group for group, left in room.items() if left]
