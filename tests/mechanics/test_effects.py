"""What one finding does alone, for every kind of finding, on a hub that can be worked by hand.

The hub of `axle_hub`: 18 + 14 + 58 + 14 + 22 = 126 between the legs, free gap 3.2 (2.88 to 3.76, allowed 2.5 to 4), seat gap
0.05 (0.01 to 0.09, allowed 0 to 0.1).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.formats.library import Library
from stackcheck.mechanics.chain import as_found_sum, stack_sum
from stackcheck.mechanics.effects import effect
from stackcheck.mechanics.force_path import CLAMPED
from stackcheck.model.finding import (
    CountDiffers,
    DifferentPart,
    EnteredTwice,
    Extra,
    Missing,
    OutOfPlace,
    RunEndForEnd,
    RunMoved,
    SizeDiffers,
    Standing,
    Swapped,
    TurnedRound,
)
from stackcheck.result import compare
from stackcheck.value import replace
from tests.builders import found, reference, size
from tests.mechanics.small import axle_hub, explained, mirrored, row, rows, watched

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
NOTHING = found("")


def told(reference, finding, as_found=NOTHING, *, explanation=None) -> dict[str, object]:
    """Stacks with their change, gaps with their new width and what the limits say, places with their shift, gaps that stay."""
    its = effect(reference, as_found, finding, explanation=explanation)
    return {
        "stacks": {c.stack: c.change and round(c.change.nominal_mm, 6) for c in its.changes},
        "gaps": {c.loop: (c.after and round(c.after.nominal_mm, 6), c.crosses_limit) for c in its.loop_changes},
        "shifts": {shift.place: round(shift.mm, 6) for shift in its.shifts},
        "unchanged": set(its.unchanged),
    }


def test_a_spacer_tube_left_out_opens_both_gaps_by_its_length():
    """126 - 58 = 68; seat gap 0 - 57.95; free gap 129.2 - 68. Nothing joins the two bearings but the hub: it stays."""
    assert told(axle_hub(), Missing(places=("spacer",))) == {
        "stacks": {"axle stack": -58.0},
        "gaps": {"seat gap": (-57.95, "crosses"), "free gap": (61.2, "crosses")},
        "shifts": {},
        "unchanged": set(),
    }


def test_a_bearing_left_out_lies_in_both_stacks_and_leaves_its_loop_without_an_answer():
    said = told(axle_hub(), Missing(places=("bearing@right",)))
    assert said["stacks"] == {"axle stack": -14.0, "hub stack": -14.0}
    assert said["gaps"] == {"seat gap": (None, "cannot tell"), "free gap": (17.2, "crosses")}


def test_a_ring_on_the_shaft_lies_between_the_inner_rings():
    """20.5 x 28: its face meets the inner ring of the bearing (20 to 33.5). Free gap 129.2 - 126.5 = 2.7, least 2.36."""
    extra = Extra(entries=(1,), after="bearing@left", before="spacer")
    assert told(axle_hub(), extra, found("?ring/length=0.5±0.02/bore=20.5/outside=28")) == {
        "stacks": {"axle stack": 0.5},
        "gaps": {"seat gap": (0.55, "crosses"), "free gap": (2.7, "cannot tell")},
        "shifts": {},
        "unchanged": set(),
    }


def test_a_ring_in_the_housing_lies_between_outer_ring_and_hub():
    """35 x 45: wider inside than the inner ring's shoulder. The hub is pushed to the right, the legs know nothing of it."""
    extra = Extra(entries=(1,), after="bearing@left", before="hub")
    assert told(axle_hub(), extra, found("?ring/length=0.5±0.02/bore=35/outside=45")) == {
        "stacks": {"hub stack": 0.5},
        "gaps": {"seat gap": (-0.45, "crosses")},
        "shifts": {"hub": 0.5},
        "unchanged": {"free gap"},
    }


