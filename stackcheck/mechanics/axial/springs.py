"""Springs along the axis: coil, wave, and discs laid in groups."""

from __future__ import annotations

from collections.abc import Sequence
from math import log, pi, sqrt
from typing import Any

import numpy as np

from stackcheck.mechanics.axial.laws import Element, disc
from stackcheck.mechanics.axial.stiffness import _above_nothing
from stackcheck.value import Value

STEEL_MPA, POISSON, SHEAR_MPA = 206e3, 0.3, 81.5e3
"""Spring steel; E and ν as EN 16984 takes them, G as EN 13906-1 does (from memory)."""


STEEPEST = sqrt(2) * (1 + 1e-9)
"""h0/t up to which the force of a disc spring never falls while it is pressed."""


class SnapsThrough(ValueError):
    """h0/t above √2: the force falls while the disc is pressed, so that one force has several heights."""


DIAMETER_OVER_THICKNESS, OUTSIDE_OVER_INSIDE = (16.0, 40.0), (1.75, 2.5)
"""Where the formula of a disc spring holds: De/t and De/Di, EN 16984 (from memory)."""

NESTED_FRICTION, EDGE_FRICTION = 0.03, 0.03
"""Share of the force that friction adds on the way in and takes on the way out: for each nested pair, and at the edges.

The most of 2 to 3 and 1 to 3 in 100: a spring maker's handbook, from memory.
"""


class DiscSpring(Value, kw_only=True):
    """One disc spring without contact flats: outside, inside, thickness and cone height h0 [mm].

    Thickness and cone may be arrays, one value a variant.
    """

    outside_mm: float
    inside_mm: float
    thickness_mm: Any
    cone_mm: Any

    @property
    def free_mm(self) -> float:
        return self.cone_mm + self.thickness_mm


def disc_unit(spring: DiscSpring) -> float:
    """4E t⁴/((1-ν²) K1 De²): the force that the shape of one disc scales with [N].

    K1 = (1/π) ((δ-1)/δ)² / ((δ+1)/(δ-1) - 2/ln δ), δ = De/Di

    Args:
        spring: its sizes [mm], each above 0 and De above Di.
    Raises:
        ValueError: a size outside its bounds.

    Source: EN 16984, ex DIN 2092 (from memory). The older Almen-Laszlo constant is up to 1.4 % smaller.

    >>> round(disc_unit(DiscSpring(outside_mm=45, inside_mm=22.4, thickness_mm=2.0, cone_mm=1.1)))
    10278
    """
    _above_nothing(
        inside_mm=spring.inside_mm,
        ring_mm=spring.outside_mm - spring.inside_mm,
        thickness_mm=spring.thickness_mm,
        cone_mm=spring.cone_mm,
    )
    ratio = spring.outside_mm / spring.inside_mm
    k1 = ((ratio - 1) / ratio) ** 2 / ((ratio + 1) / (ratio - 1) - 2 / log(ratio)) / pi
    return 4 * STEEL_MPA / (1 - POISSON**2) * spring.thickness_mm**4 / (k1 * spring.outside_mm**2)


def outside_the_formula(spring: DiscSpring) -> tuple[str, ...]:
    """Why the formula tells no force of this spring: its proportions, each with the range in which it holds; else empty.

    Args:
        spring: sizes [mm]; of arrays every one counts.
    Source: EN 16984, ex DIN 2092 (from memory).

    >>> outside_the_formula(DiscSpring(outside_mm=45, inside_mm=22.4, thickness_mm=4.0, cone_mm=1.0))
    ('De/t is 11.2, and the formula holds from 16 to 40',)
    """
    slender = float(np.mean(spring.outside_mm / spring.thickness_mm))
    steep = float(np.max(spring.cone_mm / spring.thickness_mm))
    said = [
        f"{name} is {value:.3g}, and the formula holds from {least:g} to {most:g}"
        for name, value, (least, most) in (
            ("De/t", slender, DIAMETER_OVER_THICKNESS),
            ("De/Di", spring.outside_mm / spring.inside_mm, OUTSIDE_OVER_INSIDE),
        )
        if not least <= value <= most
    ]
    snaps = [f"h0/t is {steep:.2f}, above 1.41, so that they snap through and one force has several heights"]
    return (*said, *(snaps if steep > STEEPEST else []))


