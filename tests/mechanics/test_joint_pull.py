"""Torque, prevailing torque, angle, friction by the condition of the thread, and the end of a thread: by hand and from books."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.arrangement import arranged, as_wanted, reference_line
from stackcheck.mechanics.axial.threads import FRICTION, Thread, gain_by_angle, tension_from, torque_for
from stackcheck.mechanics.effects import changed_by
from stackcheck.mechanics.forces import compared_forces, joint_forces
from stackcheck.mechanics.joint_pull import face_radius, faced
from stackcheck.mechanics.lengths import Ruler
from stackcheck.mechanics.thread_friction import conditions, friction_of
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.model.finding import Extra, Missing
from stackcheck.model.part import Amount
from stackcheck.model.reference import Joint, Support
from stackcheck.references.weak.threads import threads
from stackcheck.value import replace
from tests.builders import found, size
from tests.mechanics.small import nut_hub

M16 = Thread(d_mm=16, pitch_mm=1.5)


def torque(nm: float, least: float | None = None, most: float | None = None) -> Amount:
    ends = (None if end is None else 1000 * end for end in (least, most))
    return Amount(text=f"{nm} N·m", dimension="torque", nominal=1000 * nm, **dict(zip(("least", "most"), ends)))


def degrees(value: float) -> Amount:
    return Amount(text=f"{value} deg", dimension="angle", nominal=value)


NUT = Joint(
    name="axle nut", clamps=("leg@left", "collar-long"), thread="M16x1.5", torque=torque(60), thread_condition="dry"
)
FIXED = replace(NUT, friction=(0.14, 0.14))
"""No unknown friction: what is left of a range comes from elsewhere."""


def tightened(joint: Joint, arrangement=None):
    own = replace(nut_hub(), joints=(joint,))
    return joint_forces(arrangement or as_wanted(own), joint)


def test_steel_bolt_in_a_copper_tube_a_quarter_turn_on():
    """Bolt of 20, tube 28/40, both 600 long, pitch 2, E 2e5 and 1.2e5: 91.73 and 44.96 N/mm², 28 817 N.

    Source: strength-of-materials text, Example 8.23 (book title not confirmed; inputs read, answer worked again).
    """
    bolt_mm2, tube_mm2 = pi / 4 * 20**2, pi / 4 * (40**2 - 28**2)
    gained = gain_by_angle(
        angle_deg=90, pitch_mm=2, bolt_n_per_mm=2e5 * bolt_mm2 / 600, stack_n_per_mm=1.2e5 * tube_mm2 / 600
    )
    assert gained == pytest.approx(28_817, abs=1)
    assert (gained / bolt_mm2, gained / tube_mm2) == (pytest.approx(91.73, abs=0.01), pytest.approx(44.96, abs=0.01))


@pytest.mark.parametrize(
    ("condition", "factor"),
    [("dry", 0.30), ("dry", 0.20), ("oiled", 0.18), ("plated", 0.20), ("plated", 0.16), ("compound", 0.12)],
)
def test_the_torque_factors_of_a_textbook_lie_inside_the_friction_of_their_condition(condition, factor):
    """K: non-plated black 0.30, zinc 0.20, lubricated 0.18, cadmium 0.16, anti-seize 0.12, for any thread.

    Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 9th ed. (2011), Table 8-15 (read). K holds for
    friction of thread and face alike under a hexagon; M16 stands for all.
    """
    friction = friction_of(replace(NUT, thread_condition=condition))
    ends = (
        torque_for(tension_n=1, thread=M16, thread_friction=mu, face_friction=mu, face_radius_mm=0.65 * 16) / 16
        for mu in (friction.least, friction.most)
    )
    least, most = ends
    assert least - 0.005 <= factor <= most + 0.005


def test_every_condition_has_its_source_and_runs_from_low_to_high():
    rows = conditions()
    assert len(rows) >= 6
    for words, friction in rows:
        assert 0 < friction.least < friction.usual < friction.most < 0.5, words
        assert "memory" in friction.source or "no source" in friction.source or "Table" in friction.source


@pytest.mark.parametrize(
    ("said", "known"),
    [
        ("dry", "dry"), ("lightly oiled", "oiled"), ("Greased", "greased"), ("copper paste", "compound"), ("unoiled", ""), ("", ""),
        ("thread oiled, face dry", "dry, oiled"), ("as the maker says", ""), ("as on sheet 4", ""),
    ],
)  # fmt: skip
def test_a_condition_is_known_by_its_words(said, known):
    friction = friction_of(replace(NUT, thread_condition=said))
    assert friction.said == known
    if not known:
        assert (friction.least, friction.usual, friction.most) == FRICTION


def test_two_conditions_have_the_range_of_both():
    oiled, dry, both = (
        friction_of(replace(NUT, thread_condition=said)) for said in ("oiled", "dry", "oiled thread, dry face")
    )
    assert (both.least, both.most) == (oiled.least, dry.most)


def test_the_friction_of_the_reference_counts_before_any_condition():
    friction = friction_of(replace(NUT, friction=(0.1, 0.12, 0.2)))
    assert (friction.least, friction.usual, friction.most, friction.source) == (0.1, 0.12, 0.2, "the reference")


def test_a_locking_nut_takes_its_prevailing_torque_first():
    """60 less 10 is what clamps: five sixths of the tension."""
    plain, locking = tightened(FIXED), tightened(replace(FIXED, prevailing=torque(10)))
    assert locking.tension_n.usual == pytest.approx(plain.tension_n.usual * 50 / 60)
    spread = tightened(replace(FIXED, prevailing=torque(10, 5, 15))).tension_n
    assert spread.main_cause == "prevailing torque of the axle nut"
    assert plain.tension_n.usual * 45 / 60 <= spread.least < spread.most <= plain.tension_n.usual * 55 / 60


def test_a_wider_face_takes_more_of_the_torque():
    """Outside 34 on M16: mean radius (34 + 16)/4 = 12.5 instead of 10.4."""
    wide = tightened(replace(FIXED, face=size(34.0))).tension_n.usual
    by_hand = tension_from(torque_nmm=60e3, thread=M16, thread_friction=0.14, face_friction=0.14, face_radius_mm=12.5)
    assert wide == pytest.approx(by_hand)


RING = Extra(entries=(1,), after="collar-short", before="bearing@left")
SOFT_RING = "?ring/length=3±0.02/bore=20.5/outside=28"


def test_by_torque_a_ring_changes_no_tension_and_by_angle_it_takes_some():
    """The ring makes the stack longer and softer: the same angle stretches the axle less."""
    by_angle = replace(FIXED, torque=torque(20), angle=degrees(45))
    for joint, is_other in ((FIXED, False), (by_angle, True)):
        own = replace(nut_hub(), joints=(joint,))
        _, _, change = compared_forces(as_wanted(own), changed_by(own, found(SOFT_RING), RING), joint)
        assert (change.tension_n.most < -1) is is_other
        assert is_other or change.tension_n.usual == 0


def test_the_range_of_a_difference_leaves_out_what_both_states_share():
    """Friction moves both tensions by kilonewtons, and their difference not at all."""
    joint = replace(NUT, torque=torque(20), angle=degrees(45))
    own = replace(nut_hub(), joints=(joint,))
    one, other, change = compared_forces(as_wanted(own), changed_by(own, found(SOFT_RING), RING), joint)
    assert change.tension_n.main_cause != "friction of thread and face"
    assert change.tension_n.most - change.tension_n.least < 0.5 * (one.tension_n.most - one.tension_n.least)
    assert change.tension_n.usual == pytest.approx(other.tension_n.usual - one.tension_n.usual)


@given(st.floats(1, 90), st.floats(1, 90))
def test_twice_the_angle_gains_twice_as_much(one, more):
    gains = [
        gain_by_angle(angle_deg=angle, pitch_mm=1.5, bolt_n_per_mm=2e5, stack_n_per_mm=1e6)
        for angle in (one, more, one + more)
    ]
    assert gains[2] == pytest.approx(gains[0] + gains[1])


def test_angle_on_a_grip_of_unknown_length_cannot_be_told():
    own = nut_hub(spacer={"bore": (20.2,)})
    joint = replace(FIXED, angle=degrees(45))
    answer = joint_forces(as_wanted(replace(own, joints=(joint,))), joint)
    assert answer.tension_n is None and answer.needs == ("length of spacer",)


@pytest.mark.parametrize(("stop", "meets"), [(100.0, False), (115.0, True), (126.0, None)])
def test_a_collar_left_out_lets_the_nut_meet_the_end_of_its_thread(stop, meets):
    """126 between the clamped faces, 108 without the short collar; the thread ends at 100, 115, or may end anywhere near 108."""
    stopped = replace(FIXED, thread_stop=size(stop if meets is not None else 108.0))
    own = replace(nut_hub(), joints=(stopped,))
    room = joint_forces(changed_by(own, found(""), Missing(places=("collar-short",))), stopped).thread_room
    assert (room.least_mm > 0, room.most_mm < 0) == {False: (True, False), True: (False, True), None: (False, False)}[
        meets
    ]
    assert joint_forces(as_wanted(own), stopped).thread_room.least_mm > 0


@pytest.mark.parametrize(("stop", "told"), [(100.0, True), (115.0, False), (108.0, True)])
def test_bearings_have_figures_only_where_the_nut_clamps_or_may_clamp(stop, told):
    """Where it may be either, the figures are those of a nut that clamps: no mixture of the two."""
    stopped = replace(FIXED, thread_stop=size(stop))
    own = replace(nut_hub(), joints=(stopped,))
    as_found = changed_by(own, found(""), Missing(places=("collar-short",)))
    _, seen, change = compared_forces(as_wanted(own), as_found, stopped)
    assert [loop.slides is not None for loop in seen.loops] == [told] and [
        each is not None for each in change.loops
    ] == [told]
    if told:
        free = joint_forces(as_found, replace(stopped, thread_stop=None))
        assert seen.loops[0].float_slides.most == pytest.approx(free.loops[0].float_slides.most, rel=0.1)


def test_without_its_tube_the_seats_keep_the_rings_apart_and_the_nut_off_the_end_of_its_thread():
    """126 less the tube of 58 is 68; but the outer rings stand 57.95 apart, and the inner ones can come no nearer."""
    stopped = replace(FIXED, thread_stop=size(110.0))
    own = replace(nut_hub(), joints=(stopped,))
    room = joint_forces(changed_by(own, found(""), Missing(places=("spacer",))), stopped).thread_room
    assert room.least_mm > 0 and room.nominal_mm == pytest.approx(126 - 58 + 57.95 - 110)


def test_a_metric_thread_without_a_pitch_is_the_coarse_one_and_one_that_says_none_is_none():
    """ "M12" on a drawing is M12x1.75 (ISO 261); a torque on it is as good a torque as any."""
    joint = Joint(name="bolt", clamps=("a", "b"), thread="M12")
    assert thread_of(joint) == Thread(d_mm=12.0, pitch_mm=1.75)
    assert thread_of(replace(joint, thread="M12 left hand")) == thread_of(joint)
    assert thread_of(replace(joint, thread="12 fine")) is None
    assert thread_of(replace(joint, thread="M12.3")) is None


def test_a_joint_across_an_open_gap_draws_it_shut_first_and_that_is_said_where_no_support_tells_what_it_takes():
    """A nut on a frame that must bend by two millimetres clamps with less than it pulls."""
    own = nut_hub(leg={"length": (8.0, 7.8, 8.2)})
    nut = replace(own.joints[0], thread="M16x1.5", torque=torque(60), thread_condition="dry")
    own = replace(own, joints=(nut,))
    assert joint_forces(as_wanted(own), own.joints[0]).draws_shut == ()
    across = replace(own, joints=(replace(own.joints[0], clamps=("leg@left", "leg@right")),))
    assert joint_forces(as_wanted(across), across.joints[0]).draws_shut == ("free gap",)
    assert "draws the free gap shut before it clamps" in " ".join(each.sentence for each in threads(across))
    held = replace(across, supports=(Support(place="leg@right"),))
    assert joint_forces(as_wanted(held), held.joints[0]).draws_shut == ()
    assert not list(threads(held))


def test_a_face_is_no_wider_than_the_part_it_presses():
    """A ring that screws into a housing, M56, presses a bearing ring 52 wide: 0.65 of the thread would rub beside it."""
    own = nut_hub(leg={"length": (8.0, 7.8, 8.2), "outside": (18.0,)})
    nut = replace(own.joints[0], thread="M16x1.5", torque=torque(60), thread_condition="dry")
    narrow, wide = (
        faced(replace(own, parts=tuple(
            replace(each, sizes=(*each.sizes[:1], ("outside", size(outside)))) if each.id == "leg" else each
            for each in own.parts
        )), nut, M16)
        for outside in (18.0, 40.0)
    )  # fmt: skip
    assert face_radius(narrow, M16) == pytest.approx((18 + 16) / 4)
    assert face_radius(wide, M16) == pytest.approx(0.65 * 16) and wide is nut
    given = replace(nut, face=size(24))
    assert faced(own, given, M16) is given


def travelled(*, stop: float | None = None, tube: bool = True, collar: bool = True):
    """The hub's forces with its short collar or its spacer tube left out, against the whole of it."""
    own = nut_hub()
    joint = replace(
        own.joints[0], thread="M16x1.5", torque=torque(60), thread_stop=None if stop is None else size(stop)
    )
    own = replace(own, joints=(joint,))
    gone = {"collar-short": not collar, "spacer": not tube}
    line = tuple(each for each in reference_line(own) if not gone.get(each.part))
    missing = tuple(Missing(places=(place.name,)) for place in own.places if gone.get(place.part))
    return compared_forces(as_wanted(own), arranged(Ruler(reference=own), line, missing), joint)[1]


