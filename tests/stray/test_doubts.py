"""What to doubt before a part is unknown: one misread size, or several parts stuck together."""

from hypothesis import given
from hypothesis import strategies as st

from stackcheck.stray.candidates import Candidate, Limits, of_part, standard
from stackcheck.stray.doubts import odd_sizes, stuck_together
from stackcheck.stray.seen import Stray, Taken
from tests.stray.simulation import LIBRARY

PINION = LIBRARY.reference("orchard-tractor/pinion-shaft")
RINGS = tuple(of_part(part, PINION.id) for part in PINION.parts if part.kind == "shim ring")
WASHERS = tuple(item for item in standard() if item.kind == "washer")


def ring(bore, outside, length, u=0.005):
    sizes = {"bore": bore, "outside": outside, "length": length}
    return Stray(
        what="ring",
        taken=tuple(Taken(name=name, text="", value_mm=value, u_mm=u, how="") for name, value in sizes.items()),
    )


def test_a_size_ten_times_too_large_is_the_odd_one():
    (odd,) = odd_sizes(ring(17.1, 298.0, 3.01), WASHERS)
    assert odd.size == "outside"
    assert {"ISO 7089 M16", "ISO 7090 M16"} <= {part.name for part in odd.parts}


def test_of_two_sizes_none_is_called_odd():
    """One that agrees is no ground to doubt the other."""
    two = Stray(what="", taken=ring(17.1, 298.0, 3.0).taken[:2])
    assert odd_sizes(two, WASHERS) == ()


def test_two_unequal_shims_held_together_by_oil():
    assert {part.part for part in stuck_together(ring(35.1, 44.9, 0.80), RINGS)} == {"position-shim", "preload-shim"}


@given(count=st.integers(2, 3), length=st.floats(0.495, 0.505), room=st.floats(-0.004, 0.004))
def test_equal_parts_stuck_together_are_counted(count, length, room):
    together = stuck_together(ring(35.1, 44.9, count * length + room), RINGS[1:])
    assert together == (RINGS[1],) * count


@given(bore=st.floats(36, 60), length=st.floats(0.1, 3))
def test_nothing_is_stuck_together_whose_diameters_are_others(bore, length):
    assert stuck_together(ring(bore, bore + 10, length), RINGS) == ()


def test_a_part_without_a_thickness_is_stuck_to_nothing():
    bare = Candidate(kind="ring", name="", source="part", sizes=(Limits("bore", 35, 35.2), Limits("outside", 44.8, 45)))
    assert stuck_together(ring(35.1, 44.9, 0.8), (bare,)) == ()
