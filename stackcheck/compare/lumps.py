"""What the replay moves about: one name for each place, and one for each lump of a counted place that came off in lumps.

Pieces of a counted place that stood together are one part throughout; where some of them stood apart, a slip may be about
these alone. So each lump goes by a name of its own, behind the first one, and which of them a finding is about is told by its
entries.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from stackcheck.compare.spots import Group, Spots
from stackcheck.model.finding import Finding, Standing
from stackcheck.value import Value


class Lumps:
    """The names of a line; `seat` says where each stands in it, `group` what it is of, `place` where it belongs."""

    def __init__(self, spots: Spots, line: Sequence[Standing], wanted: Mapping[str, int]):
        """`wanted` says of each counted place how many pieces it holds, as the findings have it."""
        self.spots = spots
        self.seat: dict[str, int] = {}
        self.group: Mapping[str, Group] = spots.by_name
        self.of_place: dict[str, tuple[str, ...]] = {}
        self.counts: dict[str, int] = {}
        self._entries: dict[str, frozenset[int | None]] = {}
        self._place: dict[str, str] = {}
        apart = _apart(line, wanted)
        for i, standing in enumerate(line):
            if standing.home is not None and standing.home not in apart:
                self.seat[standing.home] = i
        if apart:
            self.group = dict(spots.by_name)
        for place, lumps in apart.items():
            names = tuple(f"{place}, lump {number}" if number else place for number in range(len(lumps)))
            self.of_place[place] = names
            for name, lump in zip(names, lumps):
                self.group[name], self._place[name] = spots.by_name[place], place
                self.seat[name], self.counts[name], self._entries[name] = lump.seat, lump.count, lump.entries

    def of(self, place: str) -> tuple[str, ...]:
        return self.of_place.get(place, (place,))

    def place(self, name: str) -> str:
        return self._place.get(name, name)

    def equal_to(self, name: str) -> tuple[str, ...]:
        """The names that nobody can tell from one another: equal places standing together, lumps of a counted one."""
        place = self.place(name)
        return self.of_place.get(place) or self.group[name].names

    def told_by(self, finding: Finding) -> list[str]:
        """The names that a finding is about: of a place in lumps those of its entries, all where it names none of them."""
        names: list[str] = []
        for place in finding.places:
            lumps = self.of(place)
            own = [name for name in lumps if len(lumps) > 1 and not self._entries[name].isdisjoint(finding.entries)]
            names += own or lumps
        return names


class _Lump(Value):
    """Pieces of one place that stand together, the same way round: where, how many, of which entries."""

    seat: int
    count: int
    entries: frozenset[int | None]


def _apart(line: Sequence[Standing], wanted: Mapping[str, int]) -> dict[str, list[_Lump]]:
    """The lumps of each counted place that stands in more than one, where they are as many pieces as it holds."""
    lumps: dict[str, list[_Lump]] = {place: [] for place in wanted}
    inside = [(i, standing) for i, standing in enumerate(line) if standing.home is not None]
    for (place, _), together in groupby(inside, key=lambda seated: (seated[1].home, seated[1].turned)):
        if place in lumps:
            pieces = list(together)
            entries = frozenset([standing.entry for _, standing in pieces])
            lumps[place].append(_Lump(pieces[-1][0], sum([standing.count for _, standing in pieces]), entries))
    return {
        place: own for place, own in lumps.items() if len(own) > 1 and sum([lump.count for lump in own]) == wanted[place]
    }  # fmt: skip
