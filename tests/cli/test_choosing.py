"""`shims` and `slots` on the shipped references."""

import json
from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.formats.box import read_box

ROOT = Path(__file__).parents[2]
PINION = ("shims", "pinion-shaft", "end float of the pinion")


@pytest.fixture
def ask(capsys, monkeypatch):
    def run(*words: object) -> tuple[int, str, str]:
        monkeypatch.chdir(ROOT)
        monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
        status = main([str(word) for word in words])
        return status, *capsys.readouterr()

    return run


def test_the_pack_that_reaches_the_middle_comes_first(ask):
    status, out, _ = ask(
        *PINION, "--at", "preload-shim", "--box", "0.30 ±0.005 x4, 0.50 ±0.005 x6 mm", "--measured", "0.07 mic"
    )
    assert status == 0
    assert out.startswith("3x0.50: gap 0.07.")


def test_a_measured_gap_counts_with_the_pieces_that_were_in(ask):
    """0.32 measured with 1.50 in leaves an overlap of 1.18 without: 1.20 makes a gap of 0.02."""
    _, out, _ = ask(*PINION, "--at", "preload-shim", "--box", "0.30 x4", "--measured", "0.32 dial", "--json")
    answer = json.loads(out)
    assert answer["gap_without_mm"]["nominal"] == pytest.approx(-1.18)
    assert answer["packs"][0]["gap_mm"]["nominal"] == pytest.approx(0.02)
    assert not answer["reckoned_from_the_reference_alone"]


def test_none_fits_is_an_answer_with_the_nearest(ask):
    status, out, _ = ask(*PINION, "--at", "preload-shim", "--box", "0.30 x1", "--measured", "0.32 dial")
    assert status == 2
    assert out.startswith("None of the box brings")
    assert "NONE FITS; NEAREST" in out


def test_no_ring_is_proposed_for_a_pack_that_lacks_a_plate(ask):
    found = "examples/08-clutch-steel-plate-missing.toml"
    status, out, _ = ask(
        "shims", "clutch-pack", "free travel", "--at", "circlip", "--box", "3.0 x1, 4.6 x1", "--found", found
    )
    assert status == 2
    assert out.startswith("Nothing is proposed")
    assert "put right first: " in out
    assert "FROM THE BOX" not in out


def test_a_ring_is_chosen_one_at_a_time(ask):
    status, out, _ = ask(
        "shims",
        "clutch-pack",
        "free travel",
        "--at",
        "circlip",
        "--box",
        "3.00 ±0.02 x2, 3.20 ±0.02 x2",
        "--measured",
        "1.12..1.15 feeler",
    )
    assert status == 0
    assert "1x3.20" in out and "2x" not in out


@pytest.mark.parametrize(("kind", "name"), [("selective ring", "Selective ring"), ("circlip", "Selective circlip")])
def test_a_selective_ring_is_found_by_the_word_of_the_trade_and_chosen_one_at_a_time(ask, tmp_path, kind, name):
    """Two thin ones would fill the room as well, and no groove takes two; a bare thickness is one piece."""
    own = ROOT / "reference_assemblies/orchard-tractor"
    (tmp_path / "tractor").mkdir()
    for file in ("machine.toml", "clutch-pack.toml"):
        text = (own / file).read_text(encoding="utf-8")
        text = text.replace('"Circlip of the clutch drum"', f'"{name}"').replace('kind = "circlip"', f'kind = "{kind}"')
        (tmp_path / "tractor" / file).write_text(text, encoding="utf-8")
    asked = ("shims", "clutch-pack", "free travel", "--measured", "1.12..1.15 feeler", "--library", tmp_path)
    _, out, _ = ask(*asked, "--box", "1.60 ±0.02 x2, 3.20 ±0.02")
    assert "1x3.20" in out and "2x" not in out


