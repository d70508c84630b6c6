"""How stiff a coil spring or a wave washer is: as the reference says, else from its wire, its coils or its waves.

A stiffness pulled or pressed with a scale is worth more than either formula. What is reckoned carries its own doubt:
coils that lie on the ends do not work, and the formulas of wave washers differ by more than half among their makers.
"""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.axial.springs import WAVE_DIVISOR, coil_stiffness, wave_stiffness
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA
from stackcheck.mechanics.bodies import Missing, called
from stackcheck.mechanics.joint_pull import asked
from stackcheck.mechanics.taken_limits import with_limits
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import Part, Size

COILS_GOOD_TO = (0.9, 1.0, 1.1)
"""Share of the stiffness of a coil spring that its sizes tell: limits of wire and coils, EN 15800 (from memory)."""


def spring_rate(unknowns: Unknowns, part: Part) -> Any:
    """Stiffness along the axis [N/mm].

    Raises:
        Missing: neither its stiffness nor the sizes that tell it.
    """
    name = f"stiffness of the {called(part)}"
    if part.stiffness is not None:
        return asked(unknowns, name, part.stiffness)
    if part.kind == "spring":
        return _coil(unknowns, part, name)
    return _wave(unknowns, part, name)


def taken_of(part: Part) -> tuple[str, ...]:
    """What was taken of a spring, a gasket or a crush sleeve that the reference does not give, each in words."""
    free, its, used = part.size("free_length"), called(part), []
    if free is not None and not free.has_limits:
        used.append(f"free length of the {its} {with_limits(free, part.kind).limits_from}, common practice, no source")
    if part.stiffness is None and part.kind == "spring" and part.coils and part.size("wire"):
        used.append(f"stiffness of the {its} by its wire and coils ±10 in 100 (EN 15800, from memory)")
    if part.stiffness is None and part.kind == "spring washer" and part.waves:
        ends = f"{WAVE_DIVISOR[0]:g} to {WAVE_DIVISOR[1]:g}"
        used.append(f"stiffness of the {its} by its waves, divisor {ends} (makers' catalogues, from memory)")
    return tuple(used)


def _coil(unknowns: Unknowns, part: Part, name: str) -> Any:
    wire, outside, bore = (part.size(size) for size in ("wire", "outside", "bore"))
    if wire is None or not part.coils or (outside is None and bore is None):
        raise Missing(f"{name}, or its wire, outside diameter and working coils")
    across = _ask(unknowns, part, "outside", outside) if outside is not None else _ask(unknowns, part, "bore", bore)
    thick = _ask(unknowns, part, "wire", wire)
    coil = across - thick if outside is not None else across + thick
    share = unknowns.value(f"{name} by its coils", *COILS_GOOD_TO)
    return share * coil_stiffness(wire_mm=thick, coil_mm=coil, coils=part.coils)


def _wave(unknowns: Unknowns, part: Part, name: str) -> Any:
    outside, bore, flat = (part.size(size) for size in ("outside", "bore", "length"))
    if not part.waves or outside is None or bore is None or flat is None:
        raise Missing(f"{name}, or its waves, outside diameter, bore and the thickness of its sheet as length")
    return wave_stiffness(
        outside_mm=outside.nominal_mm,
        bore_mm=bore.nominal_mm,
        sheet_mm=_ask(unknowns, part, "length", flat),
        waves=part.waves,
        divisor=unknowns.value(f"{name} by its waves", WAVE_DIVISOR[0], sum(WAVE_DIVISOR) / 2, WAVE_DIVISOR[1]),
        modulus_mpa=MODULUS_MPA["steel"],
    )


def _ask(unknowns: Unknowns, part: Part, name: str, size: Size) -> Any:
    words = "thickness" if name == "length" else name
    return unknowns.value(f"{words} of the {called(part)}", size.low_mm, size.nominal_mm, size.high_mm)
