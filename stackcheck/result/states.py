"""One assembly in the states that its reference names, side by side: joints, plays that a nut sets, gaps; and in which
of them a limit is crossed.

A limit that is said for a state is held against that state; where a gap has none of its own there, the limits that it
is fitted to are laid beside it. Readings are taken to be of 20 °C, or for a play that was set of when it was set.
"""

from __future__ import annotations

from collections import Counter

from stackcheck.mechanics.arrangement import Arrangement, as_believed, as_wanted
from stackcheck.mechanics.bodies import lower
from stackcheck.mechanics.force_limits import HeldForce, held_force
from stackcheck.mechanics.heat import Heat, heat_in
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loops import LoopState, against
from stackcheck.mechanics.set_gap import SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.mechanics.warm_gaps import WarmGap, warm_gap
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found
from stackcheck.model.limits import ForceLimit, StateLimit
from stackcheck.model.part import Amount
from stackcheck.model.reference import Loop, Reference
from stackcheck.result.forces import ForcesResult, SetGapResult, forces, set_gaps
from stackcheck.result.lengths import LoopResult
from stackcheck.result.points import CANNOT_TELL, NOT_LOOKED_AT
from stackcheck.value import Value


class StateGap(Value, kw_only=True):
    """A gap in one state by its lengths, by the reference and as found; None where it cannot be told [mm].

    `grown` is what heat does to it, `change` what is different as found (parts that are the same in
    both cancel), and `cause` the part whose limits leave most of the range. `grows_as_reference`: it was measured as
    found, and heat adds to that by the lengths of the reference, as one of those as found is not known.
    """

    loop: Loop
    reference: Interval | None
    as_found: Interval | None
    grown: WarmGap
    change: Interval | None = None
    cause: str = ""
    grows_as_reference: bool = False

    @property
    def defaults(self) -> tuple[str, ...]:
        """What was taken where nothing is given, in words."""
        if not self.grows_as_reference:
            return self.grown.defaults
        by = "what it adds by the lengths of the reference: one of those as found is not known"
        return (*self.grown.defaults, f"heat adds to the {self.loop.name}, as measured, {by}")


class GapHeld(Value, kw_only=True):
    """A limit of a gap against one state, by the reference and as found: "agrees", "differs", "cannot tell", or
    as found "not looked at".

    `limit` is None where the gap has none of its own in that state: then its limits when fitted are laid beside it.
    """

    loop: Loop
    limit: StateLimit | None
    least_mm: float | None
    most_mm: float | None
    reference: str
    as_found: str
    own: Interval | None
    seen: Interval | None


class ForceHeld(Value, kw_only=True):
    """A limit of a force against one state."""

    limit: ForceLimit
    reference: HeldForce
    as_found: HeldForce


class StateResult(Value, kw_only=True):
    """Everything in one state, in the sequence of the file."""

    heat: Heat
    joints: tuple[ForcesResult, ...]
    set_gaps: tuple[SetGapResult, ...]
    gaps: tuple[StateGap, ...]
    gaps_held: tuple[GapHeld, ...]
    forces_held: tuple[ForceHeld, ...]


def said_for(reference: Reference, heat: Heat | None) -> tuple[str, ...]:
    """The states that limits are said for, but that of `heat`, which is told by itself."""
    named = dict.fromkeys(limit.state for limit in reference.state_limits)
    own = heat.state if heat is not None else ""
    named |= dict.fromkeys(limit.state for limit in reference.force_limits if limit.state not in ("", own))
    return tuple(named)


def states(
    reference: Reference,
    found: Found | None,
    explanation: Explanation | None,
    loops: tuple[LoopResult, ...],
    names: tuple[str, ...],
    *,
    torque_nmm: float | None = None,
    angle: Amount | None = None,
) -> tuple[StateResult, ...]:
    """The states of these names; `loops` are the gaps at 20 °C."""
    results = []
    for name in names:
        heat = heat_in(reference, name)
        joints = forces(reference, found, torque_nmm=torque_nmm, angle=angle, heat=heat, explanation=explanation)
        by_nut, gaps, held = gaps_in(reference, found, explanation, loops, heat)
        results.append(
            StateResult(
                heat=heat,
                joints=joints,
                set_gaps=by_nut,
                gaps=gaps,
                gaps_held=held,
                forces_held=tuple(
                    ForceHeld(
                        limit=limit,
                        reference=held_force(limit, each.reference),
                        as_found=held_force(limit, each.as_found),
                    )
                    for each in joints
                    for limit in each.limits
                ),
            )
        )
    return tuple(results)


def gaps_in(
    reference: Reference,
    found: Found | None,
    explanation: Explanation | None,
    loops: tuple[LoopResult, ...],
    heat: Heat,
) -> tuple[tuple[SetGapResult, ...], tuple[StateGap, ...], tuple[GapHeld, ...]]:
    """Plays that a nut sets, all other gaps, and their limits, in the state of `heat`."""
    wanted = as_wanted(reference)
    believed = as_believed(reference, found, explanation) if found is not None else wanted
    # What no one sets has a row as a gap by its lengths, where parts that are the same in both cancel.
    by_nut = tuple(each for each in set_gaps(reference, found, explanation, heat=heat) if not each.reference.is_sum)
    plays = {each.reference.gap for each in by_nut}
    others = (each for each in loops if each.reference.loop.name not in plays)
    gaps = tuple(gap for each in others if (gap := _gap(each, wanted, believed, heat)) is not None)
    return by_nut, gaps, tuple(_gaps_held(reference, heat.state, loops, gaps, by_nut))


