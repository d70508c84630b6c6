"""Parts at their own temperatures: what lengths, races and clearances do, against closed forms and against neutral cases."""

from __future__ import annotations

from math import atan, degrees, radians, tan
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.bearings import axial_play, estimated_deep_groove
from stackcheck.mechanics.force_terms import force_terms
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.heat import Heat, clearance_growth
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.set_gap import SetGap, set_gap
from stackcheck.mechanics.set_pair import set_loops
from stackcheck.model.expansion import EXPANSION_PER_K
from stackcheck.model.part import Amount
from stackcheck.value import replace
from tests.mechanics.test_set_gap import KNOWN, rear_hub

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
ALPHA = 11.5e-6
HUB, WIDTHS = 46.0, 15.0 + 14.0
APART = HUB + WIDTHS / 2
"""Between the middles of the two inner rings of the rear hub [mm]: 30205 and 30204, ring widths 15 and 14."""

RACES = ((3 * 52 + 25) / 4, (3 * 47 + 20) / 4)


def warmed(heat: Heat, *, contact: float = 12.95, looks: str = "O", hub: str = "steel", play: float = 0.05) -> SetGap:
    angle = Amount(text=f"{contact} deg", dimension="angle", nominal=contact)
    own = rear_hub(**KNOWN | {"contact_angle": angle})
    facing = (
        {"bearing-large": "second", "bearing-small": "first"}
        if looks == "O"
        else {"bearing-large": "first", "bearing-small": "second"}
    )
    own = replace(
        own, places=tuple(replace(place, facing=facing.get(place.name, place.facing)) for place in own.places),
        parts=tuple(replace(part, material=hub) if part.id == "hub" else part for part in own.parts),
    )  # fmt: skip
    ((joint, loop),) = set_loops(own)
    return set_gap(as_wanted(own), joint, loop, measured=Interval.exactly(play), heat=heat)


def hotter(kelvin: float) -> Heat:
    """The hub with its outer rings warmer than what turns inside them."""
    return Heat(named=(("hub", 20 + kelvin), ("outer rings", 20 + kelvin)))


def added(answer: SetGap) -> float:
    return answer.then_mm.usual - 0.05


def apexes(contact: float) -> float:
    """From the two outer races to the points of their cones, both together [mm]."""
    return sum(RACES) / (2 * tan(radians(contact)))


def test_with_both_apexes_in_one_point_heat_changes_no_play():
    """Rusu, Tudose and Tudose, Acta Technica Napocensis 56 (2013) (abstract read): the neutral pair back to back."""
    neutral = degrees(atan(sum(RACES) / 2 / APART))
    answer = warmed(hotter(40), contact=neutral)
    assert added(answer) == pytest.approx(0, abs=1e-9)
    assert answer.by_length_mm.usual == pytest.approx(-ALPHA * 40 * APART)
    assert answer.by_races_mm.usual == pytest.approx(ALPHA * 40 * APART)


@settings(max_examples=12, deadline=None)
@given(st.floats(-60, -1) | st.floats(1, 120), st.floats(9, 45), st.sampled_from("OX"))
def test_the_play_grows_as_two_cones_scaled_from_one_point_move_apart(kelvin, contact, looks):
    """A hub that is α ΔT larger all over carries the points of its races with it: apart by their distance, however it is cut up."""
    between = apexes(contact) - APART if looks == "O" else apexes(contact) + APART
    assert added(warmed(hotter(kelvin), contact=contact, looks=looks)) == pytest.approx(
        ALPHA * kelvin * between, abs=1e-9
    )


def test_face_to_face_both_parts_give_play_and_back_to_back_they_work_against_one_another():
    back, face = (warmed(hotter(40), looks=looks) for looks in "OX")
    assert back.by_length_mm.usual < 0 < back.by_races_mm.usual
    assert 0 < face.by_length_mm.usual and 0 < face.by_races_mm.usual


