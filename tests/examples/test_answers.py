"""The shipped examples, seen from outside: lengths worked by hand, witnesses, and lists that say the same in other ways.

`settled_by` is what the page must name as settling between the answer and another reading of the same list.

Beside its verdict an expected answer may hold figures: `does` in a finding is what that finding alone does to stacks,
gaps and watched parts, `[as_found]` what all readings together give. The sum stands in a comment above each.
"""

from __future__ import annotations

import json
import tomllib
from contextlib import redirect_stdout
from functools import cache
from io import StringIO
from itertools import permutations
from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.compare import explanations, replay, same_arrangement
from stackcheck.compare.listed import is_what_was_found
from stackcheck.formats.found_file import read_found
from stackcheck.formats.found_words import found_line
from stackcheck.formats.library import Library
from stackcheck.model.found import Entry, Found
from stackcheck.value import replace

ROOT = Path(__file__).parent.parent.parent
LIBRARY = Library(ROOT / "reference_assemblies")
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
ROUNDING_MM = 1e-6

each_example = pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
front_hubs = pytest.mark.parametrize(
    "example", [path for path in EXAMPLES if "-front-hub-" in path.name], ids=lambda path: path.stem
)


def expected_of(example: Path) -> dict:
    return tomllib.loads((example.parent / "expected" / example.name).read_text(encoding="utf-8"))


@cache
def answer_as_json(example: Path) -> tuple[int, dict]:
    with redirect_stdout(StringIO()) as out:
        status = main(["compare", str(example), "--json", "--library", str(LIBRARY.folder)])
    return status, json.loads(out.getvalue())


def key(finding: dict) -> tuple:
    return finding["kind"], sorted(finding["places"]), sorted(finding["entries"])


@each_example
def test_the_command_gives_the_expected_answer_and_exit_status(example):
    expected = expected_of(example)
    status, tree = answer_as_json(example)
    assert (tree["verdict"], tree["exit_status"], status) == (expected["verdict"], *2 * [expected["exit_status"]])
    assert sorted(map(key, tree["findings"])) == sorted(map(key, expected.get("findings", [])))
    assert {note["kind"] for note in tree["notes"]} == set(expected.get("notes", []))


@each_example
def test_where_another_reading_is_close_the_page_says_what_settles_it(example):
    settled_by = expected_of(example).get("settled_by")
    _, tree = answer_as_json(example)
    others = [reading["separated_by"] for reading in tree["other_explanations"]]
    assert settled_by is None or any(settled_by in words for words in others)


@each_example
def test_every_length_worked_by_hand_is_the_one_that_the_command_gives(example):
    expected, (_, tree) = expected_of(example), answer_as_json(example)
    for wanted in expected.get("findings", []):
        finding = next(item for item in tree["findings"] if key(item) == key(wanted))
        for what, figures in wanted.get("does", {}).items():
            told = does(finding["effect"], what)
            assert {name: told.get(name) for name in figures} == pytest.approx(figures, abs=ROUNDING_MM)
    together = expected.get("as_found", {})
    for name, change in together.get("changes", {}).items():
        stack = next(item for item in tree["stacks"] if item["name"] == name)
        assert stack["change_mm"] == pytest.approx(change, abs=ROUNDING_MM)
    for name, interval in together.get("gaps", {}).items():
        gap = next(item for item in tree["loops"] if item["name"] == name)["as_found_mm"]
        assert [gap["least"], gap["most"]] == pytest.approx(interval, abs=ROUNDING_MM)


def does(effect: dict, what: str) -> dict[str, float]:
    if what == "shifts":
        return {item["place"]: item["shift_mm"] for item in effect["shifts"]}
    table, field = {"stacks": ("stacks", "change_mm"), "gaps": ("loops", "after_mm")}[what]
    return {item["name"]: item[field]["nominal"] for item in effect[table] if item[field]}


def test_a_fit_that_differs_is_not_called_not_verified_as_well():
    (example,) = [path for path in EXAMPLES if path.name.startswith("19-")]
    _, tree = answer_as_json(example)
    assert {finding["kind"] for finding in tree["findings"]} == {"pairing_differs", "size_differs"}
    assert [words for words in tree["not_verified"] if words.startswith("fit of")] == []


def test_enough_lengths_were_worked_by_hand():
    assert sum("as_found" in answer or "does" in str(answer) for answer in map(expected_of, EXAMPLES)) >= 10


@each_example
def test_the_findings_laid_on_the_reference_rebuild_what_was_found(example):
    """The witness: whoever doubts an answer can lay its findings on the reference, one by one, and must get the list."""
    found, reference = read_found(example, LIBRARY.reference)
    for explanation in explanations(reference, found):
        assert is_what_was_found(explanation, found)
        assert same_arrangement(reference, replay(reference, explanation, found), explanation.line)


def differences(example: Path, found: Found) -> list[tuple]:
    """Findings by what the entries are rather than by their numbers, so that lists written differently compare."""
    _, reference = read_found(example, LIBRARY.reference)
    return sorted(
        (finding.kind, sorted(finding.places), sorted(found.entry(number).note for number in finding.entries))
        for finding in explanations(reference, found)[0].findings
    )


def marked(found: Found) -> Found:
    """Every entry with its number as its note, which no comparison reads."""
    return replace(found, entries=tuple(replace(entry, note=str(entry.number)) for entry in found.entries))


def listed(found: Found, line: list[Entry], from_first: int) -> Found:
    """The same line written down: so many things from the first end inward, the others from the second end inward."""
    first = [replace(entry, end=0) for entry in line[:from_first]]
    second = [replace(entry, end=1) for entry in reversed(line[from_first:])]
    loose = [entry for entry in found.entries if entry.is_loose]
    entries = (*first, *second, *loose)
    return replace(found, entries=tuple(replace(entry, number=n) for n, entry in enumerate(entries, 1)))


@front_hubs
def test_a_hub_taken_from_the_left_from_the_right_or_from_both_ends_gives_the_same_findings(example):
    found = marked(read_found(example, LIBRARY.reference)[0])
    line = [entry for entry in found_line(found.entries) if not entry.is_loose]
    as_written = differences(example, found)
    for from_left in (len(line), 0, 2, len(line) // 2):
        assert differences(example, listed(found, line, from_left)) == as_written


@front_hubs
def test_seals_and_the_collars_inside_them_agree_in_every_sequence(example):
    """A seal and the collar inside it share no stack: which of them was written first says nothing."""
    found = marked(read_found(example, LIBRARY.reference)[0])
    as_written = differences(example, found)
    entries = list(found.entries)
    for end in (0, 1):
        nested = [
            index for index, entry in enumerate(entries)
            if entry.end == end and not entry.is_loose and ("seal" in entry.what or "collar" in entry.what)
        ]  # fmt: skip
        if nested != list(range(nested[0], nested[0] + len(nested))):
            continue  # a ring or washer lies between them: then the sequence does say something
        for sequence in permutations(nested):
            other = list(entries)
            for index, source in zip(nested, sequence):
                other[index] = replace(entries[source], number=index + 1)
            assert differences(example, replace(found, entries=tuple(other))) == as_written
