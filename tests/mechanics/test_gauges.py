"""Several gauges on one source: what the readings tell of them, against figures worked by hand."""

from math import sqrt

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from stackcheck.mechanics.degrees_of_freedom import student_factor
from stackcheck.mechanics.gauges import compare_gauges
from stackcheck.model.gauges import Gauge, GaugeReadings, KnownSource, Room, Round, Scale
from stackcheck.units import read_figure
from stackcheck.value import replace

MM = Scale("length", "mm", 1.0)


def read(
    *rounds: str, known: tuple[float, float] | None = None, how: str = "", good_to: float | None = None, **more
) -> GaugeReadings:
    """Each round is "50.01 50.00 50.06", with the first gauge again behind a stroke: "50.01 50.00 / 50.02"."""
    turns = []
    for text in rounds:
        row, _, again = text.partition("/")
        turns.append(Round(read=tuple(map(figure, row.split())), again=figure(again) if again else None))
    gauges = tuple(Gauge(name="ABCDEFGH"[number], how=how, good_to=good_to) for number in range(len(turns[0].read)))
    source = KnownSource(text="", value=known[0], good_to=known[1]) if known else None
    return GaugeReadings(source="a block", scale=MM, gauges=gauges, rounds=tuple(turns), known=source, **more)


def figure(text: str):
    return read_figure(text.strip(), dimension="length", default_unit="mm")


CALLIPERS = read("50.01 50.00 50.06 / 50.01", "50.01 50.01 50.07 / 50.02", "50.02 50.01 50.06 / 50.01", good_to=0.03)
"""Drift by round: 0, 0.01, -0.01. With the source held still B reads 50.0000 50.0067 50.0133, C 50.0600 50.0633 50.0667."""


def test_the_odd_one_out_is_farthest_from_the_middle_of_the_others():
    """C less the middle of A and B, by round: 0.055, 0.055, 0.050; mean 0.0533."""
    answer = compare_gauges(CALLIPERS)
    assert answer.odd_one_out == "C"
    assert answer.result_of("C").from_others.difference == pytest.approx(0.160 / 3)


def test_what_the_difference_is_good_to_is_worked_by_hand():
    """s = √((2·0.001667² + 0.003333²)/2) = 0.0028868, /√3 = 0.0016667; digits √(0.01²/12·(1 + ¼ + ¼)) = 0.0035355.

    u = 0.0039087; u²/u_A² = 5.5, so ν = 2·5.5² = 60.5.
    """
    own = compare_gauges(CALLIPERS).result_of("C").from_others
    assert own.budget.uncertainty == pytest.approx(0.0039087, abs=1e-7)
    assert own.budget.degrees_of_freedom == pytest.approx(60.5)
    assert own.good_to == pytest.approx(student_factor(0.9545, 60) * 0.0039087, abs=1e-6)


def test_the_odd_one_is_left_out_of_the_middle_that_the_others_are_held_against():
    """A less B, by round 0.01, 0.00333, 0.00667, once C stands out."""
    answer = compare_gauges(CALLIPERS)
    assert answer.result_of("A").from_others.difference == pytest.approx(0.02 / 3)
    assert [answer.result_of(name).verdict for name in "ABC"] == ["agrees", "agrees", "differs"]


def test_a_later_reading_is_less_sure_than_the_average():
    """One reading scatters by s, not s/√3: √(1 + 1/3) · 0.0028868 = 0.0033333 beside 0.0035355 for the digits."""
    own = compare_gauges(CALLIPERS).result_of("C").from_others
    assert own.once_good_to == pytest.approx(
        student_factor(0.9545, 2 * (1 + 0.0035355**2 / 0.0033333**2) ** 2) * 0.0048591, rel=1e-4
    )


def test_without_a_known_size_no_correction_is_known():
    """Compared is not calibrated: the difference widens what a reading is good to instead (JCGM 100:2008, F.2.4.5)."""
    result = compare_gauges(CALLIPERS).result_of("C")
    assert result.correction is None
    assert result.good_to == pytest.approx(abs(result.from_others.difference) + result.from_others.once_good_to)


