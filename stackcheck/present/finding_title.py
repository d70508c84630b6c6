"""A finding in the few words that fit above it on a phone: what kind it is, and of which part.
The sentence follows below it.
"""

from __future__ import annotations

from stackcheck.drawing.plain_text import shown
from stackcheck.model.finding import Finding, GapDiffers
from stackcheck.present.names import listed, place_words
from stackcheck.present.words import LABELS
from stackcheck.result.comparison import Comparison

LONGEST, LONGEST_NAME = 56, 40


def finding_title(comparison: Comparison, finding: Finding) -> str:
    """ "SWAPPED: long collar and short collar"; of more than fit, the first and how many more; of a gap its name."""
    names, label = _names(comparison, finding), LABELS[finding.kind]
    if len(names) > 2 or len(f"{label}: {listed(names)}") > LONGEST:
        more = [f"{len(names) - 1} more"] if len(names) > 1 else []
        names = [shown(names[0], LONGEST - len(label) - 2 - (len(" and ") + len(more[0]) if more else 0)), *more]
    return f"{label}{': ' if names else ''}{listed(names)}"


def _names(comparison: Comparison, finding: Finding) -> list[str]:
    reference, found = comparison.reference, comparison.found
    if places := [place for place in finding.places if reference.has_place(place)]:
        return [place_words(reference, place) for place in places]
    if finding.entries and finding.kind == "extra":
        return [shown(found.entry(number).what, LONGEST_NAME) for number in finding.entries]
    return [finding.what] if isinstance(finding, GapDiffers) else []
