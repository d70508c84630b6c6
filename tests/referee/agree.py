"""The engine against the referee on random cases: how often they agree, and the first cases where they do not.

    python -m tests.referee.agree --cases 20000 --seed 1
    python -m tests.referee.agree --cases 5000 --seed 33 --harder

Every case has its own seed, so that one case can be shown again: --case 1234.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from random import Random

from stackcheck.compare import explanations
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Entry, Found
from stackcheck.model.reference import Reference
from tests.referee import Account, least_account
from tests.referee.cases import random_case
from tests.referee.references import HARDER, ORDINARY, Mixture

MISTAKES = (0, 1, 1, 2, 2, 3)


@dataclass(frozen=True, kw_only=True)
class Judged:
    """One case, with the referee's account of it and the engine's."""

    seed: str
    places: int
    mistakes: int
    reference: Reference
    found: Found
    planted: int
    referee: Account
    engine: Explanation

    @property
    def agrees(self) -> bool:
        return self.engine.price == self.referee.price

    @property
    def within_its_bound(self) -> bool:
        return self.engine.bound <= self.referee.price <= self.engine.price


def judge(seed: int, number: int, *, mistakes: int | None = None, mixture: Mixture = ORDINARY) -> Judged:
    """One case of a seed; as many mistakes as its luck has it unless `mistakes` says how many."""
    rng = Random(f"{seed}/{number}")
    places, lucky = rng.randint(2, 8), rng.choice(MISTAKES)
    mistakes = lucky if mistakes is None else mistakes
    reference, found, planted = random_case(rng, places=places, mistakes=mistakes, mixture=mixture)
    return Judged(
        seed=f"--seed {seed} --case {number}{' --harder' * (mixture is HARDER)}",
        places=places,
        mistakes=mistakes,
        reference=reference,
        found=found,
        planted=planted,
        referee=least_account(reference, found),
        engine=explanations(reference, found)[0],
    )


def reference_text(reference: Reference) -> Iterator[str]:
    for stack in reference.stacks:
        yield f"{stack.name}: {' '.join(_place(reference, name) for name in stack.places)}"
    for part in reference.parts:
        said = [
            f"number {part.number}" if part.number else "",
            f"accepts {' '.join(part.accepts)}" if part.accepts else "",
        ]
        said += [f"{name} {size.nominal_mm} ({size.least_mm}..{size.most_mm})" for name, size in part.sizes]
        if any(said):
            yield f"  {part.id}: {', '.join(filter(None, said))}"
    for unit in reference.units:
        yield f"  unit {unit.id}: {' '.join(unit.members)}"


def _place(reference: Reference, name: str) -> str:
    place = reference.place(name)
    text = name + "!" * reference.part_at(name).fixed + {"first": "<", "second": ">", "": ""}[place.facing]
    return text + (f"*{place.count}" if place.count > 1 else "") + ("?" if place.may_be_absent else "")


def found_text(found: Found) -> Iterator[str]:
    yield "finished" if found.finished else "not finished"
    for entry in found.entries:
        yield f"  {_entry(entry)}"


def _entry(entry: Entry) -> str:
    end = {0: "first", 1: "second", None: "end unknown"}[entry.end]
    said = [entry.part or "?", "" if entry.sure else "(guess)", f"kind {entry.kind}" if entry.kind else ""]
    said += [f"marked {entry.marked}" if entry.marked else "", f"toward {entry.toward}" if entry.toward else ""]
    said += [f"*{entry.count}" if entry.count > 1 else "", f"tag {entry.tag}" if entry.tag else "", entry.place_seen]
    said += [f"{name} {r.value_mm} ± {r.good_to_mm} {r.how}" for name, r in entry.sizes]
    return f"{entry.number}. {end}: {' '.join(filter(None, said))}"


def judged_text(judged: Judged) -> Iterator[str]:
    yield f"{judged.seed}: {judged.places} places, {judged.mistakes} mistakes, planted at {judged.planted}"
    yield from reference_text(judged.reference)
    yield from found_text(judged.found)
    yield f"referee {judged.referee.price}: {'; '.join(judged.referee.words)}"
    yield f"engine  {judged.engine.price}: {'; '.join(map(_finding, (*judged.engine.findings, *judged.engine.notes)))}"
    if not judged.engine.proved_least:
        yield f"        not proved least, nothing costs less than {judged.engine.bound}"


def _finding(finding) -> str:
    return f"{finding.kind} {' '.join(finding.places)} {' '.join(map(str, finding.entries))}".strip()


def main() -> int:
    parser = argparse.ArgumentParser(description="Compare the engine's prices with the referee's on random cases.")
    parser.add_argument("--cases", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--case", type=int, help="judge this case alone and show it")
    parser.add_argument("--mistakes", type=int, help="plant as many in every case")
    parser.add_argument("--show", type=int, default=5, help="how many disagreements to show in full")
    parser.add_argument(
        "--harder", action="store_true", help="more mirror pairs, free places, counted packs and closed units"
    )
    asked = parser.parse_args()
    mixture = HARDER if asked.harder else ORDINARY
    if asked.case is not None:
        print("\n".join(judged_text(judge(asked.seed, asked.case, mistakes=asked.mistakes, mixture=mixture))))
        return 0
    tried, agreed, unproved, shown = Counter(), Counter(), Counter(), 0
    for number in range(asked.cases):
        judged = judge(asked.seed, number, mistakes=asked.mistakes, mixture=mixture)
        cell = judged.places, judged.mistakes
        tried[cell] += 1
        agreed[cell] += judged.agrees
        unproved[judged.agrees] += not judged.engine.proved_least
        if not judged.agrees and shown < asked.show:
            shown += 1
            print("\n".join(judged_text(judged)), end="\n\n", flush=True)
    print("places  mistakes  cases  agree")
    for places, mistakes in sorted(tried):
        cell = places, mistakes
        print(
            f"{places:6}  {mistakes:8}  {tried[cell]:5}  {agreed[cell]:5}{'' if tried[cell] == agreed[cell] else '  <'}"
        )
    print(f"{agreed.total()} of {tried.total()} agree")
    print(f"not proved least: {unproved[True]} of those that agree, {unproved[False]} of the others")
    return 0 if agreed == tried else 1


if __name__ == "__main__":
    raise SystemExit(main())
