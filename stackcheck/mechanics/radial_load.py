"""What a load across does along the axis: the rings of an angular or taper bearing are pushed apart by their own slant.

Balls and rollers carry along their contact angle, so a load across leaves a force along the axis, F_a, as if somebody
pushed. Where the pair has play, the member moves over until the other bearing takes F_a up; where it has less preload
than F_a, fewer than half of the balls or rollers of the loaded bearing carry, and the other one may let go.

Left out: tilt, and how a load across is shared between the two bearings: `radial_n` is that of one (`load_across`).
Source: Palmgren and Harris, Rolling Bearing Analysis, load distribution (integrals J_r and J_a at ε = 0.5, half of the
circle loaded); F_a = 0.5 F_r/Y of taper bearings: SKF General Catalogue, which with Y = 0.4 cot α comes to 1.25 F_r tan
α.
"""

from __future__ import annotations

from math import gamma, pi, sqrt
from typing import Any

import numpy as np

from stackcheck.mechanics.bearing_laws import BALLS, ROLLERS, contact_angle
from stackcheck.mechanics.bodies import Missing, called
from stackcheck.mechanics.static_limit import StaticLimit, rating_limit
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.part import SINGLE_DIRECTION_KINDS, Part
from stackcheck.model.reference import Reference
from stackcheck.value import Value

GOOD_TO = (0.9, 1.0, 1.1)
"""The zone that carries is half of the circle near enough, and catalogues round their factors:
a guess of ours, no source.
"""


class SelfThrust(Value, kw_only=True):
    """What a load across on one bearing leaves along the axis [N]; `thrust_n` None where `needs` is missing, and where
    the load is `beyond` its static rating.
    """

    place: str
    bearing: str
    radial_n: float
    thrust_n: Spanned | None = None
    beyond: StaticLimit | None = None
    needs: tuple[str, ...] = ()


def thrust_of_radial(*, radial_n: Any, contact_deg: Any, exponent: float) -> Any:
    """Axial force that a radial load makes inside an angular or taper bearing, half of its circle loaded [N].

    F_a = F_r tan α · J_a/J_r
    J_a/J_r = ∫ cosⁿψ dψ / ∫ cosⁿ⁺¹ψ dψ over the loaded half: 1.22 for balls, 1.26 for rollers

    Args:
        radial_n: load across the axis [N], a number or an array.
        contact_deg: contact angle [degrees], a number or an array.
        exponent: n of F = c δⁿ, 1.5 for balls, 10/9 for rollers.

    Valid for one bearing without preload, half of its circle loaded.
    Source: Harris, Rolling Bearing Analysis, radial and axial load integrals at ε = 0.5 (from memory).

    >>> round(float(thrust_of_radial(radial_n=1000, contact_deg=40, exponent=1.5)))
    1020
    """
    return radial_n * np.tan(np.radians(contact_deg)) * thrust_at_half(exponent)


def thrust_at_half(exponent: float) -> float:
    """J_a/J_r with half of the circle loaded."""
    return _cosine_integral(exponent) / _cosine_integral(exponent + 1)


def _cosine_integral(power: float) -> float:
    """∫ cosⁿψ dψ from -90 to 90 degrees: √π Γ((n+1)/2)/Γ(n/2 + 1)."""
    return sqrt(pi) * gamma((power + 1) / 2) / gamma(power / 2 + 1)


def self_thrusts(reference: Reference, radial_n: float) -> tuple[SelfThrust, ...]:
    """Each bearing of one direction, under this load across [N]."""
    places = dict.fromkeys(place for stack in reference.stacks for place in stack.places)
    return tuple(
        _of(reference.part_at(place), place, radial_n)
        for place in places
        if reference.part_at(place).kind in SINGLE_DIRECTION_KINDS
    )


def thrust_inside(unknowns: Unknowns, part: Part, radial_n: Any) -> Any:
    """The force along the axis that a load across leaves in one bearing [N], nothing in one without a slant."""
    if part.kind not in SINGLE_DIRECTION_KINDS:
        return 0.0 * radial_n
    exponent, angle = ROLLERS if part.kind == "taper bearing" else BALLS, contact_angle(unknowns, part)
    share = unknowns.value("share of the circle that carries", *GOOD_TO)
    return share * thrust_of_radial(radial_n=radial_n, contact_deg=angle, exponent=exponent)


def _of(part: Part, place: str, radial_n: float) -> SelfThrust:
    limit = rating_limit(part)
    if limit is not None and radial_n > limit.force_n:
        return SelfThrust(place=place, bearing=part.name, radial_n=radial_n, beyond=limit)
    try:
        unknowns, thrust = with_variants(lambda u: thrust_inside(u, part, radial_n), whose=(called(part),))
    except Missing as problem:
        return SelfThrust(place=place, bearing=part.name, radial_n=radial_n, needs=tuple(map(str, problem.args)))
    return SelfThrust(place=place, bearing=part.name, radial_n=radial_n, thrust_n=unknowns.spanned(thrust))
