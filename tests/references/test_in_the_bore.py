"""What sits in the bore of a drum and what the drum itself is, said in the line:
the outer rings' stack, and asked once.
"""

from __future__ import annotations

import pytest
from test_dialogue import HEAD, talk, talk_shown

from stackcheck.formats.drawn_sizes import read_drawn_part
from stackcheck.references.draft import Draft

LIMITS = "±0.1"
DRUM = "drum 52.00 ±0.05, comes off"
TUBE = "spacer tube 52.25 ±0.05 od 27 bore 20.2"


def winch(circlip: list[str], *, between: list[str] = (TUBE, DRUM), end: list[str] = ()) -> list[str]:
    return [*HEAD, "bracket", "bearing 6204", *between, "bearing 6204", *circlip, "bracket", "", *end]


def stack_of(draft: Draft, name: str) -> list[str]:
    return [row.name for row in draft.rows if name in row.stacks]


@pytest.mark.parametrize(
    "said",
    [
        "internal circlip DIN 472 47x1.75",
        "circlip DIN 472 47",
        "circlip 47x1.75 ±0.03 in the drum bore",
        "inside circlip 47x1.75 ±0.03",
    ],
)
def test_a_circlip_of_a_bore_is_none_of_the_inner_rings(said):
    draft, asked, _ = talk(winch([said, "0"] if "472" not in said else [said]))
    assert not any("circlip" in name.lower() for name in stack_of(draft, "main stack"))
    assert [name.lower().split()[-1] for name in stack_of(draft, "outer rings")] == [
        "bearing",
        "drum",
        "bearing",
        "circlip",
    ]
    assert not any("sits:" in question for question in asked)


@pytest.mark.parametrize(("answer", "stack", "made_for"), [("1", "outer rings", "seat"), ("2", "main stack", "shaft")])
def test_any_other_circlip_is_asked_where_it_sits(answer, stack, made_for):
    """47x1.75 is what it is made for and how thick it is, never an outside and a bore."""
    draft, asked, _ = talk(winch(["circlip 47x1.75", answer, LIMITS]))
    (circlip,) = [row for row in draft.parts if row.kind == "circlip"]
    assert "The circlip sits:" in asked and "Circlip" in stack_of(draft, stack)
    assert dict(circlip.sizes) == {made_for: "47 mm", "length": "1.75 mm ±0.1"}


def test_a_circlip_with_a_bore_of_its_own_keeps_it():
    assert dict(read_drawn_part("circlip 50x44").sizes) == {"outside": "50 mm", "bore": "44 mm"}


def test_a_seal_said_to_sit_in_the_bore_is_not_asked_for_inches_or_place():
    draft, asked, refused = talk(winch(["oil seal 35x47x7 in the drum bore, lip to the bearing", LIMITS]))
    assert not refused and "The oil seal sits:" not in asked
    assert stack_of(draft, "outer rings")[-1] == "Oil seal"


def test_a_drum_named_between_two_bearings_is_what_stands_between_their_outer_rings():
    draft, (asked, _), shown = talk_shown(winch([]))
    assert "The drum is what stands between the outer rings." in shown
    assert not any(question.startswith("What stands between") for question in asked)
    assert stack_of(draft, "main stack") == ["Bracket", "Bearing", "Spacer tube", "Bearing", "Bracket"]


def test_an_answer_that_names_a_part_of_the_line_is_that_part():
    draft, _, _ = talk(winch([], between=[TUBE, "plate 52.00 ±0.05", "2"], end=["plate"]))
    assert [row.name for row in draft.parts].count("Plate") == 1
    assert stack_of(draft, "outer rings") == ["Bearing", "Plate", "Bearing"]


def test_the_gap_keeps_the_name_that_somebody_gives_it():
    draft, _, _ = talk(winch([], end=["", "", "0.1..0.4", "drum end float", "workshop sheet"]))
    assert [(limit.what, limit.source) for limit in draft.limits] == [("drum end float", "workshop sheet")]


@pytest.mark.parametrize("none_known", ["0", ""])
def test_after_a_wrong_answer_limits_may_still_be_unknown(none_known):
    draft, _, refused = talk([*HEAD, "bracket", "washer 24x13x2.5", "0", "1", "wide", none_known, "bracket", ""])
    (washer,) = [row for row in draft.parts if row.kind == "washer"]
    assert len(refused) == 1 and dict(washer.sizes)["length"] == "2.5 mm"
    assert ("length", "no limits known") in washer.remarks


def test_after_a_wrong_answer_the_gap_may_still_have_no_limits():
    draft, _, refused = talk(winch([], end=["", "", "a little", "0"]))
    assert len(refused) == 1 and draft.limits == ()
