"""The books of all open jobs: which part that is too many somewhere is the one that is lacking elsewhere.

    rows      every piece that is extra, or stands in the place of another part
    columns   every place that lacks a piece, and for each row a column of its own: no home found

The cheapest assignment tells the stories. A hole there and a stray here that suit each other are one slip (about 1e-2)
rather than two that do not depend on each other (1e-4), so the joint story outweighs the pair by a hundred. One piece
fills one place. Two pieces that stand each in the other's place are one swap.
A ring of a bearing is never an extra part: it is charged to its parent.
"""

from __future__ import annotations

from math import log

from stackcheck.compare.assignment import assign
from stackcheck.stray.beliefs import belief
from stackcheck.stray.bench import Assembly, Bench, Lacking
from stackcheck.stray.decide import UNKNOWN, origin
from stackcheck.stray.hypotheses import ELSEWHERE, HERE, PIECE, Hypothesis, hypotheses
from stackcheck.stray.seen import Stray, stray_of
from stackcheck.value import Value

ONE_SLIP, SWAP, PIECE_OF, NO_HOME, LOST = "one slip", "swap", "piece", "no home", "lost"
POINTS = 1000
"""Prices are whole numbers: so many points for each factor of e."""
NEVER = 10**7


class Story(Value, kw_only=True):
    """One event. `strays` are what was found, `places` what they belong to, both in the same sequence.

    `kind`: "one slip" (too many here, lacking there), "swap", "piece" (charged to the part in `places`, which is then
    found, broken, incomplete), "no home" (strays alone) or "lost" (places alone).
    """

    kind: str
    strays: tuple[Stray, ...] = ()
    places: tuple[Lacking, ...] = ()


def stories(bench: Bench) -> tuple[Story, ...]:
    """What all open lists tell together, stories first, then what stays unexplained."""
    extras, pieces = [], []
    for assembly in bench.compared:
        for stray, stands_at in _too_many(assembly):
            shares = hypotheses(stray, bench)
            parent = _parent(stray, shares)
            if parent:
                pieces.append(Story(kind=PIECE_OF, strays=(stray,), places=(parent,)))
            else:
                extras += [(stray, stands_at, shares)] * stray.count
    holes = [hole for assembly in bench.compared for lack in assembly.lacking() for hole in [lack] * lack.count]
    homes = _assigned(extras, holes, bench)
    return (*_told(extras, holes, homes), *pieces, *_unexplained(extras, holes, homes))


def _too_many(assembly: Assembly) -> list[tuple[Stray, str]]:
    """Every entry that has no place of its own, with the place that it stands in, if any."""
    found = []
    for finding in assembly.explanation.findings:
        if finding.kind in ("extra", "different_part"):
            stands_at = finding.places[0] if finding.kind == "different_part" and finding.places else ""
            for number in finding.entries:
                entry = assembly.found.entry(number)
                known = entry.part and assembly.reference.has_part(entry.part)
                kind = assembly.reference.part(entry.part).kind if known else ""
                found.append((stray_of(entry, assembly.id, kind), stands_at))
    return found


def _parent(stray: Stray, shares: tuple[Hypothesis, ...]) -> Lacking | None:
    """The part of a reference that a fragment comes from."""
    why = origin(stray, shares)
    named = [reason.origin for reason in why.named if reason.origin.kind == PIECE and reason.origin.part]
    if why.verdict == UNKNOWN or not named or named[0] != why.named[0].origin:
        return None
    return Lacking(reference=named[0].reference, place="", part=named[0].part)


def _assigned(extras: list, holes: list[Lacking], bench: Bench) -> list[int | None]:
    """For each extra the index of the hole it fills at the least price, None for no home."""
    if not extras:
        return []
    costs = []
    for row, (_, stands_at, shares) in enumerate(extras):
        own = [_price(shares, hole, stands_at) for hole in holes]
        spare = [_spare_price(shares) if column == row else NEVER for column in range(len(extras))]
        costs.append(own + spare)
    columns, _, _ = assign(costs)
    return [column if column < len(holes) else None for column in columns]


def _price(shares: tuple[Hypothesis, ...], hole: Lacking, stands_at: str) -> int:
    """What it costs to say that this piece is the one lacking there: the logarithm of how badly it suits."""
    if stands_at == hole.place:
        return NEVER  # it stands there, and is another part
    densities = [
        hypothesis.share / hypothesis.prior
        for hypothesis in shares
        if hypothesis.origin.kind in (HERE, ELSEWHERE)
        and (hypothesis.origin.reference, hypothesis.origin.part) == (hole.reference, hole.part)
    ]
    return _points(max(densities, default=0.0))


def _spare_price(shares: tuple[Hypothesis, ...]) -> int:
    """What it costs to say that a second, independent slip brought it here."""
    others = [hypothesis for hypothesis in shares if hypothesis.origin.kind not in (HERE, ELSEWHERE)]
    mass = 1 - belief("prior", HERE) - belief("prior", ELSEWHERE)
    return _points(belief("slip", "two") / belief("slip", "one") * sum(each.share for each in others) / mass)


def _points(density: float) -> int:
    return round(-POINTS * log(density)) if density > 0 else NEVER


def _told(extras: list, holes: list[Lacking], homes: list[int | None]) -> list[Story]:
    told, done = [], set()
    for row, home in enumerate(homes):
        if home is None or row in done:
            continue
        stray = extras[row][0]
        other = next(
            (
                r
                for r, h in enumerate(homes)
                if r != row and h is not None and _crossed(extras, holes, (row, home), (r, h))
            ),
            None,
        )
        if other is not None:
            done |= {row, other}
            told.append(Story(kind=SWAP, strays=(stray, extras[other][0]), places=(holes[home], holes[homes[other]])))
        else:
            told.append(Story(kind=ONE_SLIP, strays=(stray,), places=(holes[home],)))
    return told


def _crossed(extras: list, holes: list[Lacking], own: tuple[int, int], other: tuple[int, int]) -> bool:
    """Whether each of two pieces stands in the place that the other one fills."""
    return all(
        extras[a][1] == holes[b].place and extras[a][0].home_list == holes[b].reference
        for a, b in ((own[0], other[1]), (other[0], own[1]))
    )


def _unexplained(extras: list, holes: list[Lacking], homes: list[int | None]) -> list[Story]:
    filled = {home for home in homes if home is not None}
    strays = [Story(kind=NO_HOME, strays=(extras[row][0],)) for row, home in enumerate(homes) if home is None]
    return strays + [Story(kind=LOST, places=(hole,)) for index, hole in enumerate(holes) if index not in filled]
