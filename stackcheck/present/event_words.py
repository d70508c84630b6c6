"""An event of a job in a few words, as somebody would say it back."""

from __future__ import annotations

from stackcheck.job.events import (
    Answered,
    Arrived,
    Decided,
    Event,
    Fastened,
    Fitted,
    GaugeRead,
    GaugesBegun,
    GaugesCompared,
    Looked,
    Measured,
    Noted,
    NotSeen,
    NotThere,
    Off,
    Ordered,
    Photographed,
    Seen,
    ToBuy,
)
from stackcheck.job.state import Job
from stackcheck.model.reference import Reference
from stackcheck.present.names import offered_name


def said_of(job: Job, event: Event) -> str:
    """An event with what it is about, where the words before it are no longer there to read:
    "entry 3, left collar: flange toward right".
    """
    entry = getattr(event, "entry", 0)
    if isinstance(event, (Seen, Measured)) and 1 <= entry <= len(job.offs):
        words = (
            " ".join(filter(None, (event.size, event.reading))) if isinstance(event, Measured) else event_words(event)
        )
        return f"entry {entry}, {job.offs[entry - 1].what}: {words}"
    return event_words(event, job.reference)


def event_words(event: Event, reference: Reference | None = None) -> str:
    """ "left collar 22.02 cal", "hub length 57.97 depth mic", "right seal, on order"."""
    place = getattr(event, "place", "")
    if place and reference is not None:
        place = offered_name(reference, place)
    match event:
        case Off():
            end = "" if event.end in event.what.split() else event.end
            return " ".join(filter(None, (end, event.what, *event.sizes.values(), event.toward)))
        case Measured():
            return " ".join(
                filter(None, (place or event.gap or event.item or f"entry {event.entry}", event.size, event.reading))
            )
        case Seen():
            return ", ".join(
                filter(None, (event.part, event.came_off, _facing_words(event), *event.feel, *event.look, event.note))
            ) or (f"{event.count}" if event.count else "seen")
        case Answered():
            return f"{event.question}: {event.answer or 'skipped'}"
        case NotThere() | NotSeen():
            return f"{place}, {'not there' if isinstance(event, NotThere) else 'not seen'}"
        case Photographed():
            return f"photo, card {event.card}"
        case Noted():
            return event.text
        case Decided():
            return f"{event.decision}: {event.about}"
        case ToBuy() | Ordered() | Arrived():
            state = {ToBuy: "to buy", Ordered: "on order", Arrived: "arrived"}[type(event)]
            return f"{event.item}, {state}"
        case Fitted():
            return f"{place}, fitted"
        case Fastened():
            return " ".join(filter(None, (event.joint, event.state, event.value)))
        case Looked():
            return event.seen or f"{event.point}: {event.verdict}"
        case GaugesBegun():
            return f"{len(event.gauges)} gauges to be read on {event.source}"
        case GaugeRead():
            return f"{event.gauge} {event.reading}, round {event.round}"
        case GaugesCompared():
            return f"gauges compared ({event.file})"
    return type(event).__struct_config__.tag


def _facing_words(event: Seen) -> str:
    """ "flange toward right", "flange not seen", "same both ways"."""
    if not event.feature or not event.toward:
        return event.toward
    return (
        f"{event.feature} "
        f"{event.toward if event.toward in ('not seen', 'same both ways') else f'toward {event.toward}'}"
    )


def entry_sentence(job: Job, number: int) -> str:
    """ "Left collar, 22.02 cal, flange toward left, by hand?", to be read out by whoever keys to whoever calls."""
    off = job.offs[number - 1]
    toward = f"{off.feature or 'it'} toward {off.toward}" if off.toward else ""
    count = f"{off.count} of them" if off.count > 1 else ""
    said = (
        off.what,
        count,
        *(each.text for sizes in job.readings(entry=number).values() for each in sizes),
        toward,
        *off.feel,
        off.came_off,
    )
    words = ", ".join(filter(None, said))
    return f"{words[:1].upper()}{words[1:]}?"
