"""The factor of Student's distribution and the degrees of freedom it is taken for, against JCGM 100:2008 and scipy."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.degrees_of_freedom import (
    effective_degrees_of_freedom,
    student_factor,
)

TABLE_G_2 = {
    (0.6827, 1): 1.84, (0.90, 1): 6.31, (0.95, 1): 12.71, (0.9545, 1): 13.97, (0.99, 1): 63.66, (0.9973002, 1): 235.80,
    (0.95, 2): 4.30, (0.9545, 2): 4.53, (0.95, 3): 3.18, (0.9545, 3): 3.31, (0.95, 5): 2.57, (0.9545, 5): 2.65,
    (0.99, 5): 4.03, (0.95, 10): 2.23, (0.9545, 10): 2.28, (0.99, 10): 3.17, (0.99, 16): 2.92, (0.9545, 20): 2.13,
    (0.95, 50): 2.01, (0.99, 50): 2.68, (0.95, 100): 1.984, (0.6827, inf): 1.000, (0.95, inf): 1.960, (0.9545, inf): 2.000,
    (0.99, inf): 2.576, (0.9973, inf): 3.000,
}  # fmt: skip
"""JCGM 100:2008, table G.2 (from memory), to the digits printed."""


@pytest.mark.parametrize(("share", "degrees"), TABLE_G_2)
def test_the_factor_is_that_of_table_g_2(share, degrees):
    printed = TABLE_G_2[share, degrees]
    digits = 3 if degrees in (100, inf) else 2
    assert round(student_factor(share, degrees), digits) == pytest.approx(printed)


@given(share=st.floats(0.05, 0.9999), degrees=st.integers(1, 300))
def test_the_factor_is_that_of_an_independent_implementation(share, degrees):
    stats = pytest.importorskip("scipy.stats")
    assert student_factor(share, degrees) == pytest.approx(stats.t.ppf((1 + share) / 2, degrees), rel=1e-8)


def test_degrees_between_two_whole_numbers_take_the_wider_factor():
    assert student_factor(0.95, 16.75) == student_factor(0.95, 16)


@pytest.mark.parametrize(("share", "degrees"), [(0, 5), (1, 5), (0.95, 0.5), (0.95, float("nan"))])
def test_there_is_no_factor_outside_the_bounds(share, degrees):
    with pytest.raises(ValueError, match="no factor"):
        student_factor(share, degrees)


parts = st.lists(st.tuples(st.floats(1e-9, 1e6), st.integers(1, 100)), min_size=1, max_size=6)


@given(parts=parts)
def test_effective_degrees_lie_between_the_fewest_of_one_and_the_sum_of_all(parts):
    """JCGM 100:2008, G.4.1."""
    degrees = effective_degrees_of_freedom(parts)
    assert min(own for _, own in parts) * (1 - 1e-9) <= degrees <= sum(own for _, own in parts) * (1 + 1e-9)


def test_equal_parts_add_their_degrees():
    assert effective_degrees_of_freedom([(0.2, 4)] * 3) == pytest.approx(12)


def test_parts_taken_as_certain_leave_no_bound():
    assert effective_degrees_of_freedom([(1.0, inf)]) == effective_degrees_of_freedom([]) == inf
