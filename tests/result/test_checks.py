"""Findings that follow from sizes: gaps, pairings, conditions; each told once, most serious first."""

from __future__ import annotations

import pytest

from stackcheck.model.finding import SEQUENCE
from stackcheck.model.found import Measured
from stackcheck.model.limits import Pairing
from stackcheck.result import compare
from stackcheck.result.checks import DO_NOT_REFIT
from stackcheck.result.lengths import between, lengths
from stackcheck.value import replace
from tests.builders import found, reading, reference
from tests.mechanics.small import axle_hub

AS_IT_SHOULD_BE = "nut seal> collar-short< bearing spacer bearing seal< collar-long>"


def kinds(comparison) -> list[str]:
    return [result.finding.kind for result in comparison.findings]


def only(comparison, kind: str):
    (finding,) = [result.finding for result in comparison.findings if result.finding.kind == kind]
    return finding


def with_spacer(**sizes: str):
    said = "".join(f"/{name}={value}" for name, value in sizes.items())
    return found(AS_IT_SHOULD_BE.replace("spacer", f"spacer{said}"))


# --- gaps --------------------------------------------------------------------------------------------------------------


def test_a_gap_outside_its_limits_is_a_finding_with_its_interval_and_the_faces_it_lies_between():
    """57.80 ± 0.02 less 57.95 ± 0.02: -0.19 to -0.11, allowed 0 to 0.1."""
    finding = only(compare(axle_hub(), with_spacer(length="57.80±0.02")), "gap_differs")
    assert (finding.what, finding.measured, finding.limits_mm) == ("seat gap", False, (0.0, 0.1))
    assert finding.gap_mm == pytest.approx((-0.19, -0.11))
    assert {finding.after, finding.before} == {"hub", "bearing@right"}


def test_a_measured_gap_speaks_for_itself():
    as_found = replace(with_spacer(), measured=(Measured(gap="seat gap", reading=reading(0.3, 0.02, "feeler")),))
    finding = only(compare(axle_hub(), as_found), "gap_differs")
    assert (finding.measured, finding.gap_mm) == (True, pytest.approx((0.28, 0.32)))


def test_a_gap_that_agrees_or_cannot_be_told_is_no_finding():
    assert kinds(compare(axle_hub(), with_spacer(length="58.00±0.01"))) == []
    assert kinds(compare(axle_hub(), with_spacer(length="57.99±0.03"))) == []


def test_a_gap_that_a_missing_part_accounts_for_is_told_there_and_not_twice():
    said = compare(axle_hub(), found(AS_IT_SHOULD_BE.replace("spacer ", "")))
    assert kinds(said) == ["missing"]
    assert {change.loop for change in said.findings[0].effect.loop_changes} == {"seat gap", "free gap"}


def test_a_gap_that_only_a_size_accounts_for_is_told_beside_it():
    """The gap is what matters of the size, and another part may be at fault as well."""
    assert kinds(compare(axle_hub(), with_spacer(length="57.80±0.02"))) == ["size_differs", "gap_differs"]


def test_another_gap_is_still_told_beside_a_missing_part():
    """Without the long collar the free gap is 25.2, which is told with the collar; the seat gap is another matter."""
    off = AS_IT_SHOULD_BE.replace(" collar-long>", "")
    as_found = replace(found(off), measured=(Measured(gap="seat gap", reading=reading(0.3, 0.02, "feeler")),))
    said = compare(axle_hub(), as_found)
    assert kinds(said) == ["missing", "gap_differs"]
    assert only(said, "gap_differs").what == "seat gap"


# --- pairings ----------------------------------------------------------------------------------------------------------

AXLE = replace(
    reference(
        "leg! axle collar nut",
        sizes={"axle": {"seat": (20.0, 19.98, 19.99)}, "collar": {"bore": (20.0, 20.0, 20.03)}, "nut": {"length": (5.0,)}},
    ),
    pairings=(Pairing(what="collar on axle", outer=("collar", "bore"), inner=("axle", "seat"), least_mm=0.0, most_mm=0.06, source="the bench"),),
)  # fmt: skip


def pairing(axle: str = "axle", collar: str = "collar"):
    said = compare(AXLE, found(f"{axle} {collar} nut"))
    findings = [result.finding for result in said.findings if result.finding.kind == "pairing_differs"]
    return findings[0] if findings else None


def test_a_bore_too_large_for_its_axle_is_a_finding_with_both_places_and_the_clearance():
    """20.10 ± 0.01 around 19.985 ± 0.005: 0.10 to 0.13, allowed 0 to 0.06."""
    finding = pairing("axle/seat=19.985±0.005", "collar/bore=20.10±0.01")
    assert (finding.what, finding.places, finding.limits_mm) == ("collar on axle", ("collar", "axle"), (0.0, 0.06))
    assert finding.clearance_mm == pytest.approx((0.10, 0.13))


def test_a_worn_axle_differs_against_the_limits_of_a_bore_that_nobody_measured():
    """20.00 to 20.03 around 19.90 ± 0.01: 0.09 to 0.14."""
    assert pairing("axle/seat=19.90±0.01").clearance_mm == pytest.approx((0.09, 0.14))


