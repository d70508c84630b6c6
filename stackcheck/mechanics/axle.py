"""How stiff the axle of a joint is: as thick as the bearings where they sit on it,
elsewhere between its thread and the bores around it.

A reference hardly ever draws the axle, but what it pulls together is threaded over it: no stretch of it is thicker than
the bore there, and none is taken to be thinner than the thread. A bearing sits on it without room. Where the two differ
much, as on a shaft of 35 with a thread of 20, the axle is up to three times as stiff as its thread. A joint that says
its shank step by step, from the head or shoulder to the nut, leaves nothing to be guessed: each step gives l/(E A), and
what is left as far as the nut is thread.

Left out: grooves, keyways, and a hollow axle whose joint does not say its shank.
Source: VDI 2230 part 1 (2015), compliance of the bolt: its steps in series, ends included (from memory);
between which diameters an axle lies that nobody drew: worked out here.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import pi
from typing import Any, NamedTuple

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.heat_of_bearings import axle_part
from stackcheck.mechanics.paths import diameter
from stackcheck.mechanics.steps import steps_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import RING_BEARINGS
from stackcheck.model.reference import Joint, Reference

FILLS = (0.0, 0.5, 1.0)
"""How far a stretch of the axle is on its way from the thread (0) to the bore around it (1), by what it gives."""

AXLE_IS = (
    "axle between the thickness of its thread and that of the bores around it, as thick as a bearing where "
    "one sits on it, solid, of steel"
)
"""The default in words."""

BEYOND_THE_SHANK = "axle by its steps, solid where they have no bore, and thread from there to the nut"
"""The same where the joint says its shank."""


class Stretch(NamedTuple):
    """A length of the axle [mm], the bore around it [mm] (None: not given), and whether it fills that bore."""

    length_mm: float
    bore_mm: float | None
    is_filled: bool = False


class Rod(NamedTuple):
    """One step of a shank: length [mm], metal across it [mm²], modulus [MPa]."""

    length_mm: float
    area_mm2: float
    modulus_mpa: float


def rods(reference: Reference, joint: Joint) -> tuple[Rod, ...]:
    """The steps of what a joint stretches, from its head or shoulder on;
    each of its own metal, else that of the axle, else of steel.

    Raises:
        Missing: a metal whose modulus is not known here.
    """
    axle = axle_part(reference)
    found = []
    for step in joint.shank:
        metal = step.material or (axle.material if axle is not None else "steel")
        if metal not in MODULUS_MPA:
            raise Missing(f"the modulus of {metal}, which the shank of the {joint.name} is made of")
        bore = step.bore.nominal_mm if step.bore is not None else 0.0
        area = pi / 4 * (step.outside.nominal_mm**2 - bore**2)
        found.append(Rod(step.length.nominal_mm, area, MODULUS_MPA[metal]))
    return tuple(found)


def stretches(arrangement: Arrangement, row: Iterable[tuple[Member, Any, float]]) -> tuple[Stretch, ...]:
    """The stretches of an axle inside these members,
    each with what it gives and its length (`joint_pull.grip_gives`).
    """
    return tuple(stretch for member, _, length in row if length > 0 for stretch in _inside(arrangement, member, length))


def _inside(arrangement: Arrangement, member: Member, length_mm: float) -> Iterable[Stretch]:
    """The stretches inside one member, of one with steps inside each of them."""
    ruler, part = arrangement.ruler, arrangement.ruler.part(member.standing)
    if steps := steps_of(ruler, member.standing, length_mm):
        return [Stretch(step.length_mm, step.bore_mm) for step in steps]
    is_filled = part is not None and part.kind in RING_BEARINGS
    return [Stretch(length_mm, diameter(ruler, member.standing, "bore"), is_filled)]


def axle_stiffness(
    unknowns: Unknowns, thread: Thread, around: Iterable[Stretch], length_mm: Any = None, shank: tuple[Rod, ...] = ()
) -> Any:
    """Of the axle from head to nut [N/mm].

    1/k = (1/E) [ Σ l/A + 0.5 d/A_d3 + 0.4 d/A_d ],   1/A between 1/A_s and 1/(π/4 bore²)

    Args:
        around: what it passes through.
        length_mm: from head to nut, where that is more than the stretches add up to [mm];
            the rest is at most as thick as the thickest of them.
        shank: its steps from the head on, where they are given; then what it passes through counts for its length only.

    >>> m16 = Thread(d_mm=16, pitch_mm=1.5)
    >>> round(axle_stiffness(Unknowns(), m16, [Stretch(130, 16)]) / 1e3)  # 206 000 / (130/182.6 + 8/157.5 + 6.4/201.1)
    259
    >>> rod = Rod(100, 314.16, 206e3)  # 100 of 20 mm, 30 of thread: 206 000 / (100/314.2 + 30/167.2 + 8/157.5 + 6.4/201.1)
    >>> round(axle_stiffness(Unknowns(), m16, [Stretch(130, 20)], shank=(rod,)) / 1e3)
    355
    """
    around = tuple(around)
    thin, area = 1 / thread.stress_area_mm2, pi / 4 * thread.d_mm**2
    ends = 0.5 * thread.d_mm / (pi / 4 * thread.root_mm**2) + 0.4 * thread.d_mm / area
    if shank:
        length = sum(each.length_mm for each in around) if length_mm is None else length_mm
        return MODULUS_MPA["steel"] / (ends + _shank_gives(shank, length, thin))
    fills = unknowns.value("thickness of the axle", *FILLS)
    bores = [each.bore_mm for each in around if each.bore_mm is not None]
    if length_mm is not None:
        around = (*around, Stretch(length_mm - sum(each.length_mm for each in around), max(bores, default=None)))
    gives = ends
    for each in around:
        # A part without a hole is not threaded over, and says nothing of what is inside it.
        thick = thin if not each.bore_mm else min(thin, 1 / (pi / 4 * each.bore_mm**2))
        gives = gives + each.length_mm * (thick if each.is_filled else thin + fills * (thick - thin))
    return MODULUS_MPA["steel"] / gives


def _shank_gives(shank: tuple[Rod, ...], length_mm: Any, thin: float) -> Any:
    """Σ l/A from the head to the nut, as of steel [1/mm]; steps that reach beyond the nut are cut off there."""
    left, gives = length_mm, 0.0
    for rod in shank:
        pulled = np.clip(left, 0.0, rod.length_mm)
        gives = gives + pulled / rod.area_mm2 * MODULUS_MPA["steel"] / rod.modulus_mpa
        left = left - pulled
    return gives + np.maximum(left, 0.0) * thin
