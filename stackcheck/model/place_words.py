"""What a place is called at the bench: its part, and which of several by its side or number.

Engines and pages say the same.
"""

from __future__ import annotations

from stackcheck.model.reference import Reference


def lower_first(name: str) -> str:
    return name[:1].lower() + name[1:] if name[1:2].islower() or name[1:2] == " " else name


def end_called(end: str) -> str:
    """What an end is called where a sentence is about it.

    >>> [end_called(end) for end in ("left", "gear end", "motor side")]
    ['left end', 'gear end', 'motor side']
    """
    return end if " " in end or end.endswith("end") else f"{end} end"


def place_of_end(reference: Reference, name: str, tag: str) -> str:
    """ "left hub seal", "pinion bearing at the gear end": a name with the end that the tag of its place names, or ""."""
    end = next((end for end in reference.ends if tag in (end, end.removesuffix(" end"), end.replace(" ", "-"))), "")
    if " " in end:
        return f"{name} at the {end}"
    return end and (name if end in name.split() else f"{end} {name}")


def place_words(reference: Reference, place: str) -> str:
    """ "left hub seal", "steel plate 3", "spacer tube", "pinion bearing at the gear end";
    a unit that stayed closed by its name.
    """
    for unit in reference.units:
        if unit.id == place:
            return lower_first(unit.name)
    name = lower_first(reference.part_at(place).name)
    tag = place.partition("@")[2]
    if not tag:
        return name
    return f"{name} {tag}" if tag.isdigit() else place_of_end(reference, name, tag) or f"{name} {tag}"


def the(name: str) -> str:
    """ "the spacer tube", "steel plate 3": a name that ends in a number takes no article."""
    return name if name[-1:].isdigit() else f"the {name}"


def in_its_place(reference: Reference, place: str) -> str:
    """ "the right hub bearing in its place": what is needed where a part is missing or was moved."""
    return f"{the(place_words(reference, place))} in its place"
