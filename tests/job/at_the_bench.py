"""Somebody at the bench, for tests: answers questions, looks at the record, comes back later."""

from __future__ import annotations

from pathlib import Path

from stackcheck.bench.answers import answer
from stackcheck.bench.questions import Question, next_question
from stackcheck.bench.step import Step
from stackcheck.formats.library import Library
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import Job
from stackcheck.result import Comparison, compare

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")


class Bench:
    """One job in a folder of its own, at its next question."""

    def __init__(self, folder: Path, reference: str = "front-hub", **begin: str):
        path = LIBRARY.path_of(reference)
        self.folder = JobFolder.begin(folder / "job", LIBRARY.reference(reference), path, **begin)

    @property
    def job(self) -> Job:
        return self.folder.job

    @property
    def question(self) -> Question | None:
        return next_question(self.job)

    def say(self, *texts: str) -> Step:
        """Answer the next questions one after the other; an answer that is not taken fails the test."""
        for text in texts:
            question = self.question
            assert question is not None, f"nothing is asked any more, and still to say: {text}"
            step = answer(self.job, question, text)
            assert not step.again and step.ask is None, f"{question.text} {text!r}: {step.again or step.ask}"
            self.folder.record(*step.events)
        return step

    def skip_to(self, key: str) -> None:
        """Answer 0 until a question whose key starts like this."""
        while not self.question.key.startswith(key):
            self.say("0")

    def refused(self, text: str) -> str:
        """Why a text is not taken as an answer."""
        step = answer(self.job, self.question, text)
        assert not step.events
        return step.again

    def reopened(self) -> Job:
        return JobFolder.open(self.folder.path).job

    def compared(self) -> Comparison:
        return compare(self.job.reference, self.job.found)


def front_hub(
    bench: Bench, *, collars: tuple[str, str] = ("18.01", "22.01"), tube: str = "58.00", seal: str = "1"
) -> None:
    """A whole front hub off, by numbers alone: collar lengths, tube length and which way the right seal pointed."""
    bench.skip_to("part:")
    bench.say("", "2", "2", "1")  # axle nut: spanner, flange toward the washer, nothing moved
    bench.say("", collars[0], "1", "", "2", "", "2", "1", "")
    bench.say(tube) if bench.question.key.startswith("size") else None
    bench.say("", "2", "")  # clamp bolt, axle
    bench.say(collars[1], "2", "", seal, "", "2", "1")
    bench.skip_to("taken apart")
    bench.say("1")
