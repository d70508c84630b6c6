"""Where everything stands along the axis: the faces of each part [mm], counted from the datum.

Parts that touch share a face, so positions follow from the lengths, along the chain of fewest parts: the same graph of
faces that tells distances (`stackcheck.mechanics.distance`). Two things are added, because a picture cannot leave a part
out: a length that nobody knows is assumed, and a gap is as wide as it was measured or as its limits suggest, each only
where no chain of known lengths leads on. Where such chains contradict one another (a spacer tube is missing and the hub
holds the bearings apart all the same) one part would lie in another; then the one farther from the datum gives way.
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
"""What stands there (its home, or the standing itself where it has none) and which piece of it, as the graph names it."""

NO_LENGTH, ACROSS_GAP, ASSUMED, UNKNOWN_GAP = 1_000, 10_000, 1_000_000, 100_000_000
"""What a step costs beside the 1 of a known length: a gap only where no lengths lead, an assumed length after that."""
_TOUCHING_MM = 0.005


class Standee(Value, kw_only=True):
    """One thing that stands there; `stacks` are those it lies in, `touches` whether its stacks have it between two others."""

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

    `assumed` holds those whose length nobody knows; `pushed` those that gave way.
    """

    standees: Mapping[Who, Standee]
    faces: Mapping[Who, tuple[float, float]]
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
    standees, paths, gaps = _standees(arrangement)
    steps, assumed = _steps(arrangement, standees, gaps, length_mm, gap_mm)
    datum_face = next(node for node in steps if node[0] == (datum, 0) and node[2] == FIRST) if (datum, 0) in standees else next(iter(steps))
    places, parents = _reached(steps, datum_face)
    for node in steps:
        if node not in places:
            at = usual.faces[node[0]][node[2] == SECOND] if usual is not None and node[0] in usual.faces else 0.0
            more, more_parents = _reached(steps, node)
            places |= {key: value + at for key, value in more.items()}
            parents |= more_parents
    faces = {who: _faces(places, who) for who in standees}
    assumed -= _share_room(faces, paths, {who: length_mm(standees[who].standing) for who in assumed})
    pushed = _give_way(faces, paths, parents, datum_face)
    return Line(standees=standees, faces=faces, gaps=tuple(gaps), paths=paths, assumed=frozenset(assumed), pushed=pushed)


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
    standees = {who: Standee(who=who, standing=standing, stacks=tuple(stacks[who])) for who, standing in standings.items()}
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
        if any(second in steps[first] for first in firsts for second in seconds):
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


def _reached(steps: Steps, start: Node) -> tuple[dict[Node, float], dict[Who, Who]]:
    """Where each face lies, and from which other thing each thing was reached first (Dijkstra 1959)."""
    tie = count()
    ahead: list[tuple[int, int, Node, float, Node | None]] = [(0, next(tie), start, 0.0, None)]
    places: dict[Node, float] = {}
    parents: dict[Who, Who] = {}
    while ahead:
        cost, _, node, position, before = heappop(ahead)
        if node in places:
            continue
        places[node] = position
        if before is not None and before[0] != node[0]:
            parents.setdefault(node[0], before[0])
        for other, (length, own) in steps[node].items():
            if other not in places:
                heappush(ahead, (cost + own, next(tie), other, position + length, node))
    return places, parents


def _faces(places: Mapping[Node, float], who: Who) -> tuple[float, float]:
    """The outermost faces of one thing; both rings of a bearing count."""
    sides = ("", "inner rings", "outer rings")
    first = min(places[who, ring, FIRST] for ring in sides if (who, ring, FIRST) in places)
    second = max(places[who, ring, SECOND] for ring in sides if (who, ring, SECOND) in places)
    return first, second


def _share_room(faces: dict[Who, tuple[float, float]], paths: Mapping[str, tuple[Who, ...]], assumed: Mapping[Who, float]) -> set[Who]:
    """Parts of unknown length between two faces whose place is known fill the room between them: springs, above all."""
    filling: set[Who] = set()
    for path in paths.values():
        run: list[Who] = []
        before: Who | None = None
        for who in path:
            if assumed.get(who):
                run.append(who)
                continue
            if run and before is not None:
                filling |= _spread(faces, run, {who: assumed[who] for who in run}, faces[before][1], faces[who][0])
            run, before = [], who
    return filling


def _spread(faces: dict[Who, tuple[float, float]], run: list[Who], wanted: Mapping[Who, float], start: float, end: float) -> set[Who]:
    share = (end - start) / sum(wanted.values())
    if share < 0.05:
        return set()
    for who in run:
        faces[who] = start, start + wanted[who] * share
        start = faces[who][1]
    return set(run)


def _give_way(
    faces: dict[Who, tuple[float, float]], paths: Mapping[str, tuple[Who, ...]], parents: Mapping[Who, Who], datum_face: Node
) -> bool:
    """Push apart what would lie one in the other; each push carries along what was placed from the part that moves."""
    children: dict[Who, list[Who]] = {}
    for child, parent in parents.items():
        children.setdefault(parent, []).append(child)
    pushed = False
    for _ in range(4 * len(faces)):
        clash = next(
            ((a, b) for path in paths.values() for a, b in pairwise(path) if faces[a][1] - faces[b][0] > _TOUCHING_MM), None
        )
        if clash is None:
            break
        a, b = clash
        overlap = faces[a][1] - faces[b][0]
        mover, by = (a, -overlap) if _comes_from(parents, a, b) or b == datum_face[0] else (b, overlap)
        if not _comes_from(parents, a, b) and not _comes_from(parents, b, a) and faces[b][1] <= 0 and b != datum_face[0]:
            mover, by = a, -overlap
        pushed = True
        moving, seen = [mover], {datum_face[0]} - {mover}
        while moving:
            who = moving.pop()
            if who in seen:
                continue
            seen.add(who)
            faces[who] = faces[who][0] + by, faces[who][1] + by
            moving += children.get(who, [])
    return pushed


def _comes_from(parents: Mapping[Who, Who], who: Who, ancestor: Who) -> bool:
    """Whether a thing was placed from another; the chain may have a loop where a part was reached by both its rings."""
    seen = set()
    while who in parents and who not in seen:
        seen.add(who)
        who = parents[who]
        if who == ancestor:
            return True
    return False
