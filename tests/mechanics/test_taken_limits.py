"""A length without limits is not exact: limits are taken for it, and said to be ours."""

import pytest

from stackcheck.mechanics.chain import loops, stack_sum
from stackcheck.mechanics.taken_limits import is_taken, with_limits
from tests.builders import reference, size


@pytest.mark.parametrize(
    "kind, length, limits",
    [
        ("spacer tube", 46.05, (45.95, 46.15)),
        ("ball bearing", 14.0, (13.88, 14.0)),  # only ever narrower
        ("washer", 1.0, (0.9, 1.1)),
        ("washer", 3.0, (2.7, 3.3)),
        ("shim ring", 0.1, (0.09, 0.11)),
        ("shim ring", 1.0, (0.95, 1.05)),
        ("", 5.0, (4.9, 5.1)),
        ("collar", 0.1, (0.05, 0.15)),  # never nothing at all
    ],
)
def test_what_is_taken_goes_by_the_kind_of_part(kind, length, limits):
    taken = with_limits(size(length), kind)
    assert (taken.least_mm, taken.most_mm) == pytest.approx(limits)
    assert taken.nominal_mm == length and is_taken(taken.limits_from)


def test_limits_that_the_reference_gives_stand():
    given = size(46.05, 46.0, 46.1)
    assert with_limits(given, "spacer tube") is given
    assert not is_taken(given.limits_from)


def test_no_sum_of_lengths_without_limits_is_exact():
    """ "Gap 0.05" of two lengths that nobody gave limits would claim what nobody knows."""
    ref = reference(
        "bearing@left tube bearing@right", "bearing@left hub bearing@right",
        sizes={"tube": {"length": (46.05,)}, "hub": {"length": (46.0,)}},
    )  # fmt: skip
    total = stack_sum(
        reference("ring tube", sizes={"ring": {"length": (2.0, 2.0, 2.0)}, "tube": {"length": (46.05,)}}), "stack 1"
    )
    assert (total.total.least_mm, total.total.most_mm) == pytest.approx((47.95, 48.15))
    assert [term.how for term in total.terms] == ["written", "±0.1 taken"]
    (state,) = loops(ref)
    assert abs(state.gap.nominal_mm) == pytest.approx(0.05)
    assert state.gap.most_mm - state.gap.least_mm == pytest.approx(0.4)
