"""What went into the forces of a joint where nothing is given: each default in words, with its figures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.threads import MEAN_FACE_RADIUS_OVER_D
from stackcheck.mechanics.axle import AXLE_IS, BEYOND_THE_SHANK
from stackcheck.mechanics.bearing_laws import inside_is_given
from stackcheck.mechanics.bodies import lower
from stackcheck.mechanics.grip_gives import grip_row
from stackcheck.mechanics.heat import FOLLOWS_IS
from stackcheck.mechanics.metals import metals_taken
from stackcheck.mechanics.paired_bearings import fits_are
from stackcheck.mechanics.press_fit import OUTER
from stackcheck.mechanics.pressed_faces import TURNED
from stackcheck.mechanics.pressure_cone import CONE_DEG
from stackcheck.mechanics.settling import FACE_MM, SHARE, ends_mm, threads_of
from stackcheck.mechanics.slip_force import WALL_IS
from stackcheck.mechanics.steps import NO_PLAIN_TUBE
from stackcheck.mechanics.taken_limits import with_limits
from stackcheck.mechanics.thread_friction import friction_of
from stackcheck.model.part import Part
from stackcheck.model.reference import Joint, Loop
from stackcheck.model.touching_pairs import is_touching

if TYPE_CHECKING:
    from stackcheck.mechanics.loop_forces import LoopForces


def defaults_of(
    arrangement: Arrangement,
    joint: Joint,
    clamped: Sequence[Loop],
    loops: tuple[LoopForces, ...],
    *,
    faced: Joint,
    settles: bool,
    follows: bool,
) -> tuple[str, ...]:
    """The defaults of a joint that clamps these loops, and of what was told of them: `faced` is the same with the face
    that was taken for it; `follows` where heat moves a bearing that bears one way only.
    """
    friction, used = friction_of(joint), []
    if not joint.friction:
        condition = f'"{joint.thread_condition}"' if joint.thread_condition else "no thread condition given"
        of = condition if friction.said or not joint.thread_condition else f"{condition} is no condition known here"
        used.append(
            f"friction {friction.least:.2f} to {friction.most:.2f} of thread and face ({of}: {friction.source})"
        )
    if joint.face is None and faced.face is not None:
        used.append(f"face of the {joint.name} no wider than what it presses, {faced.face.nominal_mm:.1f}")
    elif joint.face is None:
        used.append(f"mean radius under the nut {MEAN_FACE_RADIUS_OVER_D} of the thread's diameter")
    reference = arrangement.reference
    bearings = [reference.part_at(place) for loop in clamped for place in (loop.start, loop.end)]
    if loops and not all(map(inside_is_given, bearings)):
        used.append("inside of the bearings guessed from bore and outside diameter")
    if any(part.kind == "ball bearing" and part.size("axial_play") is None for part in bearings):
        used.append("fit takes 0 to 80 in 100 of what play the rings lose")
    used += dict.fromkeys(fits_are(reference, loop) for loop in clamped if is_touching(loop))
    if any(name.startswith(OUTER) for loop in loops for name, _ in loop.press_fits):
        used.append(WALL_IS)
    if follows:
        used.append(FOLLOWS_IS)
    used.append(
        f"steel where no material is given; wide parts bear within {CONE_DEG[0]:g} to {CONE_DEG[2]:g} degrees of "
        "the faces that press on them"
    )
    row = [arrangement.ruler.part(member.standing) for member in grip_row(arrangement, joint)[1]]
    used += metals_taken([*(part for part in row if part is not None), *_between_outer_rings(arrangement, clamped)])
    used += _as_one_tube(arrangement, joint)
    if joint.thread_stop is not None and not joint.thread_stop.has_limits:
        used.append(f"end of the thread of the {joint.name} {with_limits(joint.thread_stop, '').limits_from}")
    if settles:
        threads = threads_of(arrangement, joint)
        ends = "head, nut and thread" if threads == 1 else "both nuts and their threads"
        used.append(
            f"each pair of faces settles {FACE_MM[0] * 1e3:g} to {FACE_MM[2] * 1e3:g} µm, {ends} {1e3 * ends_mm(threads):g} "
            f"µm more (VDI 2230 part 1, Table 5, from memory), a light pull down to {SHARE[0] * 100:g} in 100 of that"
        )
    used.append(f"{BEYOND_THE_SHANK if joint.shank else AXLE_IS}; legs and shoulders without a length give nothing")
    return tuple(used)


def _between_outer_rings(arrangement: Arrangement, clamped: Sequence[Loop]) -> list[Part]:
    """What stands between the outer rings that it presses on, whose give counts too."""
    paths = {loop.closed_stack: loop.closed_path for loop in clamped} | {
        loop.open_stack: loop.open_path for loop in clamped
    }
    homes = {place for path in paths.values() for place in path}
    standing = [member for stack in paths if stack for member in arrangement.members(stack)]
    parts = [arrangement.ruler.part(member.standing) for member in standing if member.standing.home in homes]
    return [part for part in parts if part is not None]


def _as_one_tube(arrangement: Arrangement, joint: Joint) -> list[str]:
    """The parts that it presses together of which a bore and an outside are given, and whose feature says that they are
    no plain tube.
    """
    named: dict[str, dict[str, None]] = {}
    for member in grip_row(arrangement, joint)[1]:
        part = arrangement.ruler.part(member.standing)
        is_plain = part is None or part.feature not in NO_PLAIN_TUBE or part.kind in TURNED or part.sections
        if not is_plain and part.size("bore") and part.size("outside"):
            named.setdefault(part.feature, {})[lower(part.name)] = None
    return [
        f"{' and '.join(names)} counted as one tube{' each' * (len(names) > 1)}, without the {feature}"
        for feature, names in named.items()
    ]
