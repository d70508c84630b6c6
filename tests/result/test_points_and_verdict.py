"""What was looked at, what became of it, and the one word over it all."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.model.finding import Condition
from stackcheck.model.found import Measured
from stackcheck.result import FindingResult, compare
from stackcheck.result.comparison import EXIT_STATUS, verdict
from stackcheck.result.points import (
    AGREES,
    CANNOT_TELL,
    DIFFERS,
    FACING,
    GAP,
    NOT_LOOKED_AT,
    NOT_REACHED,
    NOT_VERIFIED,
    PRESENCE,
    Point,
)
from stackcheck.value import replace
from tests.builders import found, reading, reference
from tests.mechanics.small import axle_hub, with_duty

HUB_OFF = "seal> collar-short< bearing spacer bearing seal< collar-long>"
"""The hub itself and the legs stay; the nut came off first."""


def state(comparison, place: str, what: str = PRESENCE) -> str | None:
    """The state of one point, None where there is no such point."""
    return next((point.state for point in comparison.points if (point.place, point.what) == (place, what)), None)


def gap_state(comparison, name: str) -> str:
    return next(point.state for point in comparison.points if point.gap == name)


def measuring(reference, part: str, *sizes: str):
    """The same, with sizes of a part that the reference wants measured."""
    parts = tuple(replace(each, must_measure=sizes) if each.id == part else each for each in reference.parts)
    return replace(reference, parts=parts)


def test_a_part_that_came_off_where_it_belongs_agrees_and_one_that_did_not_differs():
    said = compare(axle_hub(), found("nut seal> collar-short< bearing bearing seal< collar-long>"))
    assert (state(said, "nut"), state(said, "spacer")) == (AGREES, DIFFERS)


def test_a_fixed_member_is_no_point_because_nobody_takes_it_off():
    said = compare(axle_hub(), found(f"nut {HUB_OFF}"))
    assert [state(said, place) for place in ("leg@left", "hub", "fork")] == [None, None, None]


def test_a_place_that_was_only_inferred_cannot_be_told():
    as_found = found("cap ring nut")
    inferred = replace(
        as_found,
        entries=(as_found.entries[0], replace(as_found.entries[1], place_seen="inferred"), as_found.entries[2]),
    )
    assert state(compare(reference("cap ring nut"), inferred), "ring") == CANNOT_TELL


def test_a_place_that_may_be_absent_is_no_point_while_it_is_empty():
    ref = reference("cap ring? nut")
    assert state(compare(ref, found("cap nut")), "ring") is None
    assert state(compare(ref, found("cap ring nut")), "ring") == AGREES


@pytest.mark.parametrize(
    "typed, wanted",
    [("seal>", AGREES), ("seal<", DIFFERS), ("seal", NOT_LOOKED_AT)],
)
def test_a_facing_agrees_only_where_somebody_said_it(typed, wanted):
    said = compare(reference("cap seal> nut"), found(f"cap {typed} nut"))
    assert state(said, "seal", FACING) == wanted
    assert state(said, "seal") == AGREES
    assert state(said, "cap", FACING) is None


def test_a_facing_that_was_looked_for_and_not_seen_cannot_be_told():
    as_found = found("cap seal nut")
    entries = tuple(replace(each, toward="not seen") if each.part == "seal" else each for each in as_found.entries)
    assert state(compare(reference("cap seal> nut"), replace(as_found, entries=entries)), "seal", FACING) == CANNOT_TELL


@pytest.mark.parametrize(
    "typed, wanted",
    [
        ("ring/length=5.00±0.02", AGREES),
        ("ring/length=5.09±0.02", CANNOT_TELL),  # within what the reading is good to of the limit
        ("ring/length=5.30±0.02", DIFFERS),
        ("ring", NOT_LOOKED_AT),
    ],
)
def test_a_size_that_the_reference_wants_measured(typed, wanted):
    ref = measuring(reference("cap ring nut", sizes={"ring": {"length": (5.0, 4.9, 5.1)}}), "ring", "length")
    assert state(compare(ref, found(f"cap {typed} nut")), "ring", "length") == wanted


@pytest.mark.parametrize("how", ["marking", "drawing", "guess"])
def test_a_size_read_off_a_marking_was_not_looked_at(how):
    ref = measuring(reference("cap ring nut", sizes={"ring": {"length": (5.0, 4.9, 5.1)}}), "ring", "length")
    as_found = found("cap ring nut")
    entries = tuple(
        replace(e, sizes=(("length", reading(5.0, 0.0, how)),)) if e.part == "ring" else e for e in as_found.entries
    )
    assert state(compare(ref, replace(as_found, entries=entries)), "ring", "length") == NOT_LOOKED_AT


def test_a_size_without_limits_cannot_be_told_however_well_it_was_measured():
    ref = measuring(reference("cap ring nut", sizes={"ring": {"length": (5.0,)}}), "ring", "length")
    assert state(compare(ref, found("cap ring/length=5.0±0.01 nut")), "ring", "length") == CANNOT_TELL


def test_a_size_taken_on_the_assembly_counts_for_its_place():
    ref = measuring(reference("cap ring nut", sizes={"ring": {"length": (5.0, 4.9, 5.1)}}), "ring", "length")
    depth = Measured(place="ring", size="length", reading=reading(5.0, 0.01, "depth gauge"))
    assert state(compare(ref, replace(found("cap ring nut"), measured=(depth,))), "ring", "length") == AGREES


def test_a_marking_on_the_part_hides_no_measurement_of_its_place_and_the_finest_one_counts():
    ref = measuring(reference("cap ring nut", sizes={"ring": {"length": (5.0, 4.9, 5.1)}}), "ring", "length")
    as_found = found("cap ring nut")
    marked = tuple(
        replace(e, sizes=(("length", reading(5.0, 0.0, "marking")),)) if e.part == "ring" else e
        for e in as_found.entries
    )
    taken = (reading(5.0, 0.3, "rule"), reading(5.0, 0.01, "depth gauge"))
    there = tuple(Measured(place="ring", size="length", reading=each) for each in taken)
    said = compare(ref, replace(as_found, entries=marked, measured=there))
    assert state(said, "ring", "length") == AGREES


def test_what_lies_deeper_than_the_teardown_went_is_not_reached_in_every_point():
    said = compare(axle_hub(), found("nut collar-short<", finished=False))
    assert (state(said, "spacer"), state(said, "seal@right"), state(said, "seal@right", FACING)) == (NOT_REACHED,) * 3


def test_what_lies_inside_a_closed_unit_is_not_verified():
    wheel = reference(
        "collar cage@left spacer cage@right nut", units={"cartridge": ("cage@left", "spacer", "cage@right")}
    )
    said = compare(wheel, found("collar cartridge nut"))
    assert [state(said, place) for place in ("collar", "cage@left", "spacer", "nut")] == [
        AGREES,
        NOT_VERIFIED,
        NOT_VERIFIED,
        AGREES,
    ]


def test_a_gap_is_a_point_with_the_state_of_its_loop_and_stands_last():
    said = compare(
        axle_hub(), found("nut seal> collar-short< bearing spacer/length=57.96±0.03 bearing seal< collar-long>")
    )
    assert {point.gap: point.state for point in said.points[-2:]} == {"seat gap": CANNOT_TELL, "free gap": AGREES}
    assert {point.what for point in said.points[:-2]}.isdisjoint({GAP})


def test_a_gap_without_limits_is_no_point():
    ref = axle_hub()
    plain = replace(ref, limits=(), stacks=tuple(replace(s, items=s.places) for s in ref.stacks))
    assert [point.gap for point in compare(plain, found(f"nut {HUB_OFF}")).points if point.what == GAP] == []


# --- the word ----------------------------------------------------------------------------------------------------------


def point(state: str, *, blocks: bool = False) -> Point:
    return Point(place="ring", what=PRESENCE, state=state, blocks=blocks)


FINDING = FindingResult(finding=Condition(places=("ring",), words=("pits",)), effect=None)


@pytest.mark.parametrize(
    "findings, points, word",
    [
        ((), (), AGREES),
        ((), (point(AGREES), point(AGREES, blocks=True)), AGREES),
        ((), (point(AGREES), point(NOT_LOOKED_AT)), NOT_LOOKED_AT),
        ((), (point(NOT_REACHED), point(NOT_VERIFIED)), NOT_LOOKED_AT),
        ((), (point(CANNOT_TELL), point(NOT_LOOKED_AT)), CANNOT_TELL),
        ((), (point(NOT_LOOKED_AT, blocks=True),), CANNOT_TELL),
        ((), (point(NOT_REACHED, blocks=True),), CANNOT_TELL),
        ((FINDING,), (), DIFFERS),
        ((FINDING,), (point(CANNOT_TELL), point(NOT_LOOKED_AT, blocks=True)), DIFFERS),
    ],
)
def test_differs_comes_before_cannot_tell_before_not_looked_at_before_agrees(findings, points, word):
    assert verdict(findings, points) == word


STATES = [AGREES, CANNOT_TELL, NOT_LOOKED_AT, NOT_REACHED, NOT_VERIFIED]


@given(st.lists(st.tuples(st.sampled_from(STATES), st.booleans())))
def test_agreement_is_never_said_over_anything_unsettled(drawn):
    word = verdict((), tuple(point(state, blocks=blocks) for state, blocks in drawn))
    assert (word == AGREES) == all(state == AGREES for state, _ in drawn)
    assert word != DIFFERS


@given(st.lists(st.tuples(st.sampled_from(STATES), st.booleans())), st.sampled_from(STATES[1:]))
def test_one_more_open_point_never_makes_the_word_milder(drawn, more):
    severity = [AGREES, NOT_LOOKED_AT, CANNOT_TELL, DIFFERS].index
    points = tuple(point(state, blocks=blocks) for state, blocks in drawn)
    assert severity(verdict((), points)) <= severity(verdict((), (*points, point(more))))


def test_each_word_has_its_exit_status():
    assert EXIT_STATUS == {AGREES: 0, DIFFERS: 1, CANNOT_TELL: 2, NOT_LOOKED_AT: 2}


def test_names_alone_agree_in_their_places_and_leave_the_rest_open():
    said = compare(reference("cap seal> nut"), found("cap seal nut"))
    assert (said.verdict, said.exit_status) == (NOT_LOOKED_AT, 2)
    assert len(said.points_in(AGREES)) == 3 and len(said.points_in(NOT_LOOKED_AT)) == 1


def test_an_unseen_facing_of_a_brake_part_leaves_the_whole_assembly_undecided():
    ref = with_duty(reference("cap seal> nut"), "brake", "seal")
    assert compare(ref, found("cap seal nut")).verdict == CANNOT_TELL
    assert compare(ref, found("cap seal> nut")).verdict == AGREES


def test_an_unseen_facing_of_a_bearing_for_one_direction_does_too():
    ref = reference("cap bearing> nut", kinds={"bearing": "angular bearing"})
    assert compare(ref, found("cap bearing nut")).verdict == CANNOT_TELL


def test_the_same_input_gives_the_same_answer():
    as_found = found("nut seal< collar-long bearing spacer bearing seal< collar-short")
    assert compare(axle_hub(), as_found) == compare(axle_hub(), as_found)


def test_a_place_that_nobody_looked_at_is_neither_missing_nor_in_agreement():
    """Two parts came off in one lump and nobody saw what lay between: the answer leaves that place open."""
    without_spacer = "nut seal> collar-short< bearing bearing seal< collar-long>"
    as_found = replace(found(without_spacer), not_seen=("spacer",))
    said = compare(axle_hub(), as_found)
    assert [result.finding.kind for result in said.findings] == []
    assert state(said, "spacer") == NOT_LOOKED_AT and said.verdict == NOT_LOOKED_AT


def test_a_place_that_nobody_looked_at_counts_with_the_length_of_the_reference():
    as_found = replace(found("nut seal> collar-short< bearing bearing seal< collar-long>"), not_seen=("spacer",))
    assert [result.change_mm for result in compare(axle_hub(), as_found).stacks if result.as_found.total] == [
        0.0,
        0.0,
        0.0,
    ]


def test_an_entry_for_a_place_that_was_called_not_seen_counts_as_looked_at():
    said = compare(axle_hub(), replace(found(f"nut {HUB_OFF}"), not_seen=("spacer",)))
    assert state(said, "spacer") == AGREES


def test_a_place_not_seen_beside_two_swapped_parts_is_taken_as_filled_where_it_lies():
    """One of the two stands far behind: the bearing must not be reckoned beyond it, which would open a gap of its whole width."""
    said = compare(
        axle_hub(),
        replace(found("nut seal> collar-long< spacer bearing seal< collar-short>"), not_seen=("bearing@left",)),
    )
    assert [result.finding.kind for result in said.findings] == ["swapped"]
    line = [standing.home for standing in said.best.line]
    assert (
        line.index("collar-long") < line.index("bearing@left") < line.index("hub") and said.stacks[0].change_mm == 0.0
    )
