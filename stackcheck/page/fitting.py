"""Fitting on the page: which parts may go into the next places, and what a tap on FITTED comes to."""

from __future__ import annotations

from stackcheck.bench.names import beside
from stackcheck.job.buying import ARRIVED, READY, buying
from stackcheck.job.events import Fitted
from stackcheck.job.fit_remarks import belongs_at, condemned
from stackcheck.job.fitting import FitStep, fit_steps, hindrance
from stackcheck.job.standing import compared, homes
from stackcheck.job.state import Job
from stackcheck.page.outlines import shape_of
from stackcheck.present.job_page import part_on_bench
from stackcheck.present.names import capital_first, place_words
from stackcheck.present.putting_right_page import hindrance_words, step_words
from stackcheck.result.comparison import Comparison
from stackcheck.value import Value, replace

NEXT = 3
NOT_SEEN = "not seen"


class Choice(Value, kw_only=True):
    """One place to be filled: what to mind, the parts that may go in (mark, words); where it can be turned round, its
    feature, the outline that shows it, and what that may point to."""

    place: str
    words: str
    mind: str
    parts: tuple[tuple[str, str], ...]
    feature: str = ""
    shape: str = ""
    toward: tuple[str, ...] = ()


def next_places(job: Job) -> list[Choice]:
    """The next places of the fitting sequence, each with what came off there and what arrived for it."""
    return [_choice(job, step) for step in [step for step in fit_steps(job) if step.fitted is None][:NEXT]]


def _choice(job: Job, step: FitStep) -> Choice:
    reference, place = job.reference, step.place
    part = reference.part_at(place)
    comparison = compared(job)
    used, out = {event.entry for event in job.of(Fitted)}, condemned(job, comparison)
    new = [
        (f"item:{item.name}", f"{item.name}, new")
        for item in buying(job)
        if item.part == part.id and item.state in (ARRIVED, READY) and _pieces_fitted(job, item.name) < item.count
    ]
    bench = [
        number
        for number, off in enumerate(job.offs, start=1)
        if number not in used
        and (
            off.place == place
            or off.part == part.id
            or off.kind == part.kind
            or belongs_at(job, comparison, number, place)
        )
    ]
    own = [number for number in bench if belongs_at(job, comparison, number, place) and number not in out]
    own.sort(key=lambda number: homes(comparison)[number] != place)
    ordinary = [
        *new,
        *((f"entry:{number}", part_on_bench(job, homes(comparison)[number], number, is_said=True)) for number in own),
    ]
    others = [
        (f"entry:{number}", _not_ordinary(job, comparison, number, out.get(number, "")))
        for number in bench
        if number not in own
    ]
    parts = (
        (*ordinary, *others)
        if ordinary or not others
        else (("", "say which: none is the part that belongs here"), *others)
    )
    choice = Choice(
        place=place,
        words=capital_first(place_words(reference, place)),
        mind=step_words(job, step).partition(", ")[2],
        parts=parts,
    )
    if not reference.place(place).facing:
        return choice
    return replace(
        choice, feature=part.feature, shape=shape_of(part.kind, part.feature), toward=beside(reference, place)
    )


def _pieces_fitted(job: Job, name: str) -> int:
    """How many of what was bought under this name went in already."""
    places = {event.place for event in job.of(Fitted) if event.item == name}
    return sum(job.reference.place(place).count for place in places)


def _not_ordinary(job: Job, comparison: Comparison, number: int, why: str) -> str:
    """A part that lies there and is not the one to go in: which it is, or why it is not to be refitted."""
    home = homes(comparison).get(number, "")
    words = part_on_bench(job, home, number, is_said=True) if home else f"entry {number}, {job.offs[number - 1].what}"
    return f"{words}: {f'not to be refitted ({why})' if why else 'another part'}"


def fitted(job: Job, place: str, what: str, toward: str) -> Fitted | str:
    """The event of a tap, or in words why nothing is recorded."""
    choice = next((each for each in next_places(job) if each.place == place), None)
    if choice is None or what not in dict(choice.parts):
        return "That place was filled meanwhile, or the part is no longer on the bench: look at the page again."
    if not what:
        return "Say which part goes in."
    kind, _, named = what.partition(":")
    item = next((item for item in buying(job) if item.name == named), None) if kind == "item" else None
    toward = toward if choice.feature and toward in (*job.reference.ends, NOT_SEEN) else ""
    if hinders := hindrance(job, place, item, toward):
        return hindrance_words(job, place, item, hinders)
    return Fitted(
        place=place, entry=int(named) if kind == "entry" else 0, item=item.name if item else "", toward=toward
    )