def _gap(result: LoopResult, wanted: Arrangement, believed: Arrangement, heat: Heat) -> StateGap | None:
    """A gap that is a sum of lengths, or that somebody read; None for one that can only be read."""
    own, seen = result.reference, result.as_found
    grown, grown_as_found = (warm_gap(each, own.loop, heat) for each in (wanted, believed))
    if grown is None:
        return None
    lacks = grown_as_found is None and seen.measured is not None
    if lacks:  # a reading needs no lengths, and heat adds to it what it adds to those of the reference
        grown_as_found = grown
    other = None if grown_as_found is None else grown_as_found.wider_mm - grown.wider_mm
    return StateGap(
        loop=own.loop,
        reference=_grown(own, grown),
        as_found=None if _is_unread(result) else _grown(seen, grown_as_found),
        grown=grown,
        change=None if other is None else _change(own, seen, other),
        cause=_widest(seen, grown.by_races_mm),
        grows_as_reference=lacks and heat.is_grown,
    )


def _is_unread(result: LoopResult) -> bool:
    """Whether a list is there, but nobody read what the gap was set to."""
    seen = result.as_found
    return seen is not result.reference and bool(seen.loop.set_by) and seen.measured is None


def _is_looked_at(result: LoopResult) -> bool:
    return not _is_unread(result) and (result.as_found is result.reference or result.as_found.verdict != NOT_LOOKED_AT)


def _grown(state: LoopState, grown: WarmGap | None) -> Interval | None:
    gap = _cold(state)
    if gap is None or grown is None:
        return None
    gap += Interval.exactly(grown.wider_mm)
    races = grown.by_races_mm
    return gap if races is None else gap + Interval(nominal_mm=races.usual, least_mm=races.least, most_mm=races.most)


def _cold(state: LoopState) -> Interval | None:
    """The gap as somebody read it, as it is set, or else as the lengths leave it."""
    least, most = state.limits
    if state.measured is not None:
        return Interval.of_reading(state.measured)
    if state.loop.set_by and least is not None and most is not None:
        return Interval(nominal_mm=(least + most) / 2, least_mm=least, most_mm=most)
    return state.gap


def _change(own: LoopState, seen: LoopState, wider: float) -> Interval | None:
    if seen.measured is not None and (gap := _cold(own)) is not None:
        return Interval.of_reading(seen.measured) - gap + Interval.exactly(wider)
    if own.gap is None or seen.gap is None:
        return None
    terms = [Counter((term.place, term.signed) for term in state.terms) for state in (seen, own)]
    change = Interval.exactly(wider)
    for _, length in (terms[0] - terms[1]).elements():
        change += length
    for _, length in (terms[1] - terms[0]).elements():
        change -= length
    return change


def _widest(state: LoopState, races: Spanned | None) -> str:
    cold = _cold(state)
    if races is not None and (cold is None or races.most - races.least > 2 * cold.half_width_mm):
        return races.main_cause
    if state.measured is not None:
        return "reading of the gap"
    if state.loop.set_by:
        return f"{state.loop.name} that is set"
    widest = max(state.terms, key=lambda term: term.interval.half_width_mm, default=None)
    return "" if widest is None or not widest.interval.half_width_mm > 0 else f"length of the {lower(widest.name)}"


def _gaps_held(
    reference: Reference,
    name: str,
    loops: tuple[LoopResult, ...],
    gaps: tuple[StateGap, ...],
    by_nut: tuple[SetGapResult, ...],
) -> list[GapHeld]:
    told = {each.loop.name: (each.reference, each.as_found) for each in gaps}
    told |= {each.reference.gap: (_play(each.reference), _play(each.as_found)) for each in by_nut}
    held = []
    for result in loops:
        loop = result.reference.loop
        own = [limit for limit in reference.state_limits if limit.of == loop.name and limit.state == name]
        for limit in own or [None]:
            least, most = (limit.least_mm, limit.most_mm) if limit is not None else (loop.least_mm, loop.most_mm)
            first, second = (_to_a_thousandth(gap) for gap in told.get(loop.name, (None, None)))
            if (least, most) == (None, None) or limit is None and (first, second) == (None, None):
                continue
            verdicts = [CANNOT_TELL if gap is None else against(gap, (least, most)) for gap in (first, second)]
            if not _is_looked_at(result):
                second, verdicts[1] = None, NOT_LOOKED_AT
            held.append(
                GapHeld(
                    loop=loop, limit=limit, least_mm=least, most_mm=most, own=first, seen=second,
                    reference=verdicts[0], as_found=verdicts[1],
                )
            )  # fmt: skip
    return held


def _to_a_thousandth(gap: Interval | None) -> Interval | None:
    """What is set to its very limit is past it by nothing that anybody reads when it grows with everything else."""
    if gap is None:
        return None
    return Interval(nominal_mm=round(gap.nominal_mm, 3), least_mm=round(gap.least_mm, 3), most_mm=round(gap.most_mm, 3))


def _play(value: SetGap) -> Interval | None:
    """A play that a nut sets, as it then is."""
    then = value.then_mm
    if then is None:
        return value.play if not value.heat.is_warm else None
    return Interval(nominal_mm=then.usual, least_mm=then.least, most_mm=then.most)
