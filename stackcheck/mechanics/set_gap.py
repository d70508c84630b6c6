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

Left out: radial load (which on a taper bearing makes an axial force of its own, `stackcheck.mechanics.radial_load`).
Source: contact laws of Palmgren (`stackcheck.mechanics.axial.bearings`); the loop is stackcheck's own reckoning.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.laws import held
from stackcheck.mechanics.axial.network import Network, NetworkError, solve
from stackcheck.mechanics.axle import axle_stiffness, rods, stretches
from stackcheck.mechanics.bearing_laws import contact_angle, guessed_inside, pushed, rolling
from stackcheck.mechanics.bodies import Missing, ring_stiffness
from stackcheck.mechanics.clamp import clamped_stack, inner_stack, joins_bearings
from stackcheck.mechanics.heat import COLD, FOLLOWS_IS, Heat, along
from stackcheck.mechanics.heat_of_bearings import axle_expansion, axle_kelvin, clearance_change, seat_of
from stackcheck.mechanics.joint_pull import row_gives, thread_of
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.static_limit import StaticLimit, least_limit
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.expansion import expansion, expansion_along
from stackcheck.model.finding import Standing
from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.model.place_words import in_its_place
from stackcheck.model.reference import Joint, Loop, Reference
from stackcheck.value import Value, replace

GAUGE_N = 50.0
"""End float is read with a dial while the member is pushed to and fro with this force: common practice, no source."""

PAST_MM = 0.02
"""How far past no play is looked at: a few degrees of the nut."""


class SetGap(Value, kw_only=True):
    """One play that a nut sets.

    `play` is what it is set to [mm], the limits of the reference or as measured; `float_mm` what a dial reads under the
    gauge force; `past_n` the force between the rings when the nut is turned `PAST_MM` past no play, `past_deg` that
    turn; `limit` is what the static rating of the weaker bearing allows. Set as warm as it was put together, then at
    `heat`: `then_mm` is what is left of the play (below nothing: the rings are forced), `then_reads_mm` what a dial
    reads then, `then_n` the force between the rings; `by_length_mm` and `by_races_mm` are the two parts that heat adds
    to the play.
    """

    gap: str
    joint: str
    play: Interval | None
    float_mm: Spanned | None = None
    past_n: Spanned | None = None
    past_deg: float | None = None
    limit: StaticLimit | None = None
    heat: Heat = COLD
    then_mm: Spanned | None = None
    then_reads_mm: Spanned | None = None
    then_n: Spanned | None = None
    by_length_mm: Spanned | None = None
    by_races_mm: Spanned | None = None
    defaults: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


def set_loops(reference: Reference) -> tuple[tuple[Joint, Loop], ...]:
    """Every play between two bearings that a joint sets."""
    joints = {joint.name: joint for joint in reference.joints}
    return tuple(
        (joints[loop.set_by], loop)
        for loop in reference.loops
        if loop.set_by in joints and joins_bearings(reference, loop)
    )


def set_gap(
    arrangement: Arrangement, joint: Joint, loop: Loop, *, measured: Interval | None = None, heat: Heat = COLD
) -> SetGap:
    """What one such play does; `measured` where somebody read it as found [mm],
    set as warm as it was put together and then brought to `heat`.
    """
    play = measured
    if play is None and loop.least_mm is not None and loop.most_mm is not None:
        play = Interval(nominal_mm=(loop.least_mm + loop.most_mm) / 2, least_mm=loop.least_mm, most_mm=loop.most_mm)
    try:
        unknowns, answers = with_variants(lambda unknowns: _answers(unknowns, arrangement, joint, loop, play, heat))
    except (Missing, NetworkError) as problem:
        return SetGap(gap=loop.name, joint=joint.name, play=play, heat=heat, needs=tuple(map(str, problem.args)))
    thread = thread_of(joint)
    return SetGap(
        gap=loop.name,
        joint=joint.name,
        play=play,
        past_deg=None if thread is None else 360 * PAST_MM / thread.pitch_mm,
        limit=least_limit(arrangement.reference, loop),
        heat=heat,
        defaults=_defaults(arrangement.reference, loop, heat),
        **{name: unknowns.spanned(values) for name, values in answers.items()},
    )