@pytest.mark.parametrize("box", ["0.012 in, 0.02 in x1", "0.012, 0.02 in", "0,012, 0,02 in", "0.012; 0.02 x1 in"])
def test_of_several_bare_thicknesses_there_is_one_piece_each_and_the_unit_behind_is_that_of_all(box):
    told = [(round(shim.thickness.nominal_mm, 4), shim.count) for shim in read_box(box)]
    assert told == [(0.3048, 1), (0.508, 1)]


def test_without_a_box_the_length_that_does_is_named(ask):
    status, out, _ = ask(*PINION, "--at", "spacer-tube")
    assert status == 0
    assert out.startswith("58.545 to 58.595 thick brings the end float of the pinion to 0.00 to 0.14.")


def test_the_slots_around_a_measured_play(ask):
    status, out, _ = ask("slots", "boat-trailer/hub", "end float", "0.21 mm dial ±0.01")
    assert status == 0
    assert "30 degrees tighter" in out


def test_slots_of_an_inch_reference_stand_in_inches_too(ask):
    _, out, _ = ask("slots", "boat-trailer/hub", "end float", "0.008 in dial")
    assert out.startswith("30 degrees tighter: gap 0.051 to 0.091 (0.002 to 0.0036 in); wanted 0.025 to")
    assert " as it stands    gap 0.183 to 0.223 (0.0072 to 0.0088 in)  outside" in out


def test_a_pack_that_may_be_either_ends_with_the_measurement_that_would_tell_most(ask):
    """Pieces without limits are good to a hundredth each: measured clamped together they leave least doubt."""
    out = " ".join(
        ask(*PINION, "--at", "preload-shim", "--box", "0.10 x2, 0.30 x4, 0.50 x6 mm", "--measured", "0.32 dial")[
            1
        ].split()
    )
    assert out.endswith(
        "Cheapest next measurement: the pieces to go in, by micrometer, clamped together: 1x0.30 + 2x0.50: "
        "57 in 100 of the range."
    )
    out = " ".join(
        ask(*PINION, "--at", "preload-shim", "--box", "0.50 ±0.001 x6 mm", "--measured", "0.07 feeler ±0.08")[1].split()
    )
    assert "Cheapest next measurement: the end float of the pinion again, finer than by feeler:" in out


def test_slots_are_told_for_every_state_that_the_hub_works_in(ask):
    """The play is set cold; what is left of it on the long hill decides whether the bearings are pressed there."""
    status, out, _ = ask("slots", "rear-hub", "end float", "0.06 dial", "--temperature", "states", "--json")
    answer = json.loads(out)
    assert status == 0 and [own["state"] for own in answer["warm"]] == ["frost", "brake hot"]
    frost, hot = answer["warm"]
    assert frost["more_mm"]["usual"] == pytest.approx(0.0, abs=1e-6)  # all of one metal, all as cold
    assert 0 < hot["more_mm"]["least"] < hot["more_mm"]["usual"] < hot["more_mm"]["most"]
    for slot in answer["slots"]:
        cold, warm = slot["play_mm"], slot["warm_play_mm"][1]
        assert warm["least"] == pytest.approx(cold["least"] + hot["more_mm"]["least"], abs=6e-4)
        assert warm["most"] == pytest.approx(cold["most"] + hot["more_mm"]["most"], abs=6e-4)


def test_what_heat_adds_is_what_stack_says_of_the_same_play(ask):
    """0.05 ± 0.02, which is as the limits are: the play then, less the play that is set."""
    _, out, _ = ask("slots", "rear-hub", "end float", "0.055 dial ±0.025", "--temperature", "brake hot", "--json")
    more = json.loads(out)["warm"][0]["more_mm"]
    _, out, _ = ask("stack", "rear-hub", "--temperature", "brake hot", "--json")
    (play,) = [own for own in json.loads(out)["set_gaps"] if own["gap"] == "end float"]
    then = play["reference"]["play_then_mm"]
    assert more["usual"] == pytest.approx(then["usual"] - 0.055, abs=1e-3)


