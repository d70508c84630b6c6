"""In which respects what was found agrees with its reference:
each by its own points, never one "agrees" from one number.

Parts, sequence, facing, sizes and gaps are judged by `stackcheck.result.comparison`; here its findings and points are
sorted by what they are about, and forces are judged beside them. A difference of which no effect is computed is told as
such.
"""

from __future__ import annotations

from stackcheck.mechanics.effects import Effect
from stackcheck.mechanics.force_limits import held_force
from stackcheck.mechanics.loop_forces import NOTHING_N
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.limits import ForceLimit
from stackcheck.model.place_words import lower_first
from stackcheck.result.comparison import Comparison, FindingResult
from stackcheck.result.forces import AllForces, ForcesResult, SpringsResult, SupportResult, WorkingSpringResult
from stackcheck.result.points import AGREES, CANNOT_TELL, DIFFERS, FACING, GAP, NOT_LOOKED_AT, PRESENCE, Point
from stackcheck.units.force_words import force_limits_words
from stackcheck.value import Value, replace

PARTS, SEQUENCE, TURNED, SIZES, GAPS, CONDITION, FORCES = (
    "parts",
    "sequence",
    "facing",
    "sizes",
    "gaps",
    "condition",
    "forces",
)
OUTSIDE = "outside the model"

ABOUT = {
    "missing": PARTS, "extra": PARTS, "different_part": PARTS, "count_differs": PARTS, "entered_twice": PARTS,
    "swapped": SEQUENCE, "out_of_place": SEQUENCE, "run_moved": SEQUENCE, "run_end_for_end": SEQUENCE,
    "entered_from_other_end": SEQUENCE,
    "turned_round": TURNED, "size_differs": SIZES, "pairing_differs": SIZES, "gap_differs": GAPS,
    "condition": CONDITION,
}  # fmt: skip
"""Kind of finding -> what it is about."""

NOTHING_MM = 0.005
NO_CLAMP = "no joint clamps the two bearings"


class Told(Value, kw_only=True):
    """One force as found beside the reference:
    `verdict` is "agrees", "differs", "cannot tell" or "outside the model"; `why` in words.
    `is_wanted`: held against what somebody wants it to be, not against what the reference itself comes to.
    """

    what: str
    verdict: str
    why: str = ""
    is_wanted: bool = False


class Aspect(Value, kw_only=True):
    """One respect: its findings, and its points by their states; forces have neither but are `told`."""

    name: str
    findings: tuple[FindingResult, ...] = ()
    points: tuple[Point, ...] = ()
    told: tuple[Told, ...] = ()

    @property
    def verdict(self) -> str:
        """The heaviest of its answers; what was not reached was not looked at."""
        states = {DIFFERS} if self.findings else set()
        states |= {point.state for point in self.points} | {each.verdict for each in self.told}
        return next(
            (each for each in (OUTSIDE, DIFFERS, CANNOT_TELL) if each in states),
            AGREES if states <= {AGREES} else NOT_LOOKED_AT,
        )


def aspects(comparison: Comparison, forces: AllForces) -> tuple[Aspect, ...]:
    """Every respect in which this reference can be agreed with; a sequence is known as far as the places are."""
    sorted_ = []
    loose = {loop.loop for result in forces.joints if result.as_found.is_unclamped for loop in result.as_found.loops}
    for name in (PARTS, SEQUENCE, TURNED, SIZES, GAPS, CONDITION, FORCES):
        findings = tuple(result for result in comparison.findings if ABOUT.get(result.finding.kind) == name)
        told = _told(forces) if name == FORCES else ()
        points = _points(comparison, name, loose)
        if findings or points or told or name == SEQUENCE:
            sorted_.append(Aspect(name=name, findings=findings, points=points, told=told))
    return tuple(sorted_)


