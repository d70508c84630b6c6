"""A swap that nobody can have made is told as the move of one part that comes to the same.

Where two places do not lie in the same stacks, as those of a bearing and of a washer beside its outer ring, neither
part can stand in the place of the other. If moving one of the two explains what was found as well, that is what is
told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stackcheck.compare.fixed import seated
from stackcheck.compare.spots import Spots, closed_units
from stackcheck.model.finding import Explanation, Finding, OutOfPlace, Swapped
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace


def told_as_moved(reference: Reference, found: Found, explanation: Explanation) -> Explanation:
    for finding in explanation.findings:
        if isinstance(finding, Swapped) and _stacks(reference, finding.places[0]) != _stacks(
            reference, finding.places[1]
        ):
            explanation = _moved(reference, found, explanation, finding)
    return explanation


def _moved(reference: Reference, found: Found, explanation: Explanation, swap: Swapped) -> Explanation:
    others = [finding for finding in explanation.findings if finding is not swap]
    for move in _moves(reference, explanation, swap):
        told = replace(explanation, findings=tuple(move if each is swap else each for each in explanation.findings))
        if any({*each.places} & {*move.places} for each in others if each.kind in ("turned_round", "swapped")):
            continue
        told, confirmed = seated(Spots(reference, closed_units(reference, found)), found, told)
        if confirmed:
            return told
    return explanation


def _moves(reference: Reference, explanation: Explanation, swap: Swapped) -> Iterator[Finding]:
    """Each of the two parts moved by itself, first the one that lies in fewer stacks."""
    standing = [spot for spot in explanation.line if spot.entry is not None]
    for place in sorted(swap.places, key=lambda place: len(_stacks(reference, place))):
        seat = next((i for i, spot in enumerate(standing) if spot.home == place), None)
        if seat is None:
            continue
        number = standing[seat].entry
        beside = (standing[:seat][-1:], standing[seat + 1 :][:1])
        after, before = (spots[0].home if spots else None for spots in beside)
        seen = tuple(said for said in swap.evidence if re.search(rf"\bentry {number}\b", said))
        yield OutOfPlace(places=(place,), entries=(number,), after=after, before=before, evidence=seen)


def _stacks(reference: Reference, place: str) -> frozenset[str]:
    return frozenset(stack.name for stack in reference.stacks if place in stack.places)
