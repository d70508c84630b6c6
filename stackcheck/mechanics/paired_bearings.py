"""Two bearings of one direction made for one another: their faces touch, or two spacers of one length stand between.

No length of the stack says how hard they are forced against one another: their maker ground one ring of each so much
narrower that the two press on each other (a preload) or still have play when all faces meet. What he made them for is
told by the marking of the pair (`pair_preload`, `pair_play`), or how far each inner ring stands out of its outer one
(`inner_standout`), and nothing is guessed in its place: from one class to the next the preload doubles. Fitted, they
are another pair: a ring that is pressed on grows across, Δd/(2 tan α) along the axis, and the nut shortens the rings
that it clamps; the network (`stackcheck.mechanics.clamped_network`) tells of the second.

Left out: the difference between two bearings of one pair, and how round a soft seat presses them.
Source: preload of pairs, SKF General Catalogue, preload chapter (from memory); share of a fit that reaches the race,
NSK, Rolling Bearings catalogue, 9.2.2.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.bearing_laws import contact
from stackcheck.mechanics.bodies import Missing, called
from stackcheck.mechanics.joint_pull import asked
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.press_fit import INNER, OUTER, clearance
from stackcheck.mechanics.slip_force import effective
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.finding import Standing
from stackcheck.model.part import SINGLE_DIRECTION_KINDS
from stackcheck.model.reference import Loop, Reference
from stackcheck.model.touching_pairs import is_touching

REACHES_THE_RACE = (0.7, 0.8, 0.9)
"""Share of the overlap of a ring and its seat by which its race moves: NSK, Rolling Bearings catalogue, 9.2.2."""

REACHES_IS = "70 to 90 in 100 of the overlap of a ring and its seat reach the race of a paired bearing (NSK catalogue)"
NO_FIT_IS = "no press fit of the paired bearings, as none is given"
"""The defaults in words."""


def is_made_as_a_pair(arrangement: Arrangement, loop: Loop, standings: dict[str, Standing]) -> bool:
    """Whether the preload of two bearings is made into their rings: they touch, or the reference says what it is."""
    parts = [arrangement.ruler.part(standing) for standing in standings.values()]
    said = any(part is not None and (part.pair_preload or part.size("pair_play")) for part in parts)
    return is_touching(loop) or said and all(part is not None and part.kind in SINGLE_DIRECTION_KINDS for part in parts)


def forced_together_mm(unknowns: Unknowns, arrangement: Arrangement, standings: dict[str, Standing]) -> Any:
    """How far the rings of a pair are forced past touching balls when all faces meet, unfitted [mm];
    below nothing: their play. None where the stand-out of each is given: the faces of the rings tell it themselves.

    Args:
        standings: both bearings, by their places.
    Raises:
        Missing: nothing says what they are made for, or they are no pair.
    """
    parts = [arrangement.ruler.part(standing) for standing in standings.values()]
    if parts[0].id != parts[1].id:
        raise Missing(f"two bearings of one pair: {called(parts[0])} and {called(parts[1])} are none")
    part = parts[0]
    if part.size("inner_standout") is not None:
        return None
    readings = [arrangement.ruler.readings.size(standing, "pair_play") for standing in standings.values()]
    play = next((Interval.of_reading(each) for each in readings if each is not None and each.is_measurement), None)
    if play is None and part.pair_preload is not None:
        force = asked(unknowns, f"preload that the {called(part)}s are made for", part.pair_preload)
        c, exponent = contact(unknowns, part)
        return 2 * (force / c) ** (1 / exponent)
    if play is None and (size := part.size("pair_play")) is not None:
        play = Interval.of_size(size)
    if play is None:
        raise Missing(f"the preload or play that the {called(part)}s are made for as a pair")
    return -unknowns.value(f"play that the {called(part)}s are made for", play.least_mm, play.nominal_mm, play.most_mm)


def taken_by_the_fits(unknowns: Unknowns, arrangement: Arrangement, place: str, loop: Loop) -> Any:
    """How much of the clearance across one bearing of a pair its press fits take [mm], nothing where none is given."""
    taken = 0.0
    for ring, fit in _fits(arrangement.reference, place, loop).items():
        least, most = fit
        diameter = arrangement.reference.part_at(place).size("bore" if ring == INNER else "outside").nominal_mm
        overlap = unknowns.value(f"overlap of the {ring} at {place}", -most, -(least + most) / 2, -least)
        share = unknowns.value("share of a press fit that reaches the race", *REACHES_THE_RACE)
        taken = taken + share * effective(np.maximum(overlap, 0.0), diameter)
    return taken


def fits_are(reference: Reference, loop: Loop) -> str:
    """What was taken for the fits of a pair, in words."""
    return REACHES_IS if _fits(reference, loop.start, loop) else NO_FIT_IS


def _fits(reference: Reference, place: str, loop: Loop) -> dict[str, tuple[float, float]]:
    """Clearance of each ring that may be a press fit [mm]: two of one pair sit on one seat, whose fit is that of both."""
    other = loop.end if place == loop.start else loop.start
    fits = {ring: clearance(reference, place, ring) or clearance(reference, other, ring) for ring in (INNER, OUTER)}
    return {ring: fit for ring, fit in fits.items() if fit is not None and fit[0] < 0}
