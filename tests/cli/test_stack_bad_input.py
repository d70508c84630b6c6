"""What `stack` cannot work with: each answered by file, line and key, or by what is needed, never by a traceback."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from stackcheck.cli import main

FLEET = Path(__file__).parents[2] / "reference_assemblies" / "freight-tricycle"
TEXT = (FLEET / "front-hub.toml").read_text(encoding="utf-8")


@pytest.fixture
def stack(tmp_path, capsys):
    """`stack` of the front hub with one line of its file changed."""

    def run(line: str, instead: str, *words: str) -> tuple[int, str, str, str]:
        assert line in TEXT
        folder = tmp_path / "freight-tricycle"
        folder.mkdir()
        shutil.copy(FLEET / "machine.toml", folder)
        (folder / "front-hub.toml").write_text(TEXT.replace(line, instead, 1), encoding="utf-8")
        status = main(["stack", "front-hub", "--library", str(tmp_path), *words])
        out, err = capsys.readouterr()
        number = TEXT[: TEXT.index(line)].count("\n") + 1
        return status, " ".join(out.split()), err, f"front-hub.toml:{number}:"

    return run


STIFF, TORQUE = 'stiffness = "180 N/mm"', 'torque = "60 N·m"'


@pytest.mark.parametrize(
    ("line", "instead", "key", "said"),
    [
        (STIFF, 'stiffness = "0 N/mm"', "support 1: stiffness", "a stiffness is above 0"),
        (STIFF, 'stiffness = "-180 N/mm"', "support 1: stiffness", "below zero"),
        (STIFF, 'stiffness = "0..180 N/mm"', "support 1: stiffness", "a stiffness is above 0"),
        (TORQUE, 'torque = "60 mm"', "joint 1: torque", "mm measures length; a torque is wanted"),
        (TORQUE, 'torque = "60 N"', "joint 1: torque", "N measures force; a torque is wanted"),
        (TORQUE, 'torque = "0 N·m"', "joint 1: torque", "a torque that tightens is above 0"),
        (
            'clamps = ["leg@left", "collar-long@right"]', 'clamps = ["seal@left", "collar-long@right"]',
            'joint "axle nut"', "no stack leads from one place to the other, so its pull has no path",
        ),
    ],
)  # fmt: skip
def test_a_value_that_no_force_can_come_of_is_refused_with_its_line(stack, line, instead, key, said):
    status, out, err, where = stack(line, instead)
    assert (status, out) == (3, "")
    assert where in err and key in err and said in err and instead in err


@pytest.mark.parametrize("instead", ["", 'thread = "as on the sheet"'])
def test_without_a_thread_the_tension_cannot_be_told(stack, instead):
    status, out, _, _ = stack('thread = "M16x1.5"', instead)
    assert status == 2  # a length of the leg is not known either
    assert "axle nut, 60 N·m, thread dry: cannot tell the tension: needs the thread of the axle nut" in out


def test_colder_than_nothing_is_refused(stack):
    status, out, err, _ = stack(TORQUE, TORQUE, "--temperature", "-274 °C")
    assert (status, out) == (3, "")
    assert '--temperature: "-274 °C" is out of range' in err


def test_a_support_that_nothing_holds_is_no_support(stack):
    """Between the seal and the rest of the machine no second path runs: it would fly."""
    status, out, _, _ = stack('place = "leg@right"\n', 'place = "seal@left"\n')
    assert status == 2
    assert "cannot tell: needs a second path that stays on the machine, up to the left hub seal" in out
