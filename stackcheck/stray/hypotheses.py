"""Why a stray part could be here: every object it could be with every reason to be here, and how much speaks for each.

A hypothesis joins a candidate (what it is) with an origin (why it is here). Priors come from `beliefs`; what is shared
by many places is divided among them. The shares of all hypotheses sum to one, the unknown among them.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from stackcheck.stray.beliefs import belief
from stackcheck.stray.bench import Assembly, Bench, Lacking
from stackcheck.stray.candidates import Candidate, Limits, can_lie_loose, of_part, of_reference, pieces, shop, standard
from stackcheck.stray.likelihood import gate, looks_factor, reach, sizes_density, unknown_density, unknown_looks
from stackcheck.stray.seen import Stray
from stackcheck.value import Value, replace

HERE, ELSEWHERE, SPARE, STANDARD, SUBSTITUTE, PIECE, UNKNOWN = (
    "here", "elsewhere", "spare", "standard", "substitute", "piece", "unknown",
)  # fmt: skip
ORIGINS = {
    HERE: "a place of this assembly that lacks one",
    ELSEWHERE: "a place of another assembly that lacks one, or one that nobody compared or reached so far",
    SPARE: "a spare of a place that lacks nothing",
    STANDARD: "a standard item from the bench",
    SUBSTITUTE: "stands in for a part that is lacking",
    PIECE: "a piece of something larger, packing or a tool",
    UNKNOWN: "not known",
}


class Origin(Value, kw_only=True):
    """Why it is here: `kind` from `ORIGINS`; the place it belongs to or stands in for, where there is one."""

    kind: str
    reference: str = ""
    place: str = ""
    part: str = ""
    parent: str = ""
    compared: bool = True


class Hypothesis(Value, kw_only=True):
    """One object with one reason; `candidate` None is the unknown. `share` is its part of all that could be."""

    candidate: Candidate | None
    origin: Origin
    prior: float
    share: float = 0.0


def hypotheses(stray: Stray, bench: Bench) -> tuple[Hypothesis, ...]:
    """Everything that survives the gate, with its share, largest first; the unknown is always among them."""
    within = reach(stray)
    proposed = [
        (hypothesis, sizes_density(stray, hypothesis.candidate) * looks_factor(stray, hypothesis.candidate))
        for hypothesis in proposals(stray, bench)
        if not gate(within, hypothesis.candidate)
    ]
    unknown = Hypothesis(candidate=None, origin=Origin(kind=UNKNOWN), prior=belief("prior", "unknown"))
    proposed.append((unknown, unknown_density(stray) * unknown_looks(stray)))
    total = sum(hypothesis.prior * density for hypothesis, density in proposed)
    shared = [replace(hypothesis, share=hypothesis.prior * density / total) for hypothesis, density in proposed]
    return tuple(sorted(shared, key=lambda hypothesis: -hypothesis.share))


def proposals(stray: Stray, bench: Bench) -> Iterator[Hypothesis]:
    """Every hypothesis but the unknown, with its prior; nothing is measured against yet."""
    home = bench.assembly(stray.home_list) if stray.home_list else None
    lacking_here = home.lacking(stray.entry) if home else ()
    lacking_elsewhere = [lack for assembly in bench.assemblies if assembly is not home for lack in assembly.lacking()]
    yield from _here(stray, bench, home, lacking_here)
    yield from _elsewhere(stray, bench, home, lacking_elsewhere)
    yield from _spares(stray, bench)
    catalogue = standard()
    together = sum(item.weight for item in catalogue)
    for item in catalogue:
        yield Hypothesis(
            candidate=item, origin=Origin(kind=STANDARD), prior=belief("prior", STANDARD) * item.weight / together
        )
    yield from _substitutes(stray, bench, home, [*lacking_here, *lacking_elsewhere])
    yield from _pieces(stray, bench)


def _here(stray: Stray, bench: Bench, home: Assembly | None, lacking: tuple[Lacking, ...]) -> Iterator[Hypothesis]:
    factor = 1.0
    if bench.built == "new" and {"used", "worn"} & set(stray.conditions):
        factor = belief("factor", "used look in a new build")
    if bench.built == "old" and "new" in stray.conditions:
        factor = belief("factor", "new look in an old build")
    for lack in lacking:
        part = home.reference.part(lack.part)
        origin = Origin(kind=HERE, reference=lack.reference, place=lack.place, part=lack.part)
        yield Hypothesis(
            candidate=of_part(part, lack.reference), origin=origin, prior=belief("prior", HERE) * factor / len(lacking)
        )


def _elsewhere(stray: Stray, bench: Bench, home: Assembly | None, lacking: list[Lacking]) -> Iterator[Hypothesis]:
    weighed = [(lack, belief("factor", "opened now"), True) for lack in lacking]
    for assembly in bench.assemblies:
        weight = belief("factor", "not compared")
        weight *= belief("factor", "found in that assembly") if assembly is home else 1.0
        reference = assembly.reference
        open_places = [
            place for place in reference.places if not assembly.was_compared or place.name in assembly.unreached
        ]
        first = {place.part: place.name for place in reversed(open_places) if can_lie_loose(reference.part(place.part))}
        weighed += [
            (Lacking(reference=assembly.id, place=place, part=part), weight, False)
            for part, place in reversed(first.items())
        ]
    together = max(1.0, sum(weight for _, weight, _ in weighed))
    for lack, weight, was_compared in weighed:
        part = bench.assembly(lack.reference).reference.part(lack.part)
        origin = Origin(
            kind=ELSEWHERE, reference=lack.reference, place=lack.place, part=lack.part, compared=was_compared
        )
        yield Hypothesis(
            candidate=of_part(part, lack.reference), origin=origin, prior=belief("prior", ELSEWHERE) * weight / together
        )


def _spares(stray: Stray, bench: Bench) -> Iterator[Hypothesis]:
    all_parts = [
        (assembly, candidate) for assembly in bench.assemblies for candidate in of_reference(assembly.reference)
    ]
    for assembly, candidate in all_parts:
        prior = belief("prior", SPARE) / len(all_parts)
        prior *= belief("factor", "verified assembly") if assembly.agrees else 1.0
        prior *= belief("factor", "looks new") if "new" in stray.conditions else 1.0
        place = assembly.reference.places_of(candidate.part)
        if place:
            origin = Origin(kind=SPARE, reference=assembly.id, place=place[0].name, part=candidate.part)
            yield Hypothesis(candidate=candidate, origin=origin, prior=prior)


def _substitutes(stray: Stray, bench: Bench, home: Assembly | None, lacking: list[Lacking]) -> Iterator[Hypothesis]:
    for lack in lacking:
        assembly = bench.assembly(lack.reference)
        genuine = of_part(assembly.reference.part(lack.part), lack.reference)
        room = _room(genuine)
        if room is None:
            continue
        there = assembly is home and assembly.stands_at(stray.entry, lack.place)
        prior = (
            belief("prior", SUBSTITUTE) / len(lacking) * (belief("factor", "substitute where found") if there else 1.0)
        )
        origin = Origin(kind=SUBSTITUTE, reference=lack.reference, place=lack.place, part=lack.part)
        suiting = [item for item in standard() if _goes_into(item, room) and item.object != genuine.object]
        together = sum(item.weight for item in suiting)
        for item in suiting:
            share = belief("share", "substitute standard") * item.weight / together
            yield Hypothesis(candidate=item, origin=origin, prior=prior * share)
        yield Hypothesis(candidate=room, origin=origin, prior=prior * (1 - belief("share", "substitute standard")))


def _room(genuine: Candidate) -> Candidate | None:
    """What could stand in for a part: it passes over the same shaft and goes into the same room, roughly."""
    limits = []
    for size in genuine.sizes:
        if size.name == "bore":
            limits.append(Limits("bore", size.low_mm, size.low_mm * (1 + belief("substitute room", "bore"))))
        elif size.name in ("outside", "length"):
            room = belief("substitute room", size.name)
            limits.append(Limits(size.name, size.low_mm * (1 - room), size.high_mm * (1 + room)))
    if not limits:
        return None
    name = f"something made or altered to stand in for the {genuine.name}"
    return Candidate(kind=genuine.kind, name=name, source="made", sizes=tuple(limits), parent=genuine.name)


def _goes_into(item: Candidate, room: Candidate) -> bool:
    for limits in room.sizes:
        own = item.size(limits.name)
        if own is None or own.high_mm < limits.low_mm or own.low_mm > limits.high_mm:
            return False
    return True


@cache
def _standard_rings() -> tuple[Candidate, ...]:
    return pieces(standard())


def _pieces(stray: Stray, bench: Bench) -> Iterator[Hypothesis]:
    share = belief("share", "piece of a part")
    parts = [candidate for assembly in bench.assemblies for candidate in of_reference(assembly.reference)]
    own, others = pieces(parts), _standard_rings()
    of_own = belief("share", "piece of this machine") if own else 0.0
    weights = [(ring, of_own / len(own)) for ring in own]
    together = sum(ring.weight for ring in others)
    for ring, weight in [*weights, *((ring, (1 - of_own) * ring.weight / together) for ring in others)]:
        prior = belief("prior", PIECE) * share * weight
        prior *= belief("factor", "piece where found") if ring.reference and ring.reference == stray.home_list else 1.0
        origin = Origin(kind=PIECE, reference=ring.reference, part=ring.part, parent=ring.parent)
        yield Hypothesis(candidate=ring, origin=origin, prior=prior)
    items = shop()
    for item in items:
        yield Hypothesis(
            candidate=item,
            origin=Origin(kind=PIECE, parent=item.name),
            prior=belief("prior", PIECE) * (1 - share) / len(items),
        )
