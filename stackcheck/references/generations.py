"""Whole machines laid against each other: which assembly became which, and which parts stayed the same all along.

Assemblies are partners by their id, then by the numbers and designations that their parts have in common. A part is the
same through all machines where every step from one to the next says so.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.model.reference import Reference
from stackcheck.references.difference import Difference, difference
from stackcheck.value import Value


class Step(Value, kw_only=True):
    """From one machine to the next: assemblies of both, and those that only one of them has."""

    assemblies: tuple[Difference, ...]
    dropped: tuple[Reference, ...]
    added: tuple[Reference, ...]


class Through(Value, kw_only=True):
    """One part all along: its id in every machine in turn."""

    assemblies: tuple[str, ...]
    parts: tuple[str, ...]


def step(first: Sequence[Reference], second: Sequence[Reference]) -> Step:
    """Every assembly of the first machine beside the one of the second that it became."""
    pairs = _assemblies(first, second)
    met = {id(other) for _, other in pairs}
    left_behind = {id(one) for one, _ in pairs}
    return Step(
        assemblies=tuple(difference(one, other) for one, other in pairs),
        dropped=tuple(one for one in first if id(one) not in left_behind),
        added=tuple(other for other in second if id(other) not in met),
    )


def same_through(steps: Sequence[Step]) -> tuple[Through, ...]:
    """The parts that no step renumbers, resizes or describes otherwise,
    each with its assembly and id in every machine.
    """
    chains = (
        [((item.first.id, item.second.id), pair) for item in steps[0].assemblies for pair in item.same] if steps else []
    )
    for following in steps[1:]:
        onward = {
            (item.first.id, one): (item.second.id, other) for item in following.assemblies for one, other in item.same
        }
        chains = [
            ((*assemblies, onward[key][0]), (*parts, onward[key][1]))
            for assemblies, parts in chains
            if (key := (assemblies[-1], parts[-1])) in onward
        ]
    return tuple(Through(assemblies=assemblies, parts=parts) for assemblies, parts in chains)


def _assemblies(first: Sequence[Reference], second: Sequence[Reference]) -> list[tuple[Reference, Reference]]:
    by_name = {_name(other): other for other in second}
    pairs = {_name(one): by_name.pop(_name(one)) for one in first if _name(one) in by_name}
    alike = sorted(
        (
            (_in_common(one, other), -i, -j)
            for i, one in enumerate(first)
            if _name(one) not in pairs
            for j, other in enumerate(second)
        ),
        reverse=True,
    )
    for common, i, j in alike:
        one, other = first[-i], second[-j]
        if common and _name(one) not in pairs and _name(other) in by_name:
            pairs[_name(one)] = by_name.pop(_name(other))
    return [(one, pairs[_name(one)]) for one in first if _name(one) in pairs]


def _name(reference: Reference) -> str:
    return reference.id.rpartition("/")[2]


def _in_common(one: Reference, other: Reference) -> int:
    """How many numbers of parts both have: own, accepted and standard ones."""
    return len(_numbers(one) & _numbers(other))


def _numbers(reference: Reference) -> set[str]:
    return {number for part in reference.parts for number in (part.number, part.standard, *part.accepts) if number}
