"""What lies beside a place, by names that give nothing away."""

from __future__ import annotations

from stackcheck.model.reference import Reference
from stackcheck.present.names import offered_name


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
