"""The commands as somebody at the bench meets them: real files, real answers, exit status."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parent.parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*.toml"))
LISTS = [path for path in EXAMPLES if not path.name.endswith(".expected.toml")]
SWAPPED = ROOT / "examples/01-front-hub-collars-swapped.toml"

AVOIDED = re.compile(
    r"\b(safe|roadworthy|airworthy|pass|passed|fail|failed|OK|certified|approved|defective|faulty|brinelled|useless|"
    r"probably|minor|error|warning|critical|health|operator|left over|inspection complete)\b",
    re.IGNORECASE,
)


@pytest.fixture(autouse=True)
def here(monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)


def answer(capsys, *arguments):
    status = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return status, out, err


def test_two_exchanged_collars_are_one_finding_and_the_headline_comes_first(capsys):
    status, out, _ = answer(capsys, "compare", SWAPPED)
    assert status == 1
    assert out.startswith('Differs from reference "Front hub on a through axle, rev B"')
    assert out.count("SWAPPED") == 1


def test_there_are_lists_to_try():
    assert len(LISTS) >= 8


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_every_answer_names_what_was_not_verified_and_says_nothing_about_use(path, capsys):
    """Nobody reads from any answer that a machine may be used, and nobody gets an answer without its gaps."""
    status, out, err = answer(capsys, "compare", path, "--cautions")
    assert status in (0, 1, 2)
    assert err == ""
    assert "Not verified:" in re.sub(r"\s+", " ", out)
    assert "\nNOT VERIFIED\n" in out
    assert not AVOIDED.search(out), AVOIDED.search(out)
    assert all(len(line) <= 80 for line in out.splitlines())


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_the_json_answer_has_the_fields_that_the_manual_describes(path, capsys):
    status, out, _ = answer(capsys, "compare", path, "--json")
    tree = json.loads(out)
    assert tree["exit_status"] == status
    assert set(tree) == {
        "reference", "verdict", "exit_status", "sentence", "findings", "notes", "price", "proved_least", "bound",
        "other_explanations", "not_looked_at", "cannot_tell", "not_verified", "points", "stacks", "loops", "cautions",
        "symptoms",
    }  # fmt: skip
    manual = (ROOT / "stackcheck/manual/json.md").read_text()
    assert all(f"`{field}" in manual for field in tree)
    for finding in tree["findings"]:
        assert finding["sentence"]
        assert all(1 <= number for number in finding["entries"])


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_the_summary_has_at_most_six_sentences(path, capsys):
    from stackcheck.formats.found_file import read_found
    from stackcheck.formats.library import Library
    from stackcheck.present.compare_page import summary
    from stackcheck.result import compare

    found, reference = read_found(path, Library(ROOT / "reference_assemblies").reference)
    assert len(re.findall(r"\.(?= [A-Z0-9]|$)", summary(compare(reference, found)))) <= 6


def test_a_reference_can_be_named_without_its_machine(capsys):
    assert answer(capsys, "stack", "front-hub")[1] == answer(capsys, "stack", "freight-tricycle/front-hub")[1]


def test_the_distance_between_two_faces_is_a_sum_that_can_be_opened(capsys):
    status, out, _ = answer(capsys, "stack", "front-hub", "--between", "leg@left", "bearing@left", "--json")
    tree = json.loads(out)
    assert status == 0
    assert [term["name"] for term in tree["reference"]["terms"]] == ["Short collar"]
    assert tree["reference_mm"] == {"nominal": 18.0, "least": 17.95, "most": 18.05}


def test_checking_the_library_names_every_loop_with_its_worst_case_gap(capsys):
    status, out, _ = answer(capsys, "references", "check")
    assert status == 0
    assert "seat gap: gap 0.01 to 0.09 in the worst case; allowed 0.00 to 0.10: closes" in re.sub(r"\s+", " ", out)
    assert "every loop closes" in out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("compare", "examples/no-such-list.toml"), "there is no such file"),
        (("compare", "examples"), "this is a folder"),
        (("stack", "front-hup"), "did you mean"),
        (("stack", "front-hub", "--between", "leg@left", "nowhere"), "nowhere"),
        (("stack", "front-hub", "--only", "no stack"), "there are: axle stack"),
        (("stack", "front-hub", "--only", "axle stack", "--torque", "40 N·m"), "--torque: it does not go with --only"),
        (("stack", "front-hub", "--between", "leg@left", "hub", "--terms"), "--terms: it does not go with --between"),
        (("stack", "front-hub", "--between", "leg@left", "hub", "--only", "seat gap"), "does not go with --between"),
        (("references", "check", "--library", "no-such-folder"), "there is no such folder"),
        (("compare",), "FOUND"),
        (("no-such-command",), "no-such-command"),
        ((), "COMMAND"),
    ],
)
def test_what_cannot_run_says_why_and_ends_with_status_3(arguments, said, capsys):
    status, out, err = answer(capsys, *arguments)
    assert status == 3
    assert out == ""
    assert said in err
    assert "Traceback" not in err


def test_a_library_of_sound_and_mistaken_files_shows_both(tmp_path, capsys):
    good = (ROOT / "reference_assemblies/freight-tricycle/front-hub.toml").read_text()
    folder = tmp_path / "tricycle"
    folder.mkdir()
    (folder / "front-hub.toml").write_text(good)
    (folder / "other.toml").write_text(
        good.replace('id = "front-hub"', 'id = "other"').replace("22.0 mm ±0.05", "22.0 N")
    )
    status, out, err = answer(capsys, "references", "check", "--library", tmp_path)
    assert status == 3
    assert "tricycle/front-hub rev B: sound" in out
    assert "other.toml:" in err
    assert "The other files were read." in err


def test_checking_the_library_reads_the_machine_files_too(tmp_path, capsys):
    shutil.copytree(ROOT / "reference_assemblies" / "bench-grinder", tmp_path / "bench-grinder")
    (tmp_path / "bench-grinder" / "machine.toml").write_text("kind = 'machine'\nformat = 1\n")
    status, out, err = answer(capsys, "references", "check", "--library", tmp_path)
    assert status == 3
    assert "1 with mistakes" in out
    assert 'machine.toml: the file: "machine" is not given' in err


def test_another_revision_of_the_reference_is_refused_with_the_line(tmp_path, capsys):
    text = SWAPPED.read_text().replace('revision = "B"', 'revision = "A"')
    (tmp_path / "list.toml").write_text(text)
    status, _, err = answer(capsys, "compare", tmp_path / "list.toml", "--library", "reference_assemblies")
    assert status == 3
    assert "list.toml:4" in err


def test_a_piped_answer_is_complete_plain_text_and_its_status_is_the_command_s():
    run = subprocess.run(
        [sys.executable, "-m", "stackcheck", "compare", str(SWAPPED)],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert run.returncode == 1
    assert "\x1b" not in run.stdout
    assert " ".join(run.stdout.split()).endswith("the truth of the entries.")


def test_a_reader_that_stops_early_is_no_accident():
    run = subprocess.run(
        f"{sys.executable} -m stackcheck references check | head -1",
        shell=True,
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert run.returncode == 0
    assert run.stderr == ""


def test_the_usual_path_loads_neither_pint_nor_rich_nor_scipy():
    """A comparison starts as quickly as its libraries; what it does not need stays unloaded."""
    code = (
        "import sys; from stackcheck.cli import main; main(['compare', sys.argv[1]]);"
        "print([name for name in ('pint', 'rich', 'scipy', 'numpy', 'tomli_w') if name in sys.modules], "
        "file=sys.stderr)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code, str(SWAPPED)], capture_output=True, text=True, cwd=ROOT, check=False
    )
    assert run.stderr == "[]\n"


def test_the_forces_stand_in_the_answer_only_when_asked_for(capsys):
    """They load the numerical libraries, which take longer than the whole comparison."""
    shown = {}
    for option in ((), ("--forces",)):
        main(["compare", str(EXAMPLES[0]), *option])
        shown[option] = capsys.readouterr().out
    assert "FORCES when tightened" not in shown[()] and "FORCES when tightened" in shown["--forces",]
    assert shown["--forces",].index("FORCES") < shown["--forces",].index("NOT VERIFIED\n")
    main(["compare", str(EXAMPLES[0]), "--json", "--forces"])
    tree = json.loads(capsys.readouterr().out)
    assert tree["forces"][0]["joint"] == "axle nut" and tree["supports"][0]["place"] == "leg@right"


def test_the_forces_of_compare_hold_plays_and_supports_and_explain_the_list_once(capsys, monkeypatch):
    """The same sections as `stack`, from the explanation that stands on the page already."""
    import stackcheck.compare
    import stackcheck.result.comparison
    import stackcheck.result.forces

    asked = []

    def explained(reference, found):
        asked.append(found)
        return stackcheck.compare.explanations(reference, found)

    monkeypatch.setattr(stackcheck.result.comparison, "explanations", explained)
    monkeypatch.setattr(stackcheck.result.forces, "explanations", explained)
    main(["compare", str(EXAMPLES[0]), "--forces"])
    assert "SUPPORTS, side load and shift" in capsys.readouterr().out
    assert len(asked) == 1
    main(["compare", str(next(path for path in EXAMPLES if path.name.startswith("26-"))), "--forces"])
    assert "PLAY THAT A NUT SETS" in capsys.readouterr().out
