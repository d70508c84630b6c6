"""Standard parts as candidates: every row once, limits as in its table, and parts alike in size named together."""

import pytest

from stackcheck.tables import candidates, equal_limits, resolve

PARTS = candidates()
BY_NAME = {part.designation: part for part in PARTS}


def test_every_row_of_every_table_is_a_candidate_once():
    assert len(PARTS) == len(BY_NAME) >= 500


@pytest.mark.parametrize(("measured", "size"), [("bore_mm", "bore"), ("outside_mm", "outside"), ("thickness_mm", "length")])
def test_limits_are_those_of_the_row(measured, size):
    compared = 0
    for part in PARTS:
        own = resolve(part.designation).size(size)
        assert getattr(part, measured) == (own and (own.least_mm, own.most_mm))
        compared += own is not None
    assert compared >= 300


def test_a_candidate_has_at_least_one_size_and_its_sources():
    assert all(any(part.limits) and len(part.sources) >= 2 for part in PARTS)


def test_a_bore_never_exceeds_the_outside():
    both = [part for part in PARTS if part.bore_mm and part.outside_mm]
    assert len(both) >= 300
    assert all(part.bore_mm[1] < part.outside_mm[0] for part in both)


def test_washers_that_differ_by_a_chamfer_alone_are_one_class():
    """Whoever measured only sizes must not be told one of the two."""
    of = {part.designation: same for same in equal_limits(PARTS) for part in same}
    assert {part.designation for part in of["ISO 7089 M16"]} >= {"ISO 7089 M16", "ISO 7090 M16"}


def test_classes_share_out_all_parts_and_no_two_classes_are_alike():
    classes = equal_limits(PARTS)
    assert sorted(part.designation for same in classes for part in same) == sorted(BY_NAME)
    assert len({(same[0].kind, same[0].limits) for same in classes}) == len(classes)