def test_a_washer_outside_the_leg_lengthens_nothing_between_the_legs():
    extra = Extra(entries=(1,), after="nut", before="leg@left")
    assert told(axle_hub(), extra, found("?washer/length=2±0.02/bore=20.5/outside=28")) == {
        "stacks": {}, "gaps": {}, "shifts": {}, "unchanged": {"seat gap", "free gap"},
    }  # fmt: skip


def test_a_thing_found_loose_does_nothing_until_somebody_knows_where_it_lay():
    its = effect(axle_hub(), found("?ring%/length=0.5"), Extra(entries=(1,), loose=True))
    assert (its.changes, its.loop_changes, its.shifts, its.unchanged) == ((), (), (), ())


def test_an_extra_of_unknown_length_changes_its_stack_by_nobody_knows_how_much():
    extra = Extra(entries=(1,), after="bearing@left", before="spacer")
    said = told(axle_hub(), extra, found("?ring/bore=20.5/outside=28"))
    assert said["stacks"] == {"axle stack": None}
    assert said["gaps"] == {"seat gap": (None, "cannot tell"), "free gap": (None, "cannot tell")}


def test_unequal_collars_swapped_shift_the_hub_by_their_difference_and_nothing_else():
    """22 - 18 = 4 to the right; the sum between the legs is the same."""
    assert told(axle_hub(), Swapped(places=("collar-short", "collar-long"))) == {
        "stacks": {}, "gaps": {}, "shifts": {"hub": 4.0}, "unchanged": {"seat gap", "free gap"},
    }  # fmt: skip


def test_two_parts_of_different_stacks_swapped_exchange_their_lengths():
    """A seal of 7 in place of the short collar and the collar of 18 in place of the seal."""
    said = told(axle_hub(), Swapped(places=("collar-short", "seal@left")))
    assert said["stacks"] == {"axle stack": -11.0, "hub stack": 11.0}
    assert said["gaps"] == {"free gap": (14.2, "crosses")}
    assert said["unchanged"] == {"seat gap"}


def test_a_part_turned_round_takes_up_the_length_it_has_that_way():
    """A collar 18 long stands 20 long when its recess faces the bearing: 129.2 - 128 = 1.2."""
    ref = axle_hub(**{"collar-short": {"length": (18.0, 17.95, 18.05), "length_when_turned": (20.0, 19.95, 20.05)}})
    assert told(ref, TurnedRound(places=("collar-short",), toward="second")) == {
        "stacks": {"axle stack": 2.0}, "gaps": {"free gap": (1.2, "crosses")}, "shifts": {"hub": 2.0}, "unchanged": {"seat gap"},
    }  # fmt: skip


def test_a_part_turned_round_that_is_as_long_both_ways_changes_no_length():
    said = told(axle_hub(), TurnedRound(places=("collar-short",), toward="second"))
    assert (said["stacks"], said["gaps"], said["shifts"]) == ({}, {}, {})


def test_a_part_moved_outside_the_legs_is_missing_from_between_them():
    """126 - 22 = 104; the hub keeps its distance from the left leg."""
    assert told(axle_hub(), OutOfPlace(places=("collar-long",), after="leg@right")) == {
        "stacks": {"axle stack": -22.0}, "gaps": {"free gap": (25.2, "crosses")}, "shifts": {}, "unchanged": {"seat gap"},
    }  # fmt: skip


def test_a_part_moved_along_its_own_stack_shifts_only_what_it_passed():
    """The long collar goes from behind the right bearing to before the left one: everything between moves 22 right."""
    assert told(axle_hub(), OutOfPlace(places=("collar-long",), after="collar-short", before="bearing@left")) == {
        "stacks": {}, "gaps": {}, "shifts": {"hub": 22.0}, "unchanged": {"seat gap", "free gap"},
    }  # fmt: skip


ROW = watched(
    reference(
        "leg! ring-a ring-b ring-c ring-d cap",
        sizes={f"ring-{name}": {"length": (size,)} for name, size in zip("abcd", (1.0, 2.0, 4.0, 8.0))} | {"cap": {"length": (3.0,)}},
    ),
    "ring-a", "ring-b", "ring-c", "ring-d", "cap",
)  # fmt: skip
"""Rings of 1, 2, 4 and 8 beside a leg: every sum of some of them is another one."""


