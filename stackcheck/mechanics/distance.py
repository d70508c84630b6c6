"""The distance between any two faces, along the shortest chain of parts that touch.

Every place has a face to the first end and one to the second; neighbours in a stack share a face unless a gap stays
open between them. A bearing has the faces of both its rings; one passes from ring to ring at the mid plane of the
balls, or by the stand-out of the inner ring where that is given; of a taper bearing the width is known from back to
back. The chain is the one of fewest parts (Dijkstra 1959):
a dozen lines here instead of networkx, which takes longer to load than the whole comparison; a test holds them against
it.
"""

from __future__ import annotations

from collections import Counter
from heapq import heappop, heappush
from itertools import count, pairwise
from typing import NamedTuple

from stackcheck.mechanics.arrangement import Arrangement, Member, as_believed, as_wanted
from stackcheck.mechanics.faces import wide_end
from stackcheck.mechanics.lengths import Ruler
from stackcheck.mechanics.loops import over_both_backs, standout
from stackcheck.mechanics.sums import Lengths, Sum, length_of
from stackcheck.model.finding import Explanation, Standing
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace

FIRST, SECOND, MIDDLE = "first", "second", "middle"
_UNKNOWN_LENGTH = 1000
"""A part without a length stands in a chain only where no other chain exists."""

Node = tuple[tuple[object, int], str, str]
"""What stands there and which piece of it, the ring ("" for a solid part), and which face."""


class Edge(NamedTuple):
    """Two faces and the lengths from one to the other; `parts` says how many parts the step passes."""

    lengths: Lengths
    parts: int


Graph = dict[Node, dict[Node, Edge]]


def distance(
    reference: Reference,
    face_a: str,
    face_b: str,
    *,
    found: Found | None = None,
    explanation: Explanation | None = None,
) -> Sum:
    """How far face b lies from face a toward the second end [mm]; below zero where it lies toward the first.

    Args:
        face_a: a place with the name of an end ("leg@left/right"), or the bare place: the face that looks at the other.
        face_b: likewise.
        found, explanation: both, for the distance as found; neither, for that of the reference.
    Raises:
        ValueError: a place that the reference has not, or a face that is named after no end.
    """
    if found is None or explanation is None:
        return distance_in(as_wanted(reference), face_a, face_b).summed()
    return distance_in(as_believed(reference, found, explanation), face_a, face_b).summed()


def distance_in(arrangement: Arrangement, face_a: str, face_b: str) -> Lengths:
    a, b = faces(arrangement.reference, face_a, face_b)
    graph = face_graph(arrangement)
    chains = [
        chain
        for start in _nodes(graph, a)
        for end in _nodes(graph, b)
        if (chain := _chain(graph, start, end)) is not None
    ]
    if not chains:
        return Lengths(missing=(f"a chain of parts that touch from {face_a} to {face_b}",))
    _, path = min(chains, key=lambda chain: chain[0])
    lengths = Lengths()
    for here, there in pairwise(path):
        lengths += graph[here][there].lengths
    return lengths


def faces(reference: Reference, face_a: str, face_b: str) -> tuple[tuple[str, str], tuple[str, str]]:
    """Both faces as (place, "first" or "second")."""
    (place_a, side_a), (place_b, side_b) = _read(reference, face_a), _read(reference, face_b)
    a_lies_first = reference.line.index(place_a) <= reference.line.index(place_b)
    looking = (SECOND, FIRST) if a_lies_first and place_a != place_b else (FIRST, SECOND)
    return (place_a, side_a or looking[0]), (place_b, side_b or looking[1])


def _read(reference: Reference, face: str) -> tuple[str, str]:
    if reference.has_place(face):
        return face, ""
    place, _, end = face.rpartition("/")
    if not reference.has_place(place):
        raise ValueError(f'no place "{place or face}" in {reference.id}')
    if end not in reference.ends:
        raise ValueError(f'"{face}": the face is named after an end, {reference.ends[0]} or {reference.ends[1]}')
    return place, (FIRST, SECOND)[reference.ends.index(end)]


