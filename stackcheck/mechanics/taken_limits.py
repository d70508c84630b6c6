"""What a length may be off where the reference gives it no limits: never nothing.

A length without limits is not exact, it is not known how exact it is. What is taken stands beside it wherever the
length is shown, and the answer that rests on it is a range.
"""

from __future__ import annotations

from stackcheck.model.part import RING_BEARINGS, Size
from stackcheck.value import replace

TURNED_MM = 0.1
"""Turned and sawn parts, and whatever is not named here: common practice, no source."""

RING_BELOW_MM = 0.12
"""A ring of a bearing is only ever narrower: ISO 492, class Normal, bores of 10 to 50 mm (from memory)."""

STAMPED_MM = ((0.5, 0.05), (1.0, 0.1), (2.5, 0.2), (4.0, 0.3), (6.0, 0.6), (float("inf"), 1.0))
"""Up to this thickness, a stamped washer is off by this: ISO 4759-3, grade A (from memory)."""

SHIM_SHARE, SHIM_LEAST_MM = 0.05, 0.01
"""A shim is off by the larger of 5 % and 0.01 mm: common practice, no source."""

DISC_MM = 0.05
"""Thickness and free height of a disc spring: common practice, no source."""

SPRING_SHARE = 0.03
"""The free length of a coil spring or a wave washer, and at least as a turned part: common practice, no source."""

STAMPED = frozenset({"washer", "tab washer"})
SPRINGS = frozenset({"spring", "spring washer"})


def with_limits(size: Size, kind: str) -> Size:
    """The size as it is where it has limits, else with those taken for a part of this kind ("" where nobody knows it).

    >>> with_limits(Size(text="18 mm", nominal_mm=18), "collar").least_mm
    17.9
    >>> taken = with_limits(Size(text="14 mm", nominal_mm=14), "ball bearing")
    >>> taken.least_mm, taken.most_mm, taken.limits_from
    (13.88, 14, '0/-0.12 taken')
    >>> with_limits(Size(text="2 mm", nominal_mm=2), "washer").limits_from
    '±0.2 taken'
    """
    if size.has_limits:
        return size
    length = size.nominal_mm
    below, above = (RING_BELOW_MM, 0.0) if kind in RING_BEARINGS else (_off(length, kind),) * 2
    return replace(
        size,
        least_mm=round(length - below, 6),
        most_mm=round(length + above, 6) if above else length,
        limits_from=f"{f'±{above:.3g}' if above else f'0/-{below:g}'} taken",
    )


def is_taken(how: str) -> bool:
    """Whether limits of this origin are ours, and not the reference's."""
    return how.endswith(" taken")


def _off(length_mm: float, kind: str) -> float:
    if kind == "shim ring":
        return max(SHIM_SHARE * length_mm, SHIM_LEAST_MM)
    if kind == "disc spring":
        return DISC_MM
    if kind in STAMPED:
        return next(off for up_to, off in STAMPED_MM if length_mm <= up_to)
    off = max(TURNED_MM, SPRING_SHARE * length_mm) if kind in SPRINGS else TURNED_MM
    return min(off, length_mm / 2)
