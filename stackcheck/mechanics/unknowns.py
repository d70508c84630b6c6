"""What is not known to a point, and what that does to an answer.

Each unknown has a least, a usual and a most. One set of variants answers both questions: the first holds every unknown
at its usual value, then come two for each unknown (it alone at its least and its most), then seeded draws of all
together, each evenly spread. The unknown whose two ends move an answer farthest is its main cause.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple
from zlib import crc32

import numpy as np

from stackcheck.value import Value

DRAWS = 400
SEED = 20
HOLDS = 0.95
LEAST_SHARE = 0.01
DRAWN_TO = 0.01
"""Ends nearer to one another than this share of the width of a range are told as one. The draws themselves know an end to
0.008 of the width (standard error of 400) where an answer is spread evenly, and to 0.034 where it is spread as a normal one.
"""
AS_FAR = 0.99
"""An unknown that moves an answer nearly as far as another is told by which was asked for first."""


class Cause(Value, kw_only=True):
    """One unknown of an answer: what the answer is with it alone at its least and at its most,
    and its share of the spread.

    Shares are of the squares of these stretches, as unknowns that know nothing of one another add up.
    """

    name: str
    at_least: float
    at_most: float
    share: float


class Spanned(Value, kw_only=True):
    """An answer: usual value, the stretch that 95 of 100 draws lie in,
    and the unknown that moves it most ("" for none).

    `causes` are all unknowns with at least one part in a hundred of the spread, largest first.
    """

    usual: float
    least: float
    most: float
    main_cause: str = ""
    causes: tuple[Cause, ...] = ()


def told_apart(one: Spanned, other: Spanned, *, least: float = 0.0) -> bool:
    """Whether two answers differ by more than the draws can tell, and anywhere by more than `least`."""
    known_to = max(least, DRAWN_TO * max(one.most - one.least, other.most - other.least))
    ends = ((one.least, other.least), (one.usual, other.usual), (one.most, other.most))
    return any(abs(a - b) > known_to for a, b in ends)


class Unknown(NamedTuple):
    name: str
    least: float
    usual: float
    most: float


class Unknowns:
    """Asks for every unknown twice: first to learn which there are, then to give each as an array of variants.

    One that is asked for again by the same name and range is the same unknown, so that it cancels in a difference; by
    the same name and another range (a length as by the reference, and as measured) it is another one. `whose` are words
    of the names that say whose an unknown is: the draws do without them, so that like parts, each by itself, come to
    the same.
    """

    def __init__(self, known: Sequence[Unknown] = (), whose: Sequence[str] = ()):
        self.known = list(known)
        self.columns: dict[Unknown, np.ndarray] = {}
        count, named = len(self.known), set()
        for i, unknown in enumerate(self.known):
            column = np.full(1 + 2 * count + DRAWS, unknown.usual)
            column[1 + 2 * i], column[2 + 2 * i] = unknown.least, unknown.most
            # Drawn by its name, so that an unknown more or less changes no other draw.
            name = unknown.name
            for word in whose:
                name = name.replace(word, "")
            seed = name if name not in named else repr(unknown)
            named.add(name)
            draws = np.random.default_rng([SEED, crc32(seed.encode())]).random(DRAWS)
            column[1 + 2 * count :] = unknown.least + (unknown.most - unknown.least) * draws
            self.columns[unknown] = column

    def value(self, name: str, least: float, usual: float, most: float) -> Any:
        """The unknown of this name and range; one number where its ends are one."""
        if least == most:
            return usual
        unknown = Unknown(name, float(least), float(usual), float(most))
        if unknown in self.columns:
            return self.columns[unknown]
        if unknown not in self.known:
            self.known.append(unknown)
        return usual

    def spanned(self, values: Any) -> Spanned:
        """What an answer over the variants comes to."""
        values = np.ravel(np.asarray(values, float))
        if values.size == 1:
            return Spanned(usual=float(values[0]), least=float(values[0]), most=float(values[0]))
        count = len(self.known)
        low, high = np.quantile(values[1 + 2 * count :], [(1 - HOLDS) / 2, (1 + HOLDS) / 2])
        usual = float(values[0])
        moves = np.abs(values[1 : 1 + 2 * count].reshape(count, 2) - usual).max(axis=1)
        largest = int(np.argmax(moves >= AS_FAR * moves.max())) if count else 0
        cause = self.known[largest].name if moves[largest] > 0 else ""
        return Spanned(
            usual=usual,
            least=min(usual, float(low)),
            most=max(usual, float(high)),
            main_cause=cause,
            causes=self._causes(values),
        )

    def _causes(self, values: np.ndarray) -> tuple[Cause, ...]:
        ends = values[1 : 1 + 2 * len(self.known)].reshape(len(self.known), 2)
        squares = (ends.max(axis=1, initial=values[0]) - ends.min(axis=1, initial=values[0])) ** 2
        if not squares.sum() > 0:
            return ()
        shares = squares / squares.sum()
        named = [
            Cause(name=unknown.name, at_least=float(low), at_most=float(high), share=float(share))
            for unknown, (low, high), share in zip(self.known, ends, shares)
            if share >= LEAST_SHARE
        ]
        return tuple(sorted(named, key=lambda cause: -round(cause.share, 2)))


def with_variants(build: Callable[[Unknowns], Any], *, whose: Sequence[str] = ()) -> tuple[Unknowns, Any]:
    """What `build` makes with every unknown as an array of variants, and the unknowns that it asked for;
    `whose` as by `Unknowns`.
    """
    learned = Unknowns()
    build(learned)
    unknowns = Unknowns(learned.known, whose)
    return unknowns, build(unknowns)
