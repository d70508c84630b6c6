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
    """The washer under the axle nut stands on the thread:
    that it will not pass over the seat says nothing against it.
    """
    _, out, _ = answer(capsys, *BY_HAND, "29.80x17.10x3.01", "mic")
    assert "goes over the through axle" not in out
    _, out, _ = answer(capsys, "--machine", "freight-tricycle", "collar", "30.14x19.96x18.10", "mic", "painted")
    assert "goes over the through axle" in out


def test_a_place_and_a_spare_for_it_are_told_once(capsys):
    words = re.sub(r"\s+", " ", answer(capsys, *BY_HAND, "29.80x17.10x3.01", "mic")[1]).partition("MEASURED")[0]
    assert words.count("washer under the axle nut of freight-tricycle/front-hub") == 1
    assert "its own, if that place lacks one, which nobody has compared, else a spare" in words


def test_a_brass_ring_is_not_said_to_be_of_a_steel_bearing(capsys):
    """Its sizes are those of a bearing ring, the magnet lets it fall:
    neither what it is nor where it belongs is settled.
    """
    status, out, _ = answer(
        capsys, "--machine", "bench-grinder", "ring", "47.00x39.00x13.95", "mic", "brass,", "not", "magnetic"
    )
    words = re.sub(r"\s+", " ", out)
    assert status == 2
    assert "What was seen speaks against it" in words and "Where it belongs is open" in words


def test_a_bearing_itself_is_not_outside_the_bearings(capsys):
    _, out, _ = answer(capsys, ROOT / "examples/06-front-hub-short-tube-and-ring.toml", 12)
    words = re.sub(r"\s+", " ", out)
    assert "one of the bearings themselves: their preload runs through it" in words
    assert "it changes no preload" not in words


def test_only_what_such_a_part_can_have_is_asked_for(capsys):
    for part, absent in (
        (["ball", "6.33", "cal"], "bore"),
        (["nut", "across_flats=29.9", "cal"], "tabs"),
        (["split", "pin", "outside=2.8", "cal"], "thickness"),
    ):
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
    (tmp_path / "other/hub.toml").write_text(
        (ROOT / "reference_assemblies/freight-tricycle/front-hub.toml").read_text()
    )
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
    status, out, _ = answer(
        capsys, "--machine", "freight-tricycle", "--found-in", "pinion-shaft", "shim ring", "44.90x35.10x0.502", "mic"
    )
    assert status == 0
    assert "preload shim ring (OT-2412)" in re.sub(r"\s+", " ", out)


def words(capsys, *arguments):
    status, out, _ = answer(capsys, *arguments)
    return status, re.sub(r"\s+", " ", out.partition("MEASURED")[0])


@pytest.mark.parametrize(
    ("machine", "part", "meant"),
    [
        ("bilge-pump", "set screw", "set screw over the key (BP-243)"),
        ("bilge-pump", "impeller nut", "impeller nut (BP-222)"),
        ("freight-tricycle", "split pin", "split pin of the axle nut (FT-1502)"),
        ("bilge-pump", "tab washer", "tab washer of the shaft nut (BP-206)"),
    ],
)  # fmt: skip
def test_a_part_that_keeps_something_on_is_counted_in_though_nobody_measured_it(machine, part, meant, capsys):
    status, said = words(capsys, "--machine", machine, part)
    assert status == 2
    assert "Unknown: nothing was measured." in said and meant in said
    assert "may carry no load and still be what keeps something on" in said


def test_a_part_that_may_be_a_retaining_one_is_never_said_to_have_no_home(capsys):
    """A thickness alone suits many things; the circlip of the layshaft is one of them."""
    _, said = words(capsys, "--machine", "orchard-tractor", "circlip", "broken", "length=1.20 mic")
    assert "the circlip on the layshaft (OT-2601) of orchard-tractor/layshaft suits it, and so may others" in said
    assert "no home found" not in said
    assert "Count it in: the circlip on the layshaft" in said


