"""What a joint clamps, and what that does to the two bearings of a loop: the reference, or as found.

A joint pulls the parts between its two clamped places together; where two bearings stand among them, the path of their
outer rings is the other side of a loop, for which `loop_forces` answers. Everything that is not known is a range. Paths
with a spring of unknown stiffness, or a gap that a nut sets, are not computed: the answer names what is missing.

Left out: tilt, bending, a load across, the slip of fits, yield (common practice of an axial sum, no source).
`radial_load`, `slip_force` and `crushing` tell of the last three by themselves.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import clamps_loop, drawn_shut
from stackcheck.mechanics.crushing import Crushing, crushing
from stackcheck.mechanics.force_defaults import defaults_of
from stackcheck.mechanics.force_terms import ForceTerms, force_terms
from stackcheck.mechanics.heat import COLD, Heat
from stackcheck.mechanics.joint_pull import faced, pull
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loop_forces import NOTHING_N, LoopChange, LoopForces, either_way, loop_forces
from stackcheck.mechanics.settling import Settling, settling
from stackcheck.mechanics.shared_clamp import SharedClamp, shared_clamps
from stackcheck.mechanics.static_limit import StaticLimit
from stackcheck.mechanics.thread_end import further_in, thread_room
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Spanned, with_variants
from stackcheck.mechanics.warm_joint import tensions_then
from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.model.reference import Joint
from stackcheck.model.touching_pairs import bearing_loops
from stackcheck.value import Value, replace


class JointForces(Value, kw_only=True):
    """One joint: tension [N] and its terms, the loops that it clamps, the defaults that went in, and what is missing.

    `then_n` is the tension at the temperatures asked for, where the joint clamps no loop. `turned_past` is the limit of
    bearings that a turn by an angle goes into and forces past it: no figure of the tension holds then. `sets` names the
    gap that the joint sets when it is backed off, `draws_shut` gaps that take of its pull, nobody says how much;
    `stress_mpa` is the highest stress in its thread; `thread_room` how much longer what it clamps is than where its
    thread ends [mm], below nothing where the nut meets that end first and leaves no clamp (where it may be either, the
    loops are told for a nut that does not); `further_in_mm` how much further the nut runs than by the reference where
    nobody says where the thread ends; `settling` what it loses when its faces have settled, None for a nut that is
    backed off; `crushing` what it may press harder than a mild metal bears, the worst first; `shared` how its pull
    divides between paths side by side.
    """

    joint: Joint
    torque_nmm: float | None
    tension_n: Spanned | None
    heat: Heat = COLD
    then_n: Spanned | None = None
    turned_past: StaticLimit | None = None
    sets: str = ""
    draws_shut: tuple[str, ...] = ()
    stress_mpa: float | None = None
    thread_room: Interval | None = None
    further_in_mm: float | None = None
    settling: Settling | None = None
    crushing: tuple[Crushing, ...] = ()
    shared: tuple[SharedClamp, ...] = ()
    terms: ForceTerms | None = None
    loops: tuple[LoopForces, ...] = ()
    defaults: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()

    @property
    def is_unclamped(self) -> bool:
        """Whether the nut is stopped by the end of its thread for sure, so that the parts behind it are loose."""
        return _meets_its_end(self.thread_room)

    @property
    def may_be_unclamped(self) -> bool:
        return self.thread_room is not None and self.thread_room.least_mm <= 0 <= self.thread_room.most_mm

    @property
    def now_n(self) -> Spanned | None:
        """The tension at the temperature asked for where a loop tells it, else that of tightening."""
        return next((each.then_n for each in (self, *self.loops) if each.then_n is not None), self.tension_n)

    @property
    def at_c(self) -> float:
        """The temperature of everything that is not told apart [°C]."""
        return self.heat.at_c


class JointChange(Value, kw_only=True):
    """The tension as found less that of the reference [N], `then_n` at the temperatures asked for where the joint
    clamps no loop, and every loop in the sequence of the forces; None: not known.
    """

    tension_n: Spanned | None = None
    then_n: Spanned | None = None
    loops: tuple[LoopChange | None, ...] = ()


def joint_forces(
    arrangement: Arrangement, joint: Joint, *, torque_nmm: float | None = None, heat: Heat = COLD
) -> JointForces:
    """What one joint of an arrangement does at its torque, or at another one.

    Args:
        arrangement: what stands where.
        torque_nmm: instead of the torque of the reference [N·mm].
        heat: tightened as warm as it was put together, then everything brought to its temperature.
    """
    return _joint((arrangement,), joint, torque_nmm, heat)[0][0]


def compared_forces(
    wanted: Arrangement, believed: Arrangement, joint: Joint, *, torque_nmm: float | None = None, heat: Heat = COLD
) -> tuple[JointForces, JointForces, JointChange]:
    """The same for two arrangements, and the difference with its own range."""
    (own, seen), change = _joint((wanted, believed), joint, torque_nmm, heat)
    return own, seen, change


def _joint(
    arrangements: tuple[Arrangement, ...], joint: Joint, torque_nmm: float | None, heat: Heat
) -> tuple[list[JointForces], JointChange]:
    torque = torque_nmm if torque_nmm is not None else joint.torque.nominal if joint.torque else None
    thread, reference, stated = thread_of(joint), arrangements[0].reference, joint
    joint = joint if thread is None else faced(reference, joint, thread)
    needs = [f"the {what} of the {joint.name}" for what, known in (("torque", torque), ("thread", thread)) if not known]
    if needs:
        if thread is None and joint.thread:
            needs[-1] += f' with its pitch, like M16x1.5 or 3/4-16 UNF ("{joint.thread}" tells none)'
        absent = JointForces(joint=joint, torque_nmm=torque, tension_n=None, heat=heat, needs=tuple(needs))
        return [absent] * len(arrangements), JointChange()
    try:
        unknowns, pulls = with_variants(lambda u: tuple(pull(u, each, joint, torque, thread) for each in arrangements))
    except Missing as problem:
        if len(arrangements) > 1:  # one of them can be told all the same
            return _one_by_one(arrangements, stated, torque_nmm, heat)
        absent = JointForces(joint=joint, torque_nmm=torque, tension_n=None, heat=heat, needs=tuple(problem.args))
        return [absent], JointChange()
    # A play that this joint sets is no loop of lengths: `stackcheck.mechanics.set_gap` answers for it.
    clamped = [
        loop for loop in bearing_loops(reference) if clamps_loop(reference, joint, loop) and loop.set_by != joint.name
    ]
    loops = [loop_forces(arrangements, joint, loop, torque, thread, heat) for loop in clamped]
    sets = next((loop.name for loop in reference.loops if loop.set_by and loop.set_by == joint.name), "")
    forces = []
    then, then_change = ([None] * len(arrangements), None)
    if heat.is_warm and not (loops or sets):
        then, then_change = tensions_then(arrangements, joint, torque, thread, heat)
    ends = [reference.part_at(place) for loop in clamped for place in (loop.start, loop.end)]
    follows = heat.is_grown and any(part.kind in SINGLE_DIRECTION_KINDS for part in ends)
    rooms = [thread_room(arrangement, joint) for arrangement in arrangements]
    for i, (arrangement, pulled) in enumerate(zip(arrangements, pulls)):
        through = tuple(_unclamped(each[i], joint) if _meets_its_end(rooms[i]) else each[i] for each, _ in loops)
        past = turned_past(joint, through)
        tension = None if past is not None else _turned_against(joint, through) or unknowns.spanned(pulled)
        if past is not None:
            through = tuple(replace(each, then_n=None) for each in through)
        forces.append(
            JointForces(
                joint=joint,
                torque_nmm=torque,
                tension_n=tension,
                heat=heat,
                loops=through,
                then_n=then[i],
                thread_room=rooms[i],
                further_in_mm=further_in(arrangements[0], arrangement, joint) if i else None,
                sets=sets,
                draws_shut=drawn_shut(reference, joint),
                turned_past=past,
                settling=None if sets or past else _settling(arrangement, joint, torque, thread, through),
                stress_mpa=None if tension is None else tension.most / thread.stress_area_mm2,
                crushing=crushing(arrangement, joint, torque) if past is None else (),
                shared=shared_clamps(arrangement, joint, torque, thread) if past is None else (),
                terms=force_terms(arrangement, joint, torque),
                defaults=defaults_of(
                    arrangement, stated, clamped, through, faced=joint, settles=not sets, follows=follows
                ),
            )
        )
    changes = tuple(None if any(map(_meets_its_end, rooms)) else change for _, change in loops)
    tension = None
    if all(each.tension_n is not None for each in forces):
        by_network = _turned_against(joint, tuple(change for change in changes if change is not None))
        tension = by_network or unknowns.spanned(pulls[-1] - pulls[0])
    return forces, JointChange(tension_n=tension, then_n=then_change, loops=changes)


def _one_by_one(
    arrangements: tuple[Arrangement, ...], joint: Joint, torque_nmm: float | None, heat: Heat
) -> tuple[list[JointForces], JointChange]:
    """Every arrangement by itself, without a difference; one that cannot be told names what each loop needs too."""
    told = [_joint((each,), joint, torque_nmm, heat)[0][0] for each in arrangements]
    loops = max((each.loops for each in told), key=len)
    return [each if each.loops else replace(each, loops=_untold(loops, each.needs)) for each in told], JointChange(
        loops=(None,) * len(loops)
    )


def _untold(loops: tuple[LoopForces, ...], needs: tuple[str, ...]) -> tuple[LoopForces, ...]:
    return tuple(
        LoopForces(loop=each.loop, slides=None, held=None, float_slides=None, float_held=None, needs=needs)
        for each in loops
    )


def _meets_its_end(room: Interval | None) -> bool:
    return room is not None and room.most_mm < 0


def _unclamped(loop: LoopForces, joint: Joint) -> LoopForces:
    """Two bearings that nothing clamps: no preload, and the way the parts can move is no end float of theirs."""
    needs = (f"a clamp: the {joint.name} meets the end of its thread first",)
    return LoopForces(loop=loop.loop, slides=None, held=None, float_slides=None, float_held=None, needs=needs)


def _turned_against(joint: Joint, loops: tuple[LoopForces | LoopChange, ...]) -> Spanned | None:
    """The tension of a joint that is turned on by an angle, where it turns against bearings: from their network.

    None for one tightened by torque alone, whose tension no network changes, and where no network could be built.
    """
    pulls = [(each.pull_slides, each.pull_held) for each in loops if each.pull_slides is not None]
    return either_way(*pulls[0]) if joint.angle is not None and pulls else None


def turned_past(joint: Joint, loops: tuple[LoopForces, ...]) -> StaticLimit | None:
    """The limit of bearings that a joint turned on by an angle forces past it, where nothing else may take its pull."""
    for each in loops:
        if joint.angle is None or each.slides is None or each.limit is None or each.least_clamp_n is None:
            continue
        if each.least_clamp_n.least < NOTHING_N and max(each.slides.most, each.held.most) > each.limit.force_n:
            return each.limit
    return None


def _settling(
    arrangement: Arrangement, joint: Joint, torque: float, thread: Thread, loops: tuple[LoopForces, ...]
) -> Settling:
    """By the network where bearings carry part of the clamp, else by the stack as one row of springs."""
    by_row = settling(arrangement, joint, torque, thread)
    lost = [
        (each.lost_slides, each.lost_held)
        for each in loops
        if each.lost_slides is not None and each.lost_held is not None
    ]
    return replace(by_row, loss_n=either_way(*lost[0]), needs=()) if lost else by_row
