"""How the disc springs of a stack lie: which nest in one another, and how high the stack stands with nothing on it.

Told from the facings alone; the force at a length is worked out by `stackcheck.mechanics.spring_stacks`.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.model.part import Part
from stackcheck.value import Value


def groups(turned: Sequence[bool]) -> tuple[int, ...]:
    """How many discs lie nested in each group: neighbours the same way round nest, opposite ones stand on each other.

    >>> groups([False, False, True, True, False, False])
    (2, 2, 2)
    >>> groups([False, False, True, True, False, True])  # the last one turned round
    (2, 2, 1, 1)
    """
    counts: list[int] = []
    before = None
    for way in turned:
        if way == before:
            counts[-1] += 1
        else:
            counts.append(1)
        before = way
    return tuple(counts)


class DiscGroups(Value, kw_only=True):
    """The nested springs of each group, first end to second end, and the one kind of spring they are.

    `free_mm` is Σ (h0 + n t) of the groups at nominal size [mm],
    None where a size is not given (EN 16984, from memory).
    """

    stack: str
    counts: tuple[int, ...] = ()
    part: Part | None = None
    free_mm: float | None = None
    needs: tuple[str, ...] = ()


def disc_groups(arrangement: Arrangement, stack: str) -> DiscGroups:
    """The groups of a stack, or what must be known for them."""
    members = [member for member in arrangement.members(stack) if _kind(arrangement, member) == "disc spring"]
    ways: list[bool] = []
    needs: list[str] = []
    for member in members:
        place = arrangement.reference.place(member.standing.home) if member.standing.home else None
        if place is None or not place.facing or member.or_else:
            needs.append(f"which way {arrangement.ruler.name(member.standing)} looks")
        else:
            ways += [(place.facing == "second") != member.standing.turned] * member.standing.count
    if len({member.standing.part for member in members}) != 1:
        needs.append("springs of one kind" if members else "a disc spring in it")
    if needs:
        return DiscGroups(stack=stack, needs=tuple(needs))
    part, counts = arrangement.ruler.part(members[0].standing), groups(ways)
    height, thickness = part.size("disc_height"), part.size("disc_thickness")
    free = None
    if height is not None and thickness is not None:
        free = sum(height.nominal_mm + (count - 1) * thickness.nominal_mm for count in counts)
    return DiscGroups(stack=stack, counts=counts, part=part, free_mm=free)


def _kind(arrangement: Arrangement, member: Member) -> str:
    part = arrangement.ruler.part(member.standing)
    return part.kind if part is not None else ""
