"""Where parts are drawn: engine two's distances, found by another way through the graph, hold every drawn face."""

from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from stackcheck.drawing.figure import CORE, DISTANCE, HIDDEN, PIN, WITHIN
from stackcheck.drawing.layout import layout
from stackcheck.drawing.picture import FOUND, REFERENCE
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.mechanics.arrangement import as_believed
from stackcheck.mechanics.chain import distance
from stackcheck.model.found import Found
from stackcheck.result import compare
from tests.builders import found, hub, reference

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
NO_BODY = (CORE, DISTANCE, HIDDEN, PIN, WITHIN)


@cache
def picture_of(path):
    known, own = read_found(path, LIBRARY.reference)
    return layout(compare(own, known))


def nothing_found(own):
    return layout(compare(own, Found(reference=own.id, revision=own.revision, entries=(), finished=False)))


def figures(picture, half):
    return {
        piece.figure.who: piece.figure
        for piece in picture.half(half)
        if piece.figure.role not in NO_BODY and piece.style != "missing"
    }


def faces_told(own, figures, **as_found):
    """(place, drawn distance, distance by engine two)
    from the datum to the near face of every place that it can tell.
    """
    datum = figures.get((own.datum, 0))
    if datum is None:
        return
    several = {home for home, number in figures if number}
    for (home, _), figure in figures.items():
        if (
            not isinstance(home, str)
            or home == own.datum
            or home in several
            or not own.has_place(home)
            or figure.assumed[:1] == ("length",)
        ):
            continue
        told = distance(own, f"{own.datum}/{own.ends[0]}", f"{home}/{own.ends[0]}", **as_found)
        if told.total is not None and "length" not in datum.assumed:
            yield home, figure.first_mm - datum.first_mm, told.total.nominal_mm
        elif told.total is None:
            told = distance(own, own.datum, home, **as_found)
            if told.total is not None and own.line.index(home) > own.line.index(own.datum):
                yield home, figure.first_mm - datum.second_mm, told.total.nominal_mm


@pytest.mark.parametrize("name", LIBRARY.files)
def test_every_face_of_a_reference_is_drawn_where_engine_two_has_it(name):
    own = LIBRARY.reference(name)
    told = list(faces_told(own, figures(nothing_found(own), REFERENCE)))
    assert told or own.id.endswith(
        ("steering-head", "disc-spring-stack")
    )  # a ring inside a bearing's outline, and springs that nobody adds up
    for home, drawn, computed in told:
        assert drawn == pytest.approx(computed, abs=0.01), home


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_face_as_found_is_drawn_where_engine_two_has_it_unless_parts_would_lie_in_one_another(path):
    picture = picture_of(path)
    comparison = picture.comparison
    overlaps = sum(
        max(0.0, -state.as_found.gap.nominal_mm) for state in comparison.loops if state.as_found.gap is not None
    )
    own = comparison.reference
    believed = as_believed(own, comparison.found, comparison.best)
    if any(member.or_else for stack in own.stacks for member in believed.members(stack.name)):
        return  # engine two counts a part of uncertain place in every stack that it may lie in; a picture shows it once
    for home, drawn, computed in faces_told(
        own, figures(picture, FOUND), found=comparison.found, explanation=comparison.best
    ):
        assert drawn == pytest.approx(computed, abs=0.01 + overlaps), home


def faces_in(figure, stack):
    """The faces that it shows in a stack: those of the outer ring of a bearing where the stack runs through that."""
    if stack.through == "outer rings" and figure.outer_ring_mm is not None:
        return figure.outer_ring_mm
    return figure.first_mm, figure.second_mm


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_part_lies_in_its_neighbour(path):
    """A missing spacer tube does not let two bearings into the hub that stands between them."""
    picture = picture_of(path)
    for half in (FOUND, REFERENCE):
        here = figures(picture, half)
        for stack in picture.comparison.reference.stacks:
            line = [
                (here[place, 0].who, *faces_in(here[place, 0], stack)) for place in stack.places if (place, 0) in here
            ]
            if half == FOUND:
                line.sort(key=lambda each: each[1:])
            for (a, _, second), (b, first, _) in pairwise(line):
                assert second - first < 0.011, (half, a, b)


def test_both_halves_start_from_the_same_face():
    picture = picture_of(EXAMPLES[0])
    datum = picture.comparison.reference.datum, 0
    assert figures(picture, FOUND)[datum].second_mm == figures(picture, REFERENCE)[datum].second_mm


def test_exchanged_collars_move_the_hub_by_the_difference_of_their_lengths():
    own = hub(sizes={"collar-short": {"length": (18,)}, "collar-long": {"length": (22,)}, "bearing": {"length": (14,)},
                     "spacer": {"length": (58,)}, "hub": {"length": (58,)}})  # fmt: skip
    picture = layout(compare(own, found("collar-long< seal> bearing spacer hub bearing seal< collar-short>")))
    here, there = figures(picture, FOUND), figures(picture, REFERENCE)
    assert here["bearing@left", 0].first_mm - there["bearing@left", 0].first_mm == pytest.approx(4)
    assert here["collar-short", 0].second_mm == pytest.approx(there["collar-long", 0].second_mm)


def test_parts_of_unknown_length_share_the_room_between_known_faces():
    """Springs fill what the others leave them."""
    own = reference(
        "plate@a! washer@1 washer@2 plate@b!", "plate@a! rod plate@b!", sizes={"rod": {"length": (30,)}},
    )  # fmt: skip
    here = figures(nothing_found(own), REFERENCE)
    lengths = [here[name, 0].length_mm for name in ("washer@1", "washer@2")]
    assert lengths == pytest.approx([15, 15])
    assert "length" not in here["washer@1", 0].assumed


def test_a_length_that_nobody_knows_is_assumed_and_says_so():
    own = reference("leg@a! collar spacer", sizes={"spacer": {"length": (40,)}})
    here = figures(nothing_found(own), REFERENCE)
    assert here["collar", 0].assumed[0] == "length"
    assert here["collar", 0].length_mm > 0
    assert "length" not in here["spacer", 0].assumed
