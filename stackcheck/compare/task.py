"""What is left to decide: a long line with few differences shortened to what lies around them.

Pieces and places that agree in sequence become *blocks*, which later may move as one but are not looked into again. The
agreeing head and tail go first; in between the fewest insertions and deletions are looked for (Myers, Algorithmica 1
(1986) 251-266), or, where they are many, between the parts that stand once on each side and rise on both (patience
sorting: Fredman, Discrete Mathematics 11 (1975) 29-35). What agrees among the rest, a run that stands elsewhere,
becomes a block too. Near a difference nothing is locked, so that equal parts may still be exchanged there.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from stackcheck.compare.identity import AGREES, DIFFERENT, Identity, Match
from stackcheck.compare.pieces import Piece
from stackcheck.compare.spots import Group, Spots, line_of
from stackcheck.model.found import Entry
from stackcheck.value import Value, replace

SHORT = 14
AROUND = 2
MOST_EDITS = 64
LEAST_BLOCK_ELSEWHERE = 3


class Token(Value, eq=False):
    """A piece to be decided, or a block that is: `home` is its own group;
    `homes`, `places` and `matches` are its pieces'.

    `hint` is the group to try first: what a piece agrees with by the fewest edits, or, where nobody is sure of it, the
    empty place between those of its neighbours.
    """

    pieces: tuple[int, ...]
    piece: Piece | None = None
    home: Group | None = None
    hint: Group | None = None
    homes: tuple[Group, ...] = ()
    places: tuple[str, ...] = ()
    matches: tuple[Match, ...] = ()


class Task(Value):
    """The tokens in line, how many of them came off the first end, and the groups that they may belong to."""

    tokens: tuple[Token, ...]
    gap: int
    groups: tuple[Group, ...]


def whole(spots: Spots, pieces: Sequence[Piece], gap: int) -> Task:
    return Task(tuple(Token((p,), piece) for p, piece in enumerate(pieces)), gap, tuple(spots.groups))


def shortened(
    spots: Spots, identity: Identity, pieces: Sequence[Piece], gap: int, *, equal_apart: bool = False
) -> Task:
    """`equal_apart` keeps every part that is wanted more than once out of the blocks:
    which is which may be decided otherwise.
    """
    if len(pieces) <= SHORT:
        return whole(spots, pieces, gap)
    return _Shortening(spots, identity, pieces, gap).task(equal_apart=equal_apart)


class _Shortening:
    def __init__(self, spots: Spots, identity: Identity, pieces: Sequence[Piece], gap: int):
        self.spots, self.identity, self.pieces, self.gap = spots, identity, pieces, gap
        self.agreed: list[Match | None] = []
        labels = []
        for piece in pieces:
            part, match = self._as_listed(piece.entry)
            labels.append(part)
            self.agreed.append(match)
        groups = _nearest_line(spots, labels)
        self.line = [group for group in groups for _ in range(group.size)]
        self.names = [name for group in groups for name in (group.names * group.size if group.counted else group.names)]
        self.labels = labels

    def _as_listed(self, entry: Entry) -> tuple[str | None, Match | None]:
        """The part of an entry about which nothing has to be said; None for the others.

        A guess is aligned too, as a hint where to try it first, but without a match: it is decided with the others.
        """
        if entry.part in self.spots.closed:
            return entry.part, AGREES
        if self.identity.is_plain(entry):
            return (entry.part, AGREES) if entry.part in self.spots.wanted else (None, None)
        part = self.identity.listed(entry)
        if part is None or part.id not in self.spots.wanted:
            return None, None
        match = self.identity.match(entry, part.id)
        if match is None or match.price:
            return None, None
        return part.id, match if self.identity.is_certain(entry) else None

    def _agree(self, p: int, s: int) -> bool:
        group = self.line[s]
        if self.labels[p] != group.part:
            return False
        toward, facing = self.pieces[p].toward, group.facing
        return toward == facing or not toward or not facing

    def task(self, *, equal_apart: bool) -> Task:
        home = self._aligned()
        free = self._near_differences(home)
        if equal_apart:
            free = [is_free or self.spots.wanted[self.line[s].part] > 1 for is_free, s in zip(free, home)]
        return self._cut(home, free, self._between_neighbours(home))

    # Which pieces agree with which places

    def _aligned(self) -> list[int | None]:
        """For each piece the position in the line of the place that it agrees with."""
        home: list[int | None] = [None] * len(self.pieces)
        pieces, places = list(range(len(self.pieces))), list(range(len(self.line)))
        self._align(pieces, places, home, least=1)
        taken = {s for s in home if s is not None}
        self._align(
            [p for p in pieces if home[p] is None],
            [s for s in places if s not in taken],
            home,
            least=LEAST_BLOCK_ELSEWHERE,
        )
        return home

    def _align(self, pieces: list[int], places: list[int], home: list[int | None], least: int) -> None:
        pairs = self._pairs(pieces, places)
        if least == 1:
            for p, s in pairs:
                home[p] = s
            return
        run: list[tuple[int, int]] = []
        for pair in [*pairs, None]:
            if run and (pair is None or pair != (run[-1][0] + 1, run[-1][1] + 1)):
                if len(run) >= least:
                    for p, s in run:
                        home[p] = s
                run = []
            if pair is not None:
                run.append(pair)

    def _pairs(self, pieces: list[int], places: list[int]) -> list[tuple[int, int]]:
        head = 0
        room = min(len(pieces), len(places))
        while head < room and self._agree(pieces[head], places[head]):
            head += 1
        tail = 0
        room -= head
        while tail < room and self._agree(pieces[-1 - tail], places[-1 - tail]):
            tail += 1
        inner_pieces, inner_places = pieces[head : len(pieces) - tail], places[head : len(places) - tail]
        inner = self._fewest_edits(inner_pieces, inner_places)
        if inner is None:
            inner = self._between_anchors(inner_pieces, inner_places)
        return [
            *zip(pieces[:head], places[:head]),
            *inner,
            *zip(pieces[len(pieces) - tail :], places[len(places) - tail :]),
        ]

    def _fewest_edits(self, pieces: list[int], places: list[int]) -> list[tuple[int, int]] | None:
        """The pairs that the fewest insertions and deletions leave; None when there are too many of them."""
        n, m = len(pieces), len(places)
        if not n or not m:
            return []
        furthest = {1: 0}
        history = []
        for edits in range(min(n + m, MOST_EDITS) + 1):
            history.append(dict(furthest))
            for diagonal in range(-edits, edits + 1, 2):
                down = diagonal == -edits or (
                    diagonal != edits and furthest.get(diagonal - 1, -1) < furthest.get(diagonal + 1, -1)
                )
                x = furthest.get(diagonal + 1, 0) if down else furthest.get(diagonal - 1, 0) + 1
                y = x - diagonal
                while x < n and y < m and self._agree(pieces[x], places[y]):
                    x, y = x + 1, y + 1
                furthest[diagonal] = x
                if x >= n and y >= m:
                    return self._way_back(history, pieces, places, diagonal)
        return None

    def _way_back(
        self, history: list[dict[int, int]], pieces: list[int], places: list[int], diagonal: int
    ) -> list[tuple[int, int]]:
        x, y = len(pieces), len(places)
        pairs = []
        for edits in range(len(history) - 1, -1, -1):
            furthest = history[edits]
            down = diagonal == -edits or (
                diagonal != edits and furthest.get(diagonal - 1, -1) < furthest.get(diagonal + 1, -1)
            )
            before = diagonal + 1 if down else diagonal - 1
            start_x = furthest.get(before, 0) if edits else 0
            start_y = start_x - before if edits else 0
            agreeing = x - start_x - (1 if edits and not down else 0)
            pairs += zip(reversed(pieces[x - agreeing : x]), reversed(places[y - agreeing : y]))
            if edits:
                x, y, diagonal = start_x, start_y, before
        return pairs[::-1]

    def _between_anchors(self, pieces: list[int], places: list[int]) -> list[tuple[int, int]]:
        """Parts that stand once on each side, as many as rise on both, and what agrees between them."""
        once_found = _met_once((self.labels[p], i) for i, p in enumerate(pieces))
        once_wanted = _met_once((self.line[s].part, j) for j, s in enumerate(places))
        both = [(i, once_wanted[part]) for part, i in once_found.items() if part is not None and part in once_wanted]
        both = [(i, j) for i, j in both if self._agree(pieces[i], places[j])]
        anchors = longest_rising(sorted(both))
        if not anchors:
            return []
        pairs = []
        last_i = last_j = -1
        for i, j in [*anchors, (len(pieces), len(places))]:
            window = self._fewest_edits(pieces[last_i + 1 : i], places[last_j + 1 : j])
            pairs += window or []
            if i < len(pieces):
                pairs.append((pieces[i], places[j]))
            last_i, last_j = i, j
        return pairs

    def _between_neighbours(self, home: list[int | None]) -> dict[int, int]:
        """For pieces nobody is sure of the empty places between those of their neighbours, in sequence,
        where they fit.
        """
        taken = {s for s in home if s is not None}
        between: dict[int, int] = {}
        for p in [p for p, s in enumerate(home) if s is None and self.agreed[p] is None]:
            nearer = p - 1
            while nearer >= 0 and home[nearer] is None and nearer not in between:
                nearer -= 1
            seat = 0
            if nearer >= 0:
                seat = (between[nearer] if home[nearer] is None else home[nearer]) + 1
            while seat < len(self.line) and seat not in taken and not self._fits(p, self.line[seat]):
                seat += 1
            if seat < len(self.line) and seat not in taken:
                between[p] = seat
        return between

    def _fits(self, p: int, group: Group) -> bool:
        if group.unit or group.fixed:
            return False
        match = self.identity.match(self.pieces[p].entry, group.part)
        return match is not None and match.how != DIFFERENT

    # What stays to be decided

    def _near_differences(self, home: list[int | None]) -> list[bool]:
        """Pieces within reach of a difference, and all pieces of a counted place that is touched."""
        piece_of: list[int | None] = [None] * len(self.line)
        for p, s in enumerate(home):
            if s is not None:
                piece_of[s] = p
        free = [s is None or match is None for s, match in zip(home, self.agreed)]
        for p in [p for p, s in enumerate(home) if s is None]:
            for near in range(max(0, p - AROUND), min(len(home), p + AROUND + 1)):
                free[near] = True
        empty = [s for s, p in enumerate(piece_of) if p is None]
        for s in empty:
            if not self.line[s].fixed:
                for p in piece_of[max(0, s - AROUND) : s + AROUND + 1]:
                    if p is not None:
                        free[p] = True
        counted = {self.line[s] for s in empty}
        counted |= {self.line[s] for s, is_free in zip(home, free) if is_free and s is not None}
        if any(group.counted for group in counted):
            for p, s in enumerate(home):
                if s is not None and self.line[s].counted and self.line[s] in counted:
                    free[p] = True
        return free

    def _cut(self, home: list[int | None], free: list[bool], between: dict[int, int]) -> Task:
        locked = {s for p, s in enumerate(home) if not free[p]}
        groups: list[Group] = []
        at: dict[int, int] = {}
        for s in [s for s in range(len(self.line)) if s not in locked]:
            group, name = self.line[s], self.names[s]
            at[s] = len(groups)
            if s - 1 in at and self.line[s - 1] is group:
                last = groups[-1]
                at[s] -= 1
                groups[-1] = replace(
                    last, names=last.names if group.counted else (*last.names, name), size=last.size + 1
                )
                continue
            names = group.names if group.counted else (name,)
            groups.append(
                replace(
                    group, index=len(groups), names=names, size=1, low=self.spots.low[name], rank=self.spots.rank[name]
                )
            )
        tokens: list[Token] = []
        gap = p = 0
        while p < len(self.pieces):
            if p == self.gap:
                gap = len(tokens)
            if free[p]:
                seat = home[p] if home[p] is not None else between.get(p)
                tokens.append(Token((p,), self.pieces[p], hint=None if seat is None else groups[at[seat]]))
                p += 1
                continue
            end = p + 1
            while end < len(self.pieces) and end != self.gap and not free[end] and home[end] == home[end - 1] + 1:
                end += 1
            tokens.append(self._block(range(p, end), home, len(groups)))
            groups.append(tokens[-1].home)
            p = end
        return Task(tuple(tokens), gap if self.gap < len(self.pieces) else len(tokens), tuple(groups))

    def _block(self, pieces: range, home: list[int | None], index: int) -> Token:
        run, seats = slice(pieces.start, pieces.stop), slice(home[pieces[0]], home[pieces[-1]] + 1)
        homes, names = self.line[seats], self.names[seats]
        low, rank = self.spots.low, self.spots.rank
        if self.spots.is_one_line:
            low, rank = low[names[0]], rank[names[-1]]
        else:
            low = tuple(map(min, zip(*(low[name] for name in names))))
            rank = tuple(map(max, zip(*(rank[name] for name in names))))
        group = Group(
            index=index, names=(names[0],), part="", size=1, counted=False, facing="", faced=False,
            fixed=any(group.fixed for group in homes), may_be_absent=False, unit=False,
            low=low, rank=rank,
        )  # fmt: skip
        return Token(
            tuple(pieces), home=group, homes=tuple(homes), places=tuple(names), matches=tuple(self.agreed[run])
        )


def _nearest_line(spots: Spots, labels: Sequence[str | None]) -> list[Group]:
    """The groups in the line that obeys the stacks and comes nearest to the sequence found."""
    if len(spots.reference.stacks) == 1:
        return spots.groups
    seen: dict[str | None, list[int]] = {}
    for position, label in enumerate(labels):
        seen.setdefault(label, []).append(position)
    key: dict[str, int] = {}
    for group in spots.groups:
        positions = seen.get(group.part, [])
        key[group.name] = positions[0] if positions else -1
        del positions[: group.size]
    by_name = {group.name: group for group in spots.groups}
    home = {name: group.name for group in spots.groups for name in group.names}
    after: dict[str, list[str]] = {}
    for name, successors in spots.after.items():
        for successor in successors:
            if home[name] != home[successor]:
                after.setdefault(home[name], []).append(home[successor])
    return [by_name[name] for name in line_of(by_name, after, key.__getitem__)]


def _met_once(pairs) -> dict:
    seen: dict = {}
    often = set()
    for label, position in pairs:
        if label in seen:
            often.add(label)
        seen[label] = position
    return {label: position for label, position in seen.items() if label not in often}


def longest_rising(pairs: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """The longest run of pairs, given in rising first members, whose second members rise too (patience sorting).

    >>> longest_rising([(0, 3), (1, 1), (2, 2), (3, 0), (4, 4)])
    [(1, 1), (2, 2), (4, 4)]
    """
    tops: list[int] = []
    at: list[int] = []
    before: list[int] = []
    for index, (_, value) in enumerate(pairs):
        pile = bisect_left(tops, value)
        before.append(at[pile - 1] if pile else -1)
        if pile == len(tops):
            tops.append(value)
            at.append(index)
        else:
            tops[pile], at[pile] = value, index
    line = []
    index = at[-1] if at else -1
    while index >= 0:
        line.append(pairs[index])
        index = before[index]
    return line[::-1]
