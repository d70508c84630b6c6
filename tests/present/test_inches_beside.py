"""Inches beside millimetres in what is said of references: who reads an inch micrometer compares inches."""

from __future__ import annotations

import re

import pytest

from stackcheck.cli import main
from stackcheck.formats.reference_file import read_reference, write_sound_reference
from stackcheck.references.difference import difference
from tests.strategies import LIBRARY, ROOT

HUB = LIBRARY / "boat-trailer/hub.toml"


def shown(capsys, monkeypatch, *arguments: str) -> str:
    monkeypatch.chdir(ROOT)
    main(["references", *arguments])
    return " ".join(capsys.readouterr().out.split())


def test_show_gives_what_was_written_beside_the_millimetres(capsys, monkeypatch):
    out = shown(capsys, monkeypatch, "show", "boat-trailer/hub")
    assert "seal-sleeve Sleeve that 12.70 12.649..12.751 chamfer .500 in ±.002 " in out
    assert "inboard bearing on the spindle: 0.013 to 0.038 (0.0005 to 0.0015 in) (sheet H-3)" in out
    assert "seal on its sleeve: between overlap 0.381 and gap 0.381 (between overlap 0.015 and gap 0.015 in)" in out


def test_check_gives_a_gap_in_both(capsys, monkeypatch):
    assert "end float: set by the spindle nut when fitted; allowed 0.025 to 0.127 (0.001 to 0.005 in)" in shown(
        capsys, monkeypatch, "check", "boat-trailer/hub"
    )


@pytest.mark.parametrize("action", ["show", "check"])
def test_a_file_in_millimetres_gives_no_inches(action, capsys, monkeypatch):
    out = shown(capsys, monkeypatch, action, "front-hub")
    assert " in)" not in out and "as written" not in out


def test_compare_gives_the_range_in_millimetres_behind_inches(tmp_path, capsys, monkeypatch):
    path = tmp_path / "boat-trailer" / "hub.toml"
    path.parent.mkdir()
    text = HUB.read_text(encoding="utf-8")
    path.write_text(
        text.replace(".690 in", ".700 in", 1).replace('most = ".0015 in"', 'most = ".0020 in"'), encoding="utf-8"
    )
    out = shown(capsys, monkeypatch, "compare", "boat-trailer/hub", str(path))
    assert (
        "RESIZED Inboard bearing: length .690 in ±.008 (17.323..17.729 mm), now .700 in ±.008 (17.577..17.983 mm)"
        in out
    )
    assert (
        "inboard bearing on the spindle: .0005 in to .0015 in (0.013..0.038 mm), now .0005 in to .0020 in (0.013..0.051 mm)"
        in out
    )


def test_the_same_limits_in_inches_and_in_millimetres_are_no_change(tmp_path):
    path = tmp_path / "boat-trailer" / "hub.toml"
    path.parent.mkdir()
    text = HUB.read_text(encoding="utf-8")
    path.write_text(text.replace('most = ".0015 in"', 'most = "0.0381 mm"'), encoding="utf-8")
    assert difference(read_reference(HUB), read_reference(path)).changes == ()


def test_limits_of_a_pairing_are_written_back_in_their_inches(tmp_path):
    path = tmp_path / "hub.toml"
    write_sound_reference(read_reference(HUB), path)
    assert 'least = ".0005 in"' in path.read_text(encoding="utf-8")


def stacked(capsys, monkeypatch, *arguments: str) -> str:
    monkeypatch.chdir(ROOT)
    main(["stack", *arguments])
    return " ".join(capsys.readouterr().out.split())


def test_every_part_of_an_inch_reference_has_its_inches_and_the_joint_its_pound_feet(capsys, monkeypatch):
    out = stacked(capsys, monkeypatch, "boat-trailer/hub")
    assert "inboard bearing 17.526 17.323..17.729 written 0.690" in out
    assert "spindle nut, 16.27 N·m (12 lbf·ft), thread greased, while it is seated" in out
    assert "a dial under ±50 N reads 0.029 to 0.126 (0.0011 to 0.005 in)" in out


def test_a_list_measured_in_inches_has_them_beside_a_reference_in_millimetres(tmp_path, capsys, monkeypatch):
    """All read as .709 in: sums and gaps are said in inch too, an overlap in words and without a sign."""
    text = (ROOT / "examples/11-front-hub-older-collar-extra-washer.toml").read_text(encoding="utf-8")
    path = tmp_path / "inch.toml"
    path.write_text(re.sub(r'length = ".* mic"', 'length = ".709 in mic"', text), encoding="utf-8")
    out = stacked(capsys, monkeypatch, "front-hub", "--found", str(path))
    assert "total 3.3475 3.3346..3.3509 4.9606 4.9465..4.9654" in out
    assert "(overlap 1.5712 to 1.5738 in); allowed 0.00 to 0.10 (0.000 to 0.0039 in): differs" in out


def test_a_play_that_was_measured_is_not_said_to_be_set(capsys, monkeypatch):
    out = stacked(capsys, monkeypatch, "boat-trailer/hub", "--found", "examples/05-trailer-hub-inch-and-mm.toml")
    assert "as found: gap 0.18 to 0.22 (0.0071 to 0.0087 in) measured: no preload" in out
    assert "reference: 0.025 to 0.127 (0.001 to 0.005 in): no preload; a dial under ±50 N reads" in out


def test_a_list_in_millimetres_brings_no_inches(capsys, monkeypatch):
    out = stacked(capsys, monkeypatch, "front-hub", "--found", "examples/11-front-hub-older-collar-extra-washer.toml")
    assert "in inch" not in out.lower()