def _defaults(reference: Reference, loop: Loop, heat: Heat) -> tuple[str, ...]:
    guessed = dict.fromkeys(
        word for place in (loop.start, loop.end) for word in guessed_inside(reference.part_at(place))
    )
    inside = (f"{', '.join(guessed)} of the bearings estimated from their sizes",) if guessed else ()
    return (*inside, FOLLOWS_IS) if heat.is_warm else inside


def _answers(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop, play: Interval | None, heat: Heat
) -> dict[str, Any]:
    """Every answer by its field: the force past no play, and where the play is known the dial, cold and warm."""
    pair = _Pair(unknowns, arrangement, joint, loop)
    answers = {"past_n": np.ravel(np.abs(solve(pair.network(-PAST_MM)).forces["nut"]))}
    if play is None:
        return answers
    asked = unknowns.value(f"{loop.name} that is set", play.least_mm, play.nominal_mm, play.most_mm)
    answers["float_mm"] = _dial(pair.network(asked))
    if not heat.is_warm:
        return answers
    before = heat.together
    by_length = pair.by_length(heat) - pair.by_length(before)
    by_races = sum(pair.by_races(heat)) - sum(pair.by_races(before))
    then = asked + by_length + by_races
    warm = pair.network(then)
    return answers | {
        "by_length_mm": np.ravel(by_length), "by_races_mm": np.ravel(by_races), "then_mm": np.ravel(then),
        "then_reads_mm": _dial(warm), "then_n": np.ravel(np.abs(solve(warm).forces["nut"])),
    }  # fmt: skip


def play_grows(arrangement: Arrangement, joint: Joint, loop: Loop, heat: Heat) -> Spanned:
    """What heat adds to a play that a nut sets, below nothing where it takes some away [mm], whatever the play is.

    Raises:
        Missing: what it would need.
    """

    def grows(unknowns: Unknowns) -> Any:
        pair, before = _Pair(unknowns, arrangement, joint, loop), heat.together
        by_length = pair.by_length(heat) - pair.by_length(before)
        return np.ravel(by_length + sum(pair.by_races(heat)) - sum(pair.by_races(before)))

    unknowns, values = with_variants(grows)
    return unknowns.spanned(values)


def _dial(network: Network) -> Any:
    """How far the outer member moves between the gauge force one way and the other [mm]."""
    moved = [
        solve(replace(network, loads={"outer, first": force})).positions["outer, first"]
        for force in (-GAUGE_N, GAUGE_N)
    ]
    return np.ravel(moved[1] - moved[0])


