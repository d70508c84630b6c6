"""How many standard uncertainties a stretch needs where a part of them rests on a few readings only.

Scipy has the same quantile; it is not loaded for one figure,
because every comparison with a measured sum asks for it. A test holds the two against one another.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import atan, cos, erf, floor, inf, pi, sin, sqrt

HOLDS = erf(sqrt(2))
"""Two standard deviations of a normal spread hold this share, 0.9545 (JCGM 100:2008, Table G.1)."""

MANY = 1000
"""More degrees of freedom than these count as infinite: the factor differs by less than 0.003."""


def effective_degrees(parts: Iterable[tuple[float, float]]) -> float:
    """Degrees of freedom of a sum: ν = u⁴/Σ(u_i⁴/ν_i), infinite where every part is well known.

    Args:
        parts: (u_i in any one unit, ν_i) of every independent part; ν_i above 0, infinite for a known instrument.
    Raises:
        ValueError: degrees of freedom not above 0.

    Source: Welch-Satterthwaite, JCGM 100:2008, G.4.1, equation G.2b (from memory).

    >>> round(effective_degrees([(25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)]), 1)  # JCGM 100, H.1.6: cut to 16
    16.8
    """
    parts = list(parts)
    if not all(degrees > 0 for _, degrees in parts):
        raise ValueError("degrees of freedom are above 0")
    unsure = sum(u**4 / degrees for u, degrees in parts)
    return sum(u * u for u, _ in parts) ** 2 / unsure if unsure > 0 else inf


def student_factor(degrees: float, holds: float = HOLDS) -> float:
    """Student's t that `holds` this share between its minus and its plus;
    degrees are cut to a whole number, at least 1.

    Args:
        degrees: degrees of freedom, above 0; infinite for the normal spread.
        holds: share, above 0 and below 1.
    Raises:
        ValueError: an argument outside its bounds.

    Source: JCGM 100:2008, G.3 and G.4.1 note 1 (from memory);
    distribution by Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4.

    >>> [round(student_factor(degrees), 2) for degrees in (1, 2, 3, 5, 10, 50)]  # JCGM 100, Table G.2
    [13.97, 4.53, 3.31, 2.65, 2.28, 2.05]
    >>> round(student_factor(16, 0.99), 2)
    2.92
    """
    if not degrees > 0 or not 0 < holds < 1:
        raise ValueError(f"degrees of freedom {degrees} and a share of {holds} have no factor")
    if degrees > MANY:
        from statistics import NormalDist  # loads much for the one figure that everybody knows

        return 2.0 if holds == HOLDS else NormalDist().inv_cdf((1 + holds) / 2)
    whole = max(1, floor(degrees + 1e-9))
    low, high = 0.0, 1.0
    while _held(high, whole) < holds:
        high *= 2
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if _held(middle, whole) < holds else (low, middle)
    return high


def _held(t: float, degrees: int) -> float:
    """The share between -t and t for a whole number of degrees of freedom."""
    angle = atan(t / sqrt(degrees))
    squared, term, total = cos(angle) ** 2, 1.0, 0.0
    first = degrees % 2
    for i in range(first, degrees - 1, 2) if degrees > 1 else ():
        total += term
        term *= (i + 1) / (i + 2) * squared
    if first:
        return 2 / pi * (angle + sin(angle) * cos(angle) * total)
    return sin(angle) * total
