"""How a clamp divides between two paths that stand side by side in its grip, such as one tube inside another.

Both paths are pressed between the same two parts, so that both shorten together: the longer one is touched first and
bears all of it until the other is reached, and from there each takes its share by its stiffness. A difference of a few
hundredths decides whether the shorter one bears anything. Two paths that meet at bearings are a loop with balls in it
(`stackcheck.mechanics.clamped_network`), one that all stays on the machine is a frame (`stackcheck.mechanics.supports`).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.bodies import Missing, lower
from stackcheck.mechanics.clamp import joins_bearings
from stackcheck.mechanics.frames import is_frame
from stackcheck.mechanics.joint_pull import pull, row_gives
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.part import LIE_ACROSS, PASS_THROUGH
from stackcheck.model.reference import Joint, Loop
from stackcheck.value import Value

BEAR_NO_SHARE = PASS_THROUGH | LIE_ACROSS | {"spring", "spring washer", "disc spring", "crush sleeve"}
"""Kinds that bear no clamp beside another path, or not by their length."""


class SharedClamp(Value, kw_only=True):
    """Two paths side by side: their parts by name, and what presses each [N]."""

    loop: str
    paths: tuple[str, str]
    carried_n: tuple[Spanned, Spanned]


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


def shared_clamps(arrangement: Arrangement, joint: Joint, torque_nmm: float, thread: Thread) -> tuple[SharedClamp, ...]:
    """Every pair of paths side by side that the joint presses together; one whose lengths are not known is left to the
    gap that names what is missing.
    """
    found = []
    for loop in _side_by_side(arrangement, joint):
        try:
            unknowns, carried = with_variants(
                lambda unknowns, loop=loop: _carried(unknowns, arrangement, joint, loop, torque_nmm, thread)
            )
        except Missing:
            continue
        told = tuple(unknowns.spanned(np.ravel(force)) for force in carried)
        names = tuple(_names(arrangement, path) for path in (loop.closed_path, loop.open_path))
        found.append(SharedClamp(loop=loop.name, paths=names, carried_n=told))
    return tuple(found)


def _side_by_side(arrangement: Arrangement, joint: Joint) -> Iterator[Loop]:
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


def _carried(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop, torque_nmm: float, thread: Thread
) -> tuple[Any, Any]:
    room = loop_lengths(arrangement, loop).total
    if room is None:
        raise Missing(f"the lengths of {loop.name}")
    # The gap of a loop is its closed path less its open one.
    longer = unknowns.value(f"difference of the two paths, {loop.name}", room.least_mm, room.nominal_mm, room.most_mm)
    stiff = [
        _stiffness(unknowns, arrangement, joint, stack, path)
        for stack, path in ((loop.closed_stack, loop.closed_path), (loop.open_stack, loop.open_path))
    ]
    force = pull(unknowns, arrangement, joint, torque_nmm, thread)
    return shared_between(force_n=force, first_n_per_mm=stiff[0], second_n_per_mm=stiff[1], longer_mm=longer)


def _stiffness(unknowns: Unknowns, arrangement: Arrangement, joint: Joint, stack: str, path: tuple[str, ...]) -> Any:
    members = [member for member in arrangement.members(stack) if member.place in path]
    soft = sum(soft for _, soft, _ in row_gives(unknowns, arrangement, stack, members, joint))
    if not members or not np.all(soft > 0):
        raise Missing(f"what stands in {', '.join(path)}")
    return 1 / soft


def _names(arrangement: Arrangement, path: tuple[str, ...]) -> str:
    parts = dict.fromkeys(arrangement.reference.part_at(place).name for place in path)
    return " and ".join(f"the {lower(name)}" for name in parts)