def test_neighbours_that_moved_together_shift_as_one():
    """a b (1 + 2) go behind d: c and d come 3 nearer to the leg; a and b stand behind 4 + 8."""
    said = told(ROW, RunMoved(places=("ring-a", "ring-b"), after="ring-d", before="cap"))
    assert said["shifts"] == {"ring-a": 12.0, "ring-b": 12.0, "ring-c": -3.0, "ring-d": -3.0}
    assert said["stacks"] == {}


def test_a_run_turned_end_for_end_keeps_its_length_and_reverses_its_places():
    """a b c stand as c b a: their near faces were at 0, 1, 3 and are at 6, 4, 0."""
    said = told(ROW, RunEndForEnd(places=("ring-a", "ring-b", "ring-c")))
    assert said["shifts"] == {"ring-a": 6.0, "ring-b": 3.0, "ring-c": -3.0}
    assert said["stacks"] == {}


def test_in_a_run_turned_end_for_end_every_part_is_turned_round():
    """b takes up 2, and 2.5 when it is turned."""
    turned = replace(
        ROW, parts=tuple(replace(p, sizes=(*p.sizes, ("length_when_turned", size(2.5)))) if p.id == "ring-b" else p for p in ROW.parts)
    )  # fmt: skip
    assert told(turned, RunEndForEnd(places=("ring-a", "ring-b", "ring-c")))["stacks"] == {"stack 1": 0.5}


def test_an_extra_that_equals_a_part_of_the_reference_keeps_to_the_stacks_of_that_part():
    """A second seal behind the left bearing lies in the hub's stack, though nobody measured its diameters."""
    ref = axle_hub(seal={"length": (7.0,)})
    extra = Extra(entries=(1,), part="seal", after="bearing@left", before="spacer")
    assert told(ref, extra, found("seal"))["stacks"] == {"hub stack": 7.0}


def test_a_second_seal_outside_the_collar_lies_in_no_path_of_the_legs():
    """It has no room in the fork, whose two fixed faces touch, and its bore is as wide as the collar: the gaps stay."""
    ref = axle_hub()
    as_found = found("nut seal> collar-short< bearing spacer bearing seal< collar-long> seal<")
    believed = {
        result.as_found.loop.name: round(result.as_found.gap.nominal_mm, 6) for result in compare(ref, as_found).loops
    }
    assert believed == {"seat gap": 0.05, "free gap": 3.2}


def test_a_different_part_counts_with_what_was_measured_on_it():
    """A tube of 57.50 for one of 58.00."""
    said = told(axle_hub(), DifferentPart(places=("spacer",), entries=(1,)), found("?spacer/length=57.5±0.01"))
    assert said["stacks"] == {"axle stack": -0.5}
    assert said["gaps"]["seat gap"] == (-0.45, "crosses")
    assert said["gaps"]["free gap"] == (3.7, "cannot tell")  # most 129.4 - 125.13 = 4.27


def test_a_different_part_of_the_same_reference_has_the_length_it_has_there():
    said = told(
        axle_hub(), DifferentPart(places=("collar-short",), entries=(1,), part="collar-long"), found("collar-long")
    )
    assert (said["stacks"], said["shifts"]) == ({"axle stack": 4.0}, {"hub": 4.0})


def test_a_different_part_that_nobody_measured_leaves_the_change_open():
    said = told(axle_hub(), DifferentPart(places=("spacer",), entries=(1,)), found("?spacer"))
    assert said["stacks"] == {"axle stack": None}


SHIMS = reference("leg! shim*4 cap", sizes={"shim": {"length": (0.3, 0.29, 0.31)}, "cap": {"length": (3.0,)}})


