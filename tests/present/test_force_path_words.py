"""What a finding does to the forces, told no more surely than lengths alone can tell."""

from __future__ import annotations

import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics.effects import effect
from stackcheck.model.finding import Extra, GapDiffers, Missing, OutOfPlace, SizeDiffers, Swapped
from stackcheck.model.reference import Gap, Joint
from stackcheck.present.force_path_words import force_sentence
from stackcheck.value import replace
from tests.builders import found, reading, reference
from tests.mechanics.small import nut_hub
from tests.strategies import LIBRARY


def told(id: str, finding) -> str:
    assembly = Library(LIBRARY).reference(id)
    return force_sentence(finding, effect(assembly, found(""), finding), assembly)


@pytest.mark.parametrize(
    "reference, nut, other, said",
    [
        ("bilge-pump/shaft-bearings", "shaft-nut", "tab-washer", "the shaft nut stands elsewhere"),
        ("bench-grinder/arbor", "nut-right", "bearing@left", "the right arbor nut stands elsewhere"),
        ("freight-tricycle/front-hub", "axle-nut", "collar-short@left", "the axle nut stands elsewhere"),
    ],
)
def test_a_nut_that_was_swapped_is_not_told_to_stand_further_in_by_what_its_stack_changed(reference, nut, other, said):
    """The stack is shorter because the nut itself stands in it; that is no travel on its thread."""
    words = told(reference, Swapped(places=(nut, other)))
    assert said in words and "cannot be told" in words
    assert "further in" not in words and "further out" not in words


def test_a_swap_beside_the_nut_tells_how_far_it_goes_as_before():
    assert "it stands 15.00 further in on its thread" in told(
        "freight-tricycle/front-hub", Swapped(places=("axle-washer", "collar-short@left"))
    )


def test_a_bearing_that_slides_by_design_is_not_told_to_be_loaded_while_it_has_room():
    """The layshaft's bearing has 1.0 to 2.0 of room in its case, far more than the play of the balls: that is meant."""
    words = layshaft_with_washer()
    assert "the inner rings stand 1.95 to 2.05 further apart against their seats" in words
    assert "has room for it by design, 3.30 to 3.70 (1.35 to 1.65 by the reference): nothing is forced" in words
    assert "loaded" not in words and "held fast" not in words


def layshaft_with_washer() -> str:
    typed = found("washer")
    sizes = {"length": reading(2.0, 0.05), "bore": reading(25.5, 0.05), "outside": reading(35.0, 0.05)}
    entry = replace(typed.entries[0], part=None, kind="washer", sizes=tuple(sizes.items()))
    assembly = Library(LIBRARY).reference("orchard-tractor/layshaft")
    extra = Extra(entries=(1,), after="spacer-tube", before="gear-small")
    return force_sentence(extra, effect(assembly, replace(typed, entries=(entry,)), extra), assembly)


def layshaft_with_tube(length_mm: float) -> str:
    """A spacer tube of another length, measured to 0.01; the reference has 30.00, and 1.35 to 1.65 of room."""
    assembly = Library(LIBRARY).reference("orchard-tractor/layshaft")
    differs = SizeDiffers(
        places=("spacer-tube",),
        entries=(1,),
        size_name="length",
        reading=(tube := reading(length_mm, 0.01)),
        size=assembly.part("spacer-tube").size("length"),
    )
    typed = found("tube")
    entry = replace(typed.entries[0], part="spacer-tube", kind="spacer tube", sizes=(("length", tube),))
    return force_sentence(differs, effect(assembly, replace(typed, entries=(entry,)), differs), assembly)


def test_where_the_room_of_a_sliding_bearing_is_used_up_nothing_is_said_to_clamp_what_no_joint_clamps():
    """Circlips hold the layshaft together, with room: whether the balls are loaded hangs on how its rings sit on it."""
    words = layshaft_with_tube(28.0)
    assert "the room of the outer ring that slides in its seat is used up (short by 0.36 to 0.64)" in words
    assert "no joint presses the inner rings together: where they can shift on their shaft nothing is forced" in words
    assert (
        "where they sit tight on it that is more than their axial play, 0.03 to 0.16 as estimated: the balls are loaded"
        in words
    )
    assert "whatever clamps them" not in words


def test_where_its_room_may_be_used_up_it_may_be_either():
    words = layshaft_with_tube(28.55)
    assert "slides in its seat may be used up (between short by 0.09 and over by 0.19)" in words
    assert "their axial play, 0.03 to 0.16 as estimated, may be used up: the balls may be loaded" in words
    assert "is used up" not in words and "are loaded" not in words


def test_where_the_room_is_used_up_the_balls_are_told_to_be_loaded_as_before():
    assert "short by 28.37 to 28.63" in (words := told("orchard-tractor/layshaft", Missing(places=("spacer-tube",))))
    assert "the balls are loaded" in words and "by design" not in words


def idler():
    """A sprocket that turns between two cheeks which a bolt draws together over a tube."""
    plain = reference("cheek@left! tube cheek@right!", "cheek@left! sprocket cheek@right!")
    play = Gap(name="side play", least_mm=0.1, most_mm=0.6, source="the bench")
    tube, turning = plain.stacks
    turning = replace(turning, items=(*turning.items[:-1], play, turning.items[-1]))
    bolt = Joint(name="idler bolt", clamps=("cheek@left", "cheek@right"))
    return replace(plain, stacks=(tube, turning), joints=(bolt,))


@pytest.mark.parametrize(
    ("gap", "said"),
    [
        ((-0.2, -0.1), "no room is left: the idler bolt then clamps the sprocket too, which should be free, "),
        ((-0.08, 0.05), "where it overlaps no room is left: the idler bolt then clamps the sprocket too, "),
        ((0.02, 0.05), ""),
    ],
)
def test_what_should_turn_beside_a_tube_is_clamped_with_it_where_no_room_is_left(gap, said):
    """The tube is too short: the bolt is as tight as ever, and the sprocket no longer turns."""
    words = force_sentence(GapDiffers(what="side play", gap_mm=gap, limits_mm=(0.1, 0.6)), None, idler())
    assert words.startswith(said) and bool(words) == bool(said)


def test_between_bearings_no_room_is_preload_and_told_as_such():
    assembly = Library(LIBRARY).reference("freight-tricycle/front-hub")
    assert force_sentence(GapDiffers(what="seat gap", gap_mm=(-0.1, -0.05), limits_mm=(0.0, 0.1)), None, assembly) == ""


@pytest.mark.parametrize(
    "finding",
    [Missing(places=("hub",)), OutOfPlace(places=("hub",), entries=(1,), after="bearing@right", before="collar-long")],
    ids=["missing", "outside both bearings"],
)
def test_without_the_hub_between_its_bearings_no_length_says_how_their_rings_stand(finding):
    """A hub listed after both its bearings is no length between their rings: nothing holds the outer ones."""
    own = replace(nut_hub(), parts=tuple(replace(part, fixed=False) for part in nut_hub().parts))
    its = effect(own, found("hub"), finding)
    assert its.bearings == ()
    words = force_sentence(finding, its, own)
    assert "nothing holds the outer rings at their distance then" in words
    assert "further apart" not in words and "as long as by the reference" not in words
