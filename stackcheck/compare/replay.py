"""The witness: apply the findings to the reference and see whether what was found comes out.

It knows nothing of how an answer was made. Findings that overlap are applied in a stated sequence: empty places are
cleared, runs are turned end for end, runs and single parts are taken out and put between the neighbours that the finding
names, then parts are swapped, faces turned, and what is extra laid in. A run is taken as the places that it has in the
reference; a neighbour that a later swap brings there is looked for where it comes from.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations

from stackcheck.compare.spots import Spots, lies_before, line_of
from stackcheck.model.finding import CountDiffers, Explanation, Finding, Standing
from stackcheck.model.found import TOWARD_FIRST, TOWARD_SECOND, Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace

SEQUENCES_TRIED = 24


def replay(reference: Reference, explanation: Explanation, found: Found) -> tuple[Standing, ...]:
    """The line that the findings make of the reference, first end to second end; entries are not named in it."""
    moves = [f for f in explanation.findings if f.kind in ("run_moved", "out_of_place")]
    line: tuple[Standing, ...] = ()
    for number, sequence in enumerate(permutations(moves)):
        for side in ("after", "before"):
            line = _Replay(reference, explanation, found).run(sequence, side)
            if same_arrangement(reference, line, explanation.line):
                return line
        if number + 1 >= SEQUENCES_TRIED:
            break
    return line


def same_arrangement(reference: Reference, a: Sequence[Standing], b: Sequence[Standing]) -> bool:
    """Whether every pair that the reference orders stands in the same sequence in both, the same parts the same way."""
    a, b = _without_equal_ends(a, b)
    if not a and not b:
        return True
    closed = frozenset(unit.id for unit in reference.units if any(s.home == unit.id for s in (*a, *b)))
    spots = Spots(reference, closed)
    return _seen(spots, a) == _seen(spots, b)


def _without_equal_ends(a: Sequence[Standing], b: Sequence[Standing]) -> tuple[list[Standing], list[Standing]]:
    """What differs between an equal head and an equal tail; which entry a thing was is not compared."""
    first, second = ([replace(standing, entry=None) for standing in line] for line in (a, b))
    head = 0
    while head < min(len(first), len(second)) and first[head] == second[head]:
        head += 1
    tail = 0
    while tail < min(len(first), len(second)) - head and first[-1 - tail] == second[-1 - tail]:
        tail += 1
    return first[head : len(first) - tail], second[head : len(second) - tail]


def _seen(spots: Spots, line: Sequence[Standing]) -> tuple:
    """What does not depend on the line chosen, nor on which of two equal parts is which."""
    inside: dict[tuple, int] = {}
    over: dict[tuple, int] = {}
    for standing in line:
        key = (standing.part, standing.turned)
        if standing.home is None:
            over[key] = over.get(key, 0) + standing.count
    ordered = [(standing, spots.home(standing.home)) for standing in line if standing.home is not None]
    seats = []
    for standing, home in ordered:
        key = (home.index, standing.part, standing.turned)
        inside[key] = inside.get(key, 0) + standing.count
        seats.append((key, home))
    pairs: dict[tuple, int] = {}
    for i, (key, home) in enumerate(seats):
        for other, its_home in seats[i + 1 :]:
            if home is not its_home and lies_before(its_home, home):
                pairs[key[0], other[0]] = pairs.get((key[0], other[0]), 0) + 1
    return inside, over, frozenset(pairs)


class _Replay:
    def __init__(self, reference: Reference, explanation: Explanation, found: Found):
        self.reference, self.explanation, self.found = reference, explanation, found
        named = {entry.part for entry in found.entries}
        self.spots = Spots(reference, frozenset(unit.id for unit in reference.units if unit.id in named))
        self.standing_by_home = {s.home: s for s in explanation.line if s.home is not None}
        self.partner: dict[str, str] = {}
        for finding in self._of("swapped"):
            a, b = finding.places
            self.partner.update({a: b, b: a})

    def _of(self, *kinds: str) -> list[Finding]:
        return [finding for finding in self.explanation.findings if finding.kind in kinds]

    def run(self, moves: Sequence[Finding], side: str) -> tuple[Standing, ...]:
        line = self._start()
        turned: set[str] = set()
        for finding in self._of("run_end_for_end"):
            seats = sorted(line.index(place) for place in finding.places if place in line)
            for seat, place in zip(seats, [line[i] for i in reversed(seats)]):
                line[seat] = place
            turned ^= {place for place in finding.places if self._face_seen(place)}
        line = self._put(line, moves, side)
        for finding in self._of("swapped"):
            if set(finding.places) <= set(line):  # else the witness fails, and says so
                a, b = (line.index(place) for place in finding.places)
                line[a], line[b] = line[b], line[a]
        for finding in self._of("turned_round"):
            turned ^= set(finding.places)
        return self._laid(line, turned)

    def _start(self) -> list[str]:
        """The reference without its empty places, in the line nearest to what was found."""
        empty = {f.places[0] for f in self._of("missing")}
        seat = {standing.home: position for position, standing in enumerate(self.explanation.line)}
        names = [name for group in self.spots.groups for name in group.names]
        absent = {
            name for name in names
            if self.spots.by_name[name].may_be_absent and name not in seat
        }  # fmt: skip
        after: dict[str, list[str]] = {}
        for stack in self.reference.stacks:
            line = list(dict.fromkeys(self._spot(name) for name in stack.places))
            for a, b in zip(line, line[1:]):
                after.setdefault(a, []).append(b)
        line = line_of(names, after, lambda name: seat.get(self.partner.get(name, name), -1))
        return [name for name in line if name not in empty and name not in absent]

    def _spot(self, place: str) -> str:
        group = self.spots.home(place)
        return group.name if group.unit else place

    def _put(self, line: list[str], moves: Sequence[Finding], side: str) -> list[str]:
        runs = []
        for finding in moves:
            places = set(finding.places)
            runs.append(([place for place in line if place in places], finding))
        taken = {place for run, _ in runs for place in run}
        line = [place for place in line if place not in taken]
        waiting = runs
        while waiting:
            later = []
            for run, finding in waiting:
                after, before = (self.partner.get(n, n) for n in (finding.after, finding.before))
                if side == "after" and (after in line or not after):
                    where = line.index(after) + 1 if after else 0
                elif before in line or not before:
                    where = line.index(before) if before else len(line)
                elif after in line or not after:
                    where = line.index(after) + 1 if after else 0
                else:
                    later.append((run, finding))
                    continue
                line[where:where] = run
            if len(later) == len(waiting):
                break
            waiting = later
        return line

    def _face_seen(self, place: str) -> bool:
        standing = self.standing_by_home.get(place)
        if standing is None or standing.entry is None:
            return False
        wanted = self.spots.by_name[place].facing
        return bool(wanted) and self.found.entry(standing.entry).toward in (TOWARD_FIRST, TOWARD_SECOND)

    def _laid(self, line: Sequence[str], turned: set[str]) -> tuple[Standing, ...]:
        other = {f.places[0]: f.part for f in self._of("different_part")}
        counts: dict[str, int] = {}
        surplus = []
        for finding in self._of("count_differs"):
            assert isinstance(finding, CountDiffers)
            counts[finding.places[0]] = min(finding.found, finding.wanted)
            over = finding.found - finding.wanted
            if over > 0:
                surplus.append(Standing(part=self.spots.by_name[finding.places[0]].part, home=None, count=over))
        laid = [
            Standing(
                part=other[place] if place in other else self.spots.by_name[place].part, home=place,
                count=counts.get(place, self.spots.by_name[place].size if self.spots.by_name[place].counted else 1),
                turned=place in turned,
            )
            for place in line
        ]  # fmt: skip
        for finding in self._of("extra"):
            if not finding.loose:
                laid.append(Standing(part=finding.part, home=None))
        return tuple([*laid, *surplus])


def is_what_was_found(explanation: Explanation, found: Found) -> bool:
    """Whether the line holds every entry in the sequence it came off, as often as it was entered, and no other."""
    gone = {f.entries[1] for f in explanation.findings if f.kind == "entered_twice"}
    mirrored = any(f.kind == "entered_from_other_end" for f in explanation.findings)
    counts: dict[int, int] = {}
    sequence: list[int] = []
    for standing in explanation.line:
        if standing.entry is not None:
            counts[standing.entry] = counts.get(standing.entry, 0) + standing.count
            if not sequence or sequence[-1] != standing.entry:
                sequence.append(standing.entry)
    listed = [entry for entry in found.entries if not entry.is_loose and entry.number not in gone]
    if counts != {entry.number: entry.count for entry in listed} or len(sequence) != len(listed):
        return False
    position = {number: i for i, number in enumerate(sequence)}
    unsaid = all(entry.end is None for entry in listed)
    for end in (0, 1):
        numbers = [position[e.number] for e in listed if (0 if unsaid else e.end) == end]
        if numbers != sorted(numbers, reverse=(end == 1) != mirrored):
            return False
    firsts = [position[e.number] for e in listed if e.end == 0]
    seconds = [position[e.number] for e in listed if e.end == 1]
    if mirrored:
        firsts, seconds = seconds, firsts
    return not firsts or not seconds or max(firsts) < min(seconds)
