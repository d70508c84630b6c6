"""Figures and names in the answers of the fleet, as somebody reads them: nothing told twice, by a key, or otherwise than
in the answer beside it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parents[2]


FRONT_HUB = (ROOT / "reference_assemblies/freight-tricycle/front-hub.toml").read_text()


@pytest.fixture
def ask(capsys, monkeypatch, tmp_path):
    monkeypatch.chdir(ROOT)

    def run(*words: str, front: str = "") -> str:
        if front:
            (tmp_path / "freight-tricycle").mkdir()
            (tmp_path / "freight-tricycle/front-hub.toml").write_text(front)
        main(["stack", *words, *(["--library", str(tmp_path)] if front else [])])
        return " ".join(capsys.readouterr().out.split())

    return run


def test_a_table_is_headed_by_the_names_of_places(ask):
    said = ask("shaft-bearings", "--terms", "--torque", "80..120 N·m")
    assert "thrust-bearing@1" not in said
    assert "pair of thrust bearing 1 and thrust bearing 2 pressed with" in said


def test_a_gap_has_the_same_digits_in_its_states_as_by_itself(ask):
    """0.005 to 0.135 is no 0.00 to 0.14, and a gap that heat leaves alone is no narrower in the cold."""
    assert "end float of the pinion 0.005 to 0.135; allowed 0.00 to 0.14" in ask("pinion-shaft")
    said = ask("pinion-shaft", "--temperature", "states")
    assert "assembly gap 0.005 to 0.135 none cold start gap 0.005 to 0.135 none" in said


def test_a_play_that_heat_leaves_alone_is_said_to_be_as_it_was_set(ask):
    said = ask("rear-hub", "--temperature", "frost")
    assert "then, frost: as it was set, axle and parts grow alike seated" in said


def test_a_tension_that_heat_leaves_alone_is_told_once(ask):
    said = ask("shaft-bearings", "--temperature", "60 °C")
    assert said.count("13.4 to 27.6 kN") == 1
    assert "thrust bearing 2: the same tension, axle and parts grow alike; preload 0.5 to 2.2 kN" in said


def test_a_unit_is_said_once_in_a_difference(ask):
    said = ask("pinion-shaft", "--found", "examples/10-pinion-shim-short.toml", "--temperature", "states")
    assert " 5.8 to 7.4 kN more" in said


def test_no_tension_is_told_of_a_turn_into_bearings_past_their_limit(ask):
    said = ask("front-hub", "--found", "examples/09-front-hub-no-spacer-tube.toml", "--angle", "60deg")
    assert "then turned on by 60 deg as found: no figure of its tension holds: its turn goes into bearings" in said
    assert "outside the model: tension of the axle nut, turned against bearings beyond half of an estimated" in said


def test_the_terms_of_a_pull_through_the_bearings_show_no_row_of_parts(ask):
    """The spacer tube stood there as 11 µm shorter, and below it as pressed with nothing."""
    said = ask("pinion-shaft", "--found", "examples/10-pinion-shim-short.toml", "--terms")
    assert "Bearings take of the pull, so that it presses no one row of parts together" in said
    assert "gives, µm" not in said and "inner: 2 Spacer tube nothing" in said
    assert "loss moved by" in said


def test_another_part_in_a_place_is_told_apart_from_it_in_a_sum(ask):
    said = ask("arbor", "--found", "examples/12-grinder-wider-bearing.toml")
    assert "bearingball" not in said
    assert "sizes differs: bore, outside diameter (OD) and length of the left arbor bearing; agrees in 1 of 7" in said


def test_states_side_by_side_leave_out_no_settling_no_spring_and_no_support(ask):
    said = ask("arbor", "--temperature", "states")
    assert "in all states 320 N to 3.8 kN; what it loses when new faces and the thread have settled" in said
    front = FRONT_HUB.replace("[[joints]]", '[[states]]\nname = "frost"\ntemperature = "-15 °C"\n\n[[joints]]', 1)
    said = ask("front-hub", "--temperature", "states", front=front)
    assert "SUPPORTS, side load and shift, at 20 °C - right fork leg, 180 N/mm, floats" in said
    assert "most of the range from the share of the guide values that settles" in said


def test_the_least_clamp_in_a_state_has_its_difference(ask):
    said = ask("pinion-shaft", "--found", "examples/10-pinion-shim-short.toml", "--temperature", "states")
    assert "assembly 17.6 to 33.5 kN gone 17.6 to 33.4 kN less" in said
    assert "as found: differs in all states: at least 0.38 too little" in said


def test_a_sweep_that_moves_nothing_but_the_last_digit_is_one_line(ask):
    """Seven equal bars told a difference where there is none."""
    said = ask("pinion-shaft", "--temperature=20..80 °C")
    assert "tension: 17.6 to 33.5 kN at all of them, to 0.1 kN near enough" in said
