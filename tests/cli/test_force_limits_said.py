"""Limits of forces in a reference: what `stack`, `compare --forces`, `references` say of them, and how they are carried on."""

import json
from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.formats.found_file import read_found
from stackcheck.formats.library import Library
from stackcheck.formats.reference_file import read_reference, write_sound_reference
from stackcheck.references.difference import difference
from stackcheck.references.mirror import mirrored
from stackcheck.references.taken import taken
from stackcheck.references.weak import OPEN, TO_MEND, weaknesses
from stackcheck.value import replace

ROOT = Path(__file__).parents[2]
LIBRARY = ROOT / "examples/wanted-preload"
PINION = LIBRARY / "orchard-tractor/preloaded-pinion.toml"
SHORT = "examples/wanted-preload/shim-short.toml"
WANTED = "preload of the pinion, wanted 3 to 10 kN by common practice, no source"
LIMIT = 'least = "3 kN"\nmost = "10 kN"'


@pytest.fixture
def ask(capsys, monkeypatch):
    def run(*words: str, library: Path = LIBRARY) -> str:
        monkeypatch.chdir(ROOT)
        main([*words, "--library", str(library)])
        return " ".join(capsys.readouterr().out.split())

    return run


@pytest.fixture
def changed(tmp_path):
    """The library with its one reference written otherwise."""

    def write(*slips: tuple[str, str]) -> Path:
        text = PINION.read_text(encoding="utf-8")
        for was, now in slips:
            assert was in text
            text = text.replace(was, now)
        path = tmp_path / "orchard-tractor" / PINION.name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_the_force_is_held_against_what_is_wanted(ask):
    assert f"{WANTED}: agrees" in ask("stack", "preloaded-pinion")


@pytest.mark.parametrize("words", [("stack", "preloaded-pinion", "--found", SHORT), ("compare", SHORT, "--forces")])
def test_as_found_stands_beside_the_reference(ask, words):
    assert f"{WANTED}: as found differs: at least 7.6 kN too much; by the reference agrees" in ask(*words)


def test_the_respect_tells_the_reference_as_computed_from_what_is_wanted(ask):
    """A ring short is another state than the reference has, and not the one that is wanted either: two answers."""
    said = ask("stack", "preloaded-pinion", "--found", SHORT)
    assert (
        "forces tightened as told below: differs: bearings (end float of the pinion); agrees: tension of the flange nut; "
        "against what is wanted: differs: preload of the pinion, 3 to 10 kN"
    ) in said


def test_a_state_that_differs_from_the_reference_may_agree_with_what_is_wanted(ask, changed):
    """And the other way round: the reference itself may not bring what it wants."""
    library = changed((LIMIT, 'least = "10 kN"')).parents[1]
    said = ask("stack", "preloaded-pinion", "--found", SHORT, library=library)
    assert "tightened as told below: differs: bearings (end float of the pinion)" in said
    assert "against what is wanted: agrees: preload of the pinion, at least 10 kN" in said


def test_json_tells_the_two_apart(ask):
    respects = json.loads(ask("stack", "preloaded-pinion", "--found", SHORT, "--json"))["respects"]
    (forces,) = (each["forces"] for each in respects if each["respect"] == "forces")
    assert [(each["what"], each["is_wanted"]) for each in forces] == [
        ("tension of the flange nut", False), ("bearings (end float of the pinion)", False),
        ("preload of the pinion, 3 to 10 kN", True),
    ]  # fmt: skip


def test_a_sweep_says_where_the_limit_is_crossed(ask):
    said = ask("stack", "preloaded-pinion", "--torque", "20..160 N·m")
    assert f"{WANTED}: cannot tell up to about 109 N·m, agrees from there to about 150 N·m, cannot tell above" in said


def test_a_step_of_a_sweep_that_cannot_be_told_stands_in_it_all_the_same(ask):
    """20 N·m hardly turn the self-locking nut: nothing is clamped there."""
    assert "preload, kN 20 N·m cannot tell 40 N·m 2.5 to 6.3" in ask(
        "stack", "preloaded-pinion", "--torque", "20..160 N·m"
    )


def test_without_a_limit_there_is_no_verdict(ask):
    shipped = ask("stack", "pinion-shaft", library=ROOT / "reference_assemblies")
    assert "FORCES" in shipped and "wanted" not in shipped


