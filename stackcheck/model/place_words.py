"""What a place is called at the bench: its part, and which of several by its side or number.

Engines and pages say the same.
"""

from __future__ import annotations

from stackcheck.model.reference import Reference


def lower_first(name: str) -> str:
    return name[:1].lower() + name[1:] if name[1:2].islower() or name[1:2] == " " else name


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
    if f"{tag} end" in reference.ends:
        return f"{name} at the {tag} end"
    if tag.isdigit() or tag not in reference.ends:
        return f"{name} {tag}"
    return name if tag in name.split() else f"{tag} {name}"


def the(name: str) -> str:
    """ "the spacer tube", "steel plate 3": a name that ends in a number takes no article."""
    return name if name[-1:].isdigit() else f"the {name}"


def in_its_place(reference: Reference, place: str) -> str:
    """ "the right hub bearing in its place": what is needed where a part is missing or was moved."""
    return f"{the(place_words(reference, place))} in its place"
