"""How stiff a part is along the axis, from its sizes and material where the reference gives them,
else as a wide range.
"""

from __future__ import annotations

from math import inf, isfinite, log10
from typing import Any

import numpy as np

from stackcheck.mechanics.axial.stiffness import MODULUS_MPA, in_series, tube_stiffness
from stackcheck.mechanics.lengths import Ruler
from stackcheck.mechanics.paths import diameter
from stackcheck.mechanics.pressure_cone import CONE_DEG, Annulus, Pressed, cone_stiffness, growth
from stackcheck.mechanics.ring_share import wall_share
from stackcheck.mechanics.steps import Step, steps_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.finding import Standing
from stackcheck.model.part import RING_BEARINGS, Part

SOFT, STIFF = 1e5, 1e7
"""Stiffness of a body whose section is not given [N/mm]: both ends are looked at."""


SOFT_KINDS = frozenset({"gasket", "O-ring", "seal", "friction plate"})
"""Kinds that are never of steel all through."""


class Missing(Exception):
    """What a computation needs and nobody gave."""


class OneWay(Missing):
    """Two bearings that look the same way: nothing can press them on each other."""


def body_stiffness(
    unknowns: Unknowns, ruler: Ruler, standing: Standing, length_mm: float, pressing: Pressed | None = None
) -> Any:
    """Of what stands there, one part or a pack of equal ones, `length_mm` long [N/mm]:
    of its steps one behind the other where it has any (`step_stiffness`).
    """
    return in_series(*(k for _, k in step_stiffness(unknowns, ruler, standing, length_mm, pressing)))


def step_stiffness(
    unknowns: Unknowns, ruler: Ruler, standing: Standing, length_mm: float, pressing: Pressed | None = None
) -> list[tuple[Step | None, Any]]:
    """Each step of what stands there with its stiffness [N/mm], first end to second; a plain tube has none and is
    told as a whole. Steel where no material is given.

    `pressing` is what it is pressed over, its whole section where that is not said. A wide range where the section is
    not given, where the material is none of those known here, and where the part bends because its two faces do not
    overlap. A thin one is at most as stiff as steel all through between the faces that press on it.
    """
    part = ruler.part(standing)
    name, kind = f"the {lower(ruler.name(standing))}", part.kind if part is not None else ""
    if steps := steps_of(ruler, standing, length_mm):
        pressed = (None,) * len(steps) if pressing is None else pressing.steps or (pressing,)
        return [
            (step, _stiffness(unknowns, f"section {step.number} of {name}", kind, step, each))
            for step, each in zip(steps, pressed, strict=True)
        ]
    unknown = part is not None and part.sections  # turned, and another length so: pressed nobody knows where
    outside, bore = (None if unknown else diameter(ruler, standing, size) for size in ("outside", "bore"))
    whole = Step(1, outside, bore, length_mm, part.material if part is not None else "")
    return [(None, _stiffness(unknowns, name, kind, whole, pressing))]


def _stiffness(unknowns: Unknowns, name: str, kind: str, step: Step, pressing: Pressed | None) -> Any:
    """Of one tube [N/mm]."""
    outside, bore, length_mm = step.outside_mm, step.bore_mm, step.length_mm
    modulus = MODULUS_MPA.get(step.material or "steel")
    bends = pressing is not None and pressing.bends
    if outside is None or bore is None or not length_mm > 0 or modulus is None or bends:
        name = f"{name}, which bends between its two faces" if bends else name
        is_soft = kind in SOFT_KINDS or modulus is None
        least, most = (
            log10(SOFT),
            log10(max(STIFF, 0.0 if bends or is_soft else _filled(outside, bore, length_mm, pressing))),
        )
        return 10.0 ** unknowns.value(f"stiffness of {name}", least, (least + most) / 2, most)
    if pressing is None:
        return tube_stiffness(outside_mm=outside, bore_mm=bore, length_mm=length_mm, modulus_mpa=modulus)
    return cone_stiffness(
        section=Annulus(outside, bore),
        first=pressing.first,
        second=pressing.second,
        length_mm=length_mm,
        modulus_mpa=modulus,
        grows=cone_growth(unknowns),
    )


def _filled(outside: float | None, bore: float | None, length_mm: float, pressing: Pressed | None) -> float:
    """Stiffness of a part whose section is not given if it were of steel all through, under the usual cone [N/mm];
    0 where its faces are not known.
    """
    if pressing is None or not length_mm > 0:
        return 0.0
    first, second = (Annulus(*(float(np.ravel(end)[0]) for end in face)) for face in (pressing.first, pressing.second))
    if not (isfinite(first.outside) and isfinite(second.outside)):
        return 0.0
    section = Annulus(inf if outside is None else outside, 0.0 if bore is None else bore)
    return float(
        cone_stiffness(
            section=section, first=first, second=second, length_mm=length_mm, modulus_mpa=MODULUS_MPA["steel"]
        )
    )


def cone_growth(unknowns: Unknowns) -> Any:
    """How much the diameter of a pressure cone grows per length along the axis;
    its half angle is one unknown for all parts.
    """
    return growth(unknowns.value("half angle of the pressure cone", *CONE_DEG))


def ring_width(part: Part) -> float:
    """One width for both rings [mm]; how far one stands out
    of the other is counted beside it (`stackcheck.mechanics.loops`).
    """
    size = part.size("inner_width") or part.size("length") or part.size("outer_width")
    if size is None:
        raise Missing(f"width of the {called(part)}")
    return size.nominal_mm


def ring_stiffness(unknowns: Unknowns, part: Part, ring: str) -> Any:
    """Of the whole inner or outer ring along the axis [N/mm].

    Raises:
        Missing: diameters or width, or a kind of bearing whose rings nothing is known of.
    """
    if part.kind not in RING_BEARINGS:
        raise Missing(f"how thick the rings of the {called(part)} are: nothing is known of those of a {part.kind}")
    bore, outside = part.size("bore"), part.size("outside")
    if bore is None or outside is None:
        raise Missing(f"bore and outside diameter of the {called(part)}")
    share = wall_share(part.kind, ring)
    sections = (_section(part, ring, each) for each in (share.least, share.usual, share.most))
    thin_to_thick = [
        tube_stiffness(
            outside_mm=widest, bore_mm=narrowest, length_mm=ring_width(part), modulus_mpa=MODULUS_MPA["steel"]
        )
        for widest, narrowest in sections
    ]
    return unknowns.value(f"thickness of the {ring} ring of the {called(part)}", *thin_to_thick)


def ring_section(part: Part, ring: str) -> tuple[float, float]:
    """Outside and bore of the inner or the outer ring of a bearing whose sizes are given, estimated [mm]."""
    return _section(part, ring, wall_share(part.kind, ring).usual)


def _section(part: Part, ring: str, share: float) -> tuple[float, float]:
    bore, outside = part.size("bore").nominal_mm, part.size("outside").nominal_mm
    wall = share * (outside - bore)
    return (bore + wall, bore) if ring == "inner" else (outside, outside - wall)


def called(part: Part) -> str:
    return lower(part.name)


def lower(name: str) -> str:
    """A name inside a sentence; "O-ring" and the like stay as they are."""
    return name[:1].lower() + name[1:] if name[1:2].islower() else name
