"""Which part of one reference is which part of another.

A number that both bear counts first, then a number that one of them accepts, then the id, the name, the designation of
a standard part: each only where it names one part on either side, and only among parts that have no partner yet. Two
parts of different kinds are partners by a number alone. What has no partner is left to the comparison of the sequences,
which knows where it stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from stackcheck.formats.words import plain
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference

Keys = Callable[[Part], Iterable[str]]


def _with_kind(word: Callable[[Part], str]) -> Keys:
    return lambda part: (f"{part.kind}: {word(part)}",) if word(part) else ()


RULES: tuple[tuple[Keys, Keys], ...] = (
    (lambda part: (part.number,), lambda part: (part.number,)),
    (lambda part: part.accepts, lambda part: (part.number,)),
    (lambda part: (part.number,), lambda part: part.accepts),
    (_with_kind(lambda part: part.id), _with_kind(lambda part: part.id)),
    (_with_kind(lambda part: plain(part.name)), _with_kind(lambda part: plain(part.name))),
    (_with_kind(lambda part: part.standard), _with_kind(lambda part: part.standard)),
)
"""For the first reference and for the second: what a part is known by, the surest first."""


def partners(first: Reference, second: Reference) -> dict[str, str]:
    """Id of a part of the first reference -> id of its partner in the second, in the sequence of the first."""
    found: dict[str, str] = {}
    for first_keys, second_keys in RULES:
        taken = set(found.values())
        ones = _named_once((part for part in first.parts if part.id not in found), first_keys)
        others = _named_once((part for part in second.parts if part.id not in taken), second_keys)
        for key, one in ones.items():
            other = others.get(key)
            if other is not None and one not in found and other not in found.values():
                found[one] = other
    return {part.id: found[part.id] for part in first.parts if part.id in found}


def _named_once(parts: Iterable[Part], keys: Keys) -> dict[str, str]:
    """What names exactly one of these parts -> its id."""
    named: dict[str, set[str]] = {}
    for part, key in _pairs(parts, keys):
        named.setdefault(key, set()).add(part.id)
    return {key: ids.pop() for key, ids in named.items() if len(ids) == 1}


def _pairs(parts: Iterable[Part], keys: Keys) -> Iterator[tuple[Part, str]]:
    for part in parts:
        for key in keys(part):
            if key:
                yield part, key
