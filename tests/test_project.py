"""The project's own promises: versions pinned, test command and CI the same, layout as agreed."""

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]


def _plain(name):
    return re.split(r"[<>=~!\[ ;]", name)[0].lower().replace("_", "-")


def test_every_declared_package_is_pinned():
    pinned = {_plain(line) for line in (ROOT / "constraints.txt").read_text().splitlines() if "==" in line}
    declared = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["tests"]]
    tables = [line for line in (ROOT / "tests/table-packages.txt").read_text().splitlines() if line and line[0] != "#"]
    assert {_plain(name) for name in declared + tables} <= pinned


def test_the_readme_says_in_one_block_how_to_run_the_tests():
    blocks = re.findall(r"^```sh tests\n(.*?)^```$", (ROOT / "README.md").read_text(), re.MULTILINE | re.DOTALL)
    assert len(blocks) == 1
    assert "pytest" in blocks[0]


def test_ci_takes_its_command_from_the_readme():
    script = (ROOT / ".ci/run").read_text()
    assert "README.md" in script
    assert "pip install" not in script
