"""Sums that were partly measured: JCGM 100:2008 worked by hand, and the `uncertainties` package as a witness.

`good_to_mm` is two standard uncertainties on both sides: of a reading, and of the sum.
"""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from uncertainties import ufloat

from stackcheck.formats.readings import as_reading
from stackcheck.mechanics.degrees_of_freedom import (
    TWO_STANDARD_UNCERTAINTIES,
    effective_degrees_of_freedom,
    student_factor,
)
from stackcheck.mechanics.lengths import Interval, Term
from stackcheck.mechanics.uncertainty import as_measured
from stackcheck.units import read_reading
from tests.builders import reading


def measured(value: float, good_to: float, how: str, *, sign: int = 1, name: str = "ring", pieces: int = 1) -> Term:
    said = reading(value, good_to, how)
    return Term(
        place=name, entry=1, name=name, sign=sign, interval=Interval.of_reading(said).times(pieces), how=how,
        text=said.text, reading=said, pieces=pieces,
    )  # fmt: skip


def assumed(nominal: float, least: float, most: float, *, sign: int = 1, name: str = "ring", pieces: int = 1) -> Term:
    interval = Interval(nominal_mm=nominal, least_mm=least, most_mm=most).times(pieces)
    return Term(place=name, entry=None, name=name, sign=sign, interval=interval, how="written", text="", pieces=pieces)


def test_ten_readings_of_one_instrument_are_ten_times_as_unsure():
    """Ten resistors of 1000 ohm against one standard of u = 0.1 ohm: in series u = 1 ohm, and not 0.32.

    Source: JCGM 100:2008, 5.2.2, example (from memory), with mm for ohm.
    """
    total = as_measured(tuple(measured(1000.0, 0.2, "comparator") for _ in range(10)))
    assert (total.value_mm, total.good_to_mm) == (10_000.0, pytest.approx(2 * 1.0))


def test_different_instruments_add_as_the_root_of_the_squares():
    """The end gauge of JCGM 100:2008, H.1 (figures from memory): 25, 9.7, 2.9 and 16.6 nm make 32 nm."""
    parts = {"standard": 25e-6, "comparison": 9.7e-6, "expansion": 2.9e-6, "temperature": 16.6e-6}
    total = as_measured(tuple(measured(50.0, 2 * u, how) for how, u in parts.items()))
    assert round(total.good_to_mm / 2 * 1e6) == 32
    assert total.largest.how == "standard"
    assert [each.name for each in total.contributions] == ["standard", "temperature", "comparison", "expansion"]


def test_the_offset_of_an_instrument_cancels_between_two_readings_of_opposite_sign():
    """A gap as a difference: what the calliper shows too much on one path it shows too much on the other."""
    total = as_measured((measured(58.0, 0.03, "calliper"), measured(57.9, 0.03, "calliper", sign=-1)))
    assert total.value_mm == pytest.approx(0.1) and total.good_to_mm == 0.0
    other = as_measured((measured(58.0, 0.03, "calliper"), measured(57.9, 0.04, "depth gauge", sign=-1)))
    assert other.good_to_mm == pytest.approx(0.05)  # 3, 4, 5


def test_where_nobody_said_the_instrument_no_offset_cancels_another():
    """It may be one calliper or two: the difference of two such readings is as unsure as their sum."""
    tube, seats = (measured(58.0, 0.03, "instrument not said", sign=sign) for sign in (1, -1))
    assert as_measured((tube, seats)).good_to_mm == pytest.approx(0.06)


def test_a_part_that_nobody_measured_is_evenly_spread_between_its_limits():
    """u = half width / root 3 (JCGM 100:2008, 4.3.7, clause from memory); one-sided limits move the best estimate."""
    total = as_measured((assumed(14.0, 13.88, 14.0),))
    assert (total.value_mm, total.good_to_mm) == (pytest.approx(13.94), pytest.approx(2 * 0.06 / sqrt(3)))


