"""The force of one disc spring by the law that the network solves with, for tables and figures worked by hand."""

from __future__ import annotations

from stackcheck.mechanics.axial.laws import PLAIN, disc
from stackcheck.mechanics.axial.springs import DiscSpring, disc_unit


def disc_force(spring: DiscSpring, pressed_mm: float) -> float:
    """One disc pressed by so much, not beyond flat [N]."""
    assert 0 <= pressed_mm <= spring.cone_mm
    height = spring.free_mm - pressed_mm
    force, _ = disc(height, spring.free_mm, 1.0, spring.thickness_mm, spring.cone_mm, disc_unit(spring), PLAIN)
    return -force
