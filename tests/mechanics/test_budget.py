"""What many doubtful inputs do to one result: JCGM 100:2008, example H.1 (calibration of an end gauge), end to end."""

from math import inf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.budget import (
    Budget,
    Influence,
    mean_of,
    scatter_of,
    swinging,
    to_a_step,
    together,
    within_limits,
)
from stackcheck.mechanics.degrees_of_freedom import degrees_of_freedom_of, student_factor


def test_readings_give_mean_scatter_and_uncertainty_of_the_mean():
    """By hand: 10.1 10.3 10.2 10.2, mean 10.2, squares 0.01 + 0.01 = 0.02, s = √(0.02/3) = 0.08165, of the mean 0.04082."""
    readings = [10.1, 10.3, 10.2, 10.2]
    assert mean_of(readings) == pytest.approx(10.2)
    assert scatter_of(readings) == pytest.approx(0.081650, abs=1e-6)
    assert scatter_of(readings) / sqrt(len(readings)) == pytest.approx(0.040825, abs=1e-6)


def test_limits_steps_and_swings_have_the_uncertainty_of_their_spread():
    """JCGM 100:2008, 4.3.7: ± 1 gives 0.577; F.2.2.1: a step of 1 gives 0.29; a swing of ± 0.5 gives 0.35 (H.1.3.4)."""
    assert within_limits(1) == pytest.approx(0.57735, abs=1e-5)
    assert to_a_step(1) == pytest.approx(0.28868, abs=1e-5)
    assert swinging(0.5) == pytest.approx(0.35355, abs=1e-5)


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


STANDARD_NM, DIFFERENCE_NM = 50_000_623, 215
EXPANSION_PER_K, TEMPERATURE_K = 11.5e-6, -0.1
"""JCGM 100:2008, H.1.3: size of the standard and mean difference [nm], its expansion [1/K], test bed less 20 °C [K]."""


@pytest.fixture(scope="module")
def end_gauge() -> Budget:
    """l = l_s + d - l_s (δα θ + α_s δθ): H.1.2 to H.1.3, lengths in nm.

    Standard: U = 75 nm at three standard uncertainties, 18 degrees (H.1.3.1). Difference: 13 nm pooled over 25 readings,
    5 taken here; comparator random 10 nm at 95 % of 5 degrees, systematic 20 nm at three, known to 25 % (H.1.3.2).
    Expansion of the standard ± 2e-6, difference of the two ± 1e-6 known to 10 % (H.1.3.3, H.1.3.5). Test bed 0.2 K on
    average, swinging ± 0.5 K (H.1.3.4); the two differ by ± 0.05 K, known to 50 % (H.1.3.6).
    """
    difference = together(
        "difference of the two",
        [
            Influence(name="repeated readings", uncertainty=13 / sqrt(5), degrees_of_freedom=24),
            Influence(name="comparator, random", uncertainty=10 / student_factor(0.95, 5), degrees_of_freedom=5),
            Influence(name="comparator, systematic", uncertainty=20 / 3, degrees_of_freedom=degrees_of_freedom_of(0.25)),
        ],
    )
    bed = together("temperature of the bed", [Influence(name="mean", uncertainty=0.2), Influence(name="swing", uncertainty=swinging(0.5))])
    return Budget((
        Influence(name="standard", uncertainty=75 / 3, degrees_of_freedom=18),
        difference,
        Influence(name="expansion of the standard", uncertainty=within_limits(2e-6), sensitivity=0.0),
        Influence(name=bed.name, uncertainty=bed.uncertainty, sensitivity=0.0),
        Influence(
            name="difference of expansion", uncertainty=within_limits(1e-6), sensitivity=-STANDARD_NM * TEMPERATURE_K,
            degrees_of_freedom=degrees_of_freedom_of(0.10),
        ),
        Influence(
            name="difference of temperature", uncertainty=within_limits(0.05), sensitivity=-STANDARD_NM * EXPANSION_PER_K,
            degrees_of_freedom=degrees_of_freedom_of(0.50),
        ),
    ))  # fmt: skip


def adds(budget: Budget, name: str) -> float:
    return next(influence.adds for influence in budget.influences if influence.name == name)


def test_the_end_gauge_is_as_long_as_printed():
    """H.1.4: 50.000 838 mm."""
    assert STANDARD_NM + DIFFERENCE_NM == 50_000_838


@pytest.mark.parametrize(
    ("name", "printed_nm", "digits"),
    [
        ("standard", 25, 0), ("difference of the two", 9.7, 1), ("expansion of the standard", 0, 0), ("temperature of the bed", 0, 0),
        ("difference of expansion", 2.9, 1), ("difference of temperature", 16.6, 1),
    ],
)  # fmt: skip
def test_every_influence_on_the_end_gauge_is_as_printed(end_gauge, name, printed_nm, digits):
    """Table H.1, last column but one."""
    assert round(adds(end_gauge, name), digits) == printed_nm


def test_the_parts_of_the_difference_are_as_printed():
    """H.1.3.2: 5.8, 3.9 and 6.7 nm, together 9.7 nm with 25.6 degrees of freedom (H.1.6)."""
    assert round(13 / sqrt(5), 1) == 5.8
    assert round(10 / student_factor(0.95, 5), 1) == 3.9
    assert round(20 / 3, 1) == 6.7


def test_the_degrees_of_the_difference_are_as_printed(end_gauge):
    difference = next(influence for influence in end_gauge.influences if influence.name == "difference of the two")
    assert difference.degrees_of_freedom == pytest.approx(25.6, abs=0.06)


def test_the_bed_is_known_to_four_tenths_of_a_degree():
    """H.1.3.4: √(0.2² + 0.35²) = 0.41."""
    assert round(sqrt(0.2**2 + swinging(0.5) ** 2), 2) == 0.41


def test_the_end_gauge_is_good_to_what_is_printed(end_gauge):
    """H.1.5 and H.1.6: u_c = 32 nm, ν_eff = 16, t99(16) = 2.92, U99 = 2.92 x 32 nm = 93 nm; without rounding u_c 92.5 nm."""
    assert round(end_gauge.uncertainty) == 32
    assert int(end_gauge.degrees_of_freedom) == 16
    assert round(student_factor(0.99, end_gauge.degrees_of_freedom), 2) == 2.92
    assert round(student_factor(0.99, end_gauge.degrees_of_freedom) * round(end_gauge.uncertainty)) == 93
    assert end_gauge.good_to(0.99) == pytest.approx(92.5, abs=0.05)
    assert end_gauge.largest.name == "standard"


def test_the_same_uncertainties_by_an_independent_library(end_gauge):
    """First-order propagation through the whole formula, without our sensitivities."""
    uncertainties = pytest.importorskip("uncertainties")
    number = uncertainties.ufloat
    standard, difference = number(STANDARD_NM, 25), number(DIFFERENCE_NM, sqrt(13**2 / 5 + (10 / student_factor(0.95, 5)) ** 2 + (20 / 3) ** 2))
    expansion, bed = number(EXPANSION_PER_K, within_limits(2e-6)), number(TEMPERATURE_K, 0.41)
    other_expansion, other_temperature = number(0, within_limits(1e-6)), number(0, within_limits(0.05))
    length = standard + difference - standard * (other_expansion * bed + expansion * other_temperature)
    assert length.nominal_value == STANDARD_NM + DIFFERENCE_NM
    assert length.std_dev == pytest.approx(end_gauge.uncertainty, rel=1e-6)


def test_an_influence_of_no_degrees_given_is_taken_as_certain():
    assert Budget((Influence(name="a", uncertainty=1.0),)).degrees_of_freedom == inf
