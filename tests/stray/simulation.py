"""Strays of known truth, thrown at the scorer: how often is it wrong, and how often does it say that it does not know?

    python -m tests.stray.simulation --cases 2000 --seed 1

Wear, tails and reading errors are drawn from other families than the scorer believes in: wear from a gamma or half-normal
law with its own mean, sizes crowded to the middle or an edge of their limits, offsets uniform and shared by all sizes of
one tool, handling with heavy tails. Beside it stands the usual way: whatever is nearest in nominal size.
"""

from __future__ import annotations

import argparse
import random
from collections import Counter
from dataclasses import dataclass, field
from functools import cache
from math import exp, log
from pathlib import Path

from stackcheck.formats.library import Library
from stackcheck.model.finding import Explanation, Missing
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.stray.bench import Assembly, Bench
from stackcheck.stray.candidates import Candidate, of_part, of_reference, pieces, standard
from stackcheck.stray.decide import IDENTIFIED, SHORTLIST, UNKNOWN, Decision, identity, origin
from stackcheck.stray.hypotheses import HERE, SUBSTITUTE, hypotheses
from stackcheck.stray.likelihood import magnet_holds
from stackcheck.stray.seen import Stray, Taken
from stackcheck.units.instruments import INSTRUMENTS, standard_uncertainty
from stackcheck.value import replace

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
TOOL_SETS = {
    "calliper 0.1": ("calliper 0.1", "calliper 0.1", "calliper 0.1"),
    "calliper 0.05": ("calliper 0.05", "calliper 0.05", "calliper 0.05"),
    "calliper": ("calliper", "calliper", "calliper"),
    "micrometer and calliper": ("calliper", "micrometer", "micrometer"),
    "micrometer and pins": ("pin gauge", "micrometer", "micrometer"),
}
"""Tools for bore, outside and length."""
TRUTHS = {
    "here": 0.3,
    "elsewhere": 0.15,
    "spare": 0.1,
    "standard": 0.15,
    "substitute": 0.08,
    "piece": 0.07,
    "nothing known": 0.1,
    "near miss": 0.08,
}
"""Where strays come from. A near miss is a known part with one size made otherwise: it stands in no list either."""
NAMES_OF_FAMILY = {"washer": "shim ring", "shim ring": "washer", "collar": "spacer tube", "spacer tube": "collar"}


@dataclass
class Case:
    """One stray with its truth; `truth` None is a thing that stands in no list."""

    stray: Stray
    bench: Bench
    truth: Candidate | None
    origin: str
    place: tuple[str, str] = ("", "")


@dataclass
class Table:
    """Counts over many cases."""

    count: Counter = field(default_factory=Counter)

    def share(self, part: str, whole: str) -> float:
        return self.count[part] / self.count[whole] if self.count[whole] else 0.0

    @property
    def wrong_among_identified(self) -> float:
        return self.share("identified wrong", "identified")

    @property
    def known_called_unknown(self) -> float:
        return self.share("known called unknown", "known")

    @property
    def unknown_identified(self) -> float:
        return self.share("unknown identified", "true unknown")

    @property
    def shortlists_with_truth(self) -> float:
        return self.share("shortlist with truth", "shortlist of known")


@cache
def machines() -> dict[str, tuple[Reference, ...]]:
    found: dict[str, list[Reference]] = {}
    for id in LIBRARY.files:
        found.setdefault(id.partition("/")[0], []).append(LIBRARY.reference(id))
    return {machine: tuple(references) for machine, references in found.items()}


def cases(count: int, seed: int) -> list[Case]:
    dice = random.Random(seed)
    return [case(dice) for _ in range(count)]


def case(dice: random.Random) -> Case:
    while True:
        references = dice.choice(list(machines().values()))
        truth = dice.choices(list(TRUTHS), list(TRUTHS.values()))[0]
        made = _case(dice, references, truth)
        if made is not None:
            return made


