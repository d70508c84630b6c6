"""Over which parts of their faces the members of a stack press on one another:
the faces beside, and the cones between them.

A part that says nothing of its faces touches with all of them; `face_outside` and `face_bore` narrow both, and
`feature_face_outside` and `feature_face_bore` only the one that its feature is on (the rim of a hollow flange). One
that is given by its sections touches with the faces of its end sections, and the cones go on through its steps. A ring
of a bearing counts as wide as it is estimated to be. A diameter that nobody gives narrows nothing; a member whose
length nobody gives, and a spring, end the row.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice
from math import inf

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.threads import MEAN_FACE_RADIUS_OVER_D, Thread
from stackcheck.mechanics.bodies import cone_growth, ring_section
from stackcheck.mechanics.clamp import TURNED
from stackcheck.mechanics.faces import face_size
from stackcheck.mechanics.paths import diameter
from stackcheck.mechanics.pressure_cone import WHOLE_FACE, Annulus, Body, Pressed, pressed
from stackcheck.mechanics.steps import steps_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.finding import Standing
from stackcheck.model.part import RING_BEARINGS, Part
from stackcheck.model.reference import Joint

RINGS = {"inner rings": "inner", "outer rings": "outer"}
"""Which ring of a bearing a stack presses."""

GIVES_WAY = frozenset({"spring washer", "spring", "crush sleeve", "disc spring"})
"""Kinds that no cone passes."""

FACE_OVER_D = 4 * MEAN_FACE_RADIUS_OVER_D - 1
"""Outside of the face under a nut or a head over the diameter of its thread, where nothing is given."""


def pressed_faces(
    unknowns: Unknowns,
    arrangement: Arrangement,
    stack: str,
    members: Sequence[Member],
    *,
    joint: Joint | None = None,
    thread: Thread | None = None,
) -> list[Pressed]:
    """What each of these neighbours in a stack is pressed over,
    the half angle of the cone one unknown for all of them.
    """
    through = arrangement.reference.stack(stack).through
    rows = [_bodies(arrangement, member, through, joint, thread) for member in members]
    if not members:
        return []
    before, after = (
        _beyond(arrangement, stack, end, step, through, joint, thread)
        for end, step in ((members[0], -1), (members[-1], 1))
    )
    row = iter(
        pressed([body for bodies in rows for body in bodies], grows=cone_growth(unknowns), before=before, after=after)
    )
    return [Pressed.of_steps(list(islice(row, len(bodies)))) for bodies in rows]


def _beyond(
    arrangement: Arrangement,
    stack: str,
    end: Member,
    step: int,
    through: str,
    joint: Joint | None,
    thread: Thread | None,
) -> Annulus:
    """The face of what stands beyond the end of a row, as far as anybody knows."""
    path = arrangement.paths[stack]
    spot = next(i for i, item in enumerate(path) if item is end) + step
    if not 0 <= spot < len(path) or not isinstance(path[spot], Member):
        return WHOLE_FACE
    beside = _bodies(arrangement, path[spot], through, joint, thread)[-1 if step < 0 else 0]
    return (beside.second if step < 0 else beside.first) or beside.section or WHOLE_FACE


def _bodies(
    arrangement: Arrangement, member: Member, through: str, joint: Joint | None, thread: Thread | None
) -> list[Body]:
    """A member as the bodies that it is made of, first end to second: one, or its steps."""
    ruler, standing = arrangement.ruler, member.standing
    part, term = ruler.part(standing), ruler.term(standing, through)
    if part is not None and part.kind in TURNED:
        return [Body(section=_turned(part, joint, thread), length_mm=0.0)]
    length = term.interval.nominal_mm if term is not None else 0.0
    if not length > 0 or part is not None and (part.kind in GIVES_WAY or part.stiffness is not None):
        return [Body(section=None, length_mm=0.0)]
    if ring := pressed_ring(part, through):
        return [Body(section=Annulus(*ring_section(part, ring)), length_mm=length)]
    outside, bore = diameter(ruler, standing, "outside"), diameter(ruler, standing, "bore")
    section = Annulus(inf if outside is None else outside, 0.0 if bore is None else bore)
    first, second = (_face(arrangement, standing, part, section, end) for end in ("first", "second"))
    steps = [Body(Annulus(step.outside_mm, step.bore_mm), step.length_mm) for step in steps_of(ruler, standing, length)]
    if not steps:
        return [Body(section=section, length_mm=length, first=first, second=second)]
    steps[0] = steps[0]._replace(first=first)
    steps[-1] = steps[-1]._replace(second=second)
    return steps


def pressed_ring(part: Part | None, through: str) -> str:
    """Which ring of a bearing a stack presses, "inner" or "outer";
    "" for anything else, and where nobody gives its diameters.
    """
    if part is None or part.kind not in RING_BEARINGS or not (part.size("bore") and part.size("outside")):
        return ""
    return RINGS.get(through, "")


def _face(arrangement: Arrangement, standing: Standing, part: Part | None, section: Annulus, end: str) -> Annulus:
    """The face of a part that looks at this end."""
    said = (face_size(arrangement.ruler, standing, part, end, name) for name in ("outside", "bore"))
    return Annulus(*(whole if own is None else own for own, whole in zip(said, section)))


def _turned(part: Part, joint: Joint | None, thread: Thread | None) -> Annulus | None:
    """The face of a nut or a head: as the joint says, as wide as its flats,
    or as wide as its mean radius is taken to be.
    """
    own = part.size("across_flats") or part.size("outside")
    outside = (
        joint.face.nominal_mm
        if joint is not None and joint.face is not None
        else own.nominal_mm
        if own is not None
        else None
    )
    if thread is None:
        return None
    return Annulus(FACE_OVER_D * thread.d_mm if outside is None else max(outside, 1.05 * thread.d_mm), thread.d_mm)
