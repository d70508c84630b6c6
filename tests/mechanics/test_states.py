"""States of a reference: the same as their figures on the command line, tightened as warm as it is put together."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.commands.temperatures import temperatures
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.force_limits import held_force
from stackcheck.mechanics.forces import joint_forces
from stackcheck.mechanics.heat import COLD, Heat, heat_in, put_together
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.mechanics.warm_gaps import warm_gap
from stackcheck.mechanics.warm_joint import outgrows
from stackcheck.model.limits import ForceLimit, StateLimit
from stackcheck.model.part import Amount
from stackcheck.model.reference import Reference
from stackcheck.model.state import State, can_be_apart
from stackcheck.references.weak.wanted_forces import wanted_forces
from stackcheck.result import compare
from stackcheck.result.forces import all_forces
from stackcheck.result.lengths import lengths
from stackcheck.result.states import said_for, states
from stackcheck.value import replace

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
FLEET = [LIBRARY.reference(id) for id in LIBRARY.files]
ARBOR = LIBRARY.reference("bench-grinder/arbor")
PUMP = LIBRARY.reference("bilge-pump/shaft-bearings")
WET_END = LIBRARY.reference("bilge-pump/seal-and-impeller")
PINION = LIBRARY.reference("orchard-tractor/pinion-shaft")
REAR_HUB = LIBRARY.reference("freight-tricycle/rear-hub")
figures = st.integers(-80, 300)


def degrees(at_c: float) -> Amount:
    return Amount(text=f"{at_c} °C", dimension="temperature", nominal=float(at_c))


def with_state(reference: Reference, at_c: float, apart: dict[str, float], **more) -> Reference:
    state = State(name="asked", temperature=degrees(at_c), apart=tuple((name, degrees(c)) for name, c in apart.items()))
    return replace(reference, states=(*(each for each in reference.states if each.name == "assembly"), state), **more)


def put_together_at(reference: Reference, at_c: float) -> Reference:
    return replace(reference, states=(State(name="assembly", temperature=degrees(at_c)),))


@st.composite
def asked(draw):
    """A reference of the fleet in some state, and the same as words of the command line."""
    reference = draw(st.sampled_from(FLEET))
    known = can_be_apart((part.id for part in reference.parts), (place.name for place in reference.places))
    at_c, apart = draw(figures), draw(st.dictionaries(st.sampled_from(known), figures, max_size=4))
    return with_state(reference, at_c, apart), [f"{at_c} °C", *(f"{name}={c} °C" for name, c in apart.items())]


@given(asked())
def test_a_state_in_the_file_is_as_warm_as_the_same_figures_on_the_command_line(each):
    """All answers are worked out from how warm it is and from nothing else, so they are the same to the last digit."""
    reference, words = each
    named, typed = temperatures(["asked"], reference).heat, temperatures(words, reference).heat
    assert replace(named, state="") == typed


@pytest.mark.parametrize("reference", [ARBOR, PUMP, WET_END, REAR_HUB], ids=lambda each: each.id)
def test_and_so_are_its_forces_its_plays_and_its_gaps(reference):
    apart = {"inner rings": 55.0, "axle": 50.0}
    own = with_state(reference, 40, apart)
    named = all_forces(own, None, heat=heat_in(own, "asked"))
    typed = all_forces(own, None, heat=Heat(at_c=40.0, named=tuple(apart.items())))

    def plain(answer):
        nameless = [replace(each.reference, heat=COLD) for each in (*answer.joints, *answer.set_gaps)]
        return nameless, [replace(gap, heat=COLD) for gap in answer.warm_gaps], answer.supports, answer.coils

    assert plain(named) == plain(typed)


def test_where_nobody_says_it_is_put_together_at_20_degrees():
    assert put_together(WET_END) == COLD and heat_in(WET_END, "assembly") == replace(COLD, state="assembly")


def then(reference: Reference, heat: Heat):
    return joint_forces(as_wanted(reference), reference.joints[0], heat=heat)


def test_a_nut_tightened_in_the_cold_gains_by_all_of_the_way_to_where_it_runs():
    """A brass impeller on a steel shaft, from 0 to 60 °C and from 20 to 60 °C: one and a half times as much."""
    cold = put_together_at(WET_END, 0.0)
    far = then(cold, Heat(at_c=60.0, before=put_together(cold)))
    near = then(WET_END, Heat(at_c=60.0))
    assert far.tension_n == near.tension_n
    gained = [each.then_n.usual - each.tension_n.usual for each in (far, near)]
    assert gained[0] > 0 and gained[0] / gained[1] == pytest.approx(60 / 40)


def test_tightened_warm_and_left_warm_it_pulls_as_the_wrench_says_and_cold_it_pulls_less():
    warm = put_together_at(WET_END, 60.0)
    assert then(warm, put_together(warm)).then_n is None
    left = then(warm, Heat(at_c=20.0, before=put_together(warm)))
    assert left.then_n.usual < left.tension_n.usual


def test_bearings_are_as_loose_as_the_parts_are_warm_when_they_are_clamped():
    """The inner rings of the pinion 60 K hotter while it is put together: the play of a hot pinion, the pull of the wrench.

    The same parts at the same temperatures, once tightened there and once brought there: only the pull is another, and
    what it presses the tube (2171 kN/mm), the shims (86 201) and two half rings (8567) further together by.
    """
    hot = Heat(named=(("inner rings", 80.0),))
    there, brought = then(PINION, replace(hot, before=hot)), then(PINION, hot)
    more_n = brought.loops[0].then_n.usual - there.loops[0].least_clamp_n.usual
    shorter = more_n * (1 / 2171e3 + 1 / 86201e3 + 1 / 8567e3)
    plays = [each.loops[0].float_slides.usual for each in (there, brought)]
    assert plays[0] - plays[1] == pytest.approx(shorter, abs=0.0003)
    assert there.loops[0].then_n is None
    assert there.loops[0].least_clamp_n.usual == pytest.approx(
        then(PINION, COLD).loops[0].least_clamp_n.usual, rel=1e-6
    )
    assert brought.loops[0].then_n.usual > 1.05 * there.loops[0].least_clamp_n.usual


@settings(max_examples=8, deadline=None)
@given(st.floats(-70, 250))
def test_all_of_one_metal_and_one_temperature_keeps_every_gap_in_scale(at_c):
    """Base and parts at one temperature: a drawing of the assembly at another scale, every gap by α ΔT of itself."""
    layshaft = LIBRARY.reference("orchard-tractor/layshaft")
    wanted, scale = as_wanted(layshaft), 11.5e-6 * (at_c - 20)
    for state in (loop.reference for loop in lengths(layshaft, None)[1]):
        grown = warm_gap(wanted, state.loop, Heat(at_c=at_c))
        assert grown.wider_mm == pytest.approx(
            sum(t.sign * t.interval.nominal_mm for t in state.terms) * scale, abs=1e-12
        )
    cold, warm = (then(PINION, heat).loops[0].float_slides.usual for heat in (COLD, Heat(at_c=at_c)))
    assert warm == pytest.approx(cold, rel=0.02)


def test_inner_rings_in_the_grip_of_a_joint_grow_with_their_own_temperature():
    """Two rings of 16 mm on the pump's shaft, 40 K hotter alone, outgrow it by 32 x 11.5e-6 x 40; all alike by nothing."""
    wanted, joint = as_wanted(PUMP), PUMP.joints[0]
    hot = Heat(named=(("inner rings", 60.0),))
    alike = Heat(named=(("inner rings", 60.0), ("axle", 60.0), ("tab-washer", 60.0)))
    grown = [outgrows(Unknowns(), wanted, joint, heat) for heat in (hot, alike, replace(hot, before=hot))]
    assert grown == pytest.approx([32 * 11.5e-6 * 40, 0.0, 0.0], abs=1e-12)


