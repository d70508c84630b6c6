"""What was done to the arrangement: the least price of the operations that lead from the reference to a found line.

Tokens are numbered so that the reference never orders a higher number before a lower one. A *class* of lines is the set
of ordered pairs that stand the other way, as bits of one integer; the reference itself is class 0. All lines of a class
are the same arrangement, so an operation may start from any of them: they are all written out. Every operation can be
undone at the same price, so the search goes outward from the reference and from the found line, and meets.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import combinations

State = tuple[int, int]
"""A class and the set of tokens that were turned with their run."""


def run_price(parts: int) -> int:
    return 101 if parts == 1 else 102 + min(parts - 2, 40)


def turn_price(parts: int) -> int:
    return 103 + min(parts - 2, 40)


@dataclass(frozen=True, kw_only=True)
class Rules:
    """What may be done with n tokens.

    `before[i]` is the set of tokens that the reference orders after i; `held` cannot be moved; `faced` have a face that
    is compared, those in `first` toward the first end; tokens of one group in `alike` (0 for none) never pass one
    another.
    """

    before: tuple[int, ...]
    held: int
    faced: int
    first: int
    alike: tuple[int, ...]


@dataclass(frozen=True)
class Operations:
    """The classes of one set of tokens and the operations between them."""

    rules: Rules
    _next: dict[int, dict[State, tuple[int, tuple]]] = field(default_factory=dict)
    _outward: dict[int, dict[int, list]] = field(default_factory=dict)

    @property
    def size(self) -> int:
        return len(self.rules.before)

    def pair(self, a: int, b: int) -> int:
        """The bit of two tokens, 0 where the reference leaves them free."""
        first, second = min(a, b), max(a, b)
        return 1 << (first * self.size + second) if self.rules.before[first] >> second & 1 else 0

    def class_of(self, line: tuple[int, ...]) -> int:
        return sum(self.pair(a, b) for a, b in combinations(line, 2) if a > b)

    def lines(self, cls: int) -> Iterator[tuple[int, ...]]:
        """Every line of a class."""
        nearer = [0] * self.size
        for a, b in combinations(range(self.size), 2):
            if bit := self.pair(a, b):
                if cls & bit:
                    nearer[a] |= 1 << b
                else:
                    nearer[b] |= 1 << a

        def grow(line: tuple[int, ...], placed: int) -> Iterator[tuple[int, ...]]:
            if len(line) == self.size:
                yield line
            for token in range(self.size):
                if not placed >> token & 1 and nearer[token] & ~placed == 0:
                    yield from grow((*line, token), placed | 1 << token)

        return grow((), 0)

    def may_move(self, block: tuple[int, ...]) -> bool:
        return not any(self.rules.held >> token & 1 for token in block)

    def passing(self, left: tuple[int, ...], right: tuple[int, ...]) -> int | None:
        """The pairs that change when two blocks pass one another; None where equal parts with a face would."""
        change = 0
        for a in left:
            for b in right:
                if bit := self.pair(a, b):
                    if self.rules.alike[a] and self.rules.alike[a] == self.rules.alike[b]:
                        return None
                    change |= bit
        return change

    def of_line(self, line: tuple[int, ...]) -> Iterator[tuple[int, int, int, tuple]]:
        """Every operation on one line: pairs changed, tokens turned, price, words."""
        for i, j, k in combinations(range(self.size + 1), 3):
            left, right = line[i:j], line[j:k]
            change = self.passing(left, right)
            if change is None:
                continue
            for run in (left, right):
                if self.may_move(run):
                    yield change, 0, run_price(len(run)), ("moved", run)
        for i, k in combinations(range(self.size), 2):
            left, middle, right = line[i : i + 1], line[i + 1 : k], line[k : k + 1]
            if not self.pair(left[0], right[0]) or not self.may_move(left + right):
                continue
            changes = self.passing(left, middle + right), self.passing(middle, right)
            if None not in changes:
                yield sum(changes), self.mirrored(left, right), 100, ("swapped", left, right)
        for i, j in combinations(range(self.size + 1), 2):
            run = line[i:j]
            if len(run) > 1 and self.may_move(run):
                change = sum(self.pair(a, b) for a, b in combinations(run, 2))
                turned = sum(1 << token for token in run) & self.rules.faced
                yield change, turned, turn_price(len(run)), ("turned", run)

    def mirrored(self, left: tuple[int, ...], right: tuple[int, ...]) -> int:
        """The tokens whose face a swap turns: each stands as the other's place wants it, so a mirror pair turns both."""
        both = sum(1 << token for token in (*left, *right))
        wants = {self.rules.first >> token & 1 for token in (*left, *right)}
        return both if both & self.rules.faced == both and len(wants) == 2 else 0

    def next_to(self, cls: int) -> dict[State, tuple[int, tuple]]:
        """What one operation reaches from a class: (pairs changed, tokens turned) -> least price, words."""
        if cls not in self._next:
            reached: dict[State, tuple[int, tuple]] = {}
            for line in self.lines(cls):
                for change, turned, price, words in self.of_line(line):
                    known = reached.get((change, turned))
                    if known is None or price < known[0]:
                        reached[change, turned] = price, words
            self._next[cls] = reached
        return self._next[cls]

    def reach(self, start: int, steps: int) -> dict[State, tuple[int, tuple]]:
        """Every state within so many operations of a class, at its least price."""
        best: dict[State, tuple[int, tuple]] = {(start, 0): (0, ())}
        edge = dict(best)
        for _ in range(steps):
            further: dict[State, tuple[int, tuple]] = {}
            for (cls, turned), (price, words) in edge.items():
                for (change, turn), (more, word) in self.next_to(cls).items():
                    state = cls ^ change, turned ^ turn
                    if state not in best or price + more < best[state][0]:
                        best[state] = further[state] = price + more, (*words, word)
            edge = further
        return best

    def outward(self, steps: int) -> dict[int, list]:
        """`reach` from the reference, by class."""
        if steps not in self._outward:
            by_class = defaultdict(list)
            for (cls, turned), (price, words) in self.reach(0, steps).items():
                by_class[cls].append((turned, price, words))
            self._outward[steps] = by_class
        return self._outward[steps]

    def least(self, line: tuple[int, ...], *, stated: int, wrong_way: int, budget: int) -> tuple[int, tuple] | None:
        """The least price, with words, that leads to `line` for at most `budget`.

        `stated` are the tokens whose face was seen, `wrong_way` those of them that point the other way.
        """
        steps = max(budget, 0) // 100
        best = None
        near = self.outward(steps - steps // 2)
        for (cls, turned), (price, words) in self.reach(self.class_of(line), steps // 2).items():
            for turned_too, price_too, words_too in near.get(cls, ()):
                lone = (turned ^ turned_too ^ wrong_way) & stated
                total = price + price_too + 100 * lone.bit_count()
                if total <= budget and (best is None or total < best[0]):
                    best = total, (*words_too, *reversed(words), *([("turned round", lone)] if lone else []))
        return best


@lru_cache(maxsize=400)
def operations(rules: Rules) -> Operations:
    return Operations(rules)
