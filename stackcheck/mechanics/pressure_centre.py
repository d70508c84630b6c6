"""Where the balls or rollers of a bearing press through its axis: the point that a load across acts on.

Of an angular or a taper bearing it lies off its middle, by the slant: the normals of the outer race meet the axis on the
narrow side. It is counted from the wide face of the outer ring, as catalogues do (their `a`). Two bearings back to back
(wide faces toward each other) have these points further apart than themselves, face to face nearer together.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.bearing_laws import contact_angle
from stackcheck.mechanics.bodies import Missing, called, ring_width
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import SINGLE_DIRECTION_KINDS, Part

OUTER_OF_WIDTH = (0.73, 0.80, 0.86)
"""Width C of the outer ring of a taper bearing over its width T, where nobody gives it: SKF product tables, 27 sizes."""

RACE_OF_SECTION = (0.71, 0.73, 0.755)
"""Where the middle of its outer race lies, over D - d from the bore: E + C tan α of ISO 355, 16 sizes (E from memory)."""


def angular_centre(*, bore_mm: float, outside_mm: float, width_mm: float, contact_deg: Any) -> Any:
    """From the wide face of the outer ring of an angular ball bearing to its pressure centre [mm].

    a = B/2 + (d + D)/4 · tan α

    Args:
        bore_mm, outside_mm, width_mm: d, D and B of the bearing [mm].
        contact_deg: contact angle [degrees], a number or an array.

    Source: geometry, the pitch circle midway between bore and outside; the tables of SKF within 0.2 mm (40 degrees).

    >>> round(float(angular_centre(bore_mm=25, outside_mm=62, width_mm=17, contact_deg=40)), 1)  # 7305 B: 26.8
    26.8
    """
    return width_mm / 2 + (bore_mm + outside_mm) / 4 * np.tan(np.radians(contact_deg))


def taper_centre(*, bore_mm: float, outside_mm: float, outer_width_mm: Any, contact_deg: Any, race: Any = 0.73) -> Any:
    """From the wide face of the outer ring of a taper bearing to its pressure centre [mm].

    a = C/2 + (d + s (D - d))/2 · tan α, s (D - d) from the bore to the middle of the outer race

    Args:
        bore_mm, outside_mm: d and D of the bearing [mm].
        outer_width_mm: width C of the outer ring [mm].
        contact_deg: contact angle of the outer race [degrees].
        race: s, see `RACE_OF_SECTION`.

    Source: geometry of ISO 355; the tables of SKF, rounded to whole millimetres, within 1 mm.

    >>> round(float(taper_centre(bore_mm=25, outside_mm=52, outer_width_mm=13, contact_deg=14.04)), 1)  # 30205: 12
    12.1
    """
    return outer_width_mm / 2 + (bore_mm + race * (outside_mm - bore_mm)) / 2 * np.tan(np.radians(contact_deg))


def centre(unknowns: Unknowns, part: Part) -> Any:
    """From the wide face of the outer ring to the pressure centre; half the width of a bearing without a slant [mm].

    Raises:
        Missing: sizes, or the contact angle of an angular bearing.
    """
    bore, outside = part.size("bore"), part.size("outside")
    if bore is None or outside is None:
        raise Missing(f"bore and outside diameter of the {called(part)}")
    sizes = {"bore_mm": bore.nominal_mm, "outside_mm": outside.nominal_mm}
    if part.kind not in SINGLE_DIRECTION_KINDS:
        return ring_width(part) / 2
    if part.kind == "angular bearing":
        return angular_centre(**sizes, width_mm=ring_width(part), contact_deg=contact_angle(unknowns, part))
    race = unknowns.value(f"race of the {called(part)}", *RACE_OF_SECTION)
    outer, angle = outer_width(unknowns, part), contact_angle(unknowns, part)
    return taper_centre(**sizes, outer_width_mm=outer, contact_deg=angle, race=race)


def outer_width(unknowns: Unknowns, part: Part) -> Any:
    """Width of the outer ring [mm]; of a taper bearing that gives none a share of its whole width."""
    given, width = part.size("outer_width"), part.size("length")
    if given is not None or part.kind != "taper bearing":
        return given.nominal_mm if given is not None else ring_width(part)
    if width is None:
        raise Missing(f"width of the {called(part)}")
    return unknowns.value(f"width of the outer ring of the {called(part)}", *OUTER_OF_WIDTH) * width.nominal_mm
