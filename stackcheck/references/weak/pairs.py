"""Pairs without their partner."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness


def pairs(reference: Reference) -> Iterator[Weakness]:
    """One of a pair names the other, and the other names it back."""
    for part in reference.parts:
        for duty in part.duties:
            if duty.name != "pair":
                continue
            back = [other.detail for other in reference.part(duty.detail).duties if other.name == "pair"]
            if duty.detail == part.id:
                yield _weak(part.id, f"{part.name} is named as its own partner", "name the other one of the pair")
            elif part.id not in back:
                partner = reference.part(duty.detail)
                what = f"{part.name} is one of a pair with {partner.name}, which does not name it back"
                yield _weak(duty.detail, what, f'add "pair: {part.id}" to the duty of {partner.id}')


def _weak(id: str, sentence: str, mend: str) -> Weakness:
    return Weakness(check="pair", grade=TO_MEND, about=("parts", id, "duty"), sentence=sentence, mend=mend)
