"""Ball and taper bearings seen along the axis: play, contact angle, stiffness, and what is only estimated.

Catalogues give bore, outside, width and a clearance group; balls and grooves are estimated from these with the margins
found in the sources named, and always as a range.
"""

from __future__ import annotations

from math import asin, degrees, pi, radians, sin, sqrt, tan
from typing import Any

from stackcheck.mechanics.axial.stiffness import _above_nothing
from stackcheck.value import Value

STEEL_MPA, POISSON = 206e3, 0.3

NEARLY_ROUND, SLIMMEST = 1 + 1e-6, 1e3
"""Between which the long axis of the contact of a ball is longer than its short one."""


class Range(Value, kw_only=True):
    """A value that is not known to a point."""

    least: float
    usual: float
    most: float


class BallBearing(Value, kw_only=True):
    """The inside of a deep-groove or angular bearing:
    balls, their size [mm], pitch diameter [mm], groove distance A [mm].
    """

    balls: int
    ball_mm: float
    pitch_mm: float
    groove_distance_mm: float

    @property
    def osculation(self) -> float:
        """Groove radius over ball diameter, both grooves alike: A = (2f - 1) D_w."""
        return (self.groove_distance_mm / self.ball_mm + 1) / 2


def estimated_deep_groove(*, bore_mm: float, outside_mm: float) -> BallBearing:
    """What a deep-groove bearing most likely holds inside, from its boundary dimensions.

    D_w = 0.30 (D - d), d_m = (d + D)/2, Z = round(1 + 97.5°/asin(D_w/d_m)), A = 0.0345 D_w

    Args:
        bore_mm, outside_mm: bore d and outside diameter D [mm], D above d.
    Raises:
        ValueError: sizes not above 0 or the wrong way round.

    Good to: ball diameter ±6 %, count ±1, A ±15 % (the spread found over 20 sizes of Table 15.4).
    Source: derived from NSK, Rolling Bearings catalogue, Table 15.4, and common boundary dimensions.

    >>> inside = estimated_deep_groove(bore_mm=20, outside_mm=47)
    >>> inside.balls, round(inside.ball_mm, 2), round(inside.groove_distance_mm, 3)
    (8, 8.1, 0.279)
    """
    _above_nothing(bore_mm=bore_mm, ring_mm=outside_mm - bore_mm)
    ball, pitch = 0.30 * (outside_mm - bore_mm), (bore_mm + outside_mm) / 2
    balls = round(1 + 97.5 / degrees(asin(ball / pitch)))
    return BallBearing(balls=balls, ball_mm=ball, pitch_mm=pitch, groove_distance_mm=0.0345 * ball)


class TaperBearing(Value, kw_only=True):
    """What a taper bearing most likely holds: how many rollers, and their effective length [mm]."""

    rollers: Range
    roller_mm: Range


def estimated_taper(*, bore_mm: float, outside_mm: float, width_mm: float) -> TaperBearing:
    """Rollers of a taper bearing from its boundary dimensions, as ranges.

    D_r = 0.24 (D - d), d_m = (d + D)/2, Z = π d_m/(1.1 D_r) ±15 %, L_we = 0.6 T ±20 %

    Args:
        bore_mm, outside_mm: bore d and outside diameter D [mm], D above d.
        width_mm: width T over both rings [mm], above 0.
    Raises:
        ValueError: sizes not above 0 or the wrong way round.

    Good to: with a contact angle that is guessed too, a factor of two of the stiffness.
    Source: common proportions of the 302 and 322 series (from memory, no source).

    >>> inside = estimated_taper(bore_mm=25, outside_mm=52, width_mm=16.25)
    >>> round(inside.rollers.usual, 1), round(inside.roller_mm.usual, 2)
    (17.0, 9.75)
    """
    _above_nothing(bore_mm=bore_mm, ring_mm=outside_mm - bore_mm, width_mm=width_mm)
    rollers = pi * (bore_mm + outside_mm) / 2 / (1.1 * 0.24 * (outside_mm - bore_mm))
    length = 0.6 * width_mm
    return TaperBearing(
        rollers=Range(least=0.85 * rollers, usual=rollers, most=1.15 * rollers),
        roller_mm=Range(least=0.8 * length, usual=length, most=1.2 * length),
    )


