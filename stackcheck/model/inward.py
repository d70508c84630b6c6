"""In which sequence the places of a reference are met by somebody who comes from its second end."""

from __future__ import annotations

from itertools import pairwise

from stackcheck.model.reference import Reference
from stackcheck.value import replace


def from_the_second_end(reference: Reference) -> tuple[str, ...]:
    """All places from the second end inward;
    what bars the way to a place of an earlier stack of the file comes off before it.
    """
    turned = replace(reference, stacks=tuple(replace(stack, items=stack.items[::-1]) for stack in reference.stacks))
    rank: dict[str, tuple[int, int]] = {}
    for index, stack in enumerate(turned.stacks):
        for position, place in enumerate(stack.places):
            rank.setdefault(place, (index, position))
    for place in reversed(turned.line):
        inward = (b for stack in turned.stacks for a, b in pairwise(stack.places) if a == place)
        rank[place] = min([rank[place], *(rank[each] for each in inward)])
    return turned.line_by(rank)