def test_a_known_size_gives_the_correction():
    """Mean 20.005, size 20.0003: take off 0.0047. s = 0.0008165, /2 = 0.00040825; digit 0.00028868; size 0.00015.

    u = 0.00052202, ν = 3·(0.00052202/0.00040825)⁴ = 8.02, t = 2.37 (JCGM 100:2008, table G.2): 0.00124.
    """
    (result,) = compare_gauges(read("20.004", "20.006", "20.005", "20.005", known=(20.0003, 0.0003))).results
    assert result.correction == pytest.approx(-0.0047)
    assert result.from_known.budget.uncertainty == pytest.approx(0.00052202, abs=1e-8)
    assert int(result.from_known.budget.degrees_of_freedom) == 8
    assert result.from_known.good_to == pytest.approx(2.37 * 0.00052202, abs=5e-6)


def test_a_warm_hand_widens_what_a_long_gauge_is_good_to():
    """Steel of 300 mm within 2 K of the block: 300 · 11.5e-6 · 2/√3 = 0.00398; 3 K warm, two steels 300 · 3 · 1e-6/√3 = 0.00052.

    Second order: 300 · (1e-6/√3) · 1 = 0.00017; block 0.0005: together 0.00405.
    """
    readings = read(
        "300.01", "300.01", known=(300.0, 0.001), room=Room(text="", warmer_k=3.0, warmer_good_to_k=2.0, differ_k=2.0)
    )
    parts = compare_gauges(readings).results[0].from_known.budget
    warm = [each for each in parts.influences if each.name not in ("digits of A", "how well a reading repeats")]
    assert sqrt(sum(each.adds**2 for each in warm)) == pytest.approx(0.00405, abs=1e-5)
    assert parts.largest.name == "one warmer than the other"


def test_a_gauge_that_reads_five_hundredths_more_on_a_known_block_says_so():
    (result,) = compare_gauges(read("50.05", "50.05", "50.05", known=(50.0, 0.001), good_to=0.03)).results
    assert result.from_known.difference == pytest.approx(0.05)
    assert result.verdict == "differs"


def test_one_round_tells_a_difference_but_not_what_it_is_good_to():
    answer = compare_gauges(read("50.01 50.02 50.10", agree_within=0.02))
    assert answer.result_of("C").from_others.difference == pytest.approx(0.085)
    assert answer.result_of("C").from_others.good_to is None
    assert "read another" in answer.result_of("C").needs
    assert answer.verdict == "cannot tell" and "one round" in answer.why_none


def test_one_round_with_known_instruments_counts_what_handling_them_costs():
    """Calliper: 0.02 each by hand, √(2·0.02² + 2·0.01²/12) = 0.028577, doubled."""
    answer = compare_gauges(read("50.01 50.02", how="calliper"))
    assert answer.pairs[0].contrast.good_to == pytest.approx(2 * 0.028577, rel=1e-3)


def test_two_gauges_never_name_the_odd_one():
    answer = compare_gauges(read("50.01 50.50", "50.01 50.50"))
    assert answer.odd_one_out == "" and "a third can" in answer.why_none


def test_of_three_evenly_apart_none_is_odd():
    answer = compare_gauges(read("50.0 50.5 51.0", "50.0 50.5 51.0"))
    assert answer.odd_one_out == "" and "cannot tell whether A or C is farther" in answer.why_none


def test_the_odd_one_is_named_though_its_own_readings_scatter():
    """B stands 0.1 from A, C 1.5 from both: C swings by 0.4, and that A less B does not hide it."""
    answer = compare_gauges(read("0.2 0.3 1.6", "0.2 0.3 2.0", "0.2 0.3 1.5"))
    assert answer.odd_one_out == "C"


def test_some_judged_and_some_not_is_no_agreement():
    """Agreement is counted only over what was held against something."""
    readings = read("50.01 50.01", "50.01 50.01", known=(50.0, 0.001))
    gauges = (Gauge(name="A", good_to=0.03), Gauge(name="B"))
    answer = compare_gauges(replace(readings, gauges=gauges))
    assert [result.verdict for result in answer.results] == ["agrees", "not judged"]
    assert answer.verdict == "not judged"


def test_a_difference_below_what_the_readings_tell_makes_nobody_odd():
    answer = compare_gauges(read("50.01 50.02 50.03", "50.03 50.01 50.02", "50.02 50.03 50.02"))
    assert answer.odd_one_out == "" and "no more than the readings can tell" in answer.why_none


