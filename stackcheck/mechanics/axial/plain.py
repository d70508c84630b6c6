"""One small network in plain numbers: whole steps of Newton's method from where it is drawn.

With a dozen faces nearly all of a step in arrays goes into calling numpy; in plain numbers it takes a fraction of that.
Nearly all elements are springs, so that their law is written out here once more; the others are asked theirs.
What a few whole steps do not bring into balance is left to `newton`, which gets there from anywhere.

An element that carries nothing resists a change of its length by a trace, so that what is loose keeps its distances and
every step has one answer. In the first step a bearing drawn inside its play is drawn to the middle of that by the same
trace: a hub that floats between two of them comes to where both carry alike, or neither.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Mapping, Sequence
from itertools import chain
from math import inf, isfinite
from operator import sub

import numpy as np

from stackcheck.mechanics.axial.lapack import dposv
from stackcheck.mechanics.axial.laws import DRAWN_TOUCHING_MM, PLAIN, STIFFNESS, TOUCHING_MM, Element, spring
from stackcheck.mechanics.axial.newton import PULL, known_to

FEW = 60
"""With more elements than these, arrays are quicker."""

STEPS = 16

Found = tuple[Mapping[str, int], list[float], list[float], float, int]


def balance(
    elements: Sequence[Element], fixed: Mapping[str, float], loads: Mapping[str, object], start: Mapping[str, float]
) -> Found | None:
    """The faces, numbered, and where they are, the force of every element, the largest force out of balance
    and the steps.

    None for what is left to `newton`: more than a few elements or steps, many variants, values that it refuses.
    """
    if len(elements) > FEW:
        return None
    total = sum(chain(*[each.values for each in elements], loads.values()))
    if isinstance(total, np.ndarray) or not isfinite(total):
        return None
    number = {face: i for i, face in enumerate(fixed)}
    still, met = len(number), number.setdefault
    ends = [(met(each.a, len(number)), met(each.b, len(number))) for each in elements]
    springs = [(i, *ends[i], *each.values) for i, each in enumerate(elements) if each.law is spring]
    others = [(i, *ends[i], each.law, each.values) for i, each in enumerate(elements) if each.law is not spring]
    loaded = [(met(face, len(number)), float(load)) for face, load in loads.items()]
    softest = min([k for _, _, _, _, k, _, _ in springs], default=1.0)
    if min([softest, *[min(own[STIFFNESS[law]]) for *_, law, own in others]]) <= 0:
        return None
    x = [start.get(face, 0.0) for face in number]
    forces, slopes, free = [0.0] * len(ends), [0.0] * len(ends), len(x) - still
    for steps in range(STEPS):
        is_first = steps == 0 < free
        near = DRAWN_TOUCHING_MM if is_first else TOUCHING_MM
        gradient = [0.0] * len(x)
        for face, load in loaded:
            gradient[face] = -load
        for i, a, b, length, k, least, most in springs:
            force, slope = k * (x[b] - x[a] - length), k
            if not least <= force <= most:
                end = least if force < least else most
                touches = abs(force - end) < k * near
                force, slope = force if touches and is_first else end, k if touches else 0.0
            forces[i], slopes[i] = force, slope
            gradient[a] -= force
            gradient[b] += force
        for i, a, b, law, own in others:
            forces[i], slopes[i] = force, _ = law(x[b] - x[a], *own, PLAIN)
            gradient[a] -= force
            gradient[b] += force
        stiffest = max(1.0, *slopes)
        if not is_first:
            out = _largest(gradient[still:])
            known = known_to(_largest([*forces, *[load for _, load in loaded]]), stiffest, _largest(x))
            if out <= known:
                return number, x, [force if abs(force) > known else 0.0 for force in forces], out, steps
        pull = PULL / free**2 * stiffest
        for i, a, b, _, own in others if is_first else ():
            if not slopes[i]:
                force = pull * (x[b] - x[a] - own[0])
                gradient[a] -= force
                gradient[b] += force
        moved = _solved(ends, [slope or pull for slope in slopes], still, gradient)
        if not moved:
            return None
        x = [*map(sub, x, moved)]
    return None


def _largest(values: Iterable[float]) -> float:
    """The largest, whatever its sign."""
    return max(map(abs, values), default=0.0)


def _solved(ends: Sequence[tuple[int, int]], k: Sequence[float], still: int, right: Sequence[float]) -> list[float]:
    """The solution of the system Σ k v vᵀ x = right, each v a pair of faces, b less a; empty where round-off has eaten it.

    The first `still` faces are held as by an endless stiffness.
    """
    size = len(right)
    diagonal, matrix = [inf] * still + [0.0] * (size - still), array("d", bytes(8 * size * size))
    for (a, b), stiff in zip(ends, k):
        diagonal[a] += stiff
        diagonal[b] += stiff
        matrix[a * size + b if a > b else b * size + a] -= stiff
    matrix[:: size + 1] = array("d", diagonal)
    _, solution, failed = dposv(np.frombuffer(matrix).reshape(size, size).T, right, overwrite_a=True)
    return [] if failed else solution.tolist()
