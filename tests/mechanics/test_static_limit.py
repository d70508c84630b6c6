"""Where a preload is no longer told: the static rating of the bearings, estimated, against catalogue ratings (from memory)."""

from __future__ import annotations

import pytest

from stackcheck.mechanics.static_limit import ALONG, GIVEN_QUARTER, HALF, QUARTER, Y0_BY_DEG, static_limit
from stackcheck.model.part import Amount, Part
from stackcheck.value import replace
from tests.builders import size


def bearing(kind: str, bore: float, outside: float, width: float, **more) -> Part:
    sizes = (("bore", size(bore)), ("outside", size(outside)), ("length", size(width)))
    return Part(id="bearing", name="Bearing", kind=kind, sizes=sizes, **more)


ANGULAR = bearing("angular bearing", 35, 72, 17, standard="7207 B")
TAPER = bearing("taper bearing", 25, 52, 16.25)


@pytest.mark.parametrize(
    ("part", "allowed_n"),
    [
        (bearing("ball bearing", 20, 47, 14), 0.5 * 6_550),  # 6204: C0 6.55 kN
        (ANGULAR, 18_400 / 0.26),  # 7207 B: C0 18.4 kN, 40 degrees
        (TAPER, 33_500 / (0.22 * 4.33)),  # 30205: C0 33.5 kN, 13 degrees
    ],
    ids=["deep groove", "angular", "taper"],
)
def test_the_estimate_is_within_a_quarter_of_what_catalogues_allow_along_the_axis(part, allowed_n):
    assert static_limit(part).force_n == pytest.approx(allowed_n, rel=0.25)


@pytest.mark.parametrize(
    "part",
    [
        bearing("ball bearing", 20, 42, 12, standard="6004"),
        bearing("ball bearing", 20, 32, 7, standard="61804"),
        bearing("ball bearing", 12, 32, 10, standard="6201"),
        bearing("ball bearing", 10, 30, 9),
    ],
    ids=["series 0", "series 8", "bore of 12", "bore of 10, no number"],
)
def test_a_light_or_small_bearing_carries_a_quarter_along_its_axis_and_not_half(part):
    """SKF General Catalogue, deep groove ball bearings, axial load (read)."""
    rated = Amount(text="4 kN", dimension="force", nominal=4000.0)
    assert static_limit(part).called == QUARTER
    told = static_limit(replace(part, static_rating=rated))
    assert (told.force_n, told.called) == (1000.0, GIVEN_QUARTER)


def test_the_estimate_of_a_light_bearing_is_within_a_quarter_of_its_catalogue():
    """6004: C0 5.0 kN (from memory)."""
    own = bearing("ball bearing", 20, 42, 12, standard="6004")
    assert static_limit(own).force_n == pytest.approx(0.25 * 5000, rel=0.25)


def test_each_kind_says_what_its_limit_is():
    assert static_limit(bearing("ball bearing", 20, 47, 14)).called == HALF
    assert static_limit(ANGULAR).called == static_limit(TAPER).called == ALONG


def test_a_steeper_contact_angle_carries_more_along_the_axis():
    carried = [
        static_limit(replace(ANGULAR, contact_angle=Amount(text="", dimension="angle", nominal=deg))).force_n
        for deg in Y0_BY_DEG
    ]
    assert carried == sorted(carried)


def test_no_limit_is_guessed_where_nobody_gives_the_contact_angle_or_the_sizes():
    assert static_limit(replace(ANGULAR, standard="")) is None
    assert static_limit(replace(TAPER, sizes=())) is None
