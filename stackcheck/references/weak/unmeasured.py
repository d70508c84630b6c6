"""Sizes that decide something and that nobody measured or drew: a length without limits in a gap that has some."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.mechanics.chain import loops
from stackcheck.mechanics.lengths import length_names
from stackcheck.model.part import Part
from stackcheck.model.reference import Loop, Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness

NO_DRAWING = {
    "memory": "are unconfirmed",
    "parts picture": "stand beside a picture of the parts",
}
"""Kinds of source behind which nobody measured anything and no drawing gives limits."""


def unmeasured(reference: Reference) -> Iterator[Weakness]:
    told: set[str] = set()
    for state in loops(reference):
        if state.loop.set_by or (state.loop.least_mm is None and state.loop.most_mm is None):
            continue
        for part, name in _lengths_in(reference, state.loop):
            if part.id not in told and not part.size(name).has_limits:
                told.add(part.id)
                yield Weakness(
                    check="size",
                    grade=TO_MEND,
                    about=("parts", part.id, name),
                    sentence=f"{part.name}: {name} {part.size(name).text} has no limits, and {state.loop.name}, "
                    "which has some, depends on it",
                    mend="measure it or look it up, and write its limits",
                )
    for part in reference.parts:
        for name in part.must_measure:
            if part.id not in told and not part.size(name).has_limits:
                yield Weakness(
                    check="size", grade=TO_MEND, about=("parts", part.id, "must_measure"),
                    sentence=f"{part.name}: {name} must be measured, and has no limits to be compared with",
                    mend=f"write the limits of {name}",
                )  # fmt: skip
    written = sum(1 for part in reference.parts for _, size in part.sizes if size.text != part.standard)
    if written and reference.source.kind in NO_DRAWING:
        yield Weakness(
            check="size",
            grade=OPEN,
            about=("assembly", "source"),
            sentence=f"the {written} sizes written here {NO_DRAWING[reference.source.kind]}: "
            "no drawing of this assembly gives them, nobody measured them on it",
            mend="measure what must be measured, then say so in source",
        )


def _lengths_in(reference: Reference, loop: Loop) -> Iterator[tuple[Part, str]]:
    """The parts that a loop adds up, with the size that counts."""
    for name, path in ((loop.open_stack, loop.open_path), (loop.closed_stack, loop.closed_path)):
        for place in path:
            part = reference.part_at(place)
            sizes = [size for size in length_names(reference.stack(name).through) if part.size(size)]
            if sizes:
                yield part, sizes[0]
