"""The exact distribution of a sum of lengths that are evenly spread between their limits.

Beside it: the closed form by inclusion and exclusion in exact fractions (Irwin 1927; Hall 1927, as the sum of uniform
variables in Feller, An Introduction to Probability Theory II, 2nd ed., I.9, theorem 1, from memory), scipy's own
distributions, and seeded draws.
"""

from fractions import Fraction
from itertools import product
from math import factorial, isclose, prod, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from stackcheck.mechanics.spread import spread

HALVES = st.lists(st.integers(1, 200).map(lambda n: Fraction(n, 1000)), min_size=1, max_size=7)
WHERE = st.integers(-999, 999).map(lambda n: Fraction(n, 1000))


def share_below(x: Fraction, halves: list[Fraction]) -> Fraction:
    """P(sum <= x), x from the middle, by inclusion and exclusion."""
    total = Fraction(0)
    for upper in product((0, 1), repeat=len(halves)):
        inside = x + sum(halves) - 2 * sum(half for half, chosen in zip(halves, upper) if chosen)
        if inside > 0:
            total += (-1) ** sum(upper) * inside ** len(halves)
    return total / (factorial(len(halves)) * prod(2 * half for half in halves))


@given(halves=HALVES, where=WHERE)
def test_the_share_below_is_that_of_the_closed_form_to_the_last_digits(halves, where):
    """Also far out, where the closed form in floating point would have lost all of them."""
    x = where * sum(halves)
    wanted = share_below(x, halves)
    assert isclose(spread(0.0, map(float, halves)).below(float(x)), wanted, rel_tol=1e-9, abs_tol=1e-300)


@given(halves=HALVES, where=WHERE, middle=st.floats(-100, 100))
def test_below_and_above_share_everything_between_them_and_mirror_one_another(halves, where, middle):
    seen = spread(middle, map(float, halves))
    x = float(where * sum(halves))
    assert seen.below(middle + x) + seen.above(middle + x) == pytest.approx(1, abs=1e-9)
    assert seen.below(middle - x) == pytest.approx(seen.above(middle + x), abs=1e-9)


def test_nothing_lies_outside_the_worst_case():
    three = spread(58.0, [0.05, 0.02, 0.01])
    assert three.worst_mm == pytest.approx(0.08)
    assert three.below(58.0 - 0.0801) == 0
    assert three.above(58.0 + 0.0801) == 0


def test_two_equal_parts_make_a_triangle_as_scipy_has_it():
    pair, triangle = spread(0.0, [0.5, 0.5]), stats.triang(0.5, loc=-1, scale=2)
    for x in np.linspace(-0.99, 0.99, 23):
        assert pair.below(x) == pytest.approx(triangle.cdf(x), rel=1e-12)


def test_a_hundred_equal_parts_come_close_to_a_normal_spread():
    many = spread(0.0, [0.1] * 100)
    normal = stats.norm(scale=many.deviation_mm)
    assert many.below(-many.deviation_mm) == pytest.approx(normal.cdf(-many.deviation_mm), rel=2e-3)


def test_even_spreads_miss_the_root_sum_of_squares_far_oftener_than_three_deviations_of_a_normal_one():
    """The reason why it never stands alone: 27 in 10,000 is promised, about 8 in 100 lie outside."""
    parts = spread(0.0, [0.05] * 8)
    outside = 2 * parts.below(-parts.root_sum_of_squares_mm)
    assert 0.07 < outside < 0.09


def test_draws_fall_as_the_distribution_says():
    halves, generator = [0.013, 0.021, 0.05, 0.0071, 0.03], np.random.default_rng(7)
    draws = sum(generator.uniform(-half, half, 400_000) for half in halves)
    seen = spread(0.0, halves)
    for x in (-0.09, -0.05, -0.01, 0.03):
        share = seen.below(x)
        assert np.mean(draws < x) == pytest.approx(share, abs=4 * sqrt(share / 400_000))


def test_a_measured_length_beside_unmeasured_ones_spreads_as_the_draws_do():
    halves, generator = [0.05, 0.02], np.random.default_rng(11)
    draws = sum(generator.uniform(-half, half, 400_000) for half in halves) + generator.normal(0, 0.015, 400_000)
    seen = spread(0.0, halves, normal_mm=0.015)
    assert seen.deviation_mm == pytest.approx(draws.std(), rel=0.01)
    for x in (-0.08, -0.04, 0.0, 0.05):
        share = seen.below(x)
        assert np.mean(draws < x) == pytest.approx(share, abs=4 * sqrt(share / 400_000))


def test_only_what_was_measured_spreads_like_the_normal_distribution():
    assert spread(20.0, [], normal_mm=0.01).below(19.98) == pytest.approx(stats.norm.cdf(-2), rel=2e-3)


def test_the_middle_stretch_holds_the_share_that_was_asked_for():
    seen = spread(10.0, [0.05, 0.02, 0.01])
    low, high = seen.central(0.95)
    assert seen.below(high) - seen.below(low) == pytest.approx(0.95, abs=1e-3)
    assert low + high == pytest.approx(20.0)


def test_widths_without_a_common_measure_are_good_to_what_is_stated():
    halves = [sqrt(n) / 100 for n in range(1, 21)]
    seen = spread(0.0, halves)
    assert 0 < seen.good_to_mm < 0.02 * seen.worst_mm
    finer = spread(0.0, [round(half, 3) for half in halves])
    moved = seen.good_to_mm + sum(abs(half - round(half, 3)) for half in halves)
    for share in (-0.5, -0.3, -0.1):
        x = share * seen.worst_mm
        assert finer.below(x - moved) <= seen.below(x) <= finer.below(x + moved)


@pytest.mark.parametrize("halves, normal", [([-0.1], 0.0), ([float("nan")], 0.0), ([0.1], -1.0)])
def test_a_width_below_nothing_is_refused(halves, normal):
    with pytest.raises(ValueError, match="at least 0"):
        spread(0.0, halves, normal)
