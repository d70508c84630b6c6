"""What many doubtful inputs do to one result. Example H.1 of JCGM 100:2008 stands in `test_by_a_standard.py`."""

from math import inf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.budget import (
    Budget,
    Influence,
    mean_of,
    scatter_of,
    to_a_step,
    together,
    within_limits,
)


def test_readings_give_mean_scatter_and_uncertainty_of_the_mean():
    """By hand: 10.1 10.3 10.2 10.2, mean 10.2, squares 0.01 + 0.01 = 0.02, s = √(0.02/3) = 0.08165, of the mean 0.04082."""
    readings = [10.1, 10.3, 10.2, 10.2]
    assert mean_of(readings) == pytest.approx(10.2)
    assert scatter_of(readings) == pytest.approx(0.081650, abs=1e-6)
    assert scatter_of(readings) / sqrt(len(readings)) == pytest.approx(0.040825, abs=1e-6)


def test_limits_steps_and_swings_have_the_uncertainty_of_their_spread():
    """JCGM 100:2008, 4.3.7: ± 1 gives 0.577; F.2.2.1: a step of 1 gives 0.29."""
    assert within_limits(1) == pytest.approx(0.57735, abs=1e-5)
    assert to_a_step(1) == pytest.approx(0.28868, abs=1e-5)


@given(sizes=st.lists(st.just(0.0) | st.floats(1e-6, 1e3), min_size=1, max_size=8))
def test_no_influence_makes_a_result_better(sizes):
    influences = [Influence(name=str(number), uncertainty=size) for number, size in enumerate(sizes)]
    assert Budget(tuple(influences)).uncertainty >= Budget(tuple(influences[1:])).uncertainty
    assert max(sizes) <= Budget(tuple(influences)).uncertainty * (1 + 1e-12) <= sum(sizes) * (1 + 1e-9) + 1e-12


def test_with_no_doubt_about_the_uncertainties_a_result_is_good_to_two_of_them():
    budget = Budget((Influence(name="a", uncertainty=3.0), Influence(name="b", uncertainty=2.0, sensitivity=-2.0)))
    assert budget.uncertainty == pytest.approx(5.0)
    assert budget.good_to() == pytest.approx(10.0, rel=1e-4)
    assert budget.largest.name == "b"


def test_an_influence_of_no_degrees_given_is_taken_as_certain():
    assert Budget((Influence(name="a", uncertainty=1.0),)).degrees_of_freedom == inf


def test_influences_put_together_count_as_one():
    """By hand: √(3² + 4²) = 5; ν = 625/(81/9 + 256/16) = 25."""
    one = together(
        "both",
        [
            Influence(name="a", uncertainty=3.0, degrees_of_freedom=9),
            Influence(name="b", uncertainty=4.0, degrees_of_freedom=16),
        ],
        sensitivity=2.0,
    )
    assert one.adds == pytest.approx(10.0)
    assert one.degrees_of_freedom == pytest.approx(25)
