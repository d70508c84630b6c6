"""Parts that are easily taken for one another, and nothing that tells them apart."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness

_SAYS_HOW = re.compile(r"[\d,;:]")


def look_alikes(reference: Reference) -> Iterator[Weakness]:
    """Two parts of one kind need a size, a feature, a material or words that tell them apart."""
    loose = [part for part in reference.parts if not part.fixed]
    for part in loose:
        for duty in part.duties:
            if duty.name == "look-alike" and not _SAYS_HOW.search(duty.detail) and not _told_by_size(part, loose):
                yield _weak(
                    part,
                    f"{part.name} is a look-alike{' of ' + duty.detail if duty.detail else ''}, "
                    "and nothing says by what it differs",
                )
    for one, other in combinations(loose, 2):
        if one.kind == other.kind and _alike(one, other) and not (_told(one) or _told(other)):
            yield _weak(
                other,
                f"{one.name} and {other.name} are both a {one.kind}, and no size, feature or material tells them apart",
            )


def _weak(part: Part, sentence: str) -> Weakness:
    mend = 'add the size that differs, or duty = ["look-alike: ..., 0.50 thick"] that says how'
    return Weakness(check="look-alike", grade=TO_MEND, about=("parts", part.id), sentence=sentence, mend=mend)


def _told(part: Part) -> bool:
    return any(duty.name == "look-alike" and _SAYS_HOW.search(duty.detail) for duty in part.duties)


def _told_by_size(part: Part, others: list[Part]) -> bool:
    alike = [other for other in others if other is not part and other.kind == part.kind]
    return bool(alike) and not any(_alike(part, other) for other in alike)


def _alike(one: Part, other: Part) -> bool:
    """Whether nothing that both give tells them apart; a standard part is known by its marking."""
    if one.standard != other.standard or (one.material and other.material and one.material != other.material):
        return False
    if (one.feature, one.same_both_ways) != (other.feature, other.same_both_ways) and (one.feature or other.feature):
        return False
    sizes = dict(other.sizes)
    both = [(size, sizes[name]) for name, size in one.sizes if name in sizes]
    return all(a.low_mm <= b.high_mm and b.low_mm <= a.high_mm for a, b in both)
