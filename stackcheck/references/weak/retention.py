"""Nuts that keep something on, and nothing that keeps the nut."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from stackcheck.formats.words import plain
from stackcheck.model.part import Part
from stackcheck.model.reference import Joint, Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness

LOCKING_KINDS = frozenset({"split pin", "tab washer", "spring washer", "circlip", "nut"})
"""Kinds that can keep the nut beside them from turning; a second nut is a lock nut."""

_LOCKS_ITSELF = re.compile(
    r"\b(self[- ]locking|insert|lock ?nut|prevailing torque|staked|locking compound)\b", re.IGNORECASE
)


def retention(reference: Reference) -> Iterator[Weakness]:
    """Every nut with the duty of retention needs a locking device, and a device that is named must be among the parts.

    A nut that is renewed every time counts as one that locks itself (common practice, no source).
    """
    for part in reference.parts:
        if part.kind == "nut" and part.has_duty("retention") and not _is_locked(reference, part):
            yield Weakness(
                check="retention", grade=TO_MEND, about=("parts", part.id, "duty"),
                sentence=f"{part.name} keeps something on, and nothing says what keeps the nut from turning",
                mend='name it: locked_by = "..." in its joint, a pin, tab or lock nut beside it, or "new every time"',
            )  # fmt: skip
    kinds = {part.kind for part in reference.parts}
    for joint in reference.joints:
        if joint.locked_by in LOCKING_KINDS and joint.locked_by not in kinds:
            yield Weakness(
                check="retention",
                grade=TO_MEND,
                about=("joints", joint.name, "locked_by"),
                sentence=f"{joint.name} is locked by a {joint.locked_by}, "
                "and no part of that kind stands in the reference",
                mend=f"add the {joint.locked_by} to the parts and to a stack",
            )


def _is_locked(reference: Reference, nut: Part) -> bool:
    said = " ".join((nut.name, *nut.also, nut.feature, nut.note))
    if nut.has_duty("new every time") or _LOCKS_ITSELF.search(said):
        return True
    places = {place.name for place in reference.places_of(nut.id)}
    beside = {
        other
        for stack in reference.stacks
        for one, other in _neighbours(stack.places)
        if one in places and reference.place(other).part != nut.id
    }
    if any(reference.part_at(place).kind in LOCKING_KINDS for place in beside):
        return True
    return any(joint.locked_by and _is_of(joint, nut, places | beside) for joint in reference.joints)


def _neighbours(places: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    for one, other in pairwise(places):
        yield one, other
        yield other, one


def _is_of(joint: Joint, nut: Part, places: set[str]) -> bool:
    """Whether the joint is that of this nut: by its name, else by the places it clamps."""
    return (
        plain(joint.name) in plain(nut.name) or plain(nut.name) in plain(joint.name) or bool(places & set(joint.clamps))
    )
