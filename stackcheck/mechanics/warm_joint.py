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
from stackcheck.mechanics.heat import Heat, expansion_along
from stackcheck.mechanics.heat_of_bearings import axle_expansion, axle_kelvin
from stackcheck.mechanics.joint_pull import grip_gives, grip_stiffness, pull
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.reference import Joint


def tension_then(
    arrangement: Arrangement, joint: Joint, torque_nmm: float, thread: Thread, heat: Heat
) -> Spanned | None:
    """The tension of a joint that was tightened at 20 °C, at the temperatures of `heat` [N];
    None where a length is not known.
    """

    def warmed(unknowns: Unknowns) -> Any:
        stack, axle = grip_stiffness(unknowns, arrangement, joint, thread)
        grown = outgrows(unknowns, arrangement, joint, heat)
        return np.maximum(pull(unknowns, arrangement, joint, torque_nmm, thread) + grown / (1 / axle + 1 / stack), 0.0)

    try:
        unknowns, tension = with_variants(warmed)
    except Missing:
        return None
    return unknowns.spanned(tension)


def outgrows(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, heat: Heat) -> float:
    """How much more than the axle inside them the clamped parts grow [mm]."""
    along = axle_expansion(arrangement.reference, joint) * axle_kelvin(arrangement.reference, heat)
    grown = 0.0
    for member, _, length in grip_gives(unknowns, arrangement, joint):
        part = arrangement.ruler.part(member.standing)
        kelvin = heat.kelvin(member.standing.home, part.id if part is not None else None)
        grown += length * (expansion_along(part) * kelvin - along)
    return grown