def test_an_overlap_where_there_should_be_room_differs():
    """20.00 to 20.03 around 20.10 ± 0.01: 0.06 to 0.11 too thick."""
    assert pairing("axle/seat=20.10±0.01").clearance_mm == pytest.approx((-0.11, -0.06))


def test_a_clearance_that_may_lie_inside_its_limits_is_no_finding():
    """20.05 ± 0.02 around 19.98 to 19.99: 0.04 to 0.09, allowed to 0.06."""
    assert pairing(collar="collar/bore=20.05±0.02") is None


def test_a_pairing_of_which_nothing_was_measured_is_no_finding():
    far = replace(AXLE, pairings=(replace(AXLE.pairings[0], least_mm=1.0, most_mm=2.0),))
    assert "pairing_differs" not in kinds(compare(far, found("axle collar nut")))


@pytest.mark.parametrize("how", ["marking", "guess"])
def test_a_guess_at_one_size_is_no_measurement_of_a_pairing(how):
    guessed = Measured(place="axle", size="seat", reading=reading(19.5, 0.0, how))
    assert "pairing_differs" not in kinds(compare(AXLE, replace(found("axle collar nut"), measured=(guessed,))))


def test_a_pairing_with_one_limit_allows_everything_on_the_other_side():
    loose = replace(AXLE, pairings=(replace(AXLE.pairings[0], most_mm=None),))
    assert "pairing_differs" not in kinds(compare(loose, found("axle/seat=19.50±0.01 collar nut")))
    assert "pairing_differs" in kinds(compare(loose, found("axle/seat=20.10±0.01 collar nut")))


# --- conditions --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name, word", [(name, word) for name, words in DO_NOT_REFIT.items() for word in words])
def test_every_feel_and_look_that_speaks_against_refitting_is_a_finding_in_the_words_typed(name, word):
    as_found = found("cap bearing nut")
    entries = tuple(
        replace(each, **{name: (word.capitalize(), "clean")}) if each.part == "bearing" else each
        for each in as_found.entries
    )
    finding = only(compare(reference("cap bearing nut"), replace(as_found, entries=entries)), "condition")
    assert (finding.places, finding.entries, finding.words) == (("bearing",), (2,), (word.capitalize(),))


def test_words_that_say_nothing_bad_are_no_finding():
    as_found = found("cap bearing nut")
    entries = tuple(replace(each, feel=("smooth",), look=("polished ring", "grease")) for each in as_found.entries)
    assert kinds(compare(reference("cap bearing nut"), replace(as_found, entries=entries))) == []


def test_the_condition_of_a_thing_without_a_place_names_its_entry():
    as_found = found("cap ?washer nut")
    entries = tuple(replace(each, look=("bent",)) if each.number == 2 else each for each in as_found.entries)
    finding = only(compare(reference("cap nut"), replace(as_found, entries=entries)), "condition")
    assert (finding.places, finding.entries) == ((), (2,))


# --- together ----------------------------------------------------------------------------------------------------------


def test_findings_stand_most_serious_first():
    as_found = found("nut seal> collar-short> bearing spacer/length=57.80±0.02 bearing seal< collar-long>")
    entries = tuple(replace(each, feel=("gritty",)) if each.part == "bearing" else each for each in as_found.entries)
    said = kinds(compare(axle_hub(), replace(as_found, entries=entries)))
    assert said == ["turned_round", "size_differs", "gap_differs", "condition", "condition"]
    assert said == sorted(said, key=SEQUENCE.index)


def test_a_stack_as_found_stands_beside_the_reference_with_its_change():
    stacks, loops = lengths(axle_hub(), with_spacer(length="57.80±0.02"))
    assert [(stack.name, stack.change_mm and round(stack.change_mm, 6)) for stack in stacks] == [
        ("axle stack", -0.2), ("hub stack", 0.0), ("fork", 0.0),
    ]  # fmt: skip
    assert [loop.reference.loop.name for loop in loops] == [loop.as_found.loop.name for loop in loops]


def test_without_a_teardown_list_the_reference_stands_in_both_columns():
    stacks, loops = lengths(axle_hub(), None)
    assert all(stack.reference == stack.as_found for stack in stacks)
    assert all(loop.reference == loop.as_found for loop in loops)


def test_a_length_that_is_the_same_on_both_sides_need_not_be_known_for_the_change():
    """A nut whose length nobody gave hides no shim that is gone; what lacks a length in one of the two only, cannot be told."""
    shims = reference("cap*2 nut", sizes={"cap": {"length": (0.4,)}})
    (stack,), _ = lengths(shims, found("cap*1 nut"))
    assert (stack.reference.total, stack.as_found.total, round(stack.change_mm, 6)) == (None, None, -0.4)
    (stack,), _ = lengths(shims, found("cap*2"))
    assert stack.change_mm is None


def test_two_faces_stand_as_far_apart_as_found_as_what_was_measured_between_them():
    """Collar 18.00, bearing 14.00 and a tube of 57.80 instead of 58.00."""
    apart = between(axle_hub(), with_spacer(length="57.80±0.02"), "leg@left", "spacer/right")
    assert apart.reference.total.nominal_mm == pytest.approx(90.0)
    assert apart.change_mm == pytest.approx(-0.2)
