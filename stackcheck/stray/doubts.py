"""What to doubt before a part is called unknown: one size that alone does not suit, or several parts stuck together.

A slip of the pen (29.8 written 298) and two shims held together by oil both leave a part that agrees with nothing. Said
is only what would explain the sizes; nothing is concluded from it.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations_with_replacement

from stackcheck.stray.beliefs import belief
from stackcheck.stray.candidates import Candidate
from stackcheck.stray.likelihood import agreeing_reach, gate, reach
from stackcheck.stray.seen import THREAD, Stray, Taken
from stackcheck.value import Value, replace

MOST_STUCK = 3
"""So many stick together at most before somebody sees it."""


class OddSize(Value, kw_only=True):
    """The one size that does not suit parts with which all others agree, two at least. `parts` are the best of them."""

    size: str
    parts: tuple[Candidate, ...]


def odd_sizes(stray: Stray, candidates: Iterable[Candidate]) -> tuple[OddSize, ...]:
    """Each size that alone rules parts out, with those parts; a size that most of them miss first."""
    within = agreeing_reach(stray)
    found: dict[str, list[Candidate]] = {}
    if len(stray.taken) < 3:
        return ()
    for candidate in candidates:
        out = gate(within, candidate)
        if len(out) == 1 and all(candidate.size(taken.name) for taken in stray.taken):
            found.setdefault(out[0], []).append(candidate)
    return tuple(
        OddSize(size=size, parts=tuple(parts)) for size, parts in sorted(found.items(), key=lambda each: -len(each[1]))
    )


def stuck_together(stray: Stray, candidates: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """The parts that together have this thickness and alone all its other sizes, fewest first;
    () where there are none.
    """
    length = stray.size("length")
    rest = tuple(taken for taken in stray.taken if taken.name != "length" and taken.name not in THREAD)
    if length is None or len(rest) < 2:
        return ()
    within = reach(replace(stray, taken=rest))
    thin = [candidate for candidate in candidates if candidate.size("length") and _suits(candidate, rest, within)]
    room = belief("decide", "agree") * length.u_mm
    for count in range(2, MOST_STUCK + 1):
        for together in combinations_with_replacement(thin, count):
            low = sum(candidate.size("length").low_mm for candidate in together)
            high = sum(candidate.size("length").high_mm for candidate in together)
            if low - room <= length.value_mm <= high + room:
                return together
    return ()


def _suits(candidate: Candidate, rest: tuple[Taken, ...], within: tuple) -> bool:
    return all(candidate.size(taken.name) for taken in rest) and not gate(within, candidate)
