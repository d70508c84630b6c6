"""The strip report as somebody meets it on paper or on a screen: sound, complete, honest, readable."""

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import html5lib
import pytest
from PIL import Image

from stackcheck.cli import main
from stackcheck.errors import InputError
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.present.blocks import Rows, Text
from stackcheck.present.verdict_words import point_words
from stackcheck.report.carry import carry_along
from stackcheck.report.content import JobParts, strip_report
from stackcheck.report.html import html
from stackcheck.report.photos import photo
from stackcheck.result import compare
from tests.cli.test_cli import AVOIDED
from tests.examples.replay import replay

ROOT = Path(__file__).parents[2]
LIBRARY = Library(ROOT / "reference_assemblies")
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
SWAPPED, PACK, ARBOR = EXAMPLES[0], EXAMPLES[7], EXAMPLES[1]
XHTML = "{http://www.w3.org/1999/xhtml}"


@cache
def comparison_of(path):
    known, own = read_found(path, LIBRARY.reference)
    return compare(own, known)


TRIED = (*EXAMPLES[:12], EXAMPLES[18], EXAMPLES[30], EXAMPLES[32])


@pytest.fixture(scope="module", params=TRIED, ids=lambda path: path.stem)
def made(request):
    comparison = comparison_of(request.param)
    report = strip_report(comparison)
    document = html(report)
    return comparison, report, document


@cache
def tree(document):
    return html5lib.HTMLParser(strict=True).parse(document)  # a mistake raises


def text_of(element):
    return re.sub(r"\s+", " ", "".join(element.itertext())).strip()


def body_text(document):
    return text_of(tree(document).find(f"{XHTML}body"))


def test_it_is_sound_html_in_one_file_of_less_than_2_mb(made):
    _, _, document = made
    root = tree(document)
    assert root.get("lang") == "en"
    assert len(document.encode()) < 2_000_000
    assert not re.findall(r'(?:src|href)="(?!data:|#)', document)
    assert "<script" not in document
    assert "@import" not in document


def test_the_sentence_comes_first_and_what_is_not_verified_on_the_same_page_in_the_same_size(made):
    _, report, document = made
    words = body_text(document)
    assert words.index("Strip report") < words.index(report.summary[:40]) < words.index("NOT VERIFIED")
    headline = next(element for element in tree(document).iter(f"{XHTML}div") if element.get("class") == "headline")
    assert "NOT VERIFIED" in text_of(headline)
    assert not re.search(r"\.headline p \{[^}]*font-size", document)
    assert all(each in words for each in report.not_verified)


def test_findings_tables_sums_cautions_and_not_verified_stand_in_the_fixed_sequence(made):
    _, report, document = made
    titles = [text_of(element) for element in tree(document).iter(f"{XHTML}h2")]
    wanted = [
        *(["Findings"] if report.findings else []),
        "Agrees",
        "Items",
        "Lengths and gaps",
        "Sums",
        "Measurements",
        "Gauges",
        "Not verified",
        "Recorded",
    ]
    at = [next(index for index, title in enumerate(titles) if title.startswith(name)) for name in wanted]
    assert at == sorted(at)


def test_what_was_looked_at_and_agrees_stands_there_by_name_and_count(made):
    """Agreement is a result: who reads only of differences cannot tell it from what nobody looked at."""
    comparison, _, document = made
    agreeing = comparison.points_in("agrees")
    section = next(
        each for each in tree(document).iter(f"{XHTML}section") if text_of(each.find(f"{XHTML}h2")) == "Agrees"
    )
    words = text_of(section)
    assert f"{len(agreeing)} of {len(comparison.points)} point" in words and comparison.reference.title in words
    assert all(point_words(comparison.reference, point) in words for point in agreeing)
    others = [
        point for point in comparison.points_in("differs", "not looked at", "not reached") if point.what != "place"
    ]
    assert not any(
        re.search(rf"(^|; |points? ){re.escape(point_words(comparison.reference, point))}(;|$)", words)
        for point in others
    )


def test_every_finding_stands_there_with_its_evidence_effect_and_sentence(made):
    comparison, report, document = made
    words = body_text(document)
    assert len(report.findings) == len(comparison.findings)
    for finding in report.findings:
        assert finding.label in words
        assert re.sub(r"\s+", " ", finding.words) in words


def test_every_reading_stands_there_as_typed_with_instrument_and_what_it_is_good_to(made):
    comparison, _, document = made
    words = body_text(document)
    readings = [reading for entry in comparison.found.entries for _, reading in entry.sizes]
    readings += [item.reading for item in comparison.found.measured]
    for reading in readings:
        assert re.sub(r"\s+", " ", reading.text) in words


def test_it_says_nothing_about_use_and_gives_no_score(made):
    _, _, document = made
    words = body_text(document)
    assert not AVOIDED.search(words), AVOIDED.search(words)
    assert not re.search(r"\d ?%", words)


def test_tables_have_headers_pictures_have_words_and_headings_have_levels(made):
    _, _, document = made
    root = tree(document)
    for table in root.iter(f"{XHTML}table"):
        assert text_of(table.find(f"{XHTML}caption"))
        assert any(cell.get("scope") == "col" for cell in table.iter(f"{XHTML}th"))
    levels = [
        int(element.tag[-1])
        for element in root.iter()
        if isinstance(element.tag, str) and re.search(r"\}h[1-6]$", element.tag)
    ]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b - a <= 1 for a, b in pairwise(levels))
    for figure in root.iter(f"{XHTML}figure"):
        drawing = next(
            (each for each in figure.iter() if isinstance(each.tag, str) and each.tag.endswith("}svg")), None
        )
        assert drawing is not None
        assert drawing.get("aria-labelledby")
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))


