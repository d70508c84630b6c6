"""The steps of a sweep: round figures where both ends fall on them, so that a torque that somebody sets is a row."""

from __future__ import annotations

from math import floor, log10

STEPS = 7
FEWEST, MOST = 5, 9
ROUND = (1.0, 2.0, 2.5, 5.0)


def sweep_steps(least: float, most: float) -> tuple[float, ...]:
    """Five to nine even steps of 1, 2, 2.5 or 5 times a power of ten, as near to seven as may be;
    seven even ones where no such step meets both ends.

    >>> sweep_steps(60, 200)
    (60.0, 80.0, 100.0, 120.0, 140.0, 160.0, 180.0, 200.0)
    >>> [round(each, 1) for each in sweep_steps(0, 80)]
    [0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0]
    >>> [round(each, 1) for each in sweep_steps(7, 13.3)]
    [7.0, 8.1, 9.1, 10.2, 11.2, 12.2, 13.3]
    """
    decade = 10.0 ** floor(log10(most - least))
    widths = [factor * power for power in (decade / 10, decade) for factor in ROUND]
    counts = [
        round((most - least) / width) + 1 for width in widths if all(_is_whole(end / width) for end in (least, most))
    ]
    count = min((each for each in counts if FEWEST <= each <= MOST), key=lambda each: abs(each - STEPS), default=STEPS)
    return tuple(float(least + (most - least) * i / (count - 1)) for i in range(count))


def _is_whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6
