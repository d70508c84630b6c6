"""A slow referee for the comparison: the price of the least explanation, found by trying everything.

`least_price` takes every way to read the list (from either end, each doubtful end, each entry typed twice), every way to
give the pieces to the places, every choice of what is missing and what was not reached, and for each of them searches
outward from the reference, operation by operation, for the found arrangement. It shares no code and no method with the
engine. Fit for about eight places.

Where the definition leaves a choice, this one was made:
- Missing parts are taken away first and extra ones put in last: a run moves as neighbours although one of it is missing.
- An empty place that can lie in the gap is never called missing: a missing part needs a part kept in place as proof.
- A part "has a face" when some place of it wants a facing; only pairs that the reference orders count as passing,
  and only parts that were found: the face of one that was not reached explains nothing.
- Equal parts with a face may turn end for end as one lump: they are then neither swapped nor moved past one another.
- Copies of a counted place that came off together, the same way round, are one part: no slip takes them apart, nor puts
  copies that came off apart together. An empty counted place is missing, price 100.
- Two parts that the reference leaves free are never swapped: neither has a place that is the other's.
- Swapped parts are faced as the places they stand in want it: a mirror pair turns with the swap.
- A number read off an unnamed part says nothing about a place whose number nobody wrote down, unless another part has or accepts it.
- Only places that want more than one piece have `count_differs`; every other piece over is an extra of its own.
- Each size outside its limits is a finding of its own; a different part is not measured against the place it stands in.
- A guessed or unknown entry that is grossly outside is a different part at 100, nothing added.
- What was read off a marking or a drawing, or guessed by eye, is no size finding; grossly outside it speaks as a measurement.
- What was not reached may be any of equal places that stand together, but is never exchanged with a part that was found.
- A face is compared also where a different part stands in the place.
- A loose entry can fill an empty place unless it is a different part there; what it is taken for costs as usual.
- `entered_twice` by equal fields: neighbours in the list as typed, equal in all but number and line of the file.
- The 10 points on an extra count where a place is empty whose own or accepted number it bears, be it only guessed.
- A fixed member that nobody entered is left out of the line; one entered never moves.
"""

from __future__ import annotations

from stackcheck.model.found import Found
from stackcheck.model.reference import Reference

from .explain import Account, least_account

__all__ = ["Account", "least_account", "least_price"]


def least_price(reference: Reference, found: Found) -> int:
    """The price of the least explanation of what was found."""
    return least_account(reference, found).price
