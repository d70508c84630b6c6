"""The names of places and ends on a screen, and words for counts and lists; nothing here knows of findings."""

from __future__ import annotations

import re
from collections.abc import Iterable

from stackcheck.model.part import SIZE_NAMES
from stackcheck.model.place_words import end_called, lower_first, place_of_end, place_words, the
from stackcheck.model.reference import Reference


def counted(count: int, one: str, several: str = "") -> str:
    return f"{count} {one if count == 1 else several or one + 's'}"


def listed(words: Iterable[str], last: str = "and") -> str:
    """ "a, b and c"."""
    items = list(words)
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} {last} {items[-1]}" if items else ""


def needed(needs: Iterable[str]) -> str:
    """What is missing for an answer, inside a sentence: "length of the bush of the drum and torque of the axle nut"."""
    return listed(
        dict.fromkeys(
            f"length of the {lower_first(name)}"
            if (name := each.removeprefix("length of ")) != each and not name.startswith("entry ")
            else each
            for each in needs
        )
    )


def capital_first(words: str) -> str:
    return words[:1].upper() + words[1:]


def in_place_words(reference: Reference, words: str) -> str:
    """What an engine says of places, by the names of the bench:
    "the hub bearing at bearing@left" is "the left hub bearing".
    """
    said = {}
    for place in reference.line:
        own, name = lower_first(reference.part_at(place).name), the(place_words(reference, place))
        words = words.replace(f"the {own} at {place}", name)
        said |= {own: own}  # "stand-off" is a place, and no place within "stand-off washer"
        if not place.isalpha():  # "hub" may be any word, "hub@left" and "hub-seal" are places
            said |= {place: name}
    longest_first = "|".join(map(re.escape, sorted(said, key=len, reverse=True)))
    return re.sub(rf"(?<![\w@-])(?:{longest_first})(?![\w@-])", lambda match: said[match[0]], words)


def end_words(reference: Reference, end: int) -> str:
    """ "left end", "coupling end", "motor side"."""
    return end_called(reference.ends[end])


def size_words(size: str) -> str:
    """ "length", "outside diameter (OD)": the name of a size where the part stands beside it."""
    return SIZE_NAMES.get(size, size).partition(",")[0].removesuffix(" along the axis")


def is_told_apart(reference: Reference, place: str) -> bool:
    """Whether the name alone says which part it is: no other part of this kind comes off here."""
    part = reference.part_at(place)
    return not any(other.kind == part.kind and other.id != part.id and not other.fixed for other in reference.parts)


def offered_name(reference: Reference, place: str) -> str:
    """The name that is offered for a place during a teardown:
    it helps to name a part and never tells which one is expected.

    "Left collar" and not "short collar": where the reference has another part of that kind,
    only the kind and the side are said, because people confirm what they read.
    """
    if is_told_apart(reference, place):
        return place_words(reference, place)
    kind, tag = reference.part_at(place).kind, place.partition("@")[2]
    return place_of_end(reference, kind, tag) or kind
