"""An answer from a phone into the journal: found by the lasting name of its question, once however often it is sent.

An answer whose question is no longer open was given while somebody else answered it, or without the journal at hand:
it is kept as a note, never dropped.
"""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.bench.answers import Step, answer, said_again
from stackcheck.bench.questions import Question, all_questions, lasting_name, next_question
from stackcheck.job.events import Answered, Event, Noted, NotSeen, Off, Stopped, TakenApart
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import Job
from stackcheck.present.names import capital_first, offered_name, size_words
from stackcheck.value import Value, replace

MOST_AHEAD = 80
ONE_LINE = 24
"""A question that is longer is not said again with a way out: keys must not move for it."""


class Taken(Value, kw_only=True):
    """What became of an answer: recorded (with words), asked about, or to be said again."""

    said: tuple[str, ...] = ()
    step: Step | None = None


def take(folder: JobFolder, *, name: str, text: str, sent: str = "", by: str = "", typed: str = "") -> Taken:
    """Record one answer.

    Args:
        folder: the job.
        name: the lasting name of the question that it answers.
        text: as typed, or the line that a question about it led to.
        sent: the mark of this answer; an answer with a mark that is known does nothing.
        by: initials.
        typed: what was typed first, where `text` is what it became.
    """
    folder.refresh()
    job = folder.job
    if sent and sent in job.sent:
        return Taken(said=("Already saved.",))
    question = next((each for each in all_questions(job) if lasting_name(job, each) == name), None)
    if question is None:
        folder.record(Noted(text=f"answer to {name}, which was no longer open: {text}", sent=sent, by=by))
        return Taken(said=("That question was answered meanwhile. Yours is kept as a note.",))
    if typed:
        step = said_again(job, question, text, typed)
    else:
        step = answer(job, question, text)
    if step.ask is not None or step.again:
        return Taken(step=step)
    folder.record(*(replace(event, sent=sent, by=by) for event in step.events))
    return Taken(said=_of_what(job, question, step) or _echo(question, text, step.events[0]))


def _of_what(job: Job, question: Question, step: Step) -> tuple[str, ...]:
    """A size that was taken, with what it is of: on a phone the question has left the screen when it is read back."""
    said, event = step.said, step.events[0]
    if isinstance(event, Off) and question.place and len(event.sizes) == 1 and said and said[0][:1].isdigit():
        name = question.text.rstrip("?") if event.place == question.place else "Something else"
        return (f"{name}, {size_words(next(iter(event.sizes)))}: {said[0]}", *said[1:])
    if question.kind != "reading" or not said:
        return said
    of = job.offs[question.entry - 1].what if question.entry else question.place or question.gap
    name = offered_name(job.reference, of) if job.reference.has_place(of) else of
    return (f"{capital_first(name)}{f', {size_words(question.size)}' if question.size else ''}: {said[0]}", *said[1:])


def _echo(question: Question, text: str, event: Event) -> tuple[str, ...]:
    """What was taken, in the words of the question:
    two screens of parts look alike, and a tap leaves no other trace.
    """
    if isinstance(event, (Off, NotSeen)):
        return (f"{question.text.rstrip('?')}: {'not seen' if isinstance(event, NotSeen) else 'off'}.",)
    if question.kind == "part" or isinstance(event, (Stopped, TakenApart)):
        return ()
    if text in ("", "0"):
        return (
            f"{question.text}: {question.zero}"
            if len(question.text) < ONE_LINE
            else f"{capital_first(question.zero)}.",
        )
    if question.kind in ("choice", "several"):
        shown = [choice.shown for number, choice in enumerate(question.choices, start=1) if str(number) in text]
        return (f"{question.text}{'' if question.key.startswith('facing:') else ':'} {', '.join(shown) or text}",)
    return (f"{question.text}: {text}",)


def ahead(job: Job) -> list[tuple[Job, Question]]:
    """The questions that will most likely follow, each with the job as it then is, for a phone that loses its network.

    Likely is that each part is there; what is asked of it comes after it.
    """
    return list(_ahead(job))


def _ahead(job: Job) -> Iterator[tuple[Job, Question]]:
    for _ in range(MOST_AHEAD):
        question = next_question(job)
        if question is None or question.key == "taken apart":
            return
        yield job, question
        job = job.followed_by(replace(_likely(job, question), number=len(job.events) + 1))


def _likely(job: Job, question: Question) -> Event:
    if question.kind == "part" and question.place:
        part = job.reference.part_at(question.place)
        return Off(what=part.kind, end=question.end, place=question.place, kind=part.kind, part=part.id)
    if question.kind == "part" and question.key != "loose":
        return NotSeen(place=question.place, end=question.end)
    return Answered(key=question.key, question=question.text)
