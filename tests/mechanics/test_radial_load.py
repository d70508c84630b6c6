"""The axial force inside a bearing that a load across makes: integrals, a ring of balls summed up, and the catalogue's rule."""

from __future__ import annotations

from math import cos, pi, radians, sin, tan
from pathlib import Path

import pytest
from scipy.integrate import quad

from stackcheck.formats.library import Library
from stackcheck.mechanics.radial_load import self_thrusts, thrust_of_radial

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")


@pytest.mark.parametrize(("exponent", "across", "along"), [(1.5, 0.2288, 0.2782), (1.1, 0.2453, 0.3090)])
def test_the_factor_is_that_of_the_printed_integrals(exponent, across, along):
    """Harris, Rolling Bearing Analysis, load integrals at ε = 0.5 (from memory): point 0.2288 and 0.2782, line, as printed with n = 1.1, 0.2453 and 0.3090."""
    whole = [quad(lambda psi, p=p: cos(psi) ** p, -pi / 2, pi / 2)[0] / (2 * pi) for p in (exponent + 1, exponent)]
    assert whole == [pytest.approx(across, abs=2e-4), pytest.approx(along, abs=2e-4)]
    factor = thrust_of_radial(radial_n=1.0, contact_deg=45, exponent=exponent)
    assert float(factor) == pytest.approx(whole[1] / whole[0], rel=1e-9)


def test_a_ring_of_balls_summed_one_by_one_pushes_as_hard():
    """Many balls, each pressed with cos^1.5 of its angle from the load; the rings kept from moving along."""
    balls, slant = 2000, radians(25)
    press = [max(0.0, cos(2 * pi * i / balls)) ** 1.5 for i in range(balls)]
    across = sum(q * cos(slant) * cos(2 * pi * i / balls) for i, q in enumerate(press))
    along = sum(q * sin(slant) for q in press)
    assert float(thrust_of_radial(radial_n=across, contact_deg=25, exponent=1.5)) == pytest.approx(along, rel=1e-4)


def test_a_taper_pushes_by_half_the_load_over_its_axial_factor():
    """SKF General Catalogue (rule read): F_a = 0.5 F_r/Y; Y = 0.4 cot α (ISO 281). Rounded factors: within 1 in 100."""
    contact = 12.95
    assert float(thrust_of_radial(radial_n=1000, contact_deg=contact, exponent=10 / 9)) == pytest.approx(
        0.5 * 1000 / (0.4 / tan(radians(contact))), rel=0.01
    )


def test_the_two_tapers_of_the_rear_hub_each_with_its_guessed_angle():
    found = self_thrusts(LIBRARY.reference("freight-tricycle/rear-hub"), 1500.0)
    assert [each.place for each in found] == ["bearing-large", "bearing-small"]
    assert (
        1500 * 1.26 * tan(radians(10)) * 0.88
        < found[0].thrust_n.least
        < found[0].thrust_n.most
        < 1500 * 1.26 * tan(radians(16)) * 1.12
    )
    assert "contact angle" in found[0].thrust_n.main_cause


def test_both_of_a_pair_that_touches_are_told():
    """No length stands between the two back to back, so no gap does either; each has its slant all the same."""
    assert [each.place for each in self_thrusts(LIBRARY.reference("bilge-pump/shaft-bearings"), 1e3)] == [
        "thrust-bearing@1",
        "thrust-bearing@2",
    ]


def test_ball_bearings_without_a_slant_push_nothing():
    assert self_thrusts(LIBRARY.reference("freight-tricycle/front-hub"), 1500.0) == ()
