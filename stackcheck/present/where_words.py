"""Where a part stands or belongs, in words: by its neighbours, and by the end where it has one neighbour only."""

from __future__ import annotations

from stackcheck.model.reference import Reference
from stackcheck.present.names import end_words, place_words


def between_words(reference: Reference, after: str, before: str) -> str:
    """ "between left collar and left bearing", "outside the axle nut, at the left end"."""
    if after and before:
        return f"between {place_words(reference, after)} and {place_words(reference, before)}"
    if before:
        return f"outside {place_words(reference, before)}, at the {end_words(reference, 0)}"
    return f"outside {place_words(reference, after)}, at the {end_words(reference, 1)}" if after else ""


def home_words(reference: Reference, place: str, after: str = "", before: str = "") -> str:
    """Where a place of the reference is, by these neighbours or its own.

    With one neighbour only it is "outside" that where nothing else lies further out, else "beside" it:
    the bush inside a drum is at no end of the winch.
    """
    if not (after or before):
        after, before = neighbours(reference, place)
    one = after or before
    if not one or after and before or not _is_further_out(reference, one, place, step=1 if after else -1):
        return between_words(reference, after, before)
    return f"beside {place_words(reference, one)}, toward the {end_words(reference, 1 if after else 0)}"


def _is_further_out(reference: Reference, one: str, apart_from: str, *, step: int) -> bool:
    """Whether any stack has something else on that side of a place."""
    paths = (stack.places[::step] for stack in reference.stacks if one in stack.places)
    return any(set(places[places.index(one) + 1 :]) - {apart_from} for places in paths)


def neighbours(reference: Reference, place: str) -> tuple[str, str]:
    """The places beside this one in the first stack that holds it ("" at an end)."""
    for stack in reference.stacks:
        places = stack.places
        if place in places:
            here = places.index(place)
            return (places[here - 1] if here else "", places[here + 1] if here + 1 < len(places) else "")
    return "", ""
