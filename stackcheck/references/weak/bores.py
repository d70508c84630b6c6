"""Bores that do not suit what they sit on: pairings that their own limits cannot keep, and rings that do not go on."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.limits import Pairing
from stackcheck.model.part import Part, Size
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness, mm, room, wanted

ALIKE = 0.05
ROUND_OFF_MM = 1e-6
PRESSED_KINDS = frozenset(
    {"ball bearing", "angular bearing", "taper bearing", "needle bearing", "ring", "seal", "O-ring", "mechanical seal"}
)
"""Kinds that are pressed or stretched over what they sit on."""


def bores(reference: Reference) -> Iterator[Weakness]:
    for pairing in reference.pairings:
        outer, inner = (
            reference.part(pairing.outer[0]).size(pairing.outer[1]),
            reference.part(pairing.inner[0]).size(pairing.inner[1]),
        )
        if outer and inner and (said := _pairing(pairing, outer, inner)):
            yield Weakness(
                check="bore", grade=TO_MEND, about=("pairings", pairing.what),
                sentence=said,
                mend="look at the two sizes and at the limits of the pairing: one of them is not what was meant",
            )  # fmt: skip
    yield from _does_not_go_on(reference)


def _pairing(pairing: Pairing, outer: Size, inner: Size) -> str:
    low, high = outer.low_mm - inner.high_mm, outer.high_mm - inner.low_mm
    least = float("-inf") if pairing.least_mm is None else pairing.least_mm - ROUND_OFF_MM
    most = float("inf") if pairing.most_mm is None else pairing.most_mm + ROUND_OFF_MM
    if least <= low and high <= most:
        return ""
    never = high < least or low > most
    allowed = wanted(pairing.least_mm, pairing.most_mm, "clearance")
    said = f"{pairing.what}: by the limits of both sizes {room(low, high, 'clearance')}, allowed {allowed}"
    return f"{said}: no two parts keep it" if never else f"{said}: not every two parts keep it"


def _does_not_go_on(reference: Reference) -> Iterator[Weakness]:
    """A bore a little smaller than a seat of the same stack is meant for it, and does not go over it."""
    judged = {(pairing.outer[0], pairing.inner[0]) for pairing in reference.pairings}
    for stack in reference.stacks:
        if stack.through == "outer rings":
            continue
        parts = dict.fromkeys(reference.part_at(place).id for place in stack.places)
        everything = [reference.part(id) for id in parts]
        shafts = [
            part
            for part in (*everything, *_shafts(reference))
            if part.kind in ("axle", "shaft", "arbor") and part.size("seat")
        ]
        for part in everything:
            bore = part.size("bore")
            if bore is None or part.kind in PRESSED_KINDS or part.fixed:
                continue
            for shaft in dict.fromkeys(shafts):
                seat = shaft.size("seat")
                meant = (1 - ALIKE) * seat.nominal_mm < bore.nominal_mm <= seat.nominal_mm
                if meant and bore.high_mm < seat.low_mm and (part.id, shaft.id) not in judged:
                    yield Weakness(
                        check="bore",
                        grade=TO_MEND,
                        about=("parts", part.id, "bore"),
                        sentence=f"{part.name}: its bore of at most {mm(bore.high_mm)} does not go over "
                        f"{shaft.name} of at least {mm(seat.low_mm)}",
                        mend="look at both sizes, or add a pairing that says it is pressed on",
                    )


def _shafts(reference: Reference) -> list[Part]:
    return [part for part in reference.parts if part.kind in ("axle", "shaft", "arbor")]
