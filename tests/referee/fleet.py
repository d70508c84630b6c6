"""Slips planted on the shipped references: whether the witness rebuilds each answer, and whether any is dearer than planted.

    python -m tests.referee.fleet --trials 1000 --seed 1

The references have 10 to 20 places, too many for the referee; what was planted is an upper bound of the least price.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator
from random import Random

from stackcheck.compare import explanations, replay, same_arrangement
from stackcheck.compare.listed import is_what_was_found
from stackcheck.formats.library import Library
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from tests.referee.cases import Unfit, random_list
from tests.strategies import LIBRARY


def trials(seed: int, number: int) -> Iterator[tuple[str, Reference, Found, int]]:
    """Two or three slips on each reference of the fleet in turn."""
    library = Library(LIBRARY)
    names = [f"{file.parent.name}/{file.stem}" for file in sorted(LIBRARY.glob("*/*.toml")) if file.stem != "machine"]
    references = [library.reference(name) for name in names]
    for trial in range(number):
        rng = Random(f"{seed}/{trial}")
        reference = references[trial % len(references)]
        try:
            yield f"{seed}/{trial} {names[trial % len(names)]}", reference, *random_list(rng, reference, mistakes=rng.choice((2, 3)))
        except Unfit:
            continue


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
    asked = parser.parse_args()
    counted: Counter[str] = Counter()
    for name, reference, found, planted in trials(asked.seed, asked.trials):
        counted["lists"] += 1
        for verdict in judged(reference, found, planted):
            counted[verdict] += 1
            if verdict != "not proved least":
                print(f"{name}: {verdict}", flush=True)
    print("\n".join(f"{count:6}  {what}" for what, count in counted.items()))
    return int(any(verdict.startswith("not confirmed") for verdict in counted))


if __name__ == "__main__":
    raise SystemExit(main())
