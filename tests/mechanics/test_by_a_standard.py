"""A length by its difference to a block: JCGM 100:2008, example H.1 (calibration of an end gauge), to the digits printed.

All lengths in nm. The figures of the example are from memory; every intermediate one that is printed is checked.
"""

from math import sqrt

import pytest

from stackcheck.mechanics.budget import Influence, Quantity, together, within_limits
from stackcheck.mechanics.by_a_standard import length_by_a_standard
from stackcheck.mechanics.degrees_of_freedom import student_factor

STANDARD = Quantity(value=50_000_623, uncertainty=75 / 3, degrees_of_freedom=18)
"""H.1.3.1: U = 0.075 µm at three standard uncertainties, 18 degrees of freedom."""

SWINGS_K = 0.5 / sqrt(2)
"""H.1.3.4: what swings evenly to and fro by ± 0.5 K, as a standard uncertainty."""


def judged(share: float) -> float:
    """Degrees of freedom of a judged uncertainty that may be wrong by this share of itself: JCGM 100:2008, (G.3)."""
    return 1 / (2 * share**2)


def difference() -> Quantity:
    """H.1.3.2: s = 13 nm from 25 readings, five taken here; the comparator 10 nm at 95 % of 5 degrees, and 20 nm at three
    standard uncertainties, known to 25 %."""
    parts = [
        Influence(name="readings", uncertainty=13 / sqrt(5), degrees_of_freedom=24),
        Influence(name="comparator, random", uncertainty=10 / student_factor(0.95, 5), degrees_of_freedom=5),
        Influence(name="comparator, systematic", uncertainty=20 / 3, degrees_of_freedom=judged(0.25)),
    ]
    one = together("difference", parts)
    return Quantity(value=215, uncertainty=one.uncertainty, degrees_of_freedom=one.degrees_of_freedom)


def end_gauge(**more):
    """H.1.3.3 to H.1.3.6: α_s 11.5e-6 ± 2e-6; θ -0.1 K, known to 0.2 K and swinging by 0.5 K; δα ± 1e-6, known to 10 %; δθ ± 0.05 K,
    known to 50 %."""
    return length_by_a_standard(
        standard=STANDARD,
        difference=difference(),
        expansion_per_k=Quantity(value=11.5e-6, uncertainty=within_limits(2e-6)),
        expansion_differs_per_k=Quantity(value=0, uncertainty=within_limits(1e-6), degrees_of_freedom=judged(0.10)),
        warmer_k=Quantity(value=-0.1, uncertainty=sqrt(0.2**2 + SWINGS_K**2)),
        warmth_differs_k=Quantity(value=0, uncertainty=within_limits(0.05), degrees_of_freedom=judged(0.50)),
        **more,
    )


def test_the_end_gauge_is_as_long_as_printed():
    """H.1.4: 50.000 838 mm."""
    assert end_gauge().length == 50_000_838


@pytest.mark.parametrize(
    ("name", "printed_nm", "digits"),
    [("size of the block", 25, 0), ("difference as read", 9.7, 1), ("expansion of the block", 0, 0), ("temperature of the room", 0, 0),
     ("expansion differs", 2.9, 1), ("one warmer than the other", 16.6, 1)],
)  # fmt: skip
def test_every_influence_is_as_printed(name, printed_nm, digits):
    """Table H.1, column of the contributions."""
    adds = next(influence.adds for influence in end_gauge().budget.influences if influence.name == name)
    assert round(adds, digits) == printed_nm


def test_the_parts_of_the_difference_are_as_printed():
    """H.1.3.2: 5.8, 3.9 and 6.7 nm, together 9.7 nm; H.1.6: 25.6 degrees of freedom."""
    assert [round(part, 1) for part in (13 / sqrt(5), 10 / student_factor(0.95, 5), 20 / 3)] == [5.8, 3.9, 6.7]
    assert round(difference().uncertainty, 1) == 9.7
    assert difference().degrees_of_freedom == pytest.approx(25.6, abs=0.06)


def test_the_room_is_known_to_four_tenths_of_a_degree():
    """H.1.3.4: √(0.2² + 0.35²) = 0.41."""
    assert round(sqrt(0.2**2 + SWINGS_K**2), 2) == 0.41


def test_the_end_gauge_is_good_to_what_is_printed():
    """H.1.5 and H.1.6: u_c = 32 nm, ν_eff = 16, t99(16) = 2.92, U99 = 2.92 x 32 nm = 93 nm; without rounding u_c 92.5 nm."""
    budget = end_gauge().budget
    assert round(budget.uncertainty) == 32
    assert int(budget.degrees_of_freedom) == 16
    factor = student_factor(0.99, budget.degrees_of_freedom)
    assert round(factor, 2) == 2.92
    assert round(factor * round(budget.uncertainty)) == 93
    assert budget.good_to(0.99) == pytest.approx(92.5, abs=0.05)
    assert budget.largest.name == "size of the block"


def test_the_second_order_adds_what_is_printed():
    """H.1.7: 11.7 and 1.7 nm besides, u_c = 34 nm."""
    budget = end_gauge(second_order=True).budget
    assert budget.influences[-1].adds == pytest.approx(sqrt(11.7**2 + 1.7**2), abs=0.1)
    assert round(budget.uncertainty) == 34


def test_the_first_order_agrees_with_an_independent_library():
    """Propagation through the whole formula, without our sensitivities."""
    number = pytest.importorskip("uncertainties").ufloat
    standard, read = number(STANDARD.value, STANDARD.uncertainty), number(215, difference().uncertainty)
    expansion, warmer = number(11.5e-6, within_limits(2e-6)), number(-0.1, sqrt(0.2**2 + SWINGS_K**2))
    expansion_differs, warmth_differs = number(0, within_limits(1e-6)), number(0, within_limits(0.05))
    length = standard + read - standard * (expansion_differs * warmer + expansion * warmth_differs)
    assert length.nominal_value == end_gauge().length
    assert length.std_dev == pytest.approx(end_gauge().budget.uncertainty, rel=1e-9)


def test_in_a_room_at_20_degrees_two_like_parts_differ_by_what_is_read():
    nothing = Quantity(value=0.0)
    answer = length_by_a_standard(
        standard=Quantity(value=50.0), difference=Quantity(value=-0.04, uncertainty=0.002), expansion_per_k=Quantity(value=11.5e-6),
        expansion_differs_per_k=nothing, warmer_k=nothing, warmth_differs_k=nothing,
    )  # fmt: skip
    assert answer.length == pytest.approx(49.96)
    assert answer.budget.uncertainty == pytest.approx(0.002)


def test_an_aluminium_part_five_degrees_warm_is_shorter_at_20_degrees():
    """By hand: 50 x (23 - 11.5)e-6 x 5 = 0.0029 less than it reads."""
    nothing = Quantity(value=0.0)
    answer = length_by_a_standard(
        standard=Quantity(value=50.0), difference=nothing, expansion_per_k=Quantity(value=11.5e-6),
        expansion_differs_per_k=Quantity(value=11.5e-6), warmer_k=Quantity(value=5.0), warmth_differs_k=nothing,
    )  # fmt: skip
    assert 50.0 - answer.length == pytest.approx(0.002875)
