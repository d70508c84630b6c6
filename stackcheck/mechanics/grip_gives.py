"""What a joint presses together: the members of its grip, and what each gives under the faces that press on it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.bodies import Missing, body_stiffness, ring_stiffness, ring_width
from stackcheck.mechanics.clamp import TURNED, clamped_stack, ends_the_pull, grip
from stackcheck.mechanics.pressed_faces import pressed_faces, pressed_ring
from stackcheck.mechanics.pressure_cone import Pressed
from stackcheck.mechanics.thread_end import is_face
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.reference import Joint


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
