"""A size that is recorded warm in a job counts at 20 °C there too."""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.cli import main

ROOT = Path(__file__).parents[2]


@pytest.fixture
def tell(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)

    def run(*words: str) -> tuple[int, str, str]:
        status = main([*words, "--jobs", str(tmp_path)])
        return status, *capsys.readouterr()

    with pytest.MonkeyPatch.context() as nobody:
        nobody.setattr("sys.stdin", (ROOT / "LICENSE").open())
        run("teardown", "front-hub")
    return run


def test_a_line_at_the_bench_says_how_warm_the_part_was(tell):
    status, out, _ = tell("off", "left", "short collar 18.02 mic at 60 °C, instrument 22 °C")
    assert status == 0 and "18.02 mm (0.709 in) long by micrometer at 60 °C, instrument 22 °C" in " ".join(out.split())


def test_a_gap_is_taken_as_it_was_read(tell):
    status, _, err = tell("measure", "free gap", "3.0..3.5 feeler at 60 °C")
    assert status == 3 and "a gap is not brought to 20 °C" in " ".join(err.split())
