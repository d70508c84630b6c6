"""A reference that is written in inch is answered in inch beside mm; one in mm is not."""

from pathlib import Path

from stackcheck.cli import main

ROOT = Path(__file__).parents[2]


def said(capsys, monkeypatch, *words: str) -> str:
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
    main(["stack", *words])
    return " ".join(capsys.readouterr().out.split())


def test_limits_of_an_inch_reference_stand_in_inch_too(capsys, monkeypatch):
    """1 to 5 thou, 0.025 to 0.127 mm."""
    assert "in inch: allowed 0.0010 to 0.0050" in said(capsys, monkeypatch, "boat-trailer/hub", "--only", "end float")


def test_a_measured_end_float_stands_in_inch_too(capsys, monkeypatch):
    words = said(capsys, monkeypatch, "boat-trailer/hub", "--found", "examples/05-trailer-hub-inch-and-mm.toml", "--only", "end float")
    assert "in inch: measured" in words and "allowed 0.0010 to 0.0050" in words


def test_a_reference_in_mm_says_nothing_in_inch(capsys, monkeypatch):
    assert "inch" not in said(capsys, monkeypatch, "front-hub", "--only", "axle stack")
