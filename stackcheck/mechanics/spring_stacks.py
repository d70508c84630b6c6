"""What a stack of disc springs does at the length it is set to: free length, groups and force.

Neighbours the same way round lie in one another and share the force, opposite ones stand on each other and share the
travel; so one spring turned round changes groups, free length and force together, and only the facing tells. Springs
that were measured one by one count as alike with the mean of their sizes: what the free lengths add up to is what the
force hangs on.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.network import Network, NetworkError, solve
from stackcheck.mechanics.axial.springs import (
    DiscSpring,
    SnapsThrough,
    disc_stack,
    free_height,
    outside_the_formula,
)
from stackcheck.mechanics.disc_groups import disc_groups
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.taken_limits import with_limits
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.value import Value

QUOTED_SHARE = 0.75
"""Share of the cone up to which the formula holds: EN 16984 (from memory)."""


class SpringStack(Value, kw_only=True):
    """One stack of disc springs.

    `counts` are the nested springs of each group, first end to second end; `at_mm` the lengths the force is given for,
    the limits of the gap that it is set by and `measured_mm`, what somebody read of it; `pressed`, for each of them,
    the share of its cone that each group is pressed to: the load is the same in all, so that a single spring goes
    further than a nested pair. `flat_mm` is the length that no force goes below; `outside` tells why the formula gives
    no force of these springs at all.
    """

    stack: str
    gap: str
    counts: tuple[int, ...]
    free_mm: float | None
    at_mm: tuple[float, ...] | None
    force_n: tuple[Spanned, ...] | None
    measured_mm: float | None = None
    pressed: tuple[tuple[Spanned, ...], ...] = ()
    flat_mm: float | None = None
    outside: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()

    def beyond(self, at: int) -> tuple[int, ...]:
        """Groups, counted from 0, that are pressed past three quarters of their cone at this one of the lengths."""
        return tuple(i for i, share in enumerate(self.pressed[at]) if share.usual > QUOTED_SHARE)


def spring_stacks(arrangement: Arrangement, measured: Mapping[str, float] | None = None) -> tuple[SpringStack, ...]:
    """Every stack of the arrangement that holds disc springs;
    `measured` gives set lengths that somebody read, by gap [mm].
    """
    reference = arrangement.reference
    found = []
    for stack in reference.stacks:
        if any(reference.part_at(place).kind == "disc spring" for place in stack.places):
            found.append(_spring_stack(arrangement, stack.name, measured or {}))
    return tuple(found)


def _spring_stack(arrangement: Arrangement, stack: str, measured: Mapping[str, float]) -> SpringStack:
    laid = disc_groups(arrangement, stack)
    gap, at = _set_length(arrangement.reference, stack)
    read = measured.get(gap)
    if at is not None and read is not None:
        at = tuple(sorted({*at, read}))
    if laid.needs:
        return SpringStack(stack=stack, gap=gap, counts=(), free_mm=None, at_mm=at, force_n=None, needs=laid.needs)
    counts = laid.counts
    try:
        sizes = _sizes(arrangement, stack, laid.part)
        usual = _spring(sizes, Unknowns())
        outside = outside_the_formula(usual)
        told = [] if at is None or outside else [_at_height(sizes, counts, height) for height in at]
    except (_NoSize, SnapsThrough, NetworkError) as problem:
        return SpringStack(
            stack=stack, gap=gap, counts=counts, free_mm=None, at_mm=at, force_n=None, needs=(str(problem),)
        )
    return SpringStack(
        stack=stack,
        gap=gap,
        counts=counts,
        free_mm=free_height(usual, counts),
        at_mm=at,
        force_n=tuple(force for force, _ in told) or None,
        measured_mm=read,
        pressed=tuple(pressed for _, pressed in told),
        flat_mm=usual.thickness_mm * sum(counts),
        outside=outside,
    )


class _NoSize(ValueError):
    pass


def _sizes(arrangement: Arrangement, stack: str, part: Part) -> dict[str, Interval]:
    """The sizes of one spring that is the mean of the stack: each as measured where it was, else as the reference has
    it.
    """
    springs = [
        member.standing for member in arrangement.members(stack) if arrangement.ruler.part(member.standing) == part
    ]
    names = ("outside", "bore", "disc_thickness", "disc_height")
    sizes = {name: [_size(arrangement, standing, part, name) for standing in springs] for name in names}
    absent = [name.replace("_", " ") for name, its in sizes.items() if None in its]
    if absent:
        raise _NoSize(f"{' and '.join(absent)} of the {part.name}")
    pieces = [standing.count for standing in springs]
    return {name: _mean(its, pieces) for name, its in sizes.items()}


def _size(arrangement: Arrangement, standing: Standing, part: Part, name: str) -> Interval | None:
    """As measured; else as the reference gives it, with the limits that are taken where it gives none."""
    reading, given = arrangement.ruler.readings.size(standing, name), part.size(name)
    if reading is not None:
        return Interval.of_reading(reading)
    if given is None:
        return None
    return Interval.of_size(with_limits(given, part.kind) if name in ("disc_thickness", "disc_height") else given)


def _mean(sizes: list[Interval], pieces: list[int]) -> Interval:
    def one(end: str) -> float:
        return sum(getattr(size, end) * count for size, count in zip(sizes, pieces)) / sum(pieces)

    return Interval(nominal_mm=one("nominal_mm"), least_mm=one("least_mm"), most_mm=one("most_mm"))


def _spring(sizes: Mapping[str, Interval], unknowns: Unknowns) -> Any:
    thick, high = sizes["disc_thickness"], sizes["disc_height"]
    thickness = unknowns.value("thickness of the springs", thick.least_mm, thick.nominal_mm, thick.most_mm)
    height = unknowns.value("free height of the springs", high.least_mm, high.nominal_mm, high.most_mm)
    return DiscSpring(
        outside_mm=sizes["outside"].nominal_mm,
        inside_mm=sizes["bore"].nominal_mm,
        thickness_mm=thickness,
        cone_mm=height - thickness,
    )


def _at_height(
    sizes: Mapping[str, Interval], counts: tuple[int, ...], height_mm: float
) -> tuple[Spanned, tuple[Spanned, ...]]:
    """The force at one length, and the share of its cone that each group is pressed to,
    all springs alike within their limits.
    """

    def build(unknowns: Unknowns) -> Any:
        spring = _spring(sizes, unknowns)
        friction = unknowns.value("friction of the springs", -1.0, 0.0, 1.0)
        elements = disc_stack("springs", "seat", "plate", spring, counts, friction=friction)
        start = {f"springs {i}": height_mm * i / len(counts) for i in range(1, len(counts))}
        state = solve(Network(elements=elements, fixed={"seat": 0.0, "plate": height_mm}), start)
        shares = [
            (spring.cone_mm + count * spring.thickness_mm - state.distance(element.a, element.b)) / spring.cone_mm
            for element, count in zip(elements, counts)
        ]
        return -state.forces[elements[0].name], shares

    unknowns, (force, shares) = with_variants(build)
    return unknowns.spanned(force), tuple(unknowns.spanned(share) for share in shares)


def _set_length(reference: Reference, stack: str) -> tuple[str, tuple[float, ...] | None]:
    """The gap beside the springs, whose limits are the lengths that they are set to."""
    for loop in reference.loops:
        if stack in (loop.closed_stack, loop.open_stack) and loop.least_mm is not None and loop.most_mm is not None:
            return loop.name, tuple(sorted({loop.least_mm, loop.most_mm}))
    return "", None
