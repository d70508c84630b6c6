"""Which parts of a reference a typed one can be: offered with a reason, never chosen in silence."""

import pytest

from stackcheck.formats.bench_line import candidates, read_line
from stackcheck.formats.library import Library
from tests.strategies import LIBRARY

library = Library(LIBRARY)


def offered(typed: str, reference: str) -> dict[str, str]:
    beside = library.reference(reference)
    return dict(candidates(read_line(typed, reference=beside).parts[0], beside))


def test_sizes_tell_two_collars_apart():
    assert offered("collar 22.02 cal", "front-hub") == {"collar-long": "same length", "collar-short": "3.97 longer"}


def test_two_that_nothing_tells_apart_both_say_so():
    assert offered("collar", "front-hub") == {
        "collar-long": "same kind, not to be told from Short collar",
        "collar-short": "same kind, not to be told from Long collar",
    }


def test_two_that_the_measuring_cannot_tell_apart_both_say_so():
    """Half way between two thicknesses, by a coarse rule."""
    why = offered("shim 45 35 .4 rule", "pinion-shaft")
    assert why == {
        "preload-shim": "same length, bore and OD, the sizes cannot tell it from Position shim ring",
        "position-shim": "same length, bore and OD, the sizes cannot tell it from Preload shim ring",
    }


def test_a_difference_is_said_in_words():
    assert offered("ring 45 35 .8 mic", "pinion-shaft") == {
        "preload-shim": "same bore and OD, 0.29 thicker",
        "position-shim": "same bore and OD, 0.49 thicker",
    }


def test_a_number_settles_it():
    assert offered("FT-1107", "front-hub") == {"collar-long": "marked FT-1107"}


def test_sizes_count_before_the_name():
    assert next(iter(offered("long collar 18.01 cal", "front-hub"))) == "collar-short"


def test_a_name_with_a_slip_of_the_pen_is_found():
    assert next(iter(offered("calmp bolt", "front-hub"))) == "clamp-bolt"
    assert offered("stone", "arbor")["grinding-wheel"] == "called so"


def test_a_part_that_fits_nothing_has_no_candidate():
    """The stray ring never becomes a part of the front hub."""
    for typed in (
        "thin ring 45 od 35 id .5",
        "ring 45x35x.5",
        "shim 45 35 .48 mic",
        "washer 45 od 35 id",
        "dont know, ring 45 35 .5",
    ):
        assert offered(typed, "front-hub") == {}


def test_parts_that_stay_on_the_machine_are_not_offered():
    assert "hub" not in offered("hub 57.95", "front-hub")


@pytest.mark.parametrize("typed", ["flange", "wheel", "nut", "washer"])
def test_at_most_three_are_offered(typed):
    assert len(offered(typed, "arbor")) <= 3
