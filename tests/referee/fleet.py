"""Slips planted on the shipped references: whether the witness rebuilds each answer, and whether any is dearer than planted.

    python -m tests.referee.fleet --trials 1000 --seed 1
    python -m tests.referee.fleet --trials 1000 --seed 1 --far-apart

The references, with their variants, have 10 to 20 places, too many for the referee; what was planted is an upper bound of the
least price. Slips planted far apart, one of them at a spot and nothing doubtful, must come out as they were planted.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from random import Random

from stackcheck.compare import explanations, replay, same_arrangement
from stackcheck.compare.listed import is_what_was_found
from stackcheck.formats.library import Library
from stackcheck.model.found import Entry, Found
from stackcheck.model.reference import Reference
from stackcheck.value import replace
from tests.referee.cases import OTHER_WAY, Unfit, random_list
from tests.strategies import LIBRARY, ROOT


def fleet() -> list[tuple[str, Reference]]:
    """Every shipped reference, and every variant of those that have some."""
    folders = (LIBRARY, ROOT / "examples" / "generations")
    named = [
        (f"{file.parent.name}/{file.stem}", Library(folder).reference(f"{file.parent.name}/{file.stem}"))
        for folder in folders for file in sorted(folder.glob("*/*.toml")) if file.stem != "machine"
    ]  # fmt: skip
    variants = [
        (f"{name}, {variant.name}", variant.as_reference) for name, whole in named for variant in whole.variants
    ]
    return named + variants


def trials(seed: int, number: int, *, first: int = 0) -> Iterator[tuple[str, Reference, Found, int]]:
    """One to four slips on each reference of the fleet in turn."""
    references = fleet()
    for trial in range(first, number):
        rng = Random(f"{seed}/{trial}")
        name, reference = references[trial % len(references)]
        try:
            yield (
                f"{seed}/{trial} {name}",
                reference,
                *random_list(rng, reference, mistakes=rng.choice((1, 2, 2, 3, 3, 4))),
            )
        except Unfit:
            continue


Told = tuple[str, tuple[str, ...]]
"""A kind of finding, and the parts of the places that it names."""


def far_apart(rng: Random, reference: Reference) -> tuple[Found, list[Told]]:
    """A list in which slips stand three parts apart or more, everything certain, and what must be told of it."""
    line = [reference.place(name) for name in reference.line if not reference.part_at(name).fixed]
    stood: list[Entry | None] = [
        Entry(number=0, what="thing", end=0, part=p.part, count=p.count, toward=p.facing) for p in line
    ]
    planted: list[Told] = []
    beside = {pair for stack in reference.stacks for pair in pairwise(stack.places)}
    at, spots = rng.randint(0, 2), []
    while at < len(line) - 1 and len(spots) < 4:
        spots.append(at)
        at += rng.randint(5, 8)
    for at in reversed(spots):
        place, behind = line[at], line[at + 1]
        ways = ["extra"]
        if place.count == 1 and not place.may_be_absent:
            ways += ["missing"] + ["turned_round"] * bool(place.facing)
            plain = not place.facing and not behind.facing and behind.count == 1 and not behind.may_be_absent
            alone = (
                len(reference.places_of(place.part)) == len(reference.places_of(behind.part)) == 1
            )  # else it may be no difference
            ways += ["swapped"] * (plain and alone and (place.name, behind.name) in beside)
        kind = rng.choice(ways)
        parts = (place.part, behind.part) if kind == "swapped" else () if kind == "extra" else (place.part,)
        planted.append((kind, tuple(sorted(parts))))
        if kind == "missing":
            stood[at] = None
        elif kind == "turned_round":
            stood[at] = replace(stood[at], toward=OTHER_WAY[place.facing])
        elif kind == "swapped":
            stood[at], stood[at + 1] = stood[at + 1], stood[at]
        else:
            stood.insert(at, Entry(number=0, what="stray", end=0, kind="pin", marked="X-1"))
    entries = [replace(entry, number=number) for number, entry in enumerate([e for e in stood if e is not None], 1)]
    return Found(reference=reference.id, revision=reference.revision, entries=tuple(entries), finished=True), sorted(
        planted
    )


def recovered(reference: Reference, found: Found, planted: list[Told]) -> Iterator[str]:
    (least, *_) = explanations(reference, found)
    told = sorted((f.kind, tuple(sorted(reference.place(place).part for place in f.places))) for f in least.findings)
    if told != planted:
        yield f"planted {planted}, told {told} at {least.price}"
    if not least.proved_least:
        yield "not proved least"


def judged(reference: Reference, found: Found, planted: int) -> Iterator[str]:
    """What is to be said of the answers to one list."""
    told = explanations(reference, found)
    for explanation in told:
        rebuilt = replay(reference, explanation, found)
        if not is_what_was_found(explanation, found) or not same_arrangement(reference, rebuilt, explanation.line):
            yield "not confirmed by the witness"
            break
    if told[0].price > planted:
        yield "dearer than planted"
    if not told[0].proved_least:
        yield "not proved least"


def main() -> int:
    parser = argparse.ArgumentParser(description="Plant slips on the shipped references and look at the answers.")
    parser.add_argument("--trials", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--from", type=int, default=0, dest="first", help="begin with this trial")
    parser.add_argument(
        "--far-apart", action="store_true", help="one slip at a spot, nothing doubtful: told as planted?"
    )
    asked = parser.parse_args()
    counted: Counter[str] = Counter()
    for name, verdicts in _tried(asked):
        counted["lists"] += 1
        for verdict in verdicts:
            counted[verdict.partition(",")[0].partition(" [")[0]] += 1
            if verdict != "not proved least":
                print(f"{name}: {verdict}", flush=True)
    print("\n".join(f"{count:6}  {what}" for what, count in counted.items()))
    return int(any(verdict.startswith("not confirmed") for verdict in counted))


def _tried(asked: argparse.Namespace) -> Iterator[tuple[str, list[str]]]:
    if not asked.far_apart:
        for name, reference, found, planted in trials(asked.seed, asked.trials, first=asked.first):
            yield name, list(judged(reference, found, planted))
        return
    references = fleet()
    for trial in range(asked.first, asked.trials):
        name, reference = references[trial % len(references)]
        yield (
            f"{asked.seed}/{trial} {name}",
            list(recovered(reference, *far_apart(Random(f"{asked.seed}/{trial}"), reference))),
        )


if __name__ == "__main__":
    raise SystemExit(main())
