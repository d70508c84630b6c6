"""Two bearings of one direction whose play a nut sets: end float as a dial reads it, and how hard the first step past it is.

No length decides here: the nut is turned until the play is as wanted, and then locked. While it is seated, its whole
tension goes through the rollers; backed off, they have the play that the slot leaves. A dial under a gauge force reads that
play and the give of the bearings; and past no play the preload rises within hundredths of a millimetre to kilonewtons,
because nothing gives but the rolling contacts, the rings, the parts under the nut and the axle.

Left out: radial load (which on a taper bearing makes an axial force of its own), heat, and the growth of the races.
Source: contact laws of Palmgren (`stackcheck.mechanics.axial.bearings`); the loop is stackcheck's own reckoning.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.laws import held
from stackcheck.mechanics.axial.network import Network, NetworkError, solve
from stackcheck.mechanics.bearing_laws import guessed_inside, pushed, rolling
from stackcheck.mechanics.bodies import Missing, ring_stiffness
from stackcheck.mechanics.clamp import clamped_stack, inner_stack, joins_bearings
from stackcheck.mechanics.joint_pull import axle_stiffness, row_gives, thread_of
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.static_limit import StaticLimit, least_limit
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.model.reference import Joint, Loop, Reference
from stackcheck.value import Value, replace

GAUGE_N = 50.0
"""End float is read with a dial while the member is pushed to and fro with this force: common practice, no source."""

PAST_MM = 0.02
"""How far past no play is looked at: a few degrees of the nut."""


class SetGap(Value, kw_only=True):
    """One play that a nut sets.

    `play` is what it is set to [mm], the limits of the reference or as measured; `float_mm` what a dial reads under the
    gauge force; `past_n` the force between the rings when the nut is turned `PAST_MM` past no play, `past_deg` that turn;
    `limit` is what the static rating of the weaker bearing allows.
    """

    gap: str
    joint: str
    play: Interval | None
    float_mm: Spanned | None = None
    past_n: Spanned | None = None
    past_deg: float | None = None
    limit: StaticLimit | None = None
    defaults: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


def set_loops(reference: Reference) -> tuple[tuple[Joint, Loop], ...]:
    """Every play between two bearings that a joint sets."""
    joints = {joint.name: joint for joint in reference.joints}
    return tuple((joints[loop.set_by], loop) for loop in reference.loops if loop.set_by in joints and joins_bearings(reference, loop))


def set_gap(arrangement: Arrangement, joint: Joint, loop: Loop, *, measured: Interval | None = None) -> SetGap:
    """What one such play does; `measured` where somebody read it as found [mm]."""
    play = measured
    if play is None and loop.least_mm is not None and loop.most_mm is not None:
        play = Interval(nominal_mm=(loop.least_mm + loop.most_mm) / 2, least_mm=loop.least_mm, most_mm=loop.most_mm)
    try:
        unknowns, (read, past) = with_variants(lambda unknowns: _answers(unknowns, arrangement, joint, loop, play))
    except (Missing, NetworkError) as problem:
        return SetGap(gap=loop.name, joint=joint.name, play=play, needs=tuple(map(str, problem.args)))
    thread = thread_of(joint)
    return SetGap(
        gap=loop.name, joint=joint.name, play=play, float_mm=None if read is None else unknowns.spanned(read), past_n=unknowns.spanned(past),
        past_deg=None if thread is None else 360 * PAST_MM / thread.pitch_mm, limit=least_limit(arrangement.reference, loop),
        defaults=_defaults(arrangement.reference, loop),
    )  # fmt: skip


def _defaults(reference: Reference, loop: Loop) -> tuple[str, ...]:
    guessed = dict.fromkeys(word for place in (loop.start, loop.end) for word in guessed_inside(reference.part_at(place)))
    return (f"{', '.join(guessed)} of the bearings estimated from their sizes",) if guessed else ()


def _answers(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop, play: Interval | None) -> tuple[Any, Any]:
    """End float under the gauge force at the play (None where it is not known), and the force past no play."""
    past = np.ravel(np.abs(solve(_pair(unknowns, arrangement, joint, loop, -PAST_MM)).forces["nut"]))
    if play is None:
        return None, past
    asked = unknowns.value(f"{loop.name} that is set", play.least_mm, play.nominal_mm, play.most_mm)
    network = _pair(unknowns, arrangement, joint, loop, asked)
    moved = [solve(replace(network, loads={"outer, first": force})).positions["outer, first"] for force in (-GAUGE_N, GAUGE_N)]
    return np.ravel(moved[1] - moved[0]), past


def _pair(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop, play_mm: Any) -> Network:
    """Inner rings joined by what the nut presses, outer rings by the hub; `play_mm` from where all rollers just touch."""
    standings = {place: _standing(arrangement, place) for place in (loop.start, loop.end)}
    ways = [pushed(arrangement.reference, standings[place]) for place in (loop.start, loop.end)]
    if set(ways) != {"first", "second"}:
        raise Missing(f"two bearings of one direction that look at each other, or away from each other, around the {loop.name}")
    # Small ends of the rollers toward one another: inner rings nearer together take the play away; else further apart.
    opens = 1.0 if ways == ["second", "first"] else -1.0
    parts = {place: arrangement.ruler.part(standing) for place, standing in standings.items()}
    balls = [
        rolling(unknowns, parts[place], place, f"inner, {at}", f"outer, {at}", pushed=way)
        for place, at, way in zip((loop.start, loop.end), ("first", "second"), ways)
    ]  # fmt: skip
    inner, outer = (sum(1 / (2 * ring_stiffness(part, ring)) for part in parts.values()) for ring in ("inner", "outer"))  # half of each
    hub = outer + sum(soft for _, soft, _ in _between(unknowns, arrangement, joint, loop))
    under_nut, length = _under_the_nut(unknowns, arrangement, joint, loop)
    thread = thread_of(joint)
    axle = 0.0 if thread is None or not length > 0 else 1 / axle_stiffness(unknowns, thread, length)
    nut = held("nut", "inner, first", "inner, second", length=opens * play_mm, k=1 / (inner + under_nut + axle))
    case = held("hub", "outer, first", "outer, second", length=0.0, k=1 / hub)
    return Network(elements=(*balls, nut, case), fixed={"inner, first": 0.0})


def _standing(arrangement: Arrangement, place: str) -> Any:
    for stack in arrangement.reference.stacks:
        for member in arrangement.members(stack.name):
            if member.standing.home == place and arrangement.ruler.part(member.standing) is not None:
                if arrangement.ruler.part(member.standing).kind not in SINGLE_DIRECTION_KINDS:
                    raise Missing(f"a bearing of one direction in {place}")
                return member.standing
    raise Missing(f"{arrangement.reference.part_at(place).name} in its place ({place})")


def _between(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop) -> list[tuple[Member, Any, float]]:
    """What stands between the two bearings in the path of the outer rings, each with its 1/k [mm/N] and length [mm]."""
    stack = loop.open_stack if loop.closed_stack == inner_stack(arrangement.reference, loop) else loop.closed_stack
    return row_gives(unknowns, arrangement, stack, _run(arrangement, stack, loop.start, loop.end), joint)[1:-1]


def _under_the_nut(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop) -> tuple[Any, float]:
    """Σ 1/k [mm/N] of what the nut presses besides the two bearings, and the length of axle under tension [mm]."""
    stack = clamped_stack(arrangement.reference, joint)
    if stack is None:
        raise Missing(f"the stack through inner rings that the {joint.name} clamps")
    pressed = row_gives(unknowns, arrangement, stack, _run(arrangement, stack, *joint.clamps), joint)
    give = sum(soft for member, soft, _ in pressed if member.standing.home not in (loop.start, loop.end))
    return give, sum(length for _, _, length in (*pressed, *_between(unknowns, arrangement, joint, loop)))


def _run(arrangement: Arrangement, stack: str, start: str, end: str) -> list[Member]:
    members = list(arrangement.members(stack))
    homes = [member.standing.home for member in members]
    absent = [place for place in (start, end) if place not in homes]
    if absent:
        raise Missing(*(f"{arrangement.reference.part_at(place).name} in its place ({place})" for place in absent))
    first, last = sorted((homes.index(start), homes.index(end)))
    return members[first : last + 1]
