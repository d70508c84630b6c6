"""What a part is in the picture, and how long it is drawn where nobody knows.

By the reference's own stacks and not by the line as found, so that both halves show a part as the same thing.
"""

from __future__ import annotations

from collections.abc import Mapping

from stackcheck.drawing.figure import BODY, CORE, DISTANCE, HIDDEN, HOUSING, HOUSINGS, PIN, SHAFTS, SHELL, WITHIN
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part, Size
from stackcheck.model.reference import Reference
from stackcheck.value import Value


class Surroundings(Value, kw_only=True):
    """What is beside each place of a reference, looked up once:
    its neighbours in every stack, and the places in housings.

    `typical_mm` is a length that suits the others: an eighteenth of all the known ones together.
    """

    beside: Mapping[str, tuple[tuple[Part | None, Part | None], ...]]
    in_housings: frozenset[str]
    typical_mm: float

    @classmethod
    def of(cls, reference: Reference) -> Surroundings:
        beside: dict[str, list[tuple[Part | None, Part | None]]] = {}
        for stack in reference.stacks:
            parts = [None, *(reference.part_at(place) for place in stack.places), None]
            for place, before, after in zip(stack.places, parts, parts[2:]):
                beside.setdefault(place, []).append((before, after))
        known = [
            size.nominal_mm for place in reference.places for size in [_own_length(reference.part(place.part))] if size
        ]
        return cls(
            beside={place: tuple(pairs) for place, pairs in beside.items()},
            in_housings=frozenset(
                place for stack in reference.stacks if stack.through == "outer rings" for place in stack.places
            ),
            typical_mm=max(sum(known) / 18, 0.05) if known else 5.0,
        )


def _own_length(part: Part) -> Size | None:
    return None if part.fixed else part.size("length")


def role_of(around: Surroundings, standing: Standing, part: Part | None) -> str:
    """What a part is in the picture; by the reference's own stacks, so that both halves say the same."""
    if part is None:
        return BODY
    lengthless = part.size("length") is None and part.size("free_length") is None
    if part.kind == "split pin":
        return PIN
    if part.kind == "key" or (part.kind == "bolt" and not part.sizes):
        return HIDDEN
    if part.kind in SHAFTS and not part.fixed and lengthless:
        return CORE
    beside = around.beside.get(standing.home or "", ())
    if part.kind in HOUSINGS and not lengthless and standing.home in around.in_housings:
        return HOUSING
    if (
        part.fixed
        and not lengthless
        and beside
        and all(a is not None and b is not None and a.fixed and b.fixed for a, b in beside)
    ):
        return DISTANCE
    if (
        part.fixed
        and part.kind == "ring"
        and lengthless
        and any("bearing" in each.kind for pair in beside for each in pair if each)
    ):
        return WITHIN
    return SHELL if part.kind == "housing" and not lengthless else BODY


def assumed_length(around: Surroundings, standing: Standing, part: Part | None, kind: str) -> float:
    """A length to draw where nobody knows it [mm]; nothing for what takes up no room of its own."""
    if role_of(around, standing, part) in (PIN, WITHIN, HIDDEN):
        return 0.0
    if part is not None and (free := part.size("free_length") or part.size("disc_height")):
        return free.nominal_mm
    across = max((size.nominal_mm for name, size in part.sizes if name in _ACROSS), default=0.0) if part else 0.0
    if kind in ("nut", "bolt") and across:
        return min(0.6 * across, 2 * around.typical_mm)
    return (
        0.5 * around.typical_mm
        if kind in ("washer", "shim ring", "gasket", "O-ring", "tab washer", "circlip")
        else around.typical_mm
    )


_ACROSS = ("thread_diameter", "shaft", "seat", "across_flats")
