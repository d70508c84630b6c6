"""Fitting on the page: which parts may go into the next places, and what a tap on FITTED comes to."""

from __future__ import annotations

from stackcheck.job.buying import ARRIVED, READY, buying
from stackcheck.job.events import Fitted
from stackcheck.job.fitting import fit_steps
from stackcheck.job.state import Job
from stackcheck.present.names import capital_first, listed, place_words, size_words
from stackcheck.value import Value

NEXT = 3
NOT_SEEN = "not seen"


class Choice(Value, kw_only=True):
    """One place to be filled: the parts that may go in (mark, words) and the ends to choose from, none where it has no facing."""

    place: str
    words: str
    parts: tuple[tuple[str, str], ...]
    feature: str = ""
    ends: tuple[str, ...] = ()


def next_places(job: Job) -> list[Choice]:
    """The next places of the fitting sequence, each with what came off there and what arrived for it."""
    return [_choice(job, step.place) for step in fit_steps(job) if step.fitted is None][:NEXT]


def _choice(job: Job, place: str) -> Choice:
    reference = job.reference
    part = reference.part_at(place)
    used = {event.entry for event in job.of(Fitted)}
    new = [(f"item:{item.name}", f"{item.name}, new") for item in buying(job) if item.part == part.id and item.state in (ARRIVED, READY)]
    old = [
        (f"entry:{number}", f"entry {number}, {off.what}")
        for number, off in enumerate(job.offs, start=1)
        if number not in used and (off.place == place or off.part == part.id or off.kind == part.kind)
    ]
    faces = (*reference.ends, NOT_SEEN) if reference.place(place).facing else ()
    return Choice(place=place, words=capital_first(place_words(reference, place)), parts=(*new, *old), feature=part.feature if faces else "", ends=faces)


def fitted(job: Job, place: str, what: str, toward: str) -> Fitted | str:
    """The event of a tap, or in words why nothing is recorded."""
    choice = next((each for each in next_places(job) if each.place == place), None)
    if choice is None or what not in dict(choice.parts):
        return "That place was filled meanwhile, or the part is no longer on the bench: look at the page again."
    if choice.ends and toward not in choice.ends:
        return f"Which way round? Say where the {choice.feature} points."
    kind, _, named = what.partition(":")
    if kind == "entry":
        return Fitted(place=place, entry=int(named), toward=toward)
    item = next(item for item in buying(job) if item.name == named)
    if item.not_measured:
        return f"{item.name} was not measured yet: {listed(size_words(size) for size in item.not_measured)}. Measure it before it goes in."
    if item.differs:
        return f"{item.name} is not the part of the reference. Decide first."
    return Fitted(place=place, item=item.name, toward=toward)
