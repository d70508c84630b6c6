"""Which closed loops the stacks of a reference form.

Two stacks that share two places, with no other shared place between, enclose a loop: the lengths of its two paths
differ by the gap (or overlap) of the loop. Where a `Gap` or a `Limit` between neighbours stands on one path, the loop
takes its name and limits from there; otherwise the two paths are compared as they stand.
"""

from __future__ import annotations

from itertools import combinations, pairwise

from stackcheck.model.limits import Limit
from stackcheck.model.reference import Gap, Loop, Reference, Stack


def find_loops(reference: Reference) -> tuple[Loop, ...]:
    """All loops of the reference, in the sequence of its stacks; a path that holds two gaps closes no loop."""
    found: list[Loop] = []
    for first, second in combinations(reference.stacks, 2):
        shared = [place for place in first.places if place in set(second.places)]
        for start, end in pairwise(shared):
            loop = _loop(reference, first, second, start, end)
            if loop is not None:
                found.append(loop)
    return (*found, *_alone(reference, {loop.name for loop in found}))


def path_name(reference: Reference, loop: Loop) -> str:
    """The name of a gap, and by which stack where several close it: "side play (closed by the frame)"."""
    is_only = sum(other.name == loop.name for other in reference.loops) < 2
    return loop.name if is_only or not loop.closed_stack else f"{loop.name} (closed by {loop.closed_stack})"


NEIGHBOURS = "parts beside it"
"""What sets a gap that no second path closes: it can be measured, and no sum tells it."""


def _alone(reference: Reference, told: set[str]) -> list[Loop]:
    """Gaps and limits that lie in no loop, so that none is passed over: each is open to measuring."""
    alone = []
    for stack in reference.stacks:
        for gap in stack.gaps:
            if gap.name not in told and (gap.least_mm is not None or gap.most_mm is not None):
                beside = _around(stack.items, gap, "", "")
                alone.append(
                    _measured_only(gap.name, stack.name, beside, gap.least_mm, gap.most_mm, gap.set_by, gap.source)
                )
    for limit in reference.limits:
        if limit.what not in told:
            beside = (limit.between[0].partition("/")[0], limit.between[1].partition("/")[0])
            alone.append(_measured_only(limit.what, "", beside, limit.least_mm, limit.most_mm, "", limit.source))
    return alone


def _measured_only(
    name: str,
    stack: str,
    beside: tuple[str, str],
    least_mm: float | None,
    most_mm: float | None,
    set_by: str,
    source: str,
) -> Loop:
    return Loop(
        name=name, start=beside[0], end=beside[1], open_stack=stack, closed_stack="", open_path=(), closed_path=(),
        gap_between=beside, least_mm=least_mm, most_mm=most_mm, set_by=set_by or NEIGHBOURS, source=source,
    )  # fmt: skip


def _between(stack: Stack, start: str, end: str) -> tuple[str | Gap, ...]:
    items = stack.items
    return items[items.index(start) + 1 : items.index(end)]


def _loop(reference: Reference, first: Stack, second: Stack, start: str, end: str) -> Loop | None:
    paths = {stack.name: _between(stack, start, end) for stack in (first, second)}
    if not any(paths.values()):
        return None
    gaps = [(name, item) for name, path in paths.items() for item in path if isinstance(item, Gap)]
    if len(gaps) > 1:
        return None
    if gaps:
        name, gap = gaps[0]
        other = second.name if name == first.name else first.name
        return Loop(
            name=gap.name, start=start, end=end, open_stack=name, closed_stack=other,
            open_path=_names(paths[name]), closed_path=_names(paths[other]),
            gap_between=_around(paths[name], gap, start, end),
            least_mm=gap.least_mm, most_mm=gap.most_mm, set_by=gap.set_by, source=gap.source,
        )  # fmt: skip
    for name, path in paths.items():
        limit = _limit_on(reference, (start, *_names(path), end))
        if limit is not None:
            other = second.name if name == first.name else first.name
            return Loop(
                name=limit.what, start=start, end=end, open_stack=name, closed_stack=other,
                open_path=_names(path), closed_path=_names(paths[other]), gap_between=limit.between,
                least_mm=limit.least_mm, most_mm=limit.most_mm, source=limit.source,
            )  # fmt: skip
    if any(reference.part_at(place).kind == "spring" for path in paths.values() for place in _names(path)):
        return None  # a coil spring fills whatever room there is: neither a gap nor an overlap
    return Loop(
        name=f"{first.name} against {second.name}", start=start, end=end, open_stack=second.name,
        closed_stack=first.name, open_path=_names(paths[second.name]), closed_path=_names(paths[first.name]),
        gap_between=(start, end), stated=False,
    )  # fmt: skip


def _names(path: tuple[str | Gap, ...]) -> tuple[str, ...]:
    return tuple(item for item in path if isinstance(item, str))


def _around(path: tuple[str | Gap, ...], gap: Gap, start: str, end: str) -> tuple[str, str]:
    line = (start, *path, end)
    position = line.index(gap)
    return line[position - 1], line[position + 1]


def _limit_on(reference: Reference, line: tuple[str, ...]) -> Limit | None:
    neighbours = set(pairwise(line))
    for limit in reference.limits:
        a, b = limit.between
        if (a, b) in neighbours or (b, a) in neighbours:
            return limit
    return None
