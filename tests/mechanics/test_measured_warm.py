"""A length measured warm counts as it is at 20 °C, and what is not known of that stands in its budget by itself."""

from __future__ import annotations

from math import sqrt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.compare import explanations
from stackcheck.errors import SizeError
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.readings import measured_warm, reading_of
from stackcheck.mechanics.lengths import Interval, Term
from stackcheck.mechanics.uncertainty import as_measured
from stackcheck.model.warm_reading import Degrees, Warm, at_20, brought_to_20
from stackcheck.present.warm_words import measured_warm as words
from stackcheck.result import compare

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
STEEL = 11.5e-6


def degrees(least: float, most: float, whose: str = "the parts") -> Degrees:
    return Degrees(text=f"{least:g}..{most:g} °C", least_c=least, most_c=most, whose=whose)


def term(text: str, warm: Warm, *, sign: int = 1, name: str = "ring", metal: str = "steel") -> Term:
    read = measured_warm(reading_of(text), warm, metal=metal)
    return Term(
        place=name, entry=1, name=name, sign=sign, interval=Interval.of_reading(read), how=read.how, text=text, reading=read
    )  # fmt: skip


def test_a_warm_tube_is_shorter_than_it_was_read_with_a_cold_micrometer():
    """58.02 mm of steel, 40 K: 58.02 · 11.5e-6 · 40 = 0.0267 mm."""
    warm = Warm(part=degrees(60, 60), tool=degrees(20, 20, "the instruments"))
    told = measured_warm(reading_of("58.02 mic"), warm, metal="steel")
    assert told.value_mm == pytest.approx(58.02 - 0.0267, abs=5e-4)
    assert told.warm.read_mm == 58.02 and told.text == "58.02 mic"


def test_aluminium_shrinks_twice_as_much():
    warm = Warm(part=degrees(60, 60), tool=degrees(20, 20, "the instruments"))
    told = measured_warm(reading_of("58.02 mic"), warm, metal="aluminium")
    assert told.value_mm == pytest.approx(58.02 - 0.0545, abs=6e-4)


@given(st.floats(-40, 150), st.floats(1, 500))
def test_a_steel_instrument_as_warm_as_a_steel_part_reads_right(kelvin, length):
    assert length * at_20(STEEL, kelvin, STEEL, kelvin) == pytest.approx(length, rel=1e-12)


@given(st.floats(-40, 150), st.floats(0.1, 50), st.floats(0, 40))
def test_the_warmer_the_part_the_shorter_it_is_and_the_warmer_the_instrument_the_longer(kelvin, more, tool):
    assert at_20(STEEL, kelvin + more, STEEL, tool) < at_20(STEEL, kelvin, STEEL, tool)
    assert at_20(STEEL, kelvin, STEEL, tool + more) > at_20(STEEL, kelvin, STEEL, tool)


def test_the_doubts_are_those_of_the_end_gauge():
    """JCGM 100:2008, H.1.3 (figures from memory): 50 mm at 19.9 °C, known to ±0.05 K: 16.6 nm; α to ±1e-6: 2.9 nm."""
    warm = Warm(part=degrees(19.85, 19.95), tool=degrees(20, 20, "the standard"))
    _, doubts = brought_to_20(50.0, warm, "steel", STEEL)
    assert [round(abs(doubt.adds_mm) * 1e6, 1) for doubt in doubts] == [16.6, 2.9]
    assert [doubt.name for doubt in doubts] == ["the temperature of the parts", "the expansion of steel"]


def test_where_nobody_says_how_warm_the_instrument_was_it_is_most_of_the_doubt():
    """Between 20 and 60 °C: 58 · 11.5e-6 · 40/√12 = 0.0077 mm, and half of the growth comes off."""
    told = reading_of("58.02 mic at 60 °C")
    assert told.value_mm == pytest.approx(58.02 - 0.0133, abs=1e-3)
    largest = max(told.warm.doubts, key=lambda doubt: abs(doubt.adds_mm))
    assert "instrument" in largest.name and "nobody said" in largest.name
    assert largest.adds_mm == pytest.approx(58.02 * STEEL * 40 / sqrt(12), rel=1e-6)
    assert "lay between 20 °C and the part" in words([("tube", told)])


def test_one_temperature_behind_several_parts_adds_linearly_and_cancels_across_a_gap():
    warm = Warm(part=degrees(50, 70), tool=degrees(20, 20, "the instruments"))
    one, other = term("58.02 mic", warm), term("58.02 mic", warm, name="seat")
    less = term("58.02 mic", warm, name="seat", sign=-1)

    def adds(*terms: Term) -> float:
        budget = {each.name: each.uncertainty_mm for each in as_measured(terms).contributions}
        return budget["the temperature of the parts"]

    assert adds(one) == pytest.approx(58.02 * STEEL * 10 / sqrt(3))
    assert adds(one, other) == pytest.approx(2 * adds(one))
    assert adds(one, less) == pytest.approx(0.0, abs=1e-12)


