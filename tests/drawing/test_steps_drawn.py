"""A part with steps is drawn with them, as it stands: each at its scale, the way round that it was seen."""

from __future__ import annotations

import pytest

from stackcheck.drawing.figure import BODY, HOUSING, Figure
from stackcheck.drawing.layout import layout
from stackcheck.drawing.shapes import drawn
from stackcheck.formats.found_file import read_found
from stackcheck.formats.reference_file import read_reference
from stackcheck.model.finding import Standing
from stackcheck.result import compare
from stackcheck.value import replace
from tests.strategies import LIBRARY, ROOT

FLANGED = Figure(
    who=("collar", 0), standing=Standing(part="collar", home="collar"), role=BODY, kind="collar", feature="flange",
    first_mm=10.0, second_mm=32.0, inner_mm=10.0, outer_mm=20.0, facing=-1,
    steps=((4 / 22, 10.0, 20.0), (18 / 22, 10.0, 15.0)),
)  # fmt: skip


def test_each_step_stands_at_its_length_and_its_two_radii():
    (shape,) = drawn(FLANGED).shapes
    assert [(round(x, 9), radius) for x, radius in shape.points] == [
        (10, 10), (14, 10), (14, 10), (32, 10), (32, 15), (14, 15), (14, 20), (10, 20),
    ]  # fmt: skip


def test_a_feature_that_the_steps_show_needs_no_arrow_and_another_one_does():
    assert drawn(FLANGED).arrow is None
    assert drawn(replace(FLANGED, feature="paint mark")).arrow is not None


def test_a_pack_of_them_is_drawn_piece_by_piece():
    pack = replace(FLANGED, count=2, steps=tuple((share / 2, a, b) for share, a, b in FLANGED.steps) * 2)
    first, second = drawn(pack).shapes
    assert max(x for x, _ in first.points) == pytest.approx(21.0) == min(x for x, _ in second.points)
    assert [round(x - 11.0, 9) for x, _ in first.points] == [round(x - 22.0, 9) for x, _ in second.points]


def test_the_wall_of_a_housing_goes_on_over_what_sits_in_it():
    hub = replace(
        FLANGED, role=HOUSING, kind="hub", facing=0, reach_mm=(3.0, 39.0), reach_inner_mm=(13.0, 23.5),
        steps=((4 / 22, 11.0, 20.0), (18 / 22, 12.0, 15.0)),
    )  # fmt: skip
    (shape,) = drawn(hub).shapes
    assert (3.0, 20.0) in shape.points  # as wide as its end section where that is wide enough
    assert max(radius for x, radius in shape.points if x == 39.0) > 23.5  # and never thinner than its seat


@pytest.fixture
def flanged(tmp_path):
    """The front hub with real flanges on its collars, and the list in which they were swapped."""
    text = (LIBRARY / "freight-tricycle" / "front-hub.toml").read_text(encoding="utf-8")
    for name, length in (("short", 14.0), ("long", 18.0)):
        start = text.index(f"[parts.collar-{name}]")
        end = text.index('material = "steel"', start)
        rows = [
            '{ length = "4.0 mm", outside = "36 mm", bore = "20 H8" }',
            f'{{ length = "{length} mm", outside = "30 mm", bore = "20 H8" }}',
        ]
        rows = rows if name == "short" else rows[::-1]
        given = text[start:end].replace(
            'bore = "20 H8"\noutside = "30 mm ±0.1"\n', f"sections = [\n  {rows[0]},\n  {rows[1]},\n]\n"
        )
        text = text[:start] + given + text[end:]
    file = tmp_path / "freight-tricycle" / "front-hub.toml"
    file.parent.mkdir()
    file.write_text(text, encoding="utf-8")
    reference = read_reference(file)
    found, _ = read_found(ROOT / "examples" / "01-front-hub-collars-swapped.toml", lambda _: reference)
    return layout(compare(reference, found))


def test_swapped_collars_show_their_flanges_where_they_were_seen_to_look(flanged):
    """Both look outside in both halves, though each stands in the place of the other."""
    for piece in flanged.pieces:
        if piece.figure.kind == "collar":
            widest = max(piece.figure.stages, key=lambda stage: stage.outer_mm)
            outside = piece.figure.first_mm if piece.figure.facing < 0 else piece.figure.second_mm
            assert outside in (widest.first_mm, pytest.approx(widest.second_mm))


def test_a_leader_ends_in_the_metal_of_a_step(flanged):
    for label in flanged.labels:
        for piece in flanged.pieces:
            if piece.mark == label.mark.rstrip("~") and piece.half == label.half and piece.figure.steps:
                middle = (label.first_mm + label.second_mm) / 2
                stage = next(each for each in piece.figure.stages if each.first_mm <= middle <= each.second_mm)
                assert stage.inner_mm < label.radius_mm < stage.outer_mm


def test_nothing_about_a_stepped_part_is_told_as_assumed(flanged):
    assert not [item for item in flanged.items if item.name.endswith("collar") and item.assumed]
