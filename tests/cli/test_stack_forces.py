"""The forces of `stack`: what is asked, what is said, and what is refused."""

import json
import re
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
    # By hand 3.28 to 5.08, about 4.148 (tests/mechanics/test_disc_springs.py); 400 draws know an end to 0.07 or so.
    assert "at 14.20: 3.2 to 5.0 kN, about 4.1" in said
    assert "at 14.10 as measured: 3.4 to 5.2 kN" in said
    assert "at 14.00: no figure holds: the single ones pressed to 0.755 of the cone" in said


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("reference", ["front-hub", "pinion-shaft", "rear-hub", "arbor"])
def test_clamp_and_gaps_stand_first_and_how_it_was_reckoned_last(ask, reference):
    """Who stands at the bench reads the first screen; a doubt is settled further down."""
    _, out, _ = ask(reference)
    headings = [line for line in out.splitlines() if re.match(r"[A-Z]{3,}", line)]
    assert headings[0].startswith("FORCES") and out.index("FORCES") < 4 * 81
    assert out.index("GAPS") < out.index("\n part ")
    assert headings[-2:] == ["HOW IT WAS RECKONED", "CHEAPEST NEXT MEASUREMENT"]
    assert out.count("Taken where nothing is given") == 1


def test_a_torque_is_said_with_its_thread_condition_an_end_float_with_its_gauge_force_and_both_with_the_temperature(
    ask,
):
    out = words(ask("front-hub")[1])
    assert "FORCES when tightened, at 20 °C" in out
    assert "axle nut, 60 N·m, thread dry: tension" in out
    assert (
        "end float under ±50 N 0.13 to 0.22 with outer rings free to slide, 0.06 to 0.15 held fast: "
        "look how the rings are held" in out
    )


def test_places_are_called_as_at_the_bench(ask):
    """`bearing@left` is a key of the file; nobody says it over a vice."""
    for asked in (
        ("front-hub",),
        ("front-hub", "--found", SHORT_TUBE, "--terms"),
        ("jockey-wheel", "--found", "examples/21-jockey-wheel-washer-outside.toml"),
    ):
        out = ask(*asked)[1]
        assert "@" not in out
    assert "clearance of the left hub bearing" in words(ask("front-hub")[1])


def test_as_found_stands_before_the_reference_and_what_is_the_same_is_said_once(ask):
    out = words(ask("pinion-shaft", "--found", "examples/10-pinion-shim-short.toml")[1])
    assert out.index("end float of the pinion, as found: preload 17.6 to 33.4 kN") < out.index(
        "end float of the pinion, reference: no preload"
    )
    assert out.count("tension 17.6 to 33.5 kN") == 1
    assert "by the reference 3.1 to 15.2 kN, with 11 pairs" in out


def test_a_nut_at_its_thread_end_leaves_no_figure_for_the_bearings(ask):
    """Nothing holds the rings, so there is no end float of theirs to read; the parts merely lie on the shaft."""
    at_end = ("pinion-shaft", "--found", "examples/37-pinion-nut-at-its-thread-end.toml")
    out = words(ask(*at_end)[1])
    assert (
        "as found: nothing is clamped: the nut meets the end of its thread 0.79 to 2.31 too soon, "
        "and what it should clamp has that much to spare" in out
    )
    assert "end float of the pinion, as found: no preload, and no end float to read: nothing holds the rings" in out
    assert (
        "gaps cannot tell: end float of the pinion" in out and "by lengths alone: the flange nut clamps nothing" in out
    )
    tree = json.loads(ask(*at_end, "--json")[1])["forces"][0]
    loop = tree["as_found"]["loops"][0]
    assert (loop["preload_rings_free_n"], loop["end_float_rings_free_mm"], tree["change"]["loops"]) == (None, None, [])
    assert tree["reference"]["loops"][0]["end_float_rings_free_mm"]["least"] > 0
    assert "SWEEP of the flange nut, as found - nothing is clamped at any of them" in words(
        ask(*at_end, "--torque", "80..140 N·m")[1]
    )


