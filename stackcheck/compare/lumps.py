"""What the replay moves about: one name for each place,
and one for each lump of a counted place that came off in lumps.

Pieces of a counted place that stood together are one part throughout; where some of them stood apart, a slip may be
about these alone. So each lump goes by a name of its own, behind the first one, and which of them a finding is about is
told by its entries.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from stackcheck.compare.spots import Group, Spots
from stackcheck.model.finding import Finding, Standing


class Lumps:
    """The names of a line; `seat` says where each stands in it, `group` what it is of.

    `pieces` says of the lumps of counted places how many pieces of each entry they are.
    """

    def __init__(self, spots: Spots, line: Sequence[Standing], wanted: Mapping[str, int]):
        """`wanted` says of each counted place how many pieces it holds, as the findings have it."""
        self.seat = {standing.home: i for i, standing in enumerate(line) if standing.home is not None}
        self.group: Mapping[str, Group] = spots.by_name
        self.pieces: dict[str, dict[int | None, int]] = {}
        self._of_place: dict[str, tuple[str, ...]] = {}
        self._place: dict[str, str] = {}
        lumps = _lumps(line, wanted) if wanted else {}
        if any(len(own) > 1 for own in lumps.values()):
            self.group = dict(spots.by_name)
        for place, own in lumps.items():
            names = tuple(f"{place}, lump {number}" if number else place for number in range(len(own)))
            self._of_place[place] = names
            for name, (seat, pieces) in zip(names, own):
                self.seat[name], self.pieces[name] = seat, pieces
                if name != place:
                    self.group[name], self._place[name] = spots.by_name[place], place

    def of(self, place: str) -> tuple[str, ...]:
        return self._of_place.get(place, (place,))

    def place(self, name: str) -> str:
        return self._place.get(name, name)

    def equal_to(self, name: str) -> tuple[str, ...]:
        """The names that nobody can tell from one another: equal places standing together, lumps of a counted one."""
        return self._of_place.get(self.place(name)) or self.group[name].names

    def told_by(self, finding: Finding) -> list[str]:
        """The names that a finding is about: of a place in lumps those of its entries,
        all where it names none of them.
        """
        names: list[str] = []
        for place in finding.places:
            lumps = self.of(place)
            own = [
                name for name in lumps if len(lumps) > 1 and not self.pieces[name].keys().isdisjoint(finding.entries)
            ]
            names += own or lumps
        return names


def _lumps(line: Sequence[Standing], wanted: Mapping[str, int]) -> dict[str, list[tuple[int, dict[int | None, int]]]]:
    """Of each counted place that stands there with as many pieces as it holds its lumps:
    where, and how many of which entry.

    Pieces that stand together, the same way round, are one lump.
    """
    lumps: dict[str, list[tuple[int, dict[int | None, int]]]] = {}
    inside = [(i, standing) for i, standing in enumerate(line) if standing.home is not None]
    for (place, _), together in groupby(inside, key=lambda seated: (seated[1].home, seated[1].turned)):
        if place in wanted:
            pieces: dict[int | None, int] = {}
            for seat, standing in together:
                pieces[standing.entry] = pieces.get(standing.entry, 0) + standing.count
            lumps.setdefault(place, []).append((seat, pieces))
    return {
        place: own for place, own in lumps.items() if sum([sum(pieces.values()) for _, pieces in own]) == wanted[place]
    }
