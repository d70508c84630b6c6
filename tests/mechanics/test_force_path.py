"""Which path a part lies in, and what two bearings feel of it: the same ring of 0.5 in five places of one hub.

The hub of `axle_hub` with its nut (`nut_hub`): seat gap 0.05 (0.01 to 0.09). A ring between the inner rings makes it 0.55, one behind an
outer ring -0.45; neither collars nor legs enter it.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.bearing_change import (
    APART,
    INSIDE_PLAY,
    LOADED,
    MAY_BE,
    NARROW,
    SLACK,
    TOGETHER,
    WIDE,
    bearing_changes,
    deep_groove_play,
    set_gap_side,
)
from stackcheck.mechanics.effects import changed_by, effect
from stackcheck.mechanics.force_path import BEARING, CLAMPED, EITHER, GAP, INNER, LOOSE, OUTER
from stackcheck.model.finding import CountDiffers, Extra, GapDiffers, Missing, OutOfPlace, SizeDiffers, Swapped
from stackcheck.model.reference import Gap
from stackcheck.value import replace
from tests.builders import found, reference, size
from tests.mechanics.small import HUB_SIZES, mirrored, nut_hub

RINGS = {
    "between the inner rings": ("/bore=20.5/outside=28", "bearing@left", "spacer"),
    "behind an outer ring": ("/bore=40/outside=46.5", "bearing@left", "hub"),
    "outside both bearings": ("/bore=20.5/outside=28", "collar-short", "bearing@left"),
    "in the free gap": ("/bore=20.5/outside=28", "collar-long", "leg@right"),
    "around the tube": ("/bore=29/outside=33", "bearing@left", "spacer"),
}


def ring(where: str, own=None, length: float = 0.5):
    """What one ring does there: the words of its path, and of every loop how far apart, which way, and what that means."""
    diameters, after, before = RINGS[where]
    its = effect(
        own or nut_hub(),
        found(f"?ring/length={length}±0.01{diameters}"),
        Extra(entries=(1,), after=after, before=before),
    )
    bearings = [(b.loop, round(b.change.nominal_mm, 6), b.way, b.answer) for b in its.bearings]
    return [path.where for path in its.paths], bearings


def test_the_same_ring_gives_a_different_answer_in_each_of_five_places():
    """Position, not thickness, decides: apart, together, not felt, nothing presses on it, lies in no path."""
    assert {where: ring(where) for where in RINGS} == {
        "between the inner rings": ([INNER], [("seat gap", 0.5, APART, LOADED)]),
        "behind an outer ring": ([OUTER], [("seat gap", -0.5, TOGETHER, LOADED)]),
        "outside both bearings": ([CLAMPED], []),
        "in the free gap": ([GAP], []),
        "around the tube": ([LOOSE], []),
    }


def test_a_ring_that_meets_both_rings_of_the_bearing_may_lie_in_either_path():
    """20.5 x 46: a washer as wide as the bearing bridges its rings, or stands on one of them; only a look tells."""
    its = effect(
        nut_hub(),
        found("?ring/length=0.5/bore=20.5/outside=46"),
        Extra(entries=(1,), after="bearing@left", before="spacer"),
    )
    assert [(path.where, {choice.where for choice in path.choices}) for path in its.paths] == [(EITHER, {INNER, OUTER})]


@pytest.mark.parametrize(("length", "answer"), [(0.03, MAY_BE), (0.5, LOADED)])
def test_deep_groove_bearings_forgive_what_their_axial_play_allows(length, answer):
    """Play as mounted 0.05 to 0.19 each: the seat gap of 0.01 to 0.09 and 0.03 more may or may not use it up, 0.55 does."""
    assert ring("between the inner rings", length=length)[1][0][3] == answer


def test_a_length_far_inside_the_play_loads_no_ball():
    """Tube and seats 58.00 ± 0.005: apart by 0.005 to 0.025 with the ring, and the play is at least 0.05."""
    exact = {"length": (58.0, 57.995, 58.005)}
    own = nut_hub(spacer=HUB_SIZES["spacer"] | exact, hub=HUB_SIZES["hub"] | exact)
    assert ring("between the inner rings", own, length=0.015)[1][0][3] == INSIDE_PLAY


@pytest.mark.parametrize(
    ("kind", "facings", "inner", "outer"),
    [
        ("angular bearing", ("second", "first"), SLACK, LOADED),  # wide faces inward, back to back
        ("angular bearing", ("first", "second"), LOADED, SLACK),  # wide faces outward, face to face
        ("taper bearing", ("second", "first"), SLACK, LOADED),
    ],
)
def test_bearings_of_one_direction_turn_the_same_length_into_preload_or_into_end_float(kind, facings, inner, outer):
    """Back to back, inner rings nearer together are preload; face to face they are end float."""
    own = nut_hub(kind=kind, facings=facings)
    assert ring("between the inner rings", own)[1][0][3] == inner
    assert ring("behind an outer ring", own)[1][0][3] == outer


def test_a_part_left_out_is_told_by_the_path_it_belongs_in():
    paths = {place: [p.where for p in effect(nut_hub(), found(""), Missing(places=(place,))).paths] for place in ("spacer", "collar-short", "seal@left", "bearing@left")}  # fmt: skip
    assert paths == {
        "spacer": [INNER],
        "collar-short": [CLAMPED],
        "seal@left": [LOOSE],
        "bearing@left": [BEARING, BEARING],
    }


def test_the_washer_under_the_nut_is_clamped_though_the_joint_names_the_leg():
    its = effect(
        nut_hub(), found("?washer/length=2/bore=20.5/outside=28"), Extra(entries=(1,), after="nut", before="leg@left")
    )
    assert [(path.where, path.joint) for path in its.paths] == [(CLAMPED, "axle nut")]


def test_swapped_collars_stay_clamped_and_no_bearing_feels_it():
    its = effect(
        nut_hub(), found("collar-long collar-short"), Swapped(places=("collar-short", "collar-long"), entries=(2, 1))
    )
    assert [(path.where, path.joint) for path in its.paths] == [(CLAMPED, "axle nut")]
    assert its.bearings == ()


def test_a_part_moved_out_of_the_clamp_is_told_with_where_it_should_be():
    its = effect(nut_hub(), found("collar-long"), OutOfPlace(places=("collar-long",), entries=(1,), after="leg@right"))
    assert [path.where for path in its.paths] != [CLAMPED]
    assert [path.where for path in its.home_paths] == [CLAMPED]


def test_a_spring_in_the_path_of_the_outer_rings_gives_way():
    plain = reference(
        "flange! bearing@left spacer bearing@right nut", "bearing@left house! wave bearing@right",
        kinds={"wave": "spring washer", "bearing": "ball bearing"},
        sizes={"bearing": HUB_SIZES["bearing"], "spacer": {"length": (60.0,)}, "house": {"length": (58.0,)}, "wave": {"length": (2.0,)}},
    )  # fmt: skip
    through = ("inner rings", "outer rings")
    own = replace(plain, stacks=tuple(replace(s, through=t) for s, t in zip(plain.stacks, through)))
    reading = found("spacer/length=59.5±0.01").entry(1).size("length")
    its = effect(own, found("spacer/length=59.5±0.01"), SizeDiffers(places=("spacer",), entries=(1,), size_name="length", reading=reading, size=size(60.0)))  # fmt: skip
    assert [(change.spring, round(change.change.nominal_mm, 6)) for change in its.bearings] == [("wave", -0.5)]


def test_the_play_of_a_deep_groove_bearing_is_that_of_the_catalogue():
    """6205: K = 1.06, so 0.106 at a clearance of 0.010 (NSK, Rolling Bearings catalogue, Table 15.4); estimated within 15 %."""
    own = reference("bearing", kinds={"bearing": "ball bearing"}, sizes={"bearing": {"bore": (25.0,), "outside": (52.0,), "radial_clearance": (0.010, 0.010, 0.010)}})  # fmt: skip
    least, most = deep_groove_play(own.part("bearing"))
    assert most == pytest.approx(0.106, rel=0.15)
    assert least == pytest.approx(0.106 * 0.2**0.5, rel=0.15)  # with 80 in 100 of the clearance taken by the fit


@given(st.sampled_from(list(RINGS)), st.integers(1, 300))
def test_seen_from_the_other_side_a_ring_lies_in_the_same_path_and_does_the_same(where, hundredths):
    diameters, after, before = RINGS[where]
    listed = found(f"?ring/length={hundredths / 100}±0.01{diameters}")
    here = effect(nut_hub(), listed, Extra(entries=(1,), after=after, before=before))
    there = effect(mirrored(nut_hub()), listed, Extra(entries=(1,), after=before, before=after))
    assert [path.where for path in here.paths] == [path.where for path in there.paths]
    assert [(b.way, b.answer) for b in here.bearings] == [(b.way, b.answer) for b in there.bearings]


@given(st.integers(1, 5))
def test_the_change_that_bearings_feel_is_that_of_the_loop_with_its_sign(count):
    """A witness: what is said of the bearings is the loop's own sum, which is worked out elsewhere."""
    own = nut_hub()
    extra = Extra(entries=(1,), after="bearing@left", before="spacer")
    listed = found(f"?ring*{count}/length=0.5±0.01/bore=20.5/outside=28")
    change = bearing_changes(as_wanted(own), changed_by(own, listed, extra))[0]
    told = next(c for c in effect(own, listed, extra).loop_changes if c.loop == "seat gap")
    assert change.apart == told.after


