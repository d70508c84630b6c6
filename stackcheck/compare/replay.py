"""The witness: apply the findings to the reference and see whether what was found comes out.

It knows nothing of how an answer was made. Empty places are cleared, the findings that change the sequence are done
again one after the other (runs end for end, what was moved, what was swapped, in that sequence or, where it does not
lead there, in another one; how each is done: `redo`), faces are turned, and what is extra is laid in.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, islice, pairwise

from stackcheck.compare.lumps import Lumps
from stackcheck.compare.redo import Redo
from stackcheck.compare.sameness import same_arrangement
from stackcheck.compare.spots import Spots, closed_units, line_of
from stackcheck.model.finding import CountDiffers, Explanation, Finding, Standing
from stackcheck.model.found import TOWARD_FIRST, TOWARD_SECOND, Found
from stackcheck.model.reference import Reference

MOST_LINES_TRIED = 600


def replay(
    reference: Reference, explanation: Explanation, found: Found, *, spots: Spots | None = None
) -> tuple[Standing, ...]:
    """The line that the findings make of the reference, first end to second end; entries are not named in it.

    Of the lines that they may make, the one that is the arrangement of the explanation; else one that is so but for
    members that never came off, which nobody entered; else the first. `spots` are those of the reference, where
    somebody has them already.
    """
    first = None
    for line in rebuilt(reference, explanation, found, spots=spots):
        if same_arrangement(reference, line, explanation.line, spots=spots):
            return line
        first = first or line
    return first or ()


def rebuilt(
    reference: Reference, explanation: Explanation, found: Found, *, spots: Spots | None = None
) -> Iterator[tuple[Standing, ...]]:
    """The lines that the findings may make: all that agree, the members aside that nobody entered,
    else the likeliest.
    """
    work = _Replay(reference, explanation, found, spots)
    likeliest, agrees = None, False
    for line in islice(work.lines(), MOST_LINES_TRIED):
        likeliest = likeliest or line
        if work.agrees(line):
            agrees = True
            yield work.laid(line)
    if not agrees:
        yield work.laid(likeliest or [])


class _Replay:
    def __init__(self, reference: Reference, explanation: Explanation, found: Found, spots: Spots | None):
        self.reference, self.explanation, self.found = reference, explanation, found
        self.spots = spots or Spots(reference, closed_units(reference, found))
        self.counts = self._counts()
        self.lumps = Lumps(self.spots, explanation.line, self.counts)
        self.seat = self.lumps.seat
        self.unmarked = {
            s.home for s in explanation.line if s.entry is None and s.home and self.spots.home(s.home).fixed
        }
        self.partner: dict[str, str] = {}
        for finding in self._of("swapped"):
            a, b, *_ = self.lumps.told_by(finding)
            self.partner.update({a: b, b: a})
        self.redo = Redo(self.spots, self.lumps, self.partner)

    def _of(self, *kinds: str) -> list[Finding]:
        return [finding for finding in self.explanation.findings if finding.kind in kinds]

    def lines(self) -> Iterator[list[str]]:
        """The places in every sequence that the findings may lead to, the likeliest first."""
        kinds = ("run_end_for_end", "run_moved", "out_of_place", "swapped")
        yield from self._applied(self._start(), [finding for kind in kinds for finding in self._of(kind)])

    def _applied(self, line: list[str], findings: list[Finding]) -> Iterator[list[str]]:
        if not findings:
            yield line
        for number, finding in enumerate(findings):
            others = findings[:number] + findings[number + 1 :]
            for made in self.redo.made(line, finding, last=not others):
                yield from self._applied(made, others)

    def agrees(self, line: Sequence[str]) -> bool:
        """Whether the places stand as the explanation says, the members that nobody entered aside."""
        wanted = self.seat
        if self.unmarked:
            line = [place for place in line if place not in self.unmarked]
        seats = [*map(wanted.get, line)]
        if len(line) != len(wanted) - len(self.unmarked) or None in seats:
            return False
        nearest = [*accumulate(reversed(seats), min)][::-1]
        for i in [
            i for i, seat in enumerate(seats) if nearest[i] < seat
        ]:  # all others are followed only by what stands behind
            a = line[i]
            for j in range(i + 1, len(line)):
                if nearest[j] > wanted[a]:
                    break
                b = line[j]
                if (
                    wanted[a] > wanted[b]
                    and self.lumps.group[a].part != self.lumps.group[b].part
                    and self.redo.ordered(a, b)
                ):
                    return False
        return True

    def _start(self) -> list[str]:
        """The reference without its empty places, in the line nearest to what was found."""
        empty = {f.places[0] for f in self._of("missing")}
        seat = self.seat
        groups = self.spots.groups
        line = names = [name for group in groups for name in group.names]
        empty |= {name for group in groups if group.may_be_absent for name in group.names if name not in seat}
        if not self.spots.is_one_line:
            after: dict[str, list[str]] = {}
            for stack in self.reference.stacks:
                own = list(dict.fromkeys(self._spot(name) for name in stack.places))
                for a, b in pairwise(own):
                    after.setdefault(a, []).append(b)
            line = line_of(names, after, lambda name: seat.get(self.partner.get(name, name), -1))
        return [lump for name in line if name not in empty for lump in self.lumps.of(name)]

    def _spot(self, place: str) -> str:
        group = self.spots.home(place)
        return group.name if group.unit else place

    def _face_seen(self, name: str) -> bool:
        seat = self.seat.get(name)
        standing = None if seat is None else self.explanation.line[seat]
        if standing is None or standing.entry is None:
            return False
        wanted = self.lumps.group[name].facing
        return bool(wanted) and self.found.entry(standing.entry).toward in (TOWARD_FIRST, TOWARD_SECOND)

    def _counts(self) -> dict[str, int]:
        """How many pieces each counted place holds: as many as the explanation has there, where some may be absent."""
        groups = [group for group in self.spots.groups if group.counted]
        counts = {group.name: group.size for group in groups}
        for group in [group for group in groups if group.may_be_absent]:
            seen = [standing.count for standing in self.explanation.line if standing.home == group.name]
            counts[group.name] = min(group.size, sum(seen)) if seen else group.size
        for finding in self._of("count_differs"):
            assert isinstance(finding, CountDiffers)
            counts[finding.places[0]] = min(finding.found, finding.wanted)
        return counts

    def laid(self, line: Sequence[str]) -> tuple[Standing, ...]:
        """The line with what stands in its places, which way round, and what is extra."""
        turned: set[str] = set()
        for finding in self._of("run_end_for_end"):
            turned ^= {name for name in self.lumps.told_by(finding) if self._face_seen(name)}
        for finding in self._of("turned_round"):
            turned ^= set(self.lumps.told_by(finding))
        other = {(f.places[0], entry): f.part for f in self._of("different_part") for entry in f.entries}
        stands = {place: part for (place, _), part in other.items()}
        laid = []
        for name in line:
            place, part = self.lumps.place(name), self.lumps.group[name].part
            if name in self.lumps.pieces:
                for entry, count in self.lumps.pieces[name].items():
                    laid.append(
                        Standing(part=other.get((place, entry), part), home=place, count=count, turned=name in turned)
                    )
            else:
                count = self.counts.get(place, 1)
                laid.append(Standing(part=stands.get(place, part), home=place, count=count, turned=name in turned))
        for finding in self._of("extra"):
            if not finding.loose:
                laid.append(Standing(part=finding.part, home=None))
        return (*laid, *self._surplus())

    def _surplus(self) -> Iterator[Standing]:
        for finding in self._of("count_differs"):
            if finding.found > finding.wanted:
                part = self.spots.by_name[finding.places[0]].part
                yield Standing(part=part, home=None, count=finding.found - finding.wanted)
