"""How many slips a sequence needs at least, from the neighbours that were parted.

Along one stack a *break* is a pair of neighbours, or an end, that the reference does not have next to one another,
either way round. A swap parts at most four pairs of neighbours, a moved run three, a turned run two, so four breaks are
mended by one slip at best. That holds for some of the parts as well as for all of them, and for each stack by itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from stackcheck.compare.prices import ORDINARY_SLIP
from stackcheck.compare.slips import Item

MENDED_AT_MOST = 4
MENDED_BY_A_RUN = 3


class Breaks:
    """The breaks of a set of items in any sequence."""

    def __init__(self, items: Sequence[Item]):
        self._stacks: list[tuple[list[int], int]] = []
        self._most: dict[Sequence[int], int] = {}
        for ranks in set(zip(*(item.rank for item in items))):
            here = sorted({rank for rank in ranks if rank >= 0})
            if len(here) > 2:
                step = {rank: number for number, rank in enumerate(here)}
                self._stacks.append(([step.get(rank, -1) for rank in ranks], len(here) - 1))

    def most(self, order: Sequence[int]) -> int:
        """The breaks of the stack that has most of them."""
        known = self._most.get(order)
        if known is None:
            known = 0
            for steps, end in self._stacks:
                known = max(known, _breaks([steps[i] for i in order], end))
            self._most[order] = known
        return known

    def broken(self, order: Sequence[int]) -> list[int]:
        """For each spot, from before the first item to behind the last, 1 where a break may be, 0 where none is."""
        if len(self._stacks) != 1 or -1 in self._stacks[0][0]:
            return [1] * (len(order) + 1)
        steps, end = self._stacks[0]
        line = [-1, *[steps[i] for i in order], end + 1]
        return [int(not -2 < b - a < 2) for a, b in pairwise(line)]

    def slips_needed(self, order: Sequence[int]) -> int:
        return -(-self.most(order) // MENDED_AT_MOST)

    def cuts(self, order: Sequence[int]) -> list[int]:
        """Where, from 0 before the first item, one stands that does not come next to the one before it in its stack."""
        size = len(order)
        cut = {0, size}
        for steps, end in self._stacks:
            cut.update(_cuts([steps[i] for i in order], end))
        return sorted(cut)


def swaps_needed(seats: Sequence[int]) -> int:
    """How many swaps alone bring every part to its seat: parts less the cycles of their permutation.

    0, which is always true, where two parts want one seat. Source: Cayley, Philosophical Magazine 34 (1849) 527-529,
    from memory.

    >>> swaps_needed([0, 2, 1, 4, 3]), swaps_needed([2, 0, 1, 4, 3]), swaps_needed([0, 0, 0])
    (2, 3, 0)
    """
    waiting = set(seats)
    if len(waiting) < len(seats):
        return 0
    swaps = len(seats)
    while waiting:
        seat = start = waiting.pop()
        while (seat := seats[seat]) != start:
            waiting.remove(seat)
        swaps -= 1
    return swaps


def cheapest_of(slips: int, swaps: int) -> int:
    """What at least so many slips cost where swaps alone would take `swaps`:
    no other slip of the sequence is as cheap as one.
    """
    return slips * ORDINARY_SLIP + (swaps > slips)


def _breaks(steps: Sequence[int], end: int) -> int:
    breaks, last = 0, -1
    for step in steps:
        if step >= 0:
            if not -2 < step - last < 2:
                breaks += 1
            last = step
    return breaks + (last != end)


def _cuts(steps: Sequence[int], end: int) -> Iterator[int]:
    last, seat = -1, -1
    for position, step in enumerate(steps):
        if step >= 0:
            if step not in (last, last + 1):
                yield from range(seat + 1, position + 1)
            last, seat = step, position
    if last != end:
        yield from range(seat + 1, len(steps))
