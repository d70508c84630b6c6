"""When two lines are one arrangement: every pair that the reference orders stands in the same sequence in both.

Which of two equal parts is which makes no difference, nor where what is over lies between parts that belong.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import attrgetter, eq

from stackcheck.compare.spots import Spots, lies_before
from stackcheck.model.finding import Standing
from stackcheck.model.reference import Reference
from stackcheck.value import replace

_WITHOUT_ENTRY = attrgetter("home", "part", "count", "turned")


def same_arrangement(
    reference: Reference, a: Sequence[Standing], b: Sequence[Standing], *, spots: Spots | None = None
) -> bool:
    """Whether every pair that the reference orders stands in the same sequence in both, the same parts the same way."""
    if _are_alike(a, b):
        return True
    a, b = _without_equal_ends(a, b)
    if not a and not b:
        return True
    if spots is None:
        spots = Spots(
            reference, frozenset(unit.id for unit in reference.units if any(s.home == unit.id for s in (*a, *b)))
        )
    return _seen(spots, a) == _seen(spots, b)


def _are_alike(a: Sequence[Standing], b: Sequence[Standing]) -> bool:
    """Whether the same stands in places, in the same sequence, and the same is over;
    which entry a thing was is not compared.
    """
    inside = [[s for s in line if s.home is not None] for line in (a, b)]
    over = [sorted([(s.part or "", s.count, s.turned) for s in line if s.home is None]) for line in (a, b)]
    may_be = over[0] == over[1] and len(inside[0]) == len(inside[1])
    return may_be and all(map(eq, *[map(_WITHOUT_ENTRY, line) for line in inside]))


def _without_equal_ends(a: Sequence[Standing], b: Sequence[Standing]) -> tuple[list[Standing], list[Standing]]:
    """What differs between an equal head and an equal tail; which entry a thing was is not compared."""
    first, second = ([replace(standing, entry=None) for standing in line] for line in (a, b))
    head = 0
    while head < min(len(first), len(second)) and first[head] == second[head]:
        head += 1
    tail = 0
    while tail < min(len(first), len(second)) - head and first[-1 - tail] == second[-1 - tail]:
        tail += 1
    return first[head : len(first) - tail], second[head : len(second) - tail]


def _seen(spots: Spots, line: Sequence[Standing]) -> tuple:
    """What does not depend on the line chosen, nor on which of two equal parts is which."""
    inside: dict[tuple, int] = {}
    over: dict[tuple, int] = {}
    for standing in line:
        key = (standing.part, standing.turned)
        if standing.home is None:
            over[key] = over.get(key, 0) + standing.count
    ordered = [(standing, spots.home(standing.home)) for standing in line if standing.home is not None]
    seats = []
    for standing, home in ordered:
        key = (home.index, standing.part, standing.turned)
        inside[key] = inside.get(key, 0) + standing.count
        seats.append((key, home))
    pairs = set()
    nearest = _least_from_here(tuple([home.low for _, home in seats]))
    for i, (key, home) in enumerate(seats):
        for j in range(i + 1, len(seats)):
            if not any(low <= rank for low, rank in zip(nearest[j], home.rank)):
                break  # nothing from here on belongs before it
            other, its_home = seats[j]
            if home is not its_home and lies_before(its_home, home):
                pairs.add((key[0], other[0]))
    return inside, over, frozenset(pairs)


def _least_from_here(rows: Sequence[tuple[int, ...]]) -> list[tuple[int, ...]]:
    """For each row the least of every column from there to the end, so that a look ahead can stop early.

    >>> _least_from_here([(1, 9), (4, 2), (3, 5)])
    [(1, 2), (3, 2), (3, 5)]
    """
    least: list[tuple[int, ...]] = []
    for row in reversed(rows):
        least.append(tuple(map(min, row, least[-1])) if least else row)
    return least[::-1]
