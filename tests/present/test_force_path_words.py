"""What a finding does to the forces, told no more surely than lengths alone can tell."""

from __future__ import annotations

import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics.effects import effect
from stackcheck.model.finding import Swapped
from stackcheck.present.force_path_words import force_words
from tests.builders import found
from tests.strategies import LIBRARY


def told(reference: str, finding) -> str:
    assembly = Library(LIBRARY).reference(reference)
    return force_words(finding, effect(assembly, found(""), finding), assembly)


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
