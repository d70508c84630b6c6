"""Readings that must agree, with the gauges' own disagreement taken into account; figures worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.agreeing import (
    COMPARED,
    GOOD_TO,
    NOT_COMPARED,
    NOT_SAID,
    ONE_GAUGE,
    TOO_FEW_ROUNDS,
    agreement,
    within,
)
from stackcheck.mechanics.gauges import compare_gauges
from stackcheck.model.gauges import Gauge, GaugeReadings, Round, Scale
from stackcheck.model.points import PointReading
from stackcheck.units import read_figure

MM = Scale("length", "mm", 1.0)


def reading(value: float, gauge: str = "A", good_to: float | None = None) -> PointReading:
    return PointReading(text=f"{value}", value=value, step=0.1, repeats_to=0.06, good_to=good_to, gauge=gauge)


def compared(*rounds: str):
    """B reads half more than A."""
    figures = [[read_figure(text, dimension="length", default_unit="mm") for text in row.split()] for row in rounds]
    gauges = (Gauge(name="A"), Gauge(name="B"))
    return compare_gauges(
        GaugeReadings(source="one", scale=MM, gauges=gauges, rounds=tuple(Round(read=tuple(row)) for row in figures))
    )


THREE_ROUNDS = compared("2.0 2.5", "2.0 2.5", "2.0 2.5")


@pytest.mark.parametrize(("other", "verdict"), [(2.1, "agrees"), (2.25, "cannot tell"), (2.4, "differs")])
def test_with_one_gauge_only_its_repeating_counts(other, verdict):
    """√(0.06² + 0.06²) = 0.085 beside a limit of 0.2: agrees up to 0.115, differs above 0.285."""
    answer = agreement([reading(2.0), reading(other)], 0.2)
    assert (answer.verdict, answer.by) == (verdict, ONE_GAUGE)
    assert answer.good_to == pytest.approx(0.084853, abs=1e-6)


def test_what_the_gauges_differ_by_is_taken_off_first():
    """A shows 2.0 and B 2.5 on one source: as read 0.5 apart, in truth nothing. Digits: 2 · √(2 · 0.1²/12) = 0.0816."""
    answer = agreement([reading(2.0, "A"), reading(2.5, "B")], 0.2, [THREE_ROUNDS])
    assert (answer.verdict, answer.by) == ("agrees", COMPARED)
    assert answer.difference == pytest.approx(0.0, abs=1e-12)
    assert answer.gauges_differ == pytest.approx(-0.5)
    assert answer.good_to == pytest.approx(0.08165, rel=1e-3)


def test_readings_that_look_alike_differ_where_the_gauges_do_not():
    assert agreement([reading(2.0, "A"), reading(2.0, "B")], 0.2, [THREE_ROUNDS]).verdict == "differs"


def test_gauges_not_compared_may_differ_by_what_both_are_good_to():
    """√(0.3² + 0.4²) = 0.5: nothing within 0.4 can be told."""
    answer = agreement([reading(2.0, "A", 0.3), reading(2.0, "C", 0.4)], 0.4)
    assert (answer.verdict, answer.by) == ("cannot tell", GOOD_TO)
    assert answer.good_to == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("one", "other", "comparisons", "by"),
    [("A", "C", [], NOT_COMPARED), ("", "", [], NOT_SAID), ("A", "B", [compared("2.0 2.5")], TOO_FEW_ROUNDS)],
)
def test_where_nothing_is_known_of_the_gauges_nothing_is_told(one, other, comparisons, by):
    answer = agreement([reading(2.0, one), reading(9.0, other)], 0.2, comparisons)
    assert (answer.verdict, answer.good_to, answer.by) == ("cannot tell", None, by)


def test_of_four_readings_the_pair_that_differs_decides():
    answer = agreement([reading(value) for value in (2.0, 2.05, 2.6, 2.1)], 0.2)
    assert (answer.verdict, answer.first, answer.second) == ("differs", 0, 2)


def test_one_reading_agrees_with_nothing():
    assert agreement([reading(2.0)], 0.2) is None


@pytest.mark.parametrize(
    ("value", "good_to", "verdict"),
    [(0.65, 0.03, "agrees"), (0.68, 0.03, "cannot tell"), (0.74, 0.03, "differs"), (0.57, 0.03, "cannot tell"),
     (0.60, 0.0, "agrees"), (0.65, None, "cannot tell"), (5.0, None, "cannot tell")],
)  # fmt: skip
def test_a_reading_is_within_limits_whatever_it_is_within_what_it_is_good_to(value, good_to, verdict):
    """A plug gap of 0.6 to 0.7: 0.68 good to 0.03 may be 0.71; 0.57 may be 0.60."""
    assert within(reading(value, good_to=good_to), 0.6, 0.7) == verdict


values = st.lists(st.floats(0, 10), min_size=2, max_size=5)


@given(values=values, limit=st.floats(0.01, 5), more=st.floats(0, 5))
def test_a_wider_limit_never_turns_agreement_into_difference(values, limit, more):
    readings = [reading(value) for value in values]
    rank = {"agrees": 0, "cannot tell": 1, "differs": 2}
    assert rank[agreement(readings, limit + more).verdict] <= rank[agreement(readings, limit).verdict]


@given(values=values, limit=st.floats(0.01, 5))
def test_the_sequence_of_the_readings_decides_nothing(values, limit):
    readings = [reading(value) for value in values]
    assert agreement(readings, limit).verdict == agreement(readings[::-1], limit).verdict
