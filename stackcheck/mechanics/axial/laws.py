"""What an element between two faces does: its force and how steeply that changes.

Every law depends on e = x_b - x_a alone and comes from a convex energy U(e): the force F = dU/de never falls where e
grows. F > 0 draws the faces together (tension), F < 0 pushes them apart (compression N = -F). All functions take numbers
or arrays and return (F [N], dF/de [N/mm]) of the same shape.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf

import numpy as np

from stackcheck.value import Value

Array = np.ndarray
TOUCHING_MM = 1e-9
"""Faces so near count as touching where the slope is asked: sums of decimal fractions miss by less."""


def push(e: Array, length: Array, k: Array) -> tuple[Array, Array]:
    """A body that can only push: N = k (L - e), nothing once the joint is open."""
    stretched = e - length
    return k * np.minimum(stretched, 0.0), k * (stretched < TOUCHING_MM)


def both_ways(e: Array, length: Array, k: Array) -> tuple[Array, Array]:
    """One piece, or parts that cannot part: F = k (e - L)."""
    return k * (e - length), k + 0.0 * e


def pull(e: Array, length: Array, k: Array) -> tuple[Array, Array]:
    """A bolt or an axle, which can only pull: T = k (e - L)."""
    stretched = e - length
    return k * np.maximum(stretched, 0.0), k * (stretched > -TOUCHING_MM)


def constant(e: Array, force: Array) -> tuple[Array, Array]:
    """The same pull wherever the faces are: a joint while it is tightened to a torque."""
    none = 0.0 * e
    return force + none, none


def power(e: Array, start: Array, c: Array, exponent: Array, side: Array) -> tuple[Array, Array]:
    """A bearing of one direction: F = side · c (side (e - start))^n from where it touches; side is +1 or -1."""
    depth = np.maximum(side * (e - start), 0.0)
    touching = depth > 0
    safe = np.where(touching, depth, 1.0)
    return np.where(touching, side * c * safe**exponent, 0.0), np.where(touching, c * exponent * safe ** (exponent - 1), 0.0)


def groove(e: Array, middle: Array, distance: Array, contact: Array, zk: Array) -> tuple[Array, Array]:
    """A deep-groove ball bearing, its contact angle growing with the load.

    s = √(R² + e²) - A, F = Z K_n s^1.5 e/√(R² + e²), with A the distance of the groove centres, R = A cos α0 (`contact`
    is cos α0) and e counted from the middle.
    Source: Harris, Rolling Bearing Analysis, load distribution under thrust (from memory); the closed form derived here.
    """
    away = e - middle
    slant = np.hypot(distance * contact, away)
    depth, lean = np.maximum(slant - distance, 0.0), away / slant
    root = zk * np.sqrt(depth)
    across = depth * root / slant
    return across * away, across + (1.5 * root - across) * (lean * lean)


def disc(e: Array, height: Array, count: Array, thickness: Array, cone: Array, unit: Array) -> tuple[Array, Array]:
    """Nested disc springs: n·unit·(s/t) ((h0/t - s/t)(h0/t - s/2t) + 1) up to flat, then as stiff as when flat times 100.

    `height` is the free height of the group, `unit` = 4E t⁴/((1-ν²) K1 De²) of one spring [N], `cone` h0.
    Source: EN 16984, ex DIN 2092 (from memory).
    """
    s = np.clip(height - e, 0.0, cone)
    y, z = s / thickness, cone / thickness
    force = count * unit * y * ((z - y) * (z - y / 2) + 1)
    slope = count * unit / thickness * (z * z - 3 * z * y + 1.5 * y * y + 1)
    flat = np.maximum(height - e - cone, 0.0)
    stiff = 100 * count * unit / thickness * (1 + z * z)
    return -(force + stiff * flat), np.where(height - e > 0, np.where(flat > 0, stiff, slope), 0.0)


def crush(e: Array, length: Array, k: Array, yields_at: Array) -> tuple[Array, Array]:
    """A crush sleeve on the way in: elastic up to its force, then shortening at that force (nearly: 1/1000 of k)."""
    squeezed = np.maximum(length - e, 0.0)
    elastic = yields_at / k
    more = np.maximum(squeezed - elastic, 0.0)
    force = k * np.minimum(squeezed, elastic) + k / 1000 * more
    return -force, np.where(squeezed <= 0, 0.0, np.where(more > 0, k / 1000, k))


STIFFNESS = {
    push: slice(1, 2), both_ways: slice(1, 2), pull: slice(1, 2), power: slice(1, 3),
    groove: slice(1, 4, 2), disc: slice(1, 5), crush: slice(1, 3),
}  # fmt: skip
"""Which values of a law must be above 0."""

AS_CLOSED = {push: both_ways, pull: both_ways}
"""What a law is while its joint is taken as closed, or its bolt as taut."""

Law = Callable[..., tuple[Array, Array]]


class Element(Value, kw_only=True, eq=False):
    """One law between two named faces; `values` are the law's parameters in its sequence, numbers or one array each."""

    name: str
    a: str
    b: str
    law: Law
    values: tuple


def body(name: str, a: str, b: str, *, length: object, k: object) -> Element:
    """A tube, collar, washer, wall or stop between two faces [mm, N/mm]."""
    return Element(name=name, a=a, b=b, law=push, values=(length, k))


def held(name: str, a: str, b: str, *, length: object, k: object) -> Element:
    """A body that also pulls: one piece, a press fit that holds, a bracket [mm, N/mm]."""
    return Element(name=name, a=a, b=b, law=both_ways, values=(length, k))


def bolt(name: str, a: str, b: str, *, length: object, k: object) -> Element:
    """A bolt, stud or axle of this free length between head and nut face [mm, N/mm]."""
    return Element(name=name, a=a, b=b, law=pull, values=(length, k))


def tension(name: str, a: str, b: str, *, force: object) -> Element:
    """A pair of forces that draws two faces together [N]."""
    return Element(name=name, a=a, b=b, law=constant, values=(force,))


def one_way_bearing(name: str, inner: str, outer: str, *, start: object, c: object, exponent: object, side: int) -> Element:
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


def growth(law: Law, values: Array) -> Array | float:
    """The power of its depth that the force of each element of a law grows with, near enough; 1 where it grows evenly."""
    return values[2][0] if law is power else 1.5 if law is groove else 1.0


def free_stretch(element: Element, e: float) -> tuple[float, float]:
    """Between which e the force stays what it is: one point where the law is strict, a range where it is flat."""
    values = [float(np.ravel(value)[0]) for value in element.values]
    law = element.law
    if law is constant:
        return -inf, inf
    if law is push or law is disc or law is crush:
        return (values[0], inf) if e >= values[0] else (e, e)
    if law is pull:
        return (-inf, values[0]) if e <= values[0] else (e, e)
    if law is power:
        start, side = values[0], values[3]
        touching = side * (e - start) > 0
        return (e, e) if touching else (-inf, start) if side > 0 else (start, inf)
    if law is groove:
        middle, distance, contact, _ = values
        half = distance * float(np.sqrt(max(0.0, 1 - contact * contact)))
        return (middle - half, middle + half) if abs(e - middle) <= half else (e, e)
    return e, e
