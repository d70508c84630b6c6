"""Limits are one-sided, wear only thins and widens, a coat sits on every size: the laws of the likelihood."""

from math import inf

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats
from scipy.integrate import quad

from stackcheck.formats.readings import as_reading
from stackcheck.stray.candidates import Candidate, Limits, standard
from stackcheck.stray.likelihood import (
    gate,
    kind_factor,
    looks_factor,
    reach,
    size_density,
    sizes_density,
    worn_cdf,
)
from stackcheck.stray.seen import Stray, Taken, looks_in, taken_size
from stackcheck.units import read_reading


def taken(name, value, u=0.01):
    return Taken(name=name, text=f"{value}", value_mm=value, u_mm=u, how="micrometer")


def candidate(**limits):
    return Candidate(
        kind="washer", name="it", source="part", sizes=tuple(Limits(name, *pair) for name, pair in limits.items())
    )


sizes = st.floats(0.5, 60)
small = st.floats(0.002, 0.3)


@given(sizes, small, small, st.floats(0.002, 0.1))
def test_a_density_over_all_readings_is_one(low, width, u, wear):
    limits = Limits("length", low, low + width)
    start, end = low - 60 * wear - 8 * u, low + width + 8 * u
    total, _ = quad(
        lambda m: size_density(taken("length", m, u), limits, wear), start, end, points=[low, low + width], limit=400
    )
    assert total == pytest.approx(1, abs=2e-3)


@given(st.floats(-0.3, 0.3), st.floats(0.005, 0.05), st.floats(0.005, 0.1))
def test_wear_and_reading_error_convolve_as_scipy_says(x, u, wear):
    """The exponentially modified normal distribution, turned to the thinning side."""
    wanted = 1 - stats.exponnorm(K=wear / u, loc=0, scale=u).cdf(-x)
    assert worn_cdf(x, u, wear) == pytest.approx(wanted, abs=1e-6)


@given(sizes, small, small, st.floats(0.01, 0.1))
def test_wear_explains_a_thin_part_better_than_a_thick_one(low, width, beyond, wear):
    limits, u = Limits("length", low, low + width), 0.005
    assume(beyond > 2 * u)
    thin = size_density(taken("length", low - beyond, u), limits, wear)
    assert thin >= size_density(taken("length", low + width + beyond, u), limits, wear)


@given(sizes, small, small, st.floats(0.01, 0.1))
def test_wear_explains_a_wide_bore_better_than_a_narrow_one(low, width, beyond, wear):
    limits, u = Limits("bore", low, low + width), 0.005
    assume(beyond > 2 * u)
    wide = size_density(taken("bore", low + width + beyond, u), limits, wear)
    assert wide >= size_density(taken("bore", low - beyond, u), limits, wear)


def test_limits_are_even_and_no_bell():
    """The edge of a band is as likely as its middle: parts are bought from the edge too."""
    limits = Limits("length", 2.7, 3.3)
    middle, edge = (size_density(taken("length", value, 0.005), limits, 0.001) for value in (3.0, 3.28))
    assert edge == pytest.approx(middle, rel=0.01)


def test_paint_on_every_size_at_once_is_believed_and_paint_on_one_is_not():
    ring = candidate(bore=(20.0, 20.1), outside=(29.9, 30.0), length=(2.95, 3.0))
    painted = Stray(
        what="", conditions=("painted",), taken=(taken("bore", 19.95), taken("outside", 30.05), taken("length", 3.06))
    )
    bare = Stray(what="", taken=painted.taken)
    assert sizes_density(painted, ring) > 100 * sizes_density(bare, ring)
    uneven = Stray(
        what="", conditions=("painted",), taken=(taken("bore", 20.1), taken("outside", 30.05), taken("length", 3.06))
    )
    assert sizes_density(uneven, ring) < sizes_density(painted, ring) / 10


