"""`references show`: what the reference says beside its stacks can be read without opening the file."""

from __future__ import annotations

from stackcheck.cli import main


def shown(capsys, monkeypatch, reference: str) -> str:
    monkeypatch.setenv("COLUMNS", "200")
    assert main(["references", "show", reference, "--library", "reference_assemblies"]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_a_joint_is_shown_with_torque_thread_condition_what_it_clamps_and_its_lock(capsys, monkeypatch):
    out = shown(capsys, monkeypatch, "rear-hub")
    joint = out[out.index("JOINTS") :]
    for word in ("clamps", "30 N·m", "M20x1.5", "greased", "locked by split pin"):
        assert word in joint


def test_bores_and_outsides_are_shown(capsys, monkeypatch):
    out = shown(capsys, monkeypatch, "rear-hub")
    assert "SIZES ACROSS" in out and "outside diameter" in out


def test_what_must_be_measured_and_who_gives_a_limit_are_shown(capsys, monkeypatch):
    out = shown(capsys, monkeypatch, "front-hub")
    assert "MUST BE MEASURED" in out and "LIMITS" in out and "common practice, no source" in out[out.index("LIMITS") :]
