"""Equal pieces that differ in the same way are one finding.

Six plates worn alike are one state of the pack, not six mistakes.
Told as one are readings of the same size that are equal, on parts of several places of which nothing else is found. The
finding keeps every place and every entry.
"""

from __future__ import annotations

from stackcheck.model.finding import Explanation, Finding, SizeDiffers
from stackcheck.model.reference import Reference
from stackcheck.value import replace


def told_as_one(reference: Reference, explanation: Explanation) -> Explanation:
    told: dict[object, Finding] = {}
    for number, finding in enumerate(explanation.findings):
        key = _state(reference, finding, explanation.findings) or number
        first = told.get(key)
        told[key] = finding if first is None else _both(first, finding)
    return replace(explanation, findings=tuple(told.values()))


def _state(reference: Reference, finding: Finding, findings: tuple[Finding, ...]) -> tuple | None:
    """What makes two findings one; None for a finding that stands by itself."""
    if not isinstance(finding, SizeDiffers) or not finding.entries:
        return None
    if any(finding is not other and set(finding.places) & set(other.places) for other in findings):
        return None
    reading = finding.reading
    return reference.part_at(finding.places[0]).id, finding.size_name, reading.value_mm, reading.good_to_mm, reading.how


def _both(one: Finding, other: Finding) -> Finding:
    return replace(
        one,
        places=(*one.places, *other.places),
        entries=(*one.entries, *other.entries),
        evidence=tuple(dict.fromkeys((*one.evidence, *other.evidence))),
    )
