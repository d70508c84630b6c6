"""Who sits where: every way to give the pieces of a line to the spots of the reference, with what it costs.

Depth first over the pieces of a line, cut where what is settled already costs more than the limit; the limit is raised
until something is found, so that nothing dearer than the answer is ever looked into for long.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations, product

from stackcheck.model.found import Entry, Found
from stackcheck.model.reference import Reference

from .arrangement import Rules, operations
from .identity import DIFFERENT, number_price, place_price
from .sides import OTHER_WAY, Line, Spot, Wanted, lines

LIMITS = (0, 20, 60, 110, 160, 215, 260, 310, 360)


@dataclass(frozen=True, kw_only=True)
class Account:
    """A price and, in words, what it is made of."""

    price: int
    words: tuple[str, ...]


def least_account(reference: Reference, found: Found) -> Account:
    wanted = Wanted(reference, found)
    read = list(lines(found))
    all_extra_and_missing = 110 * sum(entry.count for entry in found.entries) + 100 * len(wanted.spots)
    for limit in (*LIMITS, *range(400, all_extra_and_missing + 200, 100)):
        best = None
        for line in read:
            seating = _Seating(reference, wanted, line, finished=found.finished)
            account = seating.least(limit if best is None else best.price - 1)
            best = account or best
        if best is not None:
            return best
    raise ValueError("nothing explains this list: fixed members stand in the wrong sequence")


class _Seating:
    """One line laid against the reference."""

    def __init__(self, reference: Reference, wanted: Wanted, line: Line, *, finished: bool):
        self.reference, self.wanted, self.line, self.finished = reference, wanted, line, finished
        self.best: Account | None = None
        self.limit = 0
        self.seats: dict[Spot, int] = {}  # which piece stands for a spot
        self.filled: dict[Spot, Entry] = {}  # which loose piece belongs in an empty spot
        self.extra: list[Entry] = []
        self.words: list[str] = []

    def least(self, limit: int) -> Account | None:
        self.limit = limit
        if self.line.price <= limit:
            self._seat(0, self.line.price, disagree=False)
        return self.best

    def _room(self, settled: int) -> bool:
        return settled <= self.limit

    def _seat(self, piece: int, settled: int, *, disagree: bool) -> None:
        left = len(self.line.pieces) + len(self.line.loose) - piece
        if not self._room(settled + 100 * disagree + self._sure_to_be_missing(left)):
            return
        if piece == len(self.line.pieces):
            self._place_loose(0, settled)
            return
        entry = self.line.pieces[piece]
        spots = list(self._spots_for(entry))
        for spot, price in spots:
            against = disagree or any(self.wanted.lies_before(spot, other) for other in self.seats)
            self.seats[spot] = piece
            self._say(_seat_words(entry, spot, price))
            self._seat(piece + 1, settled + price, disagree=against)
            self.words.pop()
            del self.seats[spot]
        if spots and self._is_fixed(entry):
            return  # a mark that somebody entered stands where the machine has it; it is not over
        self.extra.append(entry)
        self._say(f"entry {entry.number} extra")
        self._seat(piece + 1, settled + 100, disagree=disagree)
        self.words.pop()
        self.extra.pop()

    def _say(self, words: str) -> None:
        self.words.append(words)

    def _sure_to_be_missing(self, left: int) -> int:
        if not self.finished:
            return 0
        empty = sum(1 for spot in self._empty() if not spot.counted and not spot.place.may_be_absent)
        return 100 * max(0, empty - left)

    def _empty(self) -> list[Spot]:
        """Spots of which something must be said when nothing stands there."""
        return [
            spot
            for spot in self.wanted.spots
            if spot not in self.seats and spot not in self.filled and not spot.part.fixed
        ]

    def _spots_for(self, entry: Entry) -> Iterator[tuple[Spot, int]]:
        """Where an entry may stand, with the price of taking it for that. Copies of a place fill up one by one."""
        offered = set()
        for spot in self.wanted.spots:
            if spot in self.seats or spot in self.filled or spot.place.name in offered:
                continue
            if spot.part.fixed or self._is_fixed(entry):
                price = 0 if entry.part == spot.part.id else None
            else:
                price = place_price(self.reference, entry, spot.part)
            if price is not None:
                offered.add(spot.place.name)
                yield spot, price
        for spot in self.wanted.spots:
            if spot.counted and spot.copy == 0 and spot.place.name not in offered:
                price = place_price(self.reference, entry, spot.part)
                over = sum(other.place == spot.place for other in self.seats)
                if price is not None and over >= spot.place.count:
                    yield Spot(place=spot.place, part=spot.part, copy=over, over=True), price

    def _is_fixed(self, entry: Entry) -> bool:
        part = entry.part
        return part is not None and self.reference.has_part(part) and self.reference.part(part).fixed

    def _place_loose(self, number: int, settled: int) -> None:
        """A loose piece takes no spot: with an empty place that it can fill it is one slip, otherwise extra."""
        if not self._room(settled):
            return
        if number == len(self.line.loose):
            self._settle_empty(settled)
            return
        entry = self.line.loose[number]
        for spot in self._empty():
            price = place_price(self.reference, entry, spot.part)
            if price is not None and price != DIFFERENT:
                self.filled[spot] = entry
                self._say(f"entry {entry.number} loose, from {spot.place.name}")
                self._place_loose(number + 1, settled + 100 + price)
                self.words.pop()
                del self.filled[spot]
        self.extra.append(entry)
        self._say(f"entry {entry.number} extra (loose)")
        self._place_loose(number + 1, settled + 100)
        self.words.pop()
        self.extra.pop()

    def _settle_empty(self, settled: int) -> None:
        empty = self._empty()
        settled += 10 * sum(self._has_empty_place(entry, empty) for entry in self.extra)
        open_ = [spot for spot in empty if not spot.place.may_be_absent]
        if self.finished:
            self._settle_counts(settled, missing=open_, unreached=[])
            return
        for size in range(len(open_) + 1):
            for missing in combinations(open_, size):
                self._settle_counts(
                    settled, missing=list(missing), unreached=[spot for spot in open_ if spot not in missing]
                )

    def _has_empty_place(self, entry: Entry, empty: list[Spot]) -> bool:
        """Whether a place is empty whose own or accepted number an extra piece bears."""
        return any(number_price(self.reference, entry, spot.part, other=None) is not None for spot in empty)

    def _settle_counts(self, settled: int, *, missing: list[Spot], unreached: list[Spot]) -> None:
        """Price what is missing and what is over, counted places by the count; then the arrangement."""
        words = []
        for place, short in Counter(spot.place for spot in missing).items():
            whole = short == place.count
            settled += 100 if whole else 100 + 5 * (short - 1)
            words.append(f"{place.name} missing" if whole else f"{place.name} short by {short}")
        for place, over in Counter(spot.place for spot in self.seats if spot.over).items():
            settled += 100 + 5 * (over - 1)
            words.append(f"{place.name} over by {over}")
        if self._room(settled):
            for witnesses in self._witnesses(missing):
                self._arrange(settled, words, unreached=unreached, witnesses=witnesses)

    def _witnesses(self, missing: list[Spot]) -> set[frozenset[Spot]]:
        """Sets of parts that, all kept in place, prove that every missing part was passed by the teardown."""
        if self.finished:
            return {frozenset()}
        proofs = []
        for gone in missing:
            proofs.append(
                [
                    spot
                    for spot, piece in self.seats.items()
                    if (self.wanted.lies_before(gone, spot) and piece < self.line.from_first)
                    or (self.wanted.lies_before(spot, gone) and piece >= self.line.from_first)
                ]
            )
        return {frozenset(choice) for choice in product(*proofs)}

    def _arrange(self, settled: int, words: list[str], *, unreached: list[Spot], witnesses: frozenset[Spot]) -> None:
        rank = {name: position for position, name in enumerate(self._sequence())}
        first, rest = self._lumps()
        if self.finished and first and rest and self._together(first[-1][-1], rest[0][0]):
            first, rest = [*first[:-1], (*first[-1], *rest[0])], rest[1:]
        deep = [(spot,) for spot in unreached]
        lumps = sorted([*first, *deep, *rest], key=lambda lump: (rank[lump[0].place.name], lump[0].copy))
        number = {lump: token for token, lump in enumerate(lumps)}
        names = [lump[0].place.name for lump in lumps]  # the copies of a lump are of one place

        def tokens(says: Callable[[Spot], object]) -> int:
            return sum(1 << token for lump, token in number.items() if any(says(spot) for spot in lump))

        held = {*unreached, *witnesses, *(spot for lump in lumps for spot in lump if spot.part.fixed)}
        rules = Rules(
            before=tuple(
                sum(1 << token for token, other in enumerate(names) if (own, other) in self.wanted.before)
                for own in names
            ),
            held=tokens(held.__contains__),
            faced=tokens(lambda spot: spot.place.facing),
            first=tokens(lambda spot: spot.place.facing == "first"),
            alike=_groups(
                lump[0].part.id if lump[0] in self.seats and lump[0].part.id in self.wanted.faced_parts else None
                for lump in lumps
            ),
        )
        gap = sorted(deep, key=number.__getitem__)
        line = tuple(number[lump] for lump in (*first, *gap, *rest))
        least = operations(rules).least(
            line,
            stated=tokens(self._stated),
            wrong_way=tokens(self._wrong_way),
            budget=self.limit - settled,
        )
        if least is not None:
            price, done = least
            said = [*self.line.words, *(word for word in self.words if word), *words, *_words_of(done, lumps)]
            said += [f"{spot.place.name} not reached" for spot in unreached]
            self.best = Account(price=settled + price, words=tuple(said))
            self.limit = settled + price - 1

    def _lumps(self) -> tuple[list[tuple[Spot, ...]], list[tuple[Spot, ...]]]:
        """What was seated, from the first end and from the second, copies of one place that came off together as one."""
        sides: tuple[list[tuple[Spot, ...]], list[tuple[Spot, ...]]] = [], []
        for spot in sorted(self.seats, key=self.seats.__getitem__):
            side = sides[self.seats[spot] >= self.line.from_first]
            if side and self._together(side[-1][-1], spot):
                side[-1] = (*side[-1], spot)
            else:
                side.append((spot,))
        return sides

    def _together(self, a: Spot, b: Spot) -> bool:
        return a.place == b.place and (self._stated(a), self._wrong_way(a)) == (self._stated(b), self._wrong_way(b))

    def _stated(self, spot: Spot) -> bool:
        """Whether a face was seen that the place has an opinion on."""
        return spot in self.seats and bool(spot.place.facing) and self._toward(spot) in OTHER_WAY

    def _wrong_way(self, spot: Spot) -> bool:
        return self._stated(spot) and self._toward(spot) != spot.place.facing

    def _toward(self, spot: Spot) -> str:
        return self.line.pieces[self.seats[spot]].toward

    def _sequence(self) -> list[str]:
        """The places in one sequence that obeys the reference."""
        names = dict.fromkeys(spot.place.name for spot in self.wanted.spots)
        return sorted(names, key=lambda name: sum(b == name for _, b in self.wanted.before))


def _groups(names: Iterator[str | None]) -> tuple[int, ...]:
    """Equal names as equal numbers from 1, 0 for None."""
    numbers: dict[str, int] = {}
    return tuple(0 if name is None else numbers.setdefault(name, len(numbers) + 1) for name in names)


def _seat_words(entry: Entry, spot: Spot, price: int) -> str:
    return f"entry {entry.number} for {spot.place.name} ({price})" if price else ""


def _words_of(done: tuple, lumps: list[tuple[Spot, ...]]) -> list[str]:
    said = []
    for name, *blocks in done:
        if name == "turned round":
            blocks = [[token for token in range(len(lumps)) if blocks[0] >> token & 1]]
        said.append(
            name + " " + " with ".join("+".join(lumps[token][0].place.name for token in block) for block in blocks)
        )
    return said
