"""`--temperature` of everything and of parts, and what it refuses."""

from __future__ import annotations

import json

import pytest

from stackcheck.cli import main


def answer(capsys, *words: str) -> dict:
    main(["stack", *words, "--json"])
    return json.loads(capsys.readouterr().out)


def test_a_part_has_its_own_temperature_beside_that_of_everything(capsys):
    warm = answer(
        capsys, "rear-hub", "--temperature", "60 °C", "--temperature", "hub=90 °C", "--temperature", "outer rings=90 °C"
    )
    (joint,), (gap,) = warm["forces"], warm["set_gaps"]
    assert (joint["at_c"], joint["at_c_apart"]) == (60.0, {"hub": 90.0, "outer rings": 90.0})
    told = gap["reference"]
    assert told["play_then_by_length_mm"]["usual"] == pytest.approx(-30 * 11.5e-6 * 60.5, abs=6e-5)
    assert told["play_then_mm"]["usual"] == pytest.approx(
        0.055 + told["play_then_by_length_mm"]["usual"] + told["play_then_by_races_mm"]["usual"], abs=2e-4
    )


def test_cold_there_is_nothing_to_say(capsys):
    told = answer(capsys, "rear-hub")["set_gaps"][0]["reference"]
    assert told["play_then_mm"] is None and told["preload_then_n"] is None


@pytest.mark.parametrize(("words", "said"), [
    (["hbu=60 °C"], 'no part or place is called "hbu"'),
    (["-300 °C"], "below the absolute zero of -273.15 °C"),
    (["hub=-300 °C"], "below the absolute zero of -273.15 °C"),
    (["400 °C"], "is out of range"),
    (["hub=20..30 °C"], "is a range"),
    (["60 °C", "70 °C"], "the second one for everything"),
    (["hub=60 °C", "hub=70 °C"], '"hub" is given twice'),
    (["hub="], "cannot be read"),
    (["hub=60 mm"], "cannot be read"),
])  # fmt: skip
def test_what_can_be_no_temperature_is_refused(capsys, words, said):
    assert main(["stack", "rear-hub", *(each for word in words for each in ("--temperature", word))]) == 3
    told = capsys.readouterr()
    assert said in " ".join((told.out + told.err).split())
