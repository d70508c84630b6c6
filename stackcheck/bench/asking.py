"""A dialogue of `references.ask` with somebody: every answer kept, any of them taken back, broken off and gone on with.

A dialogue is a generator that asks the same questions for the same answers. So what was said so far is enough to bring
it back to where it stood: after a broken-off terminal, and one answer less far where somebody takes an answer back.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any

from stackcheck.bench.line_editor import HELD, line_editor
from stackcheck.bench.terminal import STOP
from stackcheck.errors import InputError, Mistake
from stackcheck.formats.answers_file import Answers
from stackcheck.references.ask import Again, Ask, Dialogue, Say, Step

UNDO = "-"
NOTHING = "Nothing was written."

Put = Callable[[Ask, str], str]
"""Puts a question, with what stands in the line already, and returns what was typed."""
Show = Callable[[str], None]


class Stopped(Exception):
    """Somebody left the dialogue; what was said is kept."""


def held(begin: Callable[[], Dialogue[Any]], put: Put, show: Show, answers: Answers, refused: Show) -> Any:
    """Hold the dialogue from where the answers lead to its end; returns what it makes.

    Args:
        begin: makes the dialogue anew.
        put: asks for an answer; "-" takes the last one back, wherever the dialogue itself has no use for it.
        show: puts a line on the screen.
        answers: what was said already; what is said is added to it.
        refused: is told why an answer cannot be used, before it is asked again.
    Raises:
        Stopped: somebody left.
    """
    while True:
        talk, step = _brought_back(begin, answers, show)
        try:
            _goes_on(talk, step, put, show, answers, refused)
        except StopIteration as done:
            return done.value


def _brought_back(begin: Callable[[], Dialogue[Any]], answers: Answers, show: Show) -> tuple[Dialogue[Any], Step]:
    """The dialogue at the first question that has no answer; where every one has, the last of them is taken back."""
    while True:
        talk = begin()
        try:
            step, lines = _replayed(talk, answers)
        except StopIteration:
            answers.take_back()
            continue
        for line in lines:
            show(line)
        return talk, step


def _replayed(talk: Dialogue[Any], answers: Answers) -> tuple[Step, tuple[str, ...]]:
    """The question that comes after all answers, and what was shown last before it."""
    step, lines, at = next(talk), (), 0
    while at < len(answers.said) or not isinstance(step, Ask):
        if isinstance(step, Ask):
            question, answer = answers.said[at]
            if question != step.text:  # no longer asked so: nothing that was said from here on answers a question
                while len(answers.said) > at:
                    answers.take_back()
                continue
            step, at = talk.send(answer), at + 1
        else:
            lines = step.lines if isinstance(step, Say) else lines
            step = next(talk)
    return step, lines


def _goes_on(talk: Dialogue[Any], step: Step, put: Put, show: Show, answers: Answers, refused: Show) -> None:
    """Ask on until an answer is taken back. Raises StopIteration with what the dialogue made."""
    begin = ""
    while True:
        if isinstance(step, Ask):
            answer = put(step, begin).strip()
            begin = ""
            if answer == STOP:
                raise Stopped
            if answer == UNDO and not step.takes_back:
                if answers.said:
                    answers.take_back()
                return
            answers.add(step.text, answer)
            step = talk.send(answer)
        elif isinstance(step, Again):
            begin = answers.refuse()
            refused(step.why)
            step = next(talk)
        else:
            for line in step.lines:
                show(line)
            step = next(talk)


def question_words(step: Ask) -> str:
    """The question with its numbered answers, each held together, and what an empty answer means."""
    choices = [f"{number} {choice}" for number, choice in enumerate(step.choices, 1)]
    choices += [f"0 {step.none}"] if step.none else []
    empty = f"(Enter: {step.empty})" if step.empty else "(Enter: 0)" if step.none else ""
    several = "several: 1 2, then Enter" if step.many and len(step.choices) > 1 else ""
    behind = (empty, f"({several})" if several else "")
    return " ".join(
        filter(
            None,
            (
                step.text,
                "  ".join(choice.replace(" ", HELD) for choice in choices),
                *(each.replace(" ", HELD) for each in behind),
                ">",
            ),
        )
    )


def at_terminal(*, on_stderr: bool) -> Put:
    """Answers from a person, who may also leave by Ctrl-C or by closing the terminal."""
    edit = line_editor(on_stderr=on_stderr)

    def put(step: Ask, begin: str) -> str:
        digits = len(step.choices) + 1 if step.choices and step.at_once else 0
        try:
            return edit(question_words(step), words=(*step.words, *step.choices), at_once=digits, begin=begin)
        except (EOFError, KeyboardInterrupt):
            return STOP

    return put


class Piped:
    """Answers from the lines of the standard input;
    one that cannot be used ends it, as the next would be taken for it.
    """

    def __init__(self, show: Show):
        self.show, self.number = show, 0

    def put(self, step: Ask, begin: str) -> str:
        line = sys.stdin.readline()
        self.number += 1
        self.show(f"{question_words(step)} {line.strip()}".rstrip().replace(HELD, " "))
        return line

    def refused(self, why: str) -> None:
        where = Mistake(
            file="the answers", line=self.number, what=f"an answer cannot be used: {why}", wanted="put the answer right"
        )
        raise InputError([where], consequence=NOTHING)
