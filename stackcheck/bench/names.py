"""Names that are offered during a teardown: they help to name a part and never give away what is expected of it.

"Left collar" and not "short collar": where the reference has another part of that kind, only the kind and the side are
said, because people confirm what they read. Expected sizes and directions are not said at all.
"""

from __future__ import annotations

from stackcheck.model.reference import Reference
from stackcheck.present.names import place_words


def is_told_apart(reference: Reference, place: str) -> bool:
    """Whether the name alone says which part it is: no other part of this kind comes off here."""
    part = reference.part_at(place)
    return not any(other.kind == part.kind and other.id != part.id and not other.fixed for other in reference.parts)


def offered_name(reference: Reference, place: str) -> str:
    """ "left collar", "left hub bearing", "washer under the axle nut"."""
    if is_told_apart(reference, place):
        return place_words(reference, place)
    kind, tag = reference.part_at(place).kind, place.partition("@")[2]
    if f"{tag} end" in reference.ends:
        return f"{kind} at the {tag} end"
    return f"{tag} {kind}" if tag in reference.ends else kind


def beside(reference: Reference, place: str) -> tuple[str, str]:
    """What lies beside a place toward the first and toward the second end, in words; "outside" where nothing does."""
    first, second = _next(reference, place, -1), _next(reference, place, +1)
    if first == second:
        return f"{first}, {reference.ends[0]}", f"{second}, {reference.ends[1]}"
    return first, second


def _next(reference: Reference, place: str, step: int) -> str:
    for stack in reference.stacks:
        if place in stack.places:
            position = stack.places.index(place) + step
            if 0 <= position < len(stack.places):
                return offered_name(reference, stack.places[position])
    return "outside"