def _case(dice: random.Random, references: tuple[Reference, ...], truth: str) -> Case | None:
    home = dice.choice(references)
    lacking: dict[str, list[str]] = {reference.id: [] for reference in references}
    here = dice.choice(_places(home))
    lacking[home.id].append(here)
    others = [reference for reference in references if reference is not home]
    looked = {home.id} | {reference.id for reference in others if dice.random() < 0.5}
    there = ("", "")
    if truth == "elsewhere":
        if not others:
            return None
        other = dice.choice(others)
        there = (other.id, dice.choice(_places(other)))
        if other.id in looked:
            lacking[other.id].append(there[1])
    if dice.random() < 0.3:
        lacking[home.id].append(dice.choice(_places(home)))
    bench = Bench(
        assemblies=tuple(
            _assembly(reference, lacking[reference.id], reference.id in looked) for reference in references
        )
    )
    own = _truth(dice, bench, home, here, truth, there)
    if own is None and truth != "nothing known":
        return None
    if truth == "near miss":
        own = _made_otherwise(dice, own)
        if own is None or _is_listed(own, bench):
            return None
        stray = measured(dice, own, home.id)
        return Case(stray=stray, bench=bench, truth=None, origin=truth) if stray else None
    place = {"here": (home.id, here), "substitute": (home.id, here), "elsewhere": there}.get(truth, ("", ""))
    stray = measured(dice, own, home.id)
    return Case(stray=stray, bench=bench, truth=own, origin=truth, place=place) if stray else None


@cache
def _places(reference: Reference) -> tuple[str, ...]:
    return tuple(
        place.name for place in reference.places
        if not reference.part(place.part).fixed and len(of_part(reference.part(place.part), "").sizes) >= 2
    )  # fmt: skip


def _assembly(reference: Reference, lacking: list[str], looked_at: bool) -> Assembly:
    if not looked_at:
        return Assembly(reference=reference)
    findings = tuple(Missing(places=(place,)) for place in dict.fromkeys(lacking))
    found = Found(reference=reference.id, revision=reference.revision, entries=())
    return Assembly(
        reference=reference, found=found, explanation=Explanation(findings=findings, notes=(), line=(), price=0)
    )


def _truth(
    dice: random.Random, bench: Bench, home: Reference, here: str, truth: str, there: tuple[str, str]
) -> Candidate | None:
    if truth == "here":
        return of_part(home.part_at(here), home.id)
    if truth == "elsewhere":
        return of_part(bench.assembly(there[0]).reference.part_at(there[1]), there[0])
    catalogue = [item for item in standard() if len(item.sizes) >= 2]
    if truth == "standard":
        return dice.choices(catalogue, [item.weight for item in catalogue])[0]
    if truth == "substitute":
        own = of_part(home.part_at(here), home.id)
        suiting = [item for item in catalogue if _suits(item, own)]
        return dice.choice(suiting) if suiting else None
    parts = [part for assembly in bench.assemblies for part in of_reference(assembly.reference)]
    if truth == "piece":
        rings = pieces(parts)
        return dice.choice(rings) if rings else None
    if truth in ("spare", "near miss"):
        return dice.choice([part for part in parts if len(part.sizes) >= 2])
    return None


@cache
def _standard_rings() -> tuple[Candidate, ...]:
    return pieces(standard())


def _is_listed(own: Candidate, bench: Bench) -> bool:
    """Whether a listed part may have all these sizes: to every instrument it then is that part."""
    parts = [part for assembly in bench.assemblies for part in of_reference(assembly.reference)]
    for listed in (*parts, *standard(), *pieces(parts), *_standard_rings()):
        pairs = [(listed.size(limits.name), limits) for limits in own.sizes]
        if all(other and limits.high_mm > other.low_mm and limits.low_mm < other.high_mm for other, limits in pairs):
            return True
    return False


def _made_otherwise(dice: random.Random, own: Candidate) -> Candidate | None:
    """The part with one size off by 3 to 20 in a hundred, and by half a millimetre at least."""
    changed = dice.choice(own.sizes)
    off = max(0.5, dice.uniform(0.03, 0.2) * changed.low_mm) * dice.choice((-1, 1))
    sizes = tuple(
        replace(limits, low_mm=limits.low_mm + off, high_mm=limits.high_mm + off) if limits is changed else limits
        for limits in own.sizes
    )
    return replace(own, sizes=sizes) if all(limits.low_mm > 0.2 for limits in sizes) else None