def test_a_finding_about_the_list_has_no_path():
    assert effect(nut_hub(), found(""), CountDiffers(places=("spacer",), wanted=1, found=1)).bearings == ()


def pump_cover(gaskets: float = 0.15):
    """A cover on two gaskets whose spigot leaves a bearing some room: the number of gaskets sets it, no joint does."""
    plain = reference(
        "cover bearing@1 bracket!", "cover gasket*2 bore! bracket!",
        sizes={"gasket": {"length": (gaskets,)}, "bore": {"length": (16.0,)}, "bearing": {"length": (16.0,), "bore": (30.0,), "outside": (62.0,)}},
    )  # fmt: skip
    room = Gap(name="end float", least_mm=0.02, most_mm=0.08, set_by="gaskets")
    first, second = plain.stacks
    return replace(
        plain, stacks=(replace(first, through="outer rings", items=("cover", room, "bearing@1", "bracket")), second)
    )


def test_one_gasket_more_widens_the_gap_that_gaskets_set():
    its = effect(pump_cover(), found(""), CountDiffers(places=("gasket",), wanted=2, found=3))
    assert [(name, round(change.nominal_mm, 6)) for name, change in its.set_changes] == [("end float", 0.15)]


def test_a_play_outside_its_limits_is_told_by_its_side():
    def side(*gap):
        return set_gap_side(pump_cover(), GapDiffers(what="end float", gap_mm=gap, limits_mm=(0.02, 0.08)))

    assert (side(0.1, 0.2), side(-0.1, 0.0), side(0.05, 0.2)) == (WIDE, NARROW, "")
    assert set_gap_side(nut_hub(), GapDiffers(what="seat gap", gap_mm=(0.3, 0.4), limits_mm=(0.0, 0.1))) == ""
