"""Whether what a joint clamps would give for good:
the stress in each part and on each face, against what its metal bears.

The model itself is elastic and knows no yield. A part that is pressed harder than this shortens for ever, and its clamp
is then less than any figure here. Grades of metal are hardly ever known, so the limit is that of a mild one: a finding
is a question, not a verdict.
Source: yield of S235 (EN 10025-2), of soft wrought aluminium, and the limits of faces under a nut:
VDI 2230 part 1, Table A9 (all from memory).
"""

from __future__ import annotations

from itertools import pairwise
from math import pi
from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.bodies import Missing, lower
from stackcheck.mechanics.joint_pull import grip_row, pull, thread_of
from stackcheck.mechanics.pressed_faces import TURNED, pressed_faces
from stackcheck.mechanics.pressure_cone import Annulus
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
    stack, members = grip_row(arrangement, joint)
    if not stack:
        return []
    pressing = pressed_faces(unknowns, arrangement, stack, members, joint=joint, thread=thread_of(joint))
    named = [lower(arrangement.ruler.name(member.standing)) for member in members]
    metals = [_metal(arrangement, member) for member in members]
    found = []
    for i, metal in enumerate(metals):
        narrowest = np.minimum(area(pressing[i].first), area(pressing[i].second))
        if (
            metal in YIELDS_MPA
            and not pressing[i].bends
            and np.all(np.isfinite(narrowest))
            and _is_whole(arrangement, members[i], pressing[i].first, pressing[i].second)
        ):
            found.append(((named[i],), metal, YIELDS_MPA[metal], tension / narrowest))
    for i, (one, other) in enumerate(pairwise(metals)):
        soft = min((metal for metal in (one, other) if metal in FACE_MPA), key=FACE_MPA.get, default="")
        touching = area(pressing[i].second)
        if (
            soft
            and np.all(np.isfinite(touching))
            and np.all(touching > 0)
            and not (pressing[i].bends or pressing[i + 1].bends)
        ):
            found.append(((named[i], named[i + 1]), soft, FACE_MPA[soft], tension / touching))
    return found


def area(ring: Annulus) -> Any:
    """π/4 (D² - d²) [mm²]."""
    return pi / 4 * (np.square(ring.outside) - np.square(ring.bore))


def _metal(arrangement: Arrangement, member: Member) -> str:
    part: Part | None = arrangement.ruler.part(member.standing)
    if part is None or part.kind in RING_BEARINGS | TURNED:
        return ""  # hardened, or a nut: what lies beside it gives first
    return part.material or ("steel" if part.kind in OF_STEEL else "")


def _is_whole(arrangement: Arrangement, member: Member, first: Annulus, second: Annulus) -> bool:
    """Whether both faces press on nearly all of the part,
    so that all of it is in the stress and none supports the rest.
    """
    part = arrangement.ruler.part(member.standing)
    outside, bore = (part.size(name) for name in ("outside", "bore")) if part is not None else (None, None)
    if outside is None or bore is None:
        return False
    whole = area(Annulus(outside.nominal_mm, bore.nominal_mm))
    return bool(np.all(area(first) > 0.9 * whole) and np.all(area(second) > 0.9 * whole))