def test_equal_pieces_that_nobody_measured_are_independent_and_measured_ones_share_the_instrument():
    """Four pieces of ±0.01: root 4 times 0.01/root 3 against 4 times 0.02/2."""
    assert as_measured((assumed(0.5, 0.49, 0.51, pieces=4),)).good_to_mm == pytest.approx(2 * 2 * 0.01 / sqrt(3))
    assert as_measured((measured(0.5, 0.02, "micrometer", pieces=4),)).good_to_mm == pytest.approx(4 * 0.02)


def test_three_shims_one_by_one_are_three_times_as_unsure_as_their_pack():
    """Micrometer of largest error 0.004, u = 0.004/root 3 = 0.0023: 0.0069 one by one, 0.0023 as one pack."""
    good_to = 2 * 0.004 / sqrt(3)
    one_by_one = as_measured(tuple(measured(0.5, good_to, "micrometer") for _ in range(3)))
    as_a_pack = as_measured((measured(1.5, good_to, "micrometer"),))
    assert round(one_by_one.good_to_mm / 2, 4) == 0.0069
    assert round(as_a_pack.good_to_mm / 2, 4) == 0.0023


def test_the_coverage_and_the_assumption_are_said():
    said = as_measured((assumed(1.0, 0.9, 1.1),)).coverage
    assert "95 in 100" in said and "evenly spread" in said and "JCGM 100:2008" in said


def test_a_sum_of_nothing_is_no_measurement():
    assert as_measured(()) is None


lengths = st.integers(1, 5000).map(lambda figure: figure / 100)
small = st.integers(1, 40).map(lambda figure: figure / 1000)
terms = st.lists(
    st.builds(
        measured, lengths, small, st.sampled_from(["calliper", "micrometer", "rule"]), sign=st.sampled_from([1, -1]), pieces=st.integers(1, 4)
    )
    | st.builds(
        lambda nominal, below, above, **more: assumed(nominal, nominal - below, nominal + above, **more),
        lengths, small, small, sign=st.sampled_from([1, -1]), pieces=st.integers(1, 4),
    ),
    min_size=1, max_size=8,
)  # fmt: skip


def the_same_with_uncertainties(terms):
    """One unknown offset for each instrument, one unknown length for every piece that was not measured."""
    offsets, total = {}, 0.0
    for term in terms:
        if term.reading is not None:
            offset = offsets.setdefault(term.how, ufloat(0.0, 1.0))
            total += term.sign * term.pieces * (term.reading.value_mm + offset * term.reading.good_to_mm / 2)
            continue
        least, most = term.interval.least_mm / term.pieces, term.interval.most_mm / term.pieces
        total += term.sign * sum(ufloat((least + most) / 2, (most - least) / 2 / sqrt(3)) for _ in range(term.pieces))
    return total


@given(terms)
def test_the_uncertainties_package_says_the_same(terms):
    total, witness = as_measured(tuple(terms)), the_same_with_uncertainties(terms)
    assert total.value_mm == pytest.approx(witness.nominal_value, abs=1e-9)
    assert total.good_to_mm == pytest.approx(2 * witness.std_dev, abs=1e-9)


@given(terms)
def test_the_largest_contribution_is_named_and_all_of_them_together_are_the_whole(terms):
    total = as_measured(tuple(terms))
    assert total.good_to_mm == pytest.approx(
        2 * sqrt(sum(each.uncertainty_mm**2 for each in total.contributions)), abs=1e-12
    )
    assert total.largest in total.contributions[0].terms
    assert total.contributions[0].uncertainty_mm == max(each.uncertainty_mm for each in total.contributions)


def read(*values: float) -> Term:
    """A tube as the list has it when it was read several times by a micrometer, which is good to 0.01."""
    said = as_reading(read_reading(f"{' '.join(f'{value:.4f}' for value in values)} micrometer"))
    return Term(
        place="tube",
        entry=1,
        name="tube",
        sign=1,
        interval=Interval.of_reading(said),
        how="micrometer",
        text=said.text,
        reading=said,
    )


