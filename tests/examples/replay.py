"""Replays a job from a script of steps in an empty folder: what was typed and what the tool answered.

    python -m tests.examples.replay examples/full-job/steps.txt > examples/full-job/shown.txt

"@ TIME" sets the clock, "$ COMMAND" runs a command of stackcheck, "< TEXT" lines below it are its standard input;
EXAMPLES stands for the folder of examples.
"""

from __future__ import annotations

import contextlib
import io
import os
import shlex
import sys
import tempfile
from pathlib import Path

from stackcheck.cli import main
from stackcheck.commands.jobs import JOBS_VARIABLE
from stackcheck.job.folder import CLOCK_VARIABLE

ROOT = Path(__file__).parents[2]


def steps(text: str) -> list[tuple[str, list[str]]]:
    """(line, lines typed below it) of every command and clock line."""
    told: list[tuple[str, list[str]]] = []
    for line in text.splitlines():
        if line.startswith("<"):
            told[-1][1].append(line[2:])
        elif line.startswith(("@", "$")):
            told.append((line, []))
    return told


def replay(text: str, folder: Path) -> str:
    """Run all steps in a folder; returns what a terminal would show, each command with its answer and exit status."""
    shown = []
    before, here = dict(os.environ), Path.cwd()
    os.environ["STACKCHECK_LIBRARY"] = str(ROOT / "reference_assemblies")
    os.environ.pop(JOBS_VARIABLE, None)
    os.chdir(folder)
    try:
        for line, typed in steps(text):
            if line.startswith("@"):
                os.environ[CLOCK_VARIABLE] = line[2:]
                shown.append(f"\n=== {line[2:12]}, {line[13:18]} ===\n")
                continue
            out, errors, status = _run(
                [word.replace("EXAMPLES", str(ROOT / "examples")) for word in shlex.split(line[2:])], typed
            )
            shown.append(f"$ stackcheck {line[2:]}\n{out}{errors}[exit status {status}]\n")
    finally:
        os.chdir(here)
        os.environ.clear()
        os.environ.update(before)
    return "\n".join(shown).lstrip("\n")


def _run(arguments: list[str], typed: list[str]) -> tuple[str, str, int]:
    out, errors, stdin = io.StringIO(), io.StringIO(), sys.stdin
    sys.stdin = io.StringIO("".join(f"{line}\n" for line in typed))
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(errors):
            status = main(arguments)
    finally:
        sys.stdin = stdin
    return out.getvalue(), errors.getvalue(), status


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        sys.stdout.write(replay(Path(sys.argv[1]).read_text(encoding="utf-8"), Path(folder)))
