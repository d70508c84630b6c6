"""A designation read off a standard part is its number: no maker of machines puts his own on a bearing."""

import pytest

from stackcheck.compare import explanations
from stackcheck.compare.marking import is_anothers, is_own_number
from stackcheck.model.part import Part
from stackcheck.value import replace
from tests.builders import found, reference

BEARING = Part(
    id="bearing", name="Hub bearing", kind="ball bearing", number="FT-1211", standard="6204 C3", accepts=("FT-1111",)
)


@pytest.mark.parametrize("marked", ["FT-1211", "6204 C3", "6204", "6204-2RS C3", "6204 2RS"])
def test_the_makers_number_and_the_designation_are_both_the_parts_own(marked):
    assert is_own_number(BEARING, marked)
    assert not is_anothers(BEARING, marked)


@pytest.mark.parametrize("marked", ["6203", "6304 C3", "6204 C4", "FT-1212", "30204"])
def test_another_series_size_clearance_or_number_is_another_part(marked):
    assert is_anothers(BEARING, marked)


def test_an_accepted_number_is_neither():
    assert not is_own_number(BEARING, "FT-1111")
    assert not is_anothers(BEARING, "FT-1111")


def test_a_designation_says_nothing_against_a_part_that_names_no_standard():
    assert not is_anothers(replace(BEARING, standard=""), "6203")


@pytest.mark.parametrize(("marked", "kinds"), [("6204-2RS", []), ("6303", ["different_part"])])
def test_a_bearing_of_another_designation_in_the_place_is_a_different_part(marked, kinds):
    """The reference may give the designation alone, as most people write it."""
    ref = reference("cap bearing nut", kinds={"bearing": "ball bearing"})
    ref = replace(ref, parts=tuple(replace(p, standard="6204") if p.id == "bearing" else p for p in ref.parts))
    came_off = found("cap bearing nut")
    entries = tuple(replace(e, marked=marked) if e.part == "bearing" else e for e in came_off.entries)
    best = explanations(ref, replace(came_off, entries=entries))[0]
    assert [finding.kind for finding in best.findings] == kinds
