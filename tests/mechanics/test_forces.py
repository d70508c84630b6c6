"""Tension, preload and end float of the shipped references, and what a difference does to them."""

from pathlib import Path

import pytest

from stackcheck.compare import explanations
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_believed, as_wanted
from stackcheck.mechanics.axial.springs import DiscSpring
from stackcheck.mechanics.axial.threads import Thread, torque_for
from stackcheck.mechanics.forces import compared_forces, joint_forces
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.spring_stacks import spring_stacks
from stackcheck.mechanics.unknowns import Unknowns, with_variants
from stackcheck.model.part import Amount
from stackcheck.value import replace
from tests.builders import reading
from tests.discs import disc_force

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")


def wanted(id: str, joint: int = 0, **asked):
    reference = LIBRARY.reference(id)
    return joint_forces(as_wanted(reference), reference.joints[joint], **asked)


def as_found(example: str, joint: int = 0):
    path = next((ROOT / "examples").glob(f"{example}-*.toml"))
    found, reference = read_found(path, LIBRARY.reference)
    return joint_forces(as_believed(reference, found, explanations(reference, found)[0]), reference.joints[joint])


def test_the_torque_that_the_tension_takes_is_the_torque_of_the_reference():
    tension = wanted("front-hub").tension_n
    radius, friction = 0.65 * 16, 0.17  # dry
    back = torque_for(
        tension_n=tension.usual,
        thread=Thread(d_mm=16, pitch_mm=1.5),
        thread_friction=friction,
        face_friction=friction,
        face_radius_mm=radius,
    )
    assert back == pytest.approx(60_000)
    assert tension.least < tension.usual < tension.most
    assert tension.main_cause == "friction of thread and face"


def test_an_inch_thread_is_read_in_inches():
    assert 3e3 < wanted("boat-trailer/hub").tension_n.usual < 7e3


def test_twice_the_torque_is_twice_the_tension_and_leaves_the_end_float_nearly_alone():
    once, twice = wanted("front-hub", torque_nmm=30e3), wanted("front-hub", torque_nmm=60e3)
    assert twice.tension_n.usual == pytest.approx(2 * once.tension_n.usual)
    assert twice.loops[0].float_held.usual == pytest.approx(once.loops[0].float_held.usual, abs=0.03)


def test_a_sound_hub_has_end_float_and_no_preload():
    loop = wanted("front-hub").loops[0]
    assert loop.loop == "seat gap"
    assert loop.slides.most < 1
    assert 0.03 < loop.float_held.least < loop.float_held.most < 0.25


def test_end_float_of_the_pinion_is_what_the_sum_of_the_lengths_leaves():
    """The sum says 0.005 to 0.135 at worst; elastic movement under ±50 N on angular bearings adds microns."""
    loop = wanted("pinion-shaft").loops[0]
    assert 0 < loop.float_slides.least < loop.float_slides.most < 0.14
    assert "shim" in loop.float_slides.main_cause


def test_swapped_collars_change_no_force():
    swapped, sound = as_found("01").loops[0], wanted("front-hub").loops[0]
    assert swapped.slides.most < 1 and sound.slides.most < 1
    assert as_found("01").tension_n.usual == pytest.approx(wanted("front-hub").tension_n.usual)


def test_a_tube_too_short_forces_the_bearings_against_their_shoulders_held_or_not():
    loop = as_found("06").loops[0]
    assert loop.slides.least > 1e3
    assert loop.held.usual == pytest.approx(loop.slides.usual, rel=1e-3)


def test_without_a_spacer_tube_the_bearings_carry_the_whole_clamp():
    found = as_found("09")
    loop = found.loops[0]
    assert loop.slides.usual == pytest.approx(found.tension_n.usual, rel=1e-6)
    assert loop.least_clamp_n.usual == pytest.approx(0, abs=1)
    assert loop.slides.least > loop.beyond_n


def test_a_missing_shim_turns_end_float_into_preload():
    assert as_found("10").loops[0].slides.least > 1e3


def test_a_warmer_aluminium_hub_outgrows_the_steel_tube():
    """57.95 mm, 12e-6 per kelvin between the two metals: past the middle every 60 K take 0.042 mm off the end float."""
    warm, warmer = (wanted("front-hub", heat=Heat(at_c=at_c)).loops[0] for at_c in (80.0, 140.0))
    assert warm.float_held.usual - warmer.float_held.usual == pytest.approx(60 * 12e-6 * 57.95, rel=0.01)
    assert wanted("front-hub").loops[0].then_n is None
    assert warm.then_n.usual > wanted("front-hub").tension_n.usual


def test_a_wave_washer_preloads_the_bearings_by_what_it_is_pressed():
    """3.5 free in a room of 1.9 beyond its own 0.6: pressed 1.0 less the play of the bearings, at 60 N/mm."""
    loop = wanted("bench-grinder/arbor").loops[0]
    assert 60 * (1.0 - 0.2) < loop.slides.usual < 60 * 1.0
    assert 0 < loop.slides.least < loop.slides.usual < loop.slides.most < 70 * (4.0 - 1.66 - 0.6)
    assert loop.slides.main_cause == "free length of the wave washer behind the right bearing"


def test_what_is_missing_is_named_and_nothing_is_guessed():
    """A bearing of another size stands in the arbor, and nobody measured it."""
    loop = as_found("12").loops[0]
    assert loop.slides is None
    assert any("sizes and clearance" in need for need in loop.needs)


def test_the_defaults_that_went_in_are_listed():
    defaults = wanted("front-hub").defaults
    assert any("friction" in default and "dry" in default for default in defaults)
    assert any("inside of the bearings" in default for default in defaults)


