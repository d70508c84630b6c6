"""What several doubtful inputs together do to one result: the list of influences, and the interval that comes of it.

Each influence has a standard uncertainty in its own unit, what the result moves for one unit of it, and degrees of
freedom. All are independent here; inputs that share one cause are put together before, as one influence. First order
only: where a sensitivity is near nothing the second order may count (JCGM 100:2008, 5.1.2 note), and is left out.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import inf, sqrt

from stackcheck.mechanics.degrees_of_freedom import (
    TWO_STANDARD_UNCERTAINTIES,
    effective_degrees_of_freedom,
    student_factor,
)
from stackcheck.value import Value


class Influence(Value, kw_only=True):
    """One thing the result hangs on: `sensitivity` is what the result moves when it moves by one unit."""

    name: str
    uncertainty: float
    sensitivity: float = 1.0
    degrees_of_freedom: float = inf

    @property
    def adds(self) -> float:
        """What it adds to the standard uncertainty of the result, in the unit of the result."""
        return abs(self.sensitivity) * self.uncertainty


class Quantity(Value, kw_only=True):
    """An input: its best value, the standard uncertainty of that, and how far this uncertainty can be trusted."""

    value: float
    uncertainty: float = 0.0
    degrees_of_freedom: float = inf

    def influence(self, name: str, sensitivity: float = 1.0) -> Influence:
        """What its uncertainty does to a result that moves by `sensitivity` for one unit of it."""
        return Influence(
            name=name, uncertainty=self.uncertainty, sensitivity=sensitivity, degrees_of_freedom=self.degrees_of_freedom
        )


class Budget(Value):
    """All influences on one result."""

    influences: tuple[Influence, ...]

    @property
    def uncertainty(self) -> float:
        """The combined standard uncertainty: u² = Σ (c_i · u_i)². Source: JCGM 100:2008, 5.1.2, equation (11a)."""
        return sqrt(sum(influence.adds**2 for influence in self.influences))

    @property
    def degrees_of_freedom(self) -> float:
        return effective_degrees_of_freedom(
            (influence.adds, influence.degrees_of_freedom) for influence in self.influences
        )

    def good_to(self, share: float = TWO_STANDARD_UNCERTAINTIES) -> float:
        """Half the interval that holds this share of what the result may be. Source: JCGM 100:2008, G.6.4."""
        return student_factor(share, self.degrees_of_freedom) * self.uncertainty

    @property
    def largest(self) -> Influence | None:
        """What to know better first."""
        return max(self.influences, key=lambda influence: influence.adds, default=None)


def together(name: str, influences: Iterable[Influence], *, sensitivity: float = 1.0) -> Influence:
    """Several influences on one input as one influence, with the degrees of freedom of them all."""
    budget = Budget(tuple(influences))
    return Influence(
        name=name, uncertainty=budget.uncertainty, sensitivity=sensitivity, degrees_of_freedom=budget.degrees_of_freedom
    )


def mean_of(values: Iterable[float]) -> float:
    """The mean, in the unit of the values.

    Args:
        values: one at least.
    Source: JCGM 100:2008, 4.2.1, equation (3).

    >>> mean_of([1.0, 2.0, 4.5])
    2.5
    """
    values = tuple(values)
    return sum(values) / len(values)


def scatter_of(values: Iterable[float]) -> float:
    """The experimental standard deviation s of one value, in the unit of the values.

    s² = Σ (q_k - q̄)² / (n - 1); the mean of n is uncertain by s / √n.

    Args:
        values: two at least.
    Source: JCGM 100:2008, 4.2.2, equation (4), and 4.2.3, equation (5).

    >>> round(scatter_of([1.0, 2.0, 4.0]), 4)  # by hand: mean 7/3, squares 16/9 + 1/9 + 25/9 = 42/9, halved: 7/3
    1.5275
    """
    values = tuple(values)
    mean = mean_of(values)
    return sqrt(sum((value - mean) ** 2 for value in values) / (len(values) - 1))


def within_limits(half: float) -> float:
    """Standard uncertainty of what may lie anywhere within ± half: half / √3, in the same unit.

    Args:
        half: half of the interval, not below 0.
    Source: JCGM 100:2008, 4.3.7.

    >>> round(within_limits(0.05), 4)
    0.0289
    """
    return half / sqrt(3)


def to_a_step(step: float) -> float:
    """Standard uncertainty of a figure cut to a step: step / √12, in the same unit.

    Args:
        step: the smallest step shown, not below 0.
    Source: JCGM 100:2008, F.2.2.1.

    >>> round(to_a_step(0.01), 5)
    0.00289
    """
    return step / sqrt(12)
