"""Where a missing part belongs, said so that nobody looks for it at the wrong end."""

from __future__ import annotations

import pytest

from stackcheck.formats.library import Library
from stackcheck.present.where_words import home_words
from tests.strategies import LIBRARY


@pytest.mark.parametrize(
    "reference, place, said",
    [
        ("boat-trailer/winch", "bush@left", "beside left thin washer beside the drum, toward the right end"),
        ("boat-trailer/winch", "bush@right", "beside right thin washer beside the drum, toward the left end"),
        ("bilge-pump/seal-and-impeller", "seat-ring", "beside seal plate, toward the impeller end"),
        ("freight-tricycle/front-hub", "seal@left", "beside left hub bearing, toward the left end"),
    ],
)
def test_a_place_beside_a_part_that_lies_deep_is_at_no_end(reference, place, said):
    """The bush sits in the drum: nobody finds it outside the winch."""
    assert home_words(Library(LIBRARY).reference(reference), place) == said


@pytest.mark.parametrize(
    "reference, place, said",
    [
        ("freight-tricycle/front-hub", "axle-nut", "outside washer under the axle nut, at the left end"),
        ("boat-trailer/hub", "dust-cap", "outside split pin of the spindle nut, at the outboard end"),
        ("bench-grinder/arbor", "nut-right", "outside wheel flange 4, at the right end"),
    ],
)
def test_a_place_with_nothing_else_further_out_is_at_the_end(reference, place, said):
    assert home_words(Library(LIBRARY).reference(reference), place) == said


def test_a_place_with_two_neighbours_lies_between_them():
    front_hub = Library(LIBRARY).reference("freight-tricycle/front-hub")
    assert home_words(front_hub, "spacer-tube") == "between left hub bearing and right hub bearing"
