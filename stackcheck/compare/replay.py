"""The witness: apply the findings to the reference and see whether what was found comes out.

It knows nothing of how an answer was made. Empty places are cleared, the findings that change the sequence are applied
one after the other (runs end for end, what was moved, what was swapped, in that sequence or, where it does not lead
there, in another one), faces are turned, and what is extra is laid in. A run is turned, and two parts are swapped, in a
line of the same arrangement where only what must stand between them does; a moved run goes between the neighbours that
the finding names, or, when something else is done after it, wherever it may have been until then.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, islice, pairwise, product
from operator import attrgetter, eq

from stackcheck.compare.spots import Group, Spots, closed_units, lies_before, line_of
from stackcheck.model.finding import CountDiffers, Explanation, Finding, Standing
from stackcheck.model.found import TOWARD_FIRST, TOWARD_SECOND, Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace

MOST_LINES_TRIED = 600
_WITHOUT_ENTRY = attrgetter("home", "part", "count", "turned")
MOST_BETWEEN = 40


def replay(reference: Reference, explanation: Explanation, found: Found, *, spots: Spots | None = None) -> tuple[Standing, ...]:
    """The line that the findings make of the reference, first end to second end; entries are not named in it.

    Of the lines that they may make, the one that is the arrangement of the explanation; else one that is so but for
    members that never came off, which nobody entered; else the first. `spots` are those of the reference, where somebody
    has them already.
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
    """The lines that the findings may make: all that agree, the members aside that nobody entered, else the likeliest."""
    work = _Replay(reference, explanation, found, spots)
    likeliest, agrees = None, False
    for line in islice(work.lines(), MOST_LINES_TRIED):
        likeliest = likeliest or line
        if work.agrees(line):
            agrees = True
            yield work.laid(line)
    if not agrees:
        yield work.laid(likeliest or [])


def same_arrangement(
    reference: Reference, a: Sequence[Standing], b: Sequence[Standing], *, spots: Spots | None = None
) -> bool:
    """Whether every pair that the reference orders stands in the same sequence in both, the same parts the same way."""
    if _are_alike(a, b):
        return True
    a, b = _without_equal_ends(a, b)
    if not a and not b:
        return True
    if spots is None:
        spots = Spots(reference, frozenset(unit.id for unit in reference.units if any(s.home == unit.id for s in (*a, *b))))
    return _seen(spots, a) == _seen(spots, b)


def _are_alike(a: Sequence[Standing], b: Sequence[Standing]) -> bool:
    """Whether the same stands in places, in the same sequence, and the same is over; which entry a thing was is not compared."""
    inside = [[s for s in line if s.home is not None] for line in (a, b)]
    over = [sorted([(s.part or "", s.count, s.turned) for s in line if s.home is None]) for line in (a, b)]
    may_be = over[0] == over[1] and len(inside[0]) == len(inside[1])
    return may_be and all(map(eq, *[map(_WITHOUT_ENTRY, line) for line in inside]))


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


def _each_once(lines: Iterable[list[str]]) -> Iterator[list[str]]:
    seen = []
    for line in lines:
        if line not in seen:
            seen.append(line)
            yield line


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
    pairs = set()
    nearest = _least_from_here(tuple([home.low for _, home in seats]))
    for i, (key, home) in enumerate(seats):
        for j in range(i + 1, len(seats)):
            if not any(low <= rank for low, rank in zip(nearest[j], home.rank)):
                break  # nothing from here on belongs before it
            other, its_home = seats[j]
            if home is not its_home and lies_before(its_home, home):
                pairs.add((key[0], other[0]))
    return inside, over, frozenset(pairs)


def _least_from_here(rows: Sequence[tuple[int, ...]]) -> list[tuple[int, ...]]:
    """For each row the least of every column from there to the end, so that a look ahead can stop early.

    >>> _least_from_here([(1, 9), (4, 2), (3, 5)])
    [(1, 2), (3, 2), (3, 5)]
    """
    least: list[tuple[int, ...]] = []
    for row in reversed(rows):
        least.append(tuple(map(min, row, least[-1])) if least else row)
    return least[::-1]


