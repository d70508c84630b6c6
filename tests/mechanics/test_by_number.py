"""A part that the reference does not have counts with the width of its standard, by the number read off it."""

from __future__ import annotations

import pytest

from stackcheck.mechanics.chain import as_found_sum, stack_sum
from stackcheck.mechanics.effects import effect
from stackcheck.mechanics.lengths import Interval
from stackcheck.model.finding import DifferentPart, Standing
from stackcheck.tables import resolve
from stackcheck.value import replace
from tests.builders import found, reading
from tests.mechanics.small import axle_hub, explained


def list_with(**of_bearing):
    typed = found("ball-bearing")
    return replace(typed, entries=(replace(typed.entries[0], part=None, what="ball bearing", **of_bearing),))


def term_of(as_found):
    ref = axle_hub()
    line = tuple(
        Standing(part=None, home="bearing@left", entry=1) if standing.home == "bearing@left" else standing
        for standing in explained(ref).line
    )
    total = as_found_sum(ref, as_found, explained(ref, line=line), "axle stack")
    return total, next((term for term in total.terms if term.entry == 1), None)


@pytest.mark.parametrize("number, kind", [("6004", "ball bearing"), ("6304-2RS C3", ""), ("32005 X", "taper bearing")])
def test_a_number_of_another_size_gives_the_width_of_its_standard_with_its_limits(number, kind):
    """Whoever reads the number off a ring need not measure its width to be told by how much the stack changes."""
    row = resolve(number)
    size = row.size("inner_width")
    total, term = term_of(list_with(marked=number, kind=kind))
    assert term.interval == Interval(nominal_mm=size.nominal_mm, least_mm=size.least_mm, most_mm=size.most_mm)
    assert (term.how, term.text, term.is_measured) == (row.standard, row.designation, False)
    assert total.longer_than(stack_sum(axle_hub(), "axle stack")) == pytest.approx(size.nominal_mm - 14.0)


def test_the_finding_tells_by_how_much_and_the_list_stays_as_typed():
    """6004: 11.88 to 12 in the place of 13.88 to 14."""
    as_found = list_with(marked="6004", kind="ball bearing")
    told = effect(axle_hub(), as_found, DifferentPart(places=("bearing@left",), entries=(1,)))
    change = next(change.change for change in told.changes if change.stack == "axle stack")
    assert (change.least_mm, change.nominal_mm, change.most_mm) == pytest.approx((-2.12, -2.0, -1.88))
    assert as_found.entry(1).sizes == ()


def test_a_measured_width_counts_before_the_table():
    _, term = term_of(list_with(marked="6004", kind="ball bearing", sizes=(("length", reading(11.95, 0.01)),)))
    assert (term.interval.least_mm, term.interval.most_mm) == pytest.approx((11.94, 11.96))


@pytest.mark.parametrize("number, kind", [("", "ball bearing"), ("FT-9", "ball bearing"), ("6004", "washer")])
def test_no_number_of_a_table_or_one_of_another_kind_leaves_the_length_unknown(number, kind):
    total, term = term_of(list_with(marked=number, kind=kind))
    assert (total.total, term) == (None, None)
    assert total.needs == ("length of entry 1",)
