"""Stacks and gaps of the shipped fleet, each worked by hand from the sizes in its file.

In a worst-case sum every part stands at its limit at once: nominals add with their signs, and so do half widths.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.mechanics.chain import distance, loops, stack_sum

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")


def figures(interval) -> tuple[float, float, float]:
    return tuple(round(value, 6) for value in (interval.nominal_mm, interval.least_mm, interval.most_mm))


def gap(reference: str, name: str):
    return next(state for state in loops(LIBRARY.reference(reference)) if state.loop.name == name)


def test_the_axle_stack_of_the_front_hub():
    """18 + 14 + 58 + 14 + 22 = 126; least 17.95 + 13.88 + 57.98 + 13.88 + 21.95 = 125.64; most 126 + 0.05 + 0.02 + 0.05.

    The nut and its washer stand outside the left leg, the free gap outside the long collar: neither is in the sum.
    """
    total = stack_sum(LIBRARY.reference("freight-tricycle/front-hub"), "axle stack")
    assert figures(total.total) == (126.0, 125.64, 126.12)
    assert total.between == ("leg@left", "leg@right")
    assert [term.place for term in total.terms] == [
        "collar-short@left", "bearing@left", "spacer-tube", "bearing@right", "collar-long@right",
    ]  # fmt: skip


def test_the_free_gap_of_the_front_hub():
    """129.2 - 126.0 = 3.2; least 129.0 - 126.12 = 2.88; most 129.4 - 125.64 = 3.76."""
    state = gap("freight-tricycle/front-hub", "free gap")
    assert figures(state.gap) == (3.2, 2.88, 3.76)
    assert (state.limits, state.verdict) == ((2.5, 4.0), "agrees")


def test_the_seat_gap_of_the_front_hub():
    """58.00 - 57.95 = 0.05, half width 0.02 + 0.02; the bearings are in both paths and add nothing."""
    state = gap("freight-tricycle/front-hub", "seat gap")
    assert figures(state.gap) == (0.05, 0.01, 0.09)
    assert (state.limits, state.verdict) == ((0.0, 0.1), "agrees")


def test_the_end_float_of_the_pinion():
    """58.57 + 3 x 0.50 - 60.00 = 0.07; half width 0.02 + 3 x 0.01 + 0.015 = 0.065. The position shims lie outside."""
    assert figures(gap("orchard-tractor/pinion-shaft", "end float of the pinion").gap) == (0.07, 0.005, 0.135)


def test_the_seal_working_length_of_the_pump():
    """48.5 - 12.0 - 8.0 = 28.5; half width 0.1 + 0.05 + 0.1 = 0.25."""
    assert figures(gap("bilge-pump/seal-and-impeller", "seal working length").gap) == (28.5, 28.25, 28.75)


def test_the_impeller_clearance_of_the_pump():
    """0.45 + 90.0 - 48.5 - 41.5 = 0.45; half width 0.05 + 0.05 + 0.1 + 0.05 = 0.25."""
    assert figures(gap("bilge-pump/seal-and-impeller", "impeller clearance").gap) == (0.45, 0.2, 0.7)


def test_the_room_of_the_sliding_bearing_of_the_layshaft():
    """2.5 + 22 + 30 + 18 + 2.5 - 73.5 = 1.5; half width 5 x 0.02 + 0.05 = 0.15."""
    assert figures(gap("orchard-tractor/layshaft", "room of the sliding bearing").gap) == (1.5, 1.35, 1.65)


def test_the_room_on_the_layshaft_counts_both_ring_widths_and_both_circlips():
    """107.7 - 107.4 = 0.3; least 107.67 - 107.5 = 0.17; most 107.73 - 106.94 = 0.79.

    Shaft stack at its least: 2 x 1.14 + 2 x 14.88 + 2 x 2.48 + 21.98 + 29.98 + 17.98 = 106.94; at its most 107.5.
    """
    assert figures(gap("orchard-tractor/layshaft", "room on the shaft").gap) == (0.3, 0.17, 0.79)


def test_a_gap_that_a_nut_sets_is_never_a_sum():
    state = gap("boat-trailer/hub", "end float")
    assert state.gap is None
    assert state.needs == ("end float as measured, no sum of lengths (set by: spindle nut)",)


@pytest.mark.parametrize(
    "face_a, face_b, apart",
    [
        ("leg@left", "spacer-tube", 32.0),  # 18 + 14: between the faces that look at one another
        ("leg@left", "spacer-tube/right", 90.0),  # 18 + 14 + 58
        ("spacer-tube/right", "leg@left", -90.0),
        ("leg@left", "hub", 32.0),  # 18 + 7 + 7: from the inner ring to the outer one at the plane of the balls
        ("leg@left/right", "leg@right/left", 129.2),  # along the fork: the axle stack does not reach
    ],
)
def test_distances_on_the_front_hub(face_a, face_b, apart):
    assert distance(LIBRARY.reference("freight-tricycle/front-hub"), face_a, face_b).total.nominal_mm == pytest.approx(
        apart
    )