def _chain(graph: Graph, start: Node, end: Node) -> tuple[int, list[Node]] | None:
    """The chain of fewest parts, with their number; None where the two do not hang together."""
    tie = count()
    ahead: list[tuple[int, int, Node, Node | None]] = [(0, next(tie), start, None)]
    came_from: dict[Node, Node | None] = {}
    while ahead:
        parts, _, node, before = heappop(ahead)
        if node in came_from:
            continue
        came_from[node] = before
        if node == end:
            path = [node]
            while (node := came_from[node]) is not None:
                path.append(node)
            return parts, path[::-1]
        for neighbour, edge in graph[node].items():
            if neighbour not in came_from:
                heappush(ahead, (parts + edge.parts, next(tie), neighbour, node))
    return None


def _nodes(graph: Graph, face: tuple[str, str]) -> list[Node]:
    """The faces of a place, of either ring; a group of equal pieces ends with its first and its last."""
    nodes = [node for node in graph if node[0][0] == face[0] and node[2] == face[1]]
    piece = (min if face[1] == FIRST else max)((node[0][1] for node in nodes), default=0)
    return [node for node in nodes if node[0][1] == piece]


def face_graph(arrangement: Arrangement) -> Graph:
    """Every face of everything that stands there, with the steps from face to face; none across an open gap."""
    graph: Graph = {}
    for stack in arrangement.reference.stacks:
        before: Node | None = None
        seen: Counter = Counter()
        for item in arrangement.paths[stack.name]:
            if not isinstance(item, Member):
                before = None
                continue
            home = item.standing.home or item.standing
            who = home, seen[home]
            seen[home] += 1
            first, second = _add_body(graph, arrangement, item, who, stack.through)
            if before is not None:
                _join(graph, before, first, Lengths(), parts=0)
            before = second
    return graph


def _add_body(graph: Graph, arrangement: Arrangement, member: Member, who: tuple, through: str) -> tuple[Node, Node]:
    """Put one part of a stack into the graph; its two faces there."""
    ruler = arrangement.ruler
    is_bearing = _is_bearing(ruler, member.standing)
    ring = through if is_bearing else ""
    first, second, middle = (who, ring, FIRST), (who, ring, SECOND), (who, "", MIDDLE)
    for node in (first, second):
        graph.setdefault(node, {})
    lengths = length_of(ruler, member, through)
    if not (lengths.missing and _is_fixed(ruler, member.standing)):
        _join(graph, first, second, lengths, parts=_UNKNOWN_LENGTH if lengths.missing else 1)
    if not is_bearing:
        return first, second
    across = standout(arrangement, member.standing).toward_first
    if (over := over_both_backs(ruler, member.standing)) is not None:
        _join_backs(graph, ruler, member.standing, who, Lengths(terms=(over,)))
    elif not across.terms:
        _join(graph, first, middle, _half(lengths, through), parts=1)
        _join(graph, middle, second, _half(lengths, through), parts=1)
    elif through == "inner rings":
        _join(graph, first, (who, "outer rings", FIRST), across, parts=1)
    return first, second


def _join_backs(graph: Graph, ruler: Ruler, standing: Standing, who: tuple, over: Lengths) -> None:
    """The rings of a taper bearing: its width lies between their two backs, that of the outer one where small ends look."""
    looks = wide_end(ruler, standing)
    inner, outer = (who, "inner rings"), (who, "outer rings")
    if looks == "second":
        _join(graph, (*inner, FIRST), (*outer, SECOND), over, parts=1)
    elif looks == "first":
        _join(graph, (*outer, FIRST), (*inner, SECOND), over, parts=1)


def _half(lengths: Lengths, through: str) -> Lengths:
    what = f"half of the {through.removesuffix('s')}" if through else "half of it"
    return replace(
        lengths,
        terms=tuple(
            replace(term, name=f"{term.name}, {what}", interval=term.interval.times(0.5)) for term in lengths.terms
        ),
    )


def _join(graph: Graph, start: Node, end: Node, lengths: Lengths, *, parts: int) -> None:
    graph.setdefault(start, {})[end] = Edge(lengths, parts)
    graph.setdefault(end, {})[start] = Edge(-lengths, parts)


def _is_bearing(ruler: Ruler, standing: Standing) -> bool:
    return "bearing" in _kind(ruler, standing)


def _kind(ruler: Ruler, standing: Standing) -> str:
    """A different part is of the kind that its place wants."""
    part = ruler.part(standing)
    if part is None and standing.home is not None:
        part = ruler.reference.part_at(standing.home)
    return part.kind if part is not None else ""


def _is_fixed(ruler: Ruler, standing: Standing) -> bool:
    part = ruler.part(standing)
    return part is not None and part.fixed
