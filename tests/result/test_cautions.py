"""Which cautions a job calls for: by the reference, by its parts, by a finding; each once, most serious first."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.model.caution import BANK
from stackcheck.model.reference import Joint, Support
from stackcheck.result import compare
from stackcheck.result.cautions import triggered
from stackcheck.value import replace
from tests.builders import clutch, found, reference
from tests.mechanics.small import axle_hub, with_duty

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
HUB_OFF = "nut seal> collar-short< bearing spacer bearing seal< collar-long>"
SWAPPED = "nut seal> collar-long< bearing spacer bearing seal< collar-short>"


def cautions(reference, as_found) -> list[str]:
    return [caution.id for caution in compare(reference, as_found).cautions]


@pytest.mark.parametrize("id", LIBRARY.files)
def test_every_caution_that_an_assembly_of_the_fleet_calls_for_has_its_words_and_stands_once(id):
    reference = LIBRARY.reference(id)
    called = triggered(reference, None, (), ())
    ids = [caution.id for caution in called]
    assert len(ids) == len(set(ids))
    assert set(reference.cautions) <= set(ids)
    assert all(caution.text == BANK[caution.id] for caution in called)


def test_a_plain_stack_calls_for_none():
    assert cautions(reference("cap ring nut"), found("cap ring nut")) == []


def test_the_cautions_of_a_reference_keep_its_sequence_between_those_of_findings_and_those_of_parts():
    """B5 by the missing plate, then what the machine demands, then E1 by the plates themselves."""
    ref = replace(clutch(kinds={"friction": "friction plate", "steel": "steel plate"}), cautions=("S3", "L2"))
    assert cautions(ref, found("pressure friction steel friction friction steel friction backing")) == [
        "B5",
        "S3",
        "L2",
        "E1",
    ]


def test_the_cautions_of_what_was_found_come_before_those_of_the_machine():
    ref = replace(reference("cap ring nut", sizes={"ring": {"length": (5.0, 4.99, 5.01)}}), cautions=("S1",))
    ref = replace(ref, parts=tuple(replace(p, must_measure=("length",)) if p.id == "ring" else p for p in ref.parts))
    assert cautions(ref, found("cap ring/length=5.0±0.03 nut ?clip%")) == ["M5", "M1", "S1"]


def test_a_caution_that_several_things_call_for_stands_once_at_its_most_serious():
    ref = replace(clutch(kinds={"friction": "friction plate", "steel": "steel plate"}), cautions=("E1", "B5"))
    assert cautions(ref, found("pressure friction steel friction friction steel friction backing")) == ["B5", "E1"]


def test_a_hub_that_stands_elsewhere_is_a_matter_of_its_brake():
    brake = with_duty(axle_hub(), "brake", "hub")
    assert cautions(brake, found(SWAPPED))[0] == "B1"
    assert "B1" not in cautions(brake, found(HUB_OFF))
    assert "B1" not in cautions(axle_hub(), found(SWAPPED))


@pytest.mark.parametrize("duty", ["retention", "anti-turn"])
def test_what_keeps_something_in_is_counted_in_when_it_is_missing(duty):
    ref = with_duty(reference("cap ring nut"), duty, "ring")
    assert "W2" in cautions(ref, found("cap nut"))
    assert "W2" not in cautions(ref, found("cap ring nut"))


def test_a_turned_or_missing_seal_beside_a_brake_may_have_let_grease_through():
    ref = with_duty(reference("cap seal> drum"), "brake", "drum")
    assert "B3" in cautions(ref, found("cap seal< drum"))
    assert "B3" in cautions(ref, found("cap drum"))
    assert "B3" not in cautions(ref, found("cap seal> drum"))
    assert "B3" not in cautions(reference("cap seal> drum"), found("cap seal< drum"))


def test_a_bad_bearing_points_to_its_partner():
    as_found = found("cap bearing nut")
    entries = tuple(replace(each, feel=("gritty",)) if each.part == "bearing" else each for each in as_found.entries)
    ref = reference("cap bearing nut", kinds={"bearing": "ball bearing"})
    assert "R9" in cautions(ref, replace(as_found, entries=entries))
    assert "R9" not in cautions(ref, as_found)


def test_something_found_loose_asks_which_machine_it_is_from():
    assert "M5" in cautions(reference("cap nut"), found("cap nut ?ring%"))


def test_a_limit_finer_than_the_instrument_asks_for_a_better_one():
    ref = reference("cap ring nut", sizes={"ring": {"length": (5.0, 4.99, 5.01)}})
    ref = replace(ref, parts=tuple(replace(p, must_measure=("length",)) if p.id == "ring" else p for p in ref.parts))
    assert "M1" in cautions(ref, found("cap ring/length=5.0±0.03 nut"))
    assert "M1" not in cautions(ref, found("cap ring/length=5.0±0.005 nut"))
    assert "M1" not in cautions(ref, found("cap ring nut"))


@pytest.mark.parametrize(
    "kind, caution",
    [
        ("disc spring", "E1"), ("spring", "E1"), ("spring washer", "E1"), ("friction plate", "E1"), ("taper bearing", "R5"),
        ("angular bearing", "R5"), ("crush sleeve", "L4"), ("split pin", "L3"), ("tab washer", "L3"), ("mechanical seal", "R10"),
        ("seal", "R8"), ("circlip", "L6"), ("shim ring", "M2"),
    ],
)  # fmt: skip
def test_a_kind_of_part_calls_for_its_caution_whatever_was_found(kind, caution):
    ref = reference("cap thing nut", kinds={"thing": kind})
    assert caution in cautions(ref, found("cap thing nut"))
    assert caution not in cautions(reference("cap ring nut"), found("cap ring nut"))


def test_a_spacer_tube_between_bearings_has_its_sequence_of_pressing_in():
    kinds = {"tube": "spacer tube", "bearing": "ball bearing"}
    assert "R4" in cautions(reference("bearing@1 tube bearing@2", kinds=kinds), found("bearing tube bearing"))
    assert "R4" not in cautions(reference("cap tube nut", kinds=kinds), found("cap tube nut"))


JOINT = Joint(name="nut", clamps=("cap", "ring"))


def test_a_joint_asks_for_its_tightening_value_and_a_changed_stack_for_its_thread():
    ref = replace(reference("cap ring nut"), joints=(JOINT,))
    assert cautions(ref, found("cap ring nut")) == ["T1"]
    assert cautions(ref, found("cap nut")) == ["W4", "T1"]


def test_a_member_that_floats_finds_its_own_place():
    ref = replace(reference("cap ring nut"), supports=(Support(place="cap", floating=True),))
    assert cautions(ref, found("cap ring nut")) == ["W3"]
    assert cautions(replace(ref, supports=(Support(place="cap"),)), found("cap ring nut")) == []


@pytest.mark.parametrize(
    "duty, caution", [("brake", "X1"), ("steering", "X1"), ("retention", "X1"), ("new every time", "L1")]
)
def test_a_duty_calls_for_its_caution(duty, caution):
    assert caution in cautions(with_duty(reference("cap ring nut"), duty, "ring"), found("cap ring nut"))


def test_a_caution_changes_no_verdict():
    ref = replace(reference("cap ring nut"), joints=(JOINT,), cautions=("S1",))
    said = compare(ref, found("cap ring nut"))
    assert said.cautions and said.verdict == "agrees"


def test_a_reference_alone_has_its_cautions_without_a_teardown():
    said = triggered(replace(reference("cap ring nut"), cautions=("S1",)), None, (), ())
    assert [caution.id for caution in said] == ["S1"]
