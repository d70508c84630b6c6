"""Where labels stand and how their leaders run, so that no two labels overlap and no two leaders cross.

Each leader goes straight out from its point to a common line, then leans to its label. The straight pieces are parallel
and stand apart; the leaning ones join two parallel lines in the same sequence on both: neither can cross. Labels are
set as near to their points as the others allow: least squares with a least distance between neighbours, by pooling
neighbours that press on each other (pool adjacent violators: Ayer and others 1955).
"""

from __future__ import annotations

from bisect import bisect, insort
from collections.abc import Callable, Sequence
from itertools import pairwise

from stackcheck.drawing.picture import Label
from stackcheck.value import Value

_CANDIDATES = (0.5, 0.32, 0.68, 0.18, 0.82, 0.08, 0.92)
_APART, _LEAST_APART = 0.9, 0.12


class Set(Value, kw_only=True):
    """A label where it stands: `anchor` is the point of its leader along the paper, `middle` that of the label."""

    label: Label
    anchor: float
    middle: float
    width: float


def placed(
    labels: Sequence[Label],
    *,
    x: Callable[[float], float],
    width: Callable[[Label], float],
    covered: Callable[[Label, float], int],
    left: float,
    right: float,
) -> tuple[tuple[Set, ...], int]:
    """The labels of one half from left to right, and how many were left out for want of room.

    `covered` counts the outlines that a leader from a point would run over. Least needed go first: numbers of parts
    that agree, where they stand closest.
    """
    anchored = _anchored(labels, x, covered)
    widths = {id(label): width(label) for label, _ in anchored}
    room = right - left
    kept = _with_room(anchored, widths, room)
    dropped, anchored = len(anchored) - len(kept), kept
    middles = _spread([anchor for _, anchor in anchored], [widths[id(label)] for label, _ in anchored], left, right)
    return (
        tuple(
            Set(label=label, anchor=anchor, middle=middle, width=widths[id(label)])
            for (label, anchor), middle in zip(anchored, middles)
        ),
        dropped,
    )


def _anchored(
    labels: Sequence[Label], x: Callable[[float], float], covered: Callable[[Label, float], int]
) -> list[tuple[Label, float]]:
    """A point for every leader: narrow parts choose first, each where it is seen best and none stands already."""
    taken: list[float] = []
    chosen: list[tuple[Label, float]] = []
    for label in sorted(labels, key=lambda each: each.second_mm - each.first_mm):
        start, end = x(label.first_mm), x(label.second_mm)
        spots = [(start + share * (end - start), 0.8 * abs(share - 0.5)) for share in _CANDIDATES]
        prices = [
            (10 * max(0.0, _APART - _nearest(taken, spot)) + covered(label, spot) + aside, spot)
            for spot, aside in spots
        ]
        anchor = min(prices, key=lambda each: each[0])[1]
        while _nearest(taken, anchor) < _LEAST_APART:
            anchor += 1.2 * _LEAST_APART
        insort(taken, anchor)
        chosen.append((label, anchor))
    return sorted(chosen, key=lambda each: each[1])


def _nearest(taken: Sequence[float], spot: float) -> float:
    """How far the nearest of the points is that are taken already."""
    at = bisect(taken, spot)
    return min((abs(spot - other) for other in taken[max(0, at - 1) : at + 1]), default=_APART)


def _with_room(anchored: list[tuple[Label, float]], widths: dict[int, float], room: float) -> list[tuple[Label, float]]:
    """As many as there is room for: of the least needed those go first that stand closest to the one before."""
    kept = list(anchored)
    while len(kept) > 1 and (over := sum(widths[id(label)] for label, _ in kept) - room) > 0:
        worst = max(label.rank for label, _ in kept)
        crowd = sorted(
            (kept[i][1] - kept[i - 1][1] if i else _APART, i) for i in range(len(kept)) if kept[i][0].rank == worst
        )
        gone: set[int] = set()
        for _, index in crowd:
            if over <= 0:
                break
            if index - 1 not in gone and index + 1 not in gone:  # in one round never two neighbours
                gone.add(index)
                over -= widths[id(kept[index][0])]
        kept = [each for index, each in enumerate(kept) if index not in gone]
    return kept


def _spread(anchors: Sequence[float], widths: Sequence[float], left: float, right: float) -> list[float]:
    offsets = [0.0]
    for a, b in pairwise(widths):
        offsets.append(offsets[-1] + (a + b) / 2)
    pools: list[list[float]] = []  # sum of the targets, how many
    for anchor, offset in zip(anchors, offsets):
        pools.append([anchor - offset, 1])
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            total, size = pools.pop()
            pools[-1][0] += total
            pools[-1][1] += size
    starts = [total / size for total, size in pools for _ in range(int(size))]
    if not starts:
        return []
    low, high = left + widths[0] / 2, right - widths[-1] / 2 - offsets[-1]
    return [min(max(start, low), max(high, low)) + offset for start, offset in zip(starts, offsets)]
