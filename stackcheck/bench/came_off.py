"""What a typed line about what came off means: an event for each thing in it, at the place it can only have come from.

A line typed at an offered name confirms that name where it adds to it, and is something else where it names another
thing. A place is taken only where the part is told apart from all others; everything else stays as it was typed.
"""

from __future__ import annotations

import re

from stackcheck.bench.questions import Question
from stackcheck.bench.sizes_said import last_how, line_with_unit, unit_asked, with_unit_and_how
from stackcheck.bench.step import Step
from stackcheck.errors import SizeError
from stackcheck.formats.bench_line import Question as LineQuestion
from stackcheck.formats.bench_line import ReadLine, ReadPart, back, read_line
from stackcheck.formats.found_words import FoundWords
from stackcheck.formats.readings import reading_of
from stackcheck.job.events import Measured, Noted, Off
from stackcheck.job.state import Job
from stackcheck.model.part import ROLLING_BEARINGS
from stackcheck.present.names import capital_first, is_told_apart, offered_name
from stackcheck.value import replace


def offered(job: Job, question: Question, *, stuck: bool = False) -> Off:
    return Off(
        end=question.end,
        stuck_to_next=stuck,
        **_identity(job, question.place),
        what=offered_name(job.reference, question.place),
    )


def _identity(job: Job, place: str) -> dict[str, str]:
    """What confirming a name says: the part, or only its kind where another part of the reference goes by that kind."""
    part = job.reference.part_at(place)
    return {"place": place, "kind": part.kind, "part": part.id if is_told_apart(job.reference, place) else ""}


def typed_off(job: Job, text: str, *, end: str = "", place: str = "", loose: bool = False, typed: str = "") -> Step:
    """One typed line about what came off: events for each thing in it, and how it was read.

    Args:
        text: as typed.
        end: the end it came off, unless the line names one.
        place: the place that was offered when it was typed: a line that only adds sizes, facing or feel confirms it.
        loose: asked for as something found loose.
        typed: what was typed first, where `text` is what it became after a question about it.
    """
    reference = job.reference
    if place and not loose and (doubt := _bare_figure(job, text, place)) is not None:
        return Step(ask=doubt)
    try:
        read = read_line(text, reference=reference, ends=reference.ends, default_unit=job.begun.unit, how=last_how(job))
        for size in (size for part in read.parts for _, size in part.sizes):
            reading_of(size)
    except SizeError as problem:
        return Step(again=f'"{problem.said}": {problem.wanted}')
    if read.questions:
        return Step(ask=read.questions[0])
    if read.gap:
        return _gap(job, read)
    if read.pack and not read.parts:
        if not job.offs:
            return Step(again="Which pack? Nothing came off yet.")
        return Step(events=(Noted(text=f"as a pack {read.pack}", entry=len(job.offs)),), said=(back(read),))
    if not read.parts or not all(_says_something(part, place, loose=loose) for part in read.parts):
        return Step(again="That says nothing about a part. Say its kind, its sizes, what it looks like.")
    events: list[Off] = []
    taken: set[str] = set()
    for part in read.parts:
        off = _off(
            job,
            part,
            end=end,
            place=place if place not in taken else "",
            taken=taken,
            loose=loose,
            typed=typed or read.typed,
        )
        taken.add(off.place)
        events.append(off)
    if read.pack:
        events[-1] = replace(events[-1], note=" · ".join(filter(None, (events[-1].note, f"as a pack {read.pack}"))))
    return Step(events=tuple(events), said=(back(read),))


def _bare_figure(job: Job, text: str, place: str) -> LineQuestion | None:
    """What has to be asked about a length typed alone at an offered name, in a unit that cannot be meant."""
    if not re.fullmatch(r"[\d.,/ ]+( [a-z]+)?", text.strip()):
        return None
    try:
        text_with, _ = with_unit_and_how(job, text, "length")
        doubt = unit_asked(job, text, "length", job.reference.part_at(place).kind)
    except SizeError:
        return None  # what it is, the reading of the line says
    return doubt and replace(
        doubt, choices=tuple((words, line_with_unit(text_with, unit)) for words, unit in doubt.choices)
    )


