"""How an answer of `stack` was reckoned, and what was taken where nothing is given:
short, and behind what it is about.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.mechanics.chain import LoopState, Sum
from stackcheck.mechanics.taken_limits import is_taken
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.names import lower_first
from stackcheck.present.warm_words import measured_warm

LENGTHS = (
    "Lengths: free lengths added up, nothing pressed together. "
    "A range is the worst case, every part at its limit at once."
)
MEASURED = (
    "As measured: what was not measured is taken as evenly spread between its limits; "
    "good to two standard uncertainties, about 95 in 100 (JCGM 100:2008)."
)
EVEN = (
    "Even spread: each part independent and evenly spread between its limits, an assumption of ours that no drawing "
    "makes. Root of squares holds only if every limit is three deviations of a centred normal spread; about eight in a "
    "hundred lie outside it where parts are evenly spread."
)
TAKEN = (
    'Limits "taken": the reference gives that length none, so these are ours. ±0.1, of a shim ring 5 % and at least 0.01 '
    "(common practice, no source); of a bearing's ring 0/-0.12 (ISO 492, class Normal), of a washer by its thickness "
    "(ISO 4759-3, grade A; both from memory)."
)


def how_blocks(sums: Sequence[Sum], loops: Sequence[LoopState] = (), forces: Sequence[str] = ()) -> list[Block]:
    """Only what this answer rests on; `forces` is what is said of them."""
    words = [LENGTHS] if sums or loops else []
    if any(is_taken(term.how) for own in (*sums, *loops) for term in own.terms):
        words.append(TAKEN)
    if any(own.as_measured is not None for own in sums):
        words.append(MEASURED)
    if warm := measured_warm((lower_first(term.name), term.reading) for own in sums for term in own.terms):
        words.append(warm)
    if any(own.as_measured is None and len(own.terms) > 1 and own.spread and not is_exact(own) for own in sums) or any(
        loop.spread for loop in loops
    ):
        words.append(EVEN)
    words += forces
    return [Heading("HOW IT WAS RECKONED"), *(Text(each, mark=" -  ") for each in words)] if words else []


def is_exact(value: Sum) -> bool:
    """Whether every length stands in a parts picture without any limit: nothing spreads."""
    return value.total is not None and value.total.least_mm == value.total.most_mm
