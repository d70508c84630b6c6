"""Limits of forces that the reference itself does not keep."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import TYPE_CHECKING

from stackcheck.model.limits import ForceLimit
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness
from stackcheck.units.force_words import force_limits_words, plain_force

if TYPE_CHECKING:
    from stackcheck.mechanics.force_limits import HeldForce

MEND = {
    TO_MEND: "look at the limit, the torque and the lengths between the bearings: one of them is not what was meant",
    OPEN: "give what the range comes from (`stack` names it) closer limits, or look at the limit of the force",
}


def wanted_forces(reference: Reference) -> Iterator[Weakness]:
    """Does the reference, put together as it says, bring the preload or the clamp that it wants?"""
    if not reference.force_limits:
        return  # the numerical libraries take longer to load than all other checks to run
    from stackcheck.mechanics.arrangement import as_wanted
    from stackcheck.mechanics.force_limits import AGREES, CANNOT_TELL, belongs, held_force
    from stackcheck.mechanics.forces import joint_forces
    from stackcheck.mechanics.heat import heat_in
    from stackcheck.model.state import ASSEMBLY

    wanted = as_wanted(reference)
    in_states = {
        name: [joint_forces(wanted, joint, heat=heat_in(reference, name)) for joint in reference.joints]
        for name in dict.fromkeys(limit.state or ASSEMBLY for limit in reference.force_limits)
    }
    for limit in reference.force_limits:
        joints = in_states[limit.state or ASSEMBLY]
        told = [held_force(limit, each) for each in joints if belongs(limit, reference, each.joint)]
        if not told:
            yield _weak(limit, TO_MEND, "no joint clamps the two bearings, so none is told")
        for held in told:
            if held.verdict != AGREES:
                yield _weak(limit, OPEN if held.verdict == CANNOT_TELL else TO_MEND, _brings(held))


def _brings(held: HeldForce) -> str:
    if held.least_n is None:
        return f"by the reference itself it cannot be told, it needs {', '.join(held.needs)}"
    if held.most_n == inf:
        return "by the reference itself more than the model has a figure for"
    if held.most_n < 1:
        return "by the reference itself there is none"
    least, most = (float(f"{newton:.2g}") for newton in (held.least_n, held.most_n))
    return f"by the reference itself {force_limits_words(least, most) if least >= 1 else f'up to {plain_force(most)}'}"


def _weak(limit: ForceLimit, grade: str, says: str) -> Weakness:
    return Weakness(
        check="force", grade=grade, about=("limits", limit.what),
        sentence=f"{limit.what}: wanted {force_limits_words(limit.least_n, limit.most_n)}"
        f"{f' in the state {limit.state}' if limit.state else ''}, {says}",
        mend=MEND[grade],
    )  # fmt: skip
