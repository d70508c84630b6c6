"""The sweep as a drawing: well-formed, inside its frames, readable without colour, and never over somebody's file."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.cli import main
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.loop_forces import LoopForces
from stackcheck.mechanics.static_limit import HALF, StaticLimit
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.limits import ForceLimit
from stackcheck.model.part import Amount
from stackcheck.model.reference import Joint
from stackcheck.present.sweep_svg import HATCH, LEFT, RIGHT, WIDTH, nice_ticks, sweep_svg
from stackcheck.result.forces import ForcesResult
from stackcheck.value import replace

ROOT = Path(__file__).parents[2]
NUT = Joint(name='nut <"left">', clamps=("a", "b"), torque=Amount(text="20 N·m", dimension="torque", nominal=20e3))


def spanned(usual: float) -> Spanned:
    return Spanned(usual=usual, least=0.6 * usual, most=1.5 * usual)


def step(
    torque_nm: float, preload: float = 0.0, *, found: float | None = None, beyond: float | None = None
) -> ForcesResult:
    def forces(load: float) -> JointForces:
        loop = LoopForces(
            loop="seat gap",
            slides=spanned(load),
            held=spanned(load),
            float_slides=spanned(0.1),
            float_held=spanned(0.1),
            limit=beyond and StaticLimit(force_n=beyond, called=HALF),
        )
        return JointForces(joint=NUT, torque_nmm=1000 * torque_nm, tension_n=spanned(300 * torque_nm), loops=(loop,))

    own = forces(preload)
    return ForcesResult(reference=own, as_found=own if found is None else forces(found))


def drawn(steps: list[ForcesResult]) -> ElementTree.Element:
    return ElementTree.fromstring(
        sweep_svg([[each] for each in steps], over_torque=True, title="Hub & axle", note="one\ntwo")
    )


def named(tree: ElementTree.Element, kind: str) -> list[ElementTree.Element]:
    return [element for element in tree.iter() if element.get("class") == kind]


def texts(tree: ElementTree.Element) -> list[str]:
    return [element.text for element in tree.iter() if element.tag.endswith("}text")]


STEPS = [step(20 + 10 * i, found=400.0 * i, beyond=1500.0) for i in range(7)]


def test_every_question_has_its_panel_and_names_are_written_as_they_are():
    assert [text for text in texts(drawn(STEPS)) if ", kN" in text or ", mm" in text] == [
        'nut <"left">: tension, kN', "seat gap: preload, kN", "seat gap: end float under ±50 N, mm",
    ]  # fmt: skip


def test_what_was_found_is_a_band_and_the_reference_is_broken_lines_where_it_is_another():
    tree = drawn(STEPS)
    assert len(named(tree, "reference")) == 3 + 1  # least, usual, most of the one panel that differs, and the legend
    assert named(drawn([step(20), step(40)]), "reference") == []


def test_rings_that_slide_and_rings_held_fast_stand_in_one_panel_where_they_differ():
    """The words give both answers, so the drawing does: the second one is hatched, with a dotted line, and named below."""
    loops = [step.as_found.loops[0] for step in STEPS]
    steps = [
        replace(s, as_found=replace(s.as_found, loops=(replace(loop, held=spanned(900.0)),)))
        for s, loop in zip(STEPS, loops)
    ]
    tree = drawn(steps)
    assert [len(named(tree, kind)) for kind in ("fast", "fast-usual")] == [2, 2]  # one panel, and the legend
    assert "seat gap: preload, outer rings sliding or held fast, kN" in texts(tree) and "held fast" in texts(tree)
    assert named(drawn(STEPS), "fast") == []


def test_above_what_the_model_holds_for_the_panel_is_hatched_and_no_point_stands():
    tree = drawn(STEPS)
    assert "no figure holds above 1.5" in texts(tree)
    usual = [line.get("points").split() for line in named(tree, "usual") if line.get("points")]
    assert [len(points) for points in usual] == [7, 4, 7]  # 0, 400, 800, 1200 of 0 to 2400 N


def test_every_point_lies_inside_the_drawing():
    tree = drawn(STEPS)
    height = float(tree.get("height"))
    for element in tree.iter():
        for pair in (element.get("points") or "").split():
            x, y = map(float, pair.split(","))
            assert LEFT - 1e-6 <= x <= WIDTH - RIGHT + 1e-6 and 0 <= y <= height


def test_it_needs_no_colour():
    colours = set(
        re.findall(r"#[0-9a-f]{3,6}\b", sweep_svg([[each] for each in STEPS], over_torque=True, title="t", note="n"))
    )
    assert colours <= {"#000", "#fff", "#bbb"} and HATCH


def test_nothing_to_draw_is_said():
    bare = JointForces(joint=NUT, torque_nmm=None, tension_n=None)
    with pytest.raises(ValueError, match="tension"):
        sweep_svg([[ForcesResult(reference=bare, as_found=bare)]], over_torque=False, title="t", note="n")


@given(st.floats(1e-4, 1e7))
def test_ticks_are_few_and_reach_over_the_highest_value(high):
    ticks = nice_ticks(0.0, high)
    assert 4 <= len(ticks) <= 9 and ticks[-1] >= high * (1 - 1e-6) and ticks[0] == 0


def test_the_command_draws_into_a_new_file_and_never_over_one(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    file = tmp_path / "sweep.svg"
    words = ["stack", "bilge-pump/shaft-bearings", "--torque", "20..80 N·m", "--svg", str(file)]
    main(words)
    assert "shaft nut: tension, kN" in texts(ElementTree.parse(file).getroot())
    before = file.read_bytes()
    assert main(words) == 3 and file.read_bytes() == before
    assert "exists" in capsys.readouterr().err


def test_a_drawing_without_a_range_is_refused(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    assert main(["stack", "front-hub", "--torque", "20 N·m", "--svg", str(tmp_path / "a.svg")]) == 3
    assert "name a range" in capsys.readouterr().err and not (tmp_path / "a.svg").exists()


WANTED = ForceLimit(what="preload", of="seat gap", least_n=500.0, most_n=900.0, source="the bench")


def test_a_wanted_force_is_drawn_across_its_panel_with_the_places_where_its_verdict_changes_and_says_them_beneath():
    tree = drawn([replace(each, limits=(WANTED,)) for each in STEPS])
    frames = [float(frame.get("y")) for frame in named(tree, "axis") if frame.tag.endswith("rect")]
    levels = [float(line.get("y1")) for line in named(tree, "wanted")]
    assert len(levels) == 2 and levels[1] < levels[0]
    assert all(frames[1] < level < frames[2] for level in levels)
    crossings = [float(line.get("x1")) for line in named(tree, "crossing")]
    assert crossings == sorted(crossings) and LEFT < crossings[0] and crossings[-1] < WIDTH - RIGHT
    (said,) = [text for text in texts(tree) if text.startswith("wanted")]
    assert said.startswith("wanted 500 to 900 N: differs up to about ") and " N·m" in said


def test_a_step_that_cannot_be_told_leaves_its_part_of_the_panel_open_and_says_so():
    absent = LoopForces(loop="seat gap", slides=None, held=None, float_slides=None, float_held=None, needs=("a clamp",))
    first = replace(STEPS[0].reference, loops=(absent,))
    tree = drawn([ForcesResult(reference=first, as_found=first), *STEPS[1:]])
    assert "seat gap: preload, kN" in texts(tree) and "cannot tell" in texts(tree)