def test_a_nut_that_runs_on_says_so_where_nobody_gives_the_end_of_its_thread():
    """A collar of 18 is gone: torque and tension read as ever, and there may be no clamp at all."""
    assert travelled(collar=False).further_in_mm == pytest.approx(18.0)
    assert travelled().further_in_mm == pytest.approx(0.0)


def test_a_nut_whose_thread_end_is_given_is_told_by_that():
    assert travelled(collar=False, stop=80.0).further_in_mm is None


def test_without_its_tube_the_seats_keep_the_rings_apart_and_the_nut_hardly_runs_on():
    assert abs(travelled(tube=False).further_in_mm) < 0.2


def test_an_end_of_the_thread_without_limits_is_good_to_a_tenth_and_the_answer_says_so():
    """Nobody measured it to the hundredth: near it the nut may meet its end or not."""
    exact = replace(FIXED, thread_stop=size(110.0, 110.0, 110.0))
    bare = replace(FIXED, thread_stop=size(110.0))
    sure, unsure = (tightened(joint) for joint in (exact, bare))
    assert unsure.thread_room.least_mm == pytest.approx(sure.thread_room.least_mm - 0.1)
    assert unsure.thread_room.most_mm == pytest.approx(sure.thread_room.most_mm + 0.1)
    assert any("end of the thread" in words and "±0.1 taken" in words for words in unsure.defaults)
    assert not any("end of the thread" in words for words in sure.defaults)