def free_height(spring: DiscSpring, counts: Sequence[int]) -> float:
    """Height of a stack of groups with nothing on it [mm]: Σ (h0 + n t).

    Args:
        spring: its sizes [mm].
        counts: how many lie nested in each group.
    Source: EN 16984, ex DIN 2092 (from memory).

    >>> ours = DiscSpring(outside_mm=45, inside_mm=22.4, thickness_mm=2.0, cone_mm=1.1)
    >>> round(free_height(ours, (2, 2, 2)), 2), round(free_height(ours, (2, 2, 1, 1)), 2)
    (15.3, 16.4)
    """
    return sum(spring.cone_mm + count * spring.thickness_mm for count in counts)


def disc_stack(
    name: str, a: str, b: str, spring: DiscSpring, counts: Sequence[int], *, friction: Any = 0.0
) -> tuple[Element, ...]:
    """The groups of a stack as elements one behind the other, with faces of their own between them.

    `friction` is 1 where all of it resists the way in, -1 on the way out, 0 for none: n springs of a group then bear
    n (1 + friction (w_M (n - 1) + w_R)) times the force of one (EN 16984, from memory).

    Raises:
        SnapsThrough: the answer would not be one.
    """
    steepest = float(np.max(spring.cone_mm / spring.thickness_mm))
    if steepest > STEEPEST:
        raise SnapsThrough(f"h0/t is {steepest:.2f}, above 1.41: one force has several heights")
    unit = disc_unit(spring)
    faces = [a, *(f"{name} {i + 1}" for i in range(len(counts) - 1)), b]
    return tuple(
        Element(
            name=f"{name}, group {i + 1}",
            a=faces[i],
            b=faces[i + 1],
            law=disc,
            values=(
                spring.cone_mm + count * spring.thickness_mm,
                count * (1 + friction * (NESTED_FRICTION * (count - 1) + EDGE_FRICTION)),
                spring.thickness_mm,
                spring.cone_mm,
                unit,
            ),
        )
        for i, count in enumerate(counts)
    )


WAVE_DIVISOR = (2.4, 3.9)
"""The divisor in the stiffness of a wave washer: makers' catalogues have from one to the other (from memory)."""


def wave_stiffness(
    *, outside_mm: float, bore_mm: float, sheet_mm: Any, waves: int, divisor: Any = 2.4, modulus_mpa: float = STEEL_MPA
) -> Any:
    """Stiffness of a wave washer of one turn while its waves do not yet lie flat [N/mm]: E b t³ N⁴/(K D_m³) · OD/ID.

    Args:
        outside_mm, bore_mm: diameters of the washer [mm], b = (OD - ID)/2, D_m = (OD + ID)/2.
        sheet_mm: thickness of its sheet t [mm], above 0.
        waves: how many waves N, 2 or more.
        divisor: K, from 2.4 to 3.9 by the catalogue.
        modulus_mpa: Young's modulus [MPa].
    Raises:
        ValueError: an argument outside its bounds.

    Good to the spread of K at best; pressed on a scale it is good to 15 %.
    Source: catalogues of makers of wave springs (from memory).

    >>> round(wave_stiffness(outside_mm=39, bore_mm=30, sheet_mm=0.6, waves=3))
    214
    """
    _above_nothing(bore_mm=bore_mm, ring_mm=outside_mm - bore_mm, sheet_mm=sheet_mm, divisor=divisor)
    if not waves >= 2:
        raise ValueError(f"waves is {waves}, it must be 2 or more")
    across, mean = (outside_mm - bore_mm) / 2, (outside_mm + bore_mm) / 2
    return modulus_mpa * across * sheet_mm**3 * waves**4 / (divisor * mean**3) * outside_mm / bore_mm


def coil_stiffness(*, wire_mm: float, coil_mm: float, coils: float, shear_mpa: float = SHEAR_MPA) -> float:
    """Stiffness of a cylindrical coil spring [N/mm]: k = G d⁴/(8 D³ n).

    Args:
        wire_mm: diameter of the wire [mm].
        coil_mm: mean diameter of the coils [mm].
        coils: working coils.
        shear_mpa: shear modulus [MPa].
    Raises:
        ValueError: an argument not above 0.

    Source: EN 13906-1 (2013) (from memory).

    >>> round(coil_stiffness(wire_mm=6, coil_mm=36, coils=10, shear_mpa=81_370), 2)
    28.25
    """
    _above_nothing(wire_mm=wire_mm, coil_mm=coil_mm, coils=coils, shear_mpa=shear_mpa)
    return shear_mpa * wire_mm**4 / (8 * coil_mm**3 * coils)
