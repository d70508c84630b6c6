"""How hard a joint pulls: by its torque, less what a locking nut takes, and by the angle it is turned on from there.

A torque leaves one tension whatever the stack is; an angle stretches the axle against the stack, so that a longer or
softer stack takes another tension. Unknown friction, prevailing torque and stiffness are ranges
(`stackcheck.mechanics.unknowns`).
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.threads import MEAN_FACE_RADIUS_OVER_D, Thread, gain_by_angle, tension_from
from stackcheck.mechanics.axle import axle_stiffness, rods, stretches
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import TURNED
from stackcheck.mechanics.grip_gives import grip_gives
from stackcheck.mechanics.side_by_side import Gives, paths_beside
from stackcheck.mechanics.thread_friction import friction_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import Amount, Size
from stackcheck.model.reference import Joint, Reference
from stackcheck.value import replace


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
    beside = paths_beside(unknowns, arrangement, joint)
    if not beside:
        return snug + gain_by_angle(angle_deg=angle, pitch_mm=thread.pitch_mm, bolt_n_per_mm=axle, stack_n_per_mm=stack)
    gives = Gives(row=1 / stack + 1 / axle, beside=beside)
    return gives.force(gives.travel(snug) + angle * thread.pitch_mm / 360)


def grip_stiffness(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, thread: Thread) -> tuple[Any, Any]:
    """Of what the joint presses together in its own stack, one behind the other, and of the axle inside it [N/mm];
    paths beside that stack are in `stackcheck.mechanics.side_by_side`.
    """
    terms = grip_gives(unknowns, arrangement, joint)
    soft = sum(soft for _, soft, _ in terms)
    if not np.all(soft > 0):
        raise Missing(f"lengths of what the {joint.name} clamps")
    axle = axle_stiffness(unknowns, thread, stretches(arrangement, terms), shank=rods(arrangement.reference, joint))
    return 1 / soft, axle


def asked(unknowns: Unknowns, name: str, amount: Amount) -> Any:
    """An amount as the reference gives it, one value or a range."""
    least = amount.nominal if amount.least is None else amount.least
    return unknowns.value(name, least, amount.nominal, amount.nominal if amount.most is None else amount.most)
