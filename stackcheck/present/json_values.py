"""Lengths as JSON shows them."""

from __future__ import annotations

from stackcheck.mechanics.lengths import Interval

DIGITS = 6
"""Lengths in JSON are rounded to a nanometre: far below any measurement, above the noise of sums."""


def rounded_mm(value: float | None) -> float | None:
    return None if value is None else round(value, DIGITS) + 0.0


def interval(value: Interval | None) -> dict[str, float] | None:
    if value is None:
        return None
    return {
        "nominal": rounded_mm(value.nominal_mm),
        "least": rounded_mm(value.least_mm),
        "most": rounded_mm(value.most_mm),
    }
