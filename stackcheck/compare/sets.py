"""Sets of parts of one line as bit masks: bit i is the i-th part as found."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from operator import or_


def bits(mask: int) -> Iterator[int]:
    while mask:
        low = mask & -mask
        yield low.bit_length() - 1
        mask ^= low


def union(masks) -> int:
    return reduce(or_, masks, 0)


def violations(before: Sequence[int]) -> list[int]:
    """For each item the items it stands in contradiction with."""
    against = [0] * len(before)
    for i, wanted in enumerate(before):
        wanted >>= i + 1
        for j in bits(wanted) if wanted else ():
            against[i] |= 1 << (i + 1 + j)
            against[i + 1 + j] |= 1 << i
    return against


def ordered_pairs(before: Sequence[int]) -> list[int]:
    """For each item those that the reference orders to it, nearer or further."""
    size = len(before)
    whole = (1 << size) - 1
    if 2 * sum(mask.bit_count() for mask in before) == size * (size - 1):
        return [whole & ~(1 << i) for i in range(size)]
    ordered = list(before)
    for i, mask in enumerate(before):
        for j in bits(mask):
            ordered[j] |= 1 << i
    return ordered


def within(before: Sequence[int], members: Sequence[int]) -> list[int]:
    first, size = (members[0], len(members)) if members else (0, 0)
    if size and members[-1] - first + 1 == size:  # neighbours, as most knots are
        return [before[i] >> first & (1 << size) - 1 for i in members]
    new = {old: position for position, old in enumerate(members)}
    return [union(1 << new[j] for j in bits(before[i]) if j in new) for i in members]


def reach_of(order: Sequence[int], ordered: Sequence[int]) -> list[int]:
    """For each item all items that stay behind it in every line of the same arrangement."""
    reach = [0] * len(ordered)
    later = 0
    for i in reversed(order):
        behind = ordered[i] & later
        reach[i] = behind if behind == later else behind | union(reach[j] for j in bits(behind))
        later |= 1 << i
    return reach


def hull_of(mask: int, reach: Sequence[int]) -> int:
    """The items and everything that must stand between two of them."""
    behind = union(reach[i] for i in bits(mask)) & ~mask
    return mask | union(1 << i for i in bits(behind) if reach[i] & mask)
