"""Two preloaded bearings under a load across: against plain sums over balls, and at both ends of what a handbook says."""

from __future__ import annotations

from math import cos, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from stackcheck.mechanics.loaded_pair import axial_of, through_a_rigid_pair
from stackcheck.mechanics.radial_load import thrust_at_half

BALLS, ROLLERS = 1.5, 10 / 9
exponents = st.sampled_from([BALLS, ROLLERS])


def sums(a: float, r: float, n: float) -> tuple[float, float]:
    """Force along and across of a bearing of 360 balls, each of its own."""
    each = [(max(a + r * cos(2 * pi * i / 360), 0.0) ** n, cos(2 * pi * i / 360)) for i in range(360)]
    return sum(force for force, _ in each) / 360, sum(force * lean for force, lean in each) / 360


@given(st.floats(-0.6, 3), st.floats(0.7, 5), exponents)
def test_one_bearing_is_the_sum_over_its_balls(a, r, n):
    along, across = sums(a, r, n)
    if across > 1e-3:
        assert float(axial_of(depth=a, radial=across, exponent=n)) == pytest.approx(along, rel=0.01, abs=2e-3)


@settings(max_examples=30)
@given(st.floats(0, 5e3), st.floats(100, 5e3), exponents)
def test_two_that_are_loaded_alike_keep_their_places(preload, radial, n):
    """Nothing moves the axle: each bears what it does pressed by its preload's own depth."""
    depth = preload ** (1 / n)
    across = lambda r: sums(depth, r, n)[1] - radial
    r = brentq(across, 0.0, 10 * (radial + preload + 1) ** (1 / n))
    told = float(through_a_rigid_pair(preload_n=preload, radial_n=(radial, radial), exponent=n))
    assert told == pytest.approx(sums(depth, r, n)[0], rel=0.01)


@given(st.floats(100, 5e3), exponents)
def test_without_preload_it_is_the_thrust_and_far_above_it_the_preload(radial, n):
    """SKF General Catalogue, pairs without an outside axial load: F_a is the thrust of the load, or the preload stays."""
    thrust = radial * thrust_at_half(n)
    assert float(through_a_rigid_pair(preload_n=0.0, radial_n=(radial, radial), exponent=n)) == pytest.approx(
        thrust, rel=0.005
    )
    much = 50 * thrust
    assert float(through_a_rigid_pair(preload_n=much, radial_n=(radial, 0.0), exponent=n)) == pytest.approx(
        much, rel=0.005
    )


@given(st.floats(0, 5), st.floats(100, 5e3), st.floats(0, 1), exponents)
def test_preload_and_thrust_never_add_by_more_than_a_third_of_the_lesser(share, radial, other, n):
    thrust = radial * thrust_at_half(n)
    preload = share * thrust
    told = float(through_a_rigid_pair(preload_n=preload, radial_n=(radial, other * radial), exponent=n))
    larger, lesser = max(preload, thrust), min(preload, thrust)
    assert 0.9 * larger <= told <= larger + 0.34 * lesser + 0.005 * larger
