"""Ten cases across every threshold of a force: near it the answer is "may be either", and never one of the two sides."""

from itertools import groupby
from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.forces import JointForces, joint_forces
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.set_gap import set_gap
from stackcheck.mechanics.set_pair import set_loops
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.part import Amount, Size
from stackcheck.model.reference import Joint
from stackcheck.present.forces_page import loop_words, tension_lines, warm_lines
from stackcheck.present.heat_words import warm_play_words
from stackcheck.result.agreement import judged_preload
from stackcheck.result.forces import ForcesResult
from stackcheck.value import replace

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
HUB, ARBOR, REAR_HUB = (LIBRARY.reference(name) for name in ("front-hub", "bench-grinder/arbor", "rear-hub"))


def hub(tube_mm: float):
    """The front hub with a spacer tube of this length to 0.005, and bearings strong enough for any figure."""
    size = Size(text=f"{tube_mm} mm", nominal_mm=tube_mm, least_mm=tube_mm - 0.005, most_mm=tube_mm + 0.005)
    strong = Amount(text="200 kN", dimension="force", nominal=200e3)

    def made(part):
        if part.id == "spacer-tube":
            return replace(part, sizes=tuple((name, size if name == "length" else own) for name, own in part.sizes))
        return replace(part, static_rating=strong) if part.kind == "ball bearing" else part

    changed = replace(HUB, parts=tuple(map(made, HUB.parts)))
    return joint_forces(as_wanted(changed), changed.joints[0]).loops[0]


def sides(answers: list[str]) -> list[str]:
    """The answers in their sequence, each once where it is repeated."""
    return [answer for answer, _ in groupby(answers)]


def test_no_preload_becomes_a_preload_only_by_way_of_may_be_either():
    def said(loop) -> str:
        words = loop_words(loop)
        answer = (
            "either"
            if "may be either: no preload and" in words
            else "none"
            if words.startswith("no preload")
            else "preload"
        )
        holds = {
            "none": loop.slides.most <= 1,
            "preload": loop.slides.least > 1,
            "either": loop.slides.least <= 1 < loop.slides.most,
        }
        assert holds[answer]
        return answer

    tubes = (57.95, 57.92, 57.90, 57.89, 57.87, 57.85, 57.82, 57.80, 57.75, 57.70)
    assert sides([said(hub(tube)) for tube in tubes]) == ["none", "either", "preload"]


def test_a_clamp_is_gone_only_by_way_of_may_be_either():
    """The more the bearings carry of the pull, the less of it presses the tube."""

    def said(loop) -> str:
        words = loop_words(loop)
        if "inner rings is gone" in words:
            assert loop.least_clamp_n.most < 1
            return "gone"
        return "either" if "inner rings may be either" in words else "clamped"

    tubes = (57.75, 57.70, 57.65, 57.62, 57.60, 57.57, 57.55, 57.50, 57.40, 57.30)
    assert sides([said(hub(tube)) for tube in tubes]) == ["clamped", "either", "gone"]


def test_where_only_the_settled_faces_may_leave_no_clamp_that_is_said():
    loop = hub(57.62)
    assert loop.settled_clamp_n.least < 1 <= loop.least_clamp_n.least
    assert "the clamp between the inner rings may be either when the faces have settled: gone" in loop_words(loop)


def test_a_cooling_clamp_of_aluminium_comes_to_may_be_either_and_no_figure_stands_for_nothing():
    """A nut on a steel arbor, all it clamps of aluminium, colder and colder."""
    soft = {"arbor", "nut"}
    cast = replace(ARBOR, parts=tuple(replace(p, material="" if p.kind in soft else "aluminium") for p in ARBOR.parts))
    answers = []
    for at_c in (10.0, 0.0, -10.0, -15.0, -20.0, -25.0, -30.0, -45.0, -60.0, -80.0):
        forces = joint_forces(as_wanted(cast), cast.joints[1], heat=Heat(at_c=at_c))
        (words,) = warm_lines(ForcesResult(reference=forces, as_found=forces), with_found=False)
        answers.append("either" if "may be either: no clamp is left, or tension up to" in words else "clamped")
        assert (answers[-1] == "either") == (forces.then_n.least < 1)
        assert "about 0.0" not in words and "tension 0.0" not in words
    assert sides(answers) == ["clamped", "either"]