def _points(comparison: Comparison, name: str, loose: set[str]) -> tuple[Point, ...]:
    """What a respect is judged by. A part out of sequence is there all the same; one that is missing is in no sequence;
    and lengths alone do not tell a gap whose parts are `loose`, because nothing clamps them."""
    if name not in (PARTS, SEQUENCE):
        points = [
            point
            for point in comparison.points
            if {FACING: TURNED, GAP: GAPS, PRESENCE: PARTS}.get(point.what, SIZES) == name
        ]
        return tuple(
            replace(point, state=CANNOT_TELL) if point.gap in loose and point.state == AGREES else point
            for point in points
        )
    present = [point for point in comparison.points if point.what == PRESENCE]
    moved = {
        place
        for result in comparison.findings
        if ABOUT.get(result.finding.kind) == SEQUENCE
        for place in result.finding.places
    }
    if name == PARTS:
        return tuple(
            replace(point, state=AGREES) if point.place in moved and point.state == DIFFERS else point
            for point in present
        )
    return tuple(point for point in present if point.place in moved or point.state != DIFFERS)


def has_effect(effect: Effect | None) -> bool:
    """Whether anything is computed that a finding does: to a length, a gap, a place, a force."""
    return effect is not None and any((
        effect.changes, effect.loop_changes, effect.shifts, effect.bearings, effect.discs, effect.set_changes,
        effect.thread_ends, effect.bridges,
    ))  # fmt: skip


def _told(forces: AllForces) -> tuple[Told, ...]:
    joints = [told for joint in forces.joints for told in (_tension(joint), *_loops(joint), *_wanted(joint))]
    joints += [
        Told(what=_called(limit), verdict=CANNOT_TELL, why=NO_CLAMP, is_wanted=True) for limit in forces.unclamped
    ]
    springs = (*map(_discs, forces.discs), *map(_coil, forces.coils))
    return (*joints, *springs, *map(_support, forces.supports))


def _wanted(value: ForcesResult) -> list[Told]:
    """Every limit of a force of this joint, held against the force as found."""
    held = [(limit, held_force(limit, value.as_found)) for limit in value.limits]
    return [
        Told(what=_called(limit), verdict=each.verdict, why=_lacks(each.needs), is_wanted=True) for limit, each in held
    ]


def _called(limit: ForceLimit) -> str:
    return f"{limit.what}, {force_limits_words(limit.least_n, limit.most_n)}"


def _tension(value: ForcesResult) -> Told:
    what, seen = f"tension of the {value.reference.joint.name}", value.as_found
    if seen.turned_past is not None:
        return Told(what=what, verdict=OUTSIDE, why=f"turned against bearings beyond {seen.turned_past.called}")
    if seen.tension_n is None:
        return Told(what=what, verdict=CANNOT_TELL, why=_lacks(seen.needs))
    if seen.is_unclamped:
        return Told(what=what, verdict=DIFFERS, why="nothing is clamped")
    if seen.may_be_unclamped:
        return Told(what=what, verdict=CANNOT_TELL, why="the nut may meet the end of its thread")
    change = value.change.tension_n if value.change is not None else None
    return Told(what=what, verdict=CANNOT_TELL if change is None else judged(change, NOTHING_N))


def _loops(value: ForcesResult) -> list[Told]:
    told = []
    if value.as_found.is_unclamped:
        return []  # nothing is clamped: its tension says so
    for i, seen in enumerate(value.as_found.loops):
        change = value.change.loops[i] if value.change is not None else None
        what = f"bearings ({seen.loop})"
        if seen.one_way and not value.reference.loops[i].one_way:
            told.append(Told(what=what, verdict=DIFFERS, why="both look the same way, no preload"))
        elif seen.slides is None or seen.held is None:
            told.append(Told(what=what, verdict=CANNOT_TELL, why=_lacks(seen.needs)))
        elif seen.beyond_n is not None and max(seen.slides.most, seen.held.most) > seen.beyond_n:
            rings = (
                "" if min(seen.slides.most, seen.held.most) > seen.beyond_n else ", by the way the outer rings are held"
            )
            told.append(Told(what=what, verdict=OUTSIDE, why=f"forced beyond {seen.limit.called}{rings}"))
        elif change is None:
            told.append(Told(what=what, verdict=CANNOT_TELL, why=_lacks(value.reference.loops[i].needs)))
        else:
            verdicts = {judged_preload(each) for each in (change.slides, change.held)}
            verdicts |= {judged(each, NOTHING_MM) for each in (change.float_slides, change.float_held)}
            told.append(
                Told(what=what, verdict=next((each for each in (DIFFERS, CANNOT_TELL) if each in verdicts), AGREES))
            )
    return told


