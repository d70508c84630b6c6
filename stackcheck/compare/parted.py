"""What any explanation of a line costs at least, told from neighbours that were parted, before anything is looked for."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import combinations, pairwise

from stackcheck.compare.identity import Identity
from stackcheck.compare.prices import ORDINARY_SLIP
from stackcheck.compare.spots import Group, Spots, lies_before
from stackcheck.compare.task import SHORT
from stackcheck.model.found import Entry

MOST_GROUPS_FOR_PAIRS = 200
BREAKS_A_SLIP_MAKES = 4


def least_price(spots: Spots, identity: Identity, line: Iterable[Entry], pieces: int, enough: int) -> int:
    """What any explanation of this line costs at least, or `enough`: no slip parts more than four pairs of neighbours.

    Neighbours that the reference knows as neighbours, or leaves free, are no break; nor is what was not named.
    """
    if pieces <= SHORT or len(spots.groups) > MOST_GROUPS_FOR_PAIRS and not spots.is_one_line:
        return 0
    is_known = _next_in_line(spots) if spots.is_one_line else _known_pairs(spots).__contains__
    breaks = 0
    for pair in pairwise(_label(spots, identity, entry) for entry in line):
        if None not in pair and not is_known(pair):
            breaks += 1
            if breaks * ORDINARY_SLIP >= enough * BREAKS_A_SLIP_MAKES:
                break
    return -(-breaks // BREAKS_A_SLIP_MAKES) * ORDINARY_SLIP


def _next_in_line(spots: Spots) -> Callable[[tuple[str, str]], bool]:
    """Whether a place of the second part comes next behind one of the first, what need not be there left out."""

    def is_next(pair: tuple[str, str]) -> bool:
        a, b = pair
        for group in spots.by_part[a]:
            near = [near.part for near in spots.groups[group.index + 1 : group.index + 3]]
            if b in near[:1] or b in near and _may_be_passed(spots.groups[group.index + 1]):
                return True
        return a == b

    return is_next


def _may_be_passed(group: Group) -> bool:
    return group.fixed or group.may_be_absent


def _known_pairs(spots: Spots) -> set[tuple[str, str]]:
    home = {name: group.part for group in spots.groups for name in group.names}
    known = {(home[a], home[b]) for a, successors in spots.after.items() for b in successors}
    known |= {(group.part, group.part) for group in spots.groups}
    for a, b in combinations(spots.groups, 2):
        if not lies_before(a, b) and not lies_before(b, a):
            known |= {(a.part, b.part), (b.part, a.part)}
    passed = {name for name, group in spots.by_name.items() if _may_be_passed(group)}
    known |= {(home[a], home[c]) for a, bs in spots.after.items() for b in bs if b in passed for c in spots.after.get(b, ())}
    return known


def _label(spots: Spots, identity: Identity, entry: Entry) -> str | None:
    if not identity.is_plain(entry) and not identity.is_certain(entry):
        return None
    part = identity.listed(entry)
    return part.id if part is not None and part.id in spots.by_part else None
