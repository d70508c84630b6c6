"""Side load and shift of the members that a stack stands between: against sympy's beam, the network, and by hand.

The hub of `axle_hub`: 126 between legs that stand 129.2 apart, so 3.2 to spare. `clamped` has no gap on purpose.
"""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.laws import held, tension
from stackcheck.mechanics.axial.network import Network, solve
from stackcheck.mechanics.axial.stiffness import in_series, leg_stiffness, tied_legs
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.supports import support_forces
from stackcheck.model.part import Amount
from stackcheck.model.reference import Support
from stackcheck.present.supports_page import support_words
from stackcheck.value import replace
from tests.builders import size
from tests.mechanics.small import FREE_GAP, axle_hub, mirrored, nut_hub


def k(value: float) -> Amount:
    return Amount(text=f"{value} N/mm", dimension="stiffness", nominal=value)


def leg(place: str = "leg@right", stiffness: float = 180.0, **more) -> Support:
    return Support(place=place, stiffness=k(stiffness), end=more.pop("end", "free"), **more)


def forces(support: Support, *others: Support, gap: bool = False, own=None, room: float = 3.2):
    """What one support carries with this much room between the members."""
    own = own or axle_hub()
    if not gap:
        own = replace(
            own, stacks=tuple(replace(s, items=tuple(item for item in s.items if item != FREE_GAP)) for s in own.stacks)
        )
    own = replace(own, supports=(support, *others))
    return support_forces(as_wanted(own), support, measured=Interval.exactly(room))


@pytest.mark.parametrize("guided", [False, True], ids=["end free to turn", "end kept straight by the axle"])
def test_the_leg_is_as_stiff_as_sympy_s_beam(guided):
    """A tube 36/31 of 420 built in at its far end; deflection under 100 N from sympy's beam (singularity functions)."""
    from sympy import symbols
    from sympy.physics.continuum_mechanics.beam import Beam

    outside, bore, length, modulus, load = 36, 31, 420, 206_000, 100
    inertia = pi / 64 * (outside**4 - bore**4)
    reaction, moment, turning = symbols("R M T")
    beam = Beam(length, modulus, inertia)
    beam.apply_load(reaction, 0, -1)
    beam.apply_load(moment, 0, -2)
    beam.apply_load(load, length, -1)
    beam.bc_deflection, beam.bc_slope = [(0, 0)], [(0, 0)]
    if guided:
        beam.apply_load(turning, length, -2)
        beam.bc_slope = [(0, 0), (length, 0)]
        beam.solve_for_reaction_loads(reaction, moment, turning)
    else:
        beam.solve_for_reaction_loads(reaction, moment)
    bent = abs(float(beam.deflection().subs(beam.variable, length)))
    ours = leg_stiffness(outside_mm=outside, bore_mm=bore, length_mm=length, modulus_mpa=modulus, guided=guided)
    assert load / bent == pytest.approx(ours, rel=1e-9)


@given(st.floats(-5, 5), st.floats(20, 2000), st.floats(20, 2000))
def test_two_legs_pulled_together_are_where_the_network_has_them(mismatch, k1, k2):
    """The frame as two springs, and the stack between them a third one that gives next to nothing: 1e5 N/mm."""
    elements = (
        held("leg 1", "frame 1", "face 1", length=0.0, k=k1), held("leg 2", "face 2", "frame 2", length=0.0, k=k2),
        held("stack", "face 1", "face 2", length=100.0, k=1e5),
    )  # fmt: skip
    state = solve(
        Network(elements=elements, fixed={"frame 1": 0.0, "frame 2": 100.0 + mismatch}),
        {"face 1": 0.0, "face 2": 100.0},
    )
    force, goes_1, goes_2 = tied_legs(mismatch_mm=mismatch, k1=k1, k2=k2)
    stack_too = mismatch * in_series(k1, k2, 1e5)
    assert float(state.forces["leg 1"][0]) == pytest.approx(stack_too, rel=1e-6, abs=1e-6)
    assert float(state.positions["face 1"][0]) == pytest.approx(stack_too / k1, abs=1e-6)
    assert force == pytest.approx(stack_too, rel=0.02, abs=1e-9)
    assert goes_1 + goes_2 == pytest.approx(mismatch)


def test_a_clamped_leg_is_pulled_in_over_the_room_and_a_stack_too_long_spreads_it():
    """180 N/mm over 3.2 is 576 N toward the left; 2 too long pushes 360 N to the right. The left leg gives nothing."""
    pulled, spread = forces(leg()), forces(leg(), room=-2.0)
    assert pulled.side_load_n.usual == pytest.approx(576, rel=1e-3) and pulled.shift_mm.usual == pytest.approx(
        -3.2, rel=1e-3
    )
    assert spread.side_load_n.usual == pytest.approx(-360, rel=1e-3) and spread.shift_mm.usual == pytest.approx(
        2.0, rel=1e-3
    )


def test_two_legs_share_the_room_by_their_stiffness():
    """Over 3.0, 100 and 200 N/mm: 200 N, and the softer one goes 2.0 of them."""
    right, left = leg("leg@right", 100), leg("leg@left", 200)
    assert forces(right, left, room=3.0).side_load_n.usual == pytest.approx(200)
    assert forces(right, left, room=3.0).shift_mm.usual == pytest.approx(-2.0)
    assert forces(left, right, room=3.0).shift_mm.usual == pytest.approx(1.0)


def test_an_end_kept_straight_is_four_times_as_stiff_and_one_nobody_knows_has_both_ends():
    free, guided, unknown = (forces(leg(end=end)).side_load_n for end in ("free", "guided", ""))
    assert guided.usual == pytest.approx(4 * free.usual, rel=1e-2)
    assert free.usual * 0.99 <= unknown.least < unknown.most <= guided.usual * 1.01