def test_one_piece_of_a_pack_that_is_another_part_changes_the_pack_by_its_own_difference():
    """0.50 for one of four that are 0.30: the other three are what they should be."""
    said = told(SHIMS, DifferentPart(places=("shim",), entries=(1,)), found("?shim/length=0.5±0.01 shim*3"))
    assert said["stacks"] == {"stack 1": 0.2}


@pytest.mark.parametrize("pieces, change", [(3, -0.3), (6, 0.6)])
def test_pieces_too_many_or_too_few_change_the_stack_by_theirs(pieces, change):
    finding = CountDiffers(places=("shim",), entries=(1,), wanted=4, found=pieces)
    assert told(SHIMS, finding, found(f"shim*{pieces}"))["stacks"] == {"stack 1": change}


def test_a_size_outside_its_limits_changes_the_stack_by_what_it_misses_the_nominal():
    """57.94 ± 0.01 by micrometer: 0.06 short of 58.00; seat gap -0.01, from -0.04 to 0.02."""
    as_found = found("spacer/length=57.94±0.01")
    finding = SizeDiffers(
        places=("spacer",), entries=(1,), size_name="length", reading=as_found.entry(1).size("length"),
        size=axle_hub().part("spacer").size("length"),
    )  # fmt: skip
    said = told(axle_hub(), finding, as_found)
    assert said["stacks"] == {"axle stack": -0.06}
    assert said["gaps"] == {"seat gap": (-0.01, "cannot tell"), "free gap": (3.26, "stays inside")}


def test_a_reading_is_no_part_of_the_effect_of_standing_elsewhere():
    """The long collar measures 22.03; swapped, it still moves the hub by the difference of the drawing, 4.00."""
    as_found = found("collar-long/length=22.03 collar-short")
    finding = Swapped(places=("collar-long", "collar-short"), entries=(1, 2))
    assert told(axle_hub(), finding, as_found)["shifts"] == {"hub": 4.0}


def test_a_finding_about_the_list_does_nothing_to_the_machine():
    assert told(axle_hub(), EnteredTwice(places=("spacer",), entries=(1, 2)), found("spacer spacer")) == {
        "stacks": {}, "gaps": {}, "shifts": {}, "unchanged": set(),
    }  # fmt: skip


# --- laws --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("id", LIBRARY.files)
def test_a_part_left_out_changes_no_gap_whose_two_paths_it_is_not_in(id):
    """So a part outboard of both bearings changes no bearing loop, on any machine of the fleet."""
    reference = LIBRARY.reference(id)
    for place in reference.places:
        if reference.part(place.part).fixed:
            continue
        its = effect(reference, NOTHING, Missing(places=(place.name,)))
        elsewhere = {
            loop.name
            for loop in reference.loops
            if not loop.set_by and place.name not in (loop.start, loop.end, *loop.open_path, *loop.closed_path)
        }
        assert elsewhere <= set(its.unchanged), place.name
        assert elsewhere.isdisjoint(change.loop for change in its.loop_changes), place.name


@given(st.sampled_from(["nut", "collar-short", "collar-long", "seal@left", "seal@right"]), st.integers(1, 400))
def test_a_part_outboard_of_both_bearings_changes_no_bearing_loop_whatever_is_wrong_with_it(place, hundredths):
    ref = axle_hub()
    part = ref.place(place).part
    as_found = found(f"{part}/length={hundredths / 100}±0.02")
    wrong = (
        Missing(places=(place,)),
        TurnedRound(places=(place,), entries=(1,)),
        SizeDiffers(
            places=(place,),
            entries=(1,),
            size_name="length",
            reading=as_found.entry(1).size("length"),
            size=ref.part(part).size("length"),
        ),
    )
    assert all("seat gap" in effect(ref, as_found, finding).unchanged for finding in wrong)