def test_every_colour_is_black_or_white_so_that_contrast_is_the_highest_there_is(made):
    """WCAG 2.2, 1.4.3: 21 : 1; nothing is told by colour."""
    _, _, document = made
    colours = set(re.findall(r"#[0-9a-fA-F]{3,6}\b", re.sub(r"url\(#[^)]*\)|id=\"[^\"]*\"", "", document)))
    assert {_contrast(colour) for colour in colours} == {1.0, 21.0}


def _contrast(colour):
    """Against white, by the formula of WCAG 2.2."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * sign for sign in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return round(1.05 / (luminance + 0.05), 2)


def test_a_report_takes_what_a_job_adds_and_shows_nothing_of_what_it_does_not_have():
    comparison = comparison_of(SWAPPED)
    bare = body_text(html(strip_report(comparison)))
    assert "Buying list" not in bare
    assert "Decision:" not in bare
    job = JobParts(
        decisions=((1, "rework: exchange the collars (A, Tuesday)"),),
        gauges=(
            Text(
                "Calliper 2 reads 0.02 more than the micrometer on the 25 mm block; "
                "none compared with a calibrated standard."
            ),
        ),
        open_items=(Text("Right hub seal on order.", mark="- "),),
        buying=(Rows(("part", "count", "state"), (("Hub seal", "1", "on order"),), right=(1,)),),
        recorded=("As fitted: not recorded yet.",),
        fitted=comparison,
    )
    words = body_text(html(strip_report(comparison, job)))
    for said in (
        "Decision: rework: exchange the collars",
        "Right hub seal on order.",
        "Buying list",
        "as fitted",
        "Calliper 2 reads",
    ):
        assert said in words


def test_a_photo_stands_in_the_document_itself_with_its_card_and_its_words(tmp_path):
    file = tmp_path / "left.png"
    Image.new("RGB", (3000, 2000), "white").save(file)
    job = JobParts(photos=(photo(file, words='The left end <before> "loosening"', card="6"),))
    document = html(strip_report(comparison_of(SWAPPED), job))
    image = next(tree(document).iter(f"{XHTML}img"))
    assert image.get("src").startswith("data:image/jpeg;base64,")
    assert image.get("alt") == 'The left end <before> "loosening"'
    assert "Card 6:" in body_text(document)


@pytest.mark.parametrize("content", [b"", b"GIF89", b"RIFF0000WAVE", b"<svg onload='x'/>", b"%PDF-1.7"])
def test_a_photo_that_is_no_photo_is_refused(content, tmp_path):
    file = tmp_path / "photo.jpg"
    file.write_bytes(content)
    with pytest.raises(InputError, match="is no photo"):
        photo(file, words="left end")


def test_a_photo_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(InputError, match="cannot be read"):
        photo(tmp_path / "nowhere.jpg", words="left end")


@pytest.mark.parametrize("path", [SWAPPED, PACK, ARBOR], ids=lambda path: path.stem)
def test_the_sheet_to_carry_along_holds_sizes_locking_parts_and_tightening_notes(path):
    comparison = comparison_of(path)
    document = html(carry_along(comparison))
    words = body_text(document)
    for joint in comparison.reference.joints:
        assert joint.thread in words
        assert joint.torque.text in words
    for part in comparison.reference.parts:
        assert part.name in words
        assert not part.number or part.number in words
    assert "Locking parts" in words
    assert not AVOIDED.search(words)


def test_the_command_writes_a_new_file_and_never_over_one(tmp_path, capsys):
    out = tmp_path / "hub.html"
    assert main(["report", str(SWAPPED), "--out", str(out)]) == 0
    assert out.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    before = out.read_bytes()
    assert main(["report", str(SWAPPED), "--out", str(out)]) == 3
    assert "exists already" in capsys.readouterr().err
    assert out.read_bytes() == before


def test_a_report_without_a_file_to_write_to_is_refused(capsys):
    assert main(["report", str(SWAPPED)]) == 3
    assert "--out FILE.html" in capsys.readouterr().err


def test_the_first_page_on_paper_holds_what_was_not_verified(tmp_path):
    weasyprint = pytest.importorskip("weasyprint", exc_type=Exception)
    for path in (SWAPPED, EXAMPLES[28]):  # many words in the sentence, many parts in the list
        pages = weasyprint.HTML(string=html(strip_report(comparison_of(path)))).render().pages
        first = " ".join(box.text for box in pages[0]._page_box.descendants() if hasattr(box, "text"))
        assert "NOT VERIFIED" in first, path.name
        assert 2 <= len(pages) <= 10


def test_a_pdf_is_written_where_the_library_is_there(tmp_path):
    pytest.importorskip("weasyprint", exc_type=Exception)
    out = tmp_path / "hub.pdf"
    assert main(["report", str(SWAPPED), "--pdf", str(out)]) == 0
    assert out.read_bytes().startswith(b"%PDF-")


def test_the_report_of_a_job_holds_decisions_open_items_buying_list_and_what_was_fitted(tmp_path, monkeypatch):
    replay((ROOT / "examples/full-job/steps.txt").read_text(), tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STACKCHECK_LIBRARY", str(ROOT / "reference_assemblies"))
    assert main(["report", "front-hub", "--out", "hub.html"]) == 0
    words = body_text(Path("hub.html").read_text())
    for said in (
        "Decision: rework: collars exchanged",
        "as fitted",
        "Buying list",
        "Open items",
        "Job front-hub: closed",
        "Closed by A",
    ):
        assert said in words
