"""What instruments are good to: the uncertainty of a reading, what is not measured at all, and jaws in a small bore."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.units import INSTRUMENTS, bore_from_flat_jaws_mm, is_measured, read_reading, standard_uncertainty_mm

MEASURING = [name for name, tool in INSTRUMENTS.items() if tool.resolution_mm]


@pytest.mark.parametrize("how", INSTRUMENTS)
def test_every_word_typed_for_an_instrument_is_read_as_that_instrument(how):
    assert {read_reading(f"18.02 {word}").how for word in INSTRUMENTS[how].words} == {how}


@pytest.mark.parametrize("how", INSTRUMENTS)
def test_every_instrument_says_what_it_is_poor_at(how):
    assert INSTRUMENTS[how].poor_at


@pytest.mark.parametrize(
    ("how", "inside", "expected"),
    [("rule", False, 0.27), ("coarse calliper", False, 0.045), ("calliper", False, 0.024), ("calliper", True, 0.031), ("micrometer", False, 0.005), ("pin gauge", True, 0.006)],
)
def test_uncertainty_by_hand_calculation(how, inside, expected):
    """r²/12 + E²/3 + h², worked by hand to the digits shown."""
    digits = 2 if how == "rule" else 3
    assert round(standard_uncertainty_mm(how, inside=inside), digits) == expected


def test_a_micrometer_reaches_no_bore_and_a_marking_measures_nothing():
    assert standard_uncertainty_mm("micrometer", inside=True) is None
    assert standard_uncertainty_mm("marking") is None


@given(how=st.sampled_from(MEASURING), readings=st.integers(1, 50), step=st.floats(0, 1))
def test_repeating_helps_only_down_to_what_the_instrument_is(how, readings, step):
    """Averaging a coarse scale never makes it a fine one."""
    once, often = (standard_uncertainty_mm(how, readings=n, step_mm=step, inside=INSTRUMENTS[how].error_mm is None) for n in (1, readings))
    assert INSTRUMENTS[how].resolution_mm / math.sqrt(12) <= often <= once


@pytest.mark.parametrize("how", MEASURING)
def test_a_reading_below_half_a_step_is_not_measured(how):
    half = INSTRUMENTS[how].resolution_mm / 2
    assert is_measured(half, how) and not is_measured(half * 0.99, how) and not is_measured(0, how)


@given(bore=st.floats(2, 100), flat=st.floats(0, 1))
def test_jaws_laid_into_a_bore_give_the_bore_again(bore, flat):
    """The chord at half a flat from the middle is what the jaws show."""
    shown = 2 * math.sqrt((bore / 2) ** 2 - (flat / 2) ** 2)
    assert bore_from_flat_jaws_mm(shown, flat_mm=flat) == pytest.approx(bore)


@pytest.mark.parametrize("wrong", [{"readings": 0}, {"step_mm": -0.1}, {"step_mm": math.nan}])
def test_what_cannot_be_is_refused(wrong):
    with pytest.raises(ValueError, match=next(iter(wrong))):
        standard_uncertainty_mm("calliper", **wrong)


@pytest.mark.parametrize(("read", "flat"), [(0, 0.4), (math.nan, 0.4), (5, -1)])
def test_a_bore_that_cannot_be_is_refused(read, flat):
    with pytest.raises(ValueError, match="_mm = "):
        bore_from_flat_jaws_mm(read, flat_mm=flat)
