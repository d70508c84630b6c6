"""Other lines of the same arrangement, in which what a slip is about stands together.

A run can only be turned, and two parts only be swapped, where they stand with nothing between them but what must stand
there, or what a later slip puts back. Neighbours that the reference leaves free are exchanged until they do.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from stackcheck.compare.lumps import Lumps
from stackcheck.compare.spots import Spots, lies_before


def each_once(lines: Iterable) -> Iterator:
    seen = []
    for line in lines:
        if line not in seen:
            seen.append(line)
            yield line


class Regroup:
    """Lines of places, exchanged where nothing orders them;
    a counted place that came off in lumps is several of them.
    """

    def __init__(self, spots: Spots, lumps: Lumps):
        self.spots, self.lumps, self.seat, self.group = spots, lumps, lumps.seat, lumps.group

    def ordered(self, a: str, b: str) -> bool:
        one, two = self.group[a], self.group[b]
        return lies_before(one, two) or lies_before(two, one)

    def gathered(self, line: list[str], places: set[str]) -> list[str]:
        """A line of the same arrangement where only what must stand between the places does."""
        if self.spots.is_one_line and all(len(self.lumps.equal_to(place)) == 1 for place in places):
            return line  # in one stack everything between two places must stand there
        behind: set[str] = set()
        for place in line:
            if place in places or any(self.ordered(place, other) for other in behind):
                behind.add(place)
        ahead: set[str] = set()
        for place in reversed(line):
            if place in places or any(self.ordered(place, other) for other in ahead):
                ahead.add(place)
        inside, further = behind & ahead, behind - ahead
        nearer = [place for place in line if place not in behind]
        return [*nearer, *(place for place in line if place in inside), *(place for place in line if place in further)]

    def ready_to_turn(self, line: list[str], places: set[str]) -> list[str]:
        """With neighbours which nothing orders so that, turned, they stand in the sequence found."""
        seat = self.seat
        ready, sorted_ = list(line), False
        while not sorted_:
            sorted_ = True
            for i, (a, b) in enumerate(pairwise(ready)):
                if {a, b} <= places and not self.ordered(a, b) and seat.get(a, -1) < seat.get(b, -1):
                    ready[i : i + 2], sorted_ = [b, a], False
        return ready

    def ready_to_swap(self, line: list[str], places: set[str], between: set[str]) -> list[str]:
        """With all of `between` between the two that need not stand beyond one of them."""
        line = self.gathered(line, places | between)
        start, end = (i for i, place in enumerate(line) if place in places)
        inside = [i for i, place in enumerate(line) if place in between]
        first, last = min([start, *inside]), max([end, *inside])
        before, pass_first = self._bound_to(line[start], line[first:start][::-1])
        behind, pass_second = self._bound_to(line[end], line[end + 1 : last + 1])
        within = [line[start], *pass_first[::-1], *line[start + 1 : end], *pass_second, line[end]]
        return [*line[:first], *before[::-1], *within, *behind, *line[last + 1 :]]

    def _bound_to(self, place: str, line: Sequence[str]) -> tuple[list[str], list[str]]:
        """Those, going away from a place, that must stay on their side of it, and the others."""
        bound, free = [], []
        for other in line:
            (bound if any(self.ordered(other, own) for own in (place, *bound)) else free).append(other)
        return bound, free
