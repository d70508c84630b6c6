"""The shipped examples: each list in `examples/` gets the answer that stands in `examples/expected/`.

An expectation follows from the story, for the reason in its first line. It names the verdict, every finding with its
places and entries, and the kinds of the notes; the words of the answer are tested elsewhere. When the two disagree, the
list, the expectation and the comparison are all under suspicion.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from stackcheck.compare import explanations
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.result.comparison import compare
from stackcheck.result.moved import told_as_moved

ROOT = Path(__file__).parent.parent.parent
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
EXPECTED = ROOT / "examples" / "expected"
LATER_KINDS = frozenset({"gap_differs", "pairing_differs", "condition"})
"""Kinds that follow from sizes and looks once it is known what stands where."""


def expected_of(example: Path) -> dict:
    return tomllib.loads((EXPECTED / example.name).read_text(encoding="utf-8"))


def told(findings) -> list[tuple]:
    return sorted((finding.kind, tuple(sorted(finding.places)), tuple(sorted(finding.entries))) for finding in findings)


def wanted(expected: dict, *, with_later: bool) -> list[tuple]:
    return sorted(
        (finding["kind"], tuple(sorted(finding["places"])), tuple(sorted(finding["entries"])))
        for finding in expected.get("findings", [])
        if with_later or not _comes_later(finding)
    )


def _comes_later(finding: dict) -> bool:
    """Also a size that was measured on the assembly: no entry of the list is told by it."""
    return finding["kind"] in LATER_KINDS or (finding["kind"] == "size_differs" and not finding["entries"])


@pytest.fixture(scope="module")
def library() -> Library:
    return Library(ROOT / "reference_assemblies")


def test_every_example_has_its_expected_answer_and_none_is_spare():
    assert len(EXAMPLES) >= 10
    assert [example.name for example in EXAMPLES] == sorted(path.name for path in EXPECTED.glob("*.toml"))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_the_least_explanation_of_an_example_is_the_expected_one(example, library):
    found, reference = read_found(example, library.reference)
    least = told_as_moved(reference, found, explanations(reference, found)[0])
    assert told(least.findings) == wanted(expected_of(example), with_later=False)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_gets_its_verdict_and_all_its_findings(example, library):
    found, reference = read_found(example, library.reference)
    expected = expected_of(example)
    result = compare(reference, found)
    assert told(item.finding for item in result.findings) == wanted(expected, with_later=True)
    assert sorted({note.kind for note in result.notes}) == sorted(expected.get("notes", []))
    assert (result.verdict, result.exit_status) == (expected["verdict"], expected["exit_status"])


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_says_what_happened_and_stands_in_the_list_of_examples(example, library):
    found, _ = read_found(example, library.reference)
    assert found.title and found.story
    assert f"`{example.name}`" in (ROOT / "examples" / "README.md").read_text(encoding="utf-8")
