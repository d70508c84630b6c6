"""How hard a joint pulls: by its torque, less what a locking nut takes, and by the angle it is turned on from there.

A torque leaves one tension whatever the stack is; an angle stretches the axle against the stack, so that a longer or
softer stack takes another tension. Unknown friction, prevailing torque and stiffness are ranges
(`stackcheck.mechanics.unknowns`).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.threads import MEAN_FACE_RADIUS_OVER_D, Thread, gain_by_angle, tension_from
from stackcheck.mechanics.axle import axle_stiffness, rods, stretches
from stackcheck.mechanics.bodies import Missing, body_stiffness, ring_stiffness, ring_width
from stackcheck.mechanics.clamp import TURNED, clamped_stack, ends_the_pull, grip
from stackcheck.mechanics.nut_slots import thread_pitch_mm
from stackcheck.mechanics.pressed_faces import pressed_faces, pressed_ring
from stackcheck.mechanics.pressure_cone import Pressed
from stackcheck.mechanics.thread_end import is_face
from stackcheck.mechanics.thread_friction import friction_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import Amount, Size
from stackcheck.model.reference import Joint, Reference
from stackcheck.value import replace


def thread_of(joint: Joint) -> Thread | None:
    pitch = thread_pitch_mm(joint.thread)
    digits = joint.thread.strip().lstrip("Mm").replace(",", ".")
    size = ""
    for sign in digits:
        if not (sign.isdigit() or sign in "./ "):
            break
        size += sign
    if pitch is None or not size.strip():
        return None
    diameter = sum(_fraction(piece) for piece in size.split())
    return Thread(d_mm=diameter if joint.thread.strip()[:1] in "Mm" else 25.4 * diameter, pitch_mm=pitch)


def _fraction(text: str) -> float:
    over, _, under = text.partition("/")
    return float(over) / float(under) if under else float(over)


def face_radius(joint: Joint, thread: Thread) -> float:
    """Mean radius of the face that turns [mm]: (outside + thread)/4 where the reference gives its outside."""
    return (
        (joint.face.nominal_mm + thread.d_mm) / 4 if joint.face is not None else MEAN_FACE_RADIUS_OVER_D * thread.d_mm
    )


def faced(reference: Reference, joint: Joint, thread: Thread) -> Joint:
    """The joint with a face no wider than the part that it presses, where its own is not given.

    An adjuster that screws into a housing presses on a ring inside its thread: 0.65 of that would lie outside the ring.
    """
    outside = _pressed_outside(reference, joint)
    if joint.face is not None or outside is None or outside.nominal_mm >= 2 * MEAN_FACE_RADIUS_OVER_D * thread.d_mm:
        return joint
    return replace(joint, face=outside)


def _pressed_outside(reference: Reference, joint: Joint) -> Size | None:
    """The outside of what stands next to the nut or bolt of a joint, between its two places; None where nobody gives it."""
    for stack in reference.stacks:
        if not set(joint.clamps) <= set(stack.places):
            continue
        first, last = sorted(stack.places.index(place) for place in joint.clamps)
        for turns, beside in ((last + 1, last), (first - 1, first)):
            if 0 <= turns < len(stack.places) and reference.part_at(stack.places[turns]).kind in TURNED:
                return reference.part_at(stack.places[beside]).size("outside")
    return None


def pull_at(unknowns: Unknowns, joint: Joint, torque_nmm: float, thread: Thread) -> Any:
    """Tension at a torque [N], before the joint is turned on by an angle."""
    friction = friction_of(joint)
    mu = unknowns.value("friction of thread and face", friction.least, friction.usual, friction.most)
    prevailing = (
        0.0 if joint.prevailing is None else asked(unknowns, f"prevailing torque of the {joint.name}", joint.prevailing)
    )
    return tension_from(
        torque_nmm=torque_nmm,
        thread=thread,
        thread_friction=mu,
        face_friction=mu,
        face_radius_mm=face_radius(joint, thread),
        prevailing_nmm=prevailing,
    )


def turned_deg(unknowns: Unknowns, joint: Joint) -> Any:
    """How far a joint is turned on after its torque [degrees], 0 for one that is tightened by torque alone."""
    return 0.0 if joint.angle is None else asked(unknowns, f"angle of the {joint.name}", joint.angle)


def pull(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, torque_nmm: float, thread: Thread) -> Any:
    """Tension when tightened [N], by torque and then by angle where the joint has one.

    Raises:
        Missing: an angle, and a length in its grip that nobody knows.
    """
    snug, angle = pull_at(unknowns, joint, torque_nmm, thread), turned_deg(unknowns, joint)
    if joint.angle is None:
        return snug
    stack, axle = grip_stiffness(unknowns, arrangement, joint, thread)
    return snug + gain_by_angle(angle_deg=angle, pitch_mm=thread.pitch_mm, bolt_n_per_mm=axle, stack_n_per_mm=stack)


def grip_stiffness(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, thread: Thread) -> tuple[Any, Any]:
    """Of what the joint presses together, one behind the other, and of the axle inside it [N/mm]."""
    terms = grip_gives(unknowns, arrangement, joint)
    soft = sum(soft for _, soft, _ in terms)
    if not np.all(soft > 0):
        raise Missing(f"lengths of what the {joint.name} clamps")
    axle = axle_stiffness(unknowns, thread, stretches(arrangement, terms), shank=rods(arrangement.reference, joint))
    return 1 / soft, axle


def grip_gives(unknowns: Unknowns, arrangement: Arrangement, joint: Joint) -> list[tuple[Member, Any, float]]:
    """Each member that the joint presses together, with its 1/k [mm/N] and its length [mm];
    nothing where no stack holds its places.

    What the pull ends at, a nut or the shoulder of the axle, is pressed with one face and gives nothing.
    """
    stack, members = grip_row(arrangement, joint)
    terms = row_gives(unknowns, arrangement, stack, members, joint) if stack else []
    return [
        (member, 0.0, 0.0) if ends_the_pull(arrangement, member, joint) else (member, soft, length)
        for member, soft, length in terms
    ]


def grip_row(arrangement: Arrangement, joint: Joint) -> tuple[str, list[Member]]:
    """The stack that holds both places of a joint, and what it presses together there; "" where none does."""
    through_inner = clamped_stack(arrangement.reference, joint) is not None
    for stack in arrangement.reference.stacks:
        if set(joint.clamps) <= set(stack.places) and (through_inner or stack.through != "inner rings"):
            path, spots = arrangement.paths[stack.name], grip(arrangement, joint, stack.name)
            return stack.name, [path[i] for i in spots if isinstance(path[i], Member)]
    return "", []


def pressed_row(unknowns: Unknowns, arrangement: Arrangement, joint: Joint) -> list[Pressed]:
    """What each member of the grip of a joint is pressed over (`grip_gives`)."""
    stack, members = grip_row(arrangement, joint)
    return pressed_faces(unknowns, arrangement, stack, members, joint=joint, thread=thread_of(joint)) if stack else []


def row_gives(
    unknowns: Unknowns, arrangement: Arrangement, stack: str, members: Sequence[Member], joint: Joint | None
) -> list[tuple[Member, Any, float]]:
    """Neighbours of a stack, each with its 1/k [mm/N] under the faces beside it and its length [mm]."""
    through = arrangement.reference.stack(stack).through
    thread = None if joint is None else thread_of(joint)
    pressing = pressed_faces(unknowns, arrangement, stack, members, joint=joint, thread=thread)
    return [
        (member, *_softness(unknowns, arrangement, member, through, each)) for member, each in zip(members, pressing)
    ]


def _softness(
    unknowns: Unknowns, arrangement: Arrangement, member: Member, through: str, pressing: Pressed
) -> tuple[Any, float]:
    """1/k [mm/N] and length [mm]; a leg or a shoulder whose length is not given adds nothing, and so does the nut."""
    ruler, part = arrangement.ruler, arrangement.ruler.part(member.standing)
    term = ruler.term(member.standing, through)
    if part is not None and part.kind in TURNED or is_face(arrangement, member, through):
        return 0.0, 0.0
    ring = pressed_ring(part, through)
    if term is None and not ring:
        raise Missing(ruler.needs_length(member.standing))
    length = term.interval.nominal_mm if term is not None else ring_width(part)
    if ring:
        return 1 / ring_stiffness(unknowns, part, ring), length
    return 1 / body_stiffness(unknowns, ruler, member.standing, length, pressing), length


def asked(unknowns: Unknowns, name: str, amount: Amount) -> Any:
    """An amount as the reference gives it, one value or a range."""
    least = amount.nominal if amount.least is None else amount.least
    return unknowns.value(name, least, amount.nominal, amount.nominal if amount.most is None else amount.most)