def judged(change: Spanned, nothing: float) -> str:
    """A difference by its range: off nothing for sure, or about nothing at its usual value, or it may be either."""
    if change.least > nothing or change.most < -nothing:
        return DIFFERS
    return AGREES if abs(change.usual) <= nothing else CANNOT_TELL


def judged_preload(change: Spanned) -> str:
    """As `judged`, but a preload that is more or less to one side only, if at all, stands at a threshold: the play may
    just be used up, or the clamp just gone, and it may be either. To both sides it only tells how well lengths are known.
    """
    one_sided = change.least >= -NOTHING_N or change.most <= NOTHING_N
    is_something = max(abs(change.least), abs(change.most)) > NOTHING_N
    return (
        CANNOT_TELL if one_sided and is_something and judged(change, NOTHING_N) == AGREES else judged(change, NOTHING_N)
    )


def _lacks(needs: tuple[str, ...]) -> str:
    """ "needs length of the spring": a part by its name inside a sentence."""
    told = (
        f"length of the {lower_first(name)}" if (name := each.removeprefix("length of ")) != each else each
        for each in needs
    )
    return f"needs {', '.join(told)}" if needs else ""


def _discs(value: SpringsResult) -> Told:
    seen, what = value.as_found, f"force of the {value.reference.stack}"
    if seen.needs:
        return Told(what=what, verdict=CANNOT_TELL, why=_lacks(seen.needs))
    if seen.counts != value.reference.counts:
        return Told(what=what, verdict=DIFFERS, why="they lie otherwise")
    if any(map(seen.beyond, range(len(seen.at_mm or ())))):
        return Told(what=what, verdict=OUTSIDE)
    wanted = dict(zip(value.reference.at_mm or (), value.reference.force_n or ()))
    beside = {_beside(force, wanted[at]) for at, force in zip(seen.at_mm or (), seen.force_n or ()) if at in wanted}
    return Told(what=what, verdict=next((each for each in (DIFFERS, CANNOT_TELL) if each in beside), AGREES))


def _coil(value: WorkingSpringResult) -> Told:
    own, seen, what = value.reference, value.as_found, f"force of {value.reference.name}"
    if seen.needs or own.needs:
        return Told(what=what, verdict=CANNOT_TELL, why=_lacks(seen.needs or own.needs))
    if seen.coils_touch_mm is not None and seen.length.least_mm < seen.coils_touch_mm:
        return Told(
            what=what, verdict=OUTSIDE, why="it may be pressed flat" if seen.is_washer else "its coils may touch"
        )
    return Told(what=what, verdict=_beside(seen.force_n, own.force_n))


def _support(value: SupportResult) -> Told:
    own, seen, what = value.reference, value.as_found, f"side load of {value.reference.support.place}"
    if seen.needs:
        return Told(what=what, verdict=CANNOT_TELL, why=_lacks(seen.needs))
    if seen.side_load_n is None or own.side_load_n is None:
        return Told(what=what, verdict=OUTSIDE, why="bent further than a load is told for")
    return Told(what=what, verdict=_beside(seen.side_load_n, own.side_load_n))


def _beside(seen: Spanned, own: Spanned) -> str:
    """A force as found beside that of the reference: wholly inside it, wholly outside it, or neither."""
    if seen.least > own.most or seen.most < own.least:
        return DIFFERS
    is_inside = own.least - NOTHING_N <= seen.least and seen.most <= own.most + NOTHING_N
    return AGREES if is_inside else CANNOT_TELL