def test_the_instrument_stays_as_good_as_it_was():
    """The offset of a micrometer is no larger for being used on something warm: its budget is a sum of squares."""
    warm = Warm(part=degrees(50, 70), tool=degrees(20, 20, "the instruments"))
    total = as_measured((term("58.02 mic", warm),))
    budget = {each.name: each.uncertainty_mm for each in total.contributions}
    assert budget["micrometer"] == pytest.approx(0.005)
    assert total.good_to_mm == pytest.approx(2 * sqrt(sum(u**2 for u in budget.values())))


def test_a_list_says_it_once_for_all_or_with_one_reading(tmp_path):
    text = (ROOT / "examples/06-front-hub-short-tube-and-ring.toml").read_text()
    path = tmp_path / "warm.toml"
    path.write_text(text.replace("finished = true", 'finished = true\nparts_at = "60 °C"\ninstruments_at = "22 °C"', 1))
    cold, reference = read_found(ROOT / "examples/06-front-hub-short-tube-and-ring.toml", LIBRARY.reference)
    warm, _ = read_found(path, LIBRARY.reference)
    tube = next(entry.number for entry in cold.entries if entry.part == "spacer-tube")
    before, after = (found.entry(tube).size("length") for found in (cold, warm))
    assert before.warm is None and after.warm.read_mm == before.value_mm
    assert after.value_mm == pytest.approx(before.value_mm * at_20(STEEL, 40, STEEL, 2), abs=1e-3)
    path.write_text(text.replace(f'"{before.text}"', f'"{before.text} at 60 °C, instrument 22 °C"', 1))
    own, _ = read_found(path, LIBRARY.reference)
    assert own.entry(tube).size("length").value_mm == after.value_mm
    others = [reading for entry in own.entries for _, reading in entry.sizes if entry.number != tube]
    assert others and all(reading.warm is None for reading in others)
    assert explanations(reference, own)[0].findings and compare(reference, own).verdict == "differs"


def test_a_hub_of_aluminium_that_stayed_on_is_one_of_aluminium(tmp_path):
    text = (ROOT / "examples/06-front-hub-short-tube-and-ring.toml").read_text()
    path = tmp_path / "warm.toml"
    path.write_text(text.replace("finished = true", 'finished = true\nparts_at = "60 °C"\ninstruments_at = "20 °C"', 1))
    found, reference = read_found(path, LIBRARY.reference)
    (hub,) = [item for item in found.measured if item.place == "hub"]
    assert reference.part_at("hub").material == hub.reading.warm.metal == "aluminium"
    assert all(item.reading.warm is None for item in found.measured if item.gap)


@pytest.mark.parametrize(
    "text, said",
    [
        ("58.02 mic at 400 °C", "400 °C"), ("58.02 mic at 60", "60"), ("58.02 mic at 60 mm", "mm"),
        ("58.02 mic at -300 °C", "-300 °C"), ("58.02 mic at 60 °C, instrument 900 °C", "900 °C"),
    ],
)  # fmt: skip
def test_a_temperature_that_cannot_be_is_refused(text, said):
    with pytest.raises(SizeError) as refused:
        reading_of(text)
    assert refused.value.said == said


def read(text: str) -> Term:
    own = reading_of(text)
    return Term(
        place="a", entry=1, name="ring", sign=1, interval=Interval.of_reading(own), how=own.how, text=text, reading=own
    )


def test_a_step_coarser_than_the_instrument_is_a_doubt_of_its_own():
    """JCGM 100:2008, F.2.2.1: step/√12 = 0.0289 of a tenth, beside the 0.005 of the micrometer."""
    budget = {each.name: each.uncertainty_mm for each in as_measured((read("58.0 mic"),)).contributions}
    assert budget == {
        "step of the figure of the ring": pytest.approx(0.1 / sqrt(12)),
        "micrometer": pytest.approx(0.005),
    }


def test_a_step_within_what_the_instrument_is_good_to_is_not_counted_twice():
    assert [each.name for each in as_measured((read("58.02 mic"),)).contributions] == ["micrometer"]
    assert [each.name for each in as_measured((read("58.0 cal ±0.05"),)).contributions] == ["calliper"]


def test_the_steps_of_several_figures_add_as_squares_where_the_offset_adds_linearly():
    three = as_measured((read("58.0 mic"), read("20.0 mic"), read("4.0 mic")))
    steps = [each.uncertainty_mm for each in three.contributions if each.name.startswith("step")]
    offset = next(each.uncertainty_mm for each in three.contributions if each.name == "micrometer")
    assert offset == pytest.approx(0.015) and steps == [pytest.approx(0.1 / sqrt(12))] * 3
    assert three.good_to_mm == pytest.approx(2 * sqrt(0.015**2 + 3 * 0.01 / 12))
