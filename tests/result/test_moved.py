"""A washer that only lies in one stack is not swapped with a bearing that lies in two: it was moved past it."""

from __future__ import annotations

from stackcheck.formats.library import Library
from stackcheck.result import compare
from tests.builders import found, reference
from tests.strategies import LIBRARY

HUB = reference(
    "leg@left! bearing@left tube bearing@right leg@right!",
    "bearing@left hub! wave-washer bearing@right",
    sizes={"tube": {"length": (58.0, 57.98, 58.02)}, "wave-washer": {"length": (0.6, 0.55, 0.65)}},
)


def kinds_and_places(line: str) -> list[tuple[str, tuple[str, ...]]]:
    return [(result.finding.kind, result.finding.places) for result in compare(HUB, found(line)).findings]


def test_a_wave_washer_ahead_of_the_left_bearing_is_out_of_place_and_the_bearing_stands_where_it_should():
    assert kinds_and_places("wave-washer bearing tube bearing") == [("out_of_place", ("wave-washer",))]
    (result,) = compare(HUB, found("wave-washer bearing tube bearing")).findings
    assert (result.finding.after, result.finding.before) == (None, "bearing@left")


def test_two_parts_of_one_stack_stay_swapped():
    swapped = compare(
        reference("leg@left! collar-long tube collar-short leg@right!"), found("tube collar-long collar-short")
    )
    assert [result.finding.kind for result in swapped.findings] == ["swapped"]


def test_a_gap_beside_a_part_that_was_moved_away_cannot_be_told():
    """Both leg washers on the left of the jockey wheel: nothing is left for the wheel to have its end float against."""
    jockey = Library(LIBRARY).reference("boat-trailer/jockey-wheel")
    comparison = compare(jockey, found("bolt leg-washer leg-washer cord-guard wheel spacer-tube", "lock-nut"))
    assert [(r.finding.kind, r.finding.places) for r in comparison.findings] == [
        ("out_of_place", ("leg-washer@right",))
    ]
    floats = next(loop.as_found for loop in comparison.loops if loop.as_found.loop.name == "end float of the wheel")
    assert floats.gap is None