def in_states(reference: Reference, *names: str):
    return states(reference, None, None, lengths(reference, None)[1], names)


def limit(state: str, least: float | None, most: float | None) -> StateLimit:
    return StateLimit(what="float", of="end float", state=state, least_mm=least, most_mm=most, source="own record")


def test_a_limit_of_a_gap_is_held_against_the_state_it_is_said_for_and_no_other():
    own = replace(REAR_HUB, state_limits=(limit("brake hot", 0.02, 0.20),))
    assert said_for(own, None) == ("brake hot",)
    cold, hot = in_states(own, "assembly", "brake hot")
    assert [(held.limit, held.reference) for held in cold.gaps_held] == [(None, "agrees")]
    assert [(held.limit.what, held.reference) for held in hot.gaps_held] == [("float", "agrees")]


@pytest.mark.parametrize(
    ("least", "most", "verdict"),
    [(0.02, 0.20, "agrees"), (0.08, None, "cannot tell"), (None, 0.05, "differs"), (0.15, 0.3, "differs")],
)
def test_the_whole_range_decides(least, most, verdict):
    """By hand about 0.055 to 0.116 with a hot brake: 0.03 to 0.08 as set, 0.036 less by length, 0.049 to 0.085 more."""
    (hot,) = in_states(replace(REAR_HUB, state_limits=(limit("brake hot", least, most),)), "brake hot")
    assert [held.reference for held in hot.gaps_held] == [verdict]


