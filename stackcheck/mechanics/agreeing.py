"""Whether several readings agree with one another, and whether each lies within limits.

A difference between two readings is one of three things: the two places differ, the gauges differ, or neither reads any
better than that. One gauge for both leaves its own deviation out. Two gauges that were compared (`mechanics.gauges`)
have their difference taken off first; two that were not can differ by what both are good to. Where nobody says, nothing
can be told.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import hypot

from stackcheck.mechanics.gauges import AGREES, CANNOT_TELL, DIFFERS, GaugeComparison, judged
from stackcheck.model.points import PointReading
from stackcheck.value import Value

ONE_GAUGE, COMPARED, GOOD_TO, NOT_SAID, NOT_COMPARED, TOO_FEW_ROUNDS = (
    "read with one gauge",
    "read with two gauges that were compared",
    "read with gauges that were not compared, each taken for what it is good to",
    "which gauge read them is not said",
    "read with gauges that were not compared, and nothing says what they are good to",
    "read with two gauges compared in one round only",
)
"""By what two readings are held against each other, or why they cannot be."""


class Agreement(Value, kw_only=True):
    """The two of several readings that decide: `difference` is the first less the second, less `gauges_differ`.

    `first` and `second` count from 0. `good_to` is None where `by` says why nothing can be told.
    """

    verdict: str
    first: int
    second: int
    difference: float
    gauges_differ: float
    good_to: float | None
    by: str


def agreement(
    readings: Sequence[PointReading], limit: float, comparisons: Sequence[GaugeComparison] = ()
) -> Agreement | None:
    """Whether all readings lie within `limit` of one another; None for fewer than two.

    The pair that decides is one that differs, else one that cannot be told, else the one farthest apart.
    """
    pairs = [
        _of_two(readings, first, second, limit, comparisons) for first, second in combinations(range(len(readings)), 2)
    ]
    weight = {DIFFERS: 2, CANNOT_TELL: 1, AGREES: 0}
    return max(pairs, key=lambda pair: (weight[pair.verdict], abs(pair.difference)), default=None)


def _of_two(
    readings: Sequence[PointReading], first: int, second: int, limit: float, comparisons: Sequence[GaugeComparison]
) -> Agreement:
    one, other = readings[first], readings[second]
    gauges_differ, good_to, by = _gauges_between(one, other, comparisons)
    difference = one.value - other.value - gauges_differ
    return Agreement(
        verdict=judged(difference, good_to, limit),
        first=first, second=second, difference=difference, gauges_differ=gauges_differ, good_to=good_to, by=by,
    )  # fmt: skip


def _gauges_between(
    one: PointReading, other: PointReading, comparisons: Sequence[GaugeComparison]
) -> tuple[float, float | None, str]:
    """(how much more the first gauge reads, what a difference of readings is good to, by what that is known).

    Source: JCGM 100:2008, 5.1.2 (independent), 5.2.2 (what two readings share drops out of their difference).
    """
    if one.gauge and one.gauge == other.gauge:
        return 0.0, hypot(one.repeats_to, other.repeats_to), ONE_GAUGE
    between = next((found for each in comparisons if (found := each.between(one.gauge, other.gauge)) is not None), None)
    if between is not None and between.once_good_to is not None:
        return between.difference, between.once_good_to, COMPARED
    if one.good_to is not None and other.good_to is not None:
        return 0.0, hypot(one.good_to, other.good_to), GOOD_TO
    if between is not None:
        return between.difference, None, TOO_FEW_ROUNDS
    return 0.0, None, NOT_COMPARED if one.gauge and other.gauge else NOT_SAID


def within(reading: PointReading, least: float, most: float) -> str:
    """Whether a reading lies within limits, whatever it is within what it is good to."""
    if reading.good_to is None:
        return CANNOT_TELL
    return judged(reading.value - (least + most) / 2, reading.good_to, (most - least) / 2)