def cos_free_angle(*, groove_distance_mm: float, radial_clearance_mm: float) -> float:
    """Cosine of the contact angle at which the balls just touch: 1 - G_r/(2A).

    Args:
        groove_distance_mm: A [mm], above 0.
        radial_clearance_mm: G_r in diameter [mm], 0 <= G_r < 2A.
    Raises:
        ValueError: an argument outside its bounds.

    Source: NSK, Rolling Bearings catalogue, section 15.3.

    >>> round(cos_free_angle(groove_distance_mm=0.2809, radial_clearance_mm=0.010), 4)  # 6205: 10.8 degrees
    0.9822
    """
    _above_nothing(groove_distance_mm=groove_distance_mm)
    if not 0 <= radial_clearance_mm < 2 * groove_distance_mm:
        raise ValueError(
            f"the radial clearance is {radial_clearance_mm}, it must be 0 to below {2 * groove_distance_mm}"
        )
    return 1 - radial_clearance_mm / (2 * groove_distance_mm)


def axial_play(*, groove_distance_mm: float, radial_clearance_mm: float) -> float:
    """Total axial play of one deep-groove bearing [mm]: 2 √(A G_r - G_r²/4).

    Args, errors: as for `cos_free_angle`.
    Source: NSK, Rolling Bearings catalogue, section 15.3: about K √G_r with K = 2√A.

    >>> round(axial_play(groove_distance_mm=(1.06 / 2) ** 2, radial_clearance_mm=0.010), 4)  # 6205: about 0.106
    0.1055
    """
    cosine = cos_free_angle(groove_distance_mm=groove_distance_mm, radial_clearance_mm=radial_clearance_mm)
    return 2 * groove_distance_mm * sqrt(1 - cosine**2)


def hertz_stiffness(bearing: BallBearing, *, contact_deg: float) -> float:
    """K_n of one ball between its two grooves [N/mm^1.5], Hertz point contact with the exact elliptic integrals.

    γ = D_w cos α/d_m; curvatures of the races ±2γ/(D_w(1∓γ)), of the grooves -1/(f D_w);
    F(ρ) = ((κ²+1)E - 2K)/((κ²-1)E); δ = δ* (3Q(1-ν²)/(E Σρ))^(2/3) Σρ/2; K_n = (K_i^(-2/3) + K_e^(-2/3))^(-1.5)

    Args:
        bearing: balls, their diameter, pitch diameter and groove distance [mm], each above 0.
        contact_deg: contact angle [degrees], which hardly moves it.
    Raises:
        ValueError: an argument outside its bounds.

    Good to about 10 % even where the inside is known.
    Source: Harris, Rolling Bearing Analysis, contact stress and deformation (from memory).

    >>> round(hertz_stiffness(estimated_deep_groove(bore_mm=20, outside_mm=47), contact_deg=15) / 1000)
    310
    """
    _above_nothing(balls=bearing.balls, ball_mm=bearing.ball_mm, groove_distance_mm=bearing.groove_distance_mm)
    gamma = bearing.ball_mm * _cos(contact_deg) / bearing.pitch_mm
    inner = _race_stiffness(bearing, 2 * gamma / (bearing.ball_mm * (1 - gamma)))
    outer = _race_stiffness(bearing, -2 * gamma / (bearing.ball_mm * (1 + gamma)))
    return (inner ** (-2 / 3) + outer ** (-2 / 3)) ** -1.5


def _race_stiffness(bearing: BallBearing, race: float) -> float:
    ball, groove = 2 / bearing.ball_mm, -1 / (bearing.osculation * bearing.ball_mm)
    total = 2 * ball + race + groove
    wanted = abs(race - groove) / total
    ratio, slimmer = NEARLY_ROUND, SLIMMEST
    while ratio < (middle := sqrt(ratio * slimmer)) < slimmer:
        first, second = elliptic_integrals(1 - 1 / middle**2)
        bends = ((middle**2 + 1) * second - 2 * first) / ((middle**2 - 1) * second)
        ratio, slimmer = (middle, slimmer) if bends < wanted else (ratio, middle)
    first, second = elliptic_integrals(1 - 1 / ratio**2)
    reduced = 2 * first / pi * (pi / (2 * ratio**2 * second)) ** (1 / 3)
    compliance = reduced * (3 * (1 - POISSON**2) / (STEEL_MPA * total)) ** (2 / 3) * total / 2
    return compliance**-1.5


