"""Known parts: every row of the tables once, limits as in its table, parts of references with limits always."""

import pytest

from stackcheck.catalogue.known import SIZES, Limits, reference_part, standard_parts
from stackcheck.model.part import Part, Size
from stackcheck.stray.candidates import of_part, standard
from stackcheck.tables import resolve

PARTS = tuple(part for _, part in standard_parts())
BY_NAME = {part.name: part for part in PARTS}


def test_every_row_with_a_size_to_be_told_by_stands_here_once():
    assert len(PARTS) == len(BY_NAME) >= 500


ELSEWHERE = {("disc spring", "length"): "disc_height", ("nut", "bore"): "core_diameter"}
"""What a calliper measures and the row calls otherwise."""


@pytest.mark.parametrize("name", SIZES)
def test_limits_are_those_of_the_row(name):
    compared = 0
    for part in PARTS:
        own, row = part.size(name), resolve(part.name).size(ELSEWHERE.get((part.kind, name), name))
        assert (own and (own.low_mm, own.high_mm)) == (row and (row.least_mm, row.most_mm))
        compared += own is not None
    assert compared >= {
        "ball": 0,
        "across_flats": 63,
        "disc_thickness": 18,
        "width": 0,
        "thread_diameter": 90,
        "thread_pitch": 90,
    }.get(name, 300)


def test_a_bore_never_exceeds_the_outside():
    both = [part for part in PARTS if part.size("bore") and part.size("outside")]
    assert len(both) >= 300
    assert all(part.size("bore").high_mm < part.size("outside").low_mm for part in both)


def test_washers_that_differ_by_a_chamfer_alone_have_equal_sizes():
    """Whoever measured only sizes must not be told one of the two."""
    assert BY_NAME["ISO 7089 M16"].sizes == BY_NAME["ISO 7090 M16"].sizes


def test_a_size_that_no_drawing_limits_has_the_general_limits():
    """ISO 2768-1 class m: 20 mm ± 0.2."""
    part = Part(id="ring", name="Ring", kind="ring", sizes=(("bore", Size(text="20", nominal_mm=20.0)),))
    known = reference_part("pump/shaft", part)
    assert (known.size("bore").low_mm, known.size("bore").high_mm, known.assumed) == (19.8, 20.2, True)


def test_what_explain_and_find_know_of_the_standard_parts_is_one_and_the_same():
    """A part found by `find` and not weighed by `explain`, or the other way about, would be two truths."""
    assert [candidate.name for candidate in standard()] == [part.name for part in PARTS]
    for candidate, part in zip(standard(), PARTS):
        assert [(size.name, size.low_mm) for size in candidate.sizes] == [
            (size.name, size.low_mm) for size in part.sizes
        ]


def test_what_explain_and_find_know_of_a_part_of_a_reference_is_one_and_the_same():
    part = Part(
        id="ring",
        name="Ring",
        kind="ring",
        sizes=(("length", Size(text="3 mm ±0.1", nominal_mm=3.0, least_mm=2.9, most_mm=3.1)),),
    )
    assert of_part(part, "pump/shaft").sizes == reference_part("pump/shaft", part).sizes


def test_a_split_pin_is_told_by_its_legs_where_a_drawing_names_its_hole_only():
    """Left without a size, the pin that keeps a nut on would never be a candidate."""
    assert drawn_pin(4.0) == (3.2, 4.0)
    pins = [part for id, part in standard_parts() if id == "iso-1234"]
    assert len(pins) == 16
    for pin in pins:
        low, high = drawn_pin(resolve(pin.name).size("seat").nominal_mm)
        assert low <= pin.size("outside").low_mm < pin.size("outside").high_mm <= high


def drawn_pin(hole_mm):
    part = Part(
        id="pin", name="Pin", kind="split pin", sizes=(("shaft", Size(text=f"{hole_mm} mm", nominal_mm=hole_mm)),)
    )
    own = reference_part("hub/axle", part).size("outside")
    return own.low_mm, own.high_mm


def test_a_nut_is_told_by_the_hole_between_the_crests_of_its_thread():
    """ISO 965-1 class 6H, M12: 10.106 to 10.441; its thread is what it is made for, and no calliper finds 12 mm in it."""
    assert BY_NAME["ISO 4032 M12"].size("bore") == Limits("bore", 10.106, 10.441)
    assert all(part.size("bore") is None for part in PARTS if part.kind == "bolt")
