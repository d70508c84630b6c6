"""`points` on the shipped machines: the list to look at, the blank file, and what was found."""

import json
from pathlib import Path

import pytest

from stackcheck.cli import main
from tests.avoided_words import AVOIDED

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples/points"
MACHINES = sorted(file.parent.name for file in (ROOT / "reference_assemblies").glob("*/machine.toml"))
HEAD = 'kind = "points"\nformat = 1\n'


@pytest.fixture
def ask(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)

    def run(*words: object) -> tuple[int, str, str]:
        status = main(["points", *map(str, words)])
        shown = capsys.readouterr()
        return status, shown.out, shown.err

    return run


def plainly(text: str) -> str:
    return " ".join(text.split())


@pytest.fixture
def tractor(ask, tmp_path):
    """Judges points of the tractor, written as the middle of a file."""

    def run(text: str, *words: str) -> tuple[int, str, str]:
        (tmp_path / "tractor.toml").write_text(f'{HEAD}machine = "orchard-tractor"\n{text}')
        return ask("orchard-tractor", tmp_path / "tractor.toml", "--library", ROOT / "reference_assemblies", *words)

    return run


def test_the_list_says_what_to_look_at_and_what_is_wanted(ask):
    status, out, _ = ask("orchard-tractor")
    assert status == 0
    assert "spark plug gap: feeler between the electrodes, plug cold; within 0.6 to 0.7 mm (maker's drawing" in plainly(
        out
    )


@pytest.mark.parametrize("machine", MACHINES)
def test_the_blank_file_is_read_back_and_nothing_in_it_was_looked_at(ask, tmp_path, machine):
    """Whoever fills in nothing does not end with agreement."""
    blank = tmp_path / "blank.toml"
    assert ask(machine, "--out", blank)[0] == 0
    status, out, err = ask(machine, blank)
    assert (status, err) == (2, "")
    assert plainly(out).startswith("Cannot tell whether it agrees")
    assert "NOT LOOKED AT" in out


def test_a_blank_file_is_never_written_over_another(ask, tmp_path):
    (tmp_path / "mine.toml").write_text("mine")
    status, _, err = ask("bench-grinder", "--out", tmp_path / "mine.toml")
    assert status == 3 and "exists already" in err
    assert (tmp_path / "mine.toml").read_text() == "mine"


def test_all_points_that_agree_make_agreement(ask):
    status, out, _ = ask("orchard-tractor", EXAMPLES / "tractor.toml")
    assert status == 0
    assert plainly(out).startswith('Agrees with the points of "Two-wheel orchard tractor" in 5 of 5. Not verified: ')


def test_two_tyres_read_with_two_gauges_differ_by_more_than_the_gauges_do(ask):
    """As read just within reach of the limit, but the gauge of the higher tyre reads less than the other one."""
    status, out, _ = ask("freight-tricycle", EXAMPLES / "tricycle.toml")
    assert status == 1
    assert "foot pump reads 0.113 more than pencil gauge: without that 0.313 apart" in plainly(out)


@pytest.mark.parametrize("file", sorted(EXAMPLES.glob("*.toml")), ids=lambda file: file.stem)
def test_the_page_assures_nothing_and_keeps_to_its_width(ask, file):
    _, out, _ = ask("freight-tricycle" if file.stem == "tricycle" else "orchard-tractor", file)
    assert not AVOIDED.search(out)
    assert max(map(len, out.splitlines())) <= 80
    assert "Not verified: " in plainly(out) and "NOT VERIFIED" in out


def test_a_limit_is_not_met_by_a_mere_look(tractor):
    status, out, _ = tractor('[[points]]\nname = "spark plug gap"\nfound = "agrees"\n')
    assert status == 2
    assert "spark plug gap: wanted 0.6 to 0.7 mm; no reading; looked at: agrees" in plainly(out)


def test_one_tyre_of_two_leaves_the_pair_open(tractor):
    status, out, _ = tractor('[[points]]\nname = "tyre pressure"\nreadings = ["1.1", ""]\ngauge = "dial"\n')
    assert status == 2
    assert "tyre pressure: 1.1; 1 of 2 read" in plainly(out)


def test_two_gauges_nobody_compared_leave_the_pair_open(tractor):
    _, out, _ = tractor('[[points]]\nname = "tyre pressure"\nreadings = ["1.1", "1.1"]\ngauges = ["dial", "pencil"]\n')
    assert "read with gauges that were not compared, and nothing says what they are good to" in plainly(out)
    assert "dial and pencil compared with anything" in plainly(out)


def test_a_reading_too_rough_for_its_limits_says_so(tractor):
    _, out, _ = tractor('[[points]]\nname = "spark plug gap"\nreadings = ["0.69 feeler"]\n')
    assert "wanted 0.6 to 0.7 mm; 0.69 feeler is good to 0.030 mm, so it may be either" in plainly(out)


def test_a_note_alone_is_no_look(tractor):
    _, out, _ = tractor('[[points]]\nname = "gearbox oil"\nnote = "dirty"\n')
    assert 'gearbox oil: nobody says what came of it; "dirty"' in plainly(out)


def test_a_look_that_differs_decides(tractor):
    status, out, _ = tractor('[[points]]\nname = "gearbox oil"\nfound = "differs"\nnote = "below the hole"\n')
    assert status == 1
    assert plainly(out).startswith(
        'Differs from the points of "Two-wheel orchard tractor" in 1 of 5: gearbox oil; 4 not looked at.'
    )


def test_json_names_every_point_with_its_verdict(tractor):
    status, out, _ = tractor(
        '[[points]]\nname = "tyre pressure"\nreadings = ["1.10", "1.15"]\ngauge = "dial"\n', "--json"
    )
    answer = json.loads(out)
    point = next(each for each in answer["points"] if each["name"] == "tyre pressure")
    assert (status, answer["verdict"], point["verdict"]) == (2, "not looked at", "agrees")
    assert point["agreement"]["difference"] == pytest.approx(-0.05)
    assert point["unit"] == "bar"


def test_a_list_of_another_machine_is_refused(ask):
    status, _, err = ask("bench-grinder", EXAMPLES / "tractor.toml")
    assert status == 3 and "the list is of orchard-tractor" in err


def test_an_unknown_machine_is_refused_with_the_nearest(ask):
    status, _, err = ask("bench-grider")
    assert status == 3 and 'did you mean "bench-grinder"?' in err


def test_gauges_that_cannot_be_read_are_said_with_their_file(tractor):
    status, _, err = tractor('gauges_compared = ["none/of-these.toml"]\n')
    assert status == 3 and "none/of-these.toml: there is no such file" in err
