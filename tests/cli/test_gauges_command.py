"""`gauges` on the shipped examples: what somebody at the bench reads, and the exit status."""

import json
import re
from pathlib import Path

import pytest

from stackcheck.cli import main
from tests.avoided_words import AVOIDED

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples/gauges").glob("*.toml"))


@pytest.fixture
def ask(capsys):
    def run(name: str, *words: str) -> tuple[int, str]:
        status = main(["gauges", str(ROOT / "examples/gauges" / f"{name}.toml"), *words])
        return status, capsys.readouterr().out

    return run


def plainly(text: str) -> str:
    return " ".join(text.split())


def test_the_odd_one_out_is_in_the_first_sentence(ask):
    status, out = ask("three-callipers")
    assert status == 1
    assert "the odd one out is calliper 3: it reads 0.053 mm more (good to 0.008)" in plainly(out)


@pytest.mark.parametrize("name", ["three-callipers", "tyre-gauges"])
def test_compared_is_never_called_calibrated(ask, name):
    _, out = ask(name)
    first = plainly(out.partition("Read on:")[0])
    assert first.endswith("Compared with each other on one source; none with a calibrated standard.")
    assert len(re.findall("calibrat", out)) == 1


def test_a_known_size_is_named_with_where_it_is_known_from(ask):
    status, out = ask("micrometer-on-a-known-block")
    assert status == 0
    assert "known to be 20.0003 mm ±0.0003 (size given with the set in 2024)" in plainly(out)
    assert "take off 0.0047 mm" in out
    assert "calibrat" not in out


def test_a_source_that_moved_is_said(ask):
    status, out = ask("tyre-gauges")
    assert status == 2
    assert "foot pump, read again at the end of a round, shows 0.060 less on average" in plainly(out)


@pytest.mark.parametrize("name", [file.stem for file in EXAMPLES])
def test_the_page_holds_every_reading_as_typed_and_no_word_that_assures(ask, name):
    _, out = ask(name)
    typed = re.findall(r'"(\d+\.\d+)"', (ROOT / "examples/gauges" / f"{name}.toml").read_text())
    assert typed and all(text in out for text in typed)
    assert not AVOIDED.search(out)
    assert "NOT VERIFIED" in out
    assert max(map(len, out.splitlines())) <= 80


def test_json_speaks_in_the_unit_of_the_file(ask):
    _, out = ask("tyre-gauges", "--json")
    answer = json.loads(out)
    assert (answer["unit"], answer["agree_within"], answer["verdict"]) == ("bar", 0.1, "cannot tell")
    assert answer["gauges"][1]["correction"] is None
    assert answer["drift"] == pytest.approx(-0.06)


def test_a_file_with_mistakes_is_refused_with_its_lines(capsys):
    assert main(["gauges", str(ROOT / "tests/bad_files/gauges-unit.toml")]) == 3
    assert "gauges-unit.toml:4" in capsys.readouterr().err


def test_readings_below_nothing_are_read(capsys, tmp_path):
    path = tmp_path / "cold.toml"
    path.write_text(
        'kind = "gauges"\nformat = 1\nsource = "ice and water"\nunit = "°C"\nagree_within = "1"\n'
        '[[gauges]]\nname = "probe"\n[[gauges]]\nname = "glass"\n[[rounds]]\nread = ["-0.4", "0.1"]\n[[rounds]]\n'
        'read = ["-0.5", "0.1"]\n'
    )
    assert main(["gauges", str(path), "--json"]) in (0, 2)
    assert json.loads(capsys.readouterr().out)["pairs"][0]["difference"] == pytest.approx(-0.55)
