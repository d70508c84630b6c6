"""Which ring of a bearing is the press fit, as far as the reference says it."""

from __future__ import annotations

from itertools import pairwise

from stackcheck.model.part import Part
from stackcheck.model.reference import Reference

INNER, OUTER = "inner ring", "outer ring"


def tight_ring(reference: Reference, place: str) -> str:
    """ "inner ring" or "outer ring" where exactly one of them is a press fit in the reference, else "".

    A ring is tight where the middle of its clearance lies below nothing: written as a pairing, or following from the
    seat of a part that it lies beside or around (the fit of ISO 286 that the reference gives).
    """
    fits = {ring: clearance(reference, place, ring) for ring in (INNER, OUTER)}
    tight = [ring for ring, fit in fits.items() if fit is not None and (fit[0] + fit[1]) / 2 < 0]
    return tight[0] if len(tight) == 1 else ""


def clearance(reference: Reference, place: str, ring: str) -> tuple[float, float] | None:
    """Least and most clearance of a ring in its seat [mm], below nothing where they overlap;
    None where nobody gives it.
    """
    bearing, size = reference.part_at(place), "bore" if ring == INNER else "outside"
    written = _paired(reference, bearing, size)
    return written if written is not None else _seated(reference, bearing, place, size)


def probable_clearance(least_mm: float, most_mm: float) -> float:
    """The clearance to expect of a fit [mm], below nothing an overlap: least + (most - least)/3.

    Whoever machines a part stops on the go side: a third of its limits away from it, bores small and shafts large.

    Args:
        least_mm, most_mm: least and most clearance by the limits of both parts [mm], below nothing an overlap.
    Source: NKE bearing catalogue, fit example (read): shaft 75 j5 in a bore of 75 0/-0.015.

    >>> round(probable_clearance(-0.021, 0.007), 3)
    -0.012
    """
    return least_mm + (most_mm - least_mm) / 3


def _paired(reference: Reference, bearing: Part, size: str) -> tuple[float, float] | None:
    """The written clearance of this ring [mm]."""
    for pairing in reference.pairings:
        if (
            (bearing.id, size) in (pairing.outer, pairing.inner)
            and pairing.least_mm is not None
            and pairing.most_mm is not None
        ):
            return pairing.least_mm, pairing.most_mm
    return None


def _seated(reference: Reference, bearing: Part, place: str, size: str) -> tuple[float, float] | None:
    """The clearance to the seat of a part beside it that has the same nominal size [mm]."""
    own = bearing.size(size)
    if own is None or not own.has_limits:
        return None
    for stack in reference.stacks:
        for a, b in pairwise(stack.places):
            if place in (a, b):
                seat = reference.part_at(b if a == place else a).size("seat")
                if seat is not None and seat.has_limits and abs(seat.nominal_mm - own.nominal_mm) < 0.01:
                    ends = seat.low_mm - own.high_mm, seat.high_mm - own.low_mm
                    return ends if size == "outside" else (-ends[1], -ends[0])
    return None
