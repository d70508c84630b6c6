"""How many verdicts turn when one prior is halved or doubled: in the stories of `examples/strays`, and in simulated strays.

    python -m tests.stray.sensitivity --cases 1000 --seed 1

The priors are judgement, so the sizes must decide. A prior enters every hypothesis of its origin as a factor, so one
scoring serves all: the shares of that origin are multiplied, the whole is made one again, and both decisions are taken
anew.
"""

from __future__ import annotations

import argparse
import tomllib
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import NamedTuple

from stackcheck.cli import _parser
from stackcheck.commands import stray as command
from stackcheck.stray.beliefs import beliefs
from stackcheck.stray.bench import Bench
from stackcheck.stray.decide import IDENTIFIED, Decision, identity, origin
from stackcheck.stray.hypotheses import Hypothesis, hypotheses
from stackcheck.stray.seen import Stray
from stackcheck.value import replace
from tests.stray.simulation import cases

ROOT = Path(__file__).parents[2]
FACTORS = (0.5, 2.0)


class Turned(NamedTuple):
    """Counts over many strays: verdict on the object or on the origin, and objects identified as another thing."""

    objects: int
    origins: int
    other_thing: int


Scored = tuple[Stray, tuple[Hypothesis, ...], Decision, Decision]
"""A stray, the shares of what it may be, and both decisions as the priors stand."""


def stories() -> list[tuple[Stray, Bench]]:
    """What the commands of the stories explain; run in the root of the project."""
    found = []
    for path in sorted((ROOT / "examples/strays").glob("*.toml")):
        options = _parser().parse_args(["explain", *tomllib.loads(path.read_text(encoding="utf-8"))["command"]])
        stray, bench, _ = command._listed_stray(options) if options.machine is None else command._typed_stray(options)
        found.append((stray, bench))
    return found


def scored(strays: Iterable[tuple[Stray, Bench]]) -> list[Scored]:
    shares = ((stray, hypotheses(stray, bench)) for stray, bench in strays)
    return [(stray, of_it, identity(stray, of_it), origin(stray, of_it)) for stray, of_it in shares]


def reweighed(shares: tuple[Hypothesis, ...], prior: str, factor: float) -> tuple[Hypothesis, ...]:
    """The shares as they would be with one prior so many times as large."""
    changed = [replace(each, share=each.share * factor) if each.origin.kind == prior else each for each in shares]
    total = sum(each.share for each in changed)
    return tuple(sorted((replace(each, share=each.share / total) for each in changed), key=lambda each: -each.share))


def turned(all_scored: list[Scored], prior: str, factor: float) -> Turned:
    objects = origins = other = 0
    for stray, shares, before, why in all_scored:
        then = reweighed(shares, prior, factor)
        after = identity(stray, then)
        objects += before.verdict != after.verdict
        other += (
            _identified(before) is not None
            and _identified(after) is not None
            and _identified(before) != _identified(after)
        )
        origins += why.verdict != origin(stray, then).verdict
    return Turned(objects, origins, other)


def _identified(decision: Decision) -> tuple | None:
    return decision.named[0].members[0].object if decision.verdict == IDENTIFIED else None


def table(count: int, seed: int, tell: Callable[[str], None] = print) -> None:
    told, thrown = scored(stories()), scored((case.stray, case.bench) for case in cases(count, seed))
    tell(
        f"| prior | value | {len(told)} stories: object, origin, halved | doubled | {count} simulated: object, origin, halved | doubled |"
    )
    tell("|---|---|---|---|---|---|")
    another = 0
    for prior, value in beliefs("prior").items():
        cells = []
        for strays in (told, thrown):
            for factor in FACTORS:
                counts = turned(strays, prior, factor)
                another += counts.other_thing
                cells.append(f"{counts.objects}, {counts.origins}")
        tell(f"| {prior} | {value:g} | {' | '.join(cells)} |")
    tell(f"identified as another thing: {another}")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    table(options.cases, options.seed)
