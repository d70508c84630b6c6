"""Where along a sweep a force comes to keep a limit."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.force_limits import held_force
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.limit_crossings import stretches
from stackcheck.mechanics.loop_forces import LoopForces
from stackcheck.mechanics.static_limit import HALF, StaticLimit
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.limits import ForceLimit
from stackcheck.model.reference import Joint

NUT = Joint(name="nut", clamps=("a", "b"))
CLAMP = ForceLimit(what="clamp", of="nut", least_n=3e3, most_n=10e3, source="the bench")
PRELOAD = ForceLimit(what="preload", of="seat gap", least_n=3e3, most_n=10e3, source="the bench")


def spanned(least, usual, most):
    return Spanned(least=least, usual=usual, most=most)


def pulled(*at):
    """A tension of 80 to 120 N, usually 100, for each of the unit of the sweep."""
    return [JointForces(joint=NUT, torque_nmm=1.0, tension_n=spanned(80 * x, 100 * x, 120 * x)) for x in at]


def loaded(ways, beyond=None):
    loop = LoopForces(
        loop="seat gap", slides=ways[0], held=ways[-1], float_slides=None, float_held=None,
        limit=beyond and StaticLimit(force_n=beyond, called=HALF),
    )  # fmt: skip
    return JointForces(joint=NUT, torque_nmm=1.0, tension_n=spanned(1, 2, 3), loops=(loop,))


def test_a_force_that_rises_through_its_limits_crosses_them_one_end_after_the_other():
    """120 x reaches 3000 at 25 and 10000 at 83.3; 80 x reaches 3000 at 37.5 and 10000 at 125."""
    at = [10.0, 50.0, 90.0, 130.0]
    found = stretches(CLAMP, at, pulled(*at))
    assert [each.verdict for each in found] == ["differs", "cannot tell", "agrees", "cannot tell", "differs"]
    assert [each.start for each in found[1:]] == [pytest.approx(x, abs=1.0) for x in (25, 37.5, 83.3, 125)]


def test_a_sweep_that_never_changes_is_one_stretch():
    (only,) = stretches(CLAMP, [40.0, 60.0], pulled(40, 60))
    assert (only.verdict, only.start, only.end) == ("agrees", 40.0, 60.0)


def test_rings_that_slide_and_rings_held_fast_are_judged_each_by_itself_on_the_way():
    """One way lies below the limits and the other above: both differ, though together they span them."""
    steps = [
        loaded((spanned(1, 2, 3), spanned(11e3, 12e3, 13e3))),
        loaded((spanned(4, 5, 6), spanned(14e3, 15e3, 16e3))),
    ]
    assert [each.verdict for each in stretches(PRELOAD, [0.0, 1.0], steps)] == ["differs"]


def test_what_cannot_be_told_at_a_step_is_not_told_beside_it():
    steps = [loaded((None, None)), loaded((spanned(4e3, 5e3, 6e3),)), loaded((spanned(4e3, 5e3, 6e3),))]
    found = stretches(PRELOAD, [0.0, 10.0, 20.0], steps)
    assert [each.verdict for each in found] == ["cannot tell", "agrees"]
    assert 0 < found[1].start < 10


def test_beyond_every_figure_stands_in_the_sweep_too():
    steps = [loaded((spanned(4e3, 5e3, 6e3),), 8e3), loaded((spanned(40e3, 50e3, 60e3),), 8e3)]
    assert [each.verdict for each in stretches(PRELOAD, [0.0, 1.0], steps)] == [
        "agrees",
        "cannot tell",
        "outside the model",
    ]


forces = st.lists(st.floats(0, 15e3), min_size=3, max_size=3).map(lambda ends: spanned(*sorted(ends)))


@given(steps=st.lists(st.tuples(forces, forces), min_size=2, max_size=7), beyond=st.sampled_from([None, 8e3]))
def test_every_step_has_the_verdict_that_it_has_alone_and_no_part_of_the_sweep_is_left_out(steps, beyond):
    joints = [loaded(ways, beyond) for ways in steps]
    at = [10.0 * i for i in range(len(steps))]
    found = stretches(PRELOAD, at, joints)
    assert (found[0].start, found[-1].end) == (at[0], at[-1])
    for before, after in pairwise(found):
        assert before.end == after.start and before.verdict != after.verdict
    for place, joint in zip(at, joints):
        verdicts = {each.verdict for each in found if each.start <= place <= each.end}
        assert held_force(PRELOAD, joint).verdict in verdicts
