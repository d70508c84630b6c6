"""The stiffness of a ball between its grooves: its integrals and its ellipse against scipy."""

from math import cos, pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.special import ellipe, ellipk

from stackcheck.mechanics.axial.bearings import (
    POISSON,
    STEEL_MPA,
    elliptic_integrals,
    estimated_deep_groove,
    hertz_stiffness,
)


@given(st.floats(0, 1 - 1e-9))
def test_the_elliptic_integrals_are_those_of_scipy(m):
    assert elliptic_integrals(m) == pytest.approx((ellipk(m), ellipe(m)), rel=1e-12)


@given(st.floats(3, 100), st.floats(1.3, 3.0), st.floats(0, 45))
def test_the_stiffness_of_a_ball_is_the_one_whose_ellipse_a_root_finder_finds(bore, wider, contact):
    inside = estimated_deep_groove(bore_mm=bore, outside_mm=bore * wider)
    gamma = inside.ball_mm * cos(radians(contact)) / inside.pitch_mm
    soft = 0.0
    for side in (1, -1):
        race, groove = side * 2 * gamma / (1 - side * gamma), -1 / inside.osculation  # times the diameter of a ball
        total = 4 + race + groove

        def differs(ratio: float, race=race, groove=groove, total=total) -> float:
            first, second = ellipk(1 - ratio**-2), ellipe(1 - ratio**-2)
            wanted = (race - groove) / total
            return ((ratio**2 + 1) * second - 2 * first) / ((ratio**2 - 1) * second) - wanted

        ratio = brentq(differs, 1 + 1e-6, 1e3)
        first, second = ellipk(1 - ratio**-2), ellipe(1 - ratio**-2)
        curved = total / inside.ball_mm
        load = 3 * (1 - POISSON**2) / (STEEL_MPA * curved)
        soft += 2 * first / pi * (pi / (2 * ratio**2 * second)) ** (1 / 3) * load ** (2 / 3) * curved / 2
    assert hertz_stiffness(inside, contact_deg=contact) == pytest.approx(soft**-1.5, rel=1e-9)
