"""The forces of `stack`: what is asked, what is said, and what is refused."""

import json
from pathlib import Path

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parents[2]
SHORT_TUBE = "examples/06-front-hub-short-tube-and-ring.toml"


@pytest.fixture
def ask(capsys, monkeypatch):
    def run(*words: str) -> tuple[int, str, str]:
        monkeypatch.chdir(ROOT)
        monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
        status = main(["stack", *words])
        return status, *capsys.readouterr()

    return run


def test_a_range_of_torque_is_drawn_to_one_scale_and_stops_where_no_figure_holds(ask):
    _, out, _ = ask("front-hub", "--found", SHORT_TUBE, "--torque", "20..80 N·m")
    swept = out[out.index("SWEEP of the axle nut, as found") :]
    assert swept.index(" 20 N·m") < swept.index(" 80 N·m")
    assert "to beyond" in swept and ">" in swept
    assert all(len(line) <= 80 for line in out.splitlines())


def test_the_steps_of_a_sweep_stand_in_the_json(ask):
    _, out, _ = ask("front-hub", "--torque", "20..80 N·m", "--json")
    steps = json.loads(out)["sweep"]
    tensions = [step[0]["reference"]["tension_n"]["usual"] for step in steps]
    assert [step[0]["torque_nmm"] for step in steps] == [20e3 + 10e3 * i for i in range(7)]
    assert tensions == sorted(tensions)
    assert tensions[-1] == pytest.approx(4 * tensions[0], rel=1e-3)


def test_one_stack_alone_loads_no_numerical_library(ask):
    _, out, _ = ask("front-hub", "--only", "axle stack", "--json")
    assert json.loads(out)["forces"] == []


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--torque", "5 mm"), "mm measures length; a torque is wanted"),
        (("--torque", "nothing"), "cannot be read"),
        (("--temperature", "-300 °C"), "out of range"),
        (("--torque", "0 N·m"), "out of range"),
        (("--temperature", "5 N"), "N measures force"),
        (("--temperature", "0..60 °C", "--torque", "20..80 N·m"), "both ranges"),
    ],
)
def test_what_cannot_be_asked_says_why(ask, words, said):
    status, out, err = ask("front-hub", *words)
    assert (status, out) == (3, "")
    assert said in err


def test_a_bearing_of_another_size_leaves_the_forces_open_and_says_why(ask):
    _, out, _ = ask("arbor", "--found", "examples/12-grinder-wider-bearing.toml")
    assert "needs sizes and" in out


def test_a_nut_that_is_backed_off_says_that_its_tension_is_that_of_seating(ask):
    _, out, _ = ask("rear-hub")
    assert "while it is seated, before it is backed off" in " ".join(out.split())


def test_a_distance_is_never_below_nothing(ask):
    _, out, _ = ask("front-hub", "--between", "bearing@right", "leg@left")
    assert out.startswith("From leg@left to bearing@right")


def test_an_angle_asked_for_is_turned_on_after_the_torque(ask):
    _, out, _ = ask("front-hub", "--torque", "20 N·m", "--angle", "45 deg", "--json")
    turned = json.loads(out)["forces"][0]
    _, out, _ = ask("front-hub", "--torque", "20 N·m", "--json")
    plain = json.loads(out)["forces"][0]
    assert (plain["angle_deg"], turned["angle_deg"]) == (None, 45)
    assert turned["reference"]["tension_n"]["least"] > plain["reference"]["tension_n"]["most"]


def test_with_a_list_every_joint_has_the_difference_with_its_own_range(ask):
    _, out, _ = ask("pinion-shaft", "--found", "examples/10-pinion-shim-short.toml", "--json")
    joint = json.loads(out)["forces"][0]
    loop = joint["change"]["loops"][0]
    assert joint["change"]["tension_n"] == {"least": 0, "usual": 0, "most": 0, "main_cause": "", "causes": []}
    assert loop["preload_rings_free_n"]["least"] > 10_000
    _, out, _ = ask("pinion-shaft", "--json")
    assert json.loads(out)["forces"][0]["change"] is None


def test_no_figure_stands_where_a_disc_spring_is_pressed_past_three_quarters_of_its_cone(ask):
    _, out, _ = ask("disc-spring-stack", "--found", "examples/07-disc-spring-turned-round.toml")
    said = " ".join(out[out.index("as found: 2 + 2 + 1 + 1") :].split())
    assert "at 14.20: 3.2 to 5.1 kN" in said
    assert "at 14.10 as measured: 3.4 to 5.2 kN" in said
    assert "at 14.00: no figure holds: the single ones pressed to 0.753 of the cone" in said
