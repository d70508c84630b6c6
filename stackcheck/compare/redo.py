"""What one finding makes of a line: every line in which a part, or a run, may then have stood.

A run is turned, and two parts are swapped, in a line of the same arrangement where only what must stand between them
does; a moved run goes between the neighbours that the finding names, or, when something else is done after it, wherever
it may have been until then.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations, product

from stackcheck.compare.lumps import Lumps
from stackcheck.compare.regroup import Regroup, each_once
from stackcheck.compare.spots import Spots
from stackcheck.model.finding import Finding

MOST_BETWEEN = 40
MOST_CHOSEN = 6  # of which every choice is tried


class Redo(Regroup):
    """One finding after the other, done again; `partner` is the other place of one that was swapped."""

    def __init__(self, spots: Spots, lumps: Lumps, partner: Mapping[str, str]):
        super().__init__(spots, lumps)
        self.partner = partner

    def made(self, line: list[str], finding: Finding, *, last: bool) -> Iterator[list[str]]:
        """What one finding makes of a line."""
        names = self.lumps.told_by(finding)
        places = set(names) & set(line)
        if finding.kind in ("run_moved", "out_of_place"):
            yield from self._put(line, places, finding, last=last)
        elif len(places) == len(set(names)) > 1:  # else the witness fails, and says so
            for chosen in self._equal_to(line, finding, names):
                for ready in each_once(self._ready(line, chosen, finding.kind, last=last)):
                    seats = [i for i, place in enumerate(ready) if place in chosen]
                    made = list(ready)
                    for seat, other in zip(seats, reversed(seats)):
                        made[seat] = ready[other]
                    yield made

    def _equal_to(self, line: list[str], finding: Finding, names: list[str]) -> Iterator[set[str]]:
        """The places of a finding; of two that were swapped also equal ones beside them,
        for nobody can tell these apart.
        """
        if finding.kind != "swapped":
            yield set(names)
            return
        first = [set(names)] if len(set(names)) == 2 else []
        others = map(set, product(*map(self.lumps.equal_to, finding.places)))
        for chosen in each_once([*first, *others]):
            if len(chosen) == 2 and chosen <= set(line):
                yield chosen

    def _ready(self, line: list[str], places: set[str], kind: str, *, last: bool) -> Iterator[list[str]]:
        """Lines of the same arrangement in which a run may have been turned, or two parts swapped."""
        yield self.gathered(line, places)
        if kind == "run_end_for_end":
            yield self.ready_to_turn(self.gathered(line, places), places)
        else:
            yield self.ready_to_swap(line, places, self._passed(line, places))
            either = (
                [] if last else self._between_or_not(line, places)
            )  # what is done next may put back what stood between
            if len(either) <= MOST_BETWEEN:
                yield self.ready_to_swap(line, places, set(either))
        yield line
        if kind == "swapped" and len(either) <= MOST_CHOSEN:
            for number in range(1, len(either)):
                for between in combinations(either, number):
                    yield self.ready_to_swap(line, places, set(between))

    def _between_or_not(self, line: list[str], places: set[str]) -> list[str]:
        """What may stand between the two or beyond one of them, as nothing orders it to the other."""
        a, b = places
        return [place for place in line if place not in places and self.ordered(a, place) != self.ordered(b, place)]

    def _put(self, line: list[str], places: set[str], finding: Finding, *, last: bool) -> Iterator[list[str]]:
        """A run put where the finding has it, past what it then stands on the other side of and no more than that."""
        told = False
        passed = self._passed(line, places)
        for name, behind in ((finding.after, 1), (finding.before, 0)):
            for beside in dict.fromkeys((*self.lumps.of(name), self.partner.get(name, ""))) if name else [""]:
                for ready in each_once((self.gathered(line, places | passed | {beside} - {""}), line)):
                    rest = [place for place in ready if place not in places]
                    if beside in rest or not name:
                        told = True
                        seat = rest.index(beside) + behind if name else 0 if behind else len(rest)
                        for at in dict.fromkeys((seat, self._past(rest, seat, places, passed) if name else seat)):
                            yield self._laid_in(ready, places, at)
        if not last or not told:
            for seat in range(len(line) - len(places) + 1):
                yield self._laid_in(line, places, seat)

    def _past(self, rest: list[str], seat: int, places: set[str], passed: set[str]) -> int:
        """The seat behind everything that a run passed and that stands next there,
        though nothing orders it to the neighbour named.
        """
        own = [self.seat[place] for place in places if place in self.seat]
        while seat < len(rest) and rest[seat] in passed and self.seat[rest[seat]] < min(own):
            seat += 1
        while seat and rest[seat - 1] in passed and self.seat[rest[seat - 1]] > max(own):
            seat -= 1
        return seat

    def _passed(self, line: list[str], places: set[str]) -> set[str]:
        """What the explanation has on the other side of one of these places than this line."""
        passed: set[str] = set()
        for own in [place for place in places if place in self.seat]:
            at, seat, seats = line.index(own), self.seat[own], self.seat.get
            other = [place for place in line[:at] if seats(place, seat) > seat]
            other += [place for place in line[at:] if seats(place, seat) < seat]
            passed.update([place for place in other if place not in places and self.ordered(place, own)])
        return passed

    def _laid_in(self, line: list[str], places: set[str], seat: int) -> list[str]:
        run, rest = ([place for place in line if (place in places) is inside] for inside in (True, False))
        return [*rest[:seat], *run, *rest[seat:]]
