"""Where the faces may lie when nothing holds them: a range, never a number.

The forces of a state are unique, positions are not: an open joint, a slack axle, a bearing inside its play carry the
same force (none) all along a stretch. Every element keeps its e inside that stretch; the least and the greatest
position of a face are then shortest paths over these limits (difference constraints: Bellman 1958; with the state as
potential, Dijkstra 1959). End float is the same question asked of the member that moves.
"""

from __future__ import annotations

from heapq import heappop, heappush
from itertools import count
from math import inf, isfinite

from stackcheck.mechanics.axial.laws import free_stretch
from stackcheck.mechanics.axial.network import Network, State


def reach(network: Network, state: State, face: str, *, from_face: str | None = None) -> tuple[float, float]:
    """The least and the greatest position of a face [mm], all forces staying what they are.

    Args:
        from_face: seen from this face instead of from what stands still.
    Returns:
        (least, greatest); infinite where nothing stops it. For the first variant of the state.
    """
    x = {name: float(values[0]) for name, values in state.positions.items()}
    sources = [from_face] if from_face is not None else list(network.fixed)
    up: dict[str, list[tuple[str, float]]] = {name: [] for name in x}
    down: dict[str, list[tuple[str, float]]] = {name: [] for name in x}
    for element in network.elements:
        e = x[element.b] - x[element.a]
        low, high = free_stretch(element, e)
        more, less = max(high - e, 0.0), max(e - low, 0.0)
        # b may move away from a by `more`, toward it by `less`; and a the other way round.
        for moves, ahead, back in ((up, more, less), (down, less, more)):
            if isfinite(ahead):
                moves[element.a].append((element.b, ahead))
            if isfinite(back):
                moves[element.b].append((element.a, back))
    if from_face is None:
        for moves in (up, down):
            for one in sources:
                moves[one] += [(other, 0.0) for other in sources if other != one]
    base = 0.0 if from_face is None else x[from_face]
    return x[face] - base - _shortest(down, sources, face), x[face] - base + _shortest(up, sources, face)


def _shortest(moves: dict[str, list[tuple[str, float]]], sources: list[str], goal: str) -> float:
    tie = count()
    ahead = [(0.0, next(tie), source) for source in sources]
    done: set[str] = set()
    while ahead:
        far, _, face = heappop(ahead)
        if face == goal:
            return far
        if face not in done:
            done.add(face)
            for other, step in moves[face]:
                if other not in done:
                    heappush(ahead, (far + step, next(tie), other))
    return inf
