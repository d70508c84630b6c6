"""How a sum of lengths is spread when every part lies anywhere between its limits.

The assumption is ours, not the drawing's: parts independent, each evenly spread between its limits. Then the sum has an
exact distribution. Every even spread is cut into equal cells; which cells the parts fall into is counted by running
sums, and where they lie inside their cells is the same for all: the distribution is a spline whose coefficients are the
counts. All terms are positive, so the far tail keeps its digits, which inclusion and exclusion loses.

Source of the spline: Curry & Schoenberg, On Polya frequency functions IV, J. Analyse Math. 17 (1966); its recursion: de
Boor, On calculating with B-splines, J. Approx. Theory 6 (1972) (both from memory). Nothing here knows a part.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce
from itertools import accumulate
from math import exp, floor, gcd, pi, sqrt

from stackcheck.mechanics.lengths import Term
from stackcheck.mechanics.uncertainty import as_measured
from stackcheck.value import Value

FINEST_MM = 1e-6
"""Half widths are taken to the nanometre, a thousandth of what any drawing states."""

MOST_CELLS = 4096
_NORMAL_NODES = 400
_NORMAL_REACH = 8.0


class Spread(Value, kw_only=True):
    """The distribution of a sum: `middle_mm`, one half width a part,
    and a normal part with `normal_mm` as its deviation.

    `below` and `above` are exact but for the cells: where the widths have no common measure of a reasonable size they
    are rounded, and no probability is off by more than moving x by `good_to_mm` would make it.
    """

    middle_mm: float
    half_widths_mm: tuple[float, ...]
    normal_mm: float
    cell_mm: float
    widths: tuple[int, ...]
    coefficients: tuple[float, ...]
    good_to_mm: float

    @property
    def worst_mm(self) -> float:
        """Half of the worst case: every part at its limit at once."""
        return sum(self.half_widths_mm)

    @property
    def root_sum_of_squares_mm(self) -> float:
        """√Σ h²: the reach that 0.27 % miss if each limit is three deviations of a centred normal spread,
        and only then.
        """
        return sqrt(sum(half**2 for half in self.half_widths_mm))

    @property
    def deviation_mm(self) -> float:
        """The standard deviation, √(Σ h²/3 + σ²)."""
        return sqrt(sum(half**2 for half in self.half_widths_mm) / 3 + self.normal_mm**2)

    def below(self, x_mm: float) -> float:
        """The probability that the sum lies below x."""
        return self._below(x_mm - self.middle_mm)

    def above(self, x_mm: float) -> float:
        """The probability that the sum lies above x; the spread is symmetric about its middle."""
        return self._below(self.middle_mm - x_mm)

    def central(self, share: float) -> tuple[float, float]:
        """The middle stretch that holds this share of all sums, 0 < share < 1, by bisection."""
        tail = (1 - share) / 2
        low, high = 0.0, self.worst_mm + _NORMAL_REACH * self.normal_mm
        while high - low > FINEST_MM:
            reach = (low + high) / 2
            low, high = (reach, high) if self._below(-reach) > tail else (low, reach)
        return self.middle_mm - high, self.middle_mm + high

    def _below(self, x_mm: float) -> float:
        if not self.normal_mm:
            return self._even_below(x_mm)
        step = 2 * _NORMAL_REACH / _NORMAL_NODES
        nodes = [step * (i + 0.5) - _NORMAL_REACH for i in range(_NORMAL_NODES)]
        return (
            step
            / sqrt(2 * pi)
            * sum(exp(-node * node / 2) * self._even_below(x_mm - node * self.normal_mm) for node in nodes)
        )

    def _even_below(self, x_mm: float) -> float:
        """The spline: the counts of whole cells, weighted by where the parts lie inside theirs."""
        if not self.widths:
            return 1.0 if x_mm > 0 else 0.5 if x_mm == 0 else 0.0
        total = sum(self.widths)
        y = x_mm / self.cell_mm + total / 2
        if 2 * y > total:
            return 1 - self._even_below(-x_mm)
        if y <= 0:
            return 0.0
        cell, inside = floor(y), y - floor(y)
        weights = _spline_weights(len(self.widths) + 1, inside)
        return sum(weight * self.coefficients[cell - back] for back, weight in enumerate(weights) if 0 <= cell - back)


def spread(middle_mm: float, half_widths_mm: Iterable[float], normal_mm: float = 0.0) -> Spread:
    """The spread of a sum of independent parts.

    P(sum <= x) = Σ_i C_i B_{n+1}(y - i), with y = (x + Σh)/cell, C_i the share of the choices of cells that add up to i
    or less, and B the cardinal B-spline of n+1 pieces.

    Args:
        middle_mm: sum of the middles between the limits, with their signs [mm].
        half_widths_mm: half of (most - least) of every part [mm], not below 0; parts without a width add none.
        normal_mm: standard deviation of what is measured [mm], not below 0, taken as normal.
    Raises:
        ValueError: a width or a deviation below 0, or no number.

    Left out: that parts of one batch resemble one another, and that turned parts lie nearer one limit than the other.
    Source: see the head of this module.

    >>> pair = spread(10.0, [0.5, 0.5])  # two equal parts: a triangle
    >>> round(pair.below(9.5), 12), round(pair.above(10.5), 12)
    (0.125, 0.125)
    """
    halves = tuple(half_widths_mm)
    if not all(half >= 0 for half in (*halves, normal_mm)):
        raise ValueError("half widths and the deviation are numbers of at least 0 mm")
    wide = [half for half in halves if half > FINEST_MM / 2]
    fine = [round(2 * half / FINEST_MM) for half in wide]
    unit = reduce(gcd, fine, 0) or 1
    if sum(fine) > MOST_CELLS * unit:
        unit = -(-sum(fine) // MOST_CELLS)
    cell_mm = unit * FINEST_MM
    widths = tuple(max(1, round(2 * half / cell_mm)) for half in wide)
    return Spread(
        middle_mm=middle_mm, half_widths_mm=halves, normal_mm=normal_mm, cell_mm=cell_mm, widths=widths,
        coefficients=tuple(_counts(widths)),
        good_to_mm=sum(abs(half - width * cell_mm / 2) for half, width in zip(wide, widths)),
    )  # fmt: skip


def spread_of(terms: tuple[Term, ...], needs: Sequence[str] = ()) -> Spread | None:
    """The spread of a sum of terms: what was measured as a normal spread, everything else evenly between its limits.

    The readings of one instrument share its offset, as in `as_measured`; the pieces of a group vary each by itself.
    None for a sum of nothing, and where the sum still `needs` something.
    """
    if needs or not terms:
        return None
    measured = as_measured(tuple(term for term in terms if term.is_measured))
    assumed = [term for term in terms if not term.is_measured]
    middle_mm = sum(term.sign * term.interval.middle_mm for term in assumed) + (measured.value_mm if measured else 0.0)
    halves = [term.interval.half_width_mm / term.pieces for term in assumed for _ in range(term.pieces)]
    return spread(middle_mm, halves, measured.good_to_mm / 2 if measured else 0.0)


def _counts(widths: Sequence[int]) -> list[float]:
    """The share of all choices of one cell a part that add up to i or less, up to the middle."""
    most = sum(widths) // 2 + 1
    shares = [1.0] + [0.0] * most
    for width in widths:
        running = list(accumulate(shares))
        shares = [share / width for share in running[:width]]
        shares += [(now - before) / width for now, before in zip(running[width:], running)]
    return list(accumulate(shares))


def _spline_weights(order: int, inside: float) -> list[float]:
    """B_order(inside + r) for r = 0 .. order-1, the cardinal B-spline, 0 <= inside < 1."""
    values = [1.0]
    for m in range(2, order + 1):
        values = [
            ((inside + r) * (values[r] if r < m - 1 else 0.0) + (m - inside - r) * (values[r - 1] if r else 0.0))
            / (m - 1)
            for r in range(m)
        ]
    return values
