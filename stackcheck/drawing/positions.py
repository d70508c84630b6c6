"""Where everything stands along the axis: the faces of each part [mm], counted from the datum.

Parts that touch share a face, so positions follow from the lengths, along the chain of fewest parts: the same graph of
faces that tells distances (`stackcheck.mechanics.distance`). Two things are added, because a picture cannot leave a
part out: a length that nobody knows is assumed, and a gap is as wide as it was measured or as its limits suggest, each
only where no chain of known lengths leads on. Where such chains contradict one another (a spacer tube is missing and
the hub holds the bearings apart all the same) one part would lie in another; then the one farther from the datum gives
way.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from heapq import heappop, heappush
from itertools import count, pairwise

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.distance import FIRST, SECOND, Node, face_graph
from stackcheck.model.finding import Standing
from stackcheck.model.reference import Gap
from stackcheck.value import Value

Who = tuple[object, int]
"""What stands there (its home, or the standing itself where it has none) and which piece of it,
as the graph names it.
"""

NO_LENGTH, ACROSS_GAP, ASSUMED, UNKNOWN_GAP = 1_000, 10_000, 1_000_000, 100_000_000
"""What a step costs beside the 1 of a known length: a gap only where no lengths lead, an assumed length after that."""
_TOUCHING_MM = 0.005


class Standee(Value, kw_only=True):
    """One thing that stands there; `stacks` are those it lies in,
    `touches` whether its stacks have it between two others.
    """

    who: Who
    standing: Standing
    stacks: tuple[str, ...]


class GapSpot(Value, kw_only=True):
    """An open gap between two standees (None at the end of a stack)."""

    gap: Gap
    stack: str
    before: Who | None
    after: Who | None


class Line(Value, kw_only=True):
    """One half of the picture along the axis: who stands there, first and second face of each, and the gaps.

    `faces` are those of the inner ring for a bearing, `outer_faces` those of its outer ring. `assumed` holds those
    whose length nobody knows; `pushed` tells that something had to give way.
    """

    standees: Mapping[Who, Standee]
    faces: Mapping[Who, tuple[float, float]]
    outer_faces: Mapping[Who, tuple[float, float]]
    gaps: tuple[GapSpot, ...]
    paths: Mapping[str, tuple[Who, ...]]
    assumed: frozenset[Who]
    pushed: bool


def line_of(
    arrangement: Arrangement,
    datum: str,
    length_mm: Callable[[Standing], float],
    gap_mm: Callable[[Gap], float | None],
    usual: Line | None = None,
) -> Line:
    """Everything in its place; `length_mm` is asked where a length is not known, `gap_mm` for the width of a gap.

    What hangs together with nothing, because the part beside it is missing, stands where `usual` has it.
    """
    arrangement = _settled(arrangement)
    standees, paths, gaps = _standees(arrangement)
    steps, assumed = _steps(arrangement, standees, gaps, length_mm, gap_mm)
    own = [node for node in steps if node[0] == (datum, 0)] or [next(iter(steps))]
    first = next(node for node in own if node[2] == FIRST)
    reached = _reached(
        steps,
        {
            node: 0.0 if node[2] == FIRST else steps[first][node][0]
            for node in own
            if node == first or node in steps[first]
        },
    )
    for node in steps:
        if node not in reached.places:
            at = usual.faces[node[0]][node[2] == SECOND] if usual is not None and node[0] in usual.faces else 0.0
            reached = reached.joined(_reached(steps, {node: at}))
    lines = {stack.name: (stack.through, paths[stack.name]) for stack in arrangement.reference.stacks}
    filling = _share_room(reached, lines, {who: length_mm(standees[who].standing) for who in assumed}, (datum, 0))
    pushed = _give_way(reached, lines, (datum, 0))
    faces = {who: _faces(reached.places, who, _RINGS) for who in standees}
    outer_faces = {
        who: _faces(reached.places, who, _RINGS[::-1])
        for who in standees
        if (who, "outer rings", FIRST) in reached.places
    }
    return Line(
        standees=standees,
        faces=faces,
        outer_faces=outer_faces,
        gaps=tuple(gaps),
        paths=paths,
        assumed=frozenset(assumed - filling),
        pushed=pushed,
    )


def _settled(arrangement: Arrangement) -> Arrangement:
    """A part that may lie in one stack or another is drawn in the first of them: in both it would tie them together."""
    paths = {
        name: tuple(
            item for item in path if not isinstance(item, Member) or not item.or_else or item.or_else[0] == name
        )
        for name, path in arrangement.paths.items()
    }
    return Arrangement(ruler=arrangement.ruler, paths=paths)


def _standees(arrangement: Arrangement) -> tuple[dict[Who, Standee], dict[str, tuple[Who, ...]], list[GapSpot]]:
    standings: dict[Who, Standing] = {}
    stacks: dict[Who, list[str]] = {}
    paths: dict[str, tuple[Who, ...]] = {}
    gaps: list[GapSpot] = []
    for stack in arrangement.reference.stacks:
        seen: Counter = Counter()
        path: list[Who] = []
        waiting: list[tuple[Gap, Who | None]] = []
        for item in arrangement.paths[stack.name]:
            if not isinstance(item, Member):
                waiting.append((item, path[-1] if path else None))
                continue
            home = item.standing.home or item.standing
            who = home, seen[home]
            seen[home] += 1
            standings.setdefault(who, item.standing)
            stacks.setdefault(who, []).append(stack.name)
            path.append(who)
            gaps += [GapSpot(gap=gap, stack=stack.name, before=before, after=who) for gap, before in waiting]
            waiting = []
        gaps += [GapSpot(gap=gap, stack=stack.name, before=before, after=None) for gap, before in waiting]
        paths[stack.name] = tuple(path)
    standees = {
        who: Standee(who=who, standing=standing, stacks=tuple(stacks[who])) for who, standing in standings.items()
    }
    return standees, paths, gaps


Steps = dict[Node, dict[Node, tuple[float, int]]]


def _steps(
    arrangement: Arrangement,
    standees: Mapping[Who, Standee],
    gaps: list[GapSpot],
    length_mm: Callable[[Standing], float],
    gap_mm: Callable[[Gap], float | None],
) -> tuple[Steps, set[Who]]:
    """Step lengths and costs from face to face, the unknown ones assumed."""
    steps: Steps = {}
    assumed: set[Who] = set()
    for node, edges in face_graph(arrangement).items():
        steps[node] = {}
        for other, edge in edges.items():
            total = edge.lengths.total
            if total is not None:
                steps[node][other] = total.nominal_mm, edge.parts
    by_face: dict[tuple[Who, str], list[Node]] = {}
    for node in steps:
        by_face.setdefault((node[0], node[2]), []).append(node)
    for who, standee in standees.items():
        firsts, seconds = by_face.get((who, FIRST), []), by_face.get((who, SECOND), [])
        known = [steps[first][second][0] for first in firsts for second in seconds if second in steps[first]]
        if known:
            # A taper bearing of which only the width from back to back is known: each ring is drawn as wide as that.
            for first, second in [(first, (who, first[1], SECOND)) for first in firsts]:
                if second not in steps[first]:
                    _join(steps, first, second, known[0], NO_LENGTH)
            continue
        assumed.add(who)
        for first in firsts:
            for second in seconds:
                length = length_mm(standee.standing)
                _join(steps, first, second, length, ASSUMED if length else NO_LENGTH)
    for spot in gaps:
        if spot.before is None or spot.after is None:
            continue
        width = gap_mm(spot.gap)
        for before in by_face.get((spot.before, SECOND), []):
            for after in by_face.get((spot.after, FIRST), []):
                if after not in steps[before]:
                    _join(steps, before, after, width or 0.0, UNKNOWN_GAP if width is None else ACROSS_GAP)
    return steps, assumed


def _join(steps: Steps, start: Node, end: Node, length_mm: float, cost: int) -> None:
    steps[start][end] = length_mm, cost
    steps[end][start] = -length_mm, cost


class _Reached(Value, kw_only=True):
    """Where each face lies [mm], what it costs to know that,
    and from which other thing each thing was reached first.
    """

    places: dict[Node, float]
    costs: dict[Node, int]
    parents: dict[Who, Who]

    def joined(self, other: _Reached) -> _Reached:
        return _Reached(
            places=self.places | other.places, costs=self.costs | other.costs, parents=self.parents | other.parents
        )


def _reached(steps: Steps, starts: Mapping[Node, float]) -> _Reached:
    """Every face that hangs together with the first ones, by the chain of least cost (Dijkstra 1959)."""
    tie = count()
    ahead: list[tuple[int, int, Node, float, Node | None]] = [
        (0, next(tie), node, at, None) for node, at in starts.items()
    ]
    reached = _Reached(places={}, costs={}, parents={})
    while ahead:
        cost, _, node, position, before = heappop(ahead)
        if node in reached.places:
            continue
        reached.places[node] = position
        reached.costs[node] = cost
        if before is not None and before[0] != node[0]:
            reached.parents.setdefault(node[0], before[0])
        for other, (length, own) in steps[node].items():
            if other not in reached.places:
                heappush(ahead, (cost + own, next(tie), other, position + length, node))
    return reached


_RINGS = ("", "inner rings", "outer rings")
_Lines = Mapping[str, tuple[str, tuple[Who, ...]]]
"""Stack -> what it runs through, and who stands in it."""


def _faces(places: Mapping[Node, float], who: Who, rings: tuple[str, ...]) -> tuple[float, float]:
    """The faces of one thing, of a bearing those of the first of these rings that it has."""
    ring = next(ring for ring in rings if (who, ring, FIRST) in places)
    return places[who, ring, FIRST], places[who, ring, SECOND]


def _face(who: Who, through: str, side: str, places: Mapping[Node, float]) -> Node:
    """The face that a thing shows in a stack."""
    return (who, through, side) if (who, through, side) in places else (who, "", side)


def _share_room(reached: _Reached, lines: _Lines, assumed: Mapping[Who, float], datum: Who) -> set[Who]:
    """Parts of unknown length between two faces whose place is known fill the room between them: springs, above all."""
    filling: set[Who] = set()
    places, costs = reached.places, reached.costs
    for through, path in lines.values():
        run: list[Who] = []
        before: Who | None = None
        for who in path:
            near, far = (_face(who, through, side, places) for side in (FIRST, SECOND))
            near_known, far_known = costs[near] < ASSUMED, costs[far] < ASSUMED
            if near_known and run:
                if before is not None and any(assumed.get(each) for each in run):
                    filling |= _fill(
                        places, through, run, assumed, places[_face(before, through, SECOND, places)], places[near]
                    )
                run, before = [], None
            if near_known and far_known:
                before = who
                if assumed.get(who) and who != datum and places[far] > places[near]:
                    filling.add(who)
            else:
                run.append(who)
    return filling


def _fill(
    places: dict[Node, float], through: str, run: list[Who], assumed: Mapping[Who, float], start: float, end: float
) -> set[Who]:
    """Set a run one behind the other, the unknown lengths in it sharing what the known ones leave."""
    lengths = {
        who: places[_face(who, through, SECOND, places)] - places[_face(who, through, FIRST, places)] for who in run
    }
    room = end - start - sum(length for who, length in lengths.items() if who not in assumed)
    share = room / sum(assumed[who] for who in run if who in assumed)
    if share < 0.05:
        return set()
    for who in run:
        length = assumed[who] * share if who in assumed else lengths[who]
        by = start - places[_face(who, through, FIRST, places)]
        for ring in _RINGS:
            for side in (FIRST, SECOND):
                if (who, ring, side) in places:
                    places[who, ring, side] += by
        places[_face(who, through, SECOND, places)] = start + length
        start += length
    return {who for who in run if who in assumed}


def _give_way(reached: _Reached, lines: _Lines, datum: Who) -> bool:
    """Push apart what would lie one in the other; each push carries along what was placed from the part that moves."""
    places, parents = reached.places, reached.parents
    children: dict[Who, list[Who]] = {}
    for child, parent in parents.items():
        children.setdefault(parent, []).append(child)
    pairs = [
        (a, b, _face(a, through, SECOND, places), _face(b, through, FIRST, places))
        for through, path in lines.values()
        for a, b in pairwise(path)
    ]
    pushed = False
    for _ in range(8 * len(pairs)):
        clash = next(
            (
                (a, b, places[near] - places[far])
                for a, b, near, far in pairs
                if places[near] - places[far] > _TOUCHING_MM
            ),
            None,
        )
        if clash is None:
            break
        a, b, overlap = clash
        after_datum = places[_face(b, "", FIRST, places)] > 0 if (b, "", FIRST) in places else True
        first_gives = (
            b == datum
            or _comes_from(parents, a, b)
            or (not _comes_from(parents, b, a) and not after_datum and a != datum)
        )
        mover, by = (a, -overlap) if first_gives else (b, overlap)
        pushed = True
        _push(places, children, mover, by, datum)
    return pushed


def _push(places: dict[Node, float], children: Mapping[Who, list[Who]], mover: Who, by: float, datum: Who) -> None:
    moving, seen = [mover], {datum} - {mover}
    while moving:
        who = moving.pop()
        if who in seen:
            continue
        seen.add(who)
        for ring in _RINGS:
            for side in (FIRST, SECOND):
                if (who, ring, side) in places:
                    places[who, ring, side] += by
        moving += children.get(who, [])


def _comes_from(parents: Mapping[Who, Who], who: Who, ancestor: Who) -> bool:
    """Whether a thing was placed from another."""
    seen = set()
    while who in parents and who not in seen:
        seen.add(who)
        who = parents[who]
        if who == ancestor:
            return True
    return False
