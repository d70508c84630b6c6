"""The teardown dialogue on a terminal, or from lines that are piped in.

Asks `questions.next_question`, hands the answer to `answers.answer`, and puts its events on disk before the next
question. On a real terminal a digit answers a numbered question at once and lines can be edited, completed and called
back; from a pipe every line is one answer, and the end of the input stops the job where it is.
"""

from __future__ import annotations

import shutil
import sys
import textwrap
from collections.abc import Callable

from stackcheck.bench.answers import answer, choices_words, said_again
from stackcheck.bench.line_editor import line_editor
from stackcheck.bench.questions import Choice, Question, next_question
from stackcheck.bench.second_look import comparison_words, next_second_look, record_second
from stackcheck.bench.step import Step
from stackcheck.job.events import Stopped
from stackcheck.job.folder import JobFolder
from stackcheck.present.event_words import entry_sentence
from stackcheck.value import replace

KEYS = (
    "Enter yes · 1 not there · 2 stuck to the next · 0 not seen · "
    "* something else · - undo · + photo card · / stop here"
)
STOP = "/"

Ask = Callable[[Question], str]
Show = Callable[[str], None]


def teardown(folder: JobFolder, ask: Ask, show: Show, *, by: str = "", call: bool = False) -> bool:
    """Carry the dialogue on until nothing is left to ask or somebody stops; True where nothing is left.

    Args:
        folder: the open job.
        ask: puts a question and returns what was typed.
        show: puts a line on the screen.
        by: initials for every event.
        call: before the next part, show each entry as a sentence to be read back to whoever calls.
    Raises:
        InputError: an answer could not be put on disk; everything before it is there.
    """
    read_back = len(folder.job.offs)
    while True:
        folder.refresh()
        question = next_question(folder.job)
        if call and len(folder.job.offs) > read_back and (question is None or question.kind == "part"):
            read_back = len(folder.job.offs)
            show(f"  Read back: {entry_sentence(folder.job, read_back)}")
        if question is None:
            return True
        step = _step(folder, question, ask, show)
        if step.again:
            show(f"  {step.again}")
            continue
        events = tuple(replace(event, by=by) for event in step.events) if by else step.events
        folder.record(*events)
        for said in step.said:
            show(f"  {said}")
        if any(isinstance(event, Stopped) for event in events):
            return False


def second_look(folder: JobFolder, ask: Ask, show: Show, *, by: str) -> None:
    """Ask one person for every direction that they have not given yet, then show where the looks differ."""
    while (question := next_second_look(folder.job, by)) is not None:
        step = _step(folder, question, ask, show)
        if step.again:
            show(f"  {step.again}")
            continue
        if any(isinstance(event, Stopped) for event in record_second(folder, question, step, by=by)):
            return
    for words in comparison_words(folder.job, by):
        show(words)


def _step(folder: JobFolder, question: Question, ask: Ask, show: Show) -> Step:
    """The step that an answer leads to, after what had to be asked about the answer itself."""
    text = ask(question)
    step = answer(folder.job, question, text)
    while step.ask is not None:
        asked = Question(
            key=f"about:{step.ask.about}",
            kind="choice",
            text=step.ask.text,
            choices=tuple(Choice(*each) for each in step.ask.choices),
            zero="leave it out",
        )
        chosen = ask(asked).strip()
        if chosen in ("0", "-", STOP, ""):
            return (
                Step(again="Say it again without it, or another way.")
                if chosen != STOP
                else answer(folder.job, question, STOP)
            )
        if not (chosen.isdecimal() and 1 <= int(chosen) <= len(step.ask.choices)):
            show(f"  Say {choices_words(asked)}.")
            continue
        line = step.ask.choices[int(chosen) - 1][1]
        step = said_again(folder.job, question, line, text)
    return step


def prompt_of(question: Question) -> str:
    """ "Left 3. Left collar? > ", "  Flange toward: 1 left leg 2 bearing 0 not seen > "."""
    where = f"{question.where} " if question.where else "  "
    if question.kind == "part":
        return f"{where}{question.text} > "
    if question.kind == "words" and not question.choices:
        return f"{where}{question.text} (0 {question.zero}) > "
    if not question.choices:
        return f"{where}{question.text}, 0 {question.zero} > "
    return f"{where}{question.text}: {choices_words(question)} > "


def piped(show: Show) -> Ask:
    """Answers from the lines of the standard input, shown as they would stand on a screen; the end of them stops."""

    def ask(question: Question) -> str:
        line = sys.stdin.readline()
        show(f"{prompt_of(question)}{line.rstrip()}" if line else f"{prompt_of(question)}{STOP}")
        return line.rstrip("\n") if line else STOP

    return ask


def at_terminal(names: list[str]) -> Ask:
    """Answers from a person: digits answer numbered questions at once, Tab completes names,
    the arrow brings lines back.
    """
    edit = line_editor()

    def ask(question: Question) -> str:
        try:
            return edit(
                prompt_of(question), words=names, at_once=len(question.choices) + 1 if question.kind == "choice" else 0
            )
        except (EOFError, KeyboardInterrupt):
            return STOP

    return ask


def show_line(text: str) -> None:
    """One line, broken where the screen ends, what hangs over set in."""
    width = shutil.get_terminal_size((80, 24)).columns
    indent = " " * (len(text) - len(text.lstrip()))
    print(
        textwrap.fill(
            text.strip(), width, initial_indent=indent, subsequent_indent=f"{indent}  ", break_on_hyphens=False
        ),
        flush=True,
    )
