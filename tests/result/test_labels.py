"""A guessed name that is overruled: by sizes the place agrees, by nothing at all nobody can tell."""

from __future__ import annotations

import pytest

from stackcheck.present.blocks import plain
from stackcheck.present.compare_page import page
from stackcheck.result import compare
from tests.builders import found, reference

GEARS = reference(
    "groove@a! gear-large> tube gear-small< groove@b!",
    sizes={
        "gear-large": {"outside": (96.0, 95.9, 96.1)},
        "gear-small": {"outside": (54.0, 53.9, 54.1)},
        "tube": {"length": (30.0, 29.98, 30.02)},
    },
)


@pytest.mark.parametrize(
    ("line", "verdict"),
    [
        ("gear-small~> tube gear-large~<", "cannot tell"),
        ("gear-small~>/outside=96.0±0.02 tube gear-large~</outside=54.0±0.02", "agrees"),
        ("gear-small~>/outside=54.0±0.02 tube gear-large~</outside=96.0±0.02", "differs"),
        ("gear-small> tube gear-large<", "differs"),
        ("gear-large~> tube gear-small~<", "agrees"),
    ],
)
def test_gears_called_by_each_others_name_agree_only_where_their_sizes_say_so(line, verdict):
    assert compare(GEARS, found(line)).verdict == verdict


def test_what_would_settle_it_says_which_outcome_is_the_mistake():
    """96 in the place of the large gear is the large gear by a wrong name; 54 is the small gear, and the two are swapped."""
    shown = " ".join(plain(page(compare(GEARS, found("gear-small~> tube gear-large~<")))).split())
    assert "96.00 mm means no difference, 54.00 mm means" in shown
    assert "nothing measured tells which of the two it is" in shown
    assert "label overruled" not in shown
