"""One small network in plain numbers: whole steps of Newton's method from where it is drawn.

With a dozen faces nearly all of a step in arrays goes into calling numpy; in plain numbers it takes a fraction of that.
Nearly all elements are springs, so that their law is written out here once more; the others are asked theirs.
What a few whole steps do not bring into balance is left to `newton`, which gets there from anywhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import chain
from math import isfinite

from stackcheck.mechanics.axial.laws import DRAWN_TOUCHING_MM, PLAIN, STIFFNESS, TOUCHING_MM, Element, spring
from stackcheck.mechanics.axial.newton import PULL, known_to, variants_among

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
    if variants_among([*chain.from_iterable([each.values for each in elements]), *loads.values()]):
        return None
    number = {face: i for i, face in enumerate(fixed)}
    still, met = len(number), number.setdefault
    ends = [(met(each.a, len(number)), met(each.b, len(number))) for each in elements]
    values = [[*map(float, each.values)] for each in elements]
    loaded = [(met(face, len(number)), float(load)) for face, load in loads.items()]
    if not isfinite(sum([*map(sum, values), *[load for _, load in loaded]])):
        return None
    springs = [(i, *ends[i], *values[i]) for i, each in enumerate(elements) if each.law is spring]
    others = [(i, *ends[i], each.law, values[i]) for i, each in enumerate(elements) if each.law is not spring]
    if any(k <= 0 for _, _, _, _, k, _, _ in springs) or any(min(own[STIFFNESS[law]]) <= 0 for *_, law, own in others):
        return None
    largest_load = max([abs(load) for _, load in loaded], default=0.0)
    x, free = [start.get(face, 0.0) for face in number], range(still, len(number))
    forces, slopes = [0.0] * len(ends), [0.0] * len(ends)
    for steps in range(STEPS):
        is_first = steps == 0 < len(free)
        near = DRAWN_TOUCHING_MM if is_first else TOUCHING_MM
        for i, a, b, length, k, least, most in springs:
            straight = k * (x[b] - x[a] - length)
            force = straight if least <= straight <= most else least if straight < least else most
            touches = abs(straight - force) < k * near
            forces[i], slopes[i] = straight if touches and is_first else force, k if touches else 0.0
        for i, a, b, law, own in others:
            forces[i], slopes[i] = law(x[b] - x[a], *own, PLAIN)
        gradient = [0.0] * len(x)
        for face, load in loaded:
            gradient[face] = -load
        for (a, b), force in zip(ends, forces):
            gradient[a] -= force
            gradient[b] += force
        gradient[:still] = [0.0] * still
        stiffest = max([1.0, *slopes])
        if not is_first:
            out = _largest(gradient)
            known = known_to(max(largest_load, _largest(forces)), stiffest, _largest(x))
            if out <= known:
                return number, x, [force if abs(force) > known else 0.0 for force in forces], out, steps
        diagonal, beyond = [PULL / len(free) ** 2 * stiffest] * len(x), [{} for _ in x]
        for (a, b), slope in zip(ends, slopes):
            if slope:
                diagonal[a] += slope
                diagonal[b] += slope
                # In the row of a face that stands still nobody reads it.
                row, column = (beyond[a], b) if a < b else (beyond[b], a)
                row[column] = row.get(column, 0.0) - slope
        if not _solved(free, diagonal, beyond, gradient):
            return None
        x = [at - moved for at, moved in zip(x, gradient)]
    return None


def _largest(values: Sequence[float]) -> float:
    """The largest, whatever its sign."""
    return max(max(values), -min(values)) if values else 0.0


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
