"""One physical mistake is one point: what follows from a finding is told beside it and not counted again."""

from __future__ import annotations

import pytest

from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.model.finding import SEQUENCE
from stackcheck.model.found import Measured
from stackcheck.model.limits import Pairing
from stackcheck.present.verdict_words import headline
from stackcheck.result import compare
from stackcheck.value import replace
from tests.builders import found, reading, reference
from tests.mechanics.small import axle_hub
from tests.strategies import LIBRARY, ROOT

AS_IT_SHOULD_BE = "nut seal> collar-short< bearing spacer bearing seal< collar-long>"


def told(comparison) -> list[tuple[str, int | None]]:
    return [(result.finding.kind, result.follows) for result in comparison.findings]


def short_tube(**more):
    return replace(found(AS_IT_SHOULD_BE.replace("spacer", "spacer/length=57.80±0.02")), **more)


def test_a_gap_that_a_short_tube_leaves_is_the_same_mistake_as_the_tube():
    said = compare(axle_hub(), short_tube())
    assert told(said) == [("size_differs", None), ("gap_differs", 0)]
    assert "in 1 point" in headline(said)


def test_a_gap_measured_on_the_other_side_of_its_limits_is_another_mistake():
    """The tube is short, and yet somebody measured more room than there may be: something else is the matter as well."""
    wide = Measured(gap="seat gap", reading=reading(0.3, 0.02, "feeler"))
    assert told(compare(axle_hub(), short_tube(measured=(wide,)))) == [("size_differs", None), ("gap_differs", None)]


@pytest.mark.parametrize("number, entries", [("21", 3), ("21", 4), ("21", 5), ("35", 7), ("35", 8), ("35", 10)])
def test_in_a_list_that_goes_on_a_gap_out_by_its_sum_is_the_same_mistake_as_what_moves_it_so_far(number, entries):
    """Most lengths are those of the reference still: alone, nobody can tell what the part does to the gap."""
    (file,) = (ROOT / "examples").glob(f"{number}-*.toml")
    whole, wanted = read_found(file, Library(LIBRARY).reference)
    said = compare(wanted, replace(whole, entries=whole.entries[:entries], finished=False))
    assert len(said.mistakes) == 1 and "in 1 point" in headline(said)


THIN_AXLE = replace(
    reference(
        "leg! axle collar nut",
        sizes={"axle": {"seat": (20.0, 19.98, 19.99)}, "collar": {"bore": (20.0, 20.0, 20.03)}, "nut": {"length": (5.0,)}},
    ),
    pairings=(Pairing(what="collar on axle", outer=("collar", "bore"), inner=("axle", "seat"), least_mm=0.0, most_mm=0.06, source="the bench"),),
)  # fmt: skip


def test_room_around_an_axle_that_is_thin_is_the_same_mistake_as_the_axle():
    said = compare(THIN_AXLE, found("axle/seat=19.80±0.01 collar nut"))
    assert told(said) == [("size_differs", None), ("pairing_differs", 0)]


def test_room_around_an_axle_that_agrees_is_a_mistake_of_its_own():
    said = compare(THIN_AXLE, found("axle/seat=19.985±0.005 collar/bore=20.10±0.02 nut"))
    assert ("pairing_differs", None) not in told(said)
    assert [kind for kind, follows in told(said) if follows is None] == ["size_differs"]


def test_two_sizes_of_one_part_outside_their_limits_are_one_part_that_differs():
    ring = reference("cap ring nut", sizes={"ring": {"length": (2.0, 1.9, 2.1), "outside": (30.0, 29.5, 30.0)}})
    said = compare(ring, found("cap ring/length=1.6±0.02/outside=28.5±0.05 nut"))
    assert told(said) == [("size_differs", None), ("size_differs", 0)]


def test_a_thing_of_another_kind_that_stands_where_something_is_missing_is_one_mistake():
    """Whoever fitted a thick ring for the washer made one slip, and the washer and the ring are told together."""
    said = compare(reference("cap washer nut"), found("cap ?ring nut"))
    assert told(said) == [("missing", None), ("extra", 0)]
    assert "in 1 point" in headline(said)


def test_a_thing_of_another_kind_that_stands_elsewhere_is_another_mistake():
    said = compare(reference("cap washer nut pin"), found("cap nut ?ring pin"))
    assert told(said) == [("missing", None), ("extra", None)]


def test_one_thing_stands_for_one_missing_part_only():
    said = compare(reference("cap washer seal nut"), found("cap ?ring nut"))
    assert sorted(kind for kind, follows in told(said) if follows is None) == ["missing", "missing"]


def test_what_follows_stands_right_behind_its_cause_and_the_rest_most_serious_first():
    said = compare(THIN_AXLE, found("axle/seat=19.80±0.01 nut"))
    causes = [kind for kind, follows in told(said) if follows is None]
    assert causes == sorted(causes, key=SEQUENCE.index)
    assert all(follows is None or follows < number for number, (_, follows) in enumerate(told(said)))


def test_a_gap_that_two_parts_leave_together_is_no_third_mistake():
    """A plate and a circlip each 0.20 too thick: either alone may still leave 0.60, both together leave 0.40."""
    file = ROOT / "examples/38-clutch-plate-and-circlip-of-another-drum.toml"
    said = told(compare(*reversed(read_found(file, Library(LIBRARY).reference))))
    assert said == [("different_part", None), ("gap_differs", 0), ("different_part", None)]
