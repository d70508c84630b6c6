"""Single-direction bearings that all carry the same way."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness

BOTH_WAYS_KINDS = frozenset({"ball bearing", "thrust washer", "cone"})
"""Kinds that may carry what the single-direction bearings do not."""


def thrust(reference: Reference) -> Iterator[Weakness]:
    """Two angular or taper bearings that face the same way leave the shaft loose the other way.

    Not looked at: a bearing whose facing is not stated (that is told as such), and whether a ball bearing is really
    held.
    """
    bearings = [place for place in reference.places if reference.part(place.part).kind in SINGLE_DIRECTION_KINDS]
    ways = {place.facing for place in bearings}
    others = {part.kind for part in reference.parts} & BOTH_WAYS_KINDS
    if not bearings or others or "" in ways or len(ways) > 1:
        return
    end = reference.end_name(ways.pop())
    names = ", ".join(place.name for place in bearings)
    several = len(bearings) > 1
    yield Weakness(
        check="thrust",
        grade=TO_MEND,
        about=("places", bearings[-1].name),
        sentence=f"{names}: {'all face' if several else 'faces'} toward {end}, "
        "so nothing takes the thrust the other way",
        mend="turn one of them, or name what takes the thrust the other way",
    )
