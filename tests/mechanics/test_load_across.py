"""A load across shared by two bearings: against a beam of sympy, a maker's tables, a textbook, and by hand."""

from __future__ import annotations

from math import atan, degrees, radians, tan
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.load_across import (
    BACK_TO_BACK,
    FACE_TO_FACE,
    TANDEM,
    LoadPoint,
    lever_shares,
    load_across,
    thrust_anywhere,
)
from stackcheck.mechanics.loop_forces import either_way
from stackcheck.mechanics.pressure_centre import OUTER_OF_WIDTH, angular_centre, taper_centre
from stackcheck.mechanics.radial_load import self_thrusts, thrust_of_radial
from stackcheck.mechanics.static_limit import static_factors, static_rating
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.part import Amount
from stackcheck.result.forces import all_forces
from stackcheck.value import replace
from tests.mechanics.small import nut_hub
from tests.mechanics.test_ring_share import catalogue

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
FORTY = Amount(text="40 deg", dimension="angle", nominal=40.0)
MIDDLE = LoadPoint(text="hub", place="hub")


def angulars(*facings: str, **own):
    """The hub of 20x47x14 bearings on seats 57.95 apart, with angular ones of 40 degrees."""
    plain = nut_hub(kind="angular bearing", facings=facings)
    parts = tuple(replace(p, contact_angle=FORTY, **own) if p.id == "bearing" else p for p in plain.parts)
    return as_wanted(replace(plain, parts=parts))


# --- the lever rule ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("at", [0, 30, 50, 100, 140, -35])
def test_a_beam_of_sympy_gives_the_same_shares_on_the_span_and_on_both_overhangs(at):
    """sympy.physics.continuum_mechanics.beam, reactions solved from shear and moment; one is negative on an overhang."""
    sympy = pytest.importorskip("sympy")
    from sympy.physics.continuum_mechanics.beam import Beam

    r1, r2 = sympy.symbols("r1 r2")
    beam = Beam(400, 1, 1)
    beam.apply_load(-1000, 100 + at, -1)
    beam.apply_load(r1, 100, -1)
    beam.apply_load(r2, 200, -1)
    beam.bc_deflection = [(100, 0), (200, 0)]
    beam.solve_for_reaction_loads(r1, r2)
    theirs = [float(beam.reaction_loads[r]) for r in (r1, r2)]
    assert lever_shares(load_n=1000.0, point_mm=at, first_mm=0.0, second_mm=100.0) == pytest.approx(tuple(theirs))


@given(load=st.floats(1, 1e5), at=st.floats(-500, 500), first=st.floats(-200, 200), span=st.floats(1, 500))
def test_shares_balance_force_and_moment(load, at, first, span):
    one, other = lever_shares(load_n=load, point_mm=at, first_mm=first, second_mm=first + span)
    assert one + other == pytest.approx(load)
    assert one * first + other * (first + span) == pytest.approx(load * at, abs=1e-6 * load * 1000)


@given(at=st.floats(-500, 500), span=st.floats(1, 500))
def test_seen_from_the_other_end_the_shares_change_places(at, span):
    assume(abs(at) > 1e-6)
    one, other = lever_shares(load_n=1.0, point_mm=at, first_mm=0.0, second_mm=span)
    mirrored = lever_shares(load_n=1.0, point_mm=span - at, first_mm=0.0, second_mm=span)
    assert (other, one) == pytest.approx(mirrored, abs=1e-9)


# --- pressure centres and the force along the axis, against tables ----------------------------------------------------


def numbers(row: dict[str, str], *columns: str) -> list[float]:
    return [float(row[f"SKT:{column}"]) for column in columns]


def test_the_pressure_centres_of_angular_bearings_are_those_of_a_maker():
    rows = [numbers(row, "d", "D", "B", "a") for row in catalogue("angular_contact_ball")]
    assert len(rows) == 9
    for bore, outside, width, a in rows:
        own = angular_centre(bore_mm=bore, outside_mm=outside, width_mm=width, contact_deg=40)
        assert own == pytest.approx(a, abs=0.25)


def test_the_pressure_centres_of_tapers_are_those_of_a_maker_within_their_rounding():
    """SKF prints whole millimetres; tan α = e/1.5 (ISO 281) with e in two digits."""
    rows = [numbers(row, "d", "D", "C", "a", "e") for row in catalogue("tapered_roller")]
    assert len(rows) == 27
    for bore, outside, width, a, e in rows:
        own = taper_centre(bore_mm=bore, outside_mm=outside, outer_width_mm=width, contact_deg=degrees(atan(e / 1.5)))
        assert own == pytest.approx(a, abs=1.0)


def test_the_width_of_the_outer_ring_lies_in_the_share_that_is_taken():
    shares = [c / t for c, t in (numbers(row, "C", "T") for row in catalogue("tapered_roller"))]
    assert OUTER_OF_WIDTH[0] <= min(shares) and max(shares) <= OUTER_OF_WIDTH[2]
    assert sum(shares) / len(shares) == pytest.approx(OUTER_OF_WIDTH[1], abs=0.015)


