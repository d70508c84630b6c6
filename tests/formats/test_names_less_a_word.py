"""A name in a teardown list that is a part's name but for one word: taken where one part alone is meant, and told."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.formats.found_words import FoundWords
from stackcheck.model.part import Part
from stackcheck.value import replace
from tests.builders import reference

CUP = Part(id="adjuster", name="Threaded cup adjuster", kind="nut")
HOIST = "examples/warm-housing"


def words(*parts: Part) -> FoundWords:
    return FoundWords(replace(reference("collar"), parts=(*reference("collar").parts, *parts)))


@pytest.mark.parametrize("typed", ["threaded adjuster", "Cup adjuster", "cup-adjuster"])
def test_all_its_words_but_one_mean_a_part(typed):
    assert words(CUP).part_meant(typed) == "adjuster"


@pytest.mark.parametrize(
    "typed",
    ["adjuster cup", "threaded cup", "threaded ring adjuster", "big threaded cup adjuster", "adjuster threaded"],
)
def test_another_sequence_another_word_or_one_more_means_none(typed):
    """Nor does a name without the thing itself: a threaded cup is no adjuster."""
    assert words(CUP).part_meant(typed) is None


def test_two_parts_that_differ_in_that_word_leave_it_open():
    """A thrust washer is neither the thick nor the thin one."""
    thick, thin = (Part(id=each, name=f"{each} thrust washer", kind="thrust washer") for each in ("Thick", "Thin"))
    assert words(thick, thin).part_meant("thrust washer") is None
    assert words(thick).part_meant("thrust washer") == "Thick"


def test_a_part_that_stays_is_not_meant_and_leaves_it_open():
    assert words(replace(CUP, fixed=True)).part_meant("threaded adjuster") is None


def test_a_name_of_its_own_counts_before_a_longer_one():
    plain = Part(id="plain", name="Threaded adjuster", kind="nut")
    assert words(CUP, plain).part_meant("threaded adjuster") == "plain"


def test_the_answer_says_which_part_was_taken(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(Path(__file__).parents[2])
    text = Path(HOIST, "landing-stage-hoist/shaft-adjuster.toml").read_text(encoding="utf-8")
    (tmp_path / "hoist").mkdir()
    (tmp_path / "hoist/machine.toml").write_text(Path(HOIST, "landing-stage-hoist/machine.toml").read_text())
    (tmp_path / "hoist/shaft-adjuster.toml").write_text(text.replace('"Threaded adjuster"', '"Threaded cup adjuster"'))
    found = tmp_path / "found.toml"
    lines = [
        'kind = "as found"',
        "format = 1",
        'reference = "hoist/shaft-adjuster"',
        'revision = "A"',
        "finished = true",
    ]
    for end, what, toward in (
        ("rope end", "lock plate of the adjuster", ""), ("rope end", "threaded adjuster", "rope end"),
        ("rope end", "shaft bearing", "rope end"), ("gear end", "shaft bearing", "gear end"),
    ):  # fmt: skip
        lines += ["[[off]]", f'end = "{end}"', f'what = "{what}"', f'toward = "{toward}"']
    found.write_text("\n".join(lines), encoding="utf-8")
    main(["compare", str(found), "--library", str(tmp_path)])
    out = " ".join(capsys.readouterr().out.split())
    assert 'name less a word: entry 2, "threaded adjuster", taken for the threaded cup adjuster' in out
    assert "nobody said what entry 2 is" not in out
