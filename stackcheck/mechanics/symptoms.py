"""Does a finding explain what was noticed? Every symptom is held against every finding, by direction and by size.

A member that moved *out* when its clamp was undone had been pulled *in*: only what made the stack between the members
shorter, or the room there wider, explains that, and by no more than it did so. A part that stands off is explained by
what shifts it that way and that far. Drag wants loaded bearings (or a bearing that feels so by itself, or a brake that
was moved with the hub); rock wants end float, or a bearing that is absent. What does not suit is said not to explain.
Source: direction of a symptom, common practice, no source; the lengths are those of `stackcheck.mechanics.effects`.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.mechanics.arrangement import Arrangement, as_believed, as_wanted
from stackcheck.mechanics.bearing_change import (
    APART,
    LOADED,
    MAY_BE,
    NARROW,
    SLACK,
    WIDE,
    BearingChange,
    set_gap_side,
)
from stackcheck.mechanics.distance import distance_in
from stackcheck.mechanics.effects import Effect, changed_by
from stackcheck.mechanics.frames import floats, frame, is_frame, room
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.model.finding import Explanation, Finding
from stackcheck.model.found import DRAG, MOVED, STANDS_OFF, Found, Symptom
from stackcheck.model.reference import Reference
from stackcheck.value import Value

EXPLAINS, NOT_THE_SIZE, MAY_EXPLAIN, DOES_NOT, CANNOT_TELL = (
    "explains", "explains the direction, not the size", "may explain", "does not explain", "cannot tell",
)  # fmt: skip

PULLED, NARROWED, SHIFTED, BALLS, HELD, BRAKE, FELT, PLAY, ABSENT, NOTHING, UNKNOWN = (
    "room", "room taken, member floats", "shift", "bearings loaded", "bearings loaded if outer rings are held",
    "brake moved with it", "bearing as felt",
    "end float", "bearing absent", "nothing of the kind", "length not known",
)  # fmt: skip
"""Why a finding explains a symptom or not."""

_NOTHING_MM = 0.0005
_FELT_DRAG = ("gritty", "rough", "notchy", "catches", "seized", "grinding", "rumbly")
_FELT_ROCK = ("loose", "play", "rock")


class Trial(Value, kw_only=True):
    """One finding held against one symptom.

    `finding` is its position in the list, None for all of them together. `predicted` is how far it moves the thing
    toward the second end [mm], where that is the question.
    """

    finding: int | None
    answer: str
    why: str
    predicted: Interval | None = None


class Tried(Value, kw_only=True):
    """A symptom with what every finding says to it.

    `room` is the room as found beside a floating member that moved:
    it may have been pinched off its free position, which no length shows.
    """

    symptom: Symptom
    trials: tuple[Trial, ...]
    room: Interval | None = None

    @property
    def is_explained(self) -> bool:
        return any(trial.answer in (EXPLAINS, MAY_EXPLAIN) for trial in self.trials)


def try_symptoms(
    reference: Reference, found: Found, explanation: Explanation, findings: Sequence[tuple[Finding, Effect | None]]
) -> tuple[Tried, ...]:
    """Every symptom of the list, each finding in turn; where several move the same thing, all of them together too."""
    return tuple(_tried(_Case(reference, found, explanation, findings, symptom)) for symptom in found.symptoms)


class _Case(Value):
    reference: Reference
    found: Found
    explanation: Explanation
    findings: Sequence[tuple[Finding, Effect | None]]
    symptom: Symptom


def _tried(case: _Case) -> Tried:
    if case.symptom.what not in (MOVED, STANDS_OFF):
        judge = _drag if case.symptom.what == DRAG else _rock
        trials = (Trial(finding=i, **judge(case.reference, *each)) for i, each in enumerate(case.findings))
        return Tried(symptom=case.symptom, trials=tuple(trials))
    wanted, believed = as_wanted(case.reference), as_believed(case.reference, case.found, case.explanation)
    trials = []
    for i, (finding, effect) in enumerate(case.findings):
        if effect is not None:
            changed = changed_by(case.reference, case.found, finding, explanation=case.explanation)
            trials.append(_moving(case, i, wanted, changed) if changed is not None else _none(i))
    if sum(trial.predicted is not None and abs(trial.predicted.nominal_mm) >= _NOTHING_MM for trial in trials) > 1:
        trials.append(_moving(case, None, wanted, believed))
    pinched = case.symptom.what == MOVED and floats(case.reference, case.symptom.place)
    loop = frame(case.reference, case.symptom.place) if pinched else None
    return Tried(symptom=case.symptom, trials=tuple(trials), room=None if loop is None else room(believed, loop))


def _none(finding: int | None) -> Trial:
    return Trial(finding=finding, answer=DOES_NOT, why=NOTHING)


def _moving(case: _Case, finding: int | None, wanted: Arrangement, changed: Arrangement) -> Trial:
    """Which way and how far the thing goes by a change of lengths, against what was seen."""
    symptom = case.symptom
    if symptom.what == MOVED:
        why, predicted = _released(wanted, changed, symptom.place)
    else:
        why, predicted = SHIFTED, _shift(wanted, changed, symptom.place)
    if predicted is None:
        return Trial(finding=finding, answer=CANNOT_TELL, why=UNKNOWN)
    toward = predicted if symptom.toward == "second" else -predicted
    if toward.nominal_mm < _NOTHING_MM:
        return Trial(finding=finding, answer=DOES_NOT, why=why, predicted=predicted)
    suits = symptom.by is None or toward.least_mm <= symptom.by.high_mm and symptom.by.low_mm <= toward.most_mm
    return Trial(finding=finding, answer=EXPLAINS if suits else NOT_THE_SIZE, why=why, predicted=predicted)


def _shift(wanted: Arrangement, changed: Arrangement, place: str) -> Interval | None:
    datum = wanted.reference.datum
    if place == datum:
        return None
    return distance_in(changed, datum, place).less(distance_in(wanted, datum, place)).total


def _released(wanted: Arrangement, changed: Arrangement, place: str) -> tuple[str, Interval | None]:
    """Why, and how much further a member goes toward the second end when it is let go,
    for the room beside it that changed.

    Room that grew had to be closed by pulling the member in, so that it goes out again; room that shrank the other way,
    for a floating member only where no room is left at all.
    """
    reference = wanted.reference
    loop = frame(reference, place)
    if loop is None:
        return UNKNOWN, None
    room_then, grown = room(changed, loop), loop_lengths(changed, loop).less(loop_lengths(wanted, loop)).total
    if room_then is None or grown is None:
        return UNKNOWN, None
    why, grown = PULLED, grown if is_frame(reference, loop.closed_path) else -grown
    if grown.nominal_mm < 0 and floats(reference, place):
        why, grown = (
            NARROWED,
            Interval(**{name: min(0.0, getattr(room_then, name)) for name in ("nominal_mm", "least_mm", "most_mm")}),
        )
    return why, grown if place == loop.end else -grown


def _drag(reference: Reference, finding: Finding, effect: Effect | None) -> dict[str, str]:
    if _felt(reference, finding, _FELT_DRAG):
        return {"answer": EXPLAINS, "why": FELT}
    if set_gap_side(reference, finding) == NARROW:
        return {"answer": MAY_EXPLAIN, "why": BALLS}
    answers = [_drag_of(change) for change in (effect.bearings if effect is not None else ())]
    if effect is not None and any(shift.mm and _has_brake(reference) for shift in effect.shifts):
        answers.append((MAY_EXPLAIN, BRAKE))
    best = min(answers, key=lambda each: (EXPLAINS, MAY_EXPLAIN, DOES_NOT).index(each[0]), default=(DOES_NOT, NOTHING))
    return {"answer": best[0], "why": best[1]}


def _drag_of(change: BearingChange) -> tuple[str, str]:
    if change.set_by or change.spring or change.answer not in (LOADED, MAY_BE):
        return DOES_NOT, NOTHING
    if change.play_mm is not None and change.way == APART:
        return MAY_EXPLAIN, HELD
    return (EXPLAINS if change.answer == LOADED else MAY_EXPLAIN), BALLS


def _has_brake(reference: Reference) -> bool:
    return any(part.has_duty("brake") for part in reference.parts)


def _rock(reference: Reference, finding: Finding, effect: Effect | None) -> dict[str, str]:
    if _felt(reference, finding, _FELT_ROCK):
        return {"answer": EXPLAINS, "why": FELT}
    if finding.kind == "missing" and "bearing" in reference.part_at(finding.places[0]).kind:
        return {"answer": EXPLAINS, "why": ABSENT}
    if set_gap_side(reference, finding) == WIDE:
        return {"answer": EXPLAINS, "why": PLAY}
    if effect is not None and any(change.answer == SLACK and not change.set_by for change in effect.bearings):
        return {"answer": EXPLAINS, "why": PLAY}
    return {"answer": DOES_NOT, "why": NOTHING}


def _felt(reference: Reference, finding: Finding, words: tuple[str, ...]) -> bool:
    """Whether it is the condition of a bearing that feels like this by itself."""
    is_bearing = any(
        "bearing" in reference.part_at(place).kind for place in finding.places if reference.has_place(place)
    )
    return finding.kind == "condition" and is_bearing and any(word in said for said in finding.words for word in words)
