"""What the sequence is about: parts in a line, the slips that may have been made with them,
and what they cost together.
"""

from __future__ import annotations

from stackcheck.compare.prices import PRICES
from stackcheck.value import Value

SWAP, MOVE, REVERSE, TURN = "swap", "move", "reverse", "turn"
IMPOSSIBLE = 1 << 30
MOST_STEPS = 8_000  # for one comparison
MOST_LOOKS = 1_200_000  # in it, at one part of a line that is not short: what bounds the work when the list is long
SHORT_LINE = 24
MOST_SLIPS_TRIED = 600_000  # in it; twice what any of 25,000 random cases took

MOST_LIKELY_TRIED = 40_000  # in it, of those that are looked at for a price to begin with


class Item(Value, eq=False):
    """A part, or a block of parts that stay together. `turned` None: it has no face that could be compared.

    `low` and `rank` say what it lies before (`stackcheck.compare.spots.lies_before`); equal spots that stand together
    share a `group` and are not ordered. `equal` is the number that parts with a face share, `facing` what its place
    wants.
    """

    key: object
    low: tuple[int, ...]
    rank: tuple[int, ...]
    parts: int = 1
    movable: bool = True
    turned: bool | None = None
    equal: str | None = None
    facing: str = ""
    group: object = None

    @property
    def is_deep(self) -> bool:
        """Whether it stands for places that were not reached."""
        return not isinstance(self.key, tuple)


class Budget:
    """Arrangements that may still be looked at in one comparison,
    counted so that the answer never depends on the clock.

    `thorough` for a short line, where a knot may take all of it and every line of an arrangement is tried.
    """

    def __init__(self, left: int = MOST_STEPS, *, thorough: bool = False):
        self.left, self.thorough = left, thorough
        self.looks = MOST_LOOKS
        self.slips = MOST_SLIPS_TRIED
        self.likely = MOST_LIKELY_TRIED

    def look(self, parts: int, times: int = 1) -> None:
        """Counts that every part of a line was looked at so many times; a short line costs too little to count."""
        if parts > SHORT_LINE:
            self.looks -= parts * times

    @property
    def is_spent(self) -> bool:
        return self.looks <= 0 or self.slips <= 0


class Slip(Value):
    """One operation: kind and items (positions in the line as found)."""

    kind: str
    items: tuple[int, ...]
    price: int


class Settled(Value):
    """Slips that together lead from the reference to what was found, last one first."""

    price: int
    slips: tuple[Slip, ...]
    bound: int

    @property
    def proved(self) -> bool:
        return self.bound >= self.price


def turned_round(item: int) -> Slip:
    return Slip(TURN, (item,), PRICES["turned_round"].of())
