"""Random small references, and found lists in which a stated number of mistakes was planted.

The price of what was planted is an upper bound: the least explanation may be cheaper, never dearer. A case starts from a
line that obeys the reference; things are taken away, moved, turned and put in; then the line is written down as
somebody would type it. What must stay true for the planted price to hold (parts that nobody reached are not moved, a
missing part was passed by something that stayed in place) is checked at the end, and the case thrown away if it fails.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from random import Random

import networkx

from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Part
from stackcheck.model.reference import Place, Reference
from stackcheck.value import replace
from tests.builders import reading
from tests.referee.references import KINDS, ORDINARY, Mixture, random_reference

OTHER_WAY = {"first": "second", "second": "first", "": ""}


@dataclass
class Thing:
    """One thing in the line. `home` is its place, None for an extra one; `part` what it truly is, None for a stranger."""

    home: Place | None
    part: str | None
    kind: str
    toward: str = ""
    count: int = 1
    marked: str = ""
    off_by: float = 0.0
    reached: bool = True
    kept: bool = True


class Unfit(Exception):
    """The mistake cannot be planted here; another case is drawn."""


def random_case(
    rng: Random, *, places: int, mistakes: int, mixture: Mixture = ORDINARY
) -> tuple[Reference, Found, int]:
    """A reference of so many places, a found list with so many mistakes in it, and the price of what was planted."""
    while True:
        try:
            ref = random_reference(rng, places, mixture)
            return ref, *_Planting(rng, ref).plant(mistakes)
        except Unfit:
            continue


class _Planting:
    """One found list in the making."""

    def __init__(self, rng: Random, ref: Reference):
        self.rng, self.ref = rng, ref
        self.unit = next((unit for unit in ref.units if rng.random() < 0.7), None)  # the one that was not stripped
        graph = self._with_the_unit_closed()
        self.before = networkx.transitive_closure_dag(graph)
        self.faced = {place.part for place in ref.places if place.facing}
        self.price = 0
        self.gone: list[Place] = []
        self.loose: list[Thing] = []
        self.strangers = 0
        self.finished = True
        self.line = [
            Thing(home=place, part=place.part, kind=self.part(place.part).kind, toward=place.facing, count=place.count)
            for place in map(self.place, self._some_line(graph))
            if not self.part(place.part).fixed or rng.random() < 0.5
        ]
        self.from_first = rng.choice((0, len(self.line), rng.randint(0, len(self.line))))
        self.gap: list[Thing] = []

    def _with_the_unit_closed(self) -> networkx.DiGraph:
        if self.unit is None:
            return self.ref.graph
        first, *others = self.unit.members
        graph = networkx.relabel_nodes(self.ref.graph, {first: self.unit.id})
        for name in others:
            graph = networkx.contracted_nodes(graph, self.unit.id, name, self_loops=False)
        return graph

    def place(self, name: str) -> Place:
        return Place(name=name, part=name) if self.unit and name == self.unit.id else self.ref.place(name)

    def part(self, id: str) -> Part:
        return Part(id=id, name=id, kind="") if self.unit and id == self.unit.id else self.ref.part(id)

    def is_unit(self, thing: Thing) -> bool:
        return self.unit is not None and thing.part == self.unit.id

    def _some_line(self, graph: networkx.DiGraph) -> list[str]:
        keys = (
            {name: self.rng.random() for name in graph}
            if self.unit
            else {place.name: self.rng.random() for place in self.ref.places}
        )
        return list(networkx.lexicographical_topological_sort(graph, key=keys.__getitem__))

    def plant(self, mistakes: int) -> tuple[Found, int]:
        self.absent()
        if self.rng.random() < 0.35:
            self.stop_early()
        typed_wrong = 0
        for mistake in sorted((self.rng.choice(MISTAKES) for _ in range(mistakes)), key=MISTAKES.index):
            if mistake in IN_THE_LIST:
                typed_wrong += 1
            else:
                self.try_hard(mistake)
                self.exchange_free_neighbours()
        return self.written_down([self.rng.choice(IN_THE_LIST) for _ in range(typed_wrong)])

    def try_hard(self, mistake: Callable) -> None:
        """At several places, so that mistakes with little room for them are not rarer than others."""
        for _ in range(10):
            try:
                return mistake(self)
            except Unfit:
                continue
        raise Unfit

    # What happens to the things, in the sequence in which it is planted

    def absent(self) -> None:
        self.line = [t for t in self.line if not (t.home.may_be_absent and self.rng.random() < 0.5)]

    def stop_early(self) -> None:
        if not self.line:
            raise Unfit
        start, stop = sorted(self.rng.sample(range(len(self.line) + 1), 2))
        if self.rng.random() < 0.5:
            start, stop = (start, len(self.line)) if self.rng.random() < 0.7 else (0, stop)
        for thing in self.line[start:stop]:
            thing.reached = False
        self.finished = False

    def missing(self) -> None:
        thing = self.some(lambda t: t.count == 1)
        self.line.remove(thing)
        if not thing.home.may_be_absent:
            self.gone.append(thing.home)
            self.price += 100
        if self.rng.random() < 0.2:
            self.price += 100 * bool(thing.home.may_be_absent)
            self.loose.append(thing)

    def out_of_place(self) -> None:
        self.move_run(1, 101)

    def run_moved(self) -> None:
        parts = self.rng.randint(2, 4)
        self.move_run(parts, 100 + parts)

    def move_run(self, parts: int, price: int) -> None:
        start = self.start_of_run(parts)
        run, rest = self.line[start : start + parts], self.line[:start] + self.line[start + parts :]
        to = self.rng.randint(0, len(rest))
        if to == start:
            raise Unfit
        passed = rest[min(start, to) : max(start, to)]
        self.refuse_passing([(a, b) for a in run for b in passed])
        self.line = rest[:to] + run + rest[to:]
        self.moved(run, price)

    def swapped(self) -> None:
        a, b = sorted((self.line.index(self.some()), self.line.index(self.some())))
        if a == b:
            raise Unfit
        first, second, between = self.line[a], self.line[b], self.line[a + 1 : b]
        self.refuse_passing([(first, second), *((t, m) for t in (first, second) for m in between)])
        if not self.ordered(first, second):
            raise Unfit
        self.line[a], self.line[b] = second, first
        if {first.home.facing, second.home.facing} == {"first", "second"}:  # each as the other's place wants it
            first.toward, second.toward = OTHER_WAY[first.toward], OTHER_WAY[second.toward]
        self.moved([first, second], 100)

    def run_end_for_end(self) -> None:
        parts = self.rng.randint(2, 4)
        start = self.start_of_run(parts)
        run = self.line[start : start + parts]
        for thing in run:
            thing.toward = OTHER_WAY[thing.toward]
        self.line[start : start + parts] = reversed(run)
        self.moved(run, 101 + parts)

    def turned_round(self) -> None:
        thing = self.some(lambda t: t.toward)
        thing.toward = OTHER_WAY[thing.toward]
        self.price += 100

    def different_part(self) -> None:
        thing = self.some(lambda t: t.count == 1 and not t.marked and not self.is_unit(t))
        others = [p.id for p in self.ref.parts if p.kind == thing.kind and p.id != thing.part]
        thing.part, thing.marked = (
            (self.rng.choice(others), "") if others and self.rng.random() < 0.5 else (None, "Z-1")
        )
        self.price += 100

    def count_differs(self) -> None:
        thing = self.some(lambda t: t.home.count > 1 and t.count == t.home.count)
        thing.count = self.rng.choice([n for n in range(1, thing.count + 3) if n != thing.count])
        self.price += 95 + 5 * abs(thing.count - thing.home.count)
        if thing.count < thing.home.count:
            self.gone.append(thing.home)

    def size_differs(self) -> None:
        thing = self.some(lambda t: t.home.count == 1 and t.part == t.home.part and self.length_of(t))
        if thing.off_by:
            raise Unfit
        thing.off_by = self.rng.choice((-0.25, 0.18, 0.25, 1.6))
        self.price += 60

    def alternate(self) -> None:
        thing = self.some(lambda t: t.count == 1 and not t.marked and t.part == t.home.part)
        accepted = self.part(thing.part).accepts
        if not accepted:
            raise Unfit
        thing.part, thing.marked = None, self.rng.choice(accepted)
        self.price += 5

    def extra(self) -> None:
        if self.rng.random() < 0.6:
            part = self.rng.choice([part for part in self.ref.parts if not part.fixed])
            thing = Thing(home=None, part=part.id, kind=part.kind, toward=self.rng.choice(("", "first", "second")))
        else:
            self.strangers += 1
            thing = Thing(home=None, part=None, kind=self.rng.choice((*KINDS, "pin")), marked=f"X-{self.strangers}")
        if self.rng.random() < 0.15:
            self.loose.append(thing)
        else:
            reached = [at for at in range(len(self.line) + 1) if all(t.reached for t in self.line[max(at - 1, 0) : at])]
            self.line.insert(self.rng.choice(reached or [0]), thing)
        self.price += 110 if thing.part else 100

    def exchange_free_neighbours(self) -> None:
        """Another line of the same arrangement."""
        for _ in range(len(self.line)):
            at = self.rng.randrange(max(len(self.line) - 1, 1))
            pair = self.line[at : at + 2]
            if len(pair) == 2 and pair[0].reached == pair[1].reached and not self.ordered(*pair):
                self.line[at : at + 2] = reversed(pair)

    # Helpers

    def some(self, fits: Callable[[Thing], object] = lambda t: True) -> Thing:
        """One of the things that belong, came off and can be taken out."""
        fitting = [t for t in self.line if t.home and t.reached and not self.part(t.home.part).fixed and fits(t)]
        if not fitting:
            raise Unfit
        return self.rng.choice(fitting)

    def start_of_run(self, parts: int) -> int:
        movable = [bool(t.home and t.reached and not self.part(t.home.part).fixed) for t in self.line]
        starts = [at for at in range(len(self.line) - parts + 1) if all(movable[at : at + parts])]
        if not starts:
            raise Unfit
        return self.rng.choice(starts)

    def ordered(self, a: Thing, b: Thing) -> bool:
        if a.home is None or b.home is None:
            return False
        return self.before.has_edge(a.home.name, b.home.name) or self.before.has_edge(b.home.name, a.home.name)

    def refuse_passing(self, pairs: list[tuple[Thing, Thing]]) -> None:
        """Equal parts with a face are never moved past one another."""
        if any(a.home.part == b.home.part and b.home.part in self.faced for a, b in pairs if a.home and b.home):
            raise Unfit

    def moved(self, things: list[Thing], price: int) -> None:
        for thing in things:
            thing.kept = False
        self.price += price

    def length_of(self, thing: Thing) -> float | None:
        size = self.part(thing.part).size("length") if thing.part else None
        return size.nominal_mm if size else None

    # Writing it down

    def written_down(self, slips: list[Callable]) -> tuple[Found, int]:
        if self.finished:
            first, second = self.line[: self.from_first], self.line[self.from_first :]
        else:
            first, second = self.sides_of_the_gap()
            self.refuse_unproved(first, second)
        entries = [e for t in first for e in self.entries_of(t, 0)]
        entries += [e for t in reversed(second) for e in self.entries_of(t, 1)]
        entries += [e for t in self.loose for e in self.entries_of(t, self.rng.choice((0, 1, None)))]
        entries = [replace(e, place_seen="found loose") if i >= len(entries) - len(self.loose) else e
                   for i, e in enumerate(entries)]  # fmt: skip
        if not second and self.rng.random() < 0.3:
            entries = [replace(e, end=None) for e in entries]
        elif self.rng.random() < 0.2:
            doubtful = self.rng.sample(range(len(entries)), min(2, len(entries)))
            unsaid = [replace(e, end=None) if i in doubtful else e for i, e in enumerate(entries)]
            entries = unsaid if any(e.end is not None and not e.is_loose for e in unsaid) else entries
        for slip in slips:
            entries = slip(self, entries)
        entries = [replace(e, number=number) for number, e in enumerate(entries, 1)]
        found = Found(reference="bench/stack", revision="A", entries=tuple(entries), finished=self.finished)
        return found, self.price

    def sides_of_the_gap(self) -> tuple[list[Thing], list[Thing]]:
        unreached = [at for at, thing in enumerate(self.line) if not thing.reached]
        if not unreached:
            return self.line, []
        first, second = self.line[: unreached[0]], self.line[unreached[-1] + 1 :]
        if any(thing.reached for thing in self.line[unreached[0] : unreached[-1]]):
            raise Unfit
        return first, second

    def refuse_unproved(self, first: list[Thing], second: list[Thing]) -> None:
        """A missing part that nothing kept in place proves to be passed would not be called missing."""
        for place in self.gone:
            passed = [t for t in first if t.home and t.kept and self.before.has_edge(place.name, t.home.name)]
            passed += [t for t in second if t.home and t.kept and self.before.has_edge(t.home.name, place.name)]
            if not passed:
                raise Unfit

    def entries_of(self, thing: Thing, end: int | None) -> list[Entry]:
        entry = Entry(number=0, what="thing", end=end, count=thing.count, toward=thing.toward)
        if self.rng.random() < 0.15:
            entry = replace(entry, toward=self.rng.choice(("", "not seen", "same both ways")))
        entry = self.measured(thing, self.identified(thing, entry))
        if entry.count > 1 and self.rng.random() < 0.5:
            one = self.rng.randint(1, entry.count - 1)
            return [replace(entry, count=one), replace(entry, count=entry.count - one)]
        return [entry]

    def identified(self, thing: Thing, entry: Entry) -> Entry:
        """Certain, by name or by the number read off it; guessed, rightly or not; or unknown."""
        luck = self.rng.random()
        kind = thing.kind if self.rng.random() < 0.7 else ""
        if thing.part is None:
            borne = any(part.number == thing.marked for part in self.ref.parts)
            named = thing.home.part if thing.home and luck < 0.3 and not borne else None
            return replace(entry, part=named, marked=thing.marked, kind=thing.kind)
        part = self.part(thing.part)
        if self.is_unit(thing):
            return replace(entry, part=part.id)
        at_home = thing.home is not None and thing.part == thing.home.part
        if part.fixed or thing.count > 1 or luck < 0.65 or not (at_home or thing.home is None):
            return replace(entry, part=part.id)
        if luck < 0.75 and part.number:
            return replace(entry, marked=part.number, kind=thing.kind)
        if luck < 0.85:
            return replace(entry, part=part.id, sure=False)
        others = [p.id for p in self.ref.parts if p.kind == part.kind and p.id != part.id and not p.fixed]
        if luck < 0.9 and others and at_home:
            self.price += 40
            return replace(entry, part=self.rng.choice(others), sure=False)
        self.price += 10 * at_home
        return replace(entry, kind=kind)

    def measured(self, thing: Thing, entry: Entry) -> Entry:
        length = self.length_of(thing)
        if length is None or not (thing.off_by or self.rng.random() < 0.4):
            return entry
        good_to = self.rng.choice((0.02, 0.02, 0.1))
        if thing.off_by:
            good_to = 0.02
            certain = entry.marked or (entry.part and entry.sure)
            self.price += 40 if thing.off_by > 1 and not certain else 0
        value = round(length + thing.off_by + self.rng.choice((-0.02, 0.0, 0.02)) + 0.004, 3)
        how = "marking" if not thing.off_by and self.rng.random() < 0.1 else "calliper"
        return replace(entry, sizes=(("length", reading(value, good_to, how)),))

    def entered_from_other_end(self, entries: list[Entry]) -> list[Entry]:
        self.price += 100
        turned = [replace(e, toward=OTHER_WAY.get(e.toward, e.toward)) for e in entries]
        if all(e.end is None for e in entries if not e.is_loose):
            if not self.finished:
                raise Unfit  # read from the other end, the list would have its gap at the other end too
            return turned[::-1]
        return [replace(e, end=None if e.end is None else 1 - e.end) for e in turned]

    def entered_twice(self, entries: list[Entry]) -> list[Entry]:
        if not entries:
            raise Unfit
        at = self.rng.randrange(len(entries))
        if entries[at].count > 2 or len(set(entries)) < len(entries):
            raise Unfit
        if entries[at].sizes and entries[at].sizes[0][1].is_measurement and self.rng.random() < 0.5:
            self.price += 95
            return [*entries[: at + 1], *entries[at:]]
        self.price += 40
        tagged = replace(entries[at], tag=entries[at].tag or f"T{len(entries)}")
        to = self.rng.randint(at + 1, len(entries))
        return [*entries[:at], tagged, *entries[at + 1 : to], tagged, *entries[to:]]


IN_THE_LIST = (_Planting.entered_from_other_end, _Planting.entered_twice)
MISTAKES = (
    _Planting.missing,
    _Planting.missing,
    _Planting.out_of_place,
    _Planting.out_of_place,
    _Planting.swapped,
    _Planting.run_moved,
    _Planting.run_moved,
    _Planting.run_end_for_end,
    _Planting.run_end_for_end,
    _Planting.different_part,
    _Planting.alternate,
    _Planting.size_differs,
    _Planting.count_differs,
    _Planting.turned_round,
    _Planting.turned_round,
    _Planting.extra,
    *IN_THE_LIST,
)
"""In the sequence in which they are planted: what is missing goes first, what is extra comes last."""


class _NothingMeasured(_Planting):
    """For references whose limits are too close for a reading at random."""

    def measured(self, thing: Thing, entry: Entry) -> Entry:
        return entry


def random_list(rng: Random, ref: Reference, *, mistakes: int, tries: int = 200) -> tuple[Found, int]:
    """A found list of a given reference with so many mistakes in it, nothing measured, and the price of what was planted."""
    for _ in range(tries - 1):
        try:
            return _NothingMeasured(rng, ref).plant(mistakes)
        except Unfit:
            continue
    return _NothingMeasured(rng, ref).plant(mistakes)
