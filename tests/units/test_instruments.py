"""What a tool can tell: its standard uncertainty, and the bores that flat jaws read short."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.units import read_reading
from stackcheck.units.instruments import INSTRUMENTS, bore_from_chord, is_measured, standard_uncertainty


@pytest.mark.parametrize(
    ("tool", "step", "outside", "inside"),
    [
        ("calliper 0.1", 0.0, 0.045, 0.053), ("calliper 0.05", 0.0, 0.038, 0.047), ("calliper", 0.0, 0.024, 0.031),
        ("micrometer", 0.01, 0.005, None), ("micrometer", 0.001, 0.004, None), ("pin gauge", 0.0, None, 0.006),
        ("rule", 0.0, 0.27, 0.27),
    ],
)  # fmt: skip
def test_each_tool_has_the_uncertainty_of_its_budget(tool, step, outside, inside):
    """Budgets worked by hand with JCGM 100:2008; a micrometer takes no bore."""
    own = INSTRUMENTS[tool]
    for wanted, is_inside in ((outside, False), (inside, True)):
        got = standard_uncertainty(own, step_mm=step, inside=is_inside)
        assert got == (None if wanted is None else pytest.approx(wanted, abs=0.0016))


def test_the_budget_agrees_with_a_package_for_uncertainties():
    from uncertainties import ufloat

    terms = [ufloat(0, 0.1 / 12**0.5), ufloat(0, 0.05 / 3**0.5), ufloat(0, 0.02)]
    assert standard_uncertainty(INSTRUMENTS["calliper 0.1"]) == pytest.approx(sum(terms).std_dev)


def test_many_readings_of_a_coarse_scale_stay_coarse():
    """Nobody reads a shim to a hundredth by averaging a scale of tenths."""
    coarse = INSTRUMENTS["calliper 0.1"]
    assert standard_uncertainty(coarse, readings=1000) > 0.04


@given(st.floats(1, 500), st.floats(0, 0.9))
def test_flat_jaws_read_a_bore_short_and_never_long(diameter, flat):
    read = (diameter**2 - flat**2) ** 0.5
    assert read <= diameter
    assert bore_from_chord(read, flat) == pytest.approx(diameter)


def test_a_coarse_calliper_may_be_named():
    assert read_reading("18.1 cal 0.1").how == "calliper 0.1"
    assert read_reading("18.02 cal").how == "calliper"
    assert read_reading("18.02 cal").step_mm == 0.01
    assert read_reading("18.02 cal ±0.05").own_good_to


def test_every_tool_says_where_its_figures_come_from():
    assert all(tool.source for tool in INSTRUMENTS.values())


@pytest.mark.parametrize("how", INSTRUMENTS)
def test_a_reading_below_half_a_step_is_not_measured(how):
    half = INSTRUMENTS[how].resolution_mm / 2
    assert is_measured(half, how) and not is_measured(half * 0.99, how) and not is_measured(0, how)
