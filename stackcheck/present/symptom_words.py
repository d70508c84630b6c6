"""What was noticed, and what each finding says to it, in words."""

from __future__ import annotations

from stackcheck.mechanics.symptoms import (
    ABSENT,
    BALLS,
    BRAKE,
    CANNOT_TELL,
    FELT,
    HELD,
    NARROWED,
    PLAY,
    PULLED,
    SHIFTED,
    Trial,
    Tried,
)
from stackcheck.model.found import DRAG, MOVED, ROCK, Symptom
from stackcheck.model.reference import Reference
from stackcheck.present.words import gap_words, mm, place_words, reading_words, span

_WHY = {
    BALLS: "it loads the bearings",
    HELD: "it loads the bearings if the outer rings are held fast in their seats",
    BRAKE: "the brake's parts stand elsewhere with it: look whether they rub",
    FELT: "the bearing feels so by itself",
    PLAY: "it turns into end float",
    ABSENT: "a bearing is absent",
}
_LEAVES = {DRAG: "it loads no bearing", ROCK: "it gives the bearings no end float"}


def symptom_words(symptom: Symptom, reference: Reference) -> str:
    """ "right fork leg moved toward right on release, 3.00 by rule (2.50 to 3.50)"."""
    thing = place_words(reference, symptom.place) if symptom.place else "something"
    by = f", {reading_words(symptom.by)}" if symptom.by is not None else ""
    if symptom.what == MOVED:
        return f"{thing} moved toward {reference.end_name(symptom.toward)} when it was released{by}"
    if symptom.what in (DRAG, ROCK):
        return f"{thing} turned hard" if symptom.what == DRAG else f"{thing} had rock or end float"
    note = f" ({symptom.note})" if symptom.note else ""
    return f"{thing} stood off toward {reference.end_name(symptom.toward)}{by}{note}"


def trial_words(trial: Trial, symptom: Symptom, reference: Reference) -> str:
    """ "does not explain: it would go toward left by 3.00"."""
    if trial.answer == CANNOT_TELL:
        return (
            f"{trial.answer}: a length is not known, "
            f"or {place_words(reference, symptom.place)} lies in no frame of fixed parts"
        )
    if trial.why in (PULLED, NARROWED, SHIFTED):
        return f"{trial.answer}: {_moved_words(trial, symptom, reference)}"
    return (
        f"{trial.answer}: "
        f"{_WHY[trial.why] if trial.why in _WHY else _LEAVES.get(symptom.what, 'no length changes by it')}"
    )


def _moved_words(trial: Trial, symptom: Symptom, reference: Reference) -> str:
    predicted, narrowed = (
        trial.predicted,
        "it takes from the room there, and the member floats: " if trial.why == NARROWED else "",
    )
    if predicted is None or max(abs(predicted.least_mm), abs(predicted.most_mm)) < 0.0005:
        return (
            f"{narrowed}it pulls or pushes it nowhere"
            if trial.why != SHIFTED
            else "by it the part stands where it should"
        )
    low, high = sorted((abs(predicted.least_mm), abs(predicted.most_mm)))
    farther = predicted.most_mm if abs(predicted.most_mm) > abs(predicted.least_mm) else predicted.least_mm
    toward = reference.end_name("second" if farther > 0 else "first")
    far = span(low, high) if predicted.least_mm * predicted.most_mm > 0 else f"up to {mm(high)}"
    return f"{narrowed}by it the part {'stands' if trial.why == SHIFTED else 'would go'} toward {toward} by {far}"


def pinched_words(tried: Tried, reference: Reference) -> str:
    """A floating member may have been pinched before it had settled; "" for one that does not float."""
    if tried.room is None:
        return ""
    room, by = tried.room, tried.symptom.by
    beyond = (
        "" if by is None or by.low_mm <= max(room.most_mm, -room.least_mm) else f"; {mm(by.value_mm)} is more than that"
    )
    return (
        f"{place_words(reference, tried.symptom.place)} floats: pinched before it had settled it goes back to its free "
        "place when released, which no length shows; "
        f"{gap_words(room.least_mm, room.most_mm)} beside it as found{beyond}"
    )
