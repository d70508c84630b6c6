"""`references check` at full depth on the command line: grade, weak places with their lines, exit status."""

import json

from stackcheck.cli import main
from tests.strategies import LIBRARY, ROOT

FRONT_HUB = LIBRARY / "freight-tricycle/front-hub.toml"


def answer(capsys, *arguments) -> tuple[int, str, str]:
    status = main(["references", "check", *map(str, arguments)])
    captured = capsys.readouterr()
    return status, captured.out, captured.err


def spoiled(tmp_path, was: str, now: str):
    path = tmp_path / "front-hub.toml"
    path.write_text(FRONT_HUB.read_text(encoding="utf-8").replace(was, now), encoding="utf-8")
    return path


def test_a_file_by_its_path_needs_no_library(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    status, out, _ = answer(capsys, spoiled(tmp_path, "front-hub", "front-hub"))
    assert status == 0
    assert "nothing to mend, nothing left open" in " ".join(out.split())


def test_a_weak_place_is_said_with_its_line_and_what_mends_it(tmp_path, capsys):
    path = spoiled(tmp_path, 'thread_condition = "dry"', "")
    line = 1 + path.read_text(encoding="utf-8").splitlines().index('torque = "60 N·m"')
    status, out, _ = answer(capsys, path)
    assert status == 1
    told = " ".join(out.split())
    assert (
        f"TO MEND {path}:{line}: axle nut: 60 N·m, and nothing says whether the thread is dry, oiled or greased."
        in told
    )
    assert told.endswith("1 reference sound, every loop closes; 1 place to mend.")


def test_json_holds_every_weak_place_with_file_and_line(tmp_path, capsys):
    path = spoiled(tmp_path, 'duty = ["pair: collar-short", "brake"]', "")
    status, out, _ = answer(capsys, path, "--json")
    (reference,) = json.loads(out)["references"]
    assert (status, reference["to_mend"], reference["left_open"]) == (1, 1, 0)
    (weak,) = reference["weak"]
    assert (weak["check"], weak["about"], weak["file"]) == ("pair", ["parts", "collar-long"] + ["duty"], str(path))
    assert weak["line"]


def test_a_file_with_mistakes_is_refused_and_the_others_are_told(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    path = spoiled(tmp_path, 'kind = "collar"', 'kind = "coller"')
    status, out, err = answer(capsys, path, "rear-hub")
    assert status == 3
    assert "freight-tricycle/rear-hub rev B: sound" in out
    assert 'unknown kind "coller"' in err
