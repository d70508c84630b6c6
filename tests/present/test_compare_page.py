"""The answer of `compare` read as a mechanic reads it: told once, as found, and no more surely than it is known."""

from __future__ import annotations

from functools import cache

import pytest

from stackcheck.formats.found_file import read_found
from stackcheck.formats.found_words import FoundWords
from stackcheck.formats.library import Library
from stackcheck.model.found import Measured
from stackcheck.present.blocks import plain
from stackcheck.present.compare_page import page
from stackcheck.present.compare_summary import summary
from stackcheck.result import compare
from stackcheck.value import replace
from tests.builders import found, reading, reference
from tests.strategies import LIBRARY, ROOT


@cache
def comparison(number: str):
    (file,) = (ROOT / "examples").glob(f"{number}-*.toml")
    found, reference = read_found(file, _reference)
    return compare(reference, found)


def _reference(id: str):
    return Library(LIBRARY).reference(id)


@cache
def shown(number: str) -> str:
    return " ".join(plain(page(comparison(number))).split())


def readings(number: str) -> str:
    return shown(number).partition("OTHER READINGS OF THE SAME LIST")[2].partition("ITEMS")[0]


@pytest.mark.parametrize(
    "number, gap",
    [("08", "free travel 2.39 to 2.45 measured"), ("10", "overlap 0.385 to 0.475"), ("35", "overlap 0.075 to 0.185")],
)
def test_a_gap_in_the_first_sentences_is_the_gap_of_the_table(number, gap):
    """What a finding alone would leave stands with the finding, and says that it is taken alone."""
    assert gap in summary(comparison(number))
    assert "does: taken alone" in shown(number)


def test_another_reading_is_told_by_what_it_has_otherwise():
    """The loose ring is in every reading; it is not told again."""
    assert "instead of finding 1: in the place of the left short collar" in readings("01")
    assert "thin ring" not in readings("01")


@pytest.mark.parametrize(
    "number, said",
    [
        (
            "20",
            "1 reading differs only in which of equal parts stood where (entries 1 and 10): only witness marks and wear tell",
        ),
        (
            "23",
            "2 readings differ only in which of equal parts stood where (entries 13 and 18; entries 5, 12 and 13): only",
        ),
        (
            "25",
            "3 readings differ only in which of equal parts stood where (entries 7 and 9; entries 6 and 8; entries 7 and 8): only",
        ),
        (
            "01",
            "1 more differs only in which of equal parts stood where (entries 4, 5 and 10): only witness marks and wear tell",
        ),
    ],
)
def test_readings_that_only_exchange_equal_parts_are_one_line_with_their_entries(number, said):
    """What a reading has otherwise is said, not that a file for machines says it."""
    assert f"- {said}" in readings(number)
    assert "--json" not in readings(number)
    assert number == "01" or "instead of" not in readings(number)


def test_a_reading_that_gives_nothing_to_look_at_is_left_out_with_its_heading():
    """It calls a collar extra and its own place missing; the answer says the same in one finding."""
    assert len(comparison("30").others) == 1
    assert "OTHER READINGS" not in shown("30")


@pytest.mark.parametrize("number", ["01", "25"])
def test_no_face_is_told_as_found_where_it_is_wanted(number):
    assert "toward hub end; reference: toward hub end" not in shown(number)
    assert "spring side toward right; reference: toward the bearing, which is right" not in shown(number)


def test_disc_springs_of_which_two_are_turned_lie_as_both_together_leave_them():
    assert "Together: The springs lie 2 + 1 + 1 + 1 + 1 nested" in shown("25")
    assert "2 + 1 + 3" not in shown("25")


def test_lengths_of_an_inch_job_are_told_in_inches_beside_millimetres():
    assert (
        "End float 0.18 to 0.22 (0.0071 to 0.0087 in) measured; allowed 0.025 to 0.127 (0.001 to 0.005 in)"
        in summary(comparison("05"))
    )
    assert "15.9 (0.625 in) by rule, good to 0.4" in shown("05")
    assert " in)" not in shown("06")


def test_a_list_that_stopped_early_says_so_far_and_what_it_counts_on():
    said = summary(comparison("27"))
    assert "in 1 point so far, 8 places not reached" in said
    assert "if what was not reached is as in the reference" in said
    assert "nothing differs so far" in summary(comparison("03"))
    assert "beside thrust washer at the input end, where the teardown stopped" in readings("33")


def test_a_loose_ring_that_would_suit_two_packs_is_told_of_both():
    assert (
        "may as well be the preload shim ring of finding 2 would settle it: measure the length of entry 10: 0.30 means"
        in readings("34")
    )


def test_a_label_that_the_sizes_overrule_is_told():
    assert "rings of bag 1 (entry 9) fits as position shim ring, not as preload shim ring" in shown("24")


def test_nothing_is_said_of_the_sizes_of_a_part_that_is_not_there():
    assert "spacer tube missing right hub bearing" in shown("09").partition("ITEMS")[2]


def test_a_part_that_may_be_absent_accounts_for_a_stack_that_is_shorter():
    assert "as found without" in shown("14") and "which may be absent" in shown("14")


def test_a_bare_bearing_leaves_open_which_kind_it_is_where_the_reference_has_several():
    """Half a list must not call a thrust bearing extra because somebody wrote no more than bearing."""
    words = FoundWords(_reference("bilge-pump/shaft-bearings"))
    assert (words.kind_called("bearing"), words.kind_called("ball bearing")) == ("", "ball bearing")
    assert FoundWords(_reference("freight-tricycle/front-hub")).kind_called("left bearing") == "ball bearing"


