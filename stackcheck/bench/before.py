"""What to look at before anything is loosened, and what a clamp did when it was: facts that exist only for a moment.

The questions follow from the reference: its open gaps, the members whose position matters, what locks and clamps it.
Common practice, no source.
"""

from __future__ import annotations

from stackcheck.model.loops import Loop
from stackcheck.model.part import CARRIED_AWAY, Part
from stackcheck.model.reference import Joint, Reference
from stackcheck.present.names import capital_first, lower_first, offered_name
from stackcheck.value import Value

TURNING = frozenset({"hub", "wheel", "drum", "shaft", "arbor", "axle", "impeller", "pulley", "gear", "sprocket"})
CLAMPING = frozenset({"nut", "bolt"})


class Before(Value, kw_only=True):
    """One thing to look at while it is whole: `gap` where it is the size of a gap,
    `place` and `size` of a member that stays.
    """

    key: str
    text: str
    gap: str = ""
    place: str = ""
    size: str = ""


def before_loosening(reference: Reference) -> tuple[Before, ...]:
    """What the reference wants looked at before the first turn of the spanner, most fleeting first."""
    asked: list[Before] = []
    for loop in reference.loops:
        if loop.stated and _can_be_seen_whole(reference, loop):
            ends = [offered_name(reference, place) for place in loop.gap_between if reference.has_place(place)]
            asked.append(
                Before(key=f"before:{loop.name}", text=f"{capital_first(loop.name)}, {_from_to(ends)}", gap=loop.name)
            )
    fixed = [place.name for place in reference.places if reference.part(place.part).fixed]
    ends = [name for name in fixed if reference.place(name).end is not None]
    for name in fixed:
        part = reference.part_at(name)
        if name not in ends and part.size("length") is not None and _spans(reference, name):
            asked.append(Before(key=f"before:{name}", text=f"{part.name}: the distance", place=name, size="length"))
    for place in reference.places:
        if reference.part(place.part).has_duty("watch"):
            for end in ends:
                text = f"{capital_first(offered_name(reference, place.name))} to {offered_name(reference, end)}"
                asked.append(Before(key=f"before:{place.name} to {end}", text=text))
    if any(part.kind in TURNING for part in reference.parts):
        asked += [
            Before(key="before:turns", text="Turned by hand: free, drags once a turn, or hard"),
            Before(key="before:rock", text="Rocked across the axis: any play felt"),
        ]
    locked = [joint for joint in reference.joints if joint.locked_by]
    asked += [
        Before(key=f"before:lock {joint.name}", text=f"{capital_first(joint.name)}: its lock ({joint.locked_by}) there")
        for joint in locked
    ]
    asked += [
        Before(key="before:paint", text="Paint line drawn across joints and nuts"),
        Before(key="before:photo", text="Photo of each end, something in it that shows the side: card numbers"),
    ]
    return tuple(asked)


def _from_to(ends: list[str]) -> str:
    """Both ends of a gap in words; what they are called alike is said once:
    "guide washer at the nut end to that at the hub end".
    """
    if len(ends) != 2:
        return " to ".join(ends)
    first, second = (name.split() for name in ends)
    alike = next((number for number, (one, other) in enumerate(zip(first, second)) if one != other), 0)
    while alike and second[alike - 1] in ("at", "on", "in", "of", "the"):
        alike -= 1
    return f"{ends[0]} to that {' '.join(second[alike:])}" if alike > 1 and alike < len(second) else " to ".join(ends)


def _can_be_seen_whole(reference: Reference, loop: Loop) -> bool:
    """A gap beside a fixed member that stays outside can be reached with a feeler; one deep inside cannot."""
    kinds = {reference.part_at(place).kind for place in loop.gap_between if reference.has_place(place)}
    return bool(loop.set_by) or bool(
        kinds & {"leg", "bracket", "cover", "plate", "pressure plate", "circlip", "shoulder"}
    )


def _spans(reference: Reference, name: str) -> bool:
    """Whether this fixed member holds two others apart: the fork between its legs."""
    return any(
        stack.places.index(name) not in (0, len(stack.places) - 1)
        and all(reference.part_at(place).kind in CARRIED_AWAY for place in (stack.places[0], stack.places[-1]))
        for stack in reference.stacks
        if name in stack.places
    )


def clamp_of(reference: Reference, part: Part) -> Joint | None:
    """The joint that a fastener belongs to: by its name, or the only joint for the only fastener."""
    if part.kind not in CLAMPING:
        return None
    name = lower_first(part.name)
    for joint in reference.joints:
        if lower_first(joint.name) in name or name in lower_first(joint.name):
            return joint
    fasteners = [other for other in reference.parts if other.kind in CLAMPING and not other.fixed]
    return reference.joints[0] if len(reference.joints) == 1 and len(fasteners) == 1 else None
