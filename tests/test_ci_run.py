"""What `.ci/run` does where Chromium is missing: tried in a folder of its own, with an apt-get that only notes what it was asked."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
TOOLS = ("bash", "env", "dirname", "awk", "test", "echo")


@pytest.fixture
def run(tmp_path):
    """Runs a copy with these programs and no others on the path; returns its status, its output and what apt-get was asked."""

    def run(*, chromium=False, root=True, apt="exit 0", command="echo the tests ran"):
        programs, asked = tmp_path / "programs", tmp_path / "asked"
        programs.mkdir()
        for tool in TOOLS:
            (programs / tool).symlink_to(shutil.which(tool))
        stub(programs / "id", f"echo {0 if root else 1000}")
        stub(programs / "apt-get", f'echo "$@" >> {asked}; {apt}')
        if chromium:
            stub(programs / "chromium", "exit 0")
        (tmp_path / ".ci").mkdir()
        shutil.copy(ROOT / ".ci/run", tmp_path / ".ci/run")
        (tmp_path / "README.md").write_text(f"words\n\n```sh tests\n{command}\n```\nmore\n```sh\necho not this\n```\n")
        done = subprocess.run(
            [programs / "bash", tmp_path / ".ci/run"],
            env={"PATH": str(programs)},
            capture_output=True,
            text=True,
            check=False,
        )
        return done.returncode, done.stdout + done.stderr, asked.read_text().splitlines() if asked.exists() else []

    return run


def stub(path, line):
    path.write_text(f"#!{shutil.which('bash')}\n{line}\n")
    path.chmod(0o755)


def test_a_chromium_that_is_there_is_left_alone(run):
    assert run(chromium=True) == (0, "echo the tests ran\nthe tests ran\n", [])


def test_one_that_is_missing_is_installed_without_a_question(run):
    status, told, asked = run()
    assert (
        status == 0
        and told.endswith("the tests ran\n")
        and [line.split()[0] for line in asked] == ["update", "install"]
    )
    assert asked[1].split()[-1] == "chromium" and "-qy" in asked[1]


def test_who_may_not_install_does_not_try(run):
    assert run(root=False) == (0, "echo the tests ran\nthe tests ran\n", [])


@pytest.mark.parametrize("apt", ["exit 100", '[ "$1" = update ]'])
def test_where_it_cannot_be_installed_that_is_said_and_the_tests_run(run, apt):
    status, told, asked = run(apt=apt)
    assert status == 0 and "Chromium could not be installed" in told and "\nthe tests ran\n" in told and asked


def test_tests_that_fail_are_not_hidden_by_anything_before_or_after(run):
    assert run(command="false\necho after")[0] == 1


def test_a_readme_without_its_test_command_is_no_success(run):
    assert run(command="")[0] != 0
