"""Two tapers in an aluminium housing under heat, back to back (O) and face to face (X): against sums by hand.

The steel shaft and the rings grow by 11.5, the housing by 23.5 millionths for each kelvin (handbook values, from
memory). The diameter of an outer race is (3D + d)/4 (NSK, Rolling Bearings catalogue, eq. 9.8), and Δd across it is
Δd/(2 tan α) along the axis (geometry of a cone).
"""

from __future__ import annotations

from math import radians, tan
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.heat import COLD, FOLLOWS, Heat, heat_in
from stackcheck.mechanics.set_gap import set_gap
from stackcheck.mechanics.set_pair import set_loops
from stackcheck.mechanics.warm_gaps import warm_gap
from stackcheck.value import replace

LIBRARY = Library(Path(__file__).parents[2] / "examples/warm-housing")
BACK = LIBRARY.reference("landing-stage-hoist/shaft-o")
FACE = LIBRARY.reference("landing-stage-hoist/shaft-x")
STEEL, ALUMINIUM = 11.5e-6, 23.5e-6
RACE_MM = (3 * 52 + 25) / 4
ALONG = RACE_MM / tan(radians(14.04))
"""Both bearings together: what a unit of growth across their races is along the axis."""


def back_to_back(heat: Heat):
    ((joint, loop),) = set_loops(BACK)
    return set_gap(as_wanted(BACK), joint, loop, heat=heat)


def face_to_face(heat: Heat, reference=FACE):
    (loop,) = reference.loops
    return warm_gap(as_wanted(reference), loop, heat)


def test_back_to_back_the_length_takes_play_and_the_races_give_it():
    """60 mm of housing between the outer rings, 40 K: 0.0288 less; the races, following half: 0.0434 more."""
    answer = back_to_back(Heat(at_c=60))
    assert answer.by_length_mm.usual == pytest.approx(-60 * (ALUMINIUM - STEEL) * 40)
    assert answer.by_races_mm.usual == pytest.approx(0.5 * (ALUMINIUM - STEEL) * 40 * ALONG)
    assert round(answer.by_length_mm.usual, 4) == -0.0288 and round(answer.by_races_mm.usual, 4) == 0.0434


def test_face_to_face_both_give_play():
    """92.2 of aluminium and 0.6 of steel less 60 and twice 16.25 of steel, 40 K: 0.0444; the races as much again."""
    answer = face_to_face(Heat(at_c=60))
    by_hand = (92.2 * ALUMINIUM + 0.6 * STEEL - (60 + 2 * 16.25) * STEEL) * 40
    assert answer.wider_mm == pytest.approx(by_hand)
    assert answer.by_races_mm.usual == pytest.approx(0.5 * (ALUMINIUM - STEEL) * 40 * ALONG)
    assert round(answer.wider_mm, 4) == 0.0444 and round(answer.by_races_mm.usual, 4) == 0.0434


def test_how_far_the_outer_rings_follow_their_seats_is_a_range_that_is_said():
    least, _, most = FOLLOWS
    answer = face_to_face(Heat(at_c=60))
    whole = (ALUMINIUM - STEEL) * 40 * ALONG
    assert (
        least * whole <= answer.by_races_mm.least < 0.1 * whole
        and 0.9 * whole < answer.by_races_mm.most <= most * whole
    )
    assert answer.by_races_mm.main_cause == "share of its seat's growth that an outer ring follows"
    assert "follows the growth of its seat" in answer.defaults[0]


@settings(max_examples=20, deadline=None)
@given(st.floats(-70, 19) | st.floats(21, 250))
def test_the_races_of_both_pairs_give_the_same_and_only_the_length_changes_sign(at_c):
    back, face = back_to_back(Heat(at_c=at_c)), face_to_face(Heat(at_c=at_c))
    assert face.by_races_mm.usual == pytest.approx(back.by_races_mm.usual, rel=1e-9)
    warmer = 1 if at_c > 20 else -1
    assert back.by_length_mm.usual * warmer < 0 < face.wider_mm * warmer


@settings(max_examples=20, deadline=None)
@given(st.floats(-70, 250))
def test_all_of_steel_nothing_happens_to_either_pair_but_what_is_the_scale_of_the_play(at_c):
    own = replace(FACE, parts=tuple(replace(part, material="steel") for part in FACE.parts))
    answer = face_to_face(Heat(at_c=at_c), own)
    drawn = 92.2 + 0.6 - 60 - 2 * 16.25
    assert answer.wider_mm == pytest.approx(drawn * STEEL * (at_c - 20), abs=1e-12)
    assert answer.by_races_mm.usual == pytest.approx(0, abs=1e-12)


def test_shimmed_in_a_cold_shed_the_play_counts_from_there():
    """Put together at 15 °C, running at 60 °C: 45 K and not 40."""
    warm, from_20 = face_to_face(heat_in(FACE, "running")), face_to_face(Heat(at_c=60))
    assert warm.wider_mm == pytest.approx(from_20.wider_mm * 45 / 40)
    assert warm.by_races_mm.usual == pytest.approx(from_20.by_races_mm.usual * 45 / 40)
    back = back_to_back(heat_in(BACK, "running"))
    assert back.by_length_mm.usual == pytest.approx(-60 * (ALUMINIUM - STEEL) * 45)
    assert back_to_back(heat_in(BACK, "assembly")).then_mm is None


def test_inner_rings_hotter_than_the_outer_ones_take_play_face_to_face_too():
    """30 K on shaft and inner rings: longer by 92.5 mm of steel, and wider where the rollers run."""
    hot = Heat(named=(("shaft", 50.0), ("inner rings", 50.0)))
    answer = face_to_face(hot)
    assert answer.by_races_mm.usual == pytest.approx(-STEEL * 30 * ALONG)
    assert answer.wider_mm < 0 and face_to_face(COLD).wider_mm == 0
