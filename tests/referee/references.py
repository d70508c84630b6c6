"""Random small references: one stack or two that meet, with everything in them that makes a comparison doubtful."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from random import Random

from stackcheck.model.reference import Reference
from tests.builders import reference

KINDS = ("washer", "collar", "ring", "plate")


@dataclass(frozen=True, kw_only=True)
class Mixture:
    """How often, from 0 to 1, a reference has what makes a comparison doubtful."""

    equal_parts: float = 0.4
    mirror_pairs: float = 0.0
    fixed: float = 0.3
    faces: float = 0.5
    counted: float = 0.25
    most_counted: int = 1
    may_be_absent: float = 0.1
    one_stack: float = 0.5
    inside_one: float = 0.5  # of two stacks: how often a place that they do not share is of the second
    units: float = 0.0


ORDINARY = Mixture()
HARDER = Mixture(
    equal_parts=0.5,
    mirror_pairs=0.5,
    fixed=0.25,
    faces=0.7,
    counted=0.5,
    most_counted=2,
    may_be_absent=0.2,
    one_stack=0.25,
    units=0.3,
)
"""More pairs that mirror one another, more places that nothing orders, counted packs, units that come off closed."""


def random_reference(rng: Random, places: int, mixture: Mixture = ORDINARY) -> Reference:
    """One stack or two that meet; equal parts, look-alikes, faces, fixed members, accepted numbers, counted groups, units."""
    letters = "abcdefghij"[:places]
    own = {letter: f"{rng.choice(KINDS)}-{letter}" for letter in letters}
    paired = (
        [*zip(letters[: places // 2], reversed(letters))]
        if mixture.mirror_pairs and rng.random() < mixture.mirror_pairs
        else []
    )
    for a, b in paired:
        if rng.random() < 0.6:
            own[b] = own[a]
    if rng.random() < mixture.equal_parts:
        for a, b in combinations(letters, 2):
            if rng.random() < 0.25 and sum(part == own[a] for part in own.values()) < 3:
                own[b] = own[a]
    tokens = {letter: f"{part}@{letter}" for letter, part in own.items()}
    if rng.random() < mixture.fixed:
        fixed = rng.choice((letters[0], letters[-1], rng.choice(letters)))
        tokens[fixed], own[fixed] = f"leg-{fixed}!", f"leg-{fixed}"
    if rng.random() < mixture.faces:
        for letter in letters:
            if "!" not in tokens[letter] and rng.random() < 0.5:
                tokens[letter] += rng.choice("<>")
    for a, b in paired:  # as each end wants it
        if own[a] == own[b] and tokens[a][-1] in "<>" and "!" not in tokens[b]:
            tokens[b] = tokens[b].rstrip("<>") + {"<": ">", ">": "<"}[tokens[a][-1]]
    for _ in range(mixture.most_counted):
        if rng.random() < mixture.counted and places <= 6:
            letter = rng.choice(letters)
            if tokens[letter][-1] == letter and list(own.values()).count(own[letter]) == 1:
                tokens[letter] += rng.choice(("*2", "*3"))
    if rng.random() < mixture.may_be_absent:
        letter = rng.choice(letters)
        tokens[letter] += "" if "!" in tokens[letter] else "?"
    parts = sorted({part for part in own.values() if not part.startswith("leg")})
    numbers = {part: f"N-{part[-1]}" for part in parts if rng.random() < 0.7}
    accepts = {part: (f"M-{part[-1]}",) for part in parts if rng.random() < 0.25}
    for a, b in combinations(parts, 2):
        if a[:-1] == b[:-1] and b in numbers and rng.random() < 0.2:
            accepts[a] = (*accepts.get(a, ()), numbers[b])
    sizes = {}
    for part in parts:
        if rng.random() < 0.6:
            nominal = rng.choice((10.0, 10.0, 10.2, 12.0))
            sizes[part] = {"length": (nominal, nominal - 0.05, nominal + 0.05)}
    stacks = _stacks(rng, letters, mixture)
    return reference(
        *(" ".join(tokens[letter] for letter in stack) for stack in stacks),
        numbers=numbers,
        accepts=accepts,
        sizes=sizes,
        units=_units(rng, stacks, tokens) if mixture.units and rng.random() < mixture.units else None,
    )


def _units(rng: Random, stacks: list[str], tokens: dict[str, str]) -> dict[str, tuple[str, ...]]:
    """One unit: neighbours of one stack that stand in no other."""
    stack = rng.choice(stacks)
    size = rng.randint(2, 3)
    ways = [stack[at : at + size] for at in range(len(stack) - size + 1)]
    ways = [way for way in ways if not any(set(way) & set(other) for other in stacks if other is not stack)]
    ways = [way for way in ways if all(tokens[letter][-1] not in "!?" for letter in way)]
    if not ways:
        return {}
    return {"cartridge": tuple(tokens[letter].rstrip("<>").split("*")[0] for letter in rng.choice(ways))}


def _stacks(rng: Random, letters: str, mixture: Mixture) -> list[str]:
    if len(letters) < 3 or rng.random() < mixture.one_stack:
        return [letters]
    shared = set(rng.sample(letters, rng.randint(1, max(1, len(letters) // 2))))
    inner = {letter for letter in letters if letter not in shared and rng.random() < mixture.inside_one}
    stacks = ["".join(c for c in letters if c in shared or (c in inner) is mine) for mine in (True, False)]
    return [stack for stack in stacks if stack]