def warm(least: float, usual: float, most: float) -> str:
    joint = Joint(name="nut", clamps=("a", "b"))
    value = Spanned(least=least, usual=usual, most=most)
    forces = JointForces(joint=joint, torque_nmm=1.0, tension_n=Spanned(usual=9e3, least=8e3, most=1e4), then_n=value)
    return warm_lines(ForcesResult(reference=forces, as_found=forces), with_found=False)[0]


def test_a_clamp_that_is_gone_for_sure_is_said_to_be_gone():
    assert warm(0.0, 0.0, 0.5).endswith("no clamp is left")


def test_a_play_set_by_a_nut_and_warmed_is_a_preload_only_by_way_of_may_be_either():
    ((joint, loop),) = set_loops(REAR_HUB)
    heat = Heat(named=(("inner rings", 80.0), ("axle", 80.0)))
    answers = []
    for play in (0.16, 0.14, 0.12, 0.11, 0.10, 0.08, 0.06, 0.055, 0.05, 0.04):
        own = Interval(nominal_mm=play, least_mm=play - 0.002, most_mm=play + 0.002)
        told = set_gap(as_wanted(REAR_HUB), joint, loop, measured=own, heat=heat)
        words = warm_play_words(told)
        answers.append("either" if "may be either" in words else "none" if "no preload" in words else "preload")
        holds = {
            "none": told.then_mm.least > 0,
            "preload": told.then_mm.most < 0,
            "either": told.then_mm.least <= 0 <= told.then_mm.most,
        }
        assert holds[answers[-1]]
    assert sides(answers) == ["none", "either", "preload"]


def test_a_nut_meets_the_end_of_its_thread_only_by_way_of_may_be_either():
    tension = Spanned(usual=9e3, least=8e3, most=1e4)
    answers = []
    for middle in (0.30, 0.20, 0.11, 0.10, 0.05, 0.0, -0.05, -0.10, -0.11, -0.20):
        room = Interval(nominal_mm=middle, least_mm=middle - 0.1, most_mm=middle + 0.1)
        forces = JointForces(
            joint=Joint(name="nut", clamps=("a", "b")), torque_nmm=1.0, tension_n=tension, thread_room=room
        )
        (words,) = tension_lines(ForcesResult(reference=forces, as_found=forces), with_found=False)
        answers.append("either" if "may be either" in words else "gone" if "nothing is clamped" in words else "clamped")
    assert sides(answers) == ["clamped", "either", "gone"]


@pytest.mark.parametrize(
    ("least", "usual", "most", "verdict"),
    [
        (-0.5, 0.0, 0.5, "agrees"),  # nothing is different
        (-200.0, 0.0, 300.0, "agrees"),  # lengths known worse or better
        (0.0, 0.0, 300.0, "cannot tell"),  # none as a rule, some where the play is used up
        (-300.0, 0.0, 0.0, "cannot tell"),  # as a rule the same, less where the clamp is gone
        (-0.5, 0.9, 40.0, "cannot tell"),
        (0.0, 30.0, 300.0, "cannot tell"),
        (-100.0, 30.0, 300.0, "cannot tell"),
        (1.5, 30.0, 300.0, "differs"),
        (-300.0, -30.0, -1.5, "differs"),
        (0.0, 0.0, 0.0, "agrees"),
    ],
)
def test_a_preload_that_may_have_begun_is_not_told_to_agree(least, usual, most, verdict):
    assert judged_preload(Spanned(least=least, usual=usual, most=most)) == verdict
