"""Names that nobody expects, stacks of any length, sizes of any kind: drawn, or refused in words."""

import unicodedata
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stackcheck.drawing.excerpt import folded
from stackcheck.drawing.layout import layout
from stackcheck.drawing.plain_text import shown
from stackcheck.drawing.svg import svg
from stackcheck.drawing.terminal import terminal
from stackcheck.report.carry import carry_along
from stackcheck.report.content import strip_report
from stackcheck.report.html import html
from stackcheck.result import compare
from stackcheck.value import replace
from tests.builders import clutch, found, hub, reference

MARKUP = (
    "<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "]]>", "<!--", "&amp;&lt;", "{{ 7*7 }}", "{% raw %}",
    "\u202eevil\u202c", "\u0639\u062c\u0644\u0629 \u05d2\u05dc\u05d2\u05dc", "\x00\x07\x1b[31m", "\ufffe\uffff",
    "x" * 200, "\u4e2d" * 60, "  ",
)  # fmt: skip
names = (
    st.sampled_from(MARKUP)
    | st.text(min_size=1, max_size=30)
    | st.lists(st.sampled_from(MARKUP), min_size=2, max_size=3).map("".join)
)
lengths = st.sampled_from((0.05, 0.2, 1.0, 7.0, 80.0, 2000.0)) | st.floats(0.05, 2000)


def named(own, known, name):
    """The same comparison with a name in every place that a person writes."""
    parts = tuple(
        replace(part, name=name, number=name, feature=name if part.feature else "", note=name) for part in own.parts
    )
    own = replace(
        own, parts=parts, title=name, revision=name, ends_seen_from=name, covers=name, ends=(name, name + "2")
    )
    entries = tuple(replace(entry, what=name, note=name, card=name) for entry in known.entries)
    return compare(own, replace(known, entries=entries, title=name, by=name, date=name, story=name))


@given(name=names)
@settings(max_examples=40)
def test_no_name_gets_into_the_markup_of_a_picture(name):
    comparison = named(hub(), found("collar-long< seal> bearing ring hub spacer~", "collar-short bearing"), name)
    document = svg(layout(comparison))
    root = ET.fromstring(document)
    assert {element.tag.split("}")[1] for element in root.iter()} <= {
        "svg", "title", "desc", "defs", "pattern", "rect", "line", "g", "path", "circle", "text",
    }  # fmt: skip
    assert not any(
        unicodedata.bidirectional(sign) in ("LRO", "RLO", "LRE", "RLE", "PDF") for sign in "".join(root.itertext())
    )


@given(name=names)
@settings(max_examples=20)
def test_no_name_gets_into_the_markup_of_a_report(name):
    comparison = named(hub(), found("collar-long< seal> bearing ring hub", "collar-short bearing"), name)
    for report in (strip_report(comparison), carry_along(comparison)):
        document = html(report)
        assert "<script" not in document
        assert "<img" not in document
        assert name != "{{ 7*7 }}" or f"<h1>{name}" in document


@given(name=names)
@settings(max_examples=30)
def test_no_name_gets_signs_of_control_or_direction_into_a_terminal(name):
    comparison = named(hub(), found("collar-long< seal> bearing ring hub", "collar-short bearing"), name)
    text = terminal(layout(comparison))
    assert not any(unicodedata.category(sign) in ("Cc", "Cs") and sign != "\n" for sign in text)


@given(own=st.lists(lengths, min_size=3, max_size=8), seen=st.lists(lengths, min_size=3, max_size=8))
@settings(max_examples=60)
def test_any_lengths_from_a_foil_to_a_pole_make_one_picture(own, seen):
    stack = "leg@a! " + " ".join(f"p{number}" for number in range(len(own)))
    sizes = {
        f"p{number}": {"length": (length,), "bore": (20,), "outside": (30 + length,)}
        for number, length in enumerate(own)
    }
    known = found(" ".join(f"p{number}/length={length:.2f}" for number, length in enumerate(seen[: len(own)])))
    picture = layout(compare(reference(stack, sizes=sizes), known))
    root = ET.fromstring(svg(picture))
    width, height = (float(value) for value in root.get("viewBox").split()[2:])
    assert width == 180
    assert height < 500
    assert all(len(line) <= 80 for line in terminal(picture).splitlines())


def test_five_hundred_places_are_drawn_and_numbers_that_have_no_room_are_counted():
    own = clutch(250)
    plates = [part.split("@")[0] for part in own.line]
    picture = layout(compare(own, found(" ".join(plates[:200] + plates[201:]))))
    document = svg(picture)
    assert "left out for want of room" in document
    assert "MISSING" in document
    assert all(len(line) <= 80 for line in terminal(picture).splitlines())
    assert len(svg(folded(picture))) < len(document) / 4


@pytest.mark.parametrize("text", MARKUP)
def test_a_text_is_shown_on_one_line_and_may_be_cut(text):
    assert "\n" not in shown(text)
    assert len(shown(text, 40)) <= 40


def test_an_assembly_of_which_nothing_can_be_drawn_is_still_a_sheet():
    """An axle that runs through nothing, and a key of no size."""
    picture = layout(compare(reference("axle key"), found("axle key")))
    assert "Not drawn" in svg(picture)
    assert "AS FOUND" in terminal(picture)
