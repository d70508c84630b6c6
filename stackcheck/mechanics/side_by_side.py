"""Paths that stand beside a part of the stack that a joint presses together, and what they change of how it gives.

The longer of two paths is pressed alone until the other is reached; from there both are. So the grip gives more at first
and less afterwards, which angle, settling and crushing feel: F(travel) is the largest of as many straight lines as there
are ways of bearing, for the travel is concave in F.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.clamp import joins_bearings
from stackcheck.mechanics.frames import is_frame
from stackcheck.mechanics.grip_gives import grip_row, row_gives
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import LIE_ACROSS, PASS_THROUGH
from stackcheck.model.reference import Joint, Loop
from stackcheck.value import Value

BEAR_NO_SHARE = PASS_THROUGH | LIE_ACROSS | {"spring", "spring washer", "disc spring", "crush sleeve"}
"""Kinds that bear no clamp beside another path, or not by their length."""


class Beside(Value, kw_only=True, eq=False):
    """Two paths side by side: that of the joint's own stack and the other, by their places, how stiff each is [N/mm], and
    how much longer the own one is [mm].
    """

    loop: Loop
    own_places: tuple[str, ...]
    other_stack: str
    other_places: tuple[str, ...]
    own_n_per_mm: Any
    other_n_per_mm: Any
    longer_mm: Any

    @property
    def closed_is_own(self) -> bool:
        return self.own_places == self.loop.closed_path

    def carried(self, force_n: Any) -> tuple[Any, Any]:
        """What of a clamp the own path bears, and the other [N]."""
        return shared_between(
            force_n=force_n, first_n_per_mm=self.own_n_per_mm, second_n_per_mm=self.other_n_per_mm,
            longer_mm=self.longer_mm,
        )  # fmt: skip

    def lines(self) -> tuple[tuple[Any, Any], tuple[Any, Any]]:
        """(mm at no force, mm/N) of the longer path alone, and of both."""
        alone = np.where(np.asarray(self.longer_mm) >= 0, self.own_n_per_mm, self.other_n_per_mm)
        short = np.where(np.asarray(self.longer_mm) >= 0, self.other_n_per_mm, self.own_n_per_mm)
        both = self.own_n_per_mm + self.other_n_per_mm
        return (0.0, 1 / alone), (short * np.abs(self.longer_mm) / both, 1 / both)


class Gives(Value, kw_only=True, eq=False):
    """What a grip and its axle give: `row` of all of the own stack and the axle [mm/N], and the paths beside it."""

    row: Any
    beside: tuple[Beside, ...]

    def travel(self, force_n: Any) -> Any:
        """How much grip and axle give at a force [mm]."""
        return self._rest * force_n + sum(
            np.minimum(*(start + soft * force_n for start, soft in each.lines())) for each in self.beside
        )

    def force(self, travel_mm: Any) -> Any:
        """The force at which they have given so much [N], not below 0."""
        forces = [
            (travel_mm - sum(start for start, _ in way)) / (self._rest + sum(soft for _, soft in way))
            for way in product(*(each.lines() for each in self.beside))
        ]
        return np.maximum(np.max(np.broadcast_arrays(*forces), axis=0), 0.0)

    @property
    def _rest(self) -> Any:
        """What stands behind one another, without the stretches that have a path beside them."""
        return self.row - sum(1 / each.own_n_per_mm for each in self.beside)


def shared_between(*, force_n: Any, first_n_per_mm: Any, second_n_per_mm: Any, longer_mm: Any) -> tuple[Any, Any]:
    """What each of two paths bears that a clamp presses between the same two faces [N].

    N1 = k1 (F + k2 Δ)/(k1 + k2), not below 0 and not above F; N2 = F - N1

    Args:
        force_n: the clamp F [N], not below 0.
        first_n_per_mm, second_n_per_mm: stiffness of the two paths k1 and k2 [N/mm], above 0.
        longer_mm: how much longer the first path is than the second by itself, Δ [mm]; below 0 it is shorter.
    Source: two springs side by side, one of them reached later (elementary); derived here.

    >>> shared_between(force_n=10e3, first_n_per_mm=1e6, second_n_per_mm=1e6, longer_mm=0.004)
    (7000.0, 3000.0)
    >>> shared_between(force_n=10e3, first_n_per_mm=1e6, second_n_per_mm=1e6, longer_mm=0.05)
    (10000.0, 0.0)
    """
    both = first_n_per_mm * (force_n + second_n_per_mm * longer_mm) / (first_n_per_mm + second_n_per_mm)
    first = np.clip(both, 0.0, force_n)
    first = float(first) if np.ndim(first) == 0 else first
    return first, force_n - first


def loops_side_by_side(arrangement: Arrangement, joint: Joint) -> Iterator[Loop]:
    """Loops of two paths that the joint presses between the same two parts of its grip."""
    reference = arrangement.reference
    for loop in reference.loops:
        paths = (loop.closed_path, loop.open_path)
        if (
            not all(paths)
            or loop.set_by
            or joins_bearings(reference, loop)
            or any(is_frame(reference, p) for p in paths)
        ):
            continue
        kinds = {reference.part_at(place).kind for path in paths for place in path}
        if kinds & BEAR_NO_SHARE or any("bearing" in kind for kind in kinds):
            continue
        for stack in reference.stacks:
            if set(joint.clamps) <= set(stack.places) and {loop.start, loop.end} <= set(stack.places):
                first, last = sorted(stack.places.index(place) for place in joint.clamps)
                if all(first <= stack.places.index(place) <= last for place in (loop.start, loop.end)):
                    yield loop
                    break


def beside_a_third(loop: Loop, loops: Sequence[Loop]) -> bool:
    """Whether another loop goes through a part of this one, so that more than two paths stand side by side: how a clamp
    divides among those is not worked out here.
    """
    own = {*loop.closed_path, *loop.open_path}
    return any(own & {*other.closed_path, *other.open_path} for other in loops if other.name != loop.name)


def paths_beside(unknowns: Unknowns, arrangement: Arrangement, joint: Joint) -> tuple[Beside, ...]:
    """Every path that alone stands beside a stretch of the grip of a joint, and whose lengths and stiffness are known."""
    found: list[Beside] = []
    loops = tuple(loops_side_by_side(arrangement, joint))
    for loop in loops:
        if beside_a_third(loop, loops):
            continue
        try:
            found.append(beside_in(unknowns, arrangement, joint, loop))
        except Missing:
            continue
    return tuple(found)


def beside_in(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop) -> Beside:
    """The two paths of one loop.

    Raises:
        Missing: a length, or what stands in one of them.
    """
    room = loop_lengths(arrangement, loop).total
    if room is None:
        raise Missing(f"the lengths of {loop.name}")
    # The gap of a loop is its closed path less its open one.
    longer = unknowns.value(f"difference of the two paths, {loop.name}", room.least_mm, room.nominal_mm, room.most_mm)
    paths = ((loop.closed_stack, loop.closed_path), (loop.open_stack, loop.open_path))
    stiff = [_stiffness(unknowns, arrangement, joint, stack, path) for stack, path in paths]
    row, _ = grip_row(arrangement, joint)
    own, other = (0, 1) if loop.closed_stack == row else (1, 0)
    return Beside(
        loop=loop, own_places=paths[own][1], other_stack=paths[other][0], other_places=paths[other][1],
        own_n_per_mm=stiff[own], other_n_per_mm=stiff[other], longer_mm=longer if own == 0 else -longer,
    )  # fmt: skip


def _stiffness(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, stack: str, path: Sequence[str]) -> Any:
    members = [member for member in arrangement.members(stack) if member.place in path]
    soft = sum(soft for _, soft, _ in row_gives(unknowns, arrangement, stack, members, joint))
    if not members or not np.all(soft > 0):
        raise Missing(f"what stands in {', '.join(path)}")
    return 1 / soft


def row_beside(arrangement: Arrangement, beside: Beside) -> list[Member]:
    """The other path with the part before and behind it."""
    members = list(arrangement.members(beside.other_stack))
    spots = [i for i, member in enumerate(members) if member.place in beside.other_places]
    return members[max(spots[0] - 1, 0) : spots[-1] + 2] if spots else []