@pytest.mark.parametrize(
    ("part", "kept"),
    [
        ("tab washer 61.0x40.3x1.75 mic", "what has a tab keeps something from turning"),
        ("split pin outside=9.1 cal", "a split pin keeps something on"),
    ],
)
def test_a_pin_or_a_tab_washer_of_nowhere_is_counted_in_all_the_same(part, kept, capsys):
    _, said = words(capsys, "--machine", "freight-tricycle", part)
    assert f"Count it in: {kept}, wherever it belongs." in said


def test_a_name_against_the_sizes_is_said_and_the_sizes_count(capsys):
    _, said = words(capsys, "--machine", "freight-tricycle", "short collar 30.00x20.00x22.00 cal")
    assert "long collar (FT-1207)" in said
    assert (
        "It is called like the short collar (FT-1206) of freight-tricycle/front-hub, and is not like it: "
        "length 3.95 above 18.05." in said
    )


def test_a_mark_that_is_another_part_is_no_ground_and_settles_nothing(capsys):
    """A bearing with the sizes of a 6206 and the number of a 6205: one of the two was misread."""
    status, said = words(capsys, "--machine", "bilge-pump", "bearing marked 6205 62.0x30.0x16.0 cal")
    assert status == 2
    assert (
        "not settled: its mark is another one" in said
        and "Its mark 6205 is that of the 6205, and its sizes are not" in said
    )
    status, said = words(capsys, "--machine", "bilge-pump", "bearing marked 6206 62.0x30.0x16.0 cal")
    assert status == 0 and "Identified by its sizes and its mark" in said


def test_a_mark_of_no_part_is_named_as_no_ground(capsys):
    status, said = words(capsys, *BY_HAND, "29.80x17.10x3.01", "mic,", "marked", "8.8")
    assert status == 0 and "Identified by its sizes: washer under the axle nut" in said


@pytest.mark.parametrize(
    "part", ["spring bore=25.1 cal", "cap outside=47.0 cal", "key width=7.98 mic", "impeller nut M16x1.5"]
)
def test_one_size_proves_no_part(part, capsys):
    machine = "freight-tricycle" if part.startswith("cap") else "bilge-pump"
    status, said = words(capsys, "--machine", machine, part)
    assert status == 2
    assert "Shortlist of one, not settled: one size proves no part." in said


@pytest.mark.parametrize(
    ("machine", "part"),
    [("boat-trailer", "sleeve 1.688x1.250x.500 in mic"), ("bench-grinder", "felt ring 32.0x20.0x5.0 rule")],
)
def test_a_part_called_by_its_own_name_is_spoken_against_by_nothing(machine, part, capsys):
    """The kind that a word usually means ("sleeve": a spacer tube)
    is no slip of the pen where a part here is called so.
    """
    _, said = words(capsys, "--machine", machine, part)
    assert "speaks against it" not in said


def test_a_part_of_another_machine_is_found_there_and_counted_in(capsys):
    """Two machines on one bench: "no home found" of one machine would send the other's locking washer to the bin."""
    _, said = words(capsys, "--machine", "freight-tricycle", "tab washer 49.0x30.3x1.25 mic")
    assert "no home found in 3 references here." in said
    assert (
        "Of another machine, its sizes suit the tab washer of the shaft nut (BP-206) of bilge-pump/shaft-bearings; "
        "whether that one lacks any, nobody has compared." in said
    )
    assert "Count it in: the tab washer of the shaft nut" in said
    _, said = words(capsys, "--machine", "freight-tricycle", "ring", "number=OT-2412")
    assert "Of another machine, its mark suits the preload shim ring (OT-2412) of orchard-tractor/pinion-shaft" in said


def test_what_was_searched_is_said_where_no_home_was_found(capsys):
    _, said = words(capsys, "--machine", "bilge-pump", "ring 44.12x19.33x7.71 mic")
    assert "no home found in 3 references here and 11 of other machines." in said


def test_a_file_of_another_machine_that_cannot_be_read_is_named_and_stops_nothing(capsys, tmp_path):
    for id in ("bench-grinder/arbor", "boat-trailer/hub"):
        (tmp_path / id).parent.mkdir()
        (tmp_path / f"{id}.toml").write_text((ROOT / f"reference_assemblies/{id}.toml").read_text())
    (tmp_path / "boat-trailer/hub.toml").write_text("kind = 1")
    status, out, err = answer(capsys, "--machine", "bench-grinder", "ring 44.12x19.33x7.71 mic", "--library", tmp_path)
    assert (status, err) == (2, "")
    assert "hub.toml: cannot be read, not searched" in re.sub(r"\s+", " ", out)