def test_the_force_along_the_axis_of_tapers_is_half_the_load_over_the_y_of_a_maker():
    """F_a = 0.5 F_r/Y (SKF, rule read); Y in two digits."""
    for e, y in (numbers(row, "e", "Y") for row in catalogue("tapered_roller")):
        own = thrust_of_radial(radial_n=1000.0, contact_deg=degrees(atan(e / 1.5)), exponent=10 / 9)
        assert float(own) == pytest.approx(500 / y, rel=0.05)


@pytest.mark.parametrize(("radial", "printed"), [(2170, 680), (2654, 832)])
def test_two_tapers_of_a_shaft_with_a_helical_gear(radial, printed):
    """Shigley, 9th ed., Example 11-8 (from memory): F_i = 0.47 F_r/K with K = 1.5, K = 0.389 cot α.

    0.47/0.389 comes to 1.21 tan α; the integrals for lines give 1.26: 4 in 100 more.
    """
    contact = degrees(atan(0.389 / 1.5))
    own = float(thrust_of_radial(radial_n=radial, contact_deg=contact, exponent=10 / 9))
    assert own == pytest.approx(printed, rel=0.05) and own > printed


# --- pairs ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("facings", "lie", "span"),
    # a = 14/2 + 67/4 tan 40 = 21.05 from the wide face; seats 57.95 apart, rings 14 wide.
    [
        (("second", "first"), BACK_TO_BACK, 57.95 + 2 * 21.05),
        (("first", "second"), FACE_TO_FACE, 57.95 + 2 * 14 - 2 * 21.05),
        (("first", "first"), TANDEM, 57.95 + 14),
    ],
)
def test_how_the_pair_lies_decides_how_far_apart_its_pressure_centres_are(facings, lie, span):
    found = load_across(angulars(*facings), 1000.0, MIDDLE)
    assert found.lie == lie and found.span_mm.usual == pytest.approx(span, abs=0.02)
    if lie != TANDEM:  # the load in the middle of the hub, and so of the pair
        assert [each.radial_n.usual for each in found.shares] == pytest.approx([500, 500], abs=0.1)


def test_ball_bearings_share_from_their_middles_and_push_nothing_along():
    found = load_across(as_wanted(nut_hub()), 1000.0, MIDDLE)
    assert found.span_mm.usual == pytest.approx(57.95 + 14) and found.lie == ""
    assert found.axial_n.most == 0 and all(each.thrust_n.most == 0 for each in found.shares)


def test_on_an_overhang_one_bearing_is_pressed_the_other_way():
    """40 mm beyond the hub, 33 beyond the middle of the right bearing: R1 = -F o/s, R2 = F (s + o)/s."""
    point = LoadPoint(text="", place="hub", face="second", along_mm=(40.0, 40.0, 40.0))
    found = load_across(as_wanted(nut_hub()), 1000.0, point)
    span, over = 57.95 + 14, 40.0 - 7
    assert [each.radial_n.usual for each in found.shares] == pytest.approx(
        [-1000 * over / span, 1000 * (span + over) / span], rel=1e-3
    )


def test_the_larger_of_the_two_thrusts_goes_through_both_and_a_preload_above_it_stays():
    alone = load_across(angulars("second", "first"), 1000.0, LoadPoint(text="", place="hub", face="first"))
    larger = max(alone.shares, key=lambda each: each.thrust_n.usual).thrust_n
    assert alone.axial_n.usual == pytest.approx(larger.usual)
    tight = Spanned(usual=5000.0, least=4000.0, most=6000.0)
    held = load_across(angulars("second", "first"), 1000.0, MIDDLE, tight)
    assert 4000 <= held.axial_n.least and held.axial_n.most <= 6000 + max(each.thrust_n.most for each in held.shares)


def test_with_a_preload_it_lies_between_the_larger_of_the_two_and_a_pair_held_rigidly():
    """Preload as large as the thrust: at most a third of it more than either, and never their sum."""
    made = load_across(angulars("second", "first"), 1000.0, MIDDLE).axial_n.usual
    exact = Spanned(usual=made, least=made, most=made)
    told = load_across(angulars("second", "first"), 1000.0, MIDDLE, exact).axial_n
    assert made < told.usual < 1.2 * made and told.most < 1.45 * made
    assert told.least > 0.95 * made and told.main_cause in {cause.name for cause in told.causes}
    assert "give of hub and axle beside the bearings" in {cause.name for cause in told.causes}


def test_the_static_load_and_its_rating_are_those_of_iso_76():
    rating = Amount(text="8.3 kN", dimension="force", nominal=8300.0)
    arrangement = angulars("second", "first", static_rating=rating)
    found = load_across(arrangement, 1000.0, MIDDLE)
    part = next(p for p in arrangement.reference.parts if p.id == "bearing")
    assert static_factors(part) == (0.5, 0.26) and static_rating(part) == 8300
    for each in found.shares:  # P0 = 0.5 F_r + 0.26 F_a, at least F_r
        p0 = max(500.0, 0.5 * 500 + 0.26 * found.axial_n.usual)
        assert each.limit.is_given and each.static_n.usual == pytest.approx(p0, rel=1e-3)
        assert each.rating.usual == pytest.approx(8300 / p0, rel=1e-3)