@given(rows(4), st.data())
def test_seen_from_the_other_side_every_shift_has_the_other_sign(lengths, data):
    """One ring stays on the machine; the same happens to the others, told from the one side and from the other."""
    ref = row(lengths, fixed=data.draw(st.integers(0, len(lengths) - 1)))
    ref = watched(ref, *(part.id for part in ref.parts))
    one, other = data.draw(
        st.lists(st.sampled_from([name for name in ref.line if name != ref.datum]), min_size=2, max_size=2, unique=True)
    )
    after, before = data.draw(st.sampled_from(list(zip(("", *ref.line), (*ref.line, "")))))
    as_found = found("?washer/length=2.5±0.5")
    here = (Missing(places=(one,)), Swapped(places=(one, other)), Extra(entries=(1,), after=after, before=before))
    there = (*here[:2], replace(here[2], after=before, before=after))
    for told_here, told_there in zip(here, there):
        mine, theirs = effect(ref, as_found, told_here), effect(mirrored(ref), as_found, told_there)
        assert {shift.place: -shift.mm for shift in theirs.shifts} == {shift.place: shift.mm for shift in mine.shifts}
        assert theirs.changes == mine.changes


@st.composite
def sequences(draw, reference) -> tuple[str, ...]:
    """The places in any sequence that obeys every stack."""
    left, line = list(reference.line), []
    while left:
        free = [place for place in left if not any(reference.graph.has_edge(other, place) for other in left)]
        line.append(draw(st.sampled_from(free)))
        left.remove(line[-1])
    return tuple(line)


@given(data=st.data(), diameters=st.sampled_from(["", "/bore=21/outside=29", "/bore=35/outside=45"]))
def test_what_the_only_finding_does_is_what_the_sums_as_found_differ_by(data, diameters):
    """The sentence of a finding and the table of lengths below it never say two things."""
    hub = axle_hub()
    line = data.draw(sequences(hub))
    spot = data.draw(st.integers(0, len(line)))
    extra = Extra(entries=(1,), after=("", *line)[spot], before=(*line, "")[spot])
    listed = found(f"ring/length=0.5{diameters}")
    stood = [Standing(part=hub.place(place).part, home=place) for place in line]
    explanation = explained(hub, extra, line=(*stood[:spot], Standing(entry=1), *stood[spot:]))
    differences = {
        stack.name: as_found_sum(hub, listed, explanation, stack.name).total.nominal_mm
        - stack_sum(hub, stack.name).total.nominal_mm
        for stack in hub.stacks
    }
    assert told(hub, extra, listed, explanation=explanation)["stacks"] == {
        name: pytest.approx(difference) for name, difference in differences.items() if abs(difference) > 1e-6
    }


def test_a_ring_in_the_housing_found_between_the_seal_and_the_collar_inside_it_lies_beside_the_bearing():
    """The reference leaves seal and collar unordered; seal, ring, collar came off, so the ring was behind the seal."""
    hub = axle_hub()
    line = ("nut", "leg@left", "seal@left", None, "collar-short", *hub.line[hub.line.index("bearing@left") :])
    extra = Extra(entries=(1,), after="seal@left", before="collar-short")
    stood = tuple(Standing(part=hub.place(name).part, home=name) if name else Standing(entry=1) for name in line)
    listed = found("ring/length=0.5/bore=35/outside=45")
    assert told(hub, extra, listed, explanation=explained(hub, extra, line=stood))["stacks"] == {"hub stack": 0.5}


def test_of_a_counted_place_only_the_ring_that_was_moved_counts():
    """One preload ring of three lies with the position rings: 0.50 less between the bearings, 0.01 the other way for its own limits."""
    pinion = LIBRARY.reference("orchard-tractor/pinion-shaft")
    moved = OutOfPlace(entries=(1,), places=("preload-shim",), after="pinion", before="position-shim")
    its = effect(pinion, found("preload-shim/length=0.5±0.01"), moved)
    (gap,) = its.loop_changes
    assert (round(gap.after.least_mm, 3), round(gap.after.most_mm, 3)) == (-0.485, -0.375)
    assert its.changes == ()
    assert [(shift.place, round(shift.mm, 3)) for shift in its.shifts] == [("position-shim", 0.5)]
    assert [path.where for path in its.paths] == [CLAMPED]
