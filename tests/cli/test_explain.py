"""`explain` as somebody with a strange part in the hand meets it."""

import json
import re
from pathlib import Path

import pytest

from stackcheck.cli import main
from tests.cli.test_cli import AVOIDED

ROOT = Path(__file__).parent.parent.parent
WASHER = ROOT / "examples/11-front-hub-older-collar-extra-washer.toml"
BY_HAND = ("--machine", "freight-tricycle", "washer")


@pytest.fixture(autouse=True)
def here(monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)


def answer(capsys, *arguments):
    status = main(["explain", *map(str, arguments)])
    out, err = capsys.readouterr()
    return status, out, err


def test_a_standard_washer_is_identified_as_a_class_and_its_origin_stays_open(capsys):
    status, out, _ = answer(capsys, *BY_HAND, "29.80x17.10x3.01", "mic")
    words = re.sub(r"\s+", " ", out)
    assert status == 0
    assert "Identified by its sizes" in words
    assert "ISO 7089 M16 or ISO 7090 M16, which share all these sizes" in words
    assert "Where it belongs is open" in words
    assert "look for a chamfer on the bare face: tells them apart" in words


def test_a_part_of_no_known_size_is_unknown_and_the_nearest_are_named(capsys):
    status, out, _ = answer(capsys, WASHER, 4)
    assert status == 2
    assert "Unknown:" in out
    assert "no home found" in out
    assert "TRIED AGAINST (nearest first)" in out
    assert "outside the bearings: it changes no preload" in out


@pytest.mark.parametrize(
    "arguments",
    [(*BY_HAND, "28x20x0.5", "mic"), (*BY_HAND, "29.80x17.10x3.01", "mic"), (*BY_HAND,), (WASHER, 4), (WASHER, 7)],
    ids=str,
)
def test_no_answer_sounds_surer_than_its_evidence(arguments, capsys):
    status, out, err = answer(capsys, *arguments)
    assert status in (0, 2)
    assert err == ""
    assert "\nNOT VERIFIED\n" in out
    assert not AVOIDED.search(out), AVOIDED.search(out)
    assert all(len(line) <= 80 for line in out.splitlines())
    assert "%" not in out


def test_every_field_of_the_json_answer_is_in_the_manual(capsys):
    status, out, _ = answer(capsys, WASHER, 4, "--json")
    tree = json.loads(out)
    assert tree["exit_status"] == status
    manual = (ROOT / "stackcheck/manual/json.md").read_text().partition("## explain")[2]
    assert all(f"`{field}" in manual for field in tree)
    assert all(f"`{field}" in manual or f"`part.{field}" in manual for field in tree["part"])


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((*BY_HAND, "29.8x17.1x0", "mic"), "a measured length is above 0"),
        ((*BY_HAND, "17x17x1.0", "laser"), '"laser" is no way of measuring known here'),
        ((*BY_HAND, "bore=30.0", "outside=20.0"), "the bore 30.0 is not smaller than the outside 20.0"),
        ((*BY_HAND, "hold=30.0"), 'unknown size "hold"'),
        ((*BY_HAND, "28x20x0.5", "mic", "17"), "1 size without a name: 17"),
        ((*BY_HAND, "28x20x0.5", "mic,", "magnetic,", "not", "magnetic"), "it says both magnetic and not magnetic"),
        ((*BY_HAND, "28x20x0.5", "mic,", "dished,", "lies", "flat"), "it says both dished and flat"),
        ((*BY_HAND, "28x20x0.5", "mic,", "brass,", "steel"), "it says both brass and steel"),
        (("--machine", "freght-tricycle", "washer"), 'did you mean "freight-tricycle"?'),
        (("washer",), "write FOUND ENTRY, or --machine MACHINE"),
        ((WASHER, 99), "the list has entries 1 to 12"),
        ((WASHER, "four"), 'there is no entry "four"'),
        ((*BY_HAND, "--found-in", "front-hup"), "unknown reference"),
    ],
    ids=str,
)  # fmt: skip
def test_what_cannot_be_is_refused_with_what_to_mend(arguments, said, capsys):
    status, out, err = answer(capsys, *arguments)
    assert (status, out) == (3, "")
    assert said in err
    assert "Traceback" not in err


def test_a_fit_that_the_part_of_that_place_could_not_make_either_is_no_question(capsys):
    """The washer under the axle nut stands on the thread: that it will not pass over the seat says nothing against it."""
    _, out, _ = answer(capsys, *BY_HAND, "29.80x17.10x3.01", "mic")
    assert "goes over the through axle" not in out
    _, out, _ = answer(capsys, "--machine", "freight-tricycle", "collar", "30.14x19.96x18.10", "mic", "painted")
    assert "goes over the through axle" in out


