"""A bearing above its static limit: the reason stands there and no figure, in every way that a preload is told."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parents[2]
WEDGED = ("arbor", "--found", "examples/40-grinder-wave-washer-behind-the-left-bearing.toml")
NO_TUBE = ("front-hub", "--found", "examples/09-front-hub-no-spacer-tube.toml")
COLD = ("rear-hub", "--temperature", "20 °C", "--temperature", "hub=-60 °C", "--temperature", "outer rings=-60 °C")


@pytest.fixture
def ask(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.setenv("COLUMNS", "80")

    def run(*words: str) -> str:
        main(["stack", *words])
        return capsys.readouterr().out

    return run


def told_past_the_limit(tree: Any, limit: float | None = None) -> Iterator[tuple[str, float]]:
    """Every figure of a preload in a tree of plain values that lies above the limit beside it."""
    if isinstance(tree, list):
        for each in tree:
            yield from told_past_the_limit(each, limit)
    elif isinstance(tree, dict):
        limit = tree.get("no_figure_beyond_n", limit)
        for key, value in tree.items():
            if "preload" in key and isinstance(value, dict) and limit is not None:
                figures = [value[name] for name in ("least", "usual", "most")]
                figures += [cause[end] for cause in value["causes"] for end in ("at_least", "at_most")]
                yield from ((key, figure) for figure in figures if figure is not None and abs(figure) > limit)
            else:
                yield from told_past_the_limit(value, limit)


def test_the_check_itself_finds_a_figure_past_the_limit():
    spanned = {"least": 1.0, "usual": 2.0, "most": 9.0, "causes": []}
    assert list(told_past_the_limit({"no_figure_beyond_n": 5.0, "preload_n": spanned})) == [("preload_n", 9.0)]


@pytest.mark.parametrize(
    "words",
    [
        WEDGED,
        NO_TUBE,
        COLD,
        (*WEDGED, "--torque", "20..80 N·m"),
        (*WEDGED, "--temperature", "0..60 °C"),
        (*WEDGED, "--temperature", "60 °C"),
        (*NO_TUBE, "--torque", "20 N·m", "--angle", "45 deg"),
    ],
    ids=" ".join,
)
def test_as_json_no_preload_stands_above_the_limit_beside_it(words, ask):
    tree = json.loads(ask(*words, "--json"))
    assert list(told_past_the_limit(tree)) == []


def test_in_words_the_reason_stands_in_the_place_of_the_figure(ask):
    out = " ".join(ask(*WEDGED).split())
    assert (
        "outer rings held fast: the bearings are forced beyond half of an estimated static rating, about 3.4 kN: no figure holds there"
        in out
    )
    assert not re.search(r"preload [0-9.]+ (kN )?to [0-9.]+ kN", out)


def test_the_terms_of_such_a_preload_are_shares_only(ask):
    out = ask(*WEDGED, "--terms")
    opened = out[out.index("room for the waves of the washer: past half") :].split("TERMS of", 1)[0]
    assert "no figure holds and nothing is opened but the" in opened and "kN  " not in opened


@pytest.mark.parametrize("over", [("--torque", "20..80 N·m"), ("--temperature", "0..60 °C")], ids=" ".join)
def test_a_sweep_ends_where_the_figures_end(over, ask):
    out = ask(*WEDGED, *over)
    swept = out[out.index("SWEEP") :]
    panel = " ".join(swept[swept.index("preload, rings held fast") :].split(" - ", 1)[0].split())
    assert panel.startswith("preload, rings held fast: beyond 3.4 kN at all of them, where no figure holds")
    assert "end float under ±50 N, rings held fast" not in " ".join(swept.split())


def test_a_sweep_that_reaches_the_limit_half_way_draws_up_to_it(ask):
    """A front hub without its tube: the nut presses the bearings together as hard as it is tightened."""
    out = ask(*NO_TUBE, "--torque", "1..60 N·m")
    panel = out[out.index("seat gap: preload") :].split(" - ", 1)[0]
    rows = [line for line in panel.splitlines() if "N·m" in line]
    assert len(rows) == 7 and rows[-1].rstrip().endswith(">") and "beyond" in rows[-1]
    assert all(float(figure) <= 3.5 for row in rows for figure in re.findall(r"(\d+\.\d) to", row))


def test_a_play_that_the_cold_takes_past_the_limit_says_so(ask):
    out = " ".join(ask(*COLD).split())
    limit = json.loads(ask(*COLD, "--json"))["set_gaps"][0]["reference"]
    assert limit["preload_then_n"]["most"] is None or limit["preload_then_n"]["most"] <= limit["no_figure_beyond_n"]
    assert "kN" in out


def test_the_end_float_and_the_change_of_such_a_way_are_no_figures_either(ask):
    joint = json.loads(ask(*WEDGED, "--json"))["forces"][0]
    (seen,), (change,) = joint["as_found"]["loops"], joint["change"]["loops"]
    assert seen["end_float_rings_held_mm"] is None and seen["carried_rings_held"] == []
    assert change["preload_rings_held_n"] is None and change["end_float_rings_held_mm"] is None
    assert seen["end_float_rings_free_mm"]["usual"] > 2 and change["preload_rings_free_n"]["usual"] < 0
    own = joint["reference"]["loops"][0]
    assert own["preload_rings_held_n"]["most"] < own["no_figure_beyond_n"]  # beside it the reference keeps its figures
