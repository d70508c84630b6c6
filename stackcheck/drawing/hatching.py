"""Which of four ways each part is hatched: one way for one part, another for its neighbours."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations, pairwise

from stackcheck.drawing.figure import Figure
from stackcheck.drawing.positions import Line, Who
from stackcheck.model.reference import Reference

WAYS = 4


def hatches(reference: Reference, line: Line, figures: Mapping[Who, Figure]) -> dict[object, int]:
    """Home -> way; neighbours along a stack and around one another differ where four ways allow it."""
    beside: dict[object, set[object]] = {who[0]: set() for who in figures}
    for path in line.paths.values():
        for a, b in pairwise(path):
            beside[a[0]].add(b[0])
            beside[b[0]].add(a[0])
    around = sorted((figure for figure in figures.values() if figure.reach_mm), key=lambda figure: figure.first_mm)
    for a, b in combinations(around, 2):
        beside[a.who[0]].add(b.who[0])
        beside[b.who[0]].add(a.who[0])
    ways: dict[object, int] = {}
    for home in sorted(
        beside, key=lambda each: reference.line.index(each) if each in reference.line else len(reference.line)
    ):
        taken = {ways[other] for other in beside[home] if other in ways}
        ways[home] = next((way for way in range(WAYS) if way not in taken), 0)
    return ways
