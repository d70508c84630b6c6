"""Random small references: one stack or two that meet, with everything in them that makes a comparison doubtful."""

from __future__ import annotations

from itertools import combinations
from random import Random

from stackcheck.model.reference import Reference
from tests.builders import reference

KINDS = ("washer", "collar", "ring", "plate")


def random_reference(rng: Random, places: int) -> Reference:
    """One stack or two that meet; equal parts, look-alikes, faces, fixed members, accepted numbers, a counted group."""
    letters = "abcdefghij"[:places]
    own = {letter: f"{rng.choice(KINDS)}-{letter}" for letter in letters}
    if rng.random() < 0.4:
        for a, b in combinations(letters, 2):
            if rng.random() < 0.25 and sum(part == own[a] for part in own.values()) < 3:
                own[b] = own[a]
    tokens = {letter: f"{part}@{letter}" for letter, part in own.items()}
    if rng.random() < 0.3:
        fixed = rng.choice((letters[0], letters[-1], rng.choice(letters)))
        tokens[fixed], own[fixed] = f"leg-{fixed}!", f"leg-{fixed}"
    if rng.random() < 0.5:
        for letter in letters:
            if "!" not in tokens[letter] and rng.random() < 0.5:
                tokens[letter] += rng.choice("<>")
    if rng.random() < 0.25 and places <= 6:
        letter = rng.choice(letters)
        if tokens[letter][-1] == letter and list(own.values()).count(own[letter]) == 1:
            tokens[letter] += rng.choice(("*2", "*3"))
    if rng.random() < 0.1:
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
    return reference(
        *(" ".join(tokens[letter] for letter in stack) for stack in _stacks(rng, letters)),
        numbers=numbers,
        accepts=accepts,
        sizes=sizes,
    )


def _stacks(rng: Random, letters: str) -> list[str]:
    if len(letters) < 3 or rng.random() < 0.5:
        return [letters]
    shared = set(rng.sample(letters, rng.randint(1, max(1, len(letters) // 2))))
    inner = {letter for letter in letters if letter not in shared and rng.random() < 0.5}
    stacks = ["".join(c for c in letters if c in shared or (c in inner) is mine) for mine in (True, False)]
    return [stack for stack in stacks if stack]
