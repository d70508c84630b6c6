"""The forces of `stack` as trees of plain values; the manual describes every field."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.loop_forces import LoopForces
from stackcheck.mechanics.set_gap import GAUGE_N
from stackcheck.mechanics.settling import Settling
from stackcheck.mechanics.spring_stacks import SpringStack
from stackcheck.mechanics.thread_friction import friction_of
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.reference import Joint
from stackcheck.present.force_limit_words import limits_tree
from stackcheck.present.force_terms_json import force_terms
from stackcheck.present.json_values import interval
from stackcheck.result.forces import ForcesResult, SpringsResult


def joint(value: ForcesResult, *, with_found: bool) -> dict[str, Any]:
    """One joint of `stack`: tension and the loops it clamps, reference and as found (None where there is no list)."""
    joint_ = value.reference.joint
    return {
        "joint": joint_.name,
        "torque_nmm": value.reference.torque_nmm,
        "at_c": value.reference.at_c,
        "at_c_apart": dict(value.reference.heat.named),
        "angle_deg": joint_.angle and joint_.angle.nominal,
        "prevailing_nmm": joint_.prevailing and joint_.prevailing.nominal,
        "friction": _friction(joint_),
        "reference": _forces(value.reference),
        "as_found": _forces(value.as_found) if with_found else None,
        "change": _change(value),
        "limits": limits_tree(value, with_found=with_found),
        "defaults": list(value.reference.defaults),
    }


def _change(value: ForcesResult) -> dict[str, Any] | None:
    if value.change is None:
        return None
    loops = zip(value.reference.loops, value.as_found.loops, value.change.loops)
    past = {
        own.loop: (
            _is_past(own, own.slides) or _is_past(seen, seen.slides),
            _is_past(own, own.held) or _is_past(seen, seen.held),
        )
        for own, seen, _ in loops
    }
    pairs = zip(value.reference.loops, value.change.loops)
    return {
        "tension_n": spanned(value.change.tension_n, 1),
        "loops": [
            {
                "name": loop.loop,
                "preload_rings_free_n": None if past[loop.loop][0] else spanned(change.slides, 1),
                "preload_rings_held_n": None if past[loop.loop][1] else spanned(change.held, 1),
                "end_float_rings_free_mm": None if past[loop.loop][0] else spanned(change.float_slides, 4),
                "end_float_rings_held_mm": None if past[loop.loop][1] else spanned(change.float_held, 4),
                "least_clamp_n": None if past[loop.loop][0] else spanned(change.least_clamp_n, 1),
            }
            for loop, change in pairs
            if change is not None
        ],
    }


def _friction(value: Joint) -> dict[str, Any]:
    friction = friction_of(value)
    return {
        "least": friction.least,
        "usual": friction.usual,
        "most": friction.most,
        "condition": friction.said,
        "source": friction.source,
    }


def springs(value: SpringsResult, *, with_found: bool) -> dict[str, Any]:
    """One stack of disc springs of `stack`."""
    return {
        "stack": value.reference.stack,
        "gap": value.reference.gap,
        "reference": _springs(value.reference),
        "as_found": _springs(value.as_found) if with_found else None,
    }


def _springs(value: SpringStack) -> dict[str, Any]:
    at = value.at_mm or ()
    return {
        "groups": list(value.counts),
        "free_mm": None if value.free_mm is None else round(value.free_mm, 6),
        "measured_mm": value.measured_mm,
        "force_n": [
            {
                "at_mm": length,
                "pressed_share_of_cone": [spanned(share, 3) for share in value.pressed[i]],
                "groups_beyond_three_quarters": list(value.beyond(i)),
            }
            | spanned(force, 1)
            for i, (length, force) in enumerate(zip(at, value.force_n or ()))
        ],
        "flat_mm": None if value.flat_mm is None else round(value.flat_mm, 6),
        "outside_the_formula": list(value.outside),
        "needs": list(value.needs),
    }


def _forces(value: JointForces) -> dict[str, Any]:
    return {
        "tension_n": spanned(value.tension_n, 1),
        "tension_then_n": spanned(value.then_n, 1),
        "turned_past_n": None if value.turned_past is None else round(value.turned_past.force_n, 1),
        "draws_shut": list(value.draws_shut),
        "thread_room_mm": interval(value.thread_room),
        "nut_further_in_mm": None if value.further_in_mm is None else round(value.further_in_mm, 6),
        "needs": list(value.needs),
        "settling": _settling(value.settling),
        "crushing": [
            {
                "what": list(each.what),
                "metal": each.metal,
                "stress_mpa": spanned(each.stress_mpa, 1),
                "limit_mpa": each.limit_mpa,
            }
            for each in value.crushing
        ],
        "shared": [
            {
                "gap": each.loop,
                "paths": list(each.paths),
                "carried_n": each.carried_n and [spanned(force, 1) for force in each.carried_n],
            }
            for each in value.shared
        ],
        "terms": force_terms(value.terms),
        "loops": [_loop(loop) for loop in value.loops],
    }


def _loop(value: LoopForces) -> dict[str, Any]:
    """Past the static rating of a bearing no figure of its way to seat the rings is told."""
    beyond, free, fast = value.beyond_n, _is_past(value, value.slides), _is_past(value, value.held)
    return {
        "name": value.loop,
        "preload_rings_free_n": spanned(value.slides, 1, beyond),
        "preload_rings_held_n": spanned(value.held, 1, beyond),
        "settled_preload_rings_free_n": spanned(value.settled_slides, 1, beyond),
        "settled_preload_rings_held_n": spanned(value.settled_held, 1, beyond),
        "end_float_rings_free_mm": None if free else spanned(value.float_slides, 4),
        "end_float_rings_held_mm": None if fast else spanned(value.float_held, 4),
        "tension_then_n": spanned(value.then_n, 1),
        "gauge_n": GAUGE_N,
        "least_clamp_n": None if free else spanned(value.least_clamp_n, 1),
        "settled_clamp_n": None if free else spanned(value.settled_clamp_n, 1),
        "unloads_one_at_n": None if free or fast else spanned(value.unloads_n, 1),
        "one_way": value.one_way,
        "only_if_held": value.only_if_held,
        "press_fits": [{"what": name, "holds_n": spanned(fit, 1)} for name, fit in value.press_fits],
        "no_figure_beyond_n": None if beyond is None else round(beyond, 1),
        "needs": list(value.needs),
        "carried_rings_free": [] if free else carried(value.carried_slides),
        "carried_rings_held": [] if fast else carried(value.carried_held),
    }


def _is_past(value: LoopForces, preload: Spanned | None) -> bool:
    return value.beyond_n is not None and preload is not None and preload.most > value.beyond_n


def _settling(value: Settling | None) -> dict[str, Any] | None:
    return (
        None
        if value is None
        else {
            "pairs_of_faces": value.faces,
            "threads": value.threads,
            "loss_n": spanned(value.loss_n, 1),
            "needs": list(value.needs),
        }
    )


def spanned(value: Spanned | None, digits: int, beyond: float | None = None) -> dict[str, Any] | None:
    """A range and its causes; null in the place of every figure past `beyond`, where none holds."""
    if value is None:
        return None

    def told(number: float) -> float | None:
        return None if beyond is not None and number > beyond else round(number, digits) + 0.0

    return {
        "least": told(value.least),
        "usual": told(value.usual),
        "most": told(value.most),
        "main_cause": value.main_cause,
        "causes": [
            {
                "what": cause.name,
                "at_least": told(cause.at_least),
                "at_most": told(cause.at_most),
                "share": round(cause.share, 3),
            }
            for cause in value.causes
        ],
    }


def carried(value: tuple[tuple[str, Spanned], ...]) -> list[dict[str, Any]]:
    """What presses each body and each row of balls or rollers."""
    return [{"what": name, "pressed_n": spanned(force, 1)} for name, force in value]
