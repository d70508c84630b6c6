"""In which path of the forces a part lies: what presses on it, and whether two bearings feel how long it is.

The same washer does four different things. Between the inner rings it drives them apart; between the outer rings,
behind one of them, it lets the nut draw the inner rings together; clamped outside both bearings it moves what stands
behind it and no bearing feels it; in a gap that is left open, or loose around a tube, it carries nothing. Where it lies
is told from the sequence, the bores and the outside diameters; how large a force is, `stackcheck.mechanics.forces`
works out.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.clamp import grip, joins_bearings
from stackcheck.model.finding import Standing
from stackcheck.model.reference import Gap, Stack
from stackcheck.value import Value, replace

INNER, OUTER, CLAMPED, GAP, LOOSE, EITHER, BEARING = (
    "between the inner rings", "between the outer rings", "clamped outside the bearings", "in an open gap",
    "in no clamped path",
    "cannot tell", "one of the two bearings",
)  # fmt: skip
"""Where a part lies, seen from the forces."""

SPRINGS = frozenset({"spring washer", "spring"})
"""Kinds of part that fill the gap beside them."""


class ForcePath(Value, kw_only=True):
    """Where one part lies.

    `where` is one of the words above; `joint` names what presses on it ("" for nothing that the reference names),
    `loop` the loop of two bearings whose path it lies in, `gap` the open gap, `spring` the place of the spring that
    fills it. Where it is `EITHER`, `choices` are what it may be.
    """

    where: str
    stacks: tuple[str, ...] = ()
    joint: str = ""
    loop: str = ""
    gap: str = ""
    spring: str = ""
    choices: tuple[ForcePath, ...] = ()


def force_paths(arrangement: Arrangement, standings: Iterable[Standing]) -> tuple[ForcePath, ...]:
    """The path of each of these, each kind of path once, in the sequence in which they stand."""
    found = dict.fromkeys(path for standing in standings for path in _paths(arrangement, standing))
    pressed = [path for path in found if path.where in (INNER, OUTER, CLAMPED, BEARING) or path.spring]
    return tuple(pressed or found)


def _paths(arrangement: Arrangement, standing: Standing) -> list[ForcePath]:
    paths, is_sure = [], True
    for stack in arrangement.reference.stacks:
        for spot, item in enumerate(arrangement.paths[stack.name]):
            if isinstance(item, Member) and item.standing == standing:
                paths.append(_path(arrangement, stack, spot))
                is_sure &= not item.or_else
    if is_sure or len({replace(path, stacks=()) for path in paths}) == 1:
        return paths or [ForcePath(where=LOOSE)]
    return [ForcePath(where=EITHER, stacks=tuple(name for path in paths for name in path.stacks), choices=tuple(paths))]


def _path(arrangement: Arrangement, stack: Stack, spot: int) -> ForcePath:
    path = arrangement.paths[stack.name]
    joint, held = next(
        (
            (joint.name, held)
            for joint in arrangement.reference.joints
            if spot in (held := grip(arrangement, joint, stack.name))
        ),
        ("", range(0)),
    )
    here = {"stacks": (stack.name,), "joint": joint}
    home = path[spot].place
    for loop in arrangement.reference.loops:
        if stack.name not in (loop.closed_stack, loop.open_stack) or not joins_bearings(arrangement.reference, loop):
            continue
        ends = [i for i, item in enumerate(path) if isinstance(item, Member) and item.place in (loop.start, loop.end)]
        if spot in ends:
            return ForcePath(where=BEARING, loop=loop.name, **here)
        in_set_gap = home not in stack.places and (gap := _gap_beside(path, stack, spot)) is not None and gap.set_by
        if len(ends) == 2 and ends[0] < spot < ends[1] and not in_set_gap:
            return ForcePath(where=OUTER if stack.through == "outer rings" else INNER, loop=loop.name, **here)
    gap = _gap_beside(path, stack, spot)
    if gap is not None and (not joint or home not in stack.places and spot not in (held[0], held[-1])):
        return ForcePath(where=GAP, gap=gap.name, stacks=(stack.name,), spring=_spring_in(arrangement, path, gap))
    return ForcePath(where=CLAMPED, **here) if joint else ForcePath(where=LOOSE, stacks=(stack.name,))


def _spring_in(arrangement: Arrangement, path: tuple[Member | Gap, ...], gap: Gap) -> str:
    """The place of a spring that fills a gap: next to it, or one of the disc springs on the path that closes it; or ""."""
    spot = path.index(gap)
    beside = [path[i] for i in (spot - 1, spot + 1) if 0 <= i < len(path)]
    closed = [loop.closed_stack for loop in arrangement.reference.loops if loop.name == gap.name and loop.closed_stack]
    rows = ((SPRINGS, beside), *(({"disc spring"}, arrangement.members(stack)) for stack in closed))
    for kinds, items in rows:
        for item in items:
            part = arrangement.ruler.part(item.standing) if isinstance(item, Member) else None
            if part is not None and part.kind in kinds:
                return item.place or ""
    return ""


def _gap_beside(path: tuple[Member | Gap, ...], stack: Stack, spot: int) -> Gap | None:
    """The gap beside a part that the stack leaves open; limits on two faces that touch leave none."""
    beside = (path[i] for i in (spot - 1, spot + 1) if 0 <= i < len(path))
    return next((item for item in beside if item in stack.gaps and not item.clamped), None)