def next_steps(capsys, *arguments):
    out = answer(capsys, *arguments)[1]
    return re.sub(r"\s+", " ", out.partition("NEXT")[2].partition("NOT VERIFIED")[0])


@pytest.mark.parametrize(
    ("machine", "part", "step"),
    [
        ("freight-tricycle", "washer 298.0x17.10x3.01 mic",
         "take the outside diameter again: in all else it agrees with the washer under the axle nut (FT-1202)"),
        ("freight-tricycle", "nut M20x1 across_flats=29.9 cal length=15.0 cal",
         "take the thread pitch again: in all else it agrees with the castellated axle nut"),
        ("freight-tricycle", "washer 29.80x17.10x6.02 mic",
         "as thick as two of the washer under the axle nut (FT-1202) of freight-tricycle/front-hub together"),
        ("orchard-tractor", "shim ring 44.9x35.1x0.80 mic",
         "try to part it with a blade: it is as thick as the position shim ring"),
        ("orchard-tractor", "plate 118.0x84.0x1.80 mic",
         "has a look-alike: steel plate of the reverse pack OT-2203, 1.80 thick"),
        ("orchard-tractor", "snap ring length=3.20 mic outside=127.0 cal",
         "has a look-alike: OT-2107, 3.20 thick, for a worn drum"),
        ("bench-grinder", "nut across_flats=23.9 cal",
         "has a look-alike: right arbor nut; this one has a left-hand thread"),
        ("freight-tricycle", "tube 28x20x58 tape",
         "take the length, bore and outside diameter again by calliper or finer, every digit written"),
        ("freight-tricycle", "collar length=22.01 mic", "take the bore and outside diameter as well"),
        ("freight-tricycle", "cap outside=47.0 cal",
         "the reference gives no other size of it: look where it may have stood"),
        ("freight-tricycle", "washer 29.6x17.6x2.6 cal, worn",
         ("wear blurs what tells Washer under the axle nut from ISO 7091 M16: "
          "take the sizes again where it is not worn")),
        ("orchard-tractor", "circlip broken length=1.20 mic",
         "the bore may tell Circlip on the layshaft from DIN 472 24: given for one of them only"),
    ],
)  # fmt: skip
def test_the_next_step_is_the_one_that_helps(machine, part, step, capsys):
    assert step in next_steps(capsys, "--machine", machine, part)


def test_parts_that_nobody_takes_for_one_another_are_not_told_apart(capsys):
    """A lamp bracket and a circlip of one thickness, a cap and a bearing of one outside."""
    for part in ("lamp bracket length=2.5 cal", "cap outside=47.0 cal", "needle 3x20 mic"):
        said = next_steps(capsys, "--machine", "freight-tricycle", part)
        assert "tells" not in said and "against" not in said


@pytest.mark.parametrize(
    ("part", "absent"),
    [("washer 29.8x17.1x6.02 mic", "6903"), ("gasket length=0.50 mic", "ISO 7089"), ("O-ring 34.0x3.0 cal", "M30")],
)
def test_a_part_is_tried_against_what_it_may_be_taken_for(part, absent, capsys):
    """No washer is tried against a bearing, no O-ring against a washer."""
    out = answer(capsys, "--machine", "bilge-pump", part)[1]
    assert absent not in out.partition("TRIED AGAINST")[2].partition("NEXT")[0]


def test_the_length_is_called_as_the_trade_calls_it(capsys):
    for part, word in (
        ("tube 28.0x20.3x58.01 mic", "length"),
        ("nut across_flats=29.9 cal length=15.0 cal", "height"),
        ("bearing 47.0x20.0x14.0 cal", "width"),
        ("washer 29.8x17.1x3.0 cal", "thickness"),
    ):
        assert f"\n {word} " in answer(capsys, "--machine", "freight-tricycle", part)[1]
