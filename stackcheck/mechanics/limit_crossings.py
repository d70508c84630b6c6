"""Where along a sweep a force comes to keep a limit, or ceases to.

A sweep is known at its steps; between two of them every end of a force is taken as a straight line, so that a crossing is
good to a small part of a step and is told as "about".
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, pairwise

from stackcheck.mechanics.force_limits import Told, judged, told_of
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.limits import ForceLimit
from stackcheck.value import Value

PARTS = 40
"""Into how many parts the way between two steps is cut."""


class Stretch(Value, kw_only=True):
    """Part of a sweep with one verdict, from `start` to `end` in the unit of the steps."""

    verdict: str
    start: float
    end: float


def stretches(limit: ForceLimit, at: Sequence[float], steps: Sequence[JointForces]) -> tuple[Stretch, ...]:
    """The verdicts on one limit along a sweep; `at` is where its steps are, rising."""
    told = [told_of(limit, forces) for forces in steps]
    verdicts = [(at[0], judged(limit, told[0]).verdict)]
    for (start, own), (end, then) in pairwise(zip(at, told)):
        for part in range(1, PARTS + 1):
            share = part / PARTS
            between = then if part == PARTS else _between(own, then, share)
            verdicts.append((start + share * (end - start), judged(limit, between).verdict))
    found: list[Stretch] = []
    for verdict, run in groupby(verdicts, key=lambda each: each[1]):
        places = [place for place, _ in run]
        start = (found[-1].end + places[0]) / 2 if found else places[0]
        if found:
            found[-1] = Stretch(verdict=found[-1].verdict, start=found[-1].start, end=start)
        found.append(Stretch(verdict=verdict, start=start, end=places[-1]))
    return tuple(found)


def _between(own: Told, then: Told, share: float) -> Told:
    """What is told part of the way from one step to the next; where one of them tells nothing, nothing is."""
    if None in (*own.ways, *then.ways) or len(own.ways) != len(then.ways):
        return own if share < 0.5 else then
    ways = tuple(
        Spanned(**{end: (1 - share) * getattr(a, end) + share * getattr(b, end) for end in ("usual", "least", "most")})
        for a, b in zip(own.ways, then.ways)
    )
    return Told(ways=ways, beyond_n=own.beyond_n, needs=own.needs)
