"""Questions and answers without a screen: what a dialogue yields and how it reads what comes back.

A dialogue is a generator. It yields `Ask` and gets the answer as text, or `Say` and gets nothing; who shows it and
where the answers come from (keys, a pipe, a test) it does not know.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from typing import TypeVar

from stackcheck.errors import SizeError
from stackcheck.value import Value

Answer = TypeVar("Answer")


class Ask(Value, kw_only=True):
    """One question. `choices` are shown with numbers, 1 first; `none` says what 0 means, "" where there is no 0.

    `at_once`: a digit is a whole answer, as no other answer begins with one. `takes_back`: the dialogue itself knows
    what "-" takes back. `many`: several choices may be taken. `words` are what an answer may hold, to be suggested.
    """

    text: str
    choices: tuple[str, ...] = ()
    none: str = ""
    empty: str = ""
    at_once: bool = False
    takes_back: bool = False
    many: bool = False
    words: tuple[str, ...] = ()


class Say(Value):
    """Something to show: a line, or a drawing with its lines."""

    lines: tuple[str, ...]


class Again(Value):
    """The last answer could not be used: why, and what is wanted. A pipe stops here, a person is asked again."""

    why: str


Step = Ask | Say | Again
Dialogue = Generator[Step, str, Answer]


def say(*lines: str) -> Dialogue[None]:
    yield Say(lines)


def text(question: str, *, empty: str = "", must: bool = False) -> Dialogue[str]:
    """A free answer; empty gives `empty`."""
    while True:
        answer = (yield Ask(text=question, empty=empty)).strip()
        if answer or not must or empty:
            return answer or empty
        yield Again("nothing was answered; write a word")


def choose(
    question: str, choices: Sequence[str], *, none: str = "", empty: str = "", free: bool = False, figures: bool = False
) -> Dialogue[str]:
    """One of the choices by its number or by its first letters, "" for 0; with `free` any other text as it is, which
    may begin with a figure where there are `figures`.

    `empty` is what an empty answer means; where it is "" and 0 is offered, an empty answer is 0.
    """
    while True:
        answer = (yield Ask(text=question, choices=tuple(choices), none=none, empty=empty, at_once=not figures)).strip()
        if not answer and (empty or none):
            return empty
        if answer == "0" and none:
            return ""
        if answer.isdecimal() and 1 <= int(answer) <= len(choices):
            return choices[int(answer) - 1]
        # A figure that somebody types is theirs, even where the offered one begins with it.
        met = [choice for choice in choices if answer and not figures and choice.lower().startswith(answer.lower())]
        exact = [choice for choice in choices if choice.lower() == answer.lower()]
        if len(exact or met) == 1:
            return (exact or met)[0]
        if free and answer and not answer.isdecimal():
            return answer
        yield Again(
            f'"{answer}" is none of the answers; write a number of {"0" if none else "1"} to '
            f"{len(choices)}{', or your own words' if free else ''}"
        )


def several(
    question: str, choices: Sequence[str], *, none: str, empty: Sequence[str] = ()
) -> Dialogue[tuple[str, ...]]:
    """Any of the choices by their numbers ("1 4", "1,4");
    0 is none of them, and so is an empty answer without `empty`.
    """
    offered = " ".join(str(choices.index(choice) + 1) for choice in empty)
    while True:
        answer = (
            yield Ask(text=question, choices=tuple(choices), none=none, empty=offered, many=True)
        ).strip() or offered
        said = answer.replace(",", " ").split()
        if not said or said == ["0"]:
            return ()
        if all(number.isdecimal() and 1 <= int(number) <= len(choices) for number in said):
            chosen = {int(number) for number in said}
            return tuple(choice for number, choice in enumerate(choices, 1) if number in chosen)
        more = f'numbers of 1 to {len(choices)}, like "1 {min(3, len(choices))}"' if len(choices) > 1 else "1"
        yield Again(f'"{answer}" is none of the answers; write {more}, or 0')


def readable(question: str, read: Callable[[str], Answer], *, empty: str = "") -> Dialogue[Answer | None]:
    """An answer that must be readable; an empty one gives what `empty` reads as, None without it."""
    while True:
        answer = (yield Ask(text=question, empty=empty)).strip() or empty
        if not answer:
            return None
        try:
            return read(answer)
        except SizeError as problem:
            yield Again(f'"{problem.said}" cannot be read: {problem.wanted}')
