"""What two bearings of a loop feel of the joint that clamps them: the balls or rollers join the two paths of the loop.

Tightened or settled, warm or not, with outer rings that slide in their seats and held fast in them: each state of the
network (`clamped_network`) is solved for all draws of what is not known, and asked for the force between the rings, the
clamp and the end float.
"""

from __future__ import annotations

from functools import partial
from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.bearings import unloads_at
from stackcheck.mechanics.axial.network import Network, NetworkError, State, solve
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.bodies import Missing, OneWay
from stackcheck.mechanics.clamped_network import AXLE, ClampedNetwork, Watched
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.set_gap import GAUGE_N
from stackcheck.mechanics.slip_force import slip_forces
from stackcheck.mechanics.static_limit import StaticLimit, least_limit
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.reference import Joint, Loop
from stackcheck.value import Value, replace

NOTHING_N = 1.0
"""A preload that is none."""

Built = tuple[Network, dict[str, float], Watched]


class LoopForces(Value, kw_only=True):
    """The two bearings of a loop, once with outer rings that may slide in their seats and once held fast in them.

    `slides` and `held` are the force between the rings [N], `settled_...` the same when the faces have settled and
    `settled_clamp_n` the least that still presses the parts between the inner rings, `lost_...` what the joint has lost
    by then (None without preload), `pull_...` its tension, `float_...` the end float under ±50 N [mm], `then_n` the
    tension at the temperature asked for, `limit` the force above which the model says nothing. `unloads_n` is the load
    along the axis that takes all force off one of two equal bearings, `one_way` tells two that look the same way, so
    that nothing can press them on each other, `only_if_held` two that press on each other only where their outer rings
    are held together. `carried_...` is what presses each body and each row of balls or rollers [N], by name, inner path
    first. `press_fits` is what rings that are or may be press fits hold along the axis [N], each by ring and place.
    """

    loop: str
    slides: Spanned | None
    held: Spanned | None
    float_slides: Spanned | None
    float_held: Spanned | None
    settled_slides: Spanned | None = None
    settled_held: Spanned | None = None
    lost_slides: Spanned | None = None
    lost_held: Spanned | None = None
    pull_slides: Spanned | None = None
    pull_held: Spanned | None = None
    least_clamp_n: Spanned | None = None
    settled_clamp_n: Spanned | None = None
    then_n: Spanned | None = None
    limit: StaticLimit | None = None
    carried_slides: tuple[tuple[str, Spanned], ...] = ()
    carried_held: tuple[tuple[str, Spanned], ...] = ()
    press_fits: tuple[tuple[str, Spanned], ...] = ()
    unloads_n: Spanned | None = None
    one_way: bool = False
    only_if_held: bool = False
    needs: tuple[str, ...] = ()

    @property
    def beyond_n(self) -> float | None:
        return None if self.limit is None else self.limit.force_n


class LoopChange(Value, kw_only=True):
    """What is different as found: force between the rings and least clamp of the inner path [N], end float [mm], more
    than by the reference above 0.

    What both states share cancels: the friction of the joint, the inside of the bearings, parts that nobody measured.
    """

    slides: Spanned
    held: Spanned
    float_slides: Spanned
    float_held: Spanned
    pull_slides: Spanned
    pull_held: Spanned
    least_clamp_n: Spanned


def either_way(slides: Spanned, held: Spanned) -> Spanned:
    """One answer for outer rings of which nobody knows whether they slide or are held fast."""
    apart = abs(slides.usual - held.usual) > 0.02 * max(abs(slides.usual), abs(held.usual), NOTHING_N)
    return Spanned(
        usual=slides.usual, least=min(slides.least, held.least), most=max(slides.most, held.most),
        main_cause="way the outer rings are held" if apart else slides.main_cause,
        causes=() if apart else slides.causes,
    )  # fmt: skip