def test_the_end_gauge_of_the_guide_has_sixteen_degrees_of_freedom_and_ninety_three_nanometres():
    """u 25, 9.7, 2.9 and 16.6 nm with 18, 25.6, 50 and 2 degrees of freedom: 32 nm, 16 of them, t at 99 in 100 2.92, U 93 nm.

    Source: JCGM 100:2008, H.1.6 (components read; degrees of freedom and U from memory). The guide cuts 16.7 to 16.
    """
    parts = [(25.0, 18), (9.7, 25.6), (2.9, 50), (16.6, 2)]
    u = sqrt(sum(part**2 for part, _ in parts))
    degrees = effective_degrees_of_freedom(parts)
    assert (round(u), int(degrees)) == (32, 16)
    assert round(student_factor(0.99, degrees) * round(u)) == 93


@given(st.integers(1, 1000), st.floats(0.01, 0.999))
def test_student_s_factor_is_that_of_scipy(degrees, holds):
    assert student_factor(holds, degrees) == pytest.approx(stats.t.ppf((1 + holds) / 2, degrees), rel=1e-7)


def test_with_infinite_degrees_of_freedom_it_is_two_standard_uncertainties():
    assert student_factor(TWO_STANDARD_UNCERTAINTIES, float("inf")) == 2.0
    assert student_factor(0.99, float("inf")) == pytest.approx(2.5758, abs=1e-4)


def test_repeated_readings_count_with_their_mean_and_their_scatter():
    """57.94 57.95 57.94 by micrometer, good to 0.01: mean 57.9433, s 0.00577, so 0.00333 beside an offset of 0.005.

    ν = (0.00333² + 0.005²)²/(0.00333⁴/2) = 21.1, cut to 21, and t is 2.13.
    """
    total = as_measured((read(57.94, 57.95, 57.94),))
    assert total.value_mm == pytest.approx(57.9433, abs=1e-4)
    assert [(each.name, round(each.uncertainty_mm, 5)) for each in total.contributions] == [
        ("micrometer", 0.005), ("readings of the tube", 0.00333),
    ]  # fmt: skip
    assert total.degrees == pytest.approx(21.1, abs=0.1) and total.factor == pytest.approx(
        stats.t.ppf(0.97725, 21), rel=1e-5
    )
    assert total.good_to_mm == pytest.approx(total.factor * sqrt(0.005**2 + 0.00333**2), rel=1e-3)
    assert "Student" in total.coverage


def test_two_wild_readings_widen_the_answer_by_more_than_their_scatter():
    """One degree of freedom: 13.97 standard uncertainties, since nobody can tell a scatter from two readings."""
    total = as_measured((read(57.90, 58.00),))
    assert total.degrees == pytest.approx(1.0, abs=0.05) and total.factor == pytest.approx(13.97, abs=0.01)


def test_equal_readings_and_the_ends_of_a_range_have_no_scatter():
    assert as_measured((read(57.94, 57.94, 57.94),)).factor == 2.0
    feeler = as_reading(read_reading("3.0..3.5 feeler"))
    term = Term(
        place=None,
        entry=1,
        name="gap",
        sign=1,
        interval=Interval.of_reading(feeler),
        how="feeler",
        text="",
        reading=feeler,
    )
    total = as_measured((term,))
    assert (total.value_mm, total.good_to_mm, total.factor) == (3.25, pytest.approx(0.25), 2.0)


@given(st.lists(st.floats(57.9, 58.1), min_size=2, max_size=6))
def test_more_readings_of_one_size_never_move_the_offset_of_its_instrument(values):
    total = as_measured((read(*values),))
    offset = next(each.uncertainty_mm for each in total.contributions if each.name == "micrometer")
    assert offset == pytest.approx(0.005)
    assert total.good_to_mm >= 2 * offset * (1 - 1e-9)
