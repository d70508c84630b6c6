"""Looking up by sizes: limits, readings and wear in their own direction, against the same said size by size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.catalogue.near import (
    ONLY_IF_WORN,
    VERDICTS,
    WEAR_MM,
    WITHIN,
    WITHIN_INSTRUMENT,
    Known,
    known_standard,
    near,
)
from stackcheck.model.part import Reading
from stackcheck.tables import candidates

RING = Known(name="ring", kind="washer", where="here", limits=((17.0, 17.2), (29.5, 30.0), (2.7, 3.3)))


def read(value, good_to=0.03):
    return Reading(text="", value_mm=value, good_to_mm=good_to)


def verdict(bore=None, outside=None, thickness=None):
    found = near(tuple(None if size is None else read(size) for size in (bore, outside, thickness)), [RING])
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
        ({"thickness": 2.5}, ONLY_IF_WORN),
        ({"thickness": 3.4}, None),
        ({"thickness": 2.3}, None),
        ({"bore": 17.1, "thickness": 2.5}, ONLY_IF_WORN),
        ({"bore": 17.1, "thickness": 3.4}, None),
    ],
)
def test_wear_only_thins_and_widens(sizes, expected):
    """A ring above its thickness cannot be the part, however worn; a bore below its limit neither."""
    assert verdict(**sizes) == expected


def test_the_distance_is_the_reading_less_the_nearest_limit():
    (found,) = near((read(17.3), None, read(3.0)), [RING])
    assert found.off_mm == (0.1, None, 0.0)


def test_parts_of_equal_limits_are_one_answer():
    found = near((read(17.1), read(29.9), read(3.0)), map(known_standard, candidates()), "washer")
    assert [part.name for part in found[0].parts] == ["ISO 7089 M16", "ISO 7090 M16"]


def test_a_kind_includes_its_narrower_kinds_only():
    thrust = Known(name="thrust", kind="thrust washer", where="here", limits=RING.limits)
    washers, thrusts = (near((read(17.1), None, None), [RING, thrust], kind) for kind in ("washer", "thrust washer"))
    assert (len(washers), len(thrusts)) == (2, 1)


def test_a_part_of_which_a_measured_size_is_unknown_is_not_offered():
    bare = Known(name="bare", kind="washer", where="here", limits=(RING.limits[0], None, None))
    assert near((read(17.1), read(29.9), None), [bare]) == ()
    assert len(near((read(17.1), None, None), [bare])) == 1


@given(data=st.data(), part=st.sampled_from([part for part in candidates() if all(part.limits)]))
def test_a_part_inside_its_limits_is_always_found(data, part):
    sizes = [data.draw(st.floats(*limits)) for limits in part.limits]
    found = near(tuple(map(read, sizes)), map(known_standard, candidates()))
    assert part.designation in [known.name for each in found if each.verdict == WITHIN for known in each.parts]


@given(bore=st.floats(1, 60), outside=st.floats(1, 90), thickness=st.floats(0.1, 30))
def test_best_first_and_never_further_than_wear_and_reading(bore, outside, thickness):
    found = near((read(bore, 0.5), read(outside, 0.5), read(thickness, 0.5)), map(known_standard, candidates()))
    assert [VERDICTS.index(each.verdict) for each in found] == sorted(VERDICTS.index(each.verdict) for each in found)
    assert all(abs(off) <= WEAR_MM + 0.5 + 1e-6 for each in found for off in each.off_mm)
