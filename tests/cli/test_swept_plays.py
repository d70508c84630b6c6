"""A play that a nut sets, over a range of temperature: it is told at every step, in words, as JSON and drawn."""

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parents[2]
OVER = ("--temperature", "20..80 °C", "--temperature", "hub=20 °C")


@pytest.fixture
def ask(capsys, monkeypatch):
    def run(*words: str) -> str:
        monkeypatch.chdir(ROOT)
        main(["stack", "boat-trailer/hub", *words])
        return capsys.readouterr().out

    return run


def test_the_play_and_the_preload_past_it_stand_a_row_a_step(ask):
    """Everything but the hub warmer: the races take the play, and where it is used up a preload may begin."""
    rows = [
        " ".join(line.split()[:6]) for line in ask(*OVER).splitlines() if line.lstrip().startswith(("20 °C", "80 °C"))
    ]
    assert [row.split(" |")[0] for row in rows] == [
        "20 °C 0.03 to 0.13", "80 °C 0.00 to 0.13", "20 °C none", "80 °C none to 3.5",
    ]  # fmt: skip


def test_a_small_force_is_told_in_newtons_and_none_is_no_figure(ask):
    preloads = ask(*OVER).split("preload, kN")[1].split("spindle stack")[0]
    assert "none to 3.5" in preloads and " 0.0" not in preloads


def test_every_step_has_its_plays_in_json(ask):
    steps = json.loads(ask(*OVER, "--json"))["sweep"]
    plays = [step[0]["set_gaps"][0] for step in steps]
    assert {play["gap"] for play in plays} == {"end float"} and len(plays) == 7
    warmest = plays[-1]["reference"]
    assert warmest["play_then_mm"]["least"] < 0 < warmest["preload_then_n"]["most"]
    assert plays[0]["reference"]["play_then_mm"] is None  # as warm as it was set


def test_a_sweep_of_torque_has_no_play_in_it(ask):
    assert all(step[0]["set_gaps"] == [] for step in json.loads(ask("--torque", "20..40 N·m", "--json"))["sweep"])


def test_as_found_the_play_that_was_read_is_swept(ask):
    """0.20 by dial, good to 0.02, where the reference sets 0.025 to 0.127."""
    words = ask(*OVER, "--found", "examples/05-trailer-hub-inch-and-mm.toml")
    swept = words.split("SWEEP")[1]
    assert "as the reference sets it" not in swept
    first = next(line for line in swept.splitlines() if line.lstrip().startswith("20 °C"))
    assert first.split()[2:5] == ["0.18", "to", "0.22"]


def test_the_drawing_has_a_panel_for_each(ask, tmp_path):
    file = tmp_path / "sweep.svg"
    ask(*OVER, "--svg", str(file))
    texts = [each.text for each in ElementTree.parse(file).iter() if each.tag.endswith("}text")]
    assert "end float: end float under ±50 N, mm" in texts and "end float: preload, kN" in texts
