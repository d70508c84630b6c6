"""What a joint clamps, and what that does to the two bearings of a loop: the reference, or as found.

A joint pulls the parts between its two clamped places together; where two bearings stand among them, the path of their
outer rings is the other side of a loop, and the balls or rollers join the two. This module turns an arrangement into a
network (`stackcheck.mechanics.axial`), with everything that is not known as a range, and asks it for tension, clamp,
preload and end float. Paths with a spring of unknown stiffness, or a gap that a nut sets, are not computed: the answer names
what is missing.

Left out: tilt, bending, radial load, the slip force of fits, yield, time (common practice of an axial sum, no source).
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.bearings import estimated_deep_groove
from stackcheck.mechanics.axial.network import Network, NetworkError, State, solve
from stackcheck.mechanics.axial.threads import FRICTION, MEAN_FACE_RADIUS_OVER_D, Thread
from stackcheck.mechanics.axial.tighten import REFERENCE_C
from stackcheck.mechanics.clamp import clamps_loop
from stackcheck.mechanics.clamped_network import (
    AXLE,
    ClampedNetwork,
    Missing,
    Watched,
    pull_at,
    thread_of,
)
from stackcheck.mechanics.unknowns import Spanned, with_variants
from stackcheck.model.part import Part
from stackcheck.model.reference import Joint, Loop
from stackcheck.value import Value, replace

GAUGE_N = 50.0
"""End float is read with a dial while the member is pushed to and fro with this force: common practice, no source."""

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

    `sets` names the gap that the joint sets when it is backed off; `stress_mpa` is the highest stress in its thread.
    """

    joint: Joint
    torque_nmm: float | None
    tension_n: Spanned | None
    at_c: float = REFERENCE_C
    sets: str = ""
    stress_mpa: float | None = None
    loops: tuple[LoopForces, ...] = ()
    defaults: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


def joint_forces(
    arrangement: Arrangement, joint: Joint, *, torque_nmm: float | None = None, at_c: float = REFERENCE_C
) -> JointForces:
    """What one joint of an arrangement does at its torque, or at another one.

    Args:
        arrangement: what stands where.
        torque_nmm: instead of the torque of the reference [N·mm].
        at_c: tightened at 20 °C, then all of it brought to this temperature [°C].
    """
    torque = torque_nmm if torque_nmm is not None else joint.torque.nominal if joint.torque else None
    thread = thread_of(joint)
    needs = [what for what, known in (("the torque", torque), ("the thread", thread)) if known is None]
    if needs:
        return JointForces(joint=joint, torque_nmm=torque, tension_n=None, needs=tuple(f"{what} of the {joint.name}" for what in needs))
    unknowns, pull = with_variants(lambda unknowns: pull_at(unknowns, torque, thread))
    loops = tuple(
        _loop_forces(arrangement, joint, loop, torque, thread, at_c)
        for loop in arrangement.reference.loops
        if clamps_loop(arrangement.reference, joint, loop)
    )
    tension = unknowns.spanned(pull)
    return JointForces(
        joint=joint, torque_nmm=torque, tension_n=tension, at_c=at_c, loops=loops,
        sets=next((loop.name for loop in arrangement.reference.loops if loop.set_by and loop.set_by == joint.name), ""),
        stress_mpa=tension.most / thread.stress_area_mm2,
        defaults=_defaults(joint, bool(loops), is_warm=at_c != REFERENCE_C),
    )  # fmt: skip


def _defaults(joint: Joint, has_loops: bool, *, is_warm: bool) -> tuple[str, ...]:
    used = [
        f"friction {FRICTION[0]:.2f} to {FRICTION[2]:.2f} of thread and face"
        + (f" (the reference says: {joint.thread_condition})" if joint.thread_condition else " (no thread condition given)"),
        f"mean radius under the nut {MEAN_FACE_RADIUS_OVER_D} of the thread's diameter",
    ]
    if has_loops:
        used += ["inside of the bearings guessed from bore and outside diameter", "fit takes 0 to 80 in 100 of what play the rings lose"]
    if has_loops and is_warm:
        used += ["steel where no material is given", "axle as stiff as its stress area over the clamped length, 0.6 to 1.2 times"]
    return tuple(used)


def _loop_forces(
    arrangement: Arrangement, joint: Joint, loop: Loop, torque: float, thread: Thread, at_c: float
) -> LoopForces:
    """Preload and end float of one loop; each question is a load on the network."""
    answers: dict[str, Any] = {}
    try:
        for seated in ("slides", "held"):
            unknowns, built = with_variants(lambda u, how=seated: ClampedNetwork(arrangement, joint, loop, u, how == "held").state(torque, thread, at_c))
            network, drawn, watched = built
            state = solve(network, drawn)
            if seated == "slides" and at_c != REFERENCE_C:
                answers["then_n"] = unknowns.spanned(state.forces[AXLE])
            answers[seated] = unknowns.spanned(_between_rings(state, watched))
            answers[f"float_{seated}"] = unknowns.spanned(_float(network, state, watched))
            if seated == "slides":
                answers["least_clamp_n"] = unknowns.spanned(_least_clamp(state, watched))
    except Missing as problem:
        return LoopForces(loop=loop.name, slides=None, held=None, float_slides=None, float_held=None, needs=tuple(problem.args))
    except NetworkError as problem:
        return LoopForces(loop=loop.name, slides=None, held=None, float_slides=None, float_held=None, needs=(f"a state of balance ({problem})",))
    return LoopForces(loop=loop.name, beyond_n=_half_static(arrangement.reference.part_at(loop.start)), **answers)


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