class _Pair:
    """Inner rings joined by what the nut presses, outer rings by the hub."""

    def __init__(self, unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop):
        self.unknowns, self.arrangement, self.joint, self.loop = unknowns, arrangement, joint, loop
        standings = {place: _standing(arrangement, place) for place in (loop.start, loop.end)}
        self.ways = [pushed(arrangement.ruler, standings[place]) for place in (loop.start, loop.end)]
        if set(self.ways) != {"first", "second"}:
            raise Missing(
                "two bearings of one direction that look at each other, or away from each other, around the "
                f"{loop.name}"
            )
        # Small ends of the rollers toward one another: inner rings nearer together take the play away;
        # else further apart.
        self.opens = 1.0 if self.ways == ["second", "first"] else -1.0
        self.parts = {place: arrangement.ruler.part(standing) for place, standing in standings.items()}
        stack = clamped_stack(arrangement.reference, joint)
        if stack is None:
            raise Missing(
                f"inner rings that the {joint.name} presses: what a pair does whose outer rings are pressed is not reckoned"
            )
        self.outer_stack = (
            loop.open_stack if loop.closed_stack == inner_stack(arrangement.reference, loop) else loop.closed_stack
        )
        self.pressed = row_gives(unknowns, arrangement, stack, _run(arrangement, stack, *joint.clamps), joint)
        self.between = row_gives(
            unknowns, arrangement, self.outer_stack, _run(arrangement, self.outer_stack, loop.start, loop.end), joint
        )[1:-1]

    def network(self, play_mm: Any) -> Network:
        """`play_mm` from where all rollers just touch."""
        balls = [
            rolling(self.unknowns, part, place, f"inner, {at}", f"outer, {at}", pushed=way)
            for (place, part), at, way in zip(self.parts.items(), ("first", "second"), self.ways)
        ]
        # Half of each ring.
        inner, outer = (
            sum(1 / (2 * ring_stiffness(self.unknowns, part, ring)) for part in self.parts.values())
            for ring in ("inner", "outer")
        )
        hub = outer + sum(soft for _, soft, _ in self.between)
        under_nut = sum(soft for member, soft, _ in self.pressed if member.standing.home not in self.parts)
        length, thread = sum(length for _, _, length in (*self.pressed, *self.between)), thread_of(self.joint)
        axle = 0.0
        if thread is not None and length > 0:
            around = stretches(self.arrangement, self.pressed)
            shank = rods(self.arrangement.reference, self.joint)
            axle = 1 / axle_stiffness(self.unknowns, thread, around, length, shank)
        nut = held(
            "nut", "inner, first", "inner, second", length=self.opens * play_mm, k=1 / (inner + under_nut + axle)
        )
        case = held("hub", "outer, first", "outer, second", length=0.0, k=1 / hub)
        return Network(elements=(*balls, nut, case), fixed={"inner, first": 0.0})

    def by_length(self, heat: Heat) -> float:
        """What the growth of the paths between the middles of the two bearings adds to the play [mm].

        The inner rings stand between the shoulder of the axle and its nut:
        they come apart by what the axle grows there, less what the parts outside them grow.
        """
        reference = self.arrangement.reference
        outer, apart = 0.0, 0.0
        for member, _, length in self.between:
            part = self.arrangement.ruler.part(member.standing)
            outer += (
                length
                * expansion_along(part)
                * heat.kelvin(member.standing.home, part.id if part is not None else None)
            )
            apart += length
        outside, gripped = 0.0, 0.0
        for member, _, length in self.pressed:
            part, home = self.arrangement.ruler.part(member.standing), member.standing.home
            if home in self.parts:
                outer += length / 2 * expansion(part) * heat.ring(part, home, "outer")
                outside += length / 2 * expansion(part) * heat.ring(part, home, "inner")
                apart, gripped = apart + length / 2, gripped + length / 2
            else:
                outside += length * expansion_along(part) * heat.kelvin(home, part.id if part is not None else None)
                gripped += length
        inner = axle_expansion(reference, self.joint) * axle_kelvin(reference, heat) * (gripped + apart) - outside
        return self.opens * (inner - outer)

    def by_races(self, heat: Heat) -> list[Any]:
        """What the growth of the races adds to the play of each bearing [mm]."""
        return [
            along(
                clearance_change(self.unknowns, part, place, seat_of(self.arrangement, place, self.outer_stack), heat),
                contact_angle(self.unknowns, part),
            )
            for place, part in self.parts.items()
        ]


def _standing(arrangement: Arrangement, place: str) -> Standing:
    for stack in arrangement.reference.stacks:
        for member in arrangement.members(stack.name):
            if member.standing.home == place and arrangement.ruler.part(member.standing) is not None:
                if arrangement.ruler.part(member.standing).kind not in SINGLE_DIRECTION_KINDS:
                    raise Missing(f"a bearing of one direction in {place}")
                return member.standing
    raise Missing(in_its_place(arrangement.reference, place))


def _run(arrangement: Arrangement, stack: str, start: str, end: str) -> list[Member]:
    members = list(arrangement.members(stack))
    homes = [member.standing.home for member in members]
    absent = [place for place in (start, end) if place not in homes]
    if absent:
        raise Missing(*(in_its_place(arrangement.reference, place) for place in absent))
    first, last = sorted((homes.index(start), homes.index(end)))
    return members[first : last + 1]
