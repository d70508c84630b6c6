"""The two drawings of a direction: every feature that a reference names has one, and it cannot be taken for its mirror picture."""

from __future__ import annotations

import io

import pytest
from PIL import Image, ImageChops, ImageOps

from stackcheck.page.outlines import OUTLINES, shape_of
from tests.page.phones import LIBRARY

BY_AN_ARROW = {("bracket", "arm"), ("wheel", "arrow")}
"""Features that are told by an arrow, because they look different on every machine."""


def features():
    for id in LIBRARY.files:
        reference = LIBRARY.reference(id)
        yield from (
            (part.kind, part.feature)
            for part in (reference.part(place.part) for place in reference.places)
            if part.feature and not part.same_both_ways
        )


def test_every_feature_of_every_reference_has_an_outline_of_its_own_but_two_that_are_told_by_an_arrow():
    shown = {each: shape_of(*each) for each in features()}
    assert len(shown) > 30 and set(shown.values()) <= OUTLINES.keys()
    assert {each for each, shape in shown.items() if shape == "mark"} == BY_AN_ARROW


def test_a_dished_spring_is_not_drawn_as_a_cup_and_every_outline_is_used():
    assert shape_of("disc spring", "hollow side") == "dish" and shape_of("flange", "hollow side") == "hollow"
    assert {shape_of(*each) for each in features()} == OUTLINES.keys()


@pytest.fixture(scope="module")
def drawn(chromium):
    page = chromium.new_page(viewport={"width": 240, "height": 120})
    pictures = {}
    for name, outline in OUTLINES.items():
        page.set_content(f'<body style="margin:0"><svg width="240" height="120" viewBox="0 0 120 60">{outline}</svg>')
        pictures[name] = Image.open(io.BytesIO(page.screenshot())).convert("L")
    page.close()
    return pictures


@pytest.mark.parametrize("name", OUTLINES)
def test_an_outline_differs_from_its_mirror_picture_and_stays_inside_its_frame(drawn, name):
    picture = drawn[name]
    inked = ImageOps.invert(picture)
    left, top, right, bottom = inked.getbbox()
    own = inked.crop((left, top, right, bottom))
    apart = ImageChops.difference(own, ImageOps.mirror(own))
    ink, differing = sum(own.histogram()[128:]), sum(apart.histogram()[128:])
    assert differing > 0.08 * ink, "laid on its mirror picture, hardly anything differs"
    assert left > 8 and right < 232 and top >= 0 and bottom <= 120 and right - left >= 40


def test_no_two_outlines_look_alike(drawn):
    names = sorted(drawn)
    for one in names:
        for other in names[names.index(one) + 1 :]:
            assert sum(ImageChops.difference(drawn[one], drawn[other]).histogram()[128:]) > 400, (one, other)
