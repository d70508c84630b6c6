"""What any explanation of a line costs at least, told from neighbours that were parted, before anything is looked for.

Along one stack a slip parts at most four pairs of neighbours; only a run turned end for end leaves more, each the other
way round. So of `other` neighbours that are none and `turned` ones that stand the other way round either there was no
such run, and a slip accounts for four of both, or there was: it accounts for two of `other`, for each part past two it
cost a point more, and what is left needs further slips. What holds for one stack holds for all that was found.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from stackcheck.compare.breaks import MENDED_AT_MOST
from stackcheck.compare.identity import Identity
from stackcheck.compare.prices import ORDINARY_SLIP, end_for_end
from stackcheck.compare.spots import Spots
from stackcheck.compare.task import SHORT
from stackcheck.model.found import Entry

MADE_BY_A_TURN = 2


def least_price(spots: Spots, identity: Identity, sides: Sequence[Sequence[Entry]]) -> int:
    """What any explanation of a line costs at least; `sides` are its stretches that nothing unseen parts."""
    if sum(map(len, sides)) <= SHORT:
        return 0
    parted = [_least_of(turned, other) for _, turned, other in _along_each_stack(spots, identity, sides)]
    # What nothing in the reference is called is extra, or a different part.
    strangers = sum([identity.is_strange(entry) for side in sides for entry in side])
    return max(parted) + strangers * ORDINARY_SLIP


def is_turned(spots: Spots, identity: Identity, sides: Sequence[Sequence[Entry]]) -> bool:
    """Whether more neighbours stand the other way round than as the reference has them."""
    counted = [*_along_each_stack(spots, identity, sides)]
    return sum(turned for _, turned, _ in counted) > sum(agreeing for agreeing, _, _ in counted)


def _along_each_stack(
    spots: Spots, identity: Identity, sides: Sequence[Sequence[Entry]]
) -> Iterator[tuple[int, int, int]]:
    parts = [_labels(spots, identity, side) for side in sides]
    for stack in range(len(spots.groups[0].rank)):
        yield _neighbours(*_next_along(spots, stack), parts)


def _least_of(turned: int, other: int) -> int:
    """
    >>> _least_of(turned=0, other=5), _least_of(turned=30, other=2), _least_of(turned=30, other=9)
    (200, 132, 331)
    """
    apart = -(-(turned + other) // MENDED_AT_MOST) * ORDINARY_SLIP
    slips = max(0, -(-(other - MADE_BY_A_TURN) // MENDED_AT_MOST))
    run = turned + other - MENDED_AT_MOST * slips - 1
    return min(apart, slips * ORDINARY_SLIP + end_for_end(max(2, run)))


def _next_along(spots: Spots, stack: int) -> tuple[set[str], dict[str, str], set[tuple[str, str]]]:
    """The parts of a stack, what comes next behind each for the last time, and every other pair of neighbours.

    What need not be there may be left out between two neighbours.
    """
    line = [group for group in spots.groups if group.rank[stack] >= 0]
    parts = [group.part for group in line]
    behind = dict(pairwise(parts))
    others = {pair for pair in pairwise(parts) if behind[pair[0]] != pair[1]}
    may_be_passed = [group.fixed or group.may_be_absent for group in line]
    for passed in [position for position, may_be in enumerate(may_be_passed) if may_be and position]:
        further = passed + 1
        while further < len(line) and may_be_passed[further - 1]:
            others.add((parts[passed - 1], parts[further]))
            further += 1
    return set(parts), behind, others


def _neighbours(
    known: set[str], behind: dict[str, str], others: set[tuple[str, str]], sides: Iterable[Sequence[str | None]]
) -> tuple[int, int, int]:
    """Neighbours along one stack: those that agree, stand the other way round, and are none;
    beside a part unknown, neither.
    """
    agreeing = turned = other = 0
    for side in sides:
        last: str | None = None
        for part in side:
            if part in known:
                if last is None:
                    pass
                elif part == last or behind.get(last) == part or (last, part) in others:
                    agreeing += 1
                elif behind.get(part) == last or (part, last) in others:
                    turned += 1
                else:
                    other += 1
            elif part is not None:
                continue  # it stands in another stack
            last = part
    return agreeing, turned, other


def _labels(spots: Spots, identity: Identity, entries: Iterable[Entry]) -> list[str | None]:
    """Of each entry the part that somebody is sure of, unless it may stand for another one at less than a slip."""
    parts = [part for part in identity.reference.parts if part.id in spots.wanted]
    said = {part.id for part in parts if not part.number or not identity.is_accepted(part)}
    labels: list[str | None] = []
    for entry in entries:
        label = entry.part if entry.sure and not entry.marked else None
        if label is not None and label not in said:
            part = identity.named(entry)
            label = part.id if part is not None and part.id in said else None
        labels.append(label)
    return labels
