"""A force against its limits: what each of the four answers promises, and what no figure can answer."""

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.formats.reference_file import read_reference
from stackcheck.mechanics.force_limits import belongs, held_force
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loop_forces import LoopForces
from stackcheck.mechanics.static_limit import StaticLimit
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.limits import ForceLimit
from stackcheck.model.reference import Joint
from stackcheck.value import replace

ROOT = Path(__file__).parents[2]

NUT = Joint(name="nut", clamps=("a", "b"))
PRELOAD = ForceLimit(what="preload", of="end float", least_n=3e3, most_n=10e3, source="sheet 1")
CLAMP = ForceLimit(what="clamp", of="nut", least_n=3e3, most_n=10e3, source="sheet 1")
forces_n = st.floats(0, 50e3).map(lambda value: round(value, 1))
ranges = st.tuples(forces_n, forces_n).map(lambda ends: span(*sorted(ends)))


def span(least: float, most: float) -> Spanned:
    return Spanned(usual=(least + most) / 2, least=least, most=most)


def joint(tension: Spanned | None = None, *loops: LoopForces, **said) -> JointForces:
    return JointForces(joint=NUT, torque_nmm=60e3, tension_n=tension, loops=loops, **said)


def loop(slides: Spanned | None, held: Spanned | None = None, beyond: float | None = None, **said) -> LoopForces:
    limit = None if beyond is None else StaticLimit(force_n=beyond, called="half the static rating")
    held = held or slides
    return LoopForces(
        loop="end float", slides=slides, held=held, float_slides=None, float_held=None, limit=limit, **said
    )


def preload(*said, **more) -> str:
    return held_force(PRELOAD, joint(span(15e3, 25e3), loop(*said, **more))).verdict


@given(slides=ranges, held=ranges, share=st.floats(0, 1))
def test_agrees_promises_every_force_of_the_range_and_differs_promises_none(slides, held, share):
    verdict = preload(slides, held)
    drawn = [way.least + share * (way.most - way.least) for way in (slides, held)]
    inside = [PRELOAD.least_n <= force <= PRELOAD.most_n for force in drawn]
    if verdict == "agrees":
        assert all(inside)
    if verdict == "differs":
        assert not any(inside)


@given(way=ranges)
def test_cannot_tell_is_said_only_where_the_range_has_both(way):
    if preload(way) == "cannot tell":
        assert way.least < PRELOAD.least_n <= way.most or way.least <= PRELOAD.most_n < way.most


@pytest.mark.parametrize(
    ("least", "most", "verdict"),
    [(3e3, 10e3, "agrees"), (0.0, 2.9e3, "differs"), (10.1e3, 12e3, "differs"), (2.9e3, 5e3, "cannot tell"),
     (5e3, 10.1e3, "cannot tell"), (1e3, 20e3, "cannot tell")],
)  # fmt: skip
def test_the_ends_of_the_limits_belong_to_them(least, most, verdict):
    assert preload(span(least, most)) == verdict


def test_an_open_side_sets_no_limit():
    tight, loose = joint(span(50e3, 60e3)), joint(span(0, 1e3))
    at_least, at_most = (ForceLimit(what="clamp", of="nut", **side) for side in ({"least_n": 3e3}, {"most_n": 3e3}))
    assert [held_force(limit, forces).verdict for limit in (at_least, at_most) for forces in (tight, loose)] == [
        "agrees", "differs", "differs", "agrees",
    ]  # fmt: skip


def test_two_ways_to_hold_the_rings_that_agree_each_by_itself_agree():
    assert preload(span(3e3, 4e3), span(8e3, 9e3)) == "agrees"
    assert preload(span(0, 0), span(4e3, 5e3)) == "cannot tell"
    assert preload(span(0, 0), span(12e3, 13e3)) == "differs"


def test_forced_beyond_what_the_model_can_say_is_no_figure_to_judge():
    assert preload(span(21e3, 30e3), beyond=20e3) == "outside the model"


def test_a_range_that_begins_too_high_differs_though_its_end_has_no_figure():
    assert preload(span(11e3, 30e3), beyond=20e3) == "differs"
    assert preload(span(5e3, 30e3), beyond=20e3) == "cannot tell"


def test_at_least_so_much_never_agrees_where_the_end_of_the_range_has_no_figure():
    limit = ForceLimit(what="preload", of="end float", least_n=3e3)
    held = held_force(limit, joint(span(15e3, 25e3), loop(span(5e3, 30e3), beyond=20e3)))
    assert (held.verdict, held.least_n, held.most_n) == ("cannot tell", 5e3, math.inf)


def test_what_is_missing_is_named():
    held = held_force(PRELOAD, joint(span(15e3, 25e3), loop(None, needs=("the length of the tube",))))
    assert (held.verdict, held.needs) == ("cannot tell", ("the length of the tube",))
    held = held_force(CLAMP, joint(None, needs=("the torque of the nut",)))
    assert (held.verdict, held.needs) == ("cannot tell", ("the torque of the nut",))


def test_a_nut_that_meets_the_end_of_its_thread_clamps_nothing():
    short = Interval(least_mm=-0.4, nominal_mm=-0.3, most_mm=-0.2)
    forces = joint(span(5e3, 6e3), loop(None), thread_room=short)
    assert [held_force(limit, forces).verdict for limit in (CLAMP, PRELOAD)] == ["differs", "differs"]


def test_a_nut_that_may_meet_the_end_of_its_thread_may_clamp_nothing():
    unsure = Interval(least_mm=-0.1, nominal_mm=0.0, most_mm=0.1)
    assert held_force(CLAMP, joint(span(5e3, 6e3), thread_room=unsure)).verdict == "cannot tell"
    assert held_force(CLAMP, joint(span(1e3, 2e3), thread_room=unsure)).verdict == "differs"


def test_warm_the_clamp_that_is_left_is_judged():
    assert held_force(CLAMP, joint(span(5e3, 6e3), then_n=span(1e3, 2e3))).verdict == "differs"


def test_a_limit_belongs_to_its_joint_or_to_bearings_that_the_joint_clamps_though_their_force_cannot_be_told():
    pinion = read_reference(ROOT / "examples/wanted-preload/orchard-tractor/preloaded-pinion.toml")
    nut = replace(pinion.joints[0], torque=None)
    names = ("flange nut", "end float of the pinion", "another gap")
    limits = [ForceLimit(what="force", of=name, least_n=3e3) for name in names]
    assert [belongs(limit, pinion, nut) for limit in limits] == [True, True, False]
