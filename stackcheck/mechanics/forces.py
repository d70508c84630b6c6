"""What a joint clamps, and what that does to the two bearings of a loop: the reference, or as found.

A joint pulls the parts between its two clamped places together; where two bearings stand among them, the path of their
outer rings is the other side of a loop, and the balls or rollers join the two. This module turns an arrangement into a
network (`stackcheck.mechanics.axial`), with everything that is not known as a range, and asks it for tension, clamp,
preload and end float. Paths with a spring of unknown stiffness, or a gap that a nut sets, are not computed: the answer names
what is missing.

Left out: tilt, bending, radial load, the slip force of fits, yield, time (common practice of an axial sum, no source).
"""

from __future__ import annotations

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.bearings import estimated_deep_groove
from stackcheck.mechanics.axial.network import Network, NetworkError, State, solve
from stackcheck.mechanics.axial.threads import MEAN_FACE_RADIUS_OVER_D, Thread
from stackcheck.mechanics.axial.tighten import REFERENCE_C
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import clamps_loop
from stackcheck.mechanics.clamped_network import (
    AXLE,
    ClampedNetwork,
    Watched,
)
from stackcheck.mechanics.joint_pull import AXLE_SHARE, pull, thread_of, thread_room
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.set_gap import GAUGE_N
from stackcheck.mechanics.thread_friction import friction_of
from stackcheck.mechanics.unknowns import Spanned, with_variants
from stackcheck.model.part import Part
from stackcheck.model.reference import Joint, Loop
from stackcheck.value import Value, replace

STATIC_FACTOR = 13.0
"""f0 in C0r = f0 Z D_w² cos α [N, mm] for deep grooves: ISO 76 (from memory)."""


class LoopForces(Value, kw_only=True):
    """The two bearings of a loop, once with outer rings that may slide in their seats and once held fast in them.

    `slides` and `held` are the force between the rings [N], `float_...` the end float under ±50 N [mm], `then_n` the
    tension at the temperature asked for, `beyond_n` the force above which the model says nothing.
    """

    loop: str
    slides: Spanned | None
    held: Spanned | None
    float_slides: Spanned | None
    float_held: Spanned | None
    least_clamp_n: Spanned | None = None
    then_n: Spanned | None = None
    beyond_n: float | None = None
    needs: tuple[str, ...] = ()


class JointForces(Value, kw_only=True):
    """One joint: tension [N], the loops that it clamps, the defaults that went in, and what is missing.

    `sets` names the gap that the joint sets when it is backed off; `stress_mpa` is the highest stress in its thread;
    `thread_room` how much longer what it clamps is than where its thread ends [mm], below nothing where the nut meets that
    end first and leaves no clamp.
    """

    joint: Joint
    torque_nmm: float | None
    tension_n: Spanned | None
    at_c: float = REFERENCE_C
    sets: str = ""
    stress_mpa: float | None = None
    thread_room: Interval | None = None
    loops: tuple[LoopForces, ...] = ()
    defaults: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


class LoopChange(Value, kw_only=True):
    """What is different as found: force between the rings [N] and end float [mm], more than by the reference above 0.

    What both states share cancels: the friction of the joint, the inside of the bearings, parts that nobody measured.
    """

    slides: Spanned
    held: Spanned
    float_slides: Spanned
    float_held: Spanned


class JointChange(Value, kw_only=True):
    """The tension as found less that of the reference [N], and every loop in the sequence of the forces; None: not known."""

    tension_n: Spanned | None = None
    loops: tuple[LoopChange | None, ...] = ()


def joint_forces(
    arrangement: Arrangement, joint: Joint, *, torque_nmm: float | None = None, at_c: float = REFERENCE_C
) -> JointForces:
    """What one joint of an arrangement does at its torque, or at another one.

    Args:
        arrangement: what stands where.
        torque_nmm: instead of the torque of the reference [N·mm].
        at_c: tightened at 20 °C, then all of it brought to this temperature [°C].
    """
    return _joint((arrangement,), joint, torque_nmm, at_c)[0][0]


def compared_forces(
    wanted: Arrangement, believed: Arrangement, joint: Joint, *, torque_nmm: float | None = None, at_c: float = REFERENCE_C
) -> tuple[JointForces, JointForces, JointChange]:
    """The same for two arrangements, and the difference with its own range."""
    (own, seen), change = _joint((wanted, believed), joint, torque_nmm, at_c)
    return own, seen, change


def _joint(
    arrangements: tuple[Arrangement, ...], joint: Joint, torque_nmm: float | None, at_c: float
) -> tuple[list[JointForces], JointChange]:
    torque = torque_nmm if torque_nmm is not None else joint.torque.nominal if joint.torque else None
    thread, reference = thread_of(joint), arrangements[0].reference
    needs = [what for what, known in (("the torque", torque), ("the thread", thread)) if known is None]
    if needs:
        absent = JointForces(joint=joint, torque_nmm=torque, tension_n=None, needs=tuple(f"{what} of the {joint.name}" for what in needs))
        return [absent] * len(arrangements), JointChange()
    try:
        unknowns, pulls = with_variants(lambda u: tuple(pull(u, each, joint, torque, thread) for each in arrangements))
    except Missing as problem:
        absent = JointForces(joint=joint, torque_nmm=torque, tension_n=None, needs=tuple(problem.args))
        return [absent] * len(arrangements), JointChange()
    # A play that this joint sets is no loop of lengths: `stackcheck.mechanics.set_gap` answers for it.
    clamped = [loop for loop in reference.loops if clamps_loop(reference, joint, loop) and loop.set_by != joint.name]
    loops = [_loop_forces(arrangements, joint, loop, torque, thread, at_c) for loop in clamped]
    sets = next((loop.name for loop in reference.loops if loop.set_by and loop.set_by == joint.name), "")
    forces = []
    for i, (arrangement, pulled) in enumerate(zip(arrangements, pulls)):
        tension = unknowns.spanned(pulled)
        forces.append(JointForces(
            joint=joint, torque_nmm=torque, tension_n=tension, at_c=at_c, loops=tuple(each[i] for each, _ in loops),
            thread_room=thread_room(arrangement, joint), sets=sets, stress_mpa=tension.most / thread.stress_area_mm2,
            defaults=_defaults(joint, bool(loops), is_warm=at_c != REFERENCE_C),
        ))  # fmt: skip
    change = JointChange(tension_n=unknowns.spanned(pulls[-1] - pulls[0]), loops=tuple(change for _, change in loops))
    return forces, change


