"""What goes along the axis through two preloaded bearings with a slant while each carries a load across.

Each ball or roller at ψ is pressed by a + r cos ψ, a along the axis and r across, where that is above nothing: the force
along the axis is its mean to the power of n, that across the mean times cos ψ. Both bearings share one shift of the axle,
and what goes through the one goes through the other. Without preload the larger thrust goes through both; far above it
the preload stays; between the two it is more than either, for a ball pressed harder gains more than the one opposite loses.

Valid for two bearings that give alike, rings that stay round. Hub and axle are rigid here; where they give, less is added,
in the end nothing above the larger of preload and thrust.
Source: Harris, Rolling Bearing Analysis, radial and axial load integrals (from memory); the pair is derived here.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

AROUND = np.linspace(0.0, np.pi, 721)
STEPS = 60


@lru_cache(maxsize=4)
def _integrals(exponent: float) -> tuple[Any, Any]:
    """(a to the power n, with its sign, over the load across; force along over the load across), by growing a."""
    lean = np.concatenate([np.linspace(-0.2499, 0.45, 400), 0.5 - np.geomspace(0.05, 1e-5, 400)]) * np.pi
    along, across = np.sin(lean), np.cos(lean)
    pressed = np.maximum(along[:, None] + across[:, None] * np.cos(AROUND), 0.0) ** exponent
    axial, radial = (np.trapezoid(each, AROUND, axis=1) / np.pi for each in (pressed, pressed * np.cos(AROUND)))
    return np.sign(along) * np.abs(along) ** exponent / radial, axial / radial


def axial_of(*, depth: Any, radial: Any, exponent: float) -> Any:
    """The force along the axis of one bearing pressed by so much along it, under a load across [units of force].

    Args:
        depth: a, in units in which a to the power n is the force of the bearing without a load across.
        radial: load across over the tangent of the contact angle, not below 0.
        exponent: n, 1.5 for balls, 10/9 for rollers.
    Source: as the module.

    >>> round(float(axial_of(depth=0.0, radial=1000.0, exponent=1.5)))  # J_a/J_r at half the circle: 1.22
    1216
    >>> round(float(axial_of(depth=4000.0**(2 / 3), radial=0.0, exponent=1.5)))
    4000
    """
    depth, radial = np.broadcast_arrays(np.asarray(depth, float), np.asarray(radial, float))
    own = np.maximum(depth, 0.0) ** exponent
    pressed, along = _integrals(exponent)
    some = np.maximum(radial, 1e-12)
    ratio = np.sign(depth) * np.abs(depth) ** exponent / some
    loaded = np.interp(ratio, pressed, along) * some
    return np.where(ratio > pressed[-1], own, loaded)


def through_a_rigid_pair(*, preload_n: Any, radial_n: tuple[Any, Any], exponent: float) -> Any:
    """What goes along the axis through both of a pair that nothing gives around [N].

    Args:
        preload_n: what presses them together without the load [N], not below 0.
        radial_n: load across of each over the tangent of its contact angle [N], not below 0.
        exponent: n, 1.5 for balls, 10/9 for rollers.
    Source: as the module.

    >>> round(float(through_a_rigid_pair(preload_n=0.0, radial_n=(1000.0, 1000.0), exponent=1.5)))
    1216
    >>> round(float(through_a_rigid_pair(preload_n=50e3, radial_n=(1000.0, 1000.0), exponent=1.5)), -2)
    50000.0
    """
    start = np.asarray(preload_n, float) ** (1 / exponent)
    most = start + (4 * np.maximum(*radial_n) + 1.0) ** (1 / exponent)
    low, high = -most, most
    for _ in range(STEPS):
        shift = (low + high) / 2
        first = axial_of(depth=start + shift, radial=radial_n[0], exponent=exponent)
        more = first < axial_of(depth=start - shift, radial=radial_n[1], exponent=exponent)
        low, high = np.where(more, shift, low), np.where(more, high, shift)
    return axial_of(depth=start + (low + high) / 2, radial=radial_n[0], exponent=exponent)
