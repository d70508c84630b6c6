"""Where every piece of one priced choice belongs, where it stands, and between which neighbours."""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.compare.identity import DIFFERENT, Identity, Match
from stackcheck.compare.pieces import OPPOSITE, Piece
from stackcheck.compare.search import Reading
from stackcheck.compare.slips import REVERSE, SWAP, TURN
from stackcheck.compare.spots import Group, Spots, lies_before
from stackcheck.compare.task import Task
from stackcheck.model.finding import Standing
from stackcheck.model.found import Found
from stackcheck.value import replace


class Seats:
    """One priced choice laid out; the pieces are those of the way the list was read."""

    def __init__(self, found: Found, spots: Spots, identity: Identity, line: tuple[list[Piece], int], reading: Reading):
        typed, priced = reading.typed, reading.priced
        self.found = found
        pieces, gap = line
        self.spots, self.reference, self.identity = spots, spots.reference, identity
        self.pieces, self.gap, self.typed, self.priced = pieces, gap, typed, priced
        self.position = {name: index for index, name in enumerate(self.reference.line)}
        self.homes: list[Group | None] = [None] * len(pieces)
        self.matches: list[Match | None] = [None] * len(pieces)
        self.places: list[str | None] = [None] * len(pieces)
        self.beside: dict[int, Group] = {}  # where a piece is one more than a counted place wants
        self.settled = [False] * len(pieces)  # pieces of a run that agrees
        self._fill(reading.task)
        self.elsewhere = self._elsewhere()
        self.turned_by_swaps = self._turned_by_swaps()

    # Where every piece belongs

    def _fill(self, task: Task) -> None:
        """Home, match and place of every piece; equal places are filled from the end that the piece belongs to."""
        room: dict[Group, list[int]] = {}
        seat = self._seats_before_the_slips()
        sides: tuple[list[int], list[int]] = [], []
        for number in sorted(range(len(task.tokens)), key=lambda number: seat[task.tokens[number].pieces[0]]):
            sides[seat[task.tokens[number].pieces[0]] >= self.gap].append(number)
        for backwards, side in enumerate(sides):
            for number in reversed(side) if backwards else side:
                token, home = task.tokens[number], self.priced.homes[number]
                if token.piece is None:
                    run = slice(token.pieces[0], token.pieces[-1] + 1)
                    self.homes[run] = token.homes
                    self.places[run] = token.places
                    self.matches[run] = token.matches
                    self.settled[run] = [True] * len(token.pieces)
                elif home is not None:
                    (p,) = token.pieces
                    taken = room.setdefault(home, [0, 0])
                    self.places[p] = home.name_of(home.size - 1 - taken[1] if backwards else taken[0])
                    taken[1 if backwards else 0] += 1
                    self.homes[p], self.matches[p] = home, self.priced.matches[number]
        for number, (group, match) in self.priced.surplus.items():
            (p,) = task.tokens[number].pieces
            self.beside[p], self.matches[p] = group, match
        self.filled = {place for place in self.places if place is not None}

    def _seats_before_the_slips(self) -> list[int]:
        """For each piece the spot in the line that it had before two were swapped, or a run turned end for end.

        So that of equal places standing together the finding names the one that it is about.
        """
        seat = list(range(len(self.pieces)))
        for slip in self.priced.slips:
            if slip.kind in (SWAP, REVERSE):
                items = sorted((self._pieces_of(i) for i in slip.items), key=lambda pieces: [seat[p] for p in pieces])
                seats = [seat[pieces[0]] for pieces in items]
                for pieces, spot in zip(items, reversed(seats)):
                    seat[pieces[0]] = spot
        return seat

    def _elsewhere(self) -> set[int]:
        """Pieces that do not stand where they belong."""
        return {p for slip in self.priced.slips if slip.kind != TURN for i in slip.items for p in self._pieces_of(i)}

    def _pieces_of(self, item: int) -> tuple[int, ...]:
        key = self.priced.items[item].key
        return key if isinstance(key, tuple) else ()

    def _turned_by_swaps(self) -> set[int]:
        """Pieces that were swapped into a place which wants them the other way, an odd number of times."""
        turned: set[int] = set()
        for slip in self.priced.slips:
            if slip.kind == SWAP:
                one, other = (self.priced.items[i] for i in slip.items)
                if one.facing and other.facing and one.facing != other.facing:
                    turned ^= {p for i in slip.items for p in self._pieces_of(i)}
        return turned

    def _wanted(self, p: int) -> str:
        """The facing that a piece is judged by: that of its place, the other one where swaps turned it."""
        facing = self.homes[p].facing if self.homes[p] is not None else ""
        return OPPOSITE[facing] if facing and p in self.turned_by_swaps else facing

    def _taken_for(self, p: int) -> Group | None:
        return self.homes[p] or self.beside.get(p)

    def _stays(self, p: int) -> bool:
        return self.homes[p] is not None and p not in self.elsewhere

    # The line

    def _line(self) -> tuple[Standing, ...]:
        inserts: list[tuple[int, int, Standing]] = []
        unreached = {group for group, _ in self.priced.unreached}
        for group, left in self.priced.unreached:
            for name in self._empty_names(group)[-left:]:
                inserts.append((self.gap, group.index, Standing(part=self._part_id(group), home=name)))
            if group.counted:
                inserts.append(
                    (self.gap, group.index, Standing(part=self._part_id(group), home=group.name, count=left))
                )
        for group in self.spots.groups:
            if group.fixed and group.name not in self.filled:
                standing = Standing(part=group.part, home=group.name)
                inserts.append((self._slot(group, unreached), group.index, standing))
        inserts.sort(key=lambda insert: insert[:2])
        line: list[Standing] = []
        start = 0
        for slot, _, standing in inserts:
            self._stand(line, start, slot)
            line.append(standing)
            start = slot
        self._stand(line, start, len(self.pieces))
        return tuple(line)

    def _stand(self, line: list[Standing], start: int, end: int) -> None:
        """The pieces from one up to another laid behind the line; those of an entry that stand together are one."""
        for p in range(start, end):
            entry, home = self.pieces[p].entry, self.places[p]
            if self.settled[p] and entry.count == 1:
                line.append(Standing(entry=entry.number, part=self.homes[p].part, home=home))
                continue
            turned = home is not None and bool(self._turned(p))
            last = line[-1] if line else None
            if last is not None and last.entry == entry.number and last.home == home and last.turned == turned:
                line[-1] = replace(last, count=last.count + 1)
            else:
                line.append(Standing(entry=entry.number, part=self._identified(p), home=home, turned=turned))

    def _identified(self, p: int) -> str | None:
        match, home = self.matches[p], self._taken_for(p)
        if match is not None and home is not None and match.how != DIFFERENT:
            return self._part_id(home)
        named = self.identity.listed(self.pieces[p].entry)
        return named.id if named and not (match and not self.pieces[p].entry.sure) else None

    def _part_id(self, group: Group) -> str:
        return group.part

    def _turned(self, p: int) -> bool:
        toward, wanted = self.pieces[p].toward, self._wanted(p)
        return bool(toward and wanted and toward != wanted)

    def _slot(self, group: Group, unreached: set[Group]) -> int:
        """Where a fixed member that nobody entered stands:
        behind what stays before it, and what is over beside that.
        """
        least = most = None
        for p in range(len(self.pieces)):
            home = self._taken_for(p)
            if home is not None and (p in self.beside or self._stays(p)):
                if lies_before(home, group):
                    least = p + 1
                elif most is None and lies_before(group, home):
                    most = p
        if any(lies_before(other, group) for other in unreached):
            least = max(least or 0, self.gap)
        if any(lies_before(group, other) for other in unreached):
            most = self.gap if most is None else min(most, self.gap)
        if least is None:
            return 0
        return len(self.pieces) if most is None else least

    # Neighbours

    def _around(self, pieces: Iterable[int]) -> tuple[str, str]:
        """The places between which these pieces stand as found."""
        inside = set(pieces)
        after = next((self.places[p] for p in range(min(inside) - 1, -1, -1) if self.places[p]), "")
        before = next((self.places[p] for p in range(max(inside) + 1, len(self.pieces)) if self.places[p]), "")
        return after or "", before or ""

    def _around_place(self, name: str) -> tuple[str, str]:
        """The nearest places of its stack that are filled."""
        filled = {place for p, place in enumerate(self.places) if p not in self.elsewhere}
        filled |= {group.name for group in self.spots.groups if group.fixed}
        for stack in self.reference.stacks:
            places = stack.places
            if name in places:
                where = places.index(name)
                after = next((n for n in reversed(places[:where]) if n in filled), "")
                before = next((n for n in places[where + 1 :] if n in filled), "")
                return after, before
        return "", ""