@pytest.mark.parametrize(
    ("found", "said"),
    [
        ("01-front-hub-collars-swapped",
         [("parts differs: thin ring, entry 12 (extra; no effect on lengths, gaps or forces computed); "
           "agrees in 11 of 11"),
          "sequence differs: right long collar and left short collar (swapped); agrees in 9 of 11",
          "gaps cannot tell: seat gap; agrees: free gap"]),
        ("09-front-hub-no-spacer-tube",
         ["parts differs: spacer tube (missing)", "sequence agrees in 10 of 10", "gaps differs: seat gap, free gap",
          "outside the model: bearings (seat gap), forced beyond half of an estimated static rating"]),
        ("12-grinder-wider-bearing",
         [("cannot tell: bearings (room for the waves of the washer), "
           "needs sizes and clearance of what stands in the left arbor bearing")]),
        ("36-layshaft-other-end-and-a-gear-turned",
         ["sequence differs: the list (entered from the other end;",
          "gaps agrees: room on the shaft, room of the sliding bearing"]),
        ("10-pinion-shim-short",
         [("forces tightened as told below: differs: bearings (end float of the pinion); "
           "agrees: tension of the flange nut")]),
    ],
)  # fmt: skip
def test_every_respect_is_judged_by_itself(ask, found, said):
    """Parts, sequence, facing, sizes, gaps and forces; a figure that agrees never speaks for another."""
    reference = {"01": "front-hub", "09": "front-hub", "12": "arbor", "10": "pinion-shaft", "36": "layshaft"}[found[:2]]
    out = words(ask(reference, "--found", f"examples/{found}.toml")[1])
    assert all(each in out for each in said)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (
            ("front-hub",),
            (
                "end float of the bearings by dial under ±50 N, axle nut tight: "
                "in the place of what is estimated (seat gap)."
            ),
        ),
        (
            ("front-hub", "--found", "examples/01-front-hub-collars-swapped.toml"),
            "length of the spacer tube by micrometer: 75 in 100 of the range of the seat gap.",
        ),
        (
            ("front-hub", "--found", "examples/one-washer/between-the-inner-rings.toml"),
            "whether the outer rings can slide in their seats: for the seat gap.",
        ),
        (("arbor",), "free length of the wave washer behind the right bearing by calliper: 88 in 100 of the range of"),
        (("clutch-pack",), "free travel by feeler."),
        (("rear-hub",), "end float by dial."),
    ],
)
def test_the_answer_ends_with_the_cheapest_measurement_that_would_tell_most(ask, asked, said):
    last = words(ask(*asked)[1].rpartition("CHEAPEST NEXT MEASUREMENT")[2])
    assert last.startswith(f"- {said}")


def test_where_nothing_is_clamped_no_measurement_is_asked_for(ask):
    assert "CHEAPEST" not in ask("pinion-shaft", "--found", "examples/37-pinion-nut-at-its-thread-end.toml")[1]


def test_a_set_play_that_nobody_measured_is_not_said_to_be_set(ask, tmp_path):
    text = (ROOT / "examples/05-trailer-hub-inch-and-mm.toml").read_text(encoding="utf-8")
    path = tmp_path / "not-measured.toml"
    path.write_text(re.sub(r"\[\[measured\]\]\n(?:.+\n)*", "", text), encoding="utf-8")
    out = words(ask("hub", "--found", str(path))[1])
    assert (
        "as found: not measured reference: 0.025 to 0.127 (0.001 to 0.005 in): no preload; a dial under ±50 N reads"
        in out
    )


def test_without_a_list_nothing_as_found_stands_in_the_json_and_no_total_twice(ask):
    tree = json.loads(ask("front-hub", "--json")[1])
    told = [
        *tree["stacks"],
        *tree["loops"],
        *tree["forces"],
        *tree["set_gaps"],
        *tree["supports"],
        *tree["disc_springs"],
        *tree["coil_springs"],
    ]
    assert told and all(each["as_found"] is None for each in told)
    assert all(each["as_found_mm"] is None for each in (*tree["stacks"], *tree["loops"]))
    assert all("total_mm" not in each["reference"] and "needs" not in each for each in tree["stacks"])
    assert tree["forces"][0]["friction"]["usual"] == 0.17 and "friction" not in tree["forces"][0]["reference"]["terms"]


def test_a_stack_of_which_nothing_was_measured_is_not_added_up_twice(ask):
    out = ask("front-hub", "--found", SHORT_TUBE)[1]
    assert "fork\n Nothing of it was measured: by the reference 129.20, 129.00..129.40.\n" in out


def test_a_sweep_that_changes_nothing_takes_one_line_and_small_forces_are_in_newtons(ask):
    out = words(ask("arbor", "--temperature=-20..80 °C")[1])
    assert "tension: 8.4 to 15.3 kN at all of them" in out
    assert "room for the waves of the washer: preload: 21 to 87 N at all of them" in out


@pytest.mark.parametrize(
    ("reference", "words", "said"),
    [
        ("clutch-pack", ("--torque", "20 N·m"), "--torque: orchard-tractor/clutch-pack has no joint"),
        ("clutch-pack", ("--angle", "30 deg"), "--angle: orchard-tractor/clutch-pack has no joint"),
        ("clutch-pack", ("--terms",), "--terms: orchard-tractor/clutch-pack has no joint"),
        ("clutch-pack", ("--temperature", "20..60 °C"), "a sweep is over the forces of a joint"),
        ("disc-spring-stack", ("--temperature", "60 °C"), "nothing of it is told warm"),
    ],
)
def test_an_option_that_would_change_no_line_is_refused_and_not_passed_over(ask, reference, words, said):
    """Who asks for it would read the answer as one for it."""
    status, out, err = ask(reference, *words)
    assert (status, out) == (3, "")
    assert said in " ".join(err.split())


def test_springs_that_stand_at_twenty_degrees_say_so_where_a_temperature_is_asked_for(ask):
    _, out, _ = ask("clutch-pack", "--temperature", "60 °C")
    assert "more by length" in out or "less by length" in out or "no more and no less" in out
    _, out, _ = ask("seal-and-impeller", "--temperature", "60 °C")
    assert "SPRINGS at the length they are fitted to, at 20 °C" in out
