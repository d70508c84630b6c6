"""The SVG of every example: sound XML, complete, black and white, words at the items, no leader over another."""

import re
import xml.etree.ElementTree as ET
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path

import pytest

from stackcheck.drawing.excerpt import detail, folded
from stackcheck.drawing.layout import layout
from stackcheck.drawing.picture import FOUND
from stackcheck.drawing.svg import svg
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.result import compare
from tests.builders import clutch, found, reference
from tests.drawing.manual_pictures import FOLDER
from tests.drawing.test_leaders import crosses

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
SVG = "{http://www.w3.org/2000/svg}"


@cache
def picture_of(name):
    path = next(path for path in EXAMPLES if path.name.startswith(name))
    known, own = read_found(path, LIBRARY.reference)
    return layout(compare(own, known))


def words_of(document):
    return [element.text for element in ET.fromstring(document).iter(f"{SVG}text")]


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem)
def drawn(request):
    picture = picture_of(request.param.name)
    return picture, svg(picture)


def test_it_is_sound_xml_with_title_description_and_language(drawn):
    _, document = drawn
    root = ET.fromstring(document)
    assert root.get("role") == "img"
    assert root.get("lang") == "en"
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    assert all(name in ids for name in root.get("aria-labelledby").split())
    assert "Not verified:" in root.find(f"{SVG}desc").text


def test_it_is_black_and_white(drawn):
    _, document = drawn
    colours = set(re.findall(r'(?:fill|stroke)="([^"]+)"', document))
    assert {colour for colour in colours if not colour.startswith("url(#stack-h")} <= {"#000", "#fff", "none"}


def test_both_halves_carry_their_title_at_both_ends(drawn):
    _, document = drawn
    words = words_of(document)
    assert words.count("AS FOUND") == 2
    assert sum(word.startswith("REFERENCE rev") for word in words) == 2


def test_no_two_leaders_of_a_half_cross(drawn):
    _, document = drawn
    for group in ET.fromstring(document).iter(f"{SVG}g"):
        if not group.get("id").startswith("stack-labels"):
            continue
        lines = [_points(path.get("d")) for path in group.iter(f"{SVG}path")]
        assert lines
        for one, other in combinations(lines, 2):
            assert not any(crosses(a, b) for a in pairwise(one) for b in pairwise(other))


def _points(d):
    return [tuple(map(float, pair.split())) for pair in d[1:].split("L")]


def test_every_part_has_its_mark_in_the_list_or_a_word_on_why_not(drawn):
    picture, document = drawn
    words = " ".join(words_of(document))
    for item in picture.items:
        assert item.mark in words


def test_what_differs_stands_in_words_at_its_item(drawn):
    picture, document = drawn
    for label in picture.labels:
        if label.half == FOUND and label.words and label.words[0].isupper():
            assert all(word in words_of(document) for word in label.words)


def test_exchanged_collars_are_called_so_at_both_and_the_hub_has_its_witness_lines():
    words = words_of(svg(picture_of("01")))
    assert words.count("SWAPPED") == 2
    assert "B: 4.00 further toward right" in words


def test_a_missing_part_is_a_dashed_outline_in_the_upper_half_only():
    picture = picture_of("08")
    missing = [piece for piece in picture.pieces if piece.style == "missing"]
    assert [(piece.half, piece.figure.standing.home) for piece in missing] == [(FOUND, "steel-plate@4")]
    assert 'stroke-dasharray="1.6 1"' in svg(picture)


def test_a_part_turned_round_shows_its_feature_to_the_other_side_in_the_two_halves():
    picture = picture_of("01")
    facing = {piece.half: piece.figure.facing for piece in picture.pieces if piece.figure.standing.home == "seal@right"}
    assert facing == {"found": 1, "reference": -1}


def test_what_nobody_looked_at_is_not_drawn_as_if_it_agreed():
    picture = picture_of("03")
    unseen = [piece for piece in picture.half(FOUND) if piece.style == "unseen"]
    assert {piece.figure.standing.home for piece in unseen} >= {"bearing-large", "seal", "wear-ring"}
    assert all(piece.figure.facing == 0 for piece in unseen)


def test_a_way_round_that_nobody_said_is_asked_for_and_not_drawn():
    own = reference("leg! collar> spacer")
    picture = layout(compare(own, found("collar spacer")))
    label = next(label for label in picture.labels if label.half == FOUND and label.mark.startswith("1"))
    assert label.words == ("way round?",)


def test_an_extra_part_is_x1_and_moves_no_number():
    picture = picture_of("11")
    assert [item.mark for item in picture.items if item.place == ""] == ["X1"]
    assert [item.mark for item in picture.items if item.mark.isdigit()] == [str(number) for number in range(1, 12)]


def test_the_neighbourhood_of_a_finding_holds_its_part_and_not_the_far_end():
    picture = picture_of("08")
    part = detail(picture, picture.comparison.findings[0].finding)
    marks = {piece.mark for piece in part.pieces}
    assert "7" in marks
    assert "A" not in marks
    assert ET.fromstring(svg(part)) is not None


def test_repeats_that_agree_are_folded_and_counted():
    own = clutch(9)
    plates = [part.split("@")[0] for part in own.line]
    picture = folded(layout(compare(own, found(" ".join(plates)))))
    words = words_of(svg(picture))
    assert "times" in " ".join(words)
    assert len(picture.half(FOUND)) < len(own.line)


def test_a_run_with_a_missing_plate_is_not_folded_over_it():
    own = clutch(12)
    plates = [part.split("@")[0] for part in own.line]
    picture = layout(compare(own, found(" ".join(plates[:8] + plates[9:]))))
    short = folded(picture)
    missing = [piece for piece in short.pieces if piece.style == "missing"]
    assert len(missing) == 1


def test_the_pictures_of_the_manual_are_those_that_are_drawn_today(drawn):
    """python -m tests.drawing.manual_pictures draws them anew."""
    picture, document = drawn
    shipped = (FOLDER / f"{Path(picture.comparison.found.file).stem}.svg").read_text(encoding="utf-8")
    assert re.findall(r' d="([^"]+)"', shipped) == re.findall(r' d="([^"]+)"', document)


def test_a_gap_whose_sum_is_another_than_what_is_drawn_says_so():
    """Without its spacer tube the sum leaves 61 mm at the leg; the hub holds the bearings apart all the same."""
    picture = picture_of("09")
    gap = next(gap for gap in picture.gaps if gap.half == FOUND and "free gap" in gap.words)
    assert "by the sum" in gap.words
    assert gap.second_mm - gap.first_mm < 10