def test_slots_take_one_temperature_and_no_sweep(ask):
    status, _, err = ask("slots", "rear-hub", "end float", "0.06 dial", "--temperature", "20..60 °C")
    assert status == 3 and '"20..60 °C" is a range' in err
    status, _, err = ask("slots", "rear-hub", "end float", "0.06 dial", "--temperature", "noon")
    assert status == 3 and 'no state "noon"' in err


def test_two_holes_that_do_not_share_the_pitch_evenly_ask_which_one_the_pin_stands_in(ask, tmp_path):
    """Holes at 0 and 80 of 60° slots: 20 and 60 looser from the first, 40 and 60 from the second."""
    own = (ROOT / "reference_assemblies/boat-trailer/hub.toml").read_text(encoding="utf-8")
    folder = tmp_path / "boat-trailer"
    folder.mkdir()
    (folder / "hub.toml").write_text(own.replace("holes = [0, 90]", "holes = [0, 80]"), encoding="utf-8")
    words = ("slots", "boat-trailer/hub", "end float", "0.05 mm dial ±0.01", "--library", str(tmp_path))
    _, out, _ = ask(*words, "--target", "0.10..0.30 mm", "--json")
    answer = json.loads(out)
    first = {round(slot["turned_deg"]) for slot in answer["slots"]}
    (other,) = answer["from_another_hole"]
    second = {round(slot["turned_deg"]) for slot in other["slots"]}
    assert other["hole_deg"] == 80 and {20, 60} <= first and {40, 60} <= second and not {40} & first
    _, out, _ = ask(*words, "--target", "0.10..0.30 mm")
    assert out.startswith("Look which hole the pin stands in now, 0 or 80 degrees")


def test_a_play_is_not_brought_to_20_degrees(ask):
    """A gap does not grow by the expansion of one metal: what is said of its warmth is refused, not used as if it did."""
    status, _, err = ask("slots", "rear-hub", "end float", "0.06 dial at 60 °C")
    assert status == 3 and "a gap is not brought to 20 °C" in err


def test_two_holes_crosswise_are_one_answer(ask):
    """0 and 90 of 60° slots stand 30 apart whichever the pin is in."""
    _, out, _ = ask("slots", "boat-trailer/hub", "end float", "0.21 mm dial ±0.01", "--json")
    assert json.loads(out)["from_another_hole"] == []


def test_no_slot_is_an_answer(ask):
    status, out, _ = ask("slots", "rear-hub", "end float", "0.15 dial")
    assert status == 2
    assert out.startswith("No slot leaves 0.03 to 0.08")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((*PINION, "--box", "0.5 x"), 'write thickness x count, like "0.10 x4, 0.30 x2 mm"'),
        ((*PINION, "--box", ""), "cannot be read"),
        ((*PINION, "--box", "0 x3"), "thicker than nothing"),
        ((*PINION, "--box", "-0.1 x3"), "below zero"),
        ((*PINION, "--box", "0.5 N x3"), "N measures force"),
        ((*PINION, "--box", "0.5 x0"), "a box holds 1 to 200 of a kind"),
        ((*PINION, "--box", "1x1," * 400 + "a"), "at most 60"),
        (("shims", "pinion-shaft", "end flot"), "there are: end float of the pinion"),
        ((*PINION, "--at", "web-of-gear"), "places in it: "),
        ((*PINION, "--target", "0.1 mm"), "write least..most"),
        (("shims", "rear-hub", "end float", "--box", "0.5 x1"), "see: slots"),
        (("slots", "front-hub", "seat gap", "0.2"), "no joint of the reference sets"),
        (("slots", "steering-head", "head float", "0.2 dial"), "no joint of the reference sets the head float"),
        (("slots", "rear-hub", "end float", "loose"), "cannot be read"),
        (("slots", "rear-hub", "end float", "400 dial"), "266.7 turns of the axle nut"),
    ],
)
def test_what_cannot_be_asked_says_why_and_ends_with_status_3(ask, words, said):
    status, out, err = ask(*words)
    assert (status, out) == (3, "")
    assert said in err
    assert "Traceback" not in err
