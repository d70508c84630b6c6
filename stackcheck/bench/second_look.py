"""The second look: another person says which way each part pointed, and how many there were,
without seeing the first answers.

Both answers are kept. Where they differ it cannot be told until somebody looks again and they agree.
"""

from __future__ import annotations

from stackcheck.bench.answers import answer
from stackcheck.bench.questions import Question, facing_question, lasting_name
from stackcheck.bench.step import Step
from stackcheck.job.events import Answered, Event, Off, Seen
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import NOT_SEEN, Job
from stackcheck.present.names import counted, listed
from stackcheck.value import replace


def next_second_look(job: Job, by: str) -> Question | None:
    """The next direction that this person has not given yet;
    then those where two differ and the other one looked last.
    """
    entries = [number for number, off in enumerate(job.offs, start=1) if off.place and off.place_seen != "found loose"]
    new = [number for number in entries if by not in job.looks(number) and f"second:{by}:{number}" not in job.answers]
    again = [number for number in entries if number in job.disagreed and _looked_last(job, number) != by]
    for number in (*new, *again):
        off = job.offs[number - 1]
        for question in facing_question(job.reference, number, off):
            return Question(
                key=question.key,
                kind=question.kind,
                text=question.text,
                choices=question.choices,
                entry=number,
                where=f"Entry {number}, {off.what}.",
            )
    return None


def _looked_last(job: Job, number: int) -> str:
    """Who last said which way the part of this entry pointed."""
    looks = (seen.by for seen in reversed(job.of(Seen)) if seen.entry == number and seen.toward not in ("", NOT_SEEN))
    return next(looks, job.of(Off)[number - 1].by)


def record_second(folder: JobFolder, question: Question, step: Step, *, by: str) -> tuple[Event, ...]:
    """Put the answer of a second look on disk; one that was not seen is only marked as asked."""
    told = tuple(event for event in step.events if not (isinstance(event, Seen) and event.toward == NOT_SEEN))
    events = told or (Answered(key=f"second:{by}:{question.entry}", question=question.text),)
    folder.record(*(replace(event, by=by) for event in events))
    return events


def second_answer(folder: JobFolder, name: str, text: str, *, by: str) -> None:
    """Record an answer to the open question of this name; one that cannot be read leaves the question standing."""
    question = next_second_look(folder.job, by)
    if question is not None and lasting_name(folder.job, question) == name:
        step = answer(folder.job, question, text)
        if not step.again and step.ask is None:
            record_second(folder, question, step, by=by)


def comparison_words(job: Job, by: str) -> list[str]:
    """How the two looks agree, and whose they are."""
    same, different, alone = 0, [], True
    for number, off in enumerate(job.offs, start=1):
        looks = job.looks(number)
        others = {who: toward for who, toward in looks.items() if who != by}
        if by in looks and others:
            alone = False
            if set(others.values()) == {looks[by]}:
                same += 1
            else:
                said = listed(f"{who or 'first'}: {toward}" for who, toward in {**others, by: looks[by]}.items())
                different.append(f"entry {number}, {off.what}: {said}. Cannot tell until both look again and agree.")
    if alone:
        return [f"Nobody but {by} has said which way a part pointed: a second look by the same person."]
    return [f"{counted(same, 'direction')} agree.", *different]
