"""The found list as one line of pieces, and the ways it may be read.

line = what came off the first end, [what was not reached], what came off the second end backwards. An entry of unknown
end is tried at both; when no entry has an end the list is read from the first. A part found loose takes no spot. The
list may have been entered from the other end, and one thing may stand in it twice: each such reading is a `Typed`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, product

from stackcheck.compare.prices import ENTERED_TWICE_ALIKE, ENTERED_TWICE_SAME_TAG, PRICES
from stackcheck.model.found import TOWARD_FIRST, TOWARD_SECOND, Entry, Found
from stackcheck.value import Value, replace

MOST_UNSAID_ENDS = 7
MOST_TWINS = 4
NONE_LEFT_OUT = 1 << 30
OPPOSITE = {TOWARD_FIRST: TOWARD_SECOND, TOWARD_SECOND: TOWARD_FIRST}


class Piece(Value, eq=False):
    """One piece of an entry, where it came off (0 first end, 1 second) and where its feature points, as read."""

    entry: Entry
    end: int
    toward: str


class Typed(Value):
    """One way to read the list; `twice` are pairs of entry numbers, the second of which is taken for a typing slip."""

    ends: tuple[int, ...]
    mirrored: bool = False
    twice: tuple[tuple[int, int], ...] = ()
    price: int = 0


def ways_to_read(found: Found) -> tuple[list[tuple[int, ...]], bool]:
    """The ends of all entries, in every way they may be filled in, and whether these are all."""
    said = [entry.end for entry in found.entries]
    unsaid = [position for position, end in enumerate(said) if end is None and not found.entries[position].is_loose]
    if unsaid and len(unsaid) == sum(not entry.is_loose for entry in found.entries):
        return [tuple(0 for _ in said)], True
    complete = len(unsaid) <= MOST_UNSAID_ENDS
    choices = product((0, 1), repeat=len(unsaid)) if complete else ((end,) * len(unsaid) for end in (0, 1))
    ways = []
    for choice in choices:
        ends = [end or 0 for end in said]
        for position, end in zip(unsaid, choice):
            ends[position] = end
        ways.append(tuple(ends))
    return ways, complete


def twins(found: Found) -> list[tuple[int, int, int]]:
    """Pairs of entries that may be one thing typed twice: kept, taken off the list, price."""
    pairs = []
    tagged: dict[str, int] = {}
    for entry in found.entries:
        if entry.tag and entry.tag in tagged:
            kept = tagged[entry.tag]
            pairs.append((kept, entry.number, ENTERED_TWICE_SAME_TAG.of()))
            pairs.append((entry.number, kept, ENTERED_TWICE_SAME_TAG.of()))
        elif entry.tag:
            tagged[entry.tag] = entry.number
    alike_before = False
    for a, b in zip(found.entries, found.entries[1:]):
        alike = a.sizes and not a.tag and replace(a, number=b.number, line=b.line) == b
        if alike and not alike_before:
            pairs.append((a.number, b.number, ENTERED_TWICE_ALIKE.of()))
        alike_before = alike
    return pairs


def typing_slips(pairs: Sequence[tuple[int, int, int]]) -> Iterator[tuple[tuple[tuple[int, int], ...], int]]:
    """Which entries to take off the list, cheapest first, with the price of doing so."""
    pairs = pairs[: 2 * MOST_TWINS]
    ways = []
    for number in range(1, min(len(pairs), 2) + 1):
        for chosen in combinations(pairs, number):
            gone = [pair[1] for pair in chosen]
            kept = [pair[0] for pair in chosen]
            if len(set(gone)) == len(gone) and not set(gone) & set(kept):
                ways.append((tuple(pair[:2] for pair in chosen), sum(pair[2] for pair in chosen)))
    return iter(sorted(ways, key=lambda way: way[1]))


def untried_slips(pairs: Sequence[tuple[int, int, int]]) -> int:
    """What the cheapest choice of entries typed twice that `typing_slips` leaves out costs at least."""
    prices = sorted(pair[2] for pair in pairs)
    left_out = [price for *_, price in pairs[2 * MOST_TWINS :]]
    return min([*left_out, sum(prices[:3]) if len(prices) > 2 else NONE_LEFT_OUT], default=NONE_LEFT_OUT)


def mirrored_price() -> int:
    return PRICES["entered_from_other_end"].of()


def pieces_of(found: Found, typed: Typed) -> tuple[list[Piece], int]:
    """The pieces in one line, first end to second end, and how many of them came off the first end."""
    gone = {number for _, number in typed.twice}
    ends: tuple[list[Piece], list[Piece]] = ([], [])
    for entry, end in zip(found.entries, typed.ends):
        if entry.is_loose or entry.number in gone:
            continue
        toward = entry.toward
        if toward and toward not in OPPOSITE:
            toward = ""
        if typed.mirrored:
            end, toward = 1 - end, OPPOSITE.get(toward, "")
        piece = Piece(entry, end, toward)
        if entry.count == 1:
            ends[end].append(piece)
        else:
            ends[end].extend([piece] * entry.count)
    return ends[0] + ends[1][::-1], len(ends[0])
