"""`--temperature` with the names of states: one, several side by side, and what is refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parents[2]
HOIST = ("--library", "examples/warm-housing")
SHORT = ("--found", "examples/10-pinion-shim-short.toml")


@pytest.fixture(autouse=True)
def here(monkeypatch):
    monkeypatch.chdir(ROOT)


def tree(capsys, *words: str) -> dict:
    main(["stack", *words, "--json"])
    return json.loads(capsys.readouterr().out)


def lines(capsys, *words: str) -> list[str]:
    main(["stack", *words])
    return capsys.readouterr().out.splitlines()


def asked(*texts: str) -> list[str]:
    return [word for text in texts for word in ("--temperature", text)]


def test_a_name_answers_as_its_figures_do(capsys):
    """Nobody has to retype what the reference holds, and what it holds changes no digit."""
    named = tree(capsys, "rear-hub", *asked("brake hot"))
    typed = tree(capsys, "rear-hub", *asked("30 °C", "hub=80 °C", "outer rings=70 °C", "inner rings=45 °C"))
    assert named == typed
    assert named["set_gaps"][0]["reference"]["play_then_mm"] is not None


def test_one_name_says_how_warm_that_is(capsys):
    out = " ".join(" ".join(lines(capsys, "layshaft", *asked("oil warm"))).split())
    assert "State oil warm: at 80 °C, case at 60 °C, outer rings at 65 °C; put together at 20 °C." in out
    assert "then, oil warm: 0.018 more by length" in out


def test_several_stand_side_by_side_with_the_assembly(capsys):
    own = tree(capsys, "shaft-x", *HOIST, *asked("running", "frost"))
    assert [(each["name"], each["at_c"]) for each in own["states"]] == [
        ("assembly", 15.0), ("running", 60.0), ("frost", -10.0),
    ]  # fmt: skip
    together, running, frost = (each["set_gaps"][0]["reference"] for each in own["states"])
    assert (together["play_mm"]["least"], together["play_then_mm"]) == (0.03, None)
    by_hand = (92.2 * 23.5e-6 + 0.6 * 11.5e-6 - (60 + 2 * 16.25) * 11.5e-6) * 45
    longer, wider = (running[f"play_then_by_{how}_mm"] for how in ("length", "races"))
    assert longer["usual"] == pytest.approx(by_hand, abs=6e-5)
    assert frost["play_then_by_length_mm"]["usual"] == pytest.approx(-25 / 45 * longer["usual"], abs=1e-4)
    then = running["play_then_mm"]
    assert then["usual"] == pytest.approx(0.05 + longer["usual"] + wider["usual"], abs=3e-4)
    worst = [set_to + longer["usual"] + wider[end] for set_to, end in ((0.03, "least"), (0.07, "most"))]
    assert worst[0] < then["least"] < then["usual"] < then["most"] < worst[1]
    assert running["preload_then_n"]["most"] == 0 < frost["preload_then_n"]["most"]


def test_states_means_all_of_them_in_the_sequence_of_the_file(capsys):
    every = tree(capsys, "rear-hub", *asked("states"))
    assert [each["name"] for each in every["states"]] == ["assembly", "frost", "brake hot"]
    assert every == tree(capsys, "rear-hub", *asked("frost", "brake hot"))


def test_it_says_in_which_state_a_limit_is_crossed(capsys):
    out = " ".join(" ".join(lines(capsys, "shaft-x", *HOIST, *asked("states"))).split())
    assert (
        "agrees in assembly; cannot tell in frost: the range reaches below 0.03; differs in running: at least 0.02 too much"
    ) in out
    limits = [each["limits"][0] for each in tree(capsys, "shaft-x", *HOIST, *asked("states"))["states"]]
    assert [each["reference"]["verdict"] for each in limits] == ["agrees", "cannot tell", "differs"]


def test_a_limit_said_for_a_state_is_held_without_asking_for_it(capsys):
    out = " ".join(" ".join(lines(capsys, "rear-hub")).split())
    assert "LIMITS, state by state - end float with a hot brake, wanted 0.02 to 0.20 by common practice" in out
    assert "agrees in brake hot" in out
    assert [each["name"] for each in tree(capsys, "rear-hub")["states"]] == ["brake hot"]


def test_as_found_stands_beside_the_reference_and_the_difference(capsys):
    out = lines(capsys, "pinion-shaft", *SHORT, *asked("oil warm", "assembly"))
    header = next(line for line in out if "by the reference" in line)
    assert header.split()[-1] == "difference" and "as found" in header
    assert any(line.startswith(" oil warm") and "preload" in line for line in out)
    assert any(line.startswith(" oil warm") and "less" in line and "overlap" in line for line in out)


def test_a_play_that_nobody_read_is_not_told_as_found(capsys, tmp_path):
    """What the reference wants it set to says nothing of the machine that came off."""
    found = tmp_path / "found.toml"
    listed = (
        'kind = "as found"\nformat = 1\nreference = "freight-tricycle/rear-hub"\nrevision = "B"\nfinished = false\n'
    )
    off = '[[off]]\nend = "right"\nwhat = "grease cap"\n'
    found.write_text(listed + off, encoding="utf-8")
    words = ("rear-hub", "--found", str(found), *asked("states"))
    limits = [each["limits"][0] for each in tree(capsys, *words)["states"]]
    assert {each["as_found"]["verdict"] for each in limits} == {"not looked at"}
    assert any(line.split()[-2:] == ["not", "measured"] for line in lines(capsys, *words))
    found.write_text(listed + off + '[[measured]]\ngap = "end float"\nreading = "0.30 dial"\n', encoding="utf-8")
    limits = [each["limits"][0] for each in tree(capsys, *words)["states"]]
    assert {each["as_found"]["verdict"] for each in limits} == {"differs"}


def test_no_line_of_it_is_wider_than_a_terminal(capsys):
    for words in (("arbor",), ("pinion-shaft", *SHORT), ("shaft-o", *HOIST)):
        assert max(map(len, lines(capsys, *words, *asked("states")))) <= 80


@pytest.mark.parametrize(("words", "said"), [
    (asked("brake cold"), 'the reference has no state "brake cold" did you mean "brake hot"? Known here: assembly, frost, brake hot'),
    (asked("frost", "60 °C"), '"60 °C" does not go with "frost" a state says all its temperatures'),
    (asked("frost", "hub=60 °C"), '"hub=60 °C" does not go with "frost"'),
    ([*asked("states"), "--terms"], "--terms: it does not go with several states"),
    ([*asked("states"), "--radial", "1 kN"], "--radial: it does not go with several states"),
    ([*asked("states"), "--svg", "x.svg"], "--svg: it does not go with several states"),
    ([*asked("states"), "--torque", "20..80 N·m"], "--torque: it is a range, and several states are asked for"),
    ([*asked("states"), "--only", "end float"], "--temperature: it does not go with --only"),
])  # fmt: skip
def test_what_cannot_be_asked_is_refused(capsys, words, said):
    assert main(["stack", "rear-hub", *words]) == 3
    told = capsys.readouterr()
    assert said in " ".join((told.out + told.err).split())


def test_a_reference_without_states_says_so(capsys):
    assert main(["stack", "front-hub", *asked("states")]) == 3
    assert "the reference names no states" in capsys.readouterr().err