def _defaults(joint: Joint, has_loops: bool, *, is_warm: bool) -> tuple[str, ...]:
    friction, used = friction_of(joint), []
    if not joint.friction:
        condition = f'"{joint.thread_condition}"' if joint.thread_condition else "no thread condition given"
        of = condition if friction.said or not joint.thread_condition else f"{condition} is no condition known here"
        used.append(f"friction {friction.least:.2f} to {friction.most:.2f} of thread and face ({of}: {friction.source})")
    if joint.face is None:
        used.append(f"mean radius under the nut {MEAN_FACE_RADIUS_OVER_D} of the thread's diameter")
    if has_loops:
        used += ["inside of the bearings guessed from bore and outside diameter", "fit takes 0 to 80 in 100 of what play the rings lose"]
    if has_loops and is_warm:
        used.append("steel where no material is given")
    if joint.angle is not None or has_loops and is_warm:
        used.append(f"axle as stiff as its stress area over the clamped length, {AXLE_SHARE[0]} to {AXLE_SHARE[2]} times")
    return tuple(used)


def _loop_forces(
    arrangements: tuple[Arrangement, ...], joint: Joint, loop: Loop, torque: float, thread: Thread, at_c: float
) -> tuple[list[LoopForces], LoopChange | None]:
    """Preload and end float of one loop in every arrangement, and the last less the first."""
    spanned: list[dict[str, Spanned]] = [{} for _ in arrangements]
    change: dict[str, Spanned] = {}
    try:
        for seated in ("slides", "held"):
            unknowns, built = with_variants(
                lambda u, how=seated: [ClampedNetwork(each, joint, loop, u, how == "held").state(torque, thread, at_c) for each in arrangements]
            )
            answers = [_answers(*each, seated, is_warm=at_c != REFERENCE_C) for each in built]
            for its, answer in zip(spanned, answers):
                its |= {name: unknowns.spanned(values) for name, values in answer.items()}
            change |= {name: unknowns.spanned(answers[-1][name] - answers[0][name]) for name in (seated, f"float_{seated}")}
    except (Missing, NetworkError) as problem:
        if len(arrangements) > 1:  # one of them can be told all the same
            return [_loop_forces((each,), joint, loop, torque, thread, at_c)[0][0] for each in arrangements], None
        needs = tuple(problem.args) if isinstance(problem, Missing) else (f"a state of balance ({problem})",)
        return [LoopForces(loop=loop.name, slides=None, held=None, float_slides=None, float_held=None, needs=needs)], None
    beyond = _half_static(arrangements[0].reference.part_at(loop.start))
    return [LoopForces(loop=loop.name, beyond_n=beyond, **its) for its in spanned], LoopChange(**change)


def _answers(network: Network, drawn: dict[str, float], watched: Watched, seated: str, *, is_warm: bool) -> dict[str, np.ndarray]:
    """Every answer of one network, by the field that it goes into, over all variants."""
    state = solve(network, drawn)
    answers = {seated: _between_rings(state, watched), f"float_{seated}": _float(network, state, watched)}
    if seated == "slides":
        answers["least_clamp_n"] = _least_clamp(state, watched)
        if is_warm:
            answers["then_n"] = np.ravel(state.forces[AXLE])
    return answers


def _between_rings(state: State, watched: Watched) -> np.ndarray:
    return np.max([np.abs(np.ravel(state.forces[name])) * np.ones(1) for name in watched.bearings], axis=0)


def _least_clamp(state: State, watched: Watched) -> np.ndarray:
    return np.min([-np.ravel(state.forces[name]) for name in watched.clamped], axis=0)


def _float(network: Network, state: State, watched: Watched) -> np.ndarray:
    """How far the outer member moves under the gauge force one way and the other."""
    start = {face: float(np.ravel(x)[0]) for face, x in state.positions.items()}
    pushed = [solve(replace(network, loads={watched.moves: force}), start).positions[watched.moves] for force in (-GAUGE_N, GAUGE_N)]
    return pushed[1] - pushed[0]


def _half_static(part: Part) -> float | None:
    """Half of an estimated static rating of a deep-groove bearing [N]: beyond it the model says nothing.

    Source: SKF General Catalogue, pure axial load on deep-groove bearings; C0r = f0 Z D_w² cos α, ISO 76 (from memory).
    """
    bore, outside = part.size("bore"), part.size("outside")
    if part.kind != "ball bearing" or bore is None or outside is None:
        return None
    inside = estimated_deep_groove(bore_mm=bore.nominal_mm, outside_mm=outside.nominal_mm)
    return 0.5 * STATIC_FACTOR * inside.balls * inside.ball_mm**2
