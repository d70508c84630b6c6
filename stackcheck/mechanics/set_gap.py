"""Two bearings of one direction whose play a nut sets:
end float as a dial reads it, and how hard the first step past it is.

No length decides here: the nut is turned until the play is as wanted, and then locked. While it is seated, its whole
tension goes through the rollers; backed off, they have the play that the slot leaves. A dial under a gauge force reads
that play and the give of the bearings; and past no play the preload rises within hundredths of a millimetre to
kilonewtons, because nothing gives but the rolling contacts, the rings, the parts under the nut and the axle.

Warm, the play is another one twice over: the paths between the bearings grow apart, α L ΔT each, and so do the races,
Δd/(2 tan α) along the axis. Where the small ends of the rollers look at each other (O) a hub warmer than its axle takes
play by its length and gives play by its races; where they look away from each other (X) both give play. With the apexes
of the two outer races in one point the two cancel (Rusu, Tudose and Tudose, Acta Technica Napocensis 56 (2013),
abstract read).

The nut may as well be an adjuster that presses the outer rings, or a cover over shims: what is pressed and what gives
is `stackcheck.mechanics.set_pair`'s. Where no joint sets the gap it is the sum of its lengths, each an unknown.

Left out: radial load (which on a taper bearing makes an axial force of its own, `stackcheck.mechanics.radial_load`).
Source: contact laws of Palmgren (`stackcheck.mechanics.axial.bearings`); the loop is stackcheck's own reckoning.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.network import Network, NetworkError, solve
from stackcheck.mechanics.bearing_laws import guessed_inside
from stackcheck.mechanics.bodies import Missing, lower
from stackcheck.mechanics.heat import COLD, FOLLOWS_IS, Heat
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.mechanics.set_pair import FORCED, SetPair, set_pair
from stackcheck.mechanics.static_limit import StaticLimit, least_limit
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.reference import Joint, Loop
from stackcheck.value import Value, replace

GAUGE_N = 50.0
"""End float is read with a dial while the member is pushed to and fro with this force: common practice, no source."""

PAST_MM = 0.02
"""How far past no play is looked at: a few degrees of the nut."""

SHIM_MM = 0.05
"""A step of shim."""

TURN = 1 / 8
"""A step of an adjuster, in turns."""


class Step(Value, kw_only=True):
    """One step past no play: how far [mm], as what part of a turn (0 for a shim), and the force between the rings [N]."""

    mm: float
    turn: float
    force_n: Spanned


class SetGap(Value, kw_only=True):
    """One play that a nut sets.

    `play` is what it is set to [mm], the limits of the reference or as measured; `float_mm` what a dial reads under the
    gauge force; `past_n` the force between the rings when the nut is turned `PAST_MM` past no play, `past_deg` that
    turn; `limit` is what the static rating of the weaker bearing allows. Set as warm as it was put together, then at
    `heat`: `then_mm` is what is left of the play (below nothing: the rings are forced), `then_reads_mm` what a dial
    reads then, `then_n` the force between the rings; `by_length_mm` and `by_races_mm` are the two parts that heat adds
    to the play. `is_sum` tells a gap that nobody sets: its lengths leave it. `now_n` is the force between the rings where
    the play may be less than none; `step` what a mechanic's step does to outer rings that an adjuster or a cover presses.
    """

    gap: str
    joint: str
    play: Interval | None
    float_mm: Spanned | None = None
    past_n: Spanned | None = None
    past_deg: float | None = None
    is_sum: bool = False
    now_n: Spanned | None = None
    step: Step | None = None
    limit: StaticLimit | None = None
    heat: Heat = COLD
    then_mm: Spanned | None = None
    then_reads_mm: Spanned | None = None
    then_n: Spanned | None = None
    by_length_mm: Spanned | None = None
    by_races_mm: Spanned | None = None
    defaults: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


def set_gap(
    arrangement: Arrangement, joint: Joint | None, loop: Loop, *, measured: Interval | None = None, heat: Heat = COLD
) -> SetGap:
    """What one such play does; `measured` where somebody read it as found [mm],
    set as warm as it was put together and then brought to `heat`.
    """
    is_sum = not loop.set_by and measured is None
    play = measured if not is_sum else loop_lengths(arrangement, loop).total
    if play is None and loop.set_by and loop.least_mm is not None and loop.most_mm is not None:
        play = Interval(nominal_mm=(loop.least_mm + loop.most_mm) / 2, least_mm=loop.least_mm, most_mm=loop.most_mm)
    thread = None if joint is None else thread_of(joint)
    told = {
        "gap": loop.name, "joint": loop.set_by if joint is None else joint.name, "play": play, "is_sum": is_sum, "heat": heat,
    }  # fmt: skip
    try:
        unknowns, (pair, answers) = with_variants(lambda u: _answers(u, arrangement, joint, loop, play, heat, is_sum))
    except (Missing, NetworkError) as problem:
        return SetGap(**told, needs=tuple(map(str, problem.args)))
    answers = {name: unknowns.spanned(values) for name, values in answers.items()}
    step = answers.pop("step", None)
    turn = 0.0 if thread is None else TURN
    return SetGap(
        **told,
        past_deg=None if thread is None else 360 * PAST_MM / thread.pitch_mm,
        limit=least_limit(arrangement.reference, pair.places),
        step=None if step is None else Step(mm=_step_mm(joint), turn=turn, force_n=step),
        defaults=_defaults(pair, heat),
        **answers,
    )


def _step_mm(joint: Joint | None) -> float:
    """A shim's thickness, or an eighth of a turn of the thread of an adjuster [mm]."""
    thread = None if joint is None else thread_of(joint)
    return SHIM_MM if thread is None else TURN * thread.pitch_mm