def test_a_place_and_a_spare_for_it_are_told_once(capsys):
    words = re.sub(r"\s+", " ", answer(capsys, *BY_HAND, "29.80x17.10x3.01", "mic")[1]).partition("MEASURED")[0]
    assert words.count("washer under the axle nut of freight-tricycle/front-hub") == 1
    assert "its own, if that place lacks one, which nobody has compared, else a spare" in words


def test_a_brass_ring_is_not_said_to_be_of_a_steel_bearing(capsys):
    """Its sizes are those of a bearing ring, the magnet lets it fall: neither what it is nor where it belongs is settled."""
    status, out, _ = answer(capsys, "--machine", "bench-grinder", "ring", "47.00x39.00x13.95", "mic", "brass,", "not", "magnetic")
    words = re.sub(r"\s+", " ", out)
    assert status == 2
    assert "What was seen speaks against it" in words and "Where it belongs is open" in words


def test_a_bearing_itself_is_not_outside_the_bearings(capsys):
    _, out, _ = answer(capsys, ROOT / "examples/06-front-hub-short-tube-and-ring.toml", 12)
    words = re.sub(r"\s+", " ", out)
    assert "one of the bearings themselves: their preload runs through it" in words
    assert "it changes no preload" not in words


def test_only_what_such_a_part_can_have_is_asked_for(capsys):
    for part, absent in ((["ball", "6.33", "cal"], "bore"), (["nut", "across_flats=29.9", "cal"], "tabs"), (["split", "pin", "outside=2.8", "cal"], "thickness")):
        out = answer(capsys, "--machine", "freight-tricycle", *part)[1]
        assert absent not in out.partition("NEXT")[2].partition("NOT VERIFIED")[0]
        assert "WHERE IT GOES" not in out


def test_nothing_is_told_apart_where_nothing_was_measured(capsys):
    out = answer(capsys, *BY_HAND)[1]
    assert "tells them apart" not in out and "bore, outside diameter and" in out


def test_looks_that_contradict_one_another_in_a_list_are_refused_with_their_entry(capsys, tmp_path):
    text = WASHER.read_text().replace("[[off]]", '[[off]]\nnote = "magnetic, not magnetic"', 1)
    (tmp_path / "list.toml").write_text(text)
    status, out, err = answer(capsys, tmp_path / "list.toml", 1, "--library", ROOT / "reference_assemblies")
    assert (status, out) == (3, "")
    assert "list.toml: entry 1: it says both magnetic and not magnetic" in re.sub(r"\s+", " ", err)


def test_an_empty_library_and_a_machine_without_references_are_said_so(capsys, tmp_path):
    assert answer(capsys, *BY_HAND, "--library", tmp_path)[0] == 3
    for machine in ("bare", "other"):
        (tmp_path / machine).mkdir()
    (tmp_path / "other/hub.toml").write_text((ROOT / "reference_assemblies/freight-tricycle/front-hub.toml").read_text())
    status, _, err = answer(capsys, "--machine", "bare", "washer", "--library", tmp_path)
    assert status == 3
    assert "bare has no references" in err


def test_figures_are_outside_and_bore_whichever_was_written_first(capsys):
    first = answer(capsys, *BY_HAND, "29.80x17.10x3.01", "mic")
    assert answer(capsys, *BY_HAND, "17.10x29.80x3.01", "mic") == first


def test_a_shim_below_what_the_calliper_shows_is_not_measured(capsys):
    _, out, _ = answer(capsys, "--machine", "orchard-tractor", "shim", "45.0x35.1x0.04", "cal 0.1")
    assert "below what this tool can show, not measured" in re.sub(r"\s+", " ", out)


def test_a_part_described_by_hand_is_no_entry_of_a_list(capsys):
    """Beside an open list of the same assembly it is a part of its own, never entry 1 of that list."""
    found_in = ("--machine", "freight-tricycle", "--found-in", "front-hub", "--also", WASHER)
    _, out, _ = answer(capsys, *found_in, "shim", "ring", "44.9x35.1x0.50", "mic")
    assert "(entry" not in out.partition("MEASURED")[0]
    assert "WHAT IT DOES" not in out
    tree = json.loads(answer(capsys, *found_in, "shim", "ring", "44.9x35.1x0.50", "mic", "--json")[1])
    assert tree["part"]["entry"] is None


def test_a_part_may_be_of_the_other_machine_that_it_was_found_in(capsys):
    status, out, _ = answer(capsys, "--machine", "freight-tricycle", "--found-in", "pinion-shaft", "shim ring", "44.90x35.10x0.502", "mic")
    assert status == 0
    assert "preload shim ring (OT-2412)" in re.sub(r"\s+", " ", out)
