"""How stiff a body is along its axis, from its shape."""

from __future__ import annotations

from math import pi
from typing import Any

MODULUS_MPA = {
    "steel": 206e3,
    "aluminium": 70e3,
    "cast iron": 110e3,
    "brass": 100e3,
    "bronze": 110e3,
    "titanium": 110e3,
}
"""Young's modulus [MPa]; handbook values, from memory."""


def _all(answers: Any) -> bool:
    """Whether an answer, or every one of an array of them, is yes; numpy is not loaded for one number."""
    return bool(answers.all() if hasattr(answers, "all") else answers)


def _above_nothing(**values: Any) -> None:
    for name, value in values.items():
        if not _all(value > 0):
            raise ValueError(f"{name} is {value}, it must be above 0")


def tube_stiffness(*, outside_mm: float, bore_mm: float, length_mm: float, modulus_mpa: float) -> float:
    """End force per unit of shortening of a plain tube, ring or washer between flat faces [N/mm].

    k = E·A/L, A = π/4 (OD² - ID²)

    Args:
        outside_mm: outside diameter [mm], larger than `bore_mm`.
        bore_mm: bore [mm], 0 for a solid bar.
        length_mm: between the loaded faces [mm], above 0.
        modulus_mpa: Young's modulus [MPa], above 0.
    Raises:
        ValueError: an argument outside its bounds.

    Left out: the give of the faces, a load on part of the face only, buckling.
    Source: Budynas & Nisbett, Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 4-4 (from memory).

    >>> round(tube_stiffness(outside_mm=28, bore_mm=20.2, length_mm=58, modulus_mpa=206e3))  # 206 000 x 295.3 / 58
    1048747
    """
    _above_nothing(length_mm=length_mm, modulus_mpa=modulus_mpa, wall_mm=outside_mm - bore_mm)
    if not bore_mm >= 0:
        raise ValueError(f"bore_mm is {bore_mm}, it must not be below 0")
    return modulus_mpa * pi / 4 * (outside_mm**2 - bore_mm**2) / length_mm


def leg_stiffness(*, outside_mm: float, bore_mm: float, length_mm: float, modulus_mpa: float, guided: bool) -> float:
    """Side force per unit of spreading of a round leg held at its far end [N/mm].

    k = 3EI/L³ where its end may turn, 12EI/L³ where the axle keeps it straight; I = π/64 (OD⁴ - ID⁴)

    Args:
        outside_mm, bore_mm: of the leg's tube [mm].
        length_mm: from the clamp to the axle [mm], above 0.
        modulus_mpa: Young's modulus [MPa].
        guided: whether the axle keeps the leg's end from turning.
    Raises:
        ValueError: an argument outside its bounds.

    Source: Roark's Formulas for Stress and Strain, 7th ed. (2002), Table 8.1 (from memory).

    >>> round(leg_stiffness(outside_mm=36, bore_mm=31, length_mm=420, modulus_mpa=206e3, guided=False), 1)
    309.6
    """
    _above_nothing(length_mm=length_mm, modulus_mpa=modulus_mpa, wall_mm=outside_mm - bore_mm)
    if not _all(bore_mm >= 0):
        raise ValueError(f"bore_mm is {bore_mm}, it must not be below 0")
    inertia = pi / 64 * (outside_mm**4 - bore_mm**4)
    return (12 if guided else 3) * modulus_mpa * inertia / length_mm**3


def tied_legs(*, mismatch_mm: float, k1: float, k2: float) -> tuple[float, float, float]:
    """Two members pulled together over a mismatch and tied: side force [N], and how far each of them goes [mm].

    F = mismatch/(1/k1 + 1/k2); member 1 goes mismatch·k2/(k1 + k2). A mismatch below 0 spreads them.

    Args:
        mismatch_mm: room between them less what stands in it [mm].
        k1, k2: side stiffness of each [N/mm], above 0.
    Raises:
        ValueError: a stiffness not above 0.

    Source: two springs in series (elementary).

    >>> tied_legs(mismatch_mm=3.0, k1=100.0, k2=200.0)
    (200.0, 2.0, 1.0)
    """
    _above_nothing(k1=k1, k2=k2)
    force = mismatch_mm * k1 * k2 / (k1 + k2)
    return force, force / k1, force / k2


def in_series(*stiffness: float) -> float:
    """Bodies one behind the other [N/mm]: 1/k = Σ 1/k_j, each above 0.

    Source: elementary.

    >>> in_series(2.0, 2.0)
    1.0
    """
    return 1 / sum(1 / k for k in stiffness)
