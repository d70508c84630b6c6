"""The balls or rollers of a bearing as a law between its two rings, from what the reference says of its inside.

What the reference does not say is estimated from bore, outside diameter and width, always as a range and by name, so
that an answer can say which guess moves it most. A contact angle of an angular bearing is never guessed: from 25 to 40
degrees the stiffness nearly triples.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.axial.bearings import (
    BallBearing,
    estimated_deep_groove,
    estimated_taper,
    hertz_stiffness,
    palmgren_balls,
    palmgren_tapers,
)
from stackcheck.mechanics.axial.laws import Element, deep_groove, one_way_bearing
from stackcheck.mechanics.bodies import Missing, called
from stackcheck.mechanics.faces import wide_end
from stackcheck.mechanics.heat import along
from stackcheck.mechanics.lengths import Interval, Ruler
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.finding import Standing
from stackcheck.model.part import SINGLE_DIRECTION_KINDS, Part
from stackcheck.value import replace

BALLS, ROLLERS = 1.5, 10 / 9
"""Exponents of F = c δ^n: point contact (Hertz), line contact (Palmgren)."""

CONTACT_DEG = {"B": 40.0, "AC": 25.0, "C": 15.0}
"""Contact angle by the suffix of an angular bearing, as makers' catalogues use them (from memory)."""

BALL_OF_SECTION = 0.303
BALL_PITCH_OVER_BALL = 1.30
"""Angular bearings: ball over (D - d), and distance of balls over ball:
SNFA precision catalogue, EX series (24 sizes).
"""

TAPER_DEG = (10.0, 13.0, 16.0)
"""Contact angle of a taper bearing that nobody gives: the common angle series of ISO 355 (from memory)."""

LAW_GOOD_TO = 0.10
"""Palmgren, full Hertz and catalogue constants differ by this much even where the inside is known."""


def pushed(ruler: Ruler, standing: Standing) -> str:
    """The end that the outer ring of a bearing of one direction is pushed to:
    where its wide face (its small roller ends) looks.

    Raises:
        Missing: the reference does not say which way it looks.
    """
    part = ruler.reference.part_at(standing.home)
    if part.kind not in SINGLE_DIRECTION_KINDS:
        return ""
    end = wide_end(ruler, standing)
    if not end:
        raise Missing(f"which way the {called(part)} at {standing.home} looks")
    return end


def rolling(
    unknowns: Unknowns,
    part: Part,
    place: str,
    inner: str,
    outer: str,
    *,
    pushed: str,
    wider_mm: Any = 0.0,
    play: Interval | None = None,
) -> Element:
    """The law of one bearing between the mid faces of its rings; `pushed` as by the function of that name.

    `wider_mm` is how much its clearance has grown across, by heat [mm];
    `play` the axial play of a ball bearing as read or given in its place.

    Raises:
        Missing: a kind without a law, or sizes that not even a guess can start from.
    """
    bore, outside = part.size("bore"), part.size("outside")
    if bore is None or outside is None:
        raise Missing(f"bore and outside diameter of the {called(part)}")
    name, side = f"balls at {place}", -1 if pushed == "second" else 1
    if part.kind == "ball bearing":
        return _deep_groove(unknowns, part, place, name, inner, outer, wider_mm, play)
    c, exponent = contact(unknowns, part)
    # The wide face of the outer ring takes the thrust: it is pushed the way it looks, away from the inner ring.
    start = side * along(wider_mm, contact_angle(unknowns, part)) if np.any(wider_mm) else 0.0
    return one_way_bearing(name, inner, outer, start=start, c=c, exponent=exponent, side=side)


def contact(unknowns: Unknowns, part: Part) -> tuple[Any, float]:
    """c and n of F = c δ^n of a bearing of one direction [N/mm^n].

    Raises:
        Missing: a kind without a law, or an inside that not even a guess can start from.
    """
    if part.kind not in EXPONENTS:
        raise Missing(f"a law of force for the {called(part)}: none is known for a {part.kind}")
    makes = _angular if part.kind == "angular bearing" else _taper
    return makes(unknowns, part), EXPONENTS[part.kind]


EXPONENTS = {"angular bearing": BALLS, "taper bearing": ROLLERS}


def guessed_inside(part: Part) -> tuple[str, ...]:
    """What of the inside of a taper bearing nobody gave, each with the range that is taken."""
    if part.kind != "taper bearing":
        return ()
    said = {
        "number of rollers ±15 in 100": part.rollers, "roller length ±20 in 100": part.size("roller_length"),
        f"contact angle {TAPER_DEG[0]:g} to {TAPER_DEG[2]:g} degrees": part.contact_angle,
    }  # fmt: skip
    return tuple(words for words, value in said.items() if not value)


def inside_is_given(part: Part) -> bool:
    """Whether nothing of the inside of a bearing has to be guessed; the grooves of a ball bearing always are."""
    if part.kind == "taper bearing":
        return not guessed_inside(part)
    return part.kind == "angular bearing" and bool(part.balls) and part.size("ball") is not None


