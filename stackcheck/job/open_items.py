"""What is open in a job: derived from the record, not ticked by hand."""

from __future__ import annotations

from stackcheck.job.buying import ARRIVED, ON_ORDER, READY, TO_BUY, buying
from stackcheck.job.deciding import spare, undecided
from stackcheck.job.events import Answered, Fitted, Looked, Noted, Settled
from stackcheck.job.fit_remarks import (
    NOT_TO_REFIT,
    OTHER_PART,
    OTHER_TORQUE,
    OTHER_WAY,
    SINGLE_USE,
    WAY_NOT_SEEN,
    all_remarks,
)
from stackcheck.job.fitting import fit_steps, joint_states
from stackcheck.job.standing import homes
from stackcheck.job.state import Job
from stackcheck.model.finding import Finding
from stackcheck.result.comparison import Comparison
from stackcheck.result.points import CANNOT_TELL, NOT_LOOKED_AT, PRESENCE
from stackcheck.value import Value

KINDS = (
    OTHER_PART, OTHER_WAY, NOT_TO_REFIT, OTHER_TORQUE, "not fitted", "finger tight", "undecided", "to buy", "on order",
    "arrived, not measured", "arrived, differs", "arrived, not fitted", "not measured", "not looked at", "cannot tell",
    "two looks differ", WAY_NOT_SEEN, SINGLE_USE, "temporary", "borrowed", "after use", "still inside",
    "points to look at", "points that differ", "spare on the bench", "changed after comparing",
)  # fmt: skip


class OpenItem(Value, kw_only=True):
    """One open thing: its kind, and what it is about in one of these forms."""

    kind: str
    place: str = ""
    what: str = ""
    entry: int = 0
    number: int = 0
    since: str = ""
    finding: Finding | None = None
    sizes: tuple[str, ...] = ()
    toward: str = ""


def open_items(job: Job, comparison: Comparison) -> tuple[OpenItem, ...]:
    """Everything open, in the sequence of `KINDS`; `comparison` is that of the list as it now is."""
    items = [
        *_apart(job),
        *_fasteners(job),
        *_findings(job, comparison),
        *_to_buy(job),
        *_points(comparison),
        *_notes(job),
    ]
    if job.of(Fitted):
        items += [OpenItem(kind="spare on the bench", what=off.what, entry=number) for number, off in spare(job)]
    inside = next((event for event in reversed(job.of(Answered)) if event.key == "inside"), None)
    if inside is not None and not inside.is_none:
        items.append(OpenItem(kind="still inside", what=inside.answer))
    judged = {event.point: event for event in job.of(Looked)}
    items += [OpenItem(kind="points to look at", what=name) for name in job.begun.points if name not in judged]
    items += [
        OpenItem(kind="points that differ", what=event.seen) for event in judged.values() if event.verdict != "agrees"
    ]
    items += [
        OpenItem(kind="two looks differ", what=job.offs[number - 1].what, entry=number)
        for number in sorted(job.disagreed)
    ]
    items += [
        OpenItem(kind=each.kind, place=each.place, what=each.what, entry=each.entry, toward=each.toward)
        for each in all_remarks(job, comparison)
    ]
    items += _no_longer_so(job, comparison, items)
    items.sort(key=lambda item: (item.place, item.what) not in job.found.not_measured)
    if job.changed_after_comparing:
        items.append(OpenItem(kind="changed after comparing"))
    return tuple(sorted(items, key=lambda item: KINDS.index(item.kind)))


def _apart(job: Job) -> list[OpenItem]:
    off = {off.place for off in job.offs if off.place}
    everything = bool(job.of(Fitted))  # once it goes together, a place that was found empty must be filled too
    return [
        OpenItem(kind="not fitted", place=step.place)
        for step in fit_steps(job)
        if step.fitted is None and (everything or step.place in off)
    ]


def _fasteners(job: Job) -> list[OpenItem]:
    fitted = bool(job.of(Fitted))
    return [
        OpenItem(kind="finger tight", what=each.joint.name, since=each.state)
        for each in joint_states(job)
        if each.is_open and (each.state or fitted)
    ]


def _findings(job: Job, comparison: Comparison) -> list[OpenItem]:
    if not job.offs:
        return []
    return [
        OpenItem(kind="undecided", finding=finding, place=finding.places[0] if finding.places else "")
        for finding in undecided(job, comparison)
    ]


def _to_buy(job: Job) -> list[OpenItem]:
    items = []
    fitted = {event.item for event in job.of(Fitted)}
    for item in buying(job):
        kind = {TO_BUY: "to buy", ON_ORDER: "on order"}.get(item.state, "")
        if item.state == ARRIVED and item.differs:
            kind = "arrived, differs"
        elif item.state == ARRIVED and item.not_measured:
            kind = "arrived, not measured"
        if not kind and item.state in (ARRIVED, READY) and item.part and item.name not in fitted:
            kind = "arrived, not fitted"
        if kind:
            items.append(
                OpenItem(kind=kind, what=item.name, number=item.count, since=item.since, sizes=item.not_measured)
            )
    return items


def _points(comparison: Comparison) -> list[OpenItem]:
    """Sizes, facings and gaps that were not looked at or cannot be told;
    a place that is not reached yet is no open item of its own.
    """
    states = {NOT_LOOKED_AT: "not looked at", CANNOT_TELL: "cannot tell"}
    items = []
    entries = {home: entry for entry, home in homes(comparison).items()}
    for point in comparison.points:
        if point.state in states and comparison.found.entries:
            is_size = point.state == NOT_LOOKED_AT and point.place and point.what not in (PRESENCE, "facing")
            items.append(
                OpenItem(
                    kind="not measured" if is_size else states[point.state],
                    place=point.place,
                    what=point.gap or point.what,
                    entry=entries.get(point.place, 0),
                )
            )
    return items


def _no_longer_so(job: Job, comparison: Comparison, items: list[OpenItem]) -> list[OpenItem]:
    """Sizes that somebody, coming back, said are no longer so, until they are measured again."""
    told = {(item.place, item.entry, item.what) for item in items if item.kind in ("not measured", "not looked at")}
    own = [
        OpenItem(kind="not measured", place=place or homes(comparison).get(entry, ""), entry=entry, what=size or gap)
        for entry, place, gap, size in job.to_measure_again
    ]
    return [item for item in own if (item.place, item.entry, item.what) not in told]


def _notes(job: Job) -> list[OpenItem]:
    settled = {event.note for event in job.of(Settled)}
    return [
        OpenItem(kind=note.until, what=note.text, number=note.number, since=note.at)
        for note in job.of(Noted)
        if note.until and note.number not in settled
    ]
