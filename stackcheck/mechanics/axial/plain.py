"""One small network in plain numbers: whole steps of Newton's method from where it is drawn.

With a dozen faces nearly all of a step in arrays goes into calling numpy; in plain numbers it takes a fraction of that.
What a few whole steps do not bring into balance is left to `newton`, which gets there from anywhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import isfinite

import numpy as np

from stackcheck.mechanics.axial.laws import AS_DRAWN, PLAIN, STIFFNESS, Element
from stackcheck.mechanics.axial.newton import PULL, known_to

FEW = 60
"""With more elements than these, arrays are quicker."""

STEPS = 12

Found = tuple[Iterable[str], list[float], list[float], float, int]


def balance(
    elements: Sequence[Element], fixed: Mapping[str, float], loads: Mapping[str, float], start: Mapping[str, float]
) -> Found | None:
    """The faces and where they are, the force of every element, the largest force out of balance and the steps.

    None for what is left to `newton`: more than a few elements or steps, many variants, values that it refuses.
    """
    if len(elements) > FEW:
        return None
    totals = [*[sum(each.values) for each in elements], *loads.values()]
    if np.ndarray in {*map(type, totals)} or not all(map(isfinite, totals)):
        return None
    number = {face: i for i, face in enumerate(fixed)}
    still, met = len(number), number.setdefault
    parts = [
        (met(each.a, len(number)), met(each.b, len(number)), each.law, [*map(float, each.values)]) for each in elements
    ]
    if any(min(values[STIFFNESS[law]]) <= 0 for _, _, law, values in parts):
        return None
    loaded = [(met(face, len(number)), float(load)) for face, load in loads.items()]
    drawn = [(a, b, AS_DRAWN.get(law, law), values) for a, b, law, values in parts]
    x, free = [start.get(face, 0.0) for face in number], range(still, len(number))
    largest_load = max([abs(load) for _, load in loaded], default=0.0)
    for steps in range(STEPS):
        told = [(a, b, *law(x[b] - x[a], *values, PLAIN)) for a, b, law, values in (parts if steps else drawn)]
        gradient = [0.0] * len(x)
        for face, load in loaded:
            gradient[face] -= load
        for a, b, force, _ in told:
            gradient[a] -= force
            gradient[b] += force
        gradient[:still] = [0.0] * still
        stiffest = max([1.0, *[slope for _, _, _, slope in told]])
        if steps or not free:
            forces = [force for _, _, force, _ in told]
            out = max(map(abs, gradient), default=0.0)
            least = known_to(max([largest_load, *map(abs, forces)]), stiffest, max(map(abs, x), default=0.0))
            if out <= least:
                return number, x, [force if abs(force) > least else 0.0 for force in forces], out, steps
        diagonal, beyond = [PULL / len(free) ** 2 * stiffest] * len(x), [{} for _ in x]
        for a, b, _, slope in told:
            if slope:
                diagonal[a] += slope
                diagonal[b] += slope
                if a >= still <= b:
                    row, column = (beyond[a], b) if a < b else (beyond[b], a)
                    row[column] = row.get(column, 0.0) - slope
        if not _solved(free, diagonal, beyond, gradient):
            return None
        x = [at - moved for at, moved in zip(x, gradient)]
    return None


def _solved(rows: range, diagonal: list[float], beyond: Sequence[dict[int, float]], right: list[float]) -> bool:
    """Put the solution of a symmetric system where its right side stands;
    `beyond` is what stands in each row after its diagonal.

    Elimination row by row: faces follow one another along the axis, so that few entries come in on the way.
    """
    for i in rows:
        own, wanted, entries = diagonal[i], right[i], beyond[i].items()
        if not own > 0:
            return False  # the pull is so small that round-off has eaten it
        for j, entry in entries:
            share = entry / own
            right[j] -= share * wanted
            diagonal[j] -= share * entry
            for k, other in entries:
                if k > j:
                    beyond[j][k] = beyond[j].get(k, 0.0) - share * other
    for i in reversed(rows):
        for j, entry in beyond[i].items():
            right[i] -= entry * right[j]
        right[i] /= diagonal[i]
    return True
