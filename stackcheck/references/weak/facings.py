"""Parts that show which way round they are, in places that do not say which way is wanted."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness


def facings(reference: Reference) -> Iterator[Weakness]:
    """A turned part is only found where the reference names its feature and says where it points."""
    for part in reference.parts:
        if part.fixed or part.feature or part.same_both_ways:
            continue
        if part.kind in SINGLE_DIRECTION_KINDS or part.has_duty("single direction"):
            grade = TO_MEND if part.kind in SINGLE_DIRECTION_KINDS else OPEN
            sentence = f"{part.name} works one way only, and nothing says what shows which way round it is"
            yield Weakness(
                check="facing",
                grade=grade,
                about=("parts", part.id),
                sentence=sentence,
                mend='add feature = "..." to the part and toward = "..." to its places',
            )
    for place in reference.places:
        part = reference.part(place.part)
        if part.feature and not part.fixed and not part.same_both_ways and not place.facing:
            yield Weakness(
                check="facing", grade=TO_MEND, about=("places", place.name),
                sentence=f"{place.name}: the part shows its {part.feature}, and the place does not say where it points",
                mend='add toward = "..." to the place, or same_both_ways = true to the part',
            )  # fmt: skip
