"""What went into the forces of a joint where nothing is given: each default in words, with its figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stackcheck.mechanics.axial.threads import MEAN_FACE_RADIUS_OVER_D
from stackcheck.mechanics.axle import AXLE_IS, BEYOND_THE_SHANK
from stackcheck.mechanics.heat import FOLLOWS_IS
from stackcheck.mechanics.press_fit import OUTER
from stackcheck.mechanics.pressure_cone import CONE_DEG
from stackcheck.mechanics.settling import FACE_MM, SHARE
from stackcheck.mechanics.slip_force import WALL_IS
from stackcheck.mechanics.thread_friction import friction_of
from stackcheck.model.reference import Joint

if TYPE_CHECKING:
    from stackcheck.mechanics.forces import LoopForces


def defaults_of(joint: Joint, loops: tuple[LoopForces, ...], *, settles: bool, follows: bool) -> tuple[str, ...]:
    """The defaults of a joint that clamps these loops; `follows` where heat moves a bearing that bears one way only."""
    friction, used = friction_of(joint), []
    if not joint.friction:
        condition = f'"{joint.thread_condition}"' if joint.thread_condition else "no thread condition given"
        of = condition if friction.said or not joint.thread_condition else f"{condition} is no condition known here"
        used.append(
            f"friction {friction.least:.2f} to {friction.most:.2f} of thread and face ({of}: {friction.source})"
        )
    if joint.face is None:
        used.append(f"mean radius under the nut {MEAN_FACE_RADIUS_OVER_D} of the thread's diameter")
    if loops:
        used += [
            "inside of the bearings guessed from bore and outside diameter",
            "fit takes 0 to 80 in 100 of what play the rings lose",
        ]
    if any(name.startswith(OUTER) for loop in loops for name, _ in loop.press_fits):
        used.append(WALL_IS)
    if follows:
        used.append(FOLLOWS_IS)
    used.append(
        f"steel where no material is given; wide parts bear within {CONE_DEG[0]:g} to {CONE_DEG[2]:g} degrees of "
        "the faces that press on them"
    )
    if settles:
        used.append(
            f"each pair of faces settles {FACE_MM[0] * 1e3:g} to {FACE_MM[2] * 1e3:g} µm, head, nut and thread 5 "
            f"µm more (VDI 2230 part 1, Table 5, from memory), a light pull down to {SHARE[0] * 100:g} in 100 of that"
        )
    used.append(f"{BEYOND_THE_SHANK if joint.shank else AXLE_IS}; legs and shoulders without a length give nothing")
    return tuple(used)
