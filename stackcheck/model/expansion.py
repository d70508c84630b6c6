"""How much metals grow with heat."""

from __future__ import annotations

from operator import mul
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stackcheck.model.part import Part

EXPANSION_PER_K = {
    "steel": 11.5e-6, "aluminium": 23.5e-6, "cast iron": 10.5e-6, "brass": 19e-6, "bronze": 18e-6, "titanium": 8.6e-6,
}  # fmt: skip
"""Linear expansion [1/K]; handbook values, from memory."""

OF_A_METAL, OF_ANY_STEEL = 1e-6, 2e-6
"""Half of the interval that holds the expansion of a metal that is named [1/K] (JCGM 100:2008, H.1.3.5, takes as much
between two pieces of steel), and of a part that is taken for steel because nobody says (our own figure)."""


def expansion(part: Part | None) -> float:
    """Linear expansion of a part [1/K], that of steel where no material is given or none that is known here."""
    return of_metal(part.material if part is not None else "")


def expansion_along(part: Part | None) -> float:
    """Linear expansion of a part from face to face [1/K]: that of its sections together, each of its own metal.

    α = Σ α_i l_i / Σ l_i
    """
    if part is None or not part.sections:
        return expansion(part)
    lengths = [section.length.nominal_mm for section in part.sections]
    metals = [section.material or part.material for section in part.sections]
    return sum(map(mul, lengths, map(of_metal, metals))) / sum(lengths)


def of_metal(material: str) -> float:
    """Linear expansion of a metal [1/K], that of steel for one that is not known here."""
    return EXPANSION_PER_K.get(material, EXPANSION_PER_K["steel"])