class _Replay:
    def __init__(self, reference: Reference, explanation: Explanation, found: Found, spots: Spots | None):
        self.reference, self.explanation, self.found = reference, explanation, found
        self.spots = spots or Spots(reference, closed_units(reference, found))
        self.seat = {standing.home: i for i, standing in enumerate(explanation.line) if standing.home is not None}
        self.unmarked = {s.home for s in explanation.line if s.entry is None and s.home and self.spots.home(s.home).fixed}
        self.partner: dict[str, str] = {}
        for finding in self._of("swapped"):
            a, b = finding.places
            self.partner.update({a: b, b: a})

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
            for made in self._made(line, finding, last=not others):
                yield from self._applied(made, others)

    def _made(self, line: list[str], finding: Finding, *, last: bool) -> Iterator[list[str]]:
        """What one finding makes of a line."""
        places = set(finding.places) & set(line)
        if finding.kind in ("run_moved", "out_of_place"):
            yield from self._put(line, places, finding, last=last)
        elif len(places) == len(set(finding.places)) > 1:  # else the witness fails, and says so
            for chosen in self._equal_to(line, finding, places):
                for ready in _each_once(self._ready(line, chosen, finding.kind, last=last)):
                    seats = [i for i, place in enumerate(ready) if place in chosen]
                    made = list(ready)
                    for seat, other in zip(seats, reversed(seats)):
                        made[seat] = ready[other]
                    yield made

    def _equal_to(self, line: list[str], finding: Finding, places: set[str]) -> Iterator[set[str]]:
        """The places of a finding; of two that were swapped also equal ones beside them, for nobody can tell these apart."""
        yield places
        if finding.kind == "swapped":
            for chosen in product(*(self.spots.by_name[place].names for place in finding.places)):
                if set(chosen) != places and len(set(chosen)) == 2 and set(chosen) <= set(line):
                    yield set(chosen)

    def _put(self, line: list[str], places: set[str], finding: Finding, *, last: bool) -> Iterator[list[str]]:
        """A run put where the finding has it, past what it then stands on the other side of and no more than that."""
        told = False
        passed = self._passed(line, places)
        for name, behind in ((finding.after, 1), (finding.before, 0)):
            for beside in dict.fromkeys((name, self.partner.get(name, ""))) if name else [""]:
                for ready in _each_once((self._gathered(line, places | passed | {beside} - {""}), line)):
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
        """The seat behind everything that a run passed and that stands next there, though nothing orders it to the neighbour named."""
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
            passed.update([place for place in other if place not in places and self._ordered(place, own)])
        return passed

    def _laid_in(self, line: list[str], places: set[str], seat: int) -> list[str]:
        run, rest = ([place for place in line if (place in places) is inside] for inside in (True, False))
        return [*rest[:seat], *run, *rest[seat:]]

    def _ready(self, line: list[str], places: set[str], kind: str, *, last: bool) -> Iterator[list[str]]:
        """Lines of the same arrangement in which a run may have been turned, or two parts swapped."""
        yield self._gathered(line, places)
        if kind == "run_end_for_end":
            yield self._ready_to_turn(self._gathered(line, places), places)
        else:
            yield self._ready_to_swap(line, places, self._passed(line, places))
            if not last:  # what is done next may put back what stood between
                a, b = places
                either = {place for place in line if place not in places and self._ordered(a, place) != self._ordered(b, place)}
                if len(either) <= MOST_BETWEEN:
                    yield self._ready_to_swap(line, places, either)
        yield line

    def _ready_to_turn(self, line: list[str], places: set[str]) -> list[str]:
        """With neighbours which nothing orders so that, turned, they stand in the sequence found."""
        seat = self.seat
        ready, sorted_ = list(line), False
        while not sorted_:
            sorted_ = True
            for i, (a, b) in enumerate(pairwise(ready)):
                if {a, b} <= places and not self._ordered(a, b) and seat.get(a, -1) < seat.get(b, -1):
                    ready[i : i + 2], sorted_ = [b, a], False
        return ready

    def _ready_to_swap(self, line: list[str], places: set[str], between: set[str]) -> list[str]:
        """With all of `between` between the two that need not stand beyond one of them."""
        line = self._gathered(line, places | between)
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
            (bound if any(self._ordered(other, own) for own in (place, *bound)) else free).append(other)
        return bound, free

    def _gathered(self, line: list[str], places: set[str]) -> list[str]:
        """A line of the same arrangement where only what must stand between the places does."""
        if self.spots.is_one_line and all(len(self.spots.by_name[place].names) == 1 for place in places):
            return line  # in one stack everything between two places must stand there
        behind: set[str] = set()
        for place in line:
            if place in places or any(self._ordered(place, other) for other in behind):
                behind.add(place)
        ahead: set[str] = set()
        for place in reversed(line):
            if place in places or any(self._ordered(place, other) for other in ahead):
                ahead.add(place)
        inside, further = behind & ahead, behind - ahead
        nearer = [place for place in line if place not in behind]
        return [*nearer, *(place for place in line if place in inside), *(place for place in line if place in further)]

    def _ordered(self, a: str, b: str) -> bool:
        one, two = self.spots.by_name[a], self.spots.by_name[b]
        return lies_before(one, two) or lies_before(two, one)

    def agrees(self, line: Sequence[str]) -> bool:
        """Whether the places stand as the explanation says, the members that nobody entered aside."""
        wanted = self.seat
        if self.unmarked:
            line = [place for place in line if place not in self.unmarked]
        seats = [*map(wanted.get, line)]
        if len(line) != len(wanted) - len(self.unmarked) or None in seats:
            return False
        nearest = [*accumulate(reversed(seats), min)][::-1]
        for i in [i for i, seat in enumerate(seats) if nearest[i] < seat]:  # all others are followed only by what stands behind
            a = line[i]
            for j in range(i + 1, len(line)):
                if nearest[j] > wanted[a]:
                    break
                b = line[j]
                if wanted[a] > wanted[b] and self.spots.by_name[a].part != self.spots.by_name[b].part and self._ordered(a, b):
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
        return [name for name in line if name not in empty]

    def _spot(self, place: str) -> str:
        group = self.spots.home(place)
        return group.name if group.unit else place

    def _face_seen(self, place: str) -> bool:
        seat = self.seat.get(place)
        standing = None if seat is None else self.explanation.line[seat]
        if standing is None or standing.entry is None:
            return False
        wanted = self.spots.by_name[place].facing
        return bool(wanted) and self.found.entry(standing.entry).toward in (TOWARD_FIRST, TOWARD_SECOND)

    def _count(self, group: Group) -> int:
        """How many pieces a place holds: as many as the explanation has there, where some may be absent."""
        if not group.counted:
            return 1
        if not group.may_be_absent or group.name not in self.seat:
            return group.size
        return min(group.size, sum(standing.count for standing in self.explanation.line if standing.home == group.name))

    def laid(self, line: Sequence[str]) -> tuple[Standing, ...]:
        """The line with what stands in its places, which way round, and what is extra."""
        turned: set[str] = set()
        for finding in self._of("run_end_for_end"):
            turned ^= {place for place in finding.places if self._face_seen(place)}
        for finding in self._of("turned_round"):
            turned ^= set(finding.places)
        other = {f.places[0]: f.part for f in self._of("different_part")}
        counts: dict[str, int] = {}
        surplus = []
        for finding in self._of("count_differs"):
            assert isinstance(finding, CountDiffers)
            counts[finding.places[0]] = min(finding.found, finding.wanted)
            over = finding.found - finding.wanted
            if over > 0:
                surplus.append(Standing(part=self.spots.by_name[finding.places[0]].part, home=None, count=over))
        by_name = self.spots.by_name
        changed = turned | other.keys() | counts.keys()
        laid = []
        for place in line:
            group = by_name[place]
            part, count = group.part, self._count(group)
            if place in changed:
                part, count = other.get(place, part), counts.get(place, count)
            laid.append(Standing(part=part, home=place, count=count, turned=place in turned))
        for finding in self._of("extra"):
            if not finding.loose:
                laid.append(Standing(part=finding.part, home=None))
        return (*laid, *surplus)


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