def _suits(item: Candidate, own: Candidate) -> bool:
    bore, wanted = item.size("bore"), own.size("bore")
    outside, room = item.size("outside"), own.size("outside")
    length, whole = item.size("length"), own.size("length")
    if None in (bore, wanted, outside, room, length, whole) or not 0.3 <= length.low_mm / whole.low_mm <= 1.7:
        return False
    return (
        wanted.low_mm <= bore.low_mm <= 1.12 * wanted.low_mm
        and 0.75 * room.low_mm <= outside.low_mm <= 1.25 * room.high_mm
    )


def measured(dice: random.Random, truth: Candidate | None, home: str) -> Stray | None:
    """A true part as somebody measures and looks at it; None where no size could be read."""
    condition = dice.choices(("new", "used", "worn", "painted", "dirty"), (0.2, 0.5, 0.15, 0.08, 0.07))[0]
    scale = {"new": 0.0005, "used": 0.018, "worn": 0.07, "painted": 0.015, "dirty": 0.018}[condition] * dice.uniform(
        0.5, 1.5
    )
    coat = {"painted": dice.uniform(0.03, 0.11), "dirty": dice.uniform(0.0, 0.06)}.get(condition, 0.0)
    sizes = _true_sizes(dice, truth)
    tools = dict(zip(("bore", "outside", "length"), TOOL_SETS[dice.choice(list(TOOL_SETS))]))
    offsets = {tool: dice.uniform(-1, 1) for tool in set(tools.values())}
    taken = []
    for name, true in sizes.items():
        wear = scale * (dice.gammavariate(2, 0.5) if dice.random() < 0.5 else abs(dice.gauss(0, 1.25)))
        wear *= {"bore": 1.0, "length": 1.0}.get(name, 0.45) * (4 if dice.random() < 0.03 else 1)
        true = true + wear - coat if name == "bore" else true - wear + coat
        reading = _read(dice, name, true, tools.get(name, tools["outside"]), offsets)
        if reading:
            taken.append(reading)
    if len(taken) < 2:
        return None
    said = (condition,) if condition in ("painted", "worn", "new") or dice.random() < 0.6 else ()
    return Stray(
        what="it", kind=_kind(dice, truth), taken=tuple(taken), conditions=said, home_list=home,
        magnetic=_magnet(dice, truth) if dice.random() < 0.3 else None,
        features=_features(dice, truth) if condition != "painted" else (),
    )  # fmt: skip


def _true_sizes(dice: random.Random, truth: Candidate | None) -> dict[str, float]:
    if truth is None:
        bore = exp(dice.uniform(log(6), log(60)))
        return {"bore": bore, "outside": bore * dice.uniform(1.15, 2.2), "length": exp(dice.uniform(log(0.4), log(30)))}
    law = dice.choice(("even", "middle", "edge"))
    sizes: dict[str, float] = {}
    for limits in truth.sizes:
        where = {"even": dice.random(), "middle": dice.betavariate(4, 4), "edge": dice.betavariate(0.6, 0.6)}[law]
        sizes[limits.name] = limits.low_mm + where * (limits.high_mm - limits.low_mm)
    return sizes


def _read(dice: random.Random, name: str, true: float, tool: str, offsets: dict[str, float]) -> Taken | None:
    own, inside = INSTRUMENTS[tool], name == "bore"
    step = 0.01 if tool == "micrometer" else own.resolution_mm
    limit = own.error_inside_mm if inside else own.error_outside_mm
    handling = (
        own.feel_mm * dice.gauss(0, 1) / (dice.gammavariate(2.5, 1) / 2.5) ** 0.5
    )  # Student t, 5 degrees of freedom
    value = round((true + offsets.get(tool, 0.0) * limit + handling) / step) * step
    if value < step / 2:
        return None
    return Taken(
        name=name, text="", value_mm=value, u_mm=standard_uncertainty(own, step_mm=step, inside=inside), how=tool
    )


def _kind(dice: random.Random, truth: Candidate | None) -> str:
    if truth is None:
        return dice.choice(("washer", "ring", "collar", "spacer tube", "shim ring", ""))
    if dice.random() < 0.1:
        return ""
    return NAMES_OF_FAMILY.get(truth.kind, truth.kind) if dice.random() < 0.1 else truth.kind


def _magnet(dice: random.Random, truth: Candidate | None) -> bool:
    return dice.random() < (0.5 if truth is None else magnet_holds(truth))