def test_an_answer_names_the_unknown_that_moves_it_most():
    unknowns, answer = with_variants(lambda u: u.value("small", 0.9, 1.0, 1.1) + u.value("large", 0.0, 1.0, 2.0))
    spanned = unknowns.spanned(answer)
    assert spanned.main_cause == "large"
    assert spanned.usual == 2.0
    assert 0.9 < spanned.least < 2.0 < spanned.most < 3.1


def test_a_value_known_to_a_point_is_no_unknown():
    unknowns = Unknowns()
    assert unknowns.value("exact", 1.0, 1.0, 1.0) == 1.0
    assert unknowns.known == []


def springs(example: str = ""):
    if not example:
        return spring_stacks(as_wanted(LIBRARY.reference("disc-spring-stack")))[0]
    path = next((ROOT / "examples").glob(f"{example}-*.toml"))
    found, reference = read_found(path, LIBRARY.reference)
    return spring_stacks(as_believed(reference, found, explanations(reference, found)[0]))[0]


def test_a_disc_spring_turned_round_makes_more_groups_a_longer_stack_and_less_force():
    own, turned = springs(), springs("07")
    assert (own.counts, turned.counts) == ((2, 2, 2), (2, 2, 1, 1))
    assert (own.free_mm, turned.free_mm) == (
        pytest.approx(15.30), pytest.approx(16.40 + 2 * THICKER)
    )  # fmt: skip
    for reference, found in zip(own.force_n, turned.force_n):
        assert found.usual < reference.usual
    assert own.force_n[1].usual < 4759 < own.force_n[0].usual  # 14.10 lies between the two lengths


def test_springs_that_were_measured_press_by_the_mean_of_their_heights():
    """0.12 less in each is 0.12 less in every group; a witness by the formula of one disc in each of them."""
    reference = LIBRARY.reference("disc-spring-stack")
    path = next((ROOT / "examples").glob("25-*.toml"))
    found, _ = read_found(path, LIBRARY.reference)
    discs = [i for i, entry in enumerate(found.entries) if entry.what == "disc spring"]
    heights = dict(zip(discs, (2.92, 2.94, 2.96, 3.00, 3.02, 3.04)))
    measured = tuple(
        replace(entry, sizes=(*entry.sizes, ("disc_height", reading(heights[i])))) if i in heights else entry
        for i, entry in enumerate(found.entries)
    )
    seen = replace(found, entries=measured)
    own, low = (
        spring_stacks(as_believed(reference, each, explanations(reference, each)[0]))[0] for each in (found, seen)
    )
    assert low.counts == own.counts
    assert low.free_mm == pytest.approx(own.free_mm - 0.12 * len(own.counts))
    worn = replace(OURS, cone_mm=2.98 - 2.0)
    for height, force, pressed in zip(low.at_mm, low.force_n, low.pressed):
        assert sum(share.usual * 0.98 for share in pressed) == pytest.approx(low.free_mm - height)
        for count, share in zip(low.counts, pressed):
            assert count * disc_force(worn, share.usual * 0.98) == pytest.approx(force.usual, rel=1e-6)


def test_the_shorter_length_takes_the_larger_force():
    shorter, longer = springs().force_n
    assert springs().at_mm == (14.0, 14.2)
    assert shorter.usual > longer.usual


OURS = DiscSpring(outside_mm=45, inside_mm=22.4, thickness_mm=2.0, cone_mm=1.1)


THICKER = 0.01 / 6
"""One of the six springs of example 07 was measured, 2.01 thick: the mean of the six is that much more than 2.00."""


@pytest.mark.parametrize("example, more", [("", 0.0), ("07", THICKER)])
def test_every_group_bears_the_same_load_and_together_they_are_pressed_by_what_the_stack_lost(example, more):
    """A witness by the formula of one disc: n times its force at the share said, in every group of either length."""
    stack, cone = springs(example), 1.1 - more
    spring = replace(OURS, thickness_mm=2.0 + more, cone_mm=cone)
    for height, force, pressed in zip(stack.at_mm, stack.force_n, stack.pressed):
        assert sum(share.usual * cone for share in pressed) == pytest.approx(stack.free_mm - height)
        for count, share in zip(stack.counts, pressed):
            assert count * disc_force(spring, share.usual * cone) == pytest.approx(force.usual, rel=1e-6)


def test_a_single_spring_goes_further_than_a_nested_pair_and_past_what_the_formula_holds_for():
    """At 14.00 the two single springs are pressed by 0.829 of 1.098, a share of 0.755; the pairs by 0.372."""
    stack = springs("07")
    assert [round(share.usual, 3) for share in stack.pressed[0]] == [0.339, 0.339, 0.755, 0.755]
    assert (stack.beyond(0), stack.beyond(1)) == ((2, 3), ())
    assert (springs().beyond(0), springs().beyond(1)) == ((), ())


def test_a_length_that_only_the_list_lacks_leaves_the_reference_told():
    """Turned on by an angle the pull hangs on every length in the grip; the ring of the list has lost its own."""
    path = next((ROOT / "examples").glob("06-*.toml"))
    found, hub = read_found(path, LIBRARY.reference)
    bare = tuple(replace(each, sizes=()) if each.what == "thin ring" else each for each in found.entries)
    joint = replace(hub.joints[0], angle=Amount(text="60 deg", dimension="angle", nominal=60.0))
    explanation = explanations(hub, found)[0]
    believed = as_believed(hub, replace(found, entries=bare), explanation)
    own, seen, change = compared_forces(as_wanted(hub), believed, joint)
    alone = joint_forces(as_wanted(hub), joint)
    assert (own.tension_n, own.loops[0].slides) == (alone.tension_n, alone.loops[0].slides)
    assert seen.tension_n is None and seen.needs == seen.loops[0].needs and "entry" in seen.needs[0]
    assert change.tension_n is None and change.loops == (None,)
