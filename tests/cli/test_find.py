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


def test_sizes_that_cannot_be_are_refused(capsys):
    assert main(["find", "bore", "20", "outside", "15"]) == 3
    assert "not below the outside" in capsys.readouterr().err
