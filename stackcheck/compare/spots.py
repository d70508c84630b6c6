"""The reference as the comparison sees it: spots for single pieces, and which spot lies before which.

A closed unit is one spot in the place of its members. A counted place is one spot a piece. Equal places that stand
together want the same piece, so they share a *group* and are not ordered among themselves. Sequence is kept as one rank
a stack and never as a table of pairs: a lies before b when the first place of b's stack that is not nearer than a is
not deeper than b.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Hashable, Iterable
from itertools import pairwise

from stackcheck.model.reference import Reference
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
    """Whether a, anything with `low` and `rank`, comes nearer the first end than b in every line that obeys the stacks."""
    return a is not b and any(low <= rank for low, rank in zip(a.low, b.rank))


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
        stacks = [_without_repeats(unit_of.get(name, name) for name in stack.places) for stack in reference.stacks]
        after: dict[str, list[str]] = {}
        before: dict[str, set[str]] = {}
        for stack in stacks:
            for a, b in pairwise(stack):
                after.setdefault(a, []).append(b)
                before.setdefault(b, set()).add(a)
        names = _without_repeats_at_all(unit_of.get(place.name, place.name) for place in reference.places)
        written = {name: position for position, name in enumerate(names)}
        self.line = line_of(names, after, written.__getitem__)
        rank = [{name: position for position, name in enumerate(stack)} for stack in stacks]
        low: dict[str, tuple[int, ...]] = {}
        for name in reversed(self.line):
            own = tuple([ranks.get(name, NOWHERE) for ranks in rank])
            for successor in after.get(name, ()):
                own = tuple(map(min, own, low[successor]))
            low[name] = own
        self.groups: list[Group] = []
        self.after = after
        self.low = low
        self.rank = {name: tuple([own.get(name, -1) for own in rank]) for name in names}
        self.equal_places: dict[str, tuple[str, ...]] = {}
        for names_together in self._together(after, before):
            self.equal_places.update(dict.fromkeys(names_together, tuple(names_together)))
            # Parts with a face keep their sequence, so each of their places stands for itself.
            if reference.has_place(names_together[0]) and reference.place(names_together[0]).part in self._faced:
                for name in names_together:
                    self._add([name])
            else:
                self._add(names_together)
        self.by_part: dict[str, list[Group]] = {}
        self.by_name: dict[str, Group] = {}
        for group in self.groups:
            self.by_part.setdefault(group.part, []).append(group)
            for name in group.names:
                self.by_name[name] = group

    def home(self, place: str) -> Group:
        """The group of a place, or of the closed unit that holds it."""
        return self.by_name[self._unit_of.get(place, place)]

    def _add(self, names: list[str]) -> None:
        more = {"index": len(self.groups), "names": tuple(names), "low": self.low[names[0]], "rank": self.rank[names[0]]}
        if not self.reference.has_place(names[0]):
            self.groups.append(
                Group(part=names[0], size=1, counted=False, facing="", faced=False, fixed=False, may_be_absent=False, unit=True, **more)
            )
            return
        place = self.reference.place(names[0])
        self.groups.append(
            Group(
                part=place.part, size=max(place.count, len(names)), counted=place.count > 1, facing=place.facing,
                faced=place.part in self._faced,
                fixed=self.reference.part(place.part).fixed, may_be_absent=bool(place.may_be_absent), unit=False, **more,
            )
        )  # fmt: skip

    def _together(self, after: dict[str, list[str]], before: dict[str, set[str]]) -> list[list[str]]:
        """The line cut into equal places that stand together."""
        lines: list[list[str]] = []
        previous, wanted = None, None
        for name in self.line:
            want = self._want(name)
            if want == wanted and set(after.get(previous, ())) == {name} and before.get(name) == {previous}:
                lines[-1].append(name)
            else:
                lines.append([name])
            previous, wanted = name, want
        return lines

    def _want(self, name: str) -> tuple:
        """What a place wants; no two counted groups, fixed members or units are equal."""
        if not self.reference.has_place(name):
            return (name,)
        place = self.reference.place(name)
        if place.count > 1 or self.reference.part(place.part).fixed:
            return (name,)
        return (place.part, place.facing, bool(place.may_be_absent))


def _without_repeats(names: Iterable[str]) -> list[str]:
    line: list[str] = []
    for name in names:
        if not line or line[-1] != name:
            line.append(name)
    return line


def _without_repeats_at_all(names: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(names))
