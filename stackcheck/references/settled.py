"""What the whole line settles without a question: which way "the bearing" is, and what stands in a stack of its own.

A part that faces "the bearing" or "the outside" gets the end that is meant. What passes through the others, lies across
them or sits in a bore adds nothing to their length, and moves to a stack beside the line. Nothing is asked here.
"""

from __future__ import annotations

from stackcheck.model.part import LIE_ACROSS, RING_BEARINGS
from stackcheck.references.draft import TO_BEARING, TO_OUTSIDE, Draft, DraftGap, DraftPart
from stackcheck.value import replace

GREASE = "keeps the grease in: it looks at the bearing"


def facing_bearings(draft: Draft) -> Draft:
    """What faces "the bearing" faces the end at which the nearest bearing lies,
    what faces "the outside" the nearer end.
    """
    rows = list(draft.rows)
    at = bearings(draft)
    for index, row in enumerate(rows):
        if isinstance(row, DraftPart) and row.toward == TO_OUTSIDE:
            rows[index] = replace(row, toward=draft.ends[index > (len(rows) - 1) / 2])
        if isinstance(row, DraftPart) and row.toward == TO_BEARING:
            nearest = min(at, key=lambda other: abs(other - index), default=None)
            if nearest is None:
                rows[index] = replace(
                    row, toward="", feature="", remark=f"{row.feature}: toward a bearing, and none is in the line"
                )
                continue
            remarks = (("feature", GREASE),) if row.feature == "spring side" else ()
            rows[index] = replace(row, toward=draft.ends[nearest > index], remarks=(*row.remarks, *remarks))
    return replace(draft, rows=tuple(rows))


def bearings(draft: Draft) -> list[int]:
    return [index for index, row in enumerate(draft.rows) if isinstance(row, DraftPart) and row.kind in RING_BEARINGS]


def beside_the_line(draft: Draft) -> Draft:
    """What passes through or lies across stands in a stack of its own, and adds nothing to the length.

    A pin is drawn before its nut comes off, and may be written down before or after it: so its stack holds the part
    behind its neighbour, and between the two no sequence is asserted.
    """
    rows = list(draft.rows)
    at = [index for index, row in enumerate(rows) if isinstance(row, DraftPart)]
    for index in at:
        row = rows[index]
        if not row.passes_through:
            continue
        line = [
            other
            for other in at
            if other != index
            and set(row.stacks) & set(rows[other].stacks)
            and not (rows[other].in_bore or rows[other].passes_through)
        ]
        if len(line) < 2:
            continue
        own = _named_once(f"{row.name.lower()} itself", rows)
        behind = _behind(rows, line, _neighbour(rows, line, index))
        rows[index] = replace(row, stacks=(own,))
        rows[behind] = replace(rows[behind], stacks=(*rows[behind].stacks, own))
    return replace(draft, rows=tuple(rows))


def _neighbour(rows: list[DraftPart | DraftGap], line: list[int], index: int) -> int:
    """What a part bears on: the nut beside it, named before or after it, else what was named before it."""
    before = max((other for other in line if other < index), default=line[0])
    after = min((other for other in line if other > index), default=before)
    return (
        after if rows[index].kind in LIE_ACROSS and rows[after].kind == "nut" and rows[before].kind != "nut" else before
    )


def _behind(rows: list[DraftPart | DraftGap], line: list[int], neighbour: int) -> int:
    """The part behind a neighbour, toward the middle of the line; the neighbour itself where it stays on."""
    place = line.index(neighbour)
    if rows[neighbour].fixed:
        return neighbour
    return line[place + 1] if place < len(line) / 2 and place + 1 < len(line) else line[place - 1]


def seals_apart(draft: Draft) -> Draft:
    """Seals in a bore of which nothing else is known: each beside its bearing, in a stack of its own."""
    rows = list(draft.rows)
    for index, row in enumerate(rows):
        others = [
            other
            for other, beside in enumerate(rows)
            if isinstance(beside, DraftPart) and not (beside.in_bore or beside.passes_through)
        ]
        if not in_bore(row) or len(others) < 2:
            continue
        near = [other for other in others if rows[other].kind in RING_BEARINGS] or others
        own = _named_once(f"{row.name.lower()} in its bore", rows)
        beside = min(near, key=lambda other: abs(other - index))
        rows[index] = replace(rows[index], stacks=(own,))
        rows[beside] = replace(rows[beside], stacks=(*rows[beside].stacks, own))
    return replace(draft, rows=tuple(rows))


def in_bore(row: DraftPart | DraftGap) -> bool:
    return isinstance(row, DraftPart) and row.in_bore


def _named_once(name: str, rows: list[DraftPart | DraftGap]) -> str:
    """A name that no stack has yet."""
    taken, tried, number = {stack for row in rows for stack in row.stacks}, name, 2
    while tried in taken:
        tried, number = f"{name} {number}", number + 1
    return tried
