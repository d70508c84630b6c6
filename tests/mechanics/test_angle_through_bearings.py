"""A nut turned on by an angle against bearings: the turn is shared between the axle and what it presses, however soft.

Source of the rule: VDI 2230 part 1 (2015), joint diagram (from memory), with a power law in place of the straight line.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.laws import body, one_way_bearing
from stackcheck.mechanics.axial.network import Network, solve
from stackcheck.mechanics.axial.tighten import Joint, frozen, tightened
from stackcheck.mechanics.effects import changed_by
from stackcheck.mechanics.forces import compared_forces, joint_forces
from stackcheck.model.finding import Missing
from stackcheck.value import replace
from tests.builders import found
from tests.mechanics.small import nut_hub
from tests.mechanics.test_joint_pull import FIXED, degrees, torque

PITCH = 1.5


@given(st.floats(200, 5000), st.floats(1, 90), st.floats(5e4, 5e5), st.floats(1e5, 4e5), st.sampled_from([1.5, 10 / 9]))
def test_through_two_bearings_the_turn_is_what_the_axle_and_both_rows_give(snug, angle, k_axle, c, exponent):
    """P·θ/360 = ΔF/k_b + 2 ((F0 + ΔF)/c)^(1/n) - 2 (F0/c)^(1/n): solved by bisection beside the network."""

    def row(force: float) -> float:
        return 2 * (force / c) ** (1 / exponent)

    turn = PITCH * angle / 360
    gained = brentq(lambda more: more / k_axle + row(snug + more) - row(snug) - turn, 0, turn * k_axle + 1)
    rows = Network(elements=(
        one_way_bearing("first", "head", "case", start=0.0, c=c, exponent=exponent, side=-1),
        one_way_bearing("second", "nut", "case", start=0.0, c=c, exponent=exponent, side=1),
    ), fixed={"head": 0.0})  # fmt: skip
    axle = Joint(name="axle", head="head", nut="nut", force=snug, k=k_axle, turned_deg=angle, pitch_mm=PITCH)
    state = solve(frozen(rows, (axle,), tightened(rows, (axle,))))
    assert float(state.forces["axle"][0]) == pytest.approx(snug + gained, rel=1e-6)


@given(st.floats(200, 5000), st.floats(1, 90), st.floats(5e4, 5e5), st.floats(1e5, 5e6))
def test_against_a_tube_the_turn_is_that_of_the_two_straight_springs(snug, angle, k_axle, k_tube):
    tube = Network(elements=(body("tube", "head", "nut", length=50.0, k=k_tube),), fixed={"head": 0.0})
    axle = Joint(name="axle", head="head", nut="nut", force=snug, k=k_axle, turned_deg=angle, pitch_mm=PITCH)
    state = solve(frozen(tube, (axle,), tightened(tube, (axle,), {"nut": 50.0})))
    assert float(state.forces["axle"][0]) == pytest.approx(
        snug + PITCH * angle / 360 / (1 / k_axle + 1 / k_tube), rel=1e-6
    )


TURNED = replace(FIXED, torque=torque(20), angle=degrees(20))


def test_a_hub_that_bears_on_its_tube_gains_as_much_by_the_network_as_by_the_row_of_springs():
    """Two ways of one question: their usual values meet within what the play of the bearings can take."""
    own = replace(nut_hub(), joints=(TURNED,))
    by_network = joint_forces(as_wanted(own), TURNED)
    alone = replace(own, parts=tuple(replace(p, kind="collar") if p.kind == "ball bearing" else p for p in own.parts))
    by_row = joint_forces(as_wanted(alone), TURNED)
    assert by_network.loops and not by_row.loops
    assert by_network.tension_n.usual == pytest.approx(by_row.tension_n.usual, rel=0.1)


def test_without_its_tube_the_same_turn_pulls_far_less_because_the_balls_give():
    own = replace(nut_hub(), joints=(TURNED,))
    sound, bare = (
        joint_forces(each, TURNED) for each in (as_wanted(own), changed_by(own, found(""), Missing(places=("spacer",))))
    )
    (loop,) = bare.loops
    assert loop.pull_slides.usual < 0.8 * sound.tension_n.usual
    assert loop.slides.usual == pytest.approx(loop.pull_slides.usual, rel=1e-4)
    assert np.isfinite(loop.held.usual)


def test_a_turn_that_forces_the_bearings_past_their_limit_leaves_no_figure_of_the_tension():
    """The law of the balls holds no longer there, and the tension would come from it."""
    own = replace(nut_hub(), joints=(TURNED,))
    wanted, without = as_wanted(own), changed_by(own, found(""), Missing(places=("spacer",)))
    sound, bare, change = compared_forces(wanted, without, TURNED)
    assert sound.turned_past is None and sound.tension_n is not None
    (loop,) = bare.loops
    assert bare.turned_past == loop.limit and loop.slides.least > loop.limit.force_n
    assert (bare.tension_n, bare.now_n, bare.settling, bare.stress_mpa, change.tension_n) == (None,) * 5
    by_torque = joint_forces(without, FIXED, torque_nmm=TURNED.torque.nominal)
    assert by_torque.turned_past is None and by_torque.tension_n is not None  # a torque leaves its tension all the same
