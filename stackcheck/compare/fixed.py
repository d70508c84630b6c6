"""Where the members that never came off stand in the line of an explanation.

Nobody takes a leg off, so the list does not say on which side of it a moved part was; the findings do. A leg washer
that was swapped with the lock nut outside the leg stands outside the leg.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.compare.replay import rebuilt, replay
from stackcheck.compare.sameness import same_arrangement
from stackcheck.compare.spots import Spots, lies_before
from stackcheck.model.finding import Explanation, Standing
from stackcheck.model.found import Found
from stackcheck.value import replace


def seated(spots: Spots, found: Found, explanation: Explanation) -> tuple[Explanation, bool]:
    """The explanation with its unmarked fixed members where its findings put them,
    and whether the witness confirms it.
    """
    reference = spots.reference
    for put in rebuilt(reference, explanation, found, spots=spots):
        if same_arrangement(reference, put, explanation.line, spots=spots):
            return explanation, True
        line = _seated_line(spots, explanation.line, [standing.home for standing in put if standing.home])
        seen = replace(explanation, line=line)
        if same_arrangement(reference, put, line, spots=spots) and same_arrangement(
            reference, replay(reference, seen, found, spots=spots), line, spots=spots
        ):
            return seen, True
    return explanation, False


def _seated_line(spots: Spots, line: Sequence[Standing], put: Sequence[str]) -> tuple[Standing, ...]:
    """Each unmarked member behind the last place that the reference orders to it and the findings leave nearer."""
    reference = spots.reference
    unmarked = {
        s.home
        for s in line
        if s.entry is None and s.home and reference.has_place(s.home) and reference.part_at(s.home).fixed
    }
    result = [standing for standing in line if standing.home not in unmarked]
    for home in (home for home in put if home in unmarked):
        group = spots.home(home)
        nearer = {
            other for other in put[: put.index(home)]
            if lies_before(spots.home(other), group) or lies_before(group, spots.home(other))
        }  # fmt: skip
        spot = max((i + 1 for i, standing in enumerate(result) if standing.home in nearer), default=0)
        result.insert(spot, next(standing for standing in line if standing.home == home))
    return tuple(result)