@pytest.mark.parametrize("number", ["06", "09"])
def test_a_nut_that_pulls_against_the_balls_has_no_told_place_on_its_thread(number):
    """A tube that is short or missing lets the inner rings come together until the balls stop them, and no further."""
    assert "the axle nut pulls against the bearings: how far it goes on its thread cannot be told" in shown(number)
    assert "further in on its thread" not in shown(number)


def test_a_stack_with_an_unknown_length_is_named_and_never_left_out():
    """A shim is gone, and nobody gave the length of the nut: the table tells both."""
    reference_ = reference("ring*2 nut", sizes={"ring": {"length": (0.4, 0.4, 0.4)}})
    said = " ".join(plain(page(compare(reference_, found("ring*1 nut")))).split())
    assert "does: stack 1 0.40 shorter" in said and "no stack changes" not in said
    assert "stack 1 - - 0.40 shorter" in said
    assert "stack 1: cannot tell its length: length of nut not given" in said


def test_what_only_the_machine_lacks_a_length_of_is_said_beside_what_the_reference_lacks():
    reference_ = reference("ring nut", sizes={"ring": {"length": (0.4,)}})
    said = " ".join(plain(page(compare(reference_, found("ring nut ?washer")))).split())
    assert "stack 1: cannot tell its length: length of nut not given" in said
    assert "cannot tell: length of entry 3" in said


def test_a_third_gasket_lies_with_the_other_two_and_changes_no_other_stack():
    """The bore of the bracket, which never comes off, was taken to stand between two pieces of one lump."""
    assert {stack.name: stack.change_mm for stack in comparison("32").stacks}["cover face"] == pytest.approx(0.15)
    assert "it lies in one of" not in shown("32")


def test_parts_that_nothing_orders_are_listed_as_they_came_off():
    """The casing came off before the impeller nut, which stands inside it."""
    items = shown("04").partition("ITEMS")[2].partition("LENGTHS")[0]
    names = (
        "seal plate",
        "O-ring of the seat",
        "standing part",
        "impeller 5",
        "impeller nut 3",
        "gasket of the casing",
        "casing, from",
    )
    assert sorted(names, key=items.index) == list(names)


@pytest.mark.parametrize(
    "number, sides",
    [
        ("11", "between left short collar and left hub bearing"),
        ("06", "between right hub bearing and right long collar"),
    ],
)
def test_an_extra_washer_is_told_between_what_it_lies_against(number, sides):
    """By its bore it lies on the axle; the seal that came off next to it sits in the hub, around the collar."""
    assert sides in shown(number)


def test_an_extra_spring_beside_a_closed_lump_is_told_beside_the_lump():
    assert "seal and seal head with its spring, not stripped" in shown("31")


def test_a_gap_that_the_parts_cannot_leave_is_told_in_the_first_sentences_and_in_the_notes():
    """Twelve plates of the right size leave 0.80; the feeler went in at 2.36 and not at 2.40."""
    words = "gap 2.36 to 2.40 measured, gap 0.64 to 0.96 by the parts as entered"
    assert f"The list contradicts itself in free travel: {words}." in summary(comparison("45"))
    assert (
        f"the list contradicts itself: free travel: {words}; a part, a size or this reading is not as entered"
        in shown("45")
    )
    assert "contradicts itself" not in shown("08")


def test_another_part_is_held_against_the_look_alike_that_its_drawing_names():
    assert "easily taken for it: steel plate of the reverse pack OT-2203, 1.80 thick" in shown("38")
    assert "easily taken for it: OT-2107, 3.20 thick, for a worn drum" in shown("38")


def test_a_run_whose_parts_nothing_orders_may_be_so_many_parts_turned_by_themselves():
    hub = Library(LIBRARY).reference("freight-tricycle/rear-hub")
    line = "grease-cap split-pin axle-nut> thrust-washer bearing-small< hub< bearing-large> seal< wear-ring<"
    (result,) = compare(hub, found("", line)).findings
    assert result.finding.kind == "run_end_for_end"
    assert "each may have been turned by itself" in result.finding.evidence[0]


def short_tube(hub_mm: float) -> str:
    """The tube of example 06 measures 57.70 where 58.00 is wanted; the seats of its hub, 57.95 apart by the reference, are read anew."""
    told = comparison("06")
    others = tuple(item for item in told.found.measured if item.place != "hub" and item.gap != "seat gap")
    seats = Measured(place="hub", size="length", reading=reading(hub_mm, 0.01, "depth micrometer"))
    again = compare(told.reference, replace(told.found, measured=(*others, seats)))
    return " ".join(plain(page(again)).split())


def test_where_two_faults_cancel_the_finding_says_that_together_the_gap_is_inside_its_limits():
    """A short tube alone is an overlap; in a hub that is as much too short the gap is as wanted, and nobody shims it."""
    words = short_tube(57.65)
    assert "taken alone" in words and "outside its limits" in words
    assert "with all that was found together seat gap 0.03 to 0.07, inside its limits" in words


def test_where_the_gap_is_outside_together_as_well_nothing_is_added():
    words = short_tube(57.95)
    assert "taken alone" in words and "together seat gap" not in words
