"""Bolts and axles whose whole length counts in the stack that they reach through."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stackcheck.mechanics.chain import stack_sum
from stackcheck.model.part import PASS_THROUGH
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import TO_MEND, Weakness, mm

SAID = re.compile(r"\b(?:shoulders?|between|from|up to|to the|\w+ to \w+)\b", re.IGNORECASE)
"""Words of a name that say between which faces a length lies."""


def passing(reference: Reference) -> Iterator[Weakness]:
    """One that is at least half as long as two or more others of its stack together lies in no line with them.

    A head, or the thick end of an axle between two parts, is shorter than that, and one that says between which of its
    faces it was measured ("shaft, shoulder to shoulder") is taken at its word.
    """
    for stack in reference.stacks:
        terms = stack_sum(reference, stack.name).terms
        for term in terms:
            part = reference.part_at(term.place) if term.place else None
            others_mm = sum(other.interval.nominal_mm for other in terms if other is not term)
            if part is None or part.kind not in PASS_THROUGH or part.fixed or len(terms) < 3 or SAID.search(part.name):
                continue
            if term.interval.nominal_mm >= others_mm / 2:
                yield Weakness(
                    check="passing",
                    grade=TO_MEND,
                    about=("parts", part.id, "length"),
                    sentence=f"{part.name} adds its length of {mm(term.interval.nominal_mm)} to {stack.name}, "
                    f"whose other parts are {mm(others_mm)} long: it reaches through them",
                    mend="give it a stack of its own with one part only, the one that it bears on: then nothing is added up",
                )
