"""Limits of a force, and what a force is against them, in words and as JSON."""

from __future__ import annotations

from math import inf
from typing import Any

from stackcheck.mechanics.force_limits import AGREES, CANNOT_TELL, OUTSIDE, HeldForce, held_force
from stackcheck.mechanics.loop_forces import NOTHING_N
from stackcheck.model.limits import ForceLimit
from stackcheck.present.blocks import Block, Text
from stackcheck.present.force_figures import force_words
from stackcheck.present.names import needed
from stackcheck.present.side_by_side import BOTH
from stackcheck.result.agreement import NO_CLAMP
from stackcheck.result.forces import ForcesResult
from stackcheck.units.force_words import force_limits_words, plain_force


def held_lines(value: ForcesResult, loop: str = "", *, with_found: bool) -> list[str]:
    """ "preload of the pinion, wanted 3 to 10 kN by service sheet 24: agrees", as found and by the reference.

    The limits of one loop, or without a name those of the joint itself and of loops that cannot be told.
    """
    told = {each.loop for each in value.reference.loops}
    limits = [limit for limit in value.limits if (limit.of == loop if loop else limit.of not in told)]
    lines = []
    for limit in limits:
        own, seen = (held_words(limit, held_force(limit, each)) for each in (value.reference, value.as_found))
        said = own if own == seen else f"as found {seen}; by the reference {own}"
        both = f", {BOTH}" if with_found and own == seen else ""
        lines.append(f"{wanted_words(limit)}{both}: {said}")
    return lines


def unclamped_blocks(limits: tuple[ForceLimit, ...]) -> list[Block]:
    """Limits of forces that nothing is told of."""
    return [Text(f"{wanted_words(limit)}: {CANNOT_TELL}: {NO_CLAMP}", mark=" -  ") for limit in limits]


def wanted_words(limit: ForceLimit) -> str:
    """ "preload of the pinion, wanted 3 to 10 kN by service sheet 24"; what was written in pounds stands beside it."""
    written = f" ({' to '.join(filter(None, limit.text.split('..')))})" if "lb" in limit.text else ""
    return f"{limit.what}, wanted {force_limits_words(limit.least_n, limit.most_n)}{written} by {limit.source}"


def held_words(limit: ForceLimit, held: HeldForce) -> str:
    """ "agrees", "differs: at least 1.2 kN too little", "cannot tell: the range reaches below 3 kN"."""
    if held.verdict == AGREES:
        return AGREES
    if held.verdict == OUTSIDE:
        return f"{OUTSIDE}: no figure holds there"
    if held.least_n is None:
        return f"{CANNOT_TELL}: needs {needed(held.needs)}"
    return f"{held.verdict}: {_reaches(limit, held) if held.verdict == CANNOT_TELL else _apart(limit, held)}"


def _apart(limit: ForceLimit, held: HeldForce) -> str:
    if held.most_n <= NOTHING_N:
        return "there is none"
    if limit.least_n is not None and held.most_n < limit.least_n:
        return f"at least {force_words(limit.least_n - held.most_n)} too little"
    if limit.most_n is not None and held.least_n > limit.most_n:
        return f"at least {force_words(held.least_n - limit.most_n)} too much"
    return "too little or too much, by the way the outer rings are held"


def _reaches(limit: ForceLimit, held: HeldForce) -> str:
    past = []
    if limit.least_n is not None and held.least_n < limit.least_n:
        past.append(f"below {plain_force(limit.least_n)}")
    if limit.most_n is not None and held.most_n > limit.most_n:
        past.append(f"above {plain_force(limit.most_n)}")
    elif held.most_n == inf:
        past.append("beyond where figures hold")
    return f"the range reaches {' and '.join(past)}"


def limits_tree(value: ForcesResult, *, with_found: bool) -> list[dict[str, Any]]:
    return [
        limit_tree(limit) | {
            "reference": held_tree(held_force(limit, value.reference)),
            "as_found": held_tree(held_force(limit, value.as_found)) if with_found else None,
        }
        for limit in value.limits
    ]  # fmt: skip


def limit_tree(limit: ForceLimit) -> dict[str, Any]:
    return {
        "what": limit.what, "of": limit.of, "state": limit.state, "least_n": limit.least_n, "most_n": limit.most_n,
        "source": limit.source,
    }  # fmt: skip


def held_tree(held: HeldForce) -> dict[str, Any]:
    figures = (
        None if value is None or value == inf else round(value, 1) + 0.0 for value in (held.least_n, held.most_n)
    )
    return {"verdict": held.verdict, **dict(zip(("least_n", "most_n"), figures)), "needs": list(held.needs)}