@settings(max_examples=6, deadline=None)
@given(st.floats(-70, 250))
def test_all_of_one_metal_and_one_temperature_keeps_its_play(at_c):
    assert added(warmed(Heat(at_c=at_c))) == pytest.approx(0, abs=1e-9)


def test_an_aluminium_hub_draws_its_races_along_as_far_as_they_follow():
    answer = warmed(Heat(at_c=60), hub="aluminium")
    more = (23.5e-6 - ALPHA) * 40
    assert answer.by_length_mm.usual == pytest.approx(-more * HUB)
    assert answer.by_races_mm.usual == pytest.approx(0.5 * more * apexes(12.95))
    assert answer.by_races_mm.main_cause == "share of its seat's growth that an outer ring follows"
    assert answer.by_races_mm.least == pytest.approx(0, abs=0.1 * more * apexes(12.95))


def test_play_used_up_by_heat_is_preload():
    answer = warmed(hotter(-40), play=0.02)  # the hub left in the cold: its races close in
    assert answer.then_mm.most < 0
    assert answer.then_n.least > 500
    assert warmed(hotter(40), play=0.02).then_n.most == 0


def test_balls_and_inner_rings_hotter_than_the_outer_ones_take_clearance():
    """NSK, Rolling Bearings catalogue, eq. 9.6 and 9.7: α ΔT (4D + d)/5; axial play 2 √(A G - G²/4), twice bounded by G."""
    reference = LIBRARY.reference("freight-tricycle/front-hub")
    cold, warm = (
        joint_forces(as_wanted(reference), reference.joints[0], heat=heat).loops[0].float_slides
        for heat in (Heat(), Heat(named=(("inner rings", 30.0),)))
    )
    groove = estimated_deep_groove(bore_mm=20, outside_mm=47).groove_distance_mm
    clearance = 0.6 * reference.part("bearing").size("radial_clearance").nominal_mm
    lost = -clearance_growth(race_mm=41.6, inner_kelvin=10, outer_grows=0.0)
    plays = [axial_play(groove_distance_mm=groove, radial_clearance_mm=clearance - less) for less in (0.0, lost)]
    halves = (
        14 * EXPANSION_PER_K["steel"] * 10
    )  # by which the inner rings stand further apart: the hub has that much more room
    assert cold.usual - warm.usual == pytest.approx(plays[0] - plays[1] - halves, rel=0.25)
    assert warm.usual < cold.usual


def test_angular_bearings_lose_more_play_than_their_lengths_say():
    """The pinion, inner rings 20 K hotter: two races of (4 x 72 + 35)/5, 40 degrees, less the rings' own growth between,
    and what the tension that this growth adds takes off what stands between their middles.
    """
    reference = LIBRARY.reference("orchard-tractor/pinion-shaft")
    cold, warm = (
        joint_forces(as_wanted(reference), reference.joints[0], heat=heat).loops[0].float_slides
        for heat in (Heat(), Heat(named=(("inner rings", 40.0),)))
    )
    races = 2 * ALPHA * 20 * (4 * 72 + 35) / 5 / (2 * tan(radians(40)))
    terms = force_terms(as_wanted(reference), reference.joints[0], 120e3)
    soft = {part.name: 1 / part.stiffness_n_per_mm for part in terms.parts if part.stiffness_n_per_mm}
    between = soft["Spacer tube"] + soft["Preload shim ring"] + soft["Pinion bearing"]
    more = 2 * 17 * ALPHA * 20 / (1 / terms.axle_n_per_mm + 1 / terms.stack_n_per_mm)
    assert cold.usual - warm.usual == pytest.approx(races - 17 * ALPHA * 20 + more * between, abs=0.0005)


def test_a_joint_that_cannot_be_told_still_says_how_warm_it_was_asked_for():
    """Else the page would head an answer for 60 °C with 20."""
    hub = LIBRARY.reference("front-hub")
    bare = replace(hub.joints[0], torque=None)
    assert joint_forces(as_wanted(hub), bare, heat=Heat(at_c=60)).heat == Heat(at_c=60)
