"""The reference as the comparison sees it: spots for single pieces, and which spot lies before which.

A closed unit is one spot in the place of its members. A counted place is one spot a piece. Equal places that stand
together want the same piece, so they share a *group* and are not ordered among themselves. Sequence is kept as one rank
a stack and never as a table of pairs: a lies before b when the first place of b's stack that is not nearer than a is
not deeper than b.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Hashable, Iterable, Iterator
from functools import cached_property
from itertools import pairwise
from operator import le

from stackcheck.model.found import Found
from stackcheck.model.reference import Place, Reference
from stackcheck.value import Value

NOWHERE = 1 << 60


class Group(Value, eq=False):
    """Equal spots that stand together. `low` and `rank` say where it lies in each stack: see `lies_before`."""

    index: int
    names: tuple[str, ...]
    part: str
    size: int
    counted: bool
    facing: str
    faced: bool  # whether any place of this part wants a facing
    fixed: bool
    may_be_absent: bool
    unit: bool
    low: tuple[int, ...]
    rank: tuple[int, ...]

    @property
    def name(self) -> str:
        return self.names[0]

    def name_of(self, copy: int) -> str:
        """The place of one of the spots, counted from the first end."""
        return self.names[0] if self.counted else self.names[copy]


def lies_before(a, b) -> bool:
    """Whether a, anything with `low` and `rank`, comes nearer the first
    end than b in every line that obeys the stacks.
    """
    return a is not b and any(map(le, a.low, b.rank))


def line_of(nodes: Iterable[Hashable], after: dict[Hashable, list], key: Callable) -> list:
    """All nodes in one sequence that obeys `after`; of those that may come next the one with the least key."""
    nodes = list(nodes)
    waiting = dict.fromkeys(nodes, 0)
    for successors in after.values():
        for node in successors:
            waiting[node] += 1
    ready = [(key(node), position, node) for position, node in enumerate(nodes) if not waiting[node]]
    heapq.heapify(ready)
    positions = {node: position for position, node in enumerate(nodes)}
    line = []
    while ready:
        node = heapq.heappop(ready)[2]
        line.append(node)
        for successor in after.get(node, ()):
            waiting[successor] -= 1
            if not waiting[successor]:
                heapq.heappush(ready, (key(successor), positions[successor], successor))
    return line


class Spots:
    """The groups of a reference in one line, with the units in `closed` as one spot each."""

    def __init__(self, reference: Reference, closed: frozenset[str] = frozenset()):
        self.reference = reference
        self.closed = closed
        unit_of = {member: unit.id for unit in reference.units if unit.id in closed for member in unit.members}
        self._unit_of = unit_of
        self._faced = {place.part for place in reference.places if place.facing}
        self._fixed = {part.id for part in reference.parts if part.fixed}
        if unit_of:
            stacks = [_without_repeats(unit_of.get(name, name) for name in stack.places) for stack in reference.stacks]
            names = list(dict.fromkeys(unit_of.get(place.name, place.name) for place in reference.places))
        else:
            stacks = [list(stack.places) for stack in reference.stacks]
            names = [place.name for place in reference.places]
        self._stacks = stacks
        ranks = [{name: position for position, name in enumerate(stack)} for stack in stacks]
        self.is_one_line = len(stacks) == 1 and len(stacks[0]) == len(names)
        if self.is_one_line:
            self.line = stacks[0]
            self.low = self.rank = {name: (position,) for name, position in ranks[0].items()}
        else:
            written = {name: position for position, name in enumerate(names)}
            self.line = line_of(names, self.after, written.__getitem__)
            self.low = self._lows(ranks)
            self.rank = {name: tuple([own.get(name, -1) for own in ranks]) for name in names}
        self.groups: list[Group] = []
        self.wanted: dict[str, int] = {}  # of each part how many pieces
        self.by_name: dict[str, Group] = {}
        self.equal_places: dict[str, tuple[str, ...]] = {}
        self._gather()

    @cached_property
    def after(self) -> dict[str, list[str]]:
        """The places that come next behind a place, one for each stack that it stands in."""
        after: dict[str, list[str]] = {}
        for stack in self._stacks:
            for a, b in pairwise(stack):
                after.setdefault(a, []).append(b)
        return after

    def home(self, place: str) -> Group:
        """The group of a place, or of the closed unit that holds it."""
        return self.by_name[self._unit_of.get(place, place)]

    def _lows(self, ranks: list[dict[str, int]]) -> dict[str, tuple[int, ...]]:
        low: dict[str, tuple[int, ...]] = {}
        for name in reversed(self.line):
            own = tuple([of_stack.get(name, NOWHERE) for of_stack in ranks])
            for successor in self.after.get(name, ()):
                own = tuple(map(min, own, low[successor]))
            low[name] = own
        return low

    def _gather(self) -> None:
        """The line cut into equal places that stand together, and these into groups;
        more than one are `equal_places`.
        """
        places = {place.name: place for place in self.reference.places}
        low, rank, faced, fixed = self.low, self.rank, self._faced, self._fixed
        for index, names in enumerate(self._of_groups(places)):
            name = names[0]
            if name in self.closed:
                part = name
                group = Group(index, names, part, 1, False, "", False, False, False, True, low[name], rank[name])
            else:
                place = places[name]
                part, count = place.part, place.count
                group = Group(
                    index, names, part, count if count > 1 else len(names), count > 1, place.facing, part in faced,
                    part in fixed, bool(place.may_be_absent), False, low[name], rank[name],
                )  # fmt: skip
            self.groups.append(group)
            self.wanted[part] = self.wanted.get(part, 0) + group.size
            for name in names:
                self.by_name[name] = group

    def _of_groups(self, places: dict[str, Place]) -> Iterator[tuple[str, ...]]:
        """The places of each group, along the line."""
        for names in self._together(places):
            if len(names) > 1:
                self.equal_places.update(dict.fromkeys(names, names))
                # Parts with a face keep their sequence, so each of their places stands for itself.
                if places[names[0]].part in self._faced:
                    yield from [(name,) for name in names]
                    continue
            yield names

    def _together(self, places: dict[str, Place]) -> Iterator[tuple[str, ...]]:
        """Equal places that stand next to each other, along the line."""
        together: list[str] = []
        last: Place | None = None
        for name in self.line:
            place = None if name in self.closed else places[name]
            is_alike = last is not None and place is not None and last.part == place.part
            if is_alike and self._are_equal(last, place) and self._is_next(last.name, name):
                together.append(name)
            else:
                if together:
                    yield tuple(together)
                together = [name]
            last = place
        if together:
            yield tuple(together)

    def _is_next(self, a: str, b: str) -> bool:
        """Whether nothing but b comes next behind a, and nothing but a right before b."""
        if self.is_one_line:
            return True
        return set(self.after.get(a, ())) == {b} and self._before.get(b) == {a}

    @cached_property
    def _before(self) -> dict[str, set[str]]:
        before: dict[str, set[str]] = {}
        for name, successors in self.after.items():
            for successor in successors:
                before.setdefault(successor, set()).add(name)
        return before

    def _are_equal(self, a: Place, b: Place) -> bool:
        """Whether two places of one part want the same piece; no two counted groups or fixed members are equal."""
        if a.facing != b.facing or bool(a.may_be_absent) != bool(b.may_be_absent):
            return False
        return a.count == b.count == 1 and a.part not in self._fixed


def closed_units(reference: Reference, found: Found) -> frozenset[str]:
    """The units that somebody entered as one thing."""
    if not reference.units:
        return frozenset()
    named = {entry.part for entry in found.entries}
    return frozenset(unit.id for unit in reference.units if unit.id in named)


def _without_repeats(names: Iterable[str]) -> list[str]:
    line: list[str] = []
    for name in names:
        if not line or line[-1] != name:
            line.append(name)
    return line
