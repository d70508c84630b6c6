"""A part that lies across its neighbour: whichever of the two was written down first, the list agrees."""

from __future__ import annotations

import io
import json

import pytest

from stackcheck.cli import main

HEAD = ["left", "right", "the crank", "", "5", ""]
NUT = "castellated nut M16x1.5 14.8 ±0.2 high"
WINCH = ["ring 30x20x5.00 ±0.05", "1", "bracket 8.0 ±0.2", "collar 36x20x15.0 ±0.1", "0", "", "", "", "", "", "", "0"]
PIN_AFTER = [*HEAD, NUT, "1", "2", "2", "1", "split pin 4x32", *WINCH]
PIN_BEFORE = [*HEAD, "split pin 4x32", NUT, "1", "2", "2", "1", *WINCH]
CSV = (
    "name,sizes\ncastellated nut,14.8 ±0.2\nsplit pin 4x32,\nring,30x20x5.00 ±0.05\nbracket,8.0 ±0.2\n"
    "collar,36x20x15.0 ±0.1\n"
)


def written(tmp_path, monkeypatch, answers: list[str]) -> str:
    (tmp_path / "winch").mkdir()
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(answers) + "\n"))
    assert main(["references", "new", str(tmp_path / "winch" / "drum.toml"), "--title", "Drum shaft"]) == 0
    return (tmp_path / "winch" / "drum.toml").read_text()


def listed(tmp_path, capsys) -> str:
    (tmp_path / "winch").mkdir()
    (tmp_path / "parts.csv").write_text(CSV)
    assert (
        main(["references", "new", str(tmp_path / "winch" / "drum.toml"), "--parts", str(tmp_path / "parts.csv")]) == 0
    )
    return (tmp_path / "winch" / "drum.toml").read_text()


def compared(tmp_path, capsys, sequence: list[str]) -> dict:
    toward = {"castellated nut": 'toward = "left"\n'}
    offs = "".join(f'[[off]]\nend = "left"\nwhat = "{what}"\n{toward.get(what, "")}\n' for what in sequence)
    found = tmp_path / "found.toml"
    found.write_text(
        f'kind = "as found"\nformat = 1\nreference = "winch/drum"\nrevision = "A"\nfinished = true\n\n{offs}'
    )
    capsys.readouterr()
    main(["compare", str(found), "--library", str(tmp_path), "--json"])
    return json.loads(capsys.readouterr().out)


BOTH = pytest.mark.parametrize("first", [["split pin", "castellated nut"], ["castellated nut", "split pin"]])


@BOTH
@pytest.mark.parametrize("answers", [PIN_AFTER, PIN_BEFORE], ids=["named after its nut", "named before its nut"])
def test_a_pin_written_down_before_or_after_its_nut_agrees(answers, first, tmp_path, monkeypatch, capsys):
    written(tmp_path, monkeypatch, answers)
    assert compared(tmp_path, capsys, [*first, "ring", "collar"])["findings"] == []


@BOTH
def test_a_pin_of_a_parts_list_agrees_before_or_after_its_nut(first, tmp_path, capsys):
    listed(tmp_path, capsys)
    assert compared(tmp_path, capsys, [*first, "ring", "collar"])["findings"] == []


def test_no_stack_is_longer_by_a_pin(tmp_path, monkeypatch, capsys):
    written(tmp_path, monkeypatch, PIN_AFTER)
    result = compared(tmp_path, capsys, ["split pin", "castellated nut", "collar", "ring"])
    assert [finding["kind"] for finding in result["findings"]] and "longer" not in json.dumps(result["findings"])
