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


def bolt_stiffness(
    *,
    lengths_mm: tuple[float, ...],
    areas_mm2: tuple[float, ...],
    thread_mm: float,
    root_area_mm2: float,
    modulus_mpa: float,
) -> float:
    """Stiffness of a bolt or axle with its head and its engaged thread [N/mm].

    1/k = Σ l/(E A) + 0.5 d/(E A_d3) + 0.4 d/(E A_d)

    Args:
        lengths_mm: lengths of its sections between head and nut [mm], each above 0.
        areas_mm2: their areas [mm²], as many.
        thread_mm: nominal diameter d of the thread [mm].
        root_area_mm2: area at the root of the thread [mm²].
        modulus_mpa: Young's modulus [MPa].
    Raises:
        ValueError: an argument outside its bounds, or unequal numbers of lengths and areas.

    Source: VDI 2230 part 1 (2015), compliance of the bolt (from memory); 0.4 d is taken for head and nut alike.

    >>> round(bolt_stiffness(lengths_mm=(130,), areas_mm2=(201,), thread_mm=16, root_area_mm2=157, modulus_mpa=206e3))
    282365
    """
    if len(lengths_mm) != len(areas_mm2):
        raise ValueError("every section has a length and an area")
    for length, area in zip(lengths_mm, areas_mm2):
        _above_nothing(length_mm=length, area_mm2=area)
    _above_nothing(thread_mm=thread_mm, root_area_mm2=root_area_mm2, modulus_mpa=modulus_mpa)
    shank = sum(length / area for length, area in zip(lengths_mm, areas_mm2))
    ends = 0.5 * thread_mm / root_area_mm2 + 0.4 * thread_mm / (pi / 4 * thread_mm**2)
    return modulus_mpa / (shank + ends)


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
