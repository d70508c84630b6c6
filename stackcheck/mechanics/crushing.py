"""Whether what a joint clamps would give for good:
the stress in each part and on each face, against what its metal bears.

The model itself is elastic and knows no yield. A part that is pressed harder than this shortens for ever, and its clamp
is then less than any figure here. One with steps gives first where its section is least. Grades of metal are hardly
ever known, so the limit is that of a mild one: a finding is a question, not a verdict.
Source: yield of S235 (EN 10025-2), of soft wrought aluminium, and the limits of faces under a nut:
VDI 2230 part 1, Table A9 (all from memory).
"""

from __future__ import annotations

from itertools import pairwise
from math import pi
from typing import Any, NamedTuple

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.bodies import Missing, lower
from stackcheck.mechanics.grip_gives import grip_row
from stackcheck.mechanics.joint_pull import pull
from stackcheck.mechanics.pressed_faces import TURNED, pressed_faces
from stackcheck.mechanics.pressure_cone import Annulus, Pressed
from stackcheck.mechanics.side_by_side import paths_beside, row_beside
from stackcheck.mechanics.steps import steps_of
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.part import RING_BEARINGS, Part
from stackcheck.model.reference import Joint
from stackcheck.value import Value

YIELDS_MPA = {"steel": 235.0, "aluminium": 110.0}
"""Where the mildest common grade begins to yield."""

FACE_MPA = {"steel": 490.0, "aluminium": 220.0, "cast iron": 850.0}
"""What the face of a mild grade bears under a narrower one."""

OF_STEEL = frozenset(
    {"washer", "collar", "spacer tube", "shim ring", "thrust washer", "tab washer", "flange", "ring", "bush"}
)
"""Kinds that are of steel where no material is given."""


class Crushing(Value, kw_only=True):
    """One part, or the face between two, that may be pressed harder than a mild grade of its metal bears [N/mm²]."""

    what: tuple[str, ...]
    metal: str
    stress_mpa: Spanned
    limit_mpa: float


def crushing(arrangement: Arrangement, joint: Joint, torque_nmm: float) -> tuple[Crushing, ...]:
    """Everything in the grip of a joint that may give for good at this torque [N·mm], the worst first."""
    thread = thread_of(joint)
    try:
        unknowns, found = with_variants(
            lambda u: _stressed(u, arrangement, joint, pull(u, arrangement, joint, torque_nmm, thread))
        )
    except Missing:
        return ()
    told = [
        Crushing(what=what, metal=metal, limit_mpa=limit, stress_mpa=unknowns.spanned(stress))
        for what, metal, limit, stress in found
    ]
    return tuple(
        sorted(
            (each for each in told if each.stress_mpa.most > each.limit_mpa),
            key=lambda each: -each.stress_mpa.most / each.limit_mpa,
        )
    )


def _stressed(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, tension: Any
) -> list[tuple[tuple[str, ...], str, float, Any]]:
    """What its own stack bears, and every path beside a stretch of it, each with its share of the tension."""
    stack, members = grip_row(arrangement, joint)
    if not stack:
        return []
    beside = paths_beside(unknowns, arrangement, joint)
    shares = {place: each.carried(tension)[0] for each in beside for place in each.own_places}
    found = _row_stressed(
        unknowns, arrangement, joint, stack, members, [shares.get(member.place, tension) for member in members]
    )
    for each in beside:
        row, share = row_beside(arrangement, each), each.carried(tension)[1]
        told = _row_stressed(unknowns, arrangement, joint, each.other_stack, row, [share] * len(row))
        ends = {
            lower(arrangement.ruler.name(member.standing)) for member in row if member.place not in each.other_places
        }
        # The parts at either end stand in its own stack, where they bear all of it.
        found += [one for one in told if not (len(one[0]) == 1 and one[0][0].split(" of the ")[-1] in ends)]
    return found


def _row_stressed(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, stack: str, members: list[Member], tensions: list[Any]
) -> list[tuple[tuple[str, ...], str, float, Any]]:
    pressing = pressed_faces(unknowns, arrangement, stack, members, joint=joint, thread=thread_of(joint))
    tubes = [_tubes(arrangement, member) for member in members]
    named = [lower(arrangement.ruler.name(member.standing)) for member in members]
    found = []
    for i, name in enumerate(named):
        for tube, each in zip(tubes[i], pressing[i].steps or (pressing[i],)):
            narrowest = np.minimum(area(each.first), area(each.second))
            if tube.metal in YIELDS_MPA and not each.bends and np.all(np.isfinite(narrowest)) and _fills(tube, each):
                called = f"section {tube.number} of the {name}" if tube.number else name
                found.append(((called,), tube.metal, YIELDS_MPA[tube.metal], tensions[i] / narrowest))
    for i, (one, other) in enumerate(pairwise(tubes)):
        metals = one[-1].metal, other[0].metal
        soft = min((metal for metal in metals if metal in FACE_MPA), key=FACE_MPA.get, default="")
        touching = area(pressing[i].second)
        if (
            soft
            and np.all(np.isfinite(touching))
            and np.all(touching > 0)
            and not (pressing[i].bends or pressing[i + 1].bends)
        ):
            found.append(
                ((named[i], named[i + 1]), soft, FACE_MPA[soft], np.minimum(tensions[i], tensions[i + 1]) / touching)
            )
    return found


def area(ring: Annulus) -> Any:
    """π/4 (D² - d²) [mm²]."""
    return pi / 4 * (np.square(ring.outside) - np.square(ring.bore))


class _Tube(NamedTuple):
    """A part, or one of its sections by its `number`, with its metal ("" where nobody knows)
    and what is across it (None: not known).
    """

    metal: str
    ring: Annulus | None
    number: int = 0


def _tubes(arrangement: Arrangement, member: Member) -> list[_Tube]:
    """A part as the tubes that it is made of, first end to second."""
    part, metal = arrangement.ruler.part(member.standing), _metal(arrangement, member)
    steps = steps_of(arrangement.ruler, member.standing)
    if steps:
        return [_Tube(step.material or metal, Annulus(step.outside_mm, step.bore_mm), step.number) for step in steps]
    sizes = [part.size(name) if part is not None else None for name in ("outside", "bore")]
    return [_Tube(metal, None if None in sizes else Annulus(*(size.nominal_mm for size in sizes)))]


def _metal(arrangement: Arrangement, member: Member) -> str:
    part: Part | None = arrangement.ruler.part(member.standing)
    if part is None or part.kind in RING_BEARINGS | TURNED:
        return ""  # hardened, or a nut: what lies beside it gives first
    return part.material or ("steel" if part.kind in OF_STEEL else "")


def _fills(tube: _Tube, pressing: Pressed) -> bool:
    """Whether both faces press on nearly all of it,
    so that all of it is in the stress and none supports the rest.
    """
    if tube.ring is None:
        return False
    return all(bool(np.all(area(face) > 0.9 * area(tube.ring))) for face in (pressing.first, pressing.second))
