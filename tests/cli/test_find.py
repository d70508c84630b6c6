"""`find` as somebody with a part in the hand meets it."""

import json
from pathlib import Path

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(autouse=True)
def here(monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)


def test_a_washer_is_found_in_the_reference_and_in_the_tables_at_once(capsys):
    assert main(["find", "washer", "bore", "17.1", "outside", "29.9", "thickness", "3.0", "cal"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "freight-tricycle/front-hub" in out and "ISO 7090" in out
    assert "Sizes alone do not say what a part is" in out


def test_json_names_the_class_and_the_distance(capsys):
    assert main(["find", "bore 17.30 outside 29.90 thickness 3.00 mic", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)["found"]
    of = {part["name"]: each for each in found for part in each["parts"]}
    assert of["ISO 7089 M16"] is of["ISO 7090 M16"]
    assert of["ISO 7089 M16"]["off_mm"] == {"bore": 0.03, "outside": 0.0, "thickness": 0.0}


def test_nothing_found_is_no_agreement(capsys):
    assert main(["find", "washer", "bore", "333"]) == 2
    assert capsys.readouterr().out.startswith("No known washer has these sizes.")


def test_a_nut_is_found_across_its_flats(capsys):
    assert main(["find", "nut across flats 12.9 cal"]) == 0
    assert "ISO 4032 M8" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("bore 20 outside 15", "not smaller than the outside"),
        ("washer 28x20x0.5 mic, not magnetic", '"not magnetic" is passed over'),
        ("gizmo 28x20", '"gizmo" is no kind of part known here'),
        ("washer", "no size is given"),
        ("6204", '"6204" is a mark'),
        ("28x20x0.2 rule", 'below what a rule can show: that is "not measured"'),
    ],
)
def test_what_would_be_passed_over_is_refused(words, said, capsys):
    """A word that the look-up cannot use must not look as if it had been weighed."""
    assert main(["find", words]) == 3
    out, err = capsys.readouterr()
    assert said in err and "Nothing was looked up." in err and out == ""


def test_no_figure_has_false_digits(capsys):
    """1/64 in is 0.396875 mm, and nobody reads a rule to a nanometre."""
    main(["find", "3/4x1/2x1/16", "in"])
    assert "good to 0.4 (rule)" in capsys.readouterr().out


def test_a_part_of_another_kind_is_shown_where_that_kind_has_none(capsys):
    """The trailer's list calls a ring what its owner calls a sleeve."""
    assert main(["find", "sleeve 1.688x1.250x.500 in mic"]) == 2
    out = " ".join(capsys.readouterr().out.split())
    assert out.startswith("No known spacer tube has these sizes.")
    assert "Of another kind one part has them: is it called otherwise?" in out and "Sleeve that the seal" in out
    main(["find", "sleeve 1.688x1.250x.500 in mic", "--json"])
    tree = json.loads(capsys.readouterr().out)
    assert tree["found"] == [] and tree["of_another_kind"][0]["parts"][0]["where"] == "boat-trailer/hub"


def test_a_nut_is_found_by_its_thread_and_a_key_by_its_width(capsys):
    assert main(["find", "nut M20x1.5", "across_flats=29.9 cal"]) == 0
    out = capsys.readouterr().out
    assert "Castellated" in out and "ISO 4032" not in out
    assert main(["find", "key width=7.98 cal"]) == 0