def _says_something(part: ReadPart, place: str, *, loose: bool) -> bool:
    """Whether a line is about a part at all: at an offered name a size alone is,
    elsewhere a kind or a word is wanted.
    """
    if (
        part.kind
        or part.look
        or part.unknown
        or part.marked
        or part.same_as_other_side
        or re.search("[a-z]{2}", part.what, re.IGNORECASE)
    ):
        return True
    return bool(place and not loose and (part.sizes or part.feel or part.toward))


def _gap(job: Job, read: ReadLine) -> Step:
    gaps = [gap.name for stack in job.reference.stacks for gap in stack.gaps]
    if len(gaps) == 1:
        return Step(events=(Measured(gap=gaps[0], reading=read.gap),), said=(f"{capital_first(gaps[0])}: {read.gap}.",))
    return Step(
        again=f"Which gap? Say it with its name: stackcheck measure ... ({', '.join(gaps) or 'the reference has none'})"
    )


def _off(job: Job, part: ReadPart, *, end: str, place: str, taken: set[str], loose: bool, typed: str) -> Off:
    reference = job.reference
    own_end = reference.ends[part.end] if part.end is not None else end
    is_loose = loose or part.place_seen == "found loose"
    called = FoundWords(reference).part_called(part.what) if part.what and not part.unknown else None
    identity: dict[str, str] = {"kind": part.kind}
    if place and not is_loose and _confirms(job, place, part, called):
        identity = _identity(job, place)
        if called is not None and reference.has_part(called):
            identity["part"] = called
    elif not is_loose and (other := _place_for(job, part, called, own_end, taken)):
        identity = _identity(job, other)
        identity["part"] = identity["part"] if called is None else called
    return Off(
        what=part.what or (offered_name(reference, identity["place"]) if identity.get("place") else typed), typed=typed,
        end="" if is_loose else own_end, **identity, marked=part.marked, count=part.count, sizes=dict(part.sizes),
        feature=part.feature, toward=part.toward, feel=part.feel, look=part.look, came_off=part.came_off,
        place_seen="found loose" if is_loose else part.place_seen, where=part.where, card=part.card,
        stuck_to_next=part.stuck_to_next, same_as_other_side=part.same_as_other_side, note=part.note,
    )  # fmt: skip


def _confirms(job: Job, place: str, part: ReadPart, called: str | None) -> bool:
    """Whether a line typed at an offered name adds to it rather than naming something else."""
    wanted = job.reference.part_at(place)
    if part.unknown or part.count > max(1, job.reference.place(place).count):
        return False
    if called is not None:
        return called == wanted.id or (
            job.reference.has_part(called) and job.reference.part(called).kind == wanted.kind
        )
    if not part.kind and not (
        part.sizes or part.toward or part.feel or part.look or part.came_off or part.marked or part.same_as_other_side
    ):
        return False  # words that add nothing to a name are something else
    if part.kind and part.kind != wanted.kind and wanted.kind not in _relatives(part.kind):
        return False
    return all(_can_be(job, wanted.kind, name, text) for name, text in part.sizes)


def _relatives(kind: str) -> frozenset[str]:
    """Kinds that people call by the same word: a bearing may be any bearing, a washer any washer."""
    families = (
        ROLLING_BEARINGS,
        frozenset({"washer", "shim ring", "ring", "thrust washer", "spring washer", "tab washer"}),
    )
    return next((family for family in families if kind in family), frozenset())


def _can_be(job: Job, kind: str, name: str, text: str) -> bool:
    """Whether some part of this kind in the reference could have this size, worn or measured roughly."""
    sizes = [size for part in job.reference.parts if part.kind == kind and (size := part.size(name)) is not None]
    if not sizes:
        return True
    reading = reading_of(text)
    return any(
        abs(reading.value_mm - size.nominal_mm) <= max(0.25 * size.nominal_mm, 0.5, reading.good_to_mm)
        for size in sizes
    )


def _place_for(job: Job, part: ReadPart, called: str | None, end: str, taken: set[str]) -> str:
    """The unmet place that a named thing can only have come from:
    of its part, or of its kind where that tells it apart.
    """
    reference = job.reference
    met = {off.place for off in job.offs} | taken
    backwards = end == reference.ends[1]
    line = reference.line[::-1] if backwards else reference.line
    for name in line:
        own = reference.part_at(name)
        if own.fixed or name in met:
            continue
        if called == own.id or (called is None and part.kind == own.kind and is_told_apart(reference, name)):
            return name
    return ""
