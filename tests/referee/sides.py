"""The two sides, written out: the spots of the reference, and every line that the found list may stand for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, product

from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Part
from stackcheck.model.reference import Place, Reference
from stackcheck.value import replace

OTHER_WAY = {"first": "second", "second": "first"}


@dataclass(frozen=True, kw_only=True)
class Spot:
    """One copy of a place; `over` for a copy that the place does not want."""

    place: Place
    part: Part
    copy: int
    over: bool = False

    def __hash__(self) -> int:
        return hash((self.place.name, self.copy))  # all sizes of the part would be hashed at every look

    @property
    def counted(self) -> bool:
        return self.place.count > 1


class Wanted:
    """The reference as spots and the order between places, with each unit that was typed closed up into one place."""

    def __init__(self, reference: Reference, found: Found):
        self.reference = reference
        typed = {entry.part for entry in found.entries}
        closed = {name: unit.id for unit in reference.units if unit.id in typed for name in unit.members}
        self.before = _order(reference, closed)
        places = [(place, reference.part(place.part)) for place in reference.places if place.name not in closed]
        for unit in reference.units:
            if unit.id in typed:
                places.append((Place(name=unit.id, part=unit.id), Part(id=unit.id, name=unit.name, kind="")))
        self.spots = tuple(
            Spot(place=place, part=part, copy=copy) for place, part in places for copy in range(place.count)
        )
        self.faced_parts = {place.part for place, _ in places if place.facing}

    def lies_before(self, a: Spot, b: Spot) -> bool:
        return (a.place.name, b.place.name) in self.before


def _order(reference: Reference, closed: dict[str, str]) -> set[tuple[str, str]]:
    """Every pair of places (a, b) with a nearer the first end."""
    names = {place.name for place in reference.places}
    before = {(a, b) for stack in reference.stacks for a, b in combinations(stack.places, 2)}
    before = _through(before, names)
    if closed:
        before = {(closed.get(a, a), closed.get(b, b)) for a, b in before}
        before = _through({(a, b) for a, b in before if a != b}, names | set(closed.values()))
    return before


def _through(before: set[tuple[str, str]], names: set[str]) -> set[tuple[str, str]]:
    """With every a before c that follows from a before b and b before c (Warshall 1962)."""
    before = set(before)
    for middle in sorted(names):
        nearer = [a for a, b in before if b == middle]
        further = [b for a, b in before if a == middle]
        before.update(product(nearer, further))
    return before


@dataclass(frozen=True, kw_only=True)
class Line:
    """One way to read the list: the pieces in line, how many of them came from the first end, and what that costs."""

    pieces: tuple[Entry, ...]
    from_first: int
    loose: tuple[Entry, ...]
    price: int
    words: tuple[str, ...]


def lines(found: Found) -> Iterator[Line]:
    """As typed and from the other end, with entries typed twice or not, with unknown ends tried at both."""
    for mirrored in (False, True):
        entries = [_other_end(entry) for entry in found.entries] if mirrored else list(found.entries)
        if all(entry.end is None for entry in entries if not entry.is_loose):
            entries = [replace(entry, end=int(mirrored)) for entry in entries]
        for dropped, twice in _typed_twice(entries):
            kept = [entry for entry in entries if entry.number not in dropped]
            words = [f"entry {number} entered twice" for number in sorted(dropped)]
            if mirrored:
                words.append("entered from the other end")
            stood = [entry for entry in kept if not entry.is_loose]
            for ends in product(*([entry.end] if entry.end is not None else [0, 1] for entry in stood)):
                first = [piece for entry, end in zip(stood, ends) if end == 0 for piece in _pieces(entry)]
                second = [piece for entry, end in zip(stood, ends) if end == 1 for piece in _pieces(entry)]
                yield Line(
                    pieces=(*first, *reversed(second)),
                    from_first=len(first),
                    loose=tuple(piece for entry in kept if entry.is_loose for piece in _pieces(entry)),
                    price=twice + 100 * mirrored,
                    words=tuple(words),
                )


def _pieces(entry: Entry) -> list[Entry]:
    return [replace(entry, count=1)] * entry.count


def _other_end(entry: Entry) -> Entry:
    end = None if entry.end is None else 1 - entry.end
    return replace(entry, end=end, toward=OTHER_WAY.get(entry.toward, entry.toward))


def _typed_twice(entries: list[Entry]) -> Iterator[tuple[set[int], int]]:
    """Each set of entries that may be a second entry of another one that stays, with its price."""
    prices: dict[int, list[tuple[int, int]]] = {}
    for a, b in product(entries, repeat=2):
        if a.number == b.number:
            continue
        if a.tag and a.tag == b.tag:
            prices.setdefault(a.number, []).append((40, b.number))
        elif abs(a.number - b.number) == 1 and _same_words(a, b):
            prices.setdefault(a.number, []).append((95, b.number))
    for size in range(len(prices) + 1):
        for dropped in combinations(sorted(prices), size):
            # A chain of equal neighbours keeps one of them: the others are all copies of that one.
            if all(any(_stays(prices, other, set(dropped)) for _, other in prices[number]) for number in dropped):
                yield set(dropped), sum(min(price for price, _ in prices[number]) for number in dropped)


def _stays(prices: dict[int, list[tuple[int, int]]], number: int, dropped: set[int]) -> bool:
    """Whether a kept entry is reached from `number` through dropped ones."""
    seen, edge = {number}, [number]
    while edge:
        number = edge.pop()
        if number not in dropped:
            return True
        new = [other for _, other in prices[number] if other not in seen]
        seen.update(new)
        edge.extend(new)
    return False


def _same_words(a: Entry, b: Entry) -> bool:
    """Equal in every field, with something measured."""
    measured = any(reading.is_measurement for _, reading in a.sizes)
    return measured and replace(a, number=0, line=None) == replace(b, number=0, line=None)