def test_a_y0_of_a_maker_is_that_of_its_angle():
    """Y0 = 0.22 cot α; SKF prints Y0 in one digit, some of them cut off, and e in two."""
    for e, y0 in (numbers(row, "e", "Y0") for row in catalogue("tapered_roller")):
        assert 0.22 / tan(radians(degrees(atan(e / 1.5)))) == pytest.approx(y0, abs=0.1)


def test_an_estimated_rating_is_told_with_its_doubt_and_a_load_past_it_holds_no_figure():
    found = load_across(as_wanted(nut_hub()), 30_000.0, MIDDLE)
    assert found.is_beyond and all(not each.limit.is_given and each.rating.most < 1 for each in found.shares)


def test_bearings_without_a_slant_press_through_their_middles():
    """Needle bearings 14 wide, 58 apart by the spacer: 72 from middle to middle."""
    found = load_across(as_wanted(nut_hub(kind="needle bearing")), 1000.0, MIDDLE)
    assert found.span_mm.usual == pytest.approx(57.95 + 14)
    assert [each.radial_n.usual for each in found.shares] == pytest.approx([500, 500])


# --- the preload beside it --------------------------------------------------------------------------------------------


def across_a_pair(*, facings: tuple[str, str]):
    """The thrust pair of the pump without its third bearing, 1 kN just beyond it."""
    pump = LIBRARY.reference("bilge-pump/shaft-bearings")
    ways = dict(zip(("thrust-bearing@1", "thrust-bearing@2"), facings))
    alone = replace(
        pump,
        parts=tuple(replace(part, kind="ring") if part.id == "float-bearing" else part for part in pump.parts),
        places=tuple(replace(place, facing=ways.get(place.name, place.facing)) for place in pump.places),
    )
    point = LoadPoint(text="beside it", place="thrust-bearing@2", face="second", along_mm=(10.0, 10.0, 10.0))
    told = all_forces(alone, None, radial_n=1000.0, radial_at=point)
    return told.across.reference, told.joints[0].reference.loops[0]


def test_a_pair_that_touches_keeps_the_preload_that_its_joint_tells():
    load, pair = across_a_pair(facings=("second", "first"))
    assert load.preload_n == either_way(pair.slides, pair.held)


def test_a_preload_that_is_there_only_if_somebody_holds_the_outer_rings_is_not_counted_on():
    load, pair = across_a_pair(facings=("first", "second"))
    assert pair.only_if_held and load.preload_n is None


# --- what cannot be told ----------------------------------------------------------------------------------------------


def test_three_bearings_share_no_load_by_a_lever():
    pump = LIBRARY.reference("bilge-pump/shaft-bearings")
    found = load_across(as_wanted(pump), 1000.0, LoadPoint(text="shaft", place="shaft"))
    assert found.shares == () and "3 bearings" in found.needs[0]


def test_a_face_to_face_pair_whose_centres_fall_together_shares_none():
    """Seats 5 apart: 5 + 28 - 42.1 is less than nothing."""
    plain = nut_hub(kind="angular bearing", facings=("first", "second"), hub={"length": (5.0, 4.98, 5.02)})
    parts = tuple(replace(p, contact_angle=FORTY) if p.id == "bearing" else p for p in plain.parts)
    found = load_across(as_wanted(replace(plain, parts=parts)), 1000.0, MIDDLE)
    assert found.shares == () and "may fall together" in found.needs[0]


def test_without_a_contact_angle_the_centre_is_not_guessed():
    found = load_across(as_wanted(nut_hub(kind="angular bearing", facings=("second", "first"))), 1000.0, MIDDLE)
    assert found.needs == ("contact angle of the bearing",)


@pytest.mark.parametrize(
    "reference", ["freight-tricycle/rear-hub", "boat-trailer/hub", "freight-tricycle/steering-head"]
)
def test_the_hubs_of_the_fleet_share_a_load_though_their_outer_rings_have_no_length(reference):
    own = LIBRARY.reference(reference)
    middle = next(p for p in own.line if own.part_at(p).kind == "hub" or p == "bearing@top")
    found = load_across(as_wanted(own), 1000.0, LoadPoint(text=middle, place=middle))
    assert found.lie == BACK_TO_BACK
    assert sum(each.radial_n.usual for each in found.shares) == pytest.approx(1000)


@given(share=st.floats(0, 1), load=st.floats(100, 5000))
def test_wherever_between_them_a_load_acts_both_carry_what_the_whole_span_says(share, load):
    """The usual values at any place lie within the range that is told without one."""
    hub = LIBRARY.reference("freight-tricycle/rear-hub")
    thrusts = self_thrusts(hub, load)
    least, most = thrust_anywhere(as_wanted(hub), thrusts)
    first, second = (each.thrust_n for each in thrusts)
    for made in ("least", "usual", "most"):
        carried = max(share * getattr(first, made), (1 - share) * getattr(second, made))
        assert least * (1 - 1e-9) <= carried <= most
    even = second.least / (first.least + second.least)
    assert max(even * first.least, (1 - even) * second.least) == pytest.approx(least)
