"""The axial force above which a bearing's static rating is used up, estimated: past it no preload is told.

A rating that nobody gives is estimated from the same guesses of the inside as the law of force, at their usual values,
so that it is good to a quarter at best: enough to say where a figure must not stand.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from math import cos, radians, tan

import numpy as np

from stackcheck.mechanics.axial.bearings import estimated_taper
from stackcheck.mechanics.bearing_laws import TAPER_DEG, angular_inside, contact_deg, deep_groove_inside
from stackcheck.mechanics.bodies import Missing
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.value import Value

BALLS_FACTOR = 13.0
"""f0 in C0r = f0 Z D_w² cos α [N, mm]: ISO 76 (from memory)."""

ROLLERS_FACTOR = 44.0
"""The factor of C0r = 44 (1 - D_we cos α/D_pw) Z L_we D_we cos α [N, mm]: ISO 76 (from memory)."""

ROLLER_OF_SECTION = 0.24
"""Roller diameter over (D - d) of a taper bearing: as in `estimated_taper`."""

Y0_BY_DEG = {15: 0.46, 20: 0.42, 25: 0.38, 30: 0.33, 35: 0.29, 40: 0.26, 45: 0.22}
"""Axial factor of single angular bearings in P0 = 0.5 F_r + Y0 F_a: ISO 76 (from memory)."""


class StaticLimit(Value, kw_only=True):
    """An axial force [N], and what it is: "half of an estimated static rating"."""

    force_n: float
    called: str

    @property
    def is_given(self) -> bool:
        return self.called in (GIVEN_HALF, GIVEN_QUARTER, GIVEN_ALONG, GIVEN_RATING)


GIVEN_HALF = "half of its static rating"
GIVEN_QUARTER = "a quarter of its static rating"
GIVEN_ALONG = "its static rating along the axis"
HALF = "half of an estimated static rating"
QUARTER = "a quarter of an estimated static rating"
ALONG = "an estimated static rating along the axis"
GIVEN_RATING = "its static rating C0"
RATING = "an estimated static rating C0"


SMALL_MM = 12.0
LIGHT = re.compile(r"(60|160|618|619|68|69)\d\d(?!\d)")
"""Numbers of the diameter series 8, 9, 0 and 1 among deep-groove bearings (ISO 15)."""


def is_light(part: Part) -> bool:
    """Whether a deep-groove bearing is one of those that carry only half as much along their axis as others:
    a bore of up to 12 mm, or by its number one of a light series (SKF General Catalogue, read).

    >>> from stackcheck.model.part import Part
    >>> [is_light(Part(id="b", name="b", kind="ball bearing", standard=number)) for number in ("6004 C3", "6204", "61804")]
    [True, False, True]
    """
    bore = part.size("bore")
    return bore is not None and bore.nominal_mm <= SMALL_MM or bool(LIGHT.match(part.standard.strip()))


def static_limit(part: Part) -> StaticLimit | None:
    """The axial force that a bearing's estimated static rating allows; None where its kind or its sizes tell none.

    Deep groove: half of C0, of a light or small one a quarter, pure axial load (SKF General Catalogue, read). Angular
    and taper: C0/Y0, where the equivalent static load P0 = Y0 F_a without radial load reaches C0 (ISO 76, from memory);
    Y0 = 0.22 cot α for rollers.
    """
    rating, factors, is_given = static_rating(part), static_factors(part), part.static_rating is not None
    if rating is None or factors is None:
        return None
    if part.kind == "ball bearing":
        if is_light(part):
            return StaticLimit(force_n=0.25 * rating, called=GIVEN_QUARTER if is_given else QUARTER)
        return StaticLimit(force_n=0.5 * rating, called=GIVEN_HALF if is_given else HALF)
    return StaticLimit(force_n=rating / factors[1], called=GIVEN_ALONG if is_given else ALONG)


def static_rating(part: Part) -> float | None:
    """C0 of a bearing [N]: as the reference gives it, else estimated from its sizes; None where neither tells one."""
    if part.static_rating is not None:
        return part.static_rating.nominal
    bore, outside, width = (size and size.nominal_mm for size in map(part.size, ("bore", "outside", "length")))
    if bore is None or outside is None:
        return None
    if part.kind == "ball bearing":
        inside = deep_groove_inside(part)
        return BALLS_FACTOR * inside.balls * inside.ball_mm**2
    if part.kind == "angular bearing":
        try:
            balls, ball, angle = angular_inside(part)
        except Missing:
            return None
        return BALLS_FACTOR * balls * ball**2 * cos(radians(angle))
    if part.kind == "taper bearing" and (width is not None or part.size("roller_length") and part.rollers):
        return _taper(part, bore, outside, width)
    return None


def rating_limit(part: Part) -> StaticLimit | None:
    """C0 itself, the load across that uses it up: P0 is at least F_r (ISO 76, from memory)."""
    rating = static_rating(part)
    if rating is None:
        return None
    return StaticLimit(force_n=rating, called=RATING if part.static_rating is None else GIVEN_RATING)


def static_factors(part: Part) -> tuple[float, float] | None:
    """X0 and Y0 of P0 = X0 F_r + Y0 F_a, at least F_r: ISO 76 (from memory);
    None for another kind, and where no contact angle is told.
    """
    if part.kind == "ball bearing":
        return 0.6, 0.5
    if part.kind == "angular bearing" and (angle := contact_deg(part)) is not None:
        return 0.5, float(np.interp(angle, list(Y0_BY_DEG), list(Y0_BY_DEG.values())))
    if part.kind == "taper bearing":
        angle = part.contact_angle.nominal if part.contact_angle is not None else TAPER_DEG[1]
        return 0.5, 0.22 / tan(radians(angle))
    return None


def _taper(part: Part, bore_mm: float, outside_mm: float, width_mm: float | None) -> float:
    said = part.size("roller_length")
    guess = estimated_taper(bore_mm=bore_mm, outside_mm=outside_mm, width_mm=width_mm or said.nominal_mm)
    rollers, length = (
        part.rollers or guess.rollers.usual,
        said.nominal_mm if said is not None else guess.roller_mm.usual,
    )
    angle = radians(part.contact_angle.nominal if part.contact_angle is not None else TAPER_DEG[1])
    roller, pitch = ROLLER_OF_SECTION * (outside_mm - bore_mm), (bore_mm + outside_mm) / 2
    return ROLLERS_FACTOR * (1 - roller * cos(angle) / pitch) * rollers * length * roller * cos(angle)


def least_limit(reference: Reference, places: Iterable[str]) -> StaticLimit | None:
    """Of the two bearings, that of the one whose static rating is used up first."""
    limits = [limit for place in places if (limit := static_limit(reference.part_at(place))) is not None]
    return min(limits, key=lambda limit: limit.force_n, default=None)