def _deep_groove(
    unknowns: Unknowns, part: Part, place: str, name: str, inner: str, outer: str, wider_mm: Any, play: Interval | None
) -> Element:
    inside = deep_groove_inside(part)
    share = unknowns.value(f"groove distance of the {called(part)}", 0.85, 1.0, 1.15)
    distance = share * inside.groove_distance_mm
    if play is not None:
        # Read in its place: the fit has taken what it takes.
        axial = unknowns.value(
            f"axial play of the {called(part)} at {place}",
            max(play.least_mm, 0.0),
            max(play.nominal_mm, 0.0),
            play.most_mm,
        )
        radial = clearance_of_play(axial_mm=axial, groove_distance_mm=distance)
    else:
        clearance = part.size("radial_clearance")
        if clearance is None:
            raise Missing(f"clearance group of the {called(part)}")
        # The fit takes up to 80 in 100 of the least clearance off; nothing is known of the interference itself.
        usual = 0.6 * clearance.nominal_mm
        radial = unknowns.value(
            f"clearance of the {called(part)} at {place}", 0.2 * clearance.low_mm, usual, clearance.high_mm
        )
    stiff = unknowns.value(f"stiffness of the {called(part)}", 0.8, 1.0, 1.2)
    zk = stiff * inside.balls * hertz_stiffness(inside, contact_deg=15.0)
    return deep_groove(
        name, inner, outer, distance=distance, cos_free_angle=1 - (radial + wider_mm) / (2 * distance), zk=zk
    )


def deep_groove_inside(part: Part) -> BallBearing:
    """The inside of a ball bearing whose sizes are given:
    balls as given or estimated, groove distance by their diameter.
    """
    inside = estimated_deep_groove(bore_mm=part.size("bore").nominal_mm, outside_mm=part.size("outside").nominal_mm)
    if (ball := part.size("ball")) is not None:
        inside = replace(
            inside,
            ball_mm=ball.nominal_mm,
            groove_distance_mm=inside.groove_distance_mm * ball.nominal_mm / inside.ball_mm,
        )
    return replace(inside, balls=part.balls) if part.balls else inside


def clearance_of_play(*, axial_mm: Any, groove_distance_mm: Any) -> Any:
    """Radial clearance that leaves an axial play [mm]:
    2A (1 - √(1 - (P/2A)²)), the play counted no larger than A allows.

    Args:
        axial_mm: total axial play P [mm], not below 0.
        groove_distance_mm: A [mm], above 0.

    Source: NSK, Rolling Bearings catalogue, section 15.3, solved for G_r.

    >>> round(float(clearance_of_play(axial_mm=0.1055, groove_distance_mm=0.2809)), 4)  # 6205: 0.010
    0.01
    """
    slant = np.minimum(axial_mm / (2 * groove_distance_mm), 0.9)
    return 2 * groove_distance_mm * (1 - np.sqrt(1 - slant**2))


def contact_deg(part: Part) -> float | None:
    """The contact angle of an angular bearing, given or by its suffix [degrees]; None where nobody gives it."""
    suffix = part.standard.split()[-1] if " " in part.standard else ""
    return part.contact_angle.nominal if part.contact_angle is not None else CONTACT_DEG.get(suffix)


def angular_inside(part: Part) -> tuple[int, float, float]:
    """Number of balls, their diameter [mm] and contact angle [degrees] of an angular bearing whose sizes are given.

    Raises:
        Missing: a contact angle that nobody gives.
    """
    bore, outside = part.size("bore").nominal_mm, part.size("outside").nominal_mm
    angle = contact_deg(part)
    if angle is None:
        raise Missing(f"contact angle of the {called(part)}")
    own = part.size("ball")
    ball = own.nominal_mm if own is not None else BALL_OF_SECTION * (outside - bore)
    return part.balls or round(np.pi * (bore + outside) / 2 / (BALL_PITCH_OVER_BALL * ball)), ball, angle


def _angular(unknowns: Unknowns, part: Part) -> Any:
    balls, ball, angle = angular_inside(part)
    stiff = unknowns.value(f"stiffness of the {called(part)}", 0.8, 1.0, 1.2)
    return stiff * palmgren_balls(balls=balls, ball_mm=ball, contact_deg=angle)


def _taper(unknowns: Unknowns, part: Part) -> Any:
    width, said = part.size("length"), part.size("roller_length")
    if width is None and (said is None or not part.rollers):
        raise Missing(f"width, or number and length of the rollers, of the {called(part)}")
    guess = estimated_taper(
        bore_mm=part.size("bore").nominal_mm,
        outside_mm=part.size("outside").nominal_mm,
        width_mm=width.nominal_mm if width else said.nominal_mm / 0.6,
    )
    its = called(part)
    rollers = part.rollers or unknowns.value(
        f"number of rollers of the {its}", guess.rollers.least, guess.rollers.usual, guess.rollers.most
    )
    if said is not None:
        length = unknowns.value(f"roller length of the {its}", said.low_mm, said.nominal_mm, said.high_mm)
    else:
        length = unknowns.value(
            f"roller length of the {its}", guess.roller_mm.least, guess.roller_mm.usual, guess.roller_mm.most
        )
    contact = contact_angle(unknowns, part)
    law = unknowns.value(f"law of the rollers of the {its}", 1 - LAW_GOOD_TO, 1.0, 1 + LAW_GOOD_TO)
    return law * np.vectorize(lambda z, l, a: palmgren_tapers(rollers=z, roller_mm=l, contact_deg=a))(
        rollers, length, contact
    )


def contact_angle(unknowns: Unknowns, part: Part) -> Any:
    """Of an angular or a taper bearing [degrees];
    a taper bearing has one of the common angles where nobody gives it.
    """
    if part.kind == "angular bearing":
        return angular_inside(part)[2]
    angle = part.contact_angle
    ends = (
        TAPER_DEG
        if angle is None
        else [angle.nominal if end is None else end for end in (angle.least, angle.nominal, angle.most)]
    )
    return unknowns.value(f"contact angle of the {called(part)}", *ends)