def test_a_floating_leg_carries_nothing_when_it_has_settled_and_keeps_what_it_had_when_pinched_before():
    settled = forces(leg(floating=True, pinched_after_settling=True), gap=True)
    early = forces(leg(floating=True), gap=True)
    assert (settled.side_load_n.most, settled.shift_mm.usual) == (0, 0)
    assert settled.pinched_early_n.usual == pytest.approx(576, rel=1e-3)
    assert early.side_load_n.usual == pytest.approx(576, rel=1e-3)


def test_a_floating_leg_without_room_is_pushed_out_settled_or_not():
    pushed = forces(leg(floating=True, pinched_after_settling=True), gap=True, room=-1.0)
    assert pushed.side_load_n.usual == pytest.approx(-180, rel=1e-3)
    assert pushed.shift_mm.usual == pytest.approx(1.0, rel=1e-3)


def test_where_it_stands_free_counts_to_the_room():
    """It stands 0.8 further out when let go: 4.0 to close."""
    assert forces(leg(free_position=size(0.8))).side_load_n.usual == pytest.approx(4.0 * 180, rel=1e-3)


def test_what_nobody_gave_is_a_range_and_is_named():
    answer = forces(Support(place="leg@right"))
    assert answer.side_load_n.most > 4 * answer.side_load_n.least
    assert any("common practice, no source" in default for default in answer.defaults)


def test_a_support_in_no_frame_cannot_be_told():
    own = axle_hub()
    own = replace(own, stacks=own.stacks[:2])
    assert support_forces(as_wanted(own), leg()).needs


@given(st.floats(-4, 4), st.floats(20, 500))
def test_seen_from_the_other_side_the_load_is_the_same_and_the_shift_has_the_other_sign(room, stiffness):
    here, there = (
        forces(leg(stiffness=stiffness), room=room),
        forces(leg(stiffness=stiffness), own=mirrored(axle_hub()), room=room),
    )
    assert there.side_load_n.usual == pytest.approx(here.side_load_n.usual)
    assert there.shift_mm.usual == pytest.approx(-here.shift_mm.usual)


def test_the_pull_of_a_joint_is_shared_between_legs_and_stack_as_the_network_has_it():
    """A joint of 10 kN closes 2 mm against 500 N/mm and clamps the stack with what is over: 9 kN."""
    elements = (
        held("leg", "face", "frame", length=0.0, k=500.0), held("stack", "wall", "stop", length=100.0, k=1e6),
        tension("joint", "wall", "face", force=10_000.0), held("washer", "stop", "face", length=0.0, k=1e6),
    )  # fmt: skip
    state = solve(Network(elements=elements, fixed={"wall": 0.0, "frame": 102.0}), {"stop": 100.0, "face": 102.0})
    force, *_ = tied_legs(mismatch_mm=2.0, k1=500.0, k2=1e6)
    assert -float(state.forces["stack"][0]) == pytest.approx(10_000 - force, rel=2e-3)  # the stack itself gives 0.02


def test_no_load_is_told_of_a_leg_that_would_have_to_bend_too_far():
    """Without its spacer tube a hub is 60 shorter than its legs are apart; 180 N/mm over 60 mm is no force of any leg."""
    clamped = forces(leg(), gap=False, room=61.2)
    assert (clamped.side_load_n, clamped.shift_mm, clamped.reaches) == (None, None, False)
    floating = forces(leg(floating=True, pinched_after_settling=True), gap=False, room=61.2)
    assert floating.side_load_n.most == 0
    assert (floating.pinched_early_n, floating.reaches) == (None, False)


def by_tube(**more) -> Support:
    return Support(place="leg@right", end="free", outside=size(36.0), bore=size(31.0), reach=size(420.0), **more)


def test_a_leg_that_nobody_pulled_is_as_stiff_as_its_tube_less_what_gives_where_it_is_held():
    """3EI/L³ is 309.6 N/mm; 0.7 to all of it is left."""
    told = forces(by_tube(), leg("leg@left", 1e6))
    ends = [share * 309.6 * 3.2 for share in (0.7, 1.0)]
    assert (told.side_load_n.least, told.side_load_n.most) == pytest.approx(ends, rel=0.03)
    assert any("by its tube, of steel" in words for words in told.defaults)


def test_a_leg_that_was_pulled_is_told_by_the_pull_and_not_by_its_tube():
    told = forces(by_tube(stiffness=k(180.0)), leg("leg@left", 1e6))
    assert told.side_load_n.usual == pytest.approx(180 * 3.2, rel=1e-3)
    assert not any("tube" in words for words in told.defaults)


def test_a_leg_of_a_metal_that_nobody_knows_is_taken_as_legs_are():
    told = forces(by_tube(material="carbon"), leg("leg@left", 1e6))
    assert any("50..300 N/mm" in words for words in told.defaults)


def test_a_leg_that_nearly_flies_gives_way_and_is_not_called_still():
    own = axle_hub()
    told = forces(leg(stiffness=1e-4), leg("leg@left"), own=own)
    words = support_words(told, own)
    assert words.startswith("hardly any side load, it gives way by 3.20 to 3.20 toward")


def test_a_nut_that_meets_the_end_of_its_thread_draws_no_leg():
    """The stack is 126 long and the nut stops at 130: nothing pulls the legs together, whatever room they have."""
    own = nut_hub()
    stopped = replace(own, joints=tuple(replace(joint, thread_stop=size(130.0)) for joint in own.joints))
    assert forces(leg(), own=stopped).needs == ("a clamp: the axle nut meets the end of its thread first",)
    room = replace(own, joints=tuple(replace(joint, thread_stop=size(80.0)) for joint in own.joints))
    assert not forces(leg(), own=room).needs
