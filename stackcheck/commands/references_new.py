"""`references new`: a new reference by a dialogue at the bench, or in one go from a parts list."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from stackcheck.commands.common import common_options, mistake
from stackcheck.errors import InputError, Mistake

NOTHING = "Nothing was written."


def add(actions: Any) -> None:
    making = actions.add_parser(
        "new", help="a new reference, by a dialogue or from a parts list",
        description="Ask, in the words of the bench, what sits on the shaft from the first end to the second, draw it as it grows, and write a reference with remarks. Answers may come from a pipe, one a line. With --parts, read a parts list (CSV: number, name, count, sizes) instead and ask nothing.",
    )  # fmt: skip
    making.add_argument("file", metavar="NEW.toml", type=Path, help="the new file; its name is the id, its folder the machine")
    making.add_argument("--title", default="", help="what it is")
    making.add_argument("--parts", metavar="CSV", type=Path, help="a parts list in the sequence of the stack, first end to second")
    making.add_argument("--ends", default="left,right", help="with --parts: the names of the two ends, like left,right")
    making.add_argument("--seen-from", default="", help="with --parts: how somebody knows which end is which")
    common_options(making)
    making.set_defaults(command=_new)


def _new(options: argparse.Namespace) -> int:
    from stackcheck.commands.new_reference import place_of_new, written
    from stackcheck.references.draft import assembled

    place = place_of_new(options.file)
    draft = _from_list(options) if options.parts else _asked(options)
    made, remarks = assembled(draft, place.stem)
    return written(options, place, made, remarks, ())


def _from_list(options: argparse.Namespace) -> Any:
    from stackcheck.formats.parts_list import read_parts_list
    from stackcheck.references.listed import listed_draft

    ends = tuple(end.strip().lower() for end in options.ends.split(","))
    if len(ends) != 2 or not all(ends):
        raise mistake("--ends", f'"{options.ends}" names no two ends', "write --ends left,right")
    title = options.title or options.file.stem.replace("-", " ").capitalize()
    return listed_draft(read_parts_list(options.parts, ends), title=title, ends=ends, seen_from=options.seen_from, file=options.parts.name)


def _asked(options: argparse.Namespace) -> Any:
    """Runs the dialogue over the terminal or a pipe; a pipe is told what it should have said, and where."""
    from stackcheck.present.stack_drawing import stack_drawing
    from stackcheck.references.ask import Again, Ask, Say
    from stackcheck.references.dialogue import dialogue

    person, out, number = sys.stdin.isatty(), sys.stderr if options.json else sys.stdout, 0
    talk = dialogue(options.title, stack_drawing)
    step = next(talk)
    while True:
        answer = ""
        if isinstance(step, Say):
            print(*(f"  {line}" for line in step.lines), sep="\n", file=out)
        elif isinstance(step, Again):
            if not person:
                where = Mistake(file="the answers", line=number, what=f"an answer cannot be used: {step.why}", wanted="put the answer right")
                raise InputError([where], consequence=NOTHING)
            print(f"  {step.why}", file=out)
        elif isinstance(step, Ask):
            print(_question(step), end=" > ", flush=True, file=out)
            line = sys.stdin.readline()
            number += 1
            if person and not line:
                raise InputError([Mistake(file="the dialogue", what="it was stopped", wanted="begin again")], consequence=NOTHING)
            answer = line.strip()
            if not person:
                print(answer, file=out)
        try:
            step = talk.send(answer)
        except StopIteration as done:
            return done.value


def _question(step: Any) -> str:
    """The question with its numbered answers and what an empty answer means, all on one line where it fits."""
    choices = [f"{number} {choice}" for number, choice in enumerate(step.choices, 1)]
    choices += [f"0 {step.none}"] if step.none else []
    empty = f" (Enter: {step.empty})" if step.empty else ""
    return " ".join(filter(None, (step.text, "  ".join(choices)))) + empty
