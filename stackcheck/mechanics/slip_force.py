"""What a press fit holds along the axis before its ring slips: a smaller load may not arise there, or stay locked in.

A network of springs knows no friction. An inner ring that is pressed on its axle keeps what the nut pulls from the
parts behind it, up to its slip force; an outer ring pressed into its hub is held fast up to there and walks beyond.
Source: pressure of two thick rings after Lamé, Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 3-56; slip
force and effective interference as NSK, Rolling Bearings catalogue, fits and mounting (from memory).
"""

from __future__ import annotations

from math import pi
from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.bearings import POISSON
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA
from stackcheck.mechanics.bodies import Missing, ring_section, ring_width
from stackcheck.mechanics.clamp import inner_stack
from stackcheck.mechanics.heat import COLD, Heat
from stackcheck.mechanics.heat_of_bearings import axle_kelvin, axle_part, seat_of
from stackcheck.mechanics.press_fit import INNER, OUTER, clearance, probable_clearance
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.expansion import EXPANSION_PER_K, expansion
from stackcheck.model.part import RING_BEARINGS
from stackcheck.model.reference import Loop

FRICTION = (0.08, 0.12, 0.18)
"""Dry steel on steel: 0.12 when a ring is pressed on, 0.18 when it is drawn off (NSK, from memory),
less where it is oiled.
"""

SEAT_WALL = (1.15, 1.4, 3.0)
"""Outside of a hub over its seat, which nobody gives here: from a thin hub to a block; our own figures."""

WALL_IS = f"outside of a hub {SEAT_WALL[0]:g} to {SEAT_WALL[2]:g} times its seat (our own figures)"
"""The default in words."""


def pressure(
    *,
    diameter_mm: Any,
    overlap_mm: Any,
    inside_bore_mm: Any,
    outside_mm: Any,
    inside_mpa: float = 206e3,
    outside_part_mpa: float = 206e3,
) -> Any:
    """Pressure between two rings pressed over one another [MPa].

    p = Δ / ( d [ (1/E_o)((D² + d²)/(D² - d²) + ν) + (1/E_i)((d² + d_i²)/(d² - d_i²) - ν) ] )

    Args:
        diameter_mm: d, where they touch [mm].
        overlap_mm: Δ, how much larger the inner part is than the bore of the outer one [mm], not below 0.
        inside_bore_mm: d_i, the bore of the inner part [mm], 0 for a solid one.
        outside_mm: D, the outside of the outer part [mm], larger than d.
        inside_mpa, outside_part_mpa: Young's moduli of the inner and of the outer part [MPa].

    Valid for elastic rings of full width, ν 0.3 for both.
    Source: Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 3-56, there in radii (from memory); a solid
    shaft and two parts of steel: E Δ/(2d) (1 - (d/D)²).

    >>> round(pressure(diameter_mm=20, overlap_mm=0.010, inside_bore_mm=0, outside_mm=28), 2)
    25.22
    """
    d, wide, hollow = diameter_mm, outside_mm, inside_bore_mm
    outer = ((wide**2 + d**2) / (wide**2 - d**2) + POISSON) / outside_part_mpa
    inner = ((d**2 + hollow**2) / (d**2 - hollow**2) - POISSON) / inside_mpa
    return overlap_mm / (d * (outer + inner))


def slip_force(*, pressure_mpa: Any, diameter_mm: float, width_mm: float, friction: Any) -> Any:
    """Force along the axis at which a pressed ring slips [N]: μ p π d B.

    Args:
        pressure_mpa: pressure between the two parts [MPa], not below 0.
        diameter_mm, width_mm: diameter d and width B of the seat [mm], above 0.
        friction: coefficient μ along the axis.
    Source: elementary.

    >>> round(slip_force(pressure_mpa=25.22, diameter_mm=20, width_mm=14, friction=0.12))
    2662
    """
    return friction * pressure_mpa * pi * diameter_mm * width_mm


def effective(overlap_mm: Any, diameter_mm: float) -> Any:
    """What is left of an overlap when the roughness of a ground seat is pressed flat [mm]: Δ d/(d + 2).

    Args:
        overlap_mm: overlap Δ as measured [mm], not below 0.
        diameter_mm: diameter of the seat d [mm], above 0.
    Source: NSK, Rolling Bearings catalogue, fits (from memory).

    >>> round(effective(0.011, 20), 4)
    0.01
    """
    return overlap_mm * diameter_mm / (diameter_mm + 2)


def slip_forces(arrangement: Arrangement, loop: Loop, heat: Heat = COLD) -> tuple[tuple[str, Spanned], ...]:
    """Each ring of a loop that is or may be a press fit by the reference, by name and place,
    with the force that it holds [N].

    Warm, a seat that grows more than its ring gives up overlap: d (α ΔT inside less α ΔT outside) is added to it.
    """
    outer_stack = (
        loop.open_stack if loop.closed_stack == inner_stack(arrangement.reference, loop) else loop.closed_stack
    )
    found = []
    for place in (loop.start, loop.end):
        for ring in (INNER, OUTER):
            try:
                unknowns, force = with_variants(
                    lambda u, place=place, ring=ring: _holds(u, arrangement, place, ring, outer_stack, heat),
                    whose=(place,),
                )
            except Missing:
                continue
            held = unknowns.spanned(force)
            if held.most > 0:
                found.append((f"{ring} at {place}", held))
    return tuple(found)


def _holds(unknowns: Unknowns, arrangement: Arrangement, place: str, ring: str, outer_stack: str, heat: Heat) -> Any:
    reference = arrangement.reference
    part, fit = reference.part_at(place), clearance(reference, place, ring)
    if fit is None or part.kind not in RING_BEARINGS or part.size("bore") is None or part.size("outside") is None:
        raise Missing(f"the fit of the {ring} at {place}")
    least, most = fit
    usual = probable_clearance(least, most)
    cold = unknowns.value(f"overlap of the {ring} at {place}", -most, -usual, -least)
    friction = unknowns.value("friction of the press fit", *FRICTION)
    name = "inner" if ring == INNER else "outer"
    wide, narrow = ring_section(part, name)
    if ring == INNER:
        d, steel = narrow, EXPANSION_PER_K["steel"]
        grows = expansion(axle_part(reference)) * axle_kelvin(reference, heat) - steel * heat.ring(part, place, name)
        overlap = np.maximum(cold + d * grows, 0.0)
        pressed = pressure(diameter_mm=d, overlap_mm=effective(overlap, d), inside_bore_mm=0.0, outside_mm=wide)
    else:
        d, seat = wide, seat_of(arrangement, place, outer_stack)
        grows = EXPANSION_PER_K["steel"] * heat.ring(part, place, name) - (
            0.0 if seat is None else expansion(seat) * heat.kelvin(seat.id)
        )
        overlap = np.maximum(cold + d * grows, 0.0)
        modulus = MODULUS_MPA.get(seat.material if seat is not None else "", MODULUS_MPA["steel"])
        wall = unknowns.value("outside of the hub over its seat", *SEAT_WALL)
        pressed = pressure(
            diameter_mm=d,
            overlap_mm=effective(overlap, d),
            inside_bore_mm=narrow,
            outside_mm=wall * d,
            outside_part_mpa=modulus,
        )
    return slip_force(pressure_mpa=pressed, diameter_mm=d, width_mm=ring_width(part), friction=friction)
