"""A length measured warm is brought to 20 °C, at which drawings give theirs (ISO 1).

The part has grown by α θ and the steel of the instrument by α_s θ_s, θ what each is warmer than 20 °C: an instrument
that is as warm as a part of steel hides nearly all of it. What is known of the four only within limits is a doubt of
its own each (JCGM 100:2008, H.1), shared by all readings that it stands behind.

Left out: a part that is warmer inside than outside, and one that cools while it is measured.
"""

from __future__ import annotations

from math import sqrt

from stackcheck.model.expansion import OF_A_METAL, OF_ANY_STEEL, of_metal
from stackcheck.value import Value

AT_C = 20.0
ONE_FIGURE_K = 2.0
"""A temperature said by one figure is taken to be good to this much; common practice, no source."""


class Degrees(Value, kw_only=True):
    """A temperature as said, and where it may lie [°C]; `whose` tells doubts of one thing from those of another."""

    text: str
    least_c: float
    most_c: float
    whose: str = ""

    @property
    def kelvin(self) -> float:
        return (self.least_c + self.most_c) / 2 - AT_C

    @property
    def uncertainty(self) -> float:
        """Standard uncertainty, evenly spread between the limits [K] (JCGM 100:2008, 4.3.7)."""
        return (self.most_c - self.least_c) / 2 / sqrt(3)


class Doubt(Value):
    """One thing known within limits, and what that adds to the standard uncertainty of a reading [mm], with its sign."""

    name: str
    adds_mm: float


class Warm(Value, kw_only=True):
    """How warm part and instrument were, what was read then, and what bringing it to 20 °C leaves open.

    `tool` is None where nobody said how warm the instrument was: then it lay between 20 °C and the part.
    """

    part: Degrees
    tool: Degrees | None = None
    metal: str = ""
    read_mm: float = 0.0
    read_good_to_mm: float = 0.0
    readings_mm: tuple[float, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def at_20(expansion_per_k: float, kelvin: float, tool_per_k: float, tool_kelvin: float) -> float:
    """What a reading is multiplied with to be the length at 20 °C: (1 + α_s θ_s)/(1 + α θ).

    Args:
        expansion_per_k, tool_per_k: linear expansion of part and instrument α, α_s [1/K].
        kelvin, tool_kelvin: how much warmer than 20 °C they are θ, θ_s [K].
    Source: JCGM 100:2008, H.1.2, equation (H.2) (from memory).

    >>> round(58.02 * at_20(11.5e-6, 40.0, 11.5e-6, 0.0), 4)  # by hand: 58.02 x 0.00046 = 0.0267 less
    57.9933
    """
    return (1 + tool_per_k * tool_kelvin) / (1 + expansion_per_k * kelvin)


def brought_to_20(read_mm: float, warm: Warm, metal: str, expansion_per_k: float) -> tuple[float, tuple[Doubt, ...]]:
    """The factor of a reading, and the doubts of it.

    u_i = L α u(θ), L α_s u(θ_s), L θ u(α), L θ_s u(α_s)

    Args:
        read_mm: L [mm], above 0.
        warm: how warm it was.
        metal: what the part is of, "" where nobody says and steel is taken.
        expansion_per_k: linear expansion of the part [1/K].
    Source: JCGM 100:2008, H.1.3 (from memory).
    """
    steel, tool = of_metal(""), warm.tool or _not_said(warm.part)
    apart = (OF_A_METAL if metal else OF_ANY_STEEL) / sqrt(3)
    doubts = (
        Doubt(f"the temperature of {warm.part.whose}", -read_mm * expansion_per_k * warm.part.uncertainty),
        Doubt(f"the temperature of {tool.whose}", read_mm * steel * tool.uncertainty),
        Doubt(f"the expansion of {metal or 'what is taken for steel'}", -read_mm * warm.part.kelvin * apart),
        Doubt("the expansion of the instrument", read_mm * tool.kelvin * OF_A_METAL / sqrt(3)),
    )
    factor = at_20(expansion_per_k, warm.part.kelvin, steel, tool.kelvin)
    return factor, tuple(doubt for doubt in doubts if doubt.adds_mm)


def _not_said(part: Degrees) -> Degrees:
    """An instrument of which nobody says it was anywhere between 20 °C and as warm as the part."""
    ends = sorted((AT_C, (part.least_c + part.most_c) / 2))
    return Degrees(
        text="", least_c=ends[0], most_c=ends[1], whose=f"the instrument at {part.whose}, which nobody said,"
    )