def loop_forces(
    arrangements: tuple[Arrangement, ...], joint: Joint, loop: Loop, torque: float, thread: Thread, heat: Heat
) -> tuple[list[LoopForces], LoopChange | None]:
    """Preload and end float of one loop in every arrangement, and the last less the first."""
    spanned: list[dict[str, Any]] = [{} for _ in arrangements]
    change: dict[str, Spanned] = {}
    try:
        for seated in ("slides", "held"):
            build = partial(_built, arrangements, joint, loop, torque, thread, heat, seated)
            unknowns, built = with_variants(build)
            answers = [_answers(*each, seated, is_warm=heat.is_warm) for each in built]
            exponents = [watched.exponent for _, _, watched in built]
            if seated == "held" and None not in exponents:
                answers = [each | {"unloads_n": unloads_at(each["held"], n)} for each, n in zip(answers, exponents)]
            for its, answer in zip(spanned, answers):
                carried = answer.pop("carried")
                its |= {name: unknowns.spanned(values) for name, values in answer.items()}
                its[f"carried_{seated}"] = tuple((name, unknowns.spanned(values)) for name, values in carried.items())
            change |= {
                name: unknowns.spanned(answers[-1][name] - answers[0][name])
                for name in (seated, f"float_{seated}", f"pull_{seated}", "least_clamp_n")
                if name in answers[0]
            }
            for its, (_, _, watched) in zip(spanned, built):
                its["only_if_held"] = watched.only_if_held
            loaded = [its[seated].most > NOTHING_N for its in spanned]
            if any(loaded):
                unknowns, (tight, settled) = with_variants(lambda u, build=build: (build(u), build(u, settled=True)))
                for its, is_loaded, before, after in zip(spanned, loaded, tight, settled):
                    its |= _after_settling(unknowns, before, after, seated) if is_loaded else {}
    except (Missing, NetworkError) as problem:
        if len(arrangements) > 1:  # one of them can be told all the same
            return [loop_forces((each,), joint, loop, torque, thread, heat)[0][0] for each in arrangements], None
        needs = tuple(problem.args) if isinstance(problem, Missing) else (f"a state of balance ({problem})",)
        if one_way := isinstance(problem, OneWay):
            needs = ()
        return [
            LoopForces(
                loop=loop.name, slides=None, held=None, float_slides=None, float_held=None, one_way=one_way, needs=needs
            )
        ], None
    limit = least_limit(arrangements[0].reference, (loop.start, loop.end))
    fits = slip_forces(arrangements[0], loop, heat)
    return [LoopForces(loop=loop.name, limit=limit, press_fits=fits, **its) for its in spanned], LoopChange(**change)


def _built(
    arrangements: tuple[Arrangement, ...],
    joint: Joint,
    loop: Loop,
    torque: float,
    thread: Thread,
    heat: Heat,
    seated: str,
    unknowns: Unknowns,
    *,
    settled: bool = False,
) -> list[Built]:
    return [
        ClampedNetwork(each, joint, loop, unknowns, seated == "held").state(torque, thread, heat, settled=settled)
        for each in arrangements
    ]


def _after_settling(unknowns: Unknowns, before: Built, after: Built, seated: str) -> dict[str, Spanned]:
    """The force between the rings when the faces have settled, and what the joint has lost by it."""
    own, then = (solve(network, drawn) for network, drawn, _ in (before, after))
    lost = np.ravel(own.forces[AXLE]) - np.ravel(then.forces[AXLE])
    told = {f"settled_{seated}": _between_rings(then, after[2]), f"lost_{seated}": lost}
    if seated == "slides":
        told["settled_clamp_n"] = _least_clamp(then, after[2])
    return {name: unknowns.spanned(values) for name, values in told.items()}


def _answers(
    network: Network, drawn: dict[str, float], watched: Watched, seated: str, *, is_warm: bool
) -> dict[str, Any]:
    """Every answer of one network, by the field that it goes into, over all variants;
    "carried" holds one for each body.
    """
    state = solve(network, drawn)
    answers = {seated: _between_rings(state, watched), f"float_{seated}": _float(network, state, watched)}
    answers[f"pull_{seated}"] = np.ravel(state.forces[AXLE])
    answers["carried"] = {
        each.name: np.abs(np.ravel(state.forces[each.name])) for each in network.elements if each.name != AXLE
    }
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
    pushed = [
        solve(replace(network, loads={watched.moves: force}), start).positions[watched.moves]
        for force in (-GAUGE_N, GAUGE_N)
    ]
    return pushed[1] - pushed[0]
