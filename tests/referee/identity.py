"""Who is it: what it costs to take an entry for the part of a place (sequence of certain, guessed, unknown)."""

from __future__ import annotations

from stackcheck.model.found import Entry
from stackcheck.model.part import Part, Reading, Size
from stackcheck.model.reference import Reference

ALTERNATE, UNKNOWN, OVERRULED, DIFFERENT, SIZE = 5, 10, 40, 100, 60


def standing(reading: Reading, size: Size) -> str:
    """Where a reading lies against its limits: in, close, out or gross; "" where there is nothing to compare.

    What was read off a marking or a drawing, or guessed by eye, is only told apart where it is gross.
    """
    if not size.has_limits:
        return ""
    miss = max(size.least_mm - reading.value_mm, reading.value_mm - size.most_mm)
    too_far = max(0.05 * size.nominal_mm, 3 * (size.most_mm - size.least_mm))
    if miss > 2 * reading.good_to_mm and miss > too_far:
        return "gross" if reading.is_measurement else "not it"
    if not reading.is_measurement:
        return ""
    if miss > reading.good_to_mm:
        return "out"
    return "in" if -miss >= reading.good_to_mm else "close"


def standings(entry: Entry, part: Part) -> list[str]:
    return [standing(reading, size) for name, reading in entry.sizes if (size := part.size(name)) is not None]


def kind_of(reference: Reference, entry: Entry) -> str:
    """The kind of an entry: that of the part it names, of the part whose number it bears, or as typed."""
    if entry.part is not None and reference.has_part(entry.part):
        return reference.part(entry.part).kind
    bearers = (part for part in reference.parts if entry.marked and entry.marked in (part.number, *part.accepts))
    return next((part.kind for part in bearers), entry.kind)


def number_price(reference: Reference, entry: Entry, part: Part, *, other: int | None) -> int | None:
    """0 for the place's own number, 5 for an accepted one, `other` for another of the same kind, None for no other."""
    named = reference.part(entry.part).number if entry.part and reference.has_part(entry.part) else ""
    number = entry.marked or named
    if number and number == part.number:
        return 0
    if number and number in part.accepts:
        return ALTERNATE
    if entry.part == part.id and not (entry.marked and part.number):
        return 0
    return other if kind_of(reference, entry) == part.kind else None


def says_nothing(reference: Reference, entry: Entry, part: Part) -> bool:
    """A number was read off a part that nobody named, the place has none to compare it with, and no other part bears it."""
    borne = {number for other in reference.parts for number in (other.number, *other.accepts)}
    return entry.part is None and not part.number and entry.marked not in borne


def place_price(reference: Reference, entry: Entry, part: Part) -> int | None:
    """What it costs that `entry` is what stands for `part`; None where it cannot be."""
    sizes = standings(entry, part)
    outside = SIZE * sum(word in ("out", "gross") for word in sizes)
    if (entry.marked and not says_nothing(reference, entry, part)) or (entry.part is not None and entry.sure):
        price = number_price(reference, entry, part, other=DIFFERENT)
        return price if price in (None, DIFFERENT) else price + outside
    if entry.part is not None:
        price = number_price(reference, entry, part, other=OVERRULED)
    else:
        price = UNKNOWN if entry.kind in ("", part.kind) else None
    if price is None:
        return None
    return DIFFERENT if {"gross", "not it"} & set(sizes) else price + outside
