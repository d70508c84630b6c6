"""Which units are known, what they measure and how many of our inside units each is.

The common ones stand in a small table, because a whole comparison takes less time than loading pint; every other
spelling is put to pint, and a test holds the table against pint. Nothing but the seven dimensions is ever read.
"""

from __future__ import annotations

import re
from functools import lru_cache

INCH_MM = 25.4
"""One inch, exactly (international yard and pound agreement of 1959; citation from memory)."""

_LBF = 4.4482216152605
"""One pound-force [N], from the pound 0.453 592 37 kg and standard gravity 9.806 65 m/s² (NIST SP 811, 2008, B.8)."""

COMMON_UNITS: dict[str, tuple[str, float]] = {
    "mm": ("length", 1.0), "cm": ("length", 10.0), "m": ("length", 1000.0),
    "um": ("length", 0.001), "µm": ("length", 0.001), "micron": ("length", 0.001),
    "in": ("length", INCH_MM), "inch": ("length", INCH_MM), "inches": ("length", INCH_MM), '"': ("length", INCH_MM),
    "thou": ("length", INCH_MM / 1000), "mil": ("length", INCH_MM / 1000),
    "N": ("force", 1.0), "kN": ("force", 1000.0), "lbf": ("force", _LBF), "kgf": ("force", 9.80665),
    "N·m": ("torque", 1000.0), "Nm": ("torque", 1000.0), "N·mm": ("torque", 1.0), "Nmm": ("torque", 1.0),
    "lbf·ft": ("torque", _LBF * 12 * INCH_MM), "ft·lbf": ("torque", _LBF * 12 * INCH_MM),
    "lb·ft": ("torque", _LBF * 12 * INCH_MM), "ft·lb": ("torque", _LBF * 12 * INCH_MM),
    "lbf·in": ("torque", _LBF * INCH_MM), "in·lbf": ("torque", _LBF * INCH_MM),
    "lb·in": ("torque", _LBF * INCH_MM), "in·lb": ("torque", _LBF * INCH_MM),
    "kgf·m": ("torque", 9806.65),
    "deg": ("angle", 1.0), "°": ("angle", 1.0), "degree": ("angle", 1.0), "degrees": ("angle", 1.0),
    "turn": ("angle", 360.0), "turns": ("angle", 360.0),
    "degC": ("temperature", 1.0), "°C": ("temperature", 1.0),
    "degF": ("temperature", 5 / 9), "°F": ("temperature", 5 / 9),
    "MPa": ("pressure", 1.0), "N/mm²": ("pressure", 1.0), "bar": ("pressure", 0.1),
    "N/mm": ("stiffness", 1.0), "kN/mm": ("stiffness", 1000.0),
}  # fmt: skip
"""Spelling -> (what it measures, how many of our inside units it is); "·" stands for any multiplying sign."""

ZERO_AT = {"degF": -32 * 5 / 9, "°F": -32 * 5 / 9}
"""Where the zero of a unit stands in our inside unit, where that is not at our own zero:
0 °F (NIST SP 811, 2008, B.8).
"""

DIMENSIONS = {
    "length": ("mm", '"22.0 mm", "15/16 in", "60 thou"'),
    "force": ("N", '"400 N", "12 kN"'),
    "torque": ("N·mm", '"40 N·m", "30 lbf·ft"'),
    "angle": ("deg", '"60 deg"'),
    "temperature": ("degC", '"20 °C", "68 °F"'),
    "pressure": ("MPa", '"2.5 bar", "1 MPa"'),
    "stiffness": ("N/mm", '"250 N/mm"'),
}
"""What may be said: dimension -> (our inside unit, how to write it)."""

NO_UNIT = ("", 0.0)
_TYPED_IN_CAPITALS = {name.upper(): name for name in ("mm", "cm", "in", "inch", "inches", "thou", "mil", "micron")}
_SIMPLE = r"[A-Za-zµ°]+(?:\^?[23]|[²³])?(?:[·/][A-Za-zµ°]+(?:\^?[23]|[²³])?){0,3}"


def find_unit(spelling: str) -> tuple[str, float]:
    """(dimension, how many of our inside units) of a unit as typed, `NO_UNIT` where it is none of ours.

    >>> find_unit("thou")
    ('length', 0.0254)
    """
    if spelling in COMMON_UNITS:
        return COMMON_UNITS[spelling]
    plain = re.sub(r"[.*-](?=[A-Za-z])", "·", spelling.removesuffix("."))
    plain = _TYPED_IN_CAPITALS.get(plain.upper(), plain)
    return COMMON_UNITS.get(plain) or unit_from_pint(plain)


@lru_cache(maxsize=256)
def unit_from_pint(spelling: str) -> tuple[str, float]:
    """What pint makes of a unit, in the same form. Angles are left to the table: to pint every bare ratio is one."""
    if not re.fullmatch(_SIMPLE, spelling):
        return NO_UNIT
    import pint

    registry = _registry()
    try:
        unit = registry.parse_units(spelling.replace("·", "*").replace("²", "**2").replace("³", "**3"))
        for dimension, (inside, _) in DIMENSIONS.items():
            wanted = registry.parse_units(inside.replace("·", "*"))
            if dimension in ("angle", "temperature") or unit.dimensionality != wanted.dimensionality:
                continue
            if dimension == "torque" and not _is_force_by_length(spelling):
                return NO_UNIT  # an energy, such as a joule: of the same kind to pint, and never what a wrench says
            return dimension, float(registry.Quantity(1.0, unit).to(wanted).magnitude)
    except (pint.errors.PintError, ValueError, TypeError, ArithmeticError, AttributeError, KeyError):
        return NO_UNIT  # pint names no common base for what it raises on a spelling that it cannot take apart
    return NO_UNIT


def _is_force_by_length(spelling: str) -> bool:
    factors = spelling.split("·")
    return len(factors) == 2 and {find_unit(each)[0] for each in factors} == {"force", "length"}


@lru_cache(maxsize=1)
def _registry():
    import pint

    return pint.UnitRegistry(cache_folder=None)