def _defaults(pair: SetPair, heat: Heat) -> tuple[str, ...]:
    guessed = dict.fromkeys(word for part in pair.parts.values() for word in guessed_inside(part))
    inside = (f"{', '.join(guessed)} of the bearings estimated from their sizes",) if guessed else ()
    return (*inside, *pair.defaults, *((FOLLOWS_IS,) if heat.is_warm else ()))


def _answers(
    unknowns: Unknowns,
    arrangement: Arrangement,
    joint: Joint | None,
    loop: Loop,
    play: Interval | None,
    heat: Heat,
    is_sum: bool,
) -> tuple[SetPair, dict[str, Any]]:
    """Every answer by its field: the force past no play, and where the play is known the dial, cold and warm."""
    pair = set_pair(unknowns, arrangement, joint, loop)
    answers = {"past_n": _force(pair.network(-PAST_MM))}
    if pair.is_pressed:
        answers["step"] = _force(pair.network(-_step_mm(joint)))
    if play is None:
        return pair, answers
    if is_sum:
        asked = sum(
            term.sign
            * unknowns.value(
                f"length of the {lower(term.name)}",
                term.interval.least_mm,
                term.interval.nominal_mm,
                term.interval.most_mm,
            )
            for term in loop_lengths(arrangement, loop).terms
        )
    else:
        asked = unknowns.value(f"{loop.name} that is set", play.least_mm, play.nominal_mm, play.most_mm)
    cold = pair.network(asked)
    answers["float_mm"] = _dial(cold)
    if play.least_mm < 0:
        answers["now_n"] = _force(cold)
    if not heat.is_warm:
        return pair, answers
    before = COLD if is_sum else heat.together
    by_length = pair.by_length(heat) - pair.by_length(before)
    by_races = pair.by_races(heat) - pair.by_races(before)
    then = asked + by_length + by_races
    warm = pair.network(then)
    return pair, answers | {
        "by_length_mm": np.ravel(by_length), "by_races_mm": np.ravel(by_races), "then_mm": np.ravel(then),
        "then_reads_mm": _dial(warm), "then_n": _force(warm),
    }  # fmt: skip


def play_grows(arrangement: Arrangement, joint: Joint | None, loop: Loop, heat: Heat) -> Spanned:
    """What heat adds to a play that a nut sets, below nothing where it takes some away [mm], whatever the play is.

    Raises:
        Missing: what it would need.
    """

    def grows(unknowns: Unknowns) -> Any:
        pair, before = set_pair(unknowns, arrangement, joint, loop), heat.together
        by_length = pair.by_length(heat) - pair.by_length(before)
        return np.ravel(by_length + pair.by_races(heat) - pair.by_races(before))

    unknowns, values = with_variants(grows)
    return unknowns.spanned(values)


def _force(network: Network) -> Any:
    """The force between the rings [N]."""
    return np.ravel(np.abs(solve(network).forces[FORCED]))


def _dial(network: Network) -> Any:
    """How far the outer member moves between the gauge force one way and the other [mm]."""
    moved = [
        solve(replace(network, loads={"outer, first": force})).positions["outer, first"]
        for force in (-GAUGE_N, GAUGE_N)
    ]
    return np.ravel(moved[1] - moved[0])
