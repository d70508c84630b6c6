"""What an element between two faces does: its force and how steeply that changes.

Every law depends on e = x_b - x_a alone and comes from a convex energy U(e): the force F = dU/de never falls where e
grows. F > 0 draws the faces together (tension), F < 0 pushes them apart (compression N = -F). All laws return
(F [N], dF/de [N/mm]), for arrays, or for one number each where `PLAIN` is given to them to calculate with. A law is
valid wherever its arguments are within their bounds, which `Element` and the network hold them to.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from math import inf
from typing import Any

import numpy as np
from msgspec.structs import force_setattr

from stackcheck.value import Value

Array = np.ndarray
TOUCHING_MM = 1e-9
"""Faces so near count as touching where the slope is asked: sums of decimal fractions miss by less."""

DRAWN_TOUCHING_MM = 1.0
"""Faces drawn so near are taken as touching in the first step towards the balance."""

NO_END_N = 1e300


class ARRAYS:
    """What the laws calculate with."""

    maximum, where, hypot, sqrt = np.maximum, np.where, np.hypot, np.sqrt

    @staticmethod
    def between(least: Array, value: Array, most: Array) -> Array:
        return np.minimum(np.maximum(value, least), most)


class PLAIN:
    """The same for plain numbers: with few of them, most of the time would go into calling numpy."""

    maximum, hypot, sqrt = max, math.hypot, math.sqrt

    @staticmethod
    def where(condition: bool, yes: float, no: float) -> float:
        return yes if condition else no

    @staticmethod
    def between(least: float, value: float, most: float) -> float:
        return least if value < least else min(value, most)


def spring(e: Array, length: Array, k: Array, least: Array, most: Array, by: Any = ARRAYS) -> tuple[Array, Array]:
    """A straight spring whose force has two ends: F = k (e - L), not below `least` and not above `most` [N].

    A body can only push: it ends at 0, where the joint opens. A bolt can only pull, and begins at 0. What is one piece,
    or cannot part, has no end. A joint while it is tightened to a torque pulls the same wherever the faces are: both
    ends are its tension, and k is never seen.

    Args:
        e: distance of the two faces [mm], any.
        length: free length L [mm], any.
        k: stiffness [N/mm], above 0.
        least, most: ends of the force [N], least not above most.
        by: what it calculates with.
    Source: elementary (Hooke's law).

    >>> spring(49.99, 50.0, 1e6, -NO_END_N, 0.0, PLAIN)  # pressed by a hundredth: 1e6 x 0.01
    (-9999.99999999801, 1000000.0)
    >>> spring(50.02, 50.0, 1e6, -NO_END_N, 0.0, PLAIN)  # open
    (0.0, 0.0)
    """
    straight = k * (e - length)
    force = by.between(least, straight, most)
    return force, k * (abs(straight - force) < k * TOUCHING_MM)


def as_drawn(e: Array, length: Array, k: Array, least: Array, most: Array, by: Any = ARRAYS) -> tuple[Array, Array]:
    """A spring in the first step towards the balance: hardly beyond its end, it is taken as not beyond it.

    Args:
        e, length: distance of the two faces and free length [mm], any.
        k: stiffness [N/mm], above 0.
        least, most: ends of the force [N], least not above most.
        by: what it calculates with.
    Source: derived here; the last steps take `spring` itself, so that no answer rests on it.

    >>> as_drawn(50.02, 50.0, 1e6, -NO_END_N, 0.0, PLAIN)[1]  # open by less than `DRAWN_TOUCHING_MM`: as if it touched
    1000000.0
    """
    straight = k * (e - length)
    force = by.between(least, straight, most)
    touches = abs(straight - force) < k * DRAWN_TOUCHING_MM
    return by.where(touches, straight, force), k * touches


def power(e: Array, start: Array, c: Array, exponent: Array, side: Array, by: Any = ARRAYS) -> tuple[Array, Array]:
    """A bearing of one direction: F = side · c (side (e - start))^n from where it touches;
    n above 1, side is +1 or -1.

    Args:
        e: distance of the mid faces of the two rings [mm], any.
        start: e at which the rolling elements touch [mm], any.
        c: stiffness constant [N/mm^n], above 0.
        exponent: n, 1.5 for balls and 10/9 for rollers.
        side: +1 where it carries when e grows, -1 where it does when e falls.
        by: what it calculates with.
    Source: Palmgren; Harris, Rolling Bearing Analysis (from memory).

    >>> power(0.04, 0.0, 125e3, 1.5, 1, PLAIN)  # 125 000 x 0.04^1.5 = 1000, slope 1.5 x 1000 / 0.04
    (1000.0, 37500.0)
    """
    depth = by.maximum(side * (e - start), 0.0)
    slope = c * exponent * depth ** (exponent - 1)
    return side * slope * depth / exponent, slope


def groove(
    e: Array, middle: Array, distance: Array, contact: Array, zk: Array, by: Any = ARRAYS
) -> tuple[Array, Array]:
    """A deep-groove ball bearing, its contact angle growing with the load.

    s = √(R² + e²) - A, F = Z K_n s^1.5 e/√(R² + e²), with A the distance of the groove centres, R = A cos α0 (`contact`
    is cos α0) and e counted from the middle.

    Args:
        e, middle: distance of the mid faces of the two rings, and that at which the play is shared evenly [mm], any.
        distance: A [mm], above 0.
        contact: cos α0, above 0 and not above 1.
        zk: Z K_n [N/mm^1.5], above 0.
        by: what it calculates with.
    Source: Harris, Rolling Bearing Analysis, load distribution under thrust (from memory);
    the closed form derived here.

    >>> force, _ = groove(0.4, 0.0, 0.4, 0.75, 1e6, PLAIN)  # R 0.3, √(R² + e²) 0.5, s 0.1: 1e6 x 0.0316 x 0.8
    >>> round(force)
    25298
    """
    away = e - middle
    slant = by.hypot(distance * contact, away)
    depth, lean = by.maximum(slant - distance, 0.0), away / slant
    root = zk * by.sqrt(depth)
    across = depth * root / slant
    return across * away, across + (1.5 * root - across) * (lean * lean)


def disc(
    e: Array, height: Array, count: Array, thickness: Array, cone: Array, unit: Array, by: Any = ARRAYS
) -> tuple[Array, Array]:
    """Nested disc springs: n·unit·(s/t) ((h0/t - s/t)(h0/t - s/2t) + 1) up to flat,
    then as stiff as when flat times 100.

    Args:
        e: height left to the group [mm], any.
        height: its free height [mm].
        count: springs nested in it n, with what friction adds, above 0.
        thickness, cone: t and h0 of one [mm], above 0; h0/t not above √2, so that the force never falls.
        unit: 4E t⁴/((1-ν²) K1 De²) of one [N] (`stackcheck.mechanics.axial.springs.disc_unit`).
        by: what it calculates with.

    Valid up to about 0.75 h0 (EN 16984). Left out: contact flats.
    Source: EN 16984, ex DIN 2092 (from memory).

    >>> force, _ = disc(2.5, 3.5, 1.0, 2.0, 1.5, 8000.0, PLAIN)  # s/t 0.5, h0/t 0.75: 4000 (0.25 x 0.5 + 1)
    >>> force
    -4500.0
    """
    s = by.between(0.0, height - e, cone)
    y, z = s / thickness, cone / thickness
    force = count * unit * y * ((z - y) * (z - y / 2) + 1)
    slope = count * unit / thickness * (z * z - 3 * z * y + 1.5 * y * y + 1)
    flat = by.maximum(height - e - cone, 0.0)
    stiff = 100 * count * unit / thickness * (1 + z * z)
    return -(force + stiff * flat), by.where(height - e > 0, by.where(flat > 0, stiff, slope), 0.0)


def crush(e: Array, length: Array, k: Array, yields_at: Array, by: Any = ARRAYS) -> tuple[Array, Array]:
    """A crush sleeve on the way in: elastic up to its force, then shortening at that force (nearly: 1/1000 of k).

    Args:
        e: distance of its two faces [mm], any.
        length: its free length [mm].
        k: stiffness before it yields [N/mm], above 0.
        yields_at: the force at which it goes on shortening [N], above 0.
        by: what it calculates with.

    Valid on the way in. Left out: springing back, and a force that grows while it is crushed.
    Source: common practice, no source.

    >>> crush(50.0, 50.5, 100e3, 20e3, PLAIN)  # 0.2 elastic, then 0.3 more at 100 N/mm
    (-20030.0, 100.0)
    """
    squeezed = by.maximum(length - e, 0.0)
    elastic = yields_at / k
    more = by.maximum(squeezed - elastic, 0.0)
    force = k * by.between(0.0, squeezed, elastic) + k / 1000 * more
    return -force, by.where(squeezed <= 0, 0.0, by.where(more > 0, k / 1000, k))


STIFFNESS = {
    spring: slice(1, 2), power: slice(1, 3), groove: slice(1, 4, 2), disc: slice(1, 5), crush: slice(1, 3),
}  # fmt: skip
"""Which values of a law must be above 0."""

AS_DRAWN = {spring: as_drawn}
"""What a law is in the first step."""

GROWTH = {power: lambda values: values[2], groove: lambda values: 1.5}
"""The power of its depth that the force of a bearing grows with, near enough;
the force of everything else grows evenly.
"""

Law = Callable[..., tuple[Array, Array]]


class Element(Value, kw_only=True, eq=False):
    """One law between two named faces; `values` are the law's parameters in its sequence, numbers or one array each.

    A single number that numpy holds becomes a plain one: with few of them, calculating takes several times as long.
    """

    name: str
    a: str
    b: str
    law: Law
    values: tuple

    def __post_init__(self) -> None:
        force_setattr(self, "values", (*map(_plain, self.values),))


def _plain(value: Any) -> Any:
    return value.item() if isinstance(value, np.ndarray | np.generic) and value.size == 1 else value


def body(name: str, a: str, b: str, *, length: object, k: object) -> Element:
    """A tube, collar, washer, wall or stop between two faces [mm, N/mm]."""
    return Element(name=name, a=a, b=b, law=spring, values=(length, k, -NO_END_N, 0.0))


def held(name: str, a: str, b: str, *, length: object, k: object) -> Element:
    """A body that also pulls: one piece, a press fit that holds, a bracket [mm, N/mm]."""
    return Element(name=name, a=a, b=b, law=spring, values=(length, k, -NO_END_N, NO_END_N))


def bolt(name: str, a: str, b: str, *, length: object, k: object) -> Element:
    """A bolt, stud or axle of this free length between head and nut face [mm, N/mm]."""
    return Element(name=name, a=a, b=b, law=spring, values=(length, k, 0.0, NO_END_N))


def tension(name: str, a: str, b: str, *, force: object) -> Element:
    """A pair of forces that draws two faces together [N]."""
    return Element(name=name, a=a, b=b, law=spring, values=(0.0, 1.0, force, force))


def one_way_bearing(
    name: str, inner: str, outer: str, *, start: object, c: object, exponent: object, side: int
) -> Element:
    """An angular or taper bearing from mid face of the inner to mid face of the outer ring.

    Args:
        start: e at which the rolling elements touch [mm].
        c: stiffness constant [N/mm^exponent]; exponent 1.5 for balls, 10/9 for tapers.
        side: +1 where it carries when the outer ring is drawn to the right of the inner one, else -1.
    """
    return Element(name=name, a=inner, b=outer, law=power, values=(start, c, exponent, side))


def deep_groove(
    name: str, inner: str, outer: str, *, distance: object, cos_free_angle: object, zk: object, middle: object = 0.0
) -> Element:
    """A deep-groove ball bearing from mid face to mid face: A [mm], cos α0, Z·K_n [N/mm^1.5]."""
    return Element(name=name, a=inner, b=outer, law=groove, values=(middle, distance, cos_free_angle, zk))


def free_stretch(element: Element, e: float) -> tuple[float, float]:
    """Between which e the force stays what it is: one point where the law is strict, a range where it is flat."""
    values = [float(np.ravel(value)[0]) for value in element.values]
    law = element.law
    if law is spring:
        length, k, least, most = values
        if least == most:
            return -inf, inf
        force = k * (e - length)
        return (-inf, length + least / k) if force <= least else (length + most / k, inf) if force >= most else (e, e)
    if law is disc or law is crush:
        return (values[0], inf) if e >= values[0] else (e, e)
    if law is power:
        start, side = values[0], values[3]
        touching = side * (e - start) > 0
        return (e, e) if touching else (-inf, start) if side > 0 else (start, inf)
    middle, distance, contact, _ = values
    half = distance * float(np.sqrt(max(0.0, 1 - contact * contact)))
    return (middle - half, middle + half) if abs(e - middle) <= half else (e, e)