def test_a_limit_of_a_force_is_held_against_its_own_state_alone():
    wanted = ForceLimit(what="clamp", of="left arbor nut", least_n=8e3, source="own record", state="running warm")
    own = replace(ARBOR, force_limits=(wanted,))
    assert all_forces(own, None).joints[0].limits == ()
    (warm,) = in_states(own, "running warm")
    (held,) = warm.forces_held
    assert held.reference == held_force(wanted, warm.joints[0].reference)
    assert held.reference.verdict == "cannot tell" and held.reference.least_n < 8e3
    assert all_forces(own, None, heat=heat_in(own, "running warm")).joints[0].limits == (wanted,)
    assert ["in the state running warm" in weak.sentence for weak in wanted_forces(own)] == [True]
    cold = replace(own, force_limits=(replace(wanted, state="cold shed"),))
    assert [weak.sentence for weak in wanted_forces(cold)] == []


def room_on_the_shaft(path, beside: str):
    """Example 20, where it was measured, with something beside the spacer tube, in three states."""
    text = next((Path(__file__).parents[2] / "examples").glob("20-*.toml")).read_text(encoding="utf-8")
    tube = '[[off]]\nend = "output end"\nwhat = "spacer tube"'
    assert text.count(tube) == 1
    path.write_text(text.replace(tube, beside + tube), encoding="utf-8")
    reference, (found, _) = LIBRARY.reference("orchard-tractor/layshaft"), read_found(path, LIBRARY.reference)
    comparison = compare(reference, found)
    answers = states(reference, found, comparison.best, comparison.loops, ("assembly", "cold start", "oil warm"))
    told = [gap for each in answers for gap in each.gaps if gap.loop.name == "room on the shaft"]
    held = [each.as_found for answer in answers for each in answer.gaps_held if each.loop.name == "room on the shaft"]
    return told, held


def test_a_gap_that_was_measured_counts_in_every_state_though_a_length_on_its_path_is_not_known(tmp_path):
    """Read as 0.35; heat adds to it what it adds by the lengths of the reference, and that is said where it adds any."""
    full, held = room_on_the_shaft(tmp_path / "full.toml", "")
    lacking, also_held = room_on_the_shaft(
        tmp_path / "lacking.toml", '[[off]]\nend = "output end"\nwhat = "odd ring"\n\n'
    )
    assert held == also_held == ["agrees", "agrees", "agrees"]
    assert [gap.as_found for gap in lacking] == [gap.as_found for gap in full]
    assert [gap.as_found.nominal_mm for gap in lacking] == pytest.approx([0.35 + gap.grown.wider_mm for gap in lacking])
    assert [gap.grows_as_reference for gap in full] == [False, False, False]
    assert [gap.grows_as_reference for gap in lacking] == [False, True, True]
    assert [["lengths of the reference" in each for each in gap.defaults] for gap in lacking] == [[], [True], [True]]
