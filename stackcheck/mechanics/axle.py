"""How stiff the axle of a joint is: as thick as the bearings where they sit on it,
elsewhere between its thread and the bores around it.

A reference hardly ever draws the axle, but what it pulls together is threaded over it: no stretch of it is thicker than
the bore there, and none is taken to be thinner than the thread. A bearing sits on it without room. Where the two differ
much, as on a shaft of 35 with a thread of 20, the axle is up to three times as stiff as its thread.

Left out: a hollow axle, grooves, keyways.
Source: VDI 2230 part 1 (2015), compliance of the bolt, ends included (from memory);
between which diameters it lies: worked out here.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import pi
from typing import Any, NamedTuple

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.paths import diameter
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import RING_BEARINGS

FILLS = (0.0, 0.5, 1.0)
"""How far a stretch of the axle is on its way from the thread (0) to the bore around it (1), by what it gives."""

AXLE_IS = (
    "axle between the thickness of its thread and that of the bores around it, as thick as a bearing where "
    "one sits on it, solid, of steel"
)
"""The default in words."""


class Stretch(NamedTuple):
    """A length of the axle [mm], the bore around it [mm] (None: not given), and whether it fills that bore."""

    length_mm: float
    bore_mm: float | None
    is_filled: bool = False


def stretches(arrangement: Arrangement, row: Iterable[tuple[Member, Any, float]]) -> tuple[Stretch, ...]:
    """The stretches of an axle inside these members,
    each with what it gives and its length (`joint_pull.grip_gives`).
    """
    return tuple(_stretch(arrangement, member, length) for member, _, length in row if length > 0)


def _stretch(arrangement: Arrangement, member: Member, length_mm: float) -> Stretch:
    part = arrangement.ruler.part(member.standing)
    is_filled = part is not None and part.kind in RING_BEARINGS
    return Stretch(length_mm, diameter(arrangement.ruler, member.standing, "bore"), is_filled)


def axle_stiffness(unknowns: Unknowns, thread: Thread, around: Iterable[Stretch], length_mm: Any = None) -> Any:
    """Of the axle from head to nut [N/mm].

    1/k = (1/E) [ Σ l/A + 0.5 d/A_d3 + 0.4 d/A_d ],   1/A between 1/A_s and 1/(π/4 bore²)

    Args:
        around: what it passes through.
        length_mm: from head to nut, where that is more than the stretches add up to [mm];
            the rest is at most as thick as the thickest of them.

    >>> m16 = Thread(d_mm=16, pitch_mm=1.5)
    >>> round(axle_stiffness(Unknowns(), m16, [Stretch(130, 16)]) / 1e3)  # 206 000 / (130/182.6 + 8/157.5 + 6.4/201.1)
    259
    """
    around = tuple(around)
    fills = unknowns.value("thickness of the axle", *FILLS)
    thin, area = 1 / thread.stress_area_mm2, pi / 4 * thread.d_mm**2
    bores = [each.bore_mm for each in around if each.bore_mm is not None]
    if length_mm is not None:
        around = (*around, Stretch(length_mm - sum(each.length_mm for each in around), max(bores, default=None)))
    gives = 0.5 * thread.d_mm / (pi / 4 * thread.root_mm**2) + 0.4 * thread.d_mm / area
    for each in around:
        thick = thin if each.bore_mm is None else min(thin, 1 / (pi / 4 * each.bore_mm**2))
        gives = gives + each.length_mm * (thick if each.is_filled else thin + fills * (thick - thin))
    return MODULUS_MPA["steel"] / gives