def elliptic_integrals(m: float) -> tuple[float, float]:
    """The complete elliptic integrals K and E of the parameter m = k², by the arithmetic-geometric mean.

    K = π/(2a), E = K (1 - Σ 2^(n-1) c_n²), c_0² = m, c_(n+1) = (a_n - b_n)/2

    Args:
        m: the parameter, from 0 to below 1.
    Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 17.6 (from memory).

    >>> [round(integral, 6) for integral in elliptic_integrals(0.5)]
    [1.854075, 1.350644]
    """
    a, b, gone, share = 1.0, sqrt(1 - m), m / 2, 0.5
    while a - b > 1e-15 * a:
        share *= 2
        gone += share * ((a - b) / 2) ** 2
        a, b = (a + b) / 2, sqrt(a * b)
    first = pi / (2 * a)
    return first, first * (1 - gone)


def palmgren_balls(*, balls: int, ball_mm: float, contact_deg: float) -> float:
    """c of an angular ball bearing in F = c δ^1.5 [N/mm^1.5]: Z sin α (sin α/4.36e-4)^1.5 √D_w.

    Args:
        balls: how many.
        ball_mm: their diameter [mm].
        contact_deg: contact angle [degrees], above 0, below 90.
    Raises:
        ValueError: an argument outside its bounds.

    Source: Palmgren, Ball and Roller Bearing Engineering;
    the constant as in NSK, Rolling Bearings catalogue, 15.1 (0.00044).

    >>> round(palmgren_balls(balls=13, ball_mm=7.14, contact_deg=15))
    130033
    """
    _above_nothing(balls=balls, ball_mm=ball_mm, contact_deg=contact_deg, below_upright_deg=90 - contact_deg)
    slope = sin(radians(contact_deg))
    return balls * slope * (slope / 4.36e-4) ** 1.5 * sqrt(ball_mm)


def palmgren_tapers(*, rollers: int, roller_mm: float, contact_deg: float) -> float:
    """c of a taper roller bearing in F = c δ^(10/9) [N/mm^(10/9)]: Z sin α (sin α L_we^0.8/7.68e-5)^(10/9).

    Args:
        rollers: how many.
        roller_mm: effective length L_we [mm].
        contact_deg: contact angle of the outer race [degrees].
    Raises:
        ValueError: an argument outside its bounds.

    Good to a factor of two where rollers and angle are guessed.
    Source: Palmgren; NSK, Rolling Bearings catalogue, 15.1 (0.000077).

    >>> round(palmgren_tapers(rollers=17, roller_mm=10, contact_deg=12.95))
    208868
    """
    _above_nothing(rollers=rollers, roller_mm=roller_mm, contact_deg=contact_deg, below_upright_deg=90 - contact_deg)
    slope = sin(radians(contact_deg))
    return rollers * slope * (slope * roller_mm**0.8 / 7.68e-5) ** (10 / 9)


def unloads_at(preload_n: Any, exponent: float) -> Any:
    """The load on one of an equal preloaded pair at which the other lets go [N]: 2^n F0.

    2.83 F0 for balls (n = 1.5), 2.16 F0 for tapers (n = 10/9), 2 F0 for linear springs.

    Args:
        preload_n: preload F0 of the pair [N], not below 0.
        exponent: n in F = c δ^n, 1 or more.
    Source: SNFA precision bearing catalogue, limiting axial load; SKF General Catalogue, preload.

    >>> round(unloads_at(100, 1.5)), round(unloads_at(100, 10 / 9))
    (283, 216)
    """
    return 2**exponent * preload_n


def axial_from_radial(*, radial_mm: float, contact_deg: float) -> float:
    """What a change of a race's diameter is along the axis [mm]: Δd/(2 tan α).

    Args:
        radial_mm: change of the race's diameter Δd [mm], of either sign.
        contact_deg: contact angle [degrees], above 0, below 90.
    Raises:
        ValueError: an angle outside its bounds.

    Source: geometry.

    >>> round(axial_from_radial(radial_mm=0.001, contact_deg=15), 4)
    0.0019
    """
    _above_nothing(contact_deg=contact_deg, below_upright_deg=90 - contact_deg)
    return radial_mm / (2 * tan(radians(contact_deg)))


def _cos(angle_deg: float) -> float:
    return sin(radians(90 - angle_deg))
