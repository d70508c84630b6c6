"""`references new`: a new reference by a dialogue at the bench, or in one go from a parts list."""

from __future__ import annotations

import argparse
import shutil
import sys
import textwrap
from pathlib import Path
from typing import Any

from stackcheck.commands.common import COULD_NOT_RUN, common_options, mistake
from stackcheck.commands.new_reference import NOTHING, folder_made, place_of_new, written
from stackcheck.errors import InputError, Mistake
from stackcheck.present.names import counted

ANSWERS = ".answers"
LONGEST = 200
"""No line of a pipe is broken short of this."""
KEYS = (
    "Enter what is offered · 0 not known · - take the last answer back · Tab suggests, the arrows bring lines back · "
    "Ctrl-U empties the line · / stop here"
)


def add(actions: Any) -> None:
    making = actions.add_parser(
        "new",
        help="a new reference, by a dialogue or from a parts list",
        description="Ask, in the words of the bench, what sits on the shaft from the first end to the second, draw "
        "it as it grows, and write a reference with remarks. At a terminal every answer is kept beside the new file "
        "before the next question, and a dialogue broken off goes on where it was. Answers may come from a pipe, one "
        "a line. With --parts, read a parts list (CSV: number, name, count, sizes) instead and ask nothing.",
    )
    making.add_argument(
        "file", metavar="NEW.toml", type=Path, help="the new file; its name is the id, its folder the machine"
    )
    making.add_argument("--title", default="", help="what it is")
    making.add_argument(
        "--parts", metavar="CSV", type=Path, help="a parts list in the sequence of the stack, first end to second"
    )
    making.add_argument("--ends", default="left,right", help="with --parts: the names of the two ends, like left,right")
    making.add_argument("--seen-from", default="", help="with --parts: how somebody knows which end is which")
    common_options(making)
    making.set_defaults(command=_new)


def _new(options: argparse.Namespace) -> int:
    from stackcheck.references.draft import assembled

    place = place_of_new(options.file)
    draft = _from_list(options) if options.parts else _asked(options, place)
    if draft is None:
        return COULD_NOT_RUN
    made, remarks = assembled(draft, place.stem)
    status = written(options, place, made, remarks, ())
    if not options.json:
        _say_what_was_not_asked(place)
    return status


def _say_what_was_not_asked(place: Path) -> None:
    from stackcheck.present.blocks import Text, show

    id = f"{place.resolve().parent.name}/{place.stem}"
    show(
        [
            Text(
                f"Not asked for: the steps of a turned part (stackcheck references edit {id} "
                "'parts.PART.sections=[{ ... }, { ... }]' --what WHY), and how warm it is put together and works ([[states]] "
                "in the file)."
            )
        ]
    )


def _from_list(options: argparse.Namespace) -> Any:
    from stackcheck.formats.parts_list import read_parts_list
    from stackcheck.references.listed import listed_draft

    ends = tuple(end.strip().lower() for end in options.ends.split(","))
    if len(ends) != 2 or not all(ends):
        raise mistake("--ends", f'"{options.ends}" names no two ends', "write --ends left,right")
    title = options.title or options.file.stem.replace("-", " ").capitalize()
    return listed_draft(
        read_parts_list(options.parts, ends),
        title=title,
        ends=ends,
        seen_from=options.seen_from,
        file=options.parts.name,
    )


def _asked(options: argparse.Namespace, place: Path) -> Any:
    """Holds the dialogue at the terminal, where its answers are kept beside the new file, or over a pipe;
    None where a person left.
    """
    from stackcheck.bench import asking
    from stackcheck.formats.answers_file import Answers
    from stackcheck.present.stack_drawing import stack_drawing
    from stackcheck.references.dialogue import TITLE, dialogue

    person, out = sys.stdin.isatty(), sys.stderr if options.json else sys.stdout

    def show(line: str) -> None:
        width = shutil.get_terminal_size((80, 24)).columns if person else LONGEST
        print(
            textwrap.fill(
                line, width, initial_indent="  ", subsequent_indent="    ", drop_whitespace=True, break_on_hyphens=False
            ),
            file=out,
            flush=True,
        )

    if person:
        folder_made(place)
    answers = Answers(place.with_suffix(ANSWERS) if person else None)
    if answers.said:
        show(
            f"{counted(len(answers.said), 'answer')} kept in {answers.path}: going on behind them. "
            "To begin anew, remove that file."
        )
    elif options.title:
        answers.add(TITLE, options.title)
    last = f"Enter: {place} is written" if person else ""
    pipe = asking.Piped(lambda line: print(line, file=out))
    put, refused = (asking.at_terminal(on_stderr=options.json), show) if person else (pipe.put, pipe.refused)
    if person:
        show(KEYS)
    try:
        return asking.held(lambda: dialogue(stack_drawing, last=last), put, show, answers, refused)
    except asking.Stopped:
        if not person:
            raise InputError(
                [Mistake(file="the answers", what="they stop before the end", wanted="answer every question")],
                consequence=NOTHING,
            ) from None
        show(
            f"Stopped, {counted(len(answers.said), 'answer')} kept in {answers.path}. {NOTHING} Go on: "
            f"stackcheck references new {place}"
        )
        return None
