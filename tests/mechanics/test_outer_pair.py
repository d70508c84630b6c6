"""Two tapers whose outer rings an adjuster or a cover presses (X): closed forms, the nut's own answer, heat by hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.bearings import palmgren_tapers
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.set_gap import PAST_MM, SHIM_MM, set_gap
from stackcheck.mechanics.set_pair import set_loops
from stackcheck.model.part import Amount
from stackcheck.model.reference import Reference
from stackcheck.result.forces import set_gaps
from stackcheck.value import replace
from tests.builders import size

LIBRARY = Library(Path(__file__).parents[2] / "examples/warm-housing")
ADJUSTER, COVER = (LIBRARY.reference(f"landing-stage-hoist/shaft-{name}") for name in ("adjuster", "x"))
STEEL, ALUMINIUM = 11.5e-6, 23.5e-6
ROW = palmgren_tapers(rollers=17, roller_mm=10, contact_deg=14.04)


def known(reference: Reference) -> Reference:
    """With all that is known of the rollers."""
    return replace(reference, parts=tuple(
        replace(part, sizes=(*part.sizes, ("roller_length", size(10.0))), rollers=17,
                contact_angle=Amount(text="14.04 deg", dimension="angle", nominal=14.04))
        if part.kind == "taper bearing" else part for part in reference.parts
    ))  # fmt: skip


def answer(reference: Reference, **more):
    ((joint, loop),) = set_loops(reference)
    return set_gap(as_wanted(reference), joint, loop, **more)


def rows_alone(past_mm: float, gives_mm_per_n: float = 0.0) -> float:
    """2 (F/c)^0.9 + F/k = what is turned or shimmed past no play."""
    return brentq(lambda force: 2 * (force / ROW) ** 0.9 + gives_mm_per_n * force - past_mm, 1, 1e6)


@pytest.mark.parametrize("reference", [ADJUSTER, COVER], ids=["adjuster", "cover"])
def test_past_no_play_the_rollers_take_what_they_would_between_rigid_parts_less_what_gives(reference):
    """Shaft 1e5 N/mm at the softest, cover and screws 5 µm a kN, two of them: nothing is softer than that."""
    gap = answer(known(reference))
    assert rows_alone(PAST_MM, 1e-5 + 1e-5 + 2e-6) * 0.9 < gap.past_n.least
    assert gap.past_n.least < gap.past_n.usual < rows_alone(PAST_MM)
    assert gap.past_n.most < rows_alone(PAST_MM) * 1.15
    assert gap.past_n.main_cause


def test_an_eighth_of_a_turn_is_an_eighth_of_the_pitch_and_a_shim_is_a_shim():
    turned, shimmed = answer(known(ADJUSTER)).step, answer(known(COVER)).step
    assert (turned.mm, turned.turn) == (pytest.approx(1.5 / 8), 1 / 8)
    assert (shimmed.mm, shimmed.turn) == (SHIM_MM, 0)
    assert turned.force_n.usual > shimmed.force_n.usual > answer(known(COVER)).past_n.usual


@settings(max_examples=10, deadline=None)
@given(st.floats(0.005, 0.05))
def test_what_is_set_past_no_play_is_that_preload(past_mm):
    """Set 0.02 past, an adjuster presses as its rate says; and play is no preload."""
    own = answer(known(ADJUSTER), measured=Interval.exactly(-past_mm)).now_n
    assert (
        own.usual == pytest.approx(rows_alone(past_mm, own_gives := _gives(own.usual, past_mm)), rel=1e-6)
        and own_gives > 0
    )
    assert answer(known(ADJUSTER), measured=Interval.exactly(past_mm)).now_n is None


def _gives(force: float, past_mm: float) -> float:
    return (past_mm - 2 * (force / ROW) ** 0.9) / force


def test_an_adjuster_at_no_play_to_a_little_past_may_be_either():
    gap = answer(ADJUSTER, measured=Interval(nominal_mm=0.0, least_mm=-0.01, most_mm=0.01))
    assert gap.now_n.least == pytest.approx(0, abs=1) and gap.now_n.most > 100


def test_warm_the_housing_gives_play_by_its_length_whatever_presses_the_rings():
    """60 mm of shaft and twice 15 of rings in aluminium, 40 K: 0.0432 more; the cover's path is 92.2 long."""
    warm = answer(known(ADJUSTER), heat=Heat(at_c=60))
    assert warm.by_length_mm.usual == pytest.approx((60 + 2 * 15) * (ALUMINIUM - STEEL) * 40, rel=0.05)
    covered = answer(known(COVER), heat=Heat(at_c=60))
    by_hand = (92.2 * ALUMINIUM + 0.6 * STEEL - (60 + 2 * 16.25) * STEEL) * 40
    assert covered.by_length_mm.usual == pytest.approx(by_hand)
    assert warm.by_races_mm.usual == pytest.approx(covered.by_races_mm.usual)


@pytest.mark.parametrize("reference", [ADJUSTER, COVER], ids=["adjuster", "cover"])
def test_in_the_cold_the_rollers_are_pressed_once_the_play_is_used_up(reference):
    tight = Interval.exactly(0.01)
    cold = answer(known(reference), measured=tight, heat=Heat(at_c=-20))
    assert cold.then_mm.usual < 0 < cold.then_n.usual
    assert cold.then_n.usual == pytest.approx(answer(known(reference), measured=cold_play(cold)).now_n.usual, rel=1e-6)
    assert answer(known(reference), measured=tight, heat=Heat(at_c=60)).then_n.most == pytest.approx(0, abs=1)


def cold_play(gap) -> Interval:
    return Interval.exactly(gap.then_mm.usual)


def test_outer_rings_that_look_at_each_other_cannot_be_pressed_from_outside():
    turned = {"bearing@gear": "second", "bearing@rope": "first"}
    places = tuple(
        replace(place, facing=turned[place.name]) if place.name in turned else place for place in ADJUSTER.places
    )
    gap = answer(replace(ADJUSTER, places=places))
    assert gap.past_n is None and "look away from each other" in gap.needs[0]


def test_a_gap_that_nobody_sets_is_the_sum_of_its_lengths_each_an_unknown():
    """A cover without a word on what sets it: shim, housing and shaft leave the play, and the widest of them is named."""
    stacks = tuple(
        replace(stack, items=tuple(
            replace(item, set_by="", least_mm=-0.1, most_mm=0.1) if not isinstance(item, str) else item
            for item in stack.items
        ))
        for stack in COVER.stacks
    )  # fmt: skip
    summed = known(replace(COVER, stacks=stacks))
    shorter = replace(summed, parts=tuple(
        replace(part, sizes=tuple((key, size(91.90, 91.88, 91.92) if key == "length" else each) for key, each in part.sizes))
        if part.id == "housing" else part for part in summed.parts
    ))  # fmt: skip
    (result,) = set_gaps(shorter, None)
    gap = result.reference
    assert gap.is_sum and gap.play.least_mm < 0 < gap.now_n.most
    assert gap.play.nominal_mm == pytest.approx(91.90 + 0.6 - 60 - 2 * 16.25)
    assert gap.now_n.main_cause.startswith("length of the")
