"""Parts whose sections show which way round they are, where the reference says nothing of that, or the contrary."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness


def steps(reference: Reference) -> Iterator[Weakness]:
    """A part whose steps differ end to end looks otherwise when it is turned round, and presses with another face."""
    for part in reference.parts:
        row = [section.words for section in part.sections]
        if part.fixed or row == row[::-1]:
            continue
        if part.same_both_ways:
            yield Weakness(
                check="steps",
                grade=TO_MEND,
                about=("parts", part.id, "same_both_ways"),
                sentence=f"{part.name} is told to be the same both ways, and its sections are not: {row[0]} to {row[-1]}",
                mend='name what shows which way round it is, feature = "flange", or look at the sections',
            )
        elif not part.feature:
            yield Weakness(
                check="steps",
                grade=OPEN,
                about=("parts", part.id, "sections"),
                sentence=f"{part.name} has other steps at one end than at the other, and nothing says which way it points",
                mend='add feature = "..." to the part and toward = "..." to its places',
            )
