"""What one choice of homes costs: identities, what is absent or over, where the teardown stopped,
and the slips it needs.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, islice, pairwise, product

from stackcheck.compare.identity import AGREES, DIFFERENT, SAME, Identity, Match
from stackcheck.compare.knots import settle
from stackcheck.compare.prices import EXTRA_WITH_AN_EMPTY_PLACE, ORDINARY_SLIP, PRICES, count_off_by
from stackcheck.compare.slips import IMPOSSIBLE, TURN, Budget, Item, Settled, Slip
from stackcheck.compare.spots import Group, Spots, lies_before
from stackcheck.compare.task import Task
from stackcheck.model.found import Entry
from stackcheck.model.part import Part
from stackcheck.value import Value, replace

FORBIDDEN = 1 << 20
MOST_EXCHANGED = 4
MOST_PASSED = 6
MOST_WITNESSES = 16


class Priced(Value, eq=False):
    """One choice priced to the end: a home for each piece, the empty places, the slips,
    and what each piece was taken for.

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
    items: tuple[Item, ...]
    slips: tuple[Slip, ...]
    price: int
    bound: int


class Pricing:
    """Prices the choices of homes for the pieces of one way to read the list."""

    def __init__(
        self, spots: Spots, identity: Identity, task: Task, loose: Sequence[Entry],
        *, finished: bool, budget: Budget,
    ):  # fmt: skip
        self.spots, self.identity, self.task = spots, identity, task
        self.tokens, self.gap, self.groups = task.tokens, task.gap, task.groups
        self.by_part: dict[str, list[Group]] = {}
        for group in task.groups:
            self.by_part.setdefault(group.part, []).append(group)
        self._accepting: set[str] = set()
        self._of_kind: dict[str, set[str]] = {}
        for part in [self._part(groups[0]) for name, groups in self.by_part.items() if name and not groups[0].unit]:
            self._of_kind.setdefault(part.kind, set()).add(part.id)
            if part.accepts:
                self._accepting.add(part.id)
        self.loose, self.finished = loose, finished
        self.budget = budget
        self._settled: dict[tuple, tuple[int, Settled]] = {}
        self.named = [self._named_part(token.piece.entry) if token.piece else None for token in self.tokens]
        self.options = [
            self._options(token.piece.entry) if token.piece else {token.home: Match(SAME, 0)} for token in self.tokens
        ]
        self.nearer, self.further = _relations(task.groups)
        self.limit = self.floor = IMPOSSIBLE

    # What a piece may be

    def _named_part(self, entry: Entry) -> str | None:
        if entry.part in self.spots.closed:
            return entry.part
        part = self.identity.listed(entry)
        return part.id if part else None

    def _options(self, entry: Entry) -> dict[Group, Match]:
        if entry.part in self.spots.closed:
            return {group: AGREES for group in self.by_part.get(entry.part, ())}
        named = self.identity.named(entry)
        options: dict[Group, Match] = {}
        # What was named, with no number read off it, is taken for nothing but its kind and what accepts its number.
        perhaps = self._accepting | self._of_kind.get(named.kind, set()) if named and not entry.marked else self.by_part
        for part, groups in self.by_part.items():
            if part not in perhaps or groups[0].unit or not part:
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

    # Sequence

    def _masks(self, items: Sequence[Item], exchanged: frozenset[int] = frozenset()) -> list[int]:
        """For each item the items that the reference wants before it.

        Equal spots that stand together are not ordered, but one that was not reached stays where it is: what was found
        belongs on the side of it where it stands, or, if it is `exchanged`, on the other.
        """
        groups = [(1 << item.group.index, 1 << i) for i, item in enumerate(items)]
        before = []
        for item in items:
            nearer, mask = self.nearer[item.group.index], 0
            for group, bit in groups:
                if nearer & group:
                    mask |= bit
            before.append(mask)
        for j, deep in enumerate(items):
            if deep.is_deep:
                for i, item in enumerate(items):
                    if i != j and item.group is deep.group:
                        first, second = (i, j) if (i < j) is exchanged.isdisjoint((i, j)) else (j, i)
                        before[second] |= 1 << first
        return before

    # Price of one choice

    def with_nothing_in_place(self) -> Priced:
        """Everything that was found is extra and everything else missing:
        always an explanation, where no other is found.
        """
        return next(self._price_all((None,) * len(self.tokens)))

    def _turned(self, p: int, home: Group) -> bool | None:
        piece = self.tokens[p].piece
        toward = piece.toward if piece else ""
        return toward != home.facing if toward and home.facing else None

    def _items(self, homes: Sequence[Group | None]) -> list[Item]:
        """What the sequence is about: one item a piece, pieces of a counted place that stand together one item."""
        items: list[Item] = []
        for p, home in enumerate(homes):
            if home is None:
                continue
            turned = self._turned(p, home)
            last = items[-1] if items else None
            if last is not None and home.counted and last.group is home and last.turned == turned:
                items[-1] = replace(last, key=(*last.key, *self.tokens[p].pieces))
                continue
            items.append(
                Item(
                    key=self.tokens[p].pieces, parts=len(self.tokens[p].pieces), low=home.low, rank=home.rank,
                    movable=not home.fixed, turned=turned, group=home,
                    equal=home.part if home.faced else None, facing=home.facing,
                )
            )  # fmt: skip
        return items

    def _price_all(self, homes: tuple[Group | None, ...]) -> Iterator[Priced]:
        matches = tuple(self.options[p][home] if home is not None else None for p, home in enumerate(homes))
        room = {group: group.size for group in self.groups if not group.fixed}
        for home in homes:
            if home in room:
                room[home] -= 1
        empty = {group: left for group, left in room.items() if left}
        price = sum(match.price for match in matches if match)
        if self.finished:
            head, tail = self._items(homes), []
        else:  # what came off either side of the gap was never seen together
            head, tail = self._items(homes[: self.gap]), self._items([*[None] * self.gap, *homes[self.gap :]])
        over: dict[tuple, tuple[dict, int]] = {}
        for unreached in self._ways_to_stop(homes, empty):
            missing = {group: left for group, left in empty.items() if group not in unreached}
            loose, loose_price, still_empty = self._place_loose(empty, missing)
            unreached = _less_what_was_found_loose(unreached, loose)
            if tuple(still_empty) not in over:
                over[tuple(still_empty)] = self._extras(homes, still_empty)
            surplus, extra = over[tuple(still_empty)]
            total = price + extra + loose_price + sum(self._missing(group, left) for group, left in missing.items())
            if total >= self.limit:
                continue
            deep = [Item(key=group, low=group.low, rank=group.rank, movable=False, group=group) for group in unreached]
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

    def _settle(self, line: list[Item], first: int, missing: list[Group], limit: int) -> Settled:
        """The cheapest slips that leave in place, for every missing part, something that shows it was passed."""
        settled = self._settle_line(line, limit)
        if settled.price > ORDINARY_SLIP and not self.finished:
            for exchanged in self._exchanged(line):
                other = self._settle_line(line, min(limit, settled.price), exchanged)
                bound = min(settled.bound, other.bound)
                settled = replace(min(other, settled, key=lambda way: way.price), bound=bound)
        if self.finished or not missing or settled.price >= limit:
            return settled
        shows = [frozenset(self._shows(line, first, group)) for group in missing]
        out_of_place = {i for slip in settled.slips if slip.kind != TURN for i in slip.items}
        if all(not witnesses <= out_of_place for witnesses in shows):
            return settled
        # What shows that one was passed may show it of another too: only the sets that hold no other one matter.
        fewest = [
            sorted(witnesses) for witnesses in dict.fromkeys(shows) if not any(other < witnesses for other in shows)
        ]
        held = list(islice(_each_once(map(frozenset, product(*fewest))), MOST_WITNESSES + 1))
        ways = [
            self._settle_line(
                [replace(item, movable=item.movable and i not in stay) for i, item in enumerate(line)], limit
            )
            for stay in held[:MOST_WITNESSES]
        ]
        best = min(ways, key=lambda way: way.price, default=Settled(IMPOSSIBLE, (), IMPOSSIBLE))
        # What holds parts in place never costs less than what holds none.
        bound = min([way.bound for way in ways] if len(held) <= MOST_WITNESSES else [settled.bound], default=IMPOSSIBLE)
        return replace(best, bound=min(best.price, max(bound, settled.bound)))

    def _exchanged(self, line: Sequence[Item]) -> Iterator[frozenset[int]]:
        """Found items that may belong on the other side of an equal place which was not reached, in every choice."""
        deep = {item.group for item in line if item.is_deep}
        equal = [i for i, item in enumerate(line) if not item.is_deep and item.group in deep][:MOST_EXCHANGED]
        for size in range(1, len(equal) + 1):
            yield from map(frozenset, combinations(equal, size))

    def _settle_line(self, line: list[Item], limit: int, exchanged: frozenset[int] = frozenset()) -> Settled:
        """Settled once for every line of the same homes and faces;
        a search that was cut by a lower limit is done again.
        """
        key = tuple((item.group.index, item.turned, item.movable, item.is_deep) for item in line), exchanged
        known = self._settled.get(key)
        if known is None or known[1].price >= known[0] and known[0] < limit:
            self.budget.look(len(line), len(line))
            known = self._settled[key] = limit, settle(line, self._masks(line, exchanged), limit, self.budget)
        return known[1]

    def _shows(self, line: Sequence[Item], first: int, group: Group) -> list[int]:
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
            if not over:
                start = end
                continue
            beside = next((homes[p] for p in range(start, end) if homes[p] is not None and homes[p].counted), None)
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
        """An extra piece: dearer where a place is empty whose own or accepted number it bears,
        for it came from there.
        """
        from_there = any(
            group.part == entry.part if group.unit else self.identity.bears_number_of(entry, self._part(group))
            for group in empty if not group.fixed
        )  # fmt: skip
        return PRICES["extra"].of() + from_there * EXTRA_WITH_AN_EMPTY_PLACE.of()

    def _part(self, group: Group) -> Part:
        return self.spots.reference.part(group.part)

    def _ways_to_stop(self, homes: Sequence[Group | None], empty: dict[Group, int]) -> Iterator[dict[Group, int]]:
        """Which empty groups may lie where the teardown stopped.

        Those that nothing found lies beyond do. The others do where what lies beyond them is out of place: the slips
        that say so are priced with the line.
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

    def _loose_as(self, entry: Entry, group: Group) -> Match | None:
        """What a loose entry would be in the place of a group; a closed unit belongs in its own place only."""
        if group.unit or entry.part in self.spots.closed:
            return AGREES if entry.part == group.part else None
        return self.identity.match(entry, group.part)

    def _place_loose(self, empty: dict[Group, int], missing: dict[Group, int]) -> tuple[tuple, int, list[Group]]:
        """Parts found loose belong to empty places, missing ones first; what fits none is over. What stays empty."""
        room = dict(empty)
        placed, price = [], 0
        for entry in self.loose:
            for _ in range(entry.count):
                ways = []
                for group, left in room.items():
                    match = self._loose_as(entry, group) if left else None
                    if match is not None and match.how != DIFFERENT:
                        charged = group in missing and not group.may_be_absent
                        ways.append(
                            (match.price + (0 if charged else PRICES["missing"].of()), group.index, group, match)
                        )
                over = self._over(entry, [group for group, left in room.items() if left])
                cost, _, group, match = min([*ways, (over, FORBIDDEN, None, None)], key=lambda way: way[:2])
                if group is not None:
                    room[group] -= 1
                price += cost
                placed.append((entry, group, match))
        return tuple(placed), price, [group for group, left in room.items() if left]


def _each_once(choices: Iterable[frozenset[int]]) -> Iterator[frozenset[int]]:
    seen = set()
    for choice in choices:
        if choice not in seen:
            seen.add(choice)
            yield choice


def _less_what_was_found_loose(unreached: dict[Group, int], loose: Sequence[tuple]) -> dict[Group, int]:
    """The unreached spots but for those whose part was found loose: of these it is known that they are empty."""
    left = dict(unreached)
    for _, group, _ in loose:
        if group in left:
            left[group] -= 1
    return {group: count for group, count in left.items() if count}


def _relations(groups: Sequence[Group]) -> tuple[list[int], list[int]]:
    """For each group the groups that lie nearer the first end than it, and those that lie further, as bits."""
    nearer, further = [0] * len(groups), [0] * len(groups)
    along = sorted(groups, key=lambda group: group.low)
    if all(len(a.rank) == 1 and a.rank < b.low for a, b in pairwise(along)):  # one stack: all one behind another
        rest = (1 << len(groups)) - 1
        passed = 0
        for group in along:
            rest ^= 1 << group.index
            nearer[group.index], further[group.index] = passed, rest
            passed |= 1 << group.index
        return nearer, further
    for a in groups:
        for b in groups:
            if lies_before(a, b):
                nearer[b.index] |= 1 << a.index
                further[a.index] |= 1 << b.index
    return nearer, further