@pytest.mark.parametrize(("size", "value"), [("bore", 19.8), ("length", 3.2)])
def test_a_bore_too_small_or_a_ring_too_thick_cannot_be_wear(size, value):
    ring = candidate(bore=(20.0, 20.1), length=(2.95, 3.0))
    assert gate(reach(Stray(what="", conditions=("worn",), taken=(taken(size, value),))), ring) == (size,)


@pytest.mark.parametrize(("size", "value"), [("bore", 20.3), ("length", 2.8)])
def test_what_wear_can_do_stays_in(size, value):
    ring = candidate(bore=(20.0, 20.1), length=(2.95, 3.0))
    assert gate(reach(Stray(what="", conditions=("worn",), taken=(taken(size, value),))), ring) == ()


def test_a_size_that_the_candidate_does_not_define_never_counts_for_it():
    defined, undefined = candidate(bore=(20.0, 20.1), length=(2.9, 3.0)), candidate(bore=(20.0, 20.1))
    stray = Stray(what="", taken=(taken("bore", 20.05), taken("length", 2.95)))
    assert sizes_density(stray, defined) > 10 * sizes_density(stray, undefined)


def test_kinds_are_taken_for_their_neighbours_only():
    """Flat rings are named for one another; nobody calls a bearing a washer."""
    assert kind_factor("washer", "washer") > kind_factor("washer", "shim ring") > kind_factor("washer", "disc spring")
    assert kind_factor("washer", "disc spring") > kind_factor("washer", "ball bearing")
    assert kind_factor("", "ball bearing") == 1


def test_a_chamfer_tells_two_washers_of_equal_sizes_apart_only_where_it_was_looked_for():
    plain, chamfered = (next(c for c in standard() if c.name == name) for name in ("ISO 7089 M16", "ISO 7090 M16"))
    not_looked, without = Stray(what=""), Stray(what="", features=(("chamfer", False),))
    assert looks_factor(not_looked, plain) == looks_factor(not_looked, chamfered)
    assert looks_factor(without, plain) > 10 * looks_factor(without, chamfered)
    painted = Stray(what="", features=(("chamfer", False),), conditions=("painted",))
    assert looks_factor(painted, plain) == looks_factor(painted, chamfered)


def read(text, name="length"):
    return taken_size(name, as_reading(read_reading(text)))


def test_a_shim_on_a_coarse_calliper_is_not_measured_rather_than_nothing():
    assert "not measured" in read("0.04 cal 0.1")
    assert read("0.1 cal 0.1").value_mm == 0.1


def test_the_bore_that_flat_jaws_read_short_is_added_back():
    assert read("5.00 cal", "bore").value_mm == pytest.approx(5.016, abs=0.0005)


def test_a_micrometer_takes_no_bore_and_the_answer_says_so():
    bore = read("20.00 mic", "bore")
    assert bore.u_mm == pytest.approx(0.031, abs=0.001)
    assert "takes no such size" in bore.remark


def test_a_written_plus_minus_is_an_interval_of_two_standard_uncertainties():
    assert read("20.00 cal ±0.1").u_mm == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("words", "field", "wanted"),
    [
        ("magnetic", "magnetic", True), ("not magnetic", "magnetic", False), ("a magnet does not hold it", "magnetic", False),
        ("rusty", "magnetic", None), ("no marking", "marking", ""), ("no chamfer", "features", (("chamfer", False),)),
        ("lies flat on a plate", "features", (("dished", False),)), ("one face painted", "conditions", ("painted",)),
        ("no tabs seen", "features", (("tab", False),)), ("brass", "material", "brass"),
    ],
)  # fmt: skip
def test_looks_are_read_from_words_and_not_looked_at_is_a_state_of_its_own(words, field, wanted):
    assert getattr(looks_in(words), field) == wanted


def test_nothing_measured_tells_nothing():
    assert sizes_density(Stray(what=""), candidate()) == pytest.approx(1)
    assert sizes_density(Stray(what=""), candidate()) < inf