def _features(dice: random.Random, truth: Candidate | None) -> tuple[tuple[str, bool], ...]:
    if truth is None or dice.random() < 0.6:
        return ()
    return tuple((name, there if dice.random() < 0.98 else not there) for name, there in truth.features)


def run(cases: list[Case], *, blur: float = 1.0) -> tuple[Table, list[str]]:
    """The table of the scorer, and its verdicts one by one; `blur` multiplies every uncertainty."""
    table, verdicts = Table(), []
    for one in cases:
        stray = one.stray
        if blur != 1.0:
            stray = replace(stray, taken=tuple(replace(taken, u_mm=taken.u_mm * blur) for taken in stray.taken))
        shares = hypotheses(stray, one.bench)
        what, why = identity(stray, shares), origin(stray, shares)
        _count(table, one, what.verdict, [_holds(answer.members, one.truth) for answer in what.named])
        _count_origin(table, one, why)
        verdicts.append(what.verdict)
    return table, verdicts


def baseline(cases: list[Case]) -> Table:
    """Whatever is nearest in nominal size, the middle of the limits; it never says that it does not know."""
    table = Table()
    for one in cases:
        parts = [part for assembly in one.bench.assemblies for part in of_reference(assembly.reference)]
        best = min((*parts, *standard(), *pieces(parts)), key=lambda candidate: _distance(one.stray, candidate))
        _count(table, one, IDENTIFIED, [_holds((best,), one.truth)])
    return table


def _distance(stray: Stray, candidate: Candidate) -> float:
    total = 0.0
    for taken in stray.taken:
        limits = candidate.size(taken.name)
        total += 100.0 if limits is None else abs(taken.value_mm - (limits.low_mm + limits.high_mm) / 2)
    return total


def _holds(members: tuple[Candidate, ...], truth: Candidate | None) -> bool:
    return truth is not None and any(member.object == truth.object or member.name == truth.name for member in members)


def _count(table: Table, one: Case, verdict: str, right: list[bool]) -> None:
    known = one.truth is not None
    table.count["known" if known else "true unknown"] += 1
    table.count[verdict] += 1
    if verdict == IDENTIFIED:
        table.count["identified wrong"] += not right[0]
        table.count["unknown identified"] += not known
    elif verdict == SHORTLIST and known:
        table.count["shortlist of known"] += 1
        table.count["shortlist with truth"] += any(right)
    elif verdict == UNKNOWN:
        table.count["known called unknown"] += known


def _count_origin(table: Table, one: Case, why: Decision) -> None:
    if why.verdict != IDENTIFIED:
        return
    own = why.named[0].origin
    table.count["origin identified"] += 1
    kinds = {"here": (HERE,), "substitute": (SUBSTITUTE,), "elsewhere": ("elsewhere",)}.get(one.origin, (one.origin,))
    reference, place = one.place
    right = own.kind in kinds and (not place or own.reference == reference)
    table.count["origin wrong"] += not right
    table.count[f"origin wrong, truth {one.origin}, said {own.kind}"] += not right


ROWS = (
    ("wrong among identified", "wrong_among_identified"),
    ("known called unknown", "known_called_unknown"),
    ("true unknowns identified", "unknown_identified"),
    ("shortlists with the truth inside", "shortlists_with_truth"),
)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--cases", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    thrown = cases(options.cases, options.seed)
    scorer, sharp = run(thrown)
    blurred, dull = run(thrown, blur=2.0)
    nearest = baseline(thrown)
    print(f"| {options.cases} strays, seed {options.seed} | stackcheck | uncertainties doubled | nearest size |")
    print("|---|---|---|---|")
    for words, name in ROWS:
        print(
            f"| {words} | "
            + " | ".join(f"{100 * getattr(table, name):.1f} %" for table in (scorer, blurred, nearest))
            + " |"
        )
    for name in (IDENTIFIED, SHORTLIST, UNKNOWN):
        print(f"| {name} | " + " | ".join(str(table.count[name]) for table in (scorer, blurred, nearest)) + " |")
    turned = sum(a == SHORTLIST and b == IDENTIFIED for a, b in zip(sharp, dull))
    print(f"shortlist to identified when doubled: {turned}")
    print({name: count for name, count in sorted(scorer.count.items()) if "origin" in name and count})


if __name__ == "__main__":
    main()
