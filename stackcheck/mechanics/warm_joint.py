"""What a joint pulls when it is warm, where it clamps no two bearings: axle and parts grow by different amounts.

ΔF = (Σ α_i L_i ΔT_i - α_b L ΔT_b) / (1/k_b + 1/k_c), not below no tension at all

A brass impeller on a steel shaft is clamped harder when the pump is warm, an aluminium block on a steel bolt in the
cold less. Where a joint clamps two bearings the network of springs answers for it
(`stackcheck.mechanics.clamped_network`).
Source: joint diagram with temperature, VDI 2230 part 1 (from memory); lengths at 20 °C, ISO 1.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import clamped_stack
from stackcheck.mechanics.grip_gives import grip_gives
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.heat_of_bearings import axle_expansion, axle_kelvin
from stackcheck.mechanics.joint_pull import grip_stiffness, pull
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.expansion import expansion_along
from stackcheck.model.part import RING_BEARINGS
from stackcheck.model.reference import Joint
from stackcheck.model.state import INNER, OUTER


def tensions_then(
    arrangements: tuple[Arrangement, ...], joint: Joint, torque_nmm: float, thread: Thread, heat: Heat
) -> tuple[list[Spanned | None], Spanned | None]:
    """The tension of a joint at the temperatures of `heat`, tightened as warm as it was put together [N], in every
    arrangement, and the last less the first; None where a length is not known.
    """
    try:
        unknowns, tensions = with_variants(
            lambda u: [_warmed(u, each, joint, torque_nmm, thread, heat) for each in arrangements]
        )
    except Missing:
        if len(arrangements) > 1:  # one of them can be told all the same
            return [tensions_then((each,), joint, torque_nmm, thread, heat)[0][0] for each in arrangements], None
        return [None], None
    return [unknowns.spanned(each) for each in tensions], unknowns.spanned(tensions[-1] - tensions[0])


def _warmed(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, torque_nmm: float, thread: Thread, heat: Heat
) -> Any:
    stack, axle = grip_stiffness(unknowns, arrangement, joint, thread)
    grown = outgrows(unknowns, arrangement, joint, heat)
    return np.maximum(pull(unknowns, arrangement, joint, torque_nmm, thread) + grown / (1 / axle + 1 / stack), 0.0)


def outgrows(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, heat: Heat) -> float:
    """How much more than the axle inside them the clamped parts grow since they were clamped [mm]."""
    reference, together = arrangement.reference, heat.together
    along = axle_expansion(reference, joint) * (axle_kelvin(reference, heat) - axle_kelvin(reference, together))
    stack = clamped_stack(reference, joint)
    rings = OUTER if stack is not None and reference.stack(stack).through == OUTER else INNER
    grown = 0.0
    for member, _, length in grip_gives(unknowns, arrangement, joint):
        part = arrangement.ruler.part(member.standing)
        names = [member.standing.home, part.id if part is not None else None]
        if part is not None and part.kind in RING_BEARINGS:
            names.append(rings)
        kelvin = heat.kelvin(*names) - together.kelvin(*names)
        grown += length * (expansion_along(part) * kelvin - along)
    return grown
