"""What each slip costs, as data, with the reason beside it.

A price is how rare a slip is: points = -50 log10 of its probability, so 100 points is one ordinary slip in a hundred
and two slips cost the sum of both. The unit digits only settle ties. The prices are our own judgement (no source):
change one here and every answer follows.
"""

from __future__ import annotations

from stackcheck.value import Value


class Price(Value, kw_only=True):
    """`points` for the first part; `further` for each part past `from_part`, and never more than `at_most` on top."""

    points: int
    reason: str
    further: int = 0
    from_part: int = 1
    at_most: int | None = None

    def of(self, parts: int = 1) -> int:
        on_top = self.further * max(0, parts - self.from_part)
        return self.points + (on_top if self.at_most is None else min(on_top, self.at_most))


ORDINARY_SLIP = 100

PRICES = {
    "extra": Price(points=100, reason="one ordinary slip"),
    "missing": Price(points=100, reason="one ordinary slip"),
    "out_of_place": Price(points=101, reason="one above a swap: a swap explains two parts"),
    "swapped": Price(points=100, reason="one slip that explains two parts"),
    "run_moved": Price(points=102, further=1, from_part=2, at_most=40, reason="one slip, rarer when the run is long"),
    "run_end_for_end": Price(
        points=103, further=1, from_part=2, at_most=40, reason="like a moved run, and it takes a turn"
    ),
    "turned_round": Price(points=100, reason="one ordinary slip"),
    "different_part": Price(points=100, reason="another part of the same kind; another kind is extra and missing"),
    "count_differs": Price(points=100, further=5, reason="the second shim goes with the first"),
    "size_differs": Price(points=60, reason="wear is commoner than a part that does not belong"),
    "entered_from_other_end": Price(points=100, reason="one slip at the desk"),
    "alternate": Price(points=5, reason="allowed, but the listed number is likelier"),
    "not_reached": Price(points=0, reason="nothing was claimed"),
    "not_verified": Price(points=0, reason="nothing was claimed"),
}

EXTRA_WITH_AN_EMPTY_PLACE = Price(points=10, reason="with a place for that number empty it more likely came from there")
ENTERED_TWICE_SAME_TAG = Price(points=40, reason="one tag hangs on one part: a typing slip")
ENTERED_TWICE_ALIKE = Price(
    points=95, reason="neighbours equal in every field, measured too: a typing slip, just likelier"
)
UNKNOWN_TAKEN_FOR = Price(points=10, reason="nobody knew the part; what evidence there is allows it")
GUESS_OVERRULED = Price(points=40, reason="a guess is easily a look-alike, but it needs evidence")


def moved(parts: int) -> int:
    """Points for moving so many neighbours together."""
    return PRICES["out_of_place"].of() if parts == 1 else PRICES["run_moved"].of(parts)


def end_for_end(parts: int) -> int:
    return PRICES["run_end_for_end"].of(parts)


def count_off_by(pieces: int) -> int:
    return PRICES["count_differs"].of(pieces) if pieces else 0
