"""What goes onto the sheet to fill in: names of questions, sizes and fixed members,
and nothing that tells an answer.
"""

from __future__ import annotations

from stackcheck.bench.before import before_loosening
from stackcheck.model.reference import Reference
from stackcheck.present.names import offered_name, size_words
from stackcheck.present.sheet_html import MARKS, Mark, sheet_html

MOST_BY_NAME = 2
"""A part that stands at more places than this is asked for by its kind: the places would tell the count."""


def sheet(reference: Reference) -> str:
    """The sheet of a reference as one HTML file."""
    return sheet_html(
        reference,
        questions=[question.text for question in before_loosening(reference)],
        measure=must_measure(reference),
        marks=(marks_from(reference, 0), marks_from(reference, 1)),
    )


def must_measure(reference: Reference) -> list[str]:
    """ "left collar: length", once each."""
    asked: dict[str, None] = {}
    for name in reference.line:
        part = reference.part_at(name)
        few = len(reference.places_of(part.id)) <= MOST_BY_NAME
        for size in part.must_measure:
            asked[f"{offered_name(reference, name) if few else f'each {part.kind}'}: {size_words(size)}"] = None
    return list(asked)


def marks_from(reference: Reference, end: int) -> list[Mark]:
    """Fixed members met from one end up to the middle of the line, that somebody can tell by sight."""
    line = reference.line if end == 0 else reference.line[::-1]
    parts = sum(not reference.part_at(name).fixed for name in line)
    marks: list[Mark] = []
    before = 0
    for name in line:
        part = reference.part_at(name)
        if not part.fixed:
            before += 1
        elif part.kind in MARKS and not _is_a_distance(reference, name) and before <= (parts + 1) / 2:
            marks.append(Mark(offered_name(reference, name).partition(",")[0], before))
    return marks


def _is_a_distance(reference: Reference, name: str) -> bool:
    """Whether a fixed member only says how far others stand apart: it touches no part that comes off."""
    neighbours = [
        beside
        for stack in reference.stacks
        if name in stack.places
        for position in [stack.places.index(name)]
        for beside in (*stack.places[max(0, position - 1) : position], *stack.places[position + 1 : position + 2])
    ]
    return all(reference.part_at(beside).fixed for beside in neighbours)
