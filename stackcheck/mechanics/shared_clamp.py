"""How a clamp divides between two paths that stand side by side in its grip, such as one tube inside another.

Both paths are pressed between the same two parts, so that both shorten together: the longer one is touched first and
bears all of it until the other is reached, and from there each takes its share by its stiffness. A difference of a few
hundredths decides whether the shorter one bears anything. Two paths that meet at bearings are a loop with balls in it
(`stackcheck.mechanics.clamped_network`), one that all stays on the machine is a frame (`stackcheck.mechanics.supports`).
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.bodies import Missing, lower
from stackcheck.mechanics.joint_pull import pull
from stackcheck.mechanics.side_by_side import beside_a_third, beside_in, loops_side_by_side
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.reference import Joint, Loop
from stackcheck.value import Value


class SharedClamp(Value, kw_only=True):
    """Two paths side by side: their parts by name, and what presses each [N], None where a third path stands there."""

    loop: str
    paths: tuple[str, str]
    carried_n: tuple[Spanned, Spanned] | None


def shared_clamps(arrangement: Arrangement, joint: Joint, torque_nmm: float, thread: Thread) -> tuple[SharedClamp, ...]:
    """Every pair of paths side by side that the joint presses together; one whose lengths are not known is left to the
    gap that names what is missing.
    """
    found = []
    loops = tuple(loops_side_by_side(arrangement, joint))
    for loop in loops:
        names = tuple(_names(arrangement, path) for path in (loop.closed_path, loop.open_path))
        if beside_a_third(loop, loops):
            found.append(SharedClamp(loop=loop.name, paths=names, carried_n=None))
            continue
        try:
            unknowns, carried = with_variants(
                lambda unknowns, loop=loop: _carried(unknowns, arrangement, joint, loop, torque_nmm, thread)
            )
        except Missing:
            continue
        told = tuple(unknowns.spanned(np.ravel(force)) for force in carried)
        found.append(SharedClamp(loop=loop.name, paths=names, carried_n=told))
    return tuple(found)


def _carried(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop, torque_nmm: float, thread: Thread
) -> tuple[Any, Any]:
    beside = beside_in(unknowns, arrangement, joint, loop)
    force = pull(unknowns, arrangement, joint, torque_nmm, thread)
    own, other = beside.carried(force)
    return (own, other) if beside.closed_is_own else (other, own)


def _names(arrangement: Arrangement, path: tuple[str, ...]) -> str:
    parts = dict.fromkeys(arrangement.reference.part_at(place).name for place in path)
    return " and ".join(f"the {lower(name)}" for name in parts)