@pytest.mark.parametrize(
    ("slips", "said"),
    [
        (((LIMIT, 'least = "12 kN"'),), "wanted at least 12 kN by common practice, no source: differs: at least"),
        (((LIMIT, 'most = "1 kN"'),), "wanted at most 1 kN by common practice, no source: differs: at least"),
        (((LIMIT, 'least = "700 lbf"\nmost = "2200 lbf"'),), "wanted 3.114 to 9.786 kN (700 lbf to 2200 lbf) by common practice, no source: cannot tell"),
        (((LIMIT, 'least = "5 kN"\nmost = "10 kN"'),), "cannot tell: the range reaches below 5 kN"),
        (((LIMIT, 'least = "5 kN"\nmost = "6 kN"'),), "cannot tell: the range reaches below 5 kN and above 6 kN"),
        ((("58.45 mm", "58.75 mm"), ('"0.00 mm"', '"0.40 mm"')), f"{WANTED}: differs: there is none"),
        ((("58.45 mm ±0.003", "40 mm"),), f"{WANTED}: differs: at least"),
        ((('torque = "120 N·m"', ""),), f"{WANTED}: cannot tell: needs the torque of the flange nut"),
        ((('clamps = ["bearing@gear", "nut-washer"]', 'clamps = ["flange", "nut-washer"]'),), f"{WANTED}: cannot tell: no joint clamps the two bearings"),
        ((('torque = "120 N·m"', 'torque = "900 N·m"'), ("58.45 mm", "50 mm")), f"{WANTED}: outside the model: no figure holds there"),
        ((('of = "end float of the pinion" ', 'of = "flange nut"'),), "wanted 3 to 10 kN by common practice, no source: differs: at least 7.6 kN too much"),
    ],
)  # fmt: skip
def test_each_answer_has_its_words(ask, changed, slips, said):
    assert said in ask("stack", "preloaded-pinion", library=changed(*slips).parents[1])


def test_the_json_has_limits_and_verdicts(ask):
    (limit,) = json.loads(ask("stack", "preloaded-pinion", "--found", SHORT, "--json"))["forces"][0]["limits"]
    assert {key: limit[key] for key in ("what", "of", "least_n", "most_n", "source")} == {
        "what": "preload of the pinion", "of": "end float of the pinion", "least_n": 3000.0, "most_n": 10000.0,
        "source": "common practice, no source",
    }  # fmt: skip
    assert limit["reference"]["verdict"] == "agrees" and limit["as_found"]["verdict"] == "differs"
    assert limit["as_found"]["least_n"] > 10e3


def test_a_reference_alone_tells_the_limit_with_its_source(ask):
    shown = ask("references", "show", "preloaded-pinion")
    assert "preload of the pinion, of the end float of the pinion: 3 to 10 kN (common practice, no source)" in shown


def weak(path: Path) -> list:
    return [
        (each.grade, each.about, each.sentence) for each in weaknesses(read_reference(path)) if each.check == "force"
    ]


def test_a_reference_that_keeps_its_limit_is_not_weak_in_it():
    assert weak(PINION) == []


def test_a_limit_that_the_reference_itself_cannot_keep_is_to_be_mended(ask, changed):
    path = changed((LIMIT, 'least = "12 kN"'))
    about = ("limits", "preload of the pinion")
    assert weak(path) == [
        (TO_MEND, about, "preload of the pinion: wanted at least 12 kN, by the reference itself 3.1 to 9.1 kN")
    ]
    heading = path.read_text(encoding="utf-8").split("\n").index('what = "preload of the pinion"')
    said = ask("references", "check", library=path.parents[1])
    assert f"TO MEND {path}:{heading}: preload" in said


def test_a_limit_that_it_may_not_keep_is_left_open(changed):
    assert weak(changed((LIMIT, 'least = "5 kN"'))) == [
        (OPEN, ("limits", "preload of the pinion"),
         "preload of the pinion: wanted at least 5 kN, by the reference itself 3.1 to 9.1 kN")
    ]  # fmt: skip


def test_end_float_where_preload_is_wanted_is_to_be_mended(changed):
    (only,) = weak(changed(("58.45 mm", "58.75 mm")))
    assert only[0] == TO_MEND and only[2].endswith("wanted 3 to 10 kN, by the reference itself there is none")


def test_it_is_written_as_it_was_read(tmp_path):
    was = read_reference(PINION)
    path = tmp_path / "orchard-tractor" / "again.toml"
    path.parent.mkdir()
    write_sound_reference(was, path)
    assert replace(read_reference(path), file="") == replace(was, file="")


LATE = '[[variants]]\nname = "late"\nserials = "400 and up"\n'
RULES = "# --- what must hold"


def test_a_variant_can_want_another_force(changed):
    path = changed((RULES, f'{LATE}[variants.limits."preload of the pinion"]\nmost = "8 kN"\n{RULES}'))
    late = read_reference(path).variants[0].reference
    assert [(limit.least_n, limit.most_n) for limit in late.force_limits] == [(3e3, 8e3)]


def test_a_variant_without_what_the_joint_clamps_wants_no_force_of_the_joint(changed):
    of_the_nut = ('of = "end float of the pinion" ', 'of = "flange nut"')
    reference = read_reference(changed(of_the_nut, (RULES, f'{LATE}without = ["nut-washer"]\n{RULES}')))
    assert [len(each.force_limits) for each in (reference, reference.variants[0].reference)] == [1, 0]


def test_another_force_is_a_difference_between_two_references(changed):
    was, now = read_reference(PINION), read_reference(changed((LIMIT, 'least = "3 kN"\nmost = "8 kN"')))
    assert "end float of the pinion: 3 kN to 8 kN" in str(difference(was, now))


def test_the_other_side_wants_the_same_force():
    mirror = mirrored(read_reference(PINION))
    assert [(limit.of, limit.least_n) for limit in mirror.force_limits] == [("end float of the pinion", 3e3)]


def test_a_machine_taken_as_a_reference_keeps_the_limit_with_its_joint():
    found, reference = read_found(ROOT / SHORT, Library(LIBRARY).reference)
    assert [limit.what for limit in taken(reference, found).reference.force_limits] == ["preload of the pinion"]
