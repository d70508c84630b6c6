"""The words that everything shown is made of."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.model.part import Reading
from stackcheck.present.names import counted, end_words, in_place_words
from stackcheck.present.spread_words import rounded_stretch
from stackcheck.present.words import gap_words, limits_words, listed, mm, place_words, reading_words
from stackcheck.value import replace
from tests.builders import hub, reference


@pytest.mark.parametrize(
    ("value", "said"),
    [(18.0, "18.00"), (0.025, "0.025"), (57.94, "57.94"), (-0.0, "0.00"), (125.6400000001, "125.64"), (0.0004, "0.00")],
)
def test_a_length_is_said_to_a_hundredth_or_a_thousandth_where_it_has_one(value, said):
    assert mm(value) == said


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (3.02, 3.64, "gap 3.02 to 3.64"),
        (-0.05, -0.01, "overlap 0.01 to 0.05"),
        (-0.05, 0.03, "between overlap 0.05 and gap 0.03"),
        (0.0, 0.0, "gap 0.00"),
        (-1e-14, 0.64, "gap 0.00 to 0.64"),
        (-0.04, 1e-14, "overlap 0.00 to 0.04"),
    ],
)
def test_less_than_no_gap_is_an_overlap(low, high, said):
    assert gap_words(low, high) == said


@given(low=st.floats(-5, 5), width=st.floats(0, 5))
def test_a_gap_is_never_said_with_a_bare_minus_sign(low, width):
    assert "-" not in gap_words(low, low + width)


@pytest.mark.parametrize(
    ("least", "most", "said"),
    [(0.0, 0.1, "0.00 to 0.10"), (None, 0.3, "at most 0.30"), (2.5, None, "at least 2.50"), (None, None, "no limits given"),
     (-0.02, 0.01, "between overlap 0.02 and gap 0.01")],
)  # fmt: skip
def test_limits_on_one_side_are_said_as_one_sided(least, most, said):
    assert limits_words(least, most) == said


def test_a_reading_is_shown_with_its_instrument_and_what_it_is_good_to():
    reading = Reading(text="57.94 mic", value_mm=57.94, good_to_mm=0.01, how="micrometer")
    assert reading_words(reading) == "57.94 by micrometer, good to 0.01"


def test_a_reading_of_about_nothing_is_a_sentence_without_a_minus_sign():
    reading = Reading(text="0 rule", value_mm=0.0, good_to_mm=0.5, how="rule")
    assert reading_words(reading) == "0.0 by rule, good to 0.5"


def test_a_place_is_named_by_its_end_and_part():
    assert place_words(hub(), "seal@left") == "left seal"
    assert place_words(hub(), "spacer") == "spacer"


def test_a_place_named_after_the_gear_end_is_at_the_gear_end():
    """ "Pinion bearing gear" is a gear to whoever reads it."""
    ends = replace(hub(), ends=("left end", "right end"))
    assert place_words(ends, "bearing@left") == "bearing at the left end"


@pytest.mark.parametrize(
    ("ends", "tag", "said", "end"),
    [
        (("motor side", "far side"), "motor-side", "bearing at the motor side", "motor side"),
        (("drive end", "fan end"), "drive", "bearing at the drive end", "drive end"),
        (("top", "bottom"), "top", "top bearing", "top end"),
        (("top", "bottom"), "2", "bearing 2", "top end"),
    ],
)
def test_an_end_of_two_words_is_called_by_both(ends, tag, said, end):
    """Whoever calls the ends of a shaft "motor side" and "far side" reads those words, without an "end" behind them."""
    both = replace(reference(f"bearing@{tag} hub"), ends=ends)
    assert place_words(both, f"bearing@{tag}") == said
    assert end_words(both, 0) == end


@pytest.mark.parametrize(
    ("items", "said"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
)
def test_a_list_is_said_as_one_would(items, said):
    assert listed(items) == said


def test_one_point_and_two_points():
    assert (counted(1, "point"), counted(2, "point"), counted(0, "loop")) == ("1 point", "2 points", "0 loops")


def test_a_place_that_is_a_word_of_a_name_is_no_place_inside_that_name():
    """Place "stand-off" is the stand-off washer, and a stand-off washer is not "the stand-off washer washer"."""
    assembly = reference("arm! stand-off bearing@left bearing@right")
    named = (replace(part, name="Stand-off washer") if part.id == "stand-off" else part for part in assembly.parts)
    assembly = replace(assembly, parts=tuple(named))
    assert in_place_words(assembly, "length of the stand-off washer") == "length of the stand-off washer"
    assert in_place_words(assembly, "room beside stand-off") == "room beside the stand-off washer"


@pytest.mark.parametrize(
    ("stretch", "said"),
    [((-0.013, -0.007), "0.007 to 0.013"), ((-0.0355, -0.0045), "0.004 to 0.035"), ((0.028, 0.072), "0.03 to 0.07")],
)
def test_a_stretch_narrower_than_its_hundredths_is_said_in_thousandths(stretch, said):
    """An offset ground into two spacers is microns: "overlap 0.01" would say nothing of it."""
    assert gap_words(*rounded_stretch(*stretch)).partition(" ")[2] == said
