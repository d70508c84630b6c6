"""Standard parts whose written sizes or kind disagree with their standard."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.part import SIZE_NAMES, Part
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness, mm
from stackcheck.tables import resolve

TOUCHING_MM = 1e-6


def standards(reference: Reference) -> Iterator[Weakness]:
    for part in reference.parts:
        if part.standard:
            yield from _against_its_standard(part)


def _against_its_standard(part: Part) -> Iterator[Weakness]:
    row = resolve(part.standard)
    if part.kind != row.kind:
        yield _weak(
            part,
            "kind",
            f"{part.name} is called a {part.kind}, and {part.standard} is a {row.kind}",
            "look at kind and standard",
        )
    for theirs in row.sizes:
        own = part.size(theirs.name)
        if own is None or theirs.name not in SIZE_NAMES or own.text == part.standard:
            continue
        low = theirs.nominal_mm if theirs.least_mm is None else theirs.least_mm
        high = theirs.nominal_mm if theirs.most_mm is None else theirs.most_mm
        if not low - TOUCHING_MM <= own.nominal_mm <= high + TOUCHING_MM:
            said = f"{part.name}: {theirs.name} {own.text}, and {part.standard} has {mm(low)}..{mm(high)}"
            yield _weak(part, theirs.name, said, f"take the {theirs.name} out, or name another standard part")


def _weak(part: Part, key: str, sentence: str, mend: str) -> Weakness:
    return Weakness(check="standard", grade=TO_MEND, about=("parts", part.id, key), sentence=sentence, mend=mend)
