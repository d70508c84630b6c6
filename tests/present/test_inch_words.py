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
    assert "allowed 0.025 to 0.127 (0.001 to 0.005 in)" in said(
        capsys, monkeypatch, "boat-trailer/hub", "--only", "end float"
    )


def test_a_measured_end_float_stands_in_inch_too(capsys, monkeypatch):
    words = said(
        capsys,
        monkeypatch,
        "boat-trailer/hub",
        "--found",
        "examples/05-trailer-hub-inch-and-mm.toml",
        "--only",
        "end float",
    )
    assert (
        "end float as found: gap 0.18 to 0.22 (0.0071 to 0.0087 in) measured; allowed 0.025 to 0.127 (0.001 to 0.005 in): differs"
        in words
    )


def test_every_length_as_found_stands_in_inch_beside_that_of_the_reference(capsys, monkeypatch):
    """Who reads an inch micrometer finds each reading and each limit as he reads it, the total and the change too."""
    words = said(
        capsys,
        monkeypatch,
        "boat-trailer/hub",
        "--found",
        "examples/05-trailer-hub-inch-and-mm.toml",
        "--only",
        "spindle stack",
    )
    assert "inboard bearing 17.526 17.323..17.729 reference 17.526 17.323..17.729" in words
    assert "inboard bearing 0.690 0.682..0.698 reference 0.690 0.682..0.698" in words
    assert "total 2.551 2.517..2.585 2.550 2.517..2.583" in words
    assert "As found 0.025 (0.001 in) longer than the reference." in words


def test_a_reference_in_mm_says_nothing_in_inch(capsys, monkeypatch):
    assert "inch" not in said(capsys, monkeypatch, "front-hub", "--only", "axle stack")
