"""The sheet to fill in and the cards: what is printed, and above all what is not."""

import re
import shutil
import subprocess
from html import unescape
from pathlib import Path

import pytest

from stackcheck.bench.sheet import marks_from, must_measure, sheet
from stackcheck.cli import main
from stackcheck.formats.library import Library
from stackcheck.present.cards_html import cards_html
from tests.avoided_words import AVOIDED

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
IDS = list(LIBRARY.files)
HUB = "freight-tricycle/front-hub"


def words_of(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", re.sub(r"<style>.*?</style>", "", html, flags=re.DOTALL))).split())


def boxes(column: str) -> list[int]:
    return [int(number) for number in re.findall(r'<td class="number">(\d+)</td>', column)]


@pytest.fixture(scope="module", params=IDS)
def reference(request):
    return LIBRARY.reference(request.param)


def test_nothing_expected_is_printed(reference):
    """No size, limit, number of a part or direction: people confirm what they read."""
    words = words_of(sheet(reference))
    sizes = [size.text for part in reference.parts for _, size in part.sizes if re.search(r"\d\d", size.text)]
    assert [text for text in sizes if text in words] == []
    assert [part.number for part in reference.parts if part.number and part.number in words] == []
    assert [f"{place.toward} " for place in reference.places if f"toward {place.toward}" in words] == []
    assert not re.search(r"\d+[.,]\d+", words)


def test_no_name_on_it_gives_the_answer_away():
    words = words_of(sheet(LIBRARY.reference(HUB))).lower()
    assert "left collar: length" in words
    assert "short" not in words and "long" not in words


def test_the_sentence_about_the_ends_stands_on_every_page(reference):
    html = sheet(reference)
    sentence = f"{reference.ends_seen_from}."
    assert words_of(html).count(sentence) == html.count("<section")


def test_each_end_has_its_boxes_numbered_without_a_break_and_more_than_there_are_parts(reference):
    html = sheet(reference)
    parts = sum(not reference.part_at(place.name).fixed for place in reference.places)
    pages = [page for page in html.split("<section") if 'class="columns"' in page and "FROM THE" in page]
    for end in (0, 1):
        numbers = [number for page in pages for number in boxes(page.split('<div class="column">')[1 + end])]
        assert numbers == list(range(1, len(numbers) + 1))
        assert len(numbers) >= parts + 2


def test_fixed_members_stand_between_the_boxes_where_they_are_met():
    html = sheet(LIBRARY.reference(HUB))
    first, second = html.split('<div class="column">')[1:]
    assert re.findall(r'<tr class="mark"><td[^>]*>([^<]*)</td>', first) == ["LEFT FORK LEG", "HUB"]
    assert re.findall(r'<tr class="mark"><td[^>]*>([^<]*)</td>', second) == ["RIGHT FORK LEG", "HUB"]
    assert len(boxes(first.split("LEFT FORK LEG")[0])) > 2


def test_a_distance_is_no_mark():
    """The fork, between the legs, is nothing that somebody comes to on the way in."""
    reference = LIBRARY.reference(HUB)
    assert [mark.name for mark in marks_from(reference, 0)] == ["left fork leg", "hub"]


def test_what_must_be_measured_is_named_once(reference):
    asked = must_measure(reference)
    assert len(asked) == len(set(asked))
    assert bool(asked) == any(part.must_measure for part in reference.parts if reference.places_of(part.id))


def test_the_places_of_many_like_parts_are_not_counted_up():
    """Four shims of a pack, or six plates, are asked for by their kind."""
    for id in IDS:
        reference = LIBRARY.reference(id)
        for part in reference.parts:
            if part.must_measure and len(reference.places_of(part.id)) > 2:
                assert f"each {part.kind}" in " ".join(must_measure(reference))


@pytest.mark.parametrize(
    "html", [sheet(LIBRARY.reference(HUB)), cards_html("left", first=1, count=9)], ids=["sheet", "cards"]
)
def test_the_file_needs_nothing_from_elsewhere_and_assures_nothing(html):
    assert not re.search(r"https?:|src=|@import|url\(|<script|<link", html)
    assert not AVOIDED.search(words_of(html))


def test_a_title_cannot_break_the_page():
    from stackcheck.value import replace

    html = sheet(replace(LIBRARY.reference(HUB), title="Hub <b>&</b> axle"))
    assert "<b>&</b> axle" not in html and "Hub &lt;b&gt;&amp;&lt;/b&gt; axle" in html


def test_cards_are_numbered_with_an_arrow_and_a_bar_of_50_mm():
    html = cards_html("coupling end", first=7, count=10)
    assert re.findall(r'<div class="number">(\d+)</div>', html) == [str(number) for number in range(7, 17)]
    assert html.count(">COUPLING END<") == 10 and html.count("50 mm</text>") == 10
    assert html.count("<section") == 2


def test_the_bar_is_drawn_one_to_one():
    """75 units of the drawing on 75 mm of the page, the two ticks 50 units apart."""
    html = cards_html("left", first=1, count=1)
    assert ".bar { position: absolute; left: 5mm; bottom: 4mm; width: 75mm; height: 12mm; }" in html
    assert 'class="bar" viewBox="0 0 75 12"' in html
    assert "M0.25 2.5 V10 M50.25 2.5 V10" in html


def run(*words: object) -> int:
    return main(["sheet", *map(str, words), "--library", str(LIBRARY.folder)])


def test_a_sheet_is_written_as_a_new_file_only(tmp_path, capsys):
    out = tmp_path / "hub.html"
    assert run("front-hub", "--out", out) == 0
    text = out.read_text(encoding="utf-8")
    assert run("front-hub", "--out", out) == 3
    assert out.read_text(encoding="utf-8") == text
    assert "exists already" in capsys.readouterr().err


def test_cards_name_the_first_end_of_a_reference(tmp_path):
    assert run("cards", "--of", "bilge-pump/coupling", "--count", 1, "--out", tmp_path / "cards.html") == 0
    assert ">MOTOR END<" in (tmp_path / "cards.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("cards", "--count", 0), "0 cards are wanted"), (("cards", "--first", 0), "the first number is 0"),
        (("front-hub", "--count", 3), "this belongs to cards"), (("front-hob",), 'unknown reference "front-hob"'),
        (("cards", "--of", "front-hob"), 'unknown reference "front-hob"'),
    ],
)  # fmt: skip
def test_what_cannot_be_printed_is_said_and_nothing_is_written(tmp_path, capsys, words, said):
    assert run(*words, "--out", tmp_path / "out.html") == 3
    assert said in capsys.readouterr().err
    assert not (tmp_path / "out.html").exists()


@pytest.mark.skipif(shutil.which("chromium") is None, reason="no browser here to print with")
@pytest.mark.parametrize("what", ["clutch-pack", "cards"])
def test_a_browser_prints_as_many_pages_as_the_file_has(tmp_path, what):
    assert run(what, "--out", tmp_path / "out.html") == 0
    quiet = [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ]
    pdf = tmp_path / "out.pdf"
    subprocess.run(
        ["chromium", *quiet, f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={pdf}",
         (tmp_path / "out.html").as_uri()],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    printed = len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf.read_bytes()))
    assert printed == (tmp_path / "out.html").read_text(encoding="utf-8").count("<section")
