"""Does a measured length agree with the limits of a drawing, as far as the measuring can tell?

The true length lies in reading ± good to (coverage factor 2, JCGM 100:2008). Deciding only where that whole interval
lies on one side of a limit is the decision rule with guard bands of ISO 14253-1. "gross" is our own judgement (no
source).
"""

from __future__ import annotations

from stackcheck.model.part import Reading, Size

GROSS_SHARE_OF_NOMINAL = 0.05
GROSS_LIMIT_WIDTHS = 3.0
TOUCHING_MM = 1e-9  # so that 22.05 - 0.02 touches a limit of 22.03 in binary arithmetic too


def size_verdict(reading: Reading, size: Size) -> str:
    """One of "in", "close", "out", "gross", "no limits".

    in: inside both limits by what the reading is good to, or more. close: a limit lies within what it is good to, so
    nobody can tell. out: beyond a limit by more than that. gross: out, and too far for wear.

    >>> from stackcheck.model.part import Reading, Size
    >>> collar = Size(text="22 mm ±0.05", nominal_mm=22.0, least_mm=21.95, most_mm=22.05)
    >>> [size_verdict(Reading(text="", value_mm=v, good_to_mm=0.02), collar) for v in (22.0, 22.04, 22.3, 18.0)]
    ['in', 'close', 'out', 'gross']
    """
    if size.least_mm is None and size.most_mm is None:
        return "no limits"
    room = min(
        reading.value_mm - size.least_mm if size.least_mm is not None else float("inf"),
        size.most_mm - reading.value_mm if size.most_mm is not None else float("inf"),
    )
    if room >= reading.good_to_mm - TOUCHING_MM:
        return "in"
    if -room <= reading.good_to_mm + TOUCHING_MM:
        return "close"
    width = size.most_mm - size.least_mm if size.has_limits else 0.0
    far = max(GROSS_SHARE_OF_NOMINAL * abs(size.nominal_mm), GROSS_LIMIT_WIDTHS * width)
    return "gross" if -room > 2 * reading.good_to_mm and -room > far else "out"


def miss_mm(reading: Reading, size: Size) -> float:
    """How far the reading lies beyond the nearer limit [mm]: above it positive, below it negative, 0 inside."""
    if size.least_mm is not None and reading.value_mm < size.least_mm:
        return reading.value_mm - size.least_mm
    if size.most_mm is not None and reading.value_mm > size.most_mm:
        return reading.value_mm - size.most_mm
    return 0.0
