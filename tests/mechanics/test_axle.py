"""How stiff an axle is: by hand, and between the two that are sure to be too soft and too stiff."""

from __future__ import annotations

from math import pi
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.axle import Stretch, axle_stiffness, stretches
from stackcheck.mechanics.grip_gives import grip_gives
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns, with_variants

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
M20 = Thread(d_mm=20, pitch_mm=1.5)

around = st.lists(
    st.builds(Stretch, st.floats(1, 100), st.one_of(st.none(), st.floats(20, 60)), st.booleans()),
    min_size=1,
    max_size=5,
)


def ends(own: list[Stretch], area_of) -> float:
    """1/k = Σ l/(E A) + 0.5 d/(E A_d3) + 0.4 d/(E A_d): VDI 2230 part 1 (2015), compliance of the bolt (from memory)."""
    shank = sum(each.length_mm / area_of(each) for each in own)
    return 206e3 / (shank + 0.5 * 20 / (pi / 4 * M20.root_mm**2) + 0.4 * 20 / (pi / 4 * 20**2))


@given(around)
def test_an_axle_lies_between_its_thread_all_along_and_the_bores_all_along(own):
    unknowns, stiff = with_variants(lambda u: axle_stiffness(u, M20, own))
    told = unknowns.spanned(stiff)
    thin = ends(own, lambda each: M20.stress_area_mm2)
    thick = ends(
        own, lambda each: max(M20.stress_area_mm2, pi / 4 * each.bore_mm**2) if each.bore_mm else M20.stress_area_mm2
    )
    assert thin * (1 - 1e-9) <= told.least <= told.usual <= told.most <= thick * (1 + 1e-9)


def test_where_a_bearing_sits_on_it_it_is_as_thick_as_the_bore():
    assert axle_stiffness(Unknowns(), M20, [Stretch(34, 35.0, True)]) == pytest.approx(
        ends([Stretch(34, 35.0)], lambda each: pi / 4 * 35**2)
    )


def test_a_length_that_no_part_accounts_for_is_at_most_as_thick_as_the_thickest():
    assert axle_stiffness(Unknowns(), M20, [Stretch(10, 30.0)], 50.0) == pytest.approx(
        axle_stiffness(Unknowns(), M20, [Stretch(50, 30.0)])
    )


def test_the_pinion_on_its_shaft_of_35_is_far_stiffer_than_its_thread_of_20():
    """Thin: 34 mm of 35, the rest of 132.67 by its stress area; thick: 94.67 of 35, 34 of 32, 4 of 20.5; both with their ends."""
    pinion = LIBRARY.reference("orchard-tractor/pinion-shaft")
    joint = pinion.joints[0]
    unknowns, stiff = with_variants(
        lambda u: axle_stiffness(
            u, thread_of(joint), stretches(as_wanted(pinion), grip_gives(u, as_wanted(pinion), joint))
        )
    )
    told = unknowns.spanned(stiff)
    area, give = (lambda d: pi / 4 * d**2), 0.5 * 20 / (pi / 4 * M20.root_mm**2) + 0.4 * 20 / (pi / 4 * 20**2)
    thin = 206e3 / (34 / area(35) + 98.67 / M20.stress_area_mm2 + give)
    # The spacer tube is bored 35.2 + 0.1/0, the shim rings 35 + 0.2/0: at their nominal sizes.
    thick = 206e3 / (36.1 / area(35) + 58.57 / area(35.2) + 34 / area(32) + 4 / area(20.5) + give)
    assert told.causes[0].at_least == pytest.approx(thin, rel=1e-3)
    assert told.causes[0].at_most == pytest.approx(thick, rel=1e-3)
    assert thick > 3 * 206e3 * M20.stress_area_mm2 / 132.67 * 0.7


def test_a_part_without_a_hole_says_nothing_of_the_axle_inside_it():
    """A step whose bore is 0 is solid: nothing goes through it, and it is not an axle of no thickness."""
    solid, unsaid = (axle_stiffness(Unknowns(), M20, [Stretch(100, bore)]) for bore in (0.0, None))
    assert solid == unsaid
