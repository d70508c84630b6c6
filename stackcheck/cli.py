"""The command line: read, ask the engines, present, answer with an exit status.

0 agrees or done, 1 differs, 2 cannot tell or not looked at, 3 could not run. Heavy modules are imported by the command
that needs them, so that `--help` and a short comparison start quickly.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from functools import cache
from importlib import import_module
from types import SimpleNamespace
from typing import NoReturn

from stackcheck import __version__
from stackcheck.aside import Aside
from stackcheck.commands.common import COULD_NOT_RUN, DONE
from stackcheck.errors import InputError

# Our help is in English alone: a translation of every word of argparse would be looked for on the disk.
_ENGLISH = SimpleNamespace(gettext=lambda text: text, ngettext=lambda one, more, count: one if count == 1 else more)
with Aside({"gettext": _ENGLISH}):
    import argparse

COMMANDS = (
    "compare", "draw", "stack", "choose", "stray", "find", "gauges", "points", "references", "job", "record",
    "putting_right", "sheet", "report", "serve",
)  # fmt: skip
"""The modules of `stackcheck.commands`, in the sequence of the help."""
ALONE = {"find": "find", "explain": "stray", "compare": "compare"}
"""Commands whose module is all that is loaded for them: all modules take longer than a look-up."""
HINTS = {
    "expected one argument": 'A value that begins with a minus stands behind "=": --temperature="-20..60 °C"',
    "unrecognized arguments: --library": "This command takes no library: a job has its reference in its own folder.",
}
"""What mends a slip whose message does not say it."""


def run() -> NoReturn:
    """The console command."""
    # This process is ours: no plugin of somebody else's is looked for, which also takes a tenth of the start.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without a sign shows a mark in its place
    try:
        status = main(sys.argv[1:])
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader of the pipe has seen enough (head, less); Python would complain again while closing.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = DONE
    except OSError as problem:
        print(f"stackcheck: the answer cannot be written ({problem.strerror})", file=sys.stderr)
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = COULD_NOT_RUN
    except KeyboardInterrupt:
        status = COULD_NOT_RUN
    gc.freeze()  # what ends here need not be searched for garbage once more
    sys.exit(status)


def main(arguments: Sequence[str]) -> int:
    """Run one command; returns the exit status and prints nothing but its answer."""
    try:
        options = _parser(*(name for name in arguments[:1] if name in ALONE)).parse_args(arguments)
        return options.command(options)
    except InputError as problem:
        print(problem, file=sys.stderr)
        return COULD_NOT_RUN
    except _UsageError as problem:
        print(problem, file=sys.stderr)
        return COULD_NOT_RUN


class _UsageError(Exception):
    pass


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        hints = "".join(f"{hint}\n" for words, hint in HINTS.items() if words in message)
        raise _UsageError(f"{self.prog}: {message}\n{hints}Try: {self.prog} --help")

    def _get_formatter(self) -> argparse.HelpFormatter:
        # argparse asks for one at every option, and would load `shutil` for the width: archives, thread pools and all.
        return self.formatter_class(prog=self.prog, width=_columns() - 2)


def _columns() -> int:
    """The columns of the terminal, 80 where there is none."""
    if (said := os.environ.get("COLUMNS", "")).isdecimal() and int(said):
        return int(said)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or 80
    except (AttributeError, ValueError, OSError):
        return 80


@cache
def _parser(alone: str = "") -> argparse.ArgumentParser:
    """The whole parser, or one of the named command alone."""
    parser = _Parser(
        prog="stackcheck",
        description="Compare the parts that came off a shaft or axle with the assembly they should make.",
        epilog="Exit status: 0 agrees or done, 1 differs, 2 cannot tell or not looked at, 3 could not run.",
    )
    parser.add_argument("--version", action="version", version=f"stackcheck {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for module in (ALONE[alone],) if alone else COMMANDS:
        import_module(f"stackcheck.commands.{module}").add(commands)
    return parser