@pytest.mark.parametrize(("within", "verdict"), [(0.08, "agrees"), (0.055, "cannot tell"), (0.04, "differs")])
def test_pairs_are_judged_by_what_they_should_agree_within(within, verdict):
    """A and C differ by 0.05, good to 0.0082: two digits of 0.01, 2 · √(2 · 0.01²/12)."""
    answer = compare_gauges(read("50.01 50.06", "50.01 50.06", agree_within=within))
    assert answer.pairs[0].contrast.good_to == pytest.approx(4 * 0.01 / sqrt(24), rel=1e-4)
    assert answer.verdict == verdict


def test_nothing_is_judged_where_nobody_says_how_near_they_should_be():
    assert compare_gauges(read("50.01 50.06", "50.01 50.06")).verdict == "not judged"


hundredths = st.integers(-50, 50).map(lambda steps: steps / 100)
tables = st.lists(st.lists(hundredths, min_size=4, max_size=4), min_size=2, max_size=5)


def of_table(table, again=None) -> GaugeReadings:
    rows = [" ".join(f"{60 + value:.2f}" for value in row) for row in table]
    return read(*(f"{row} / {60 + last:.2f}" for row, last in zip(rows, again)) if again else rows)


@given(table=tables, levels=st.lists(hundredths, min_size=5, max_size=5))
def test_another_level_of_the_source_in_each_round_changes_no_difference(table, levels):
    moved = [[value + level for value in row] for row, level in zip(table, levels)]
    for one, other in zip(compare_gauges(of_table(table)).pairs, compare_gauges(of_table(moved)).pairs):
        assert one.contrast.difference == pytest.approx(other.contrast.difference, abs=1e-9)
        assert one.contrast.good_to == pytest.approx(other.contrast.good_to, abs=1e-6)


@given(table=tables, steps=st.lists(st.integers(-20, 20), min_size=5, max_size=5))
def test_a_source_that_moves_by_equal_steps_changes_no_difference(table, steps):
    moved = [[value + step * number / 100 for number, value in enumerate(row)] for row, step in zip(table, steps)]
    again = [row[0] + 4 * step / 100 for row, step in zip(table, steps)]
    for one, other in zip(compare_gauges(of_table(table)).pairs, compare_gauges(of_table(moved, again)).pairs):
        assert one.contrast.difference == pytest.approx(other.contrast.difference, abs=1e-9)
        assert other.contrast.budget.uncertainty >= one.contrast.budget.uncertainty - 1e-9


@given(table=tables)
def test_a_difference_has_the_other_sign_the_other_way_round(table):
    answer = compare_gauges(of_table(table))
    forth, back = answer.between("A", "C"), answer.between("C", "A")
    assert forth.difference == pytest.approx(-back.difference, abs=1e-12)
    assert forth.good_to == pytest.approx(back.good_to)
    assert answer.between("A", "Z") is None


@example(table=[[0.0, 0.0, -0.05, -0.01], [0.0, 0.01, -0.02, -0.01], [0.0, 0.02, 0.1, -0.01]], turn=[2, 1, 0, 3])
@given(table=tables, turn=st.permutations(range(4)))
def test_the_sequence_of_the_gauges_decides_nothing(table, turn):
    answer = compare_gauges(of_table(table))
    turned = compare_gauges(of_table([[row[number] for number in turn] for row in table]))
    name = {"ABCD"[position]: "ABCD"[number] for position, number in enumerate(turn)}
    assert name.get(turned.odd_one_out, "") == answer.odd_one_out or not turned.odd_one_out and not answer.odd_one_out


THERMOMETER = """
    96.90 98.18 98.25 98.61 99.03 99.49 99.56 99.74 99.89 100.07 100.33 100.42 100.68 100.95 101.11 101.20 101.57 101.84 102.36 102.72
"""
"""JCGM 100:2008, 4.4.3, table 1: twenty readings of one temperature [°C]."""


def test_twenty_readings_of_a_thermometer_are_as_printed():
    """JCGM 100:2008, 4.4.3: mean 100.14 (100.145), s 1.49 (1.489), of the mean 0.33 (0.333); here with the last digit besides."""
    (result,) = compare_gauges(read(*THERMOMETER.split(), known=(100.0, 1e-9))).results
    repeats = result.from_known.budget.largest
    assert result.mean == pytest.approx(100.145, abs=5e-4)
    assert repeats.uncertainty == pytest.approx(0.333, abs=5e-4)
    assert repeats.uncertainty * sqrt(20) == pytest.approx(1.489, abs=5e-4)
    assert repeats.degrees_of_freedom == 19
