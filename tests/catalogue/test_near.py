"""Looking up by sizes: limits, readings and wear in their own direction, against the same said size by size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.catalogue.known import SIZES, Known, Limits, standard_parts
from stackcheck.catalogue.near import (
    ONLY_IF_WORN,
    VERDICTS,
    WEAR_MM,
    WITHIN,
    WITHIN_INSTRUMENT,
    near,
)
from stackcheck.model.part import Reading

STANDARD = [part for _, part in standard_parts()]
RING = Known(
    name="ring", kind="washer", where="here",
    sizes=(Limits("bore", 17.0, 17.2), Limits("outside", 29.5, 30.0), Limits("length", 2.7, 3.3)),
)  # fmt: skip


def read(value, good_to=0.03):
    return Reading(text="", value_mm=value, good_to_mm=good_to)


def taken(good_to=0.03, **sizes):
    return tuple((name, read(value, good_to)) for name, value in sizes.items())


def verdict(**sizes):
    found = near(taken(**sizes), [RING])
    return found[0].verdict if found else None


@pytest.mark.parametrize(
    ("sizes", "expected"),
    [
        ({"bore": 17.1}, WITHIN),
        ({"bore": 17.22}, WITHIN_INSTRUMENT),
        ({"bore": 17.4}, ONLY_IF_WORN),
        ({"bore": 16.9}, None),
        ({"outside": 29.3}, ONLY_IF_WORN),
        ({"outside": 30.1}, None),
        ({"length": 2.5}, ONLY_IF_WORN),
        ({"length": 3.4}, None),
        ({"length": 2.3}, None),
        ({"bore": 17.1, "length": 2.5}, ONLY_IF_WORN),
        ({"bore": 17.1, "length": 3.4}, None),
    ],
)
def test_wear_only_thins_and_widens(sizes, expected):
    """A ring above its thickness cannot be the part, however worn; a bore below its limit neither."""
    assert verdict(**sizes) == expected


def test_the_distance_is_the_reading_less_the_nearest_limit():
    (found,) = near(taken(bore=17.3, length=3.0), [RING])
    assert found.off_mm == (("bore", 0.1), ("length", 0.0))


def test_parts_of_equal_limits_are_one_answer():
    found = near(taken(bore=17.1, outside=29.9, length=3.0), STANDARD, "washer")
    assert [part.name for part in found[0].parts] == ["ISO 7089 M16", "ISO 7090 M16"]


def test_a_kind_includes_its_narrower_kinds_only():
    thrust = Known(name="thrust", kind="thrust washer", where="here", sizes=RING.sizes)
    washers, thrusts = (near(taken(bore=17.1), [RING, thrust], kind) for kind in ("washer", "thrust washer"))
    assert (len(washers), len(thrusts)) == (2, 1)


def test_a_part_of_which_a_measured_size_is_unknown_is_not_offered():
    bare = Known(name="bare", kind="washer", where="here", sizes=RING.sizes[:1])
    assert near(taken(bore=17.1, outside=29.9), [bare]) == ()
    assert len(near(taken(bore=17.1), [bare])) == 1


@given(data=st.data(), part=st.sampled_from(STANDARD))
def test_a_part_inside_its_limits_is_always_found_whatever_sizes_it_has(data, part):
    readings = tuple((size.name, read(data.draw(st.floats(size.low_mm, size.high_mm)))) for size in part.sizes)
    found = near(readings, STANDARD)
    assert part.name in [known.name for each in found if each.verdict == WITHIN for known in each.parts]


@given(bore=st.floats(1, 60), outside=st.floats(1, 90), length=st.floats(0.1, 30))
def test_best_first_and_never_further_than_wear_and_reading(bore, outside, length):
    found = near(taken(0.5, bore=bore, outside=outside, length=length), STANDARD)
    assert [VERDICTS.index(each.verdict) for each in found] == sorted(VERDICTS.index(each.verdict) for each in found)
    assert all(abs(off) <= WEAR_MM + 0.5 + 1e-6 for each in found for _, off in each.off_mm)


def test_every_size_that_may_be_asked_for_is_one_that_some_part_has_or_a_table_names():
    assert {size.name for part in STANDARD for size in part.sizes} <= set(SIZES)
