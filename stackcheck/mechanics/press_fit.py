"""Which ring of a bearing is the press fit, as far as the reference says it."""

from __future__ import annotations

from itertools import pairwise

from stackcheck.model.part import Part
from stackcheck.model.reference import Reference

INNER, OUTER = "inner ring", "outer ring"


def tight_ring(reference: Reference, place: str) -> str:
    """ "inner ring" or "outer ring" where exactly one of them is a press fit in the reference, else "".

    A ring is tight where the middle of its clearance lies below nothing: written as a pairing, or following from the seat
    of a part that it lies beside or around (the fit of ISO 286 that the reference gives).
    """
    bearing = reference.part_at(place)
    clearances = {INNER: _paired(reference, bearing, "bore"), OUTER: _paired(reference, bearing, "outside")}
    for ring, size in ((INNER, "bore"), (OUTER, "outside")):
        if clearances[ring] is None:
            clearances[ring] = _seated(reference, bearing, place, size)
    tight = [ring for ring, clearance in clearances.items() if clearance is not None and clearance < 0]
    return tight[0] if len(tight) == 1 else ""


def _paired(reference: Reference, bearing: Part, size: str) -> float | None:
    """The middle of the written clearance of this ring [mm]."""
    for pairing in reference.pairings:
        if (bearing.id, size) in (pairing.outer, pairing.inner) and pairing.least_mm is not None and pairing.most_mm is not None:
            return (pairing.least_mm + pairing.most_mm) / 2
    return None


def _seated(reference: Reference, bearing: Part, place: str, size: str) -> float | None:
    """The middle of the clearance to the seat of a part beside it that has the same nominal size [mm]."""
    own = bearing.size(size)
    if own is None or not own.has_limits:
        return None
    for stack in reference.stacks:
        for a, b in pairwise(stack.places):
            if place in (a, b):
                seat = reference.part_at(b if a == place else a).size("seat")
                if seat is not None and seat.has_limits and abs(seat.nominal_mm - own.nominal_mm) < 0.01:
                    middle = (seat.low_mm + seat.high_mm - own.low_mm - own.high_mm) / 2
                    return middle if size == "outside" else -middle
    return None
