"""Which way is toward something, as people say it."""

import pytest

from stackcheck.formats.facing import read_facing

LINE = [
    {"slinger"},
    {"seal"},
    {"floating bearing", "ball bearing"},
    {"shaft"},
    {"thrust bearing"},
    {"nut", "shaft nut"},
]


@pytest.mark.parametrize(
    ("word", "here", "end", "facing"),
    [
        ("left", 1, None, "first"),
        ("toward the Right", 1, None, "second"),
        ("middle", 1, 0, "second"),
        ("outside", 1, 0, "first"),
        ("outside", 4, 1, "second"),
        ("middle", 1, None, ""),
        ("bearing", 1, None, "second"),
        ("the bearing", 5, None, "first"),
        ("away from the bearing", 1, None, "first"),
        ("slinger", 1, None, "first"),
        ("bearing", 3, None, ""),
        ("propeller", 1, None, ""),
    ],
)
def test_a_direction_is_an_end_the_middle_the_outside_or_a_neighbour(word, here, end, facing):
    """ "Bearing" means any kind of bearing; one as near on both sides settles nothing."""
    assert read_facing(word, ends=("left", "right"), end=end, lines=[(LINE, here)]) == facing


def test_a_thing_of_exactly_that_name_comes_before_one_whose_name_only_ends_so():
    line = [{"axle nut"}, {"washer"}, {"spacer"}, {"nut"}]
    assert read_facing("nut", ends=("left", "right"), end=None, lines=[(line, 1)]) == "second"
