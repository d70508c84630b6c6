"""How far a standard uncertainty can be trusted, and the factor that makes an interval of it.

A standard uncertainty from a few readings is itself uncertain; its degrees of freedom say how much. The factor of
Student's distribution widens the interval accordingly.
Degrees of freedom are whole numbers here, so the distribution is a finite sum and needs no library: every comparison
with a measured sum asks for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import atan, cos, erf, floor, inf, pi, sin, sqrt

TWO_STANDARD_UNCERTAINTIES = erf(sqrt(2))
"""The share of a normal distribution within two standard deviations, 0.9545 (JCGM 100:2008, table G.1): what *good to*
means in this tool.
"""

LARGEST = 10_000
"""Beyond so many degrees of freedom the factor differs from that of the normal distribution by less than 1e-3."""


def effective_degrees_of_freedom(parts: Iterable[tuple[float, float]]) -> float:
    """Degrees of freedom of a combined uncertainty by the Welch-Satterthwaite formula; infinite where all parts are.

    ν = u⁴ / Σ (u_i⁴ / ν_i), u² = Σ u_i²

    Args:
        parts: (standard uncertainty that a quantity adds to the result, its degrees of freedom above 0), in one unit.
    Raises:
        ValueError: degrees of freedom not above 0.

    Source: JCGM 100:2008, G.4.1, equation (G.2b).

    >>> round(effective_degrees_of_freedom([(3.0, 9), (4.0, inf)]), 3)  # by hand: 625 / (81 / 9)
    69.444
    >>> round(effective_degrees_of_freedom([(25, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)]), 1)  # JCGM 100:2008, H.1.6
    16.8
    """
    parts = tuple(parts)
    if not all(degrees > 0 for _, degrees in parts):
        raise ValueError("degrees of freedom are above 0")
    # Squares of ratios: fourth powers of millimetres may vanish.
    largest = max((abs(uncertainty) for uncertainty, _ in parts), default=0.0)
    if largest == 0:
        return inf
    shares = [((uncertainty / largest) ** 2, degrees) for uncertainty, degrees in parts]
    below = sum(share**2 / degrees for share, degrees in shares)
    return sum(share for share, _ in shares) ** 2 / below if below > 0 else inf


def student_factor(share: float, degrees_of_freedom: float) -> float:
    """The factor t: this share of Student's distribution lies within ± t;
    of the normal one for many degrees of freedom.

    Args:
        share: above 0 and below 1, like 0.9545.
        degrees_of_freedom: 1 or more; cut down to a whole number, which is the cautious side.
    Raises:
        ValueError: an argument outside its bounds.

    Source: Abramowitz & Stegun, Handbook of Mathematical Functions (1972), 26.7.3 and 26.7.4 (from memory);
        cutting down: JCGM 100:2008, G.6.4.

    >>> round(student_factor(0.95, 5), 2), round(student_factor(0.99, 16.7), 2)  # JCGM 100:2008, table G.2
    (2.57, 2.92)
    """
    if not 0 < share < 1 or not degrees_of_freedom >= 1:
        raise ValueError(f"no factor for share {share} and {degrees_of_freedom} degrees of freedom")
    if degrees_of_freedom == inf and share == TWO_STANDARD_UNCERTAINTIES:
        return 2.0
    whole = floor(degrees_of_freedom + 1e-9) if degrees_of_freedom < LARGEST else 0
    low, high = 0.0, 1.0
    while _share_within(high, whole) < share:
        low, high = high, 2 * high
    while high - low > 1e-10 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if _share_within(middle, whole) < share else (low, middle)
    return high


def _share_within(t: float, degrees: int) -> float:
    """The share of Student's distribution within ± t; 0 degrees stand for the normal distribution."""
    if degrees == 0:
        return erf(t / sqrt(2))
    angle = atan(t / sqrt(degrees))
    # The two sums of the source: odd powers of the cosine for odd degrees, even powers for even ones.
    term = total = cos(angle) if degrees % 2 else 1.0
    for power in range(2 + degrees % 2, degrees - 1, 2):
        term *= cos(angle) ** 2 * (power - 1) / power
        total += term
    if degrees % 2 == 0:
        return sin(angle) * total
    return 2 / pi * (angle + (sin(angle) * total if degrees > 1 else 0.0))
