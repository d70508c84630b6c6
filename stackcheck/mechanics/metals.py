"""Which materials are no metal that anything is known of here, and what is taken for them.

Left out: parts that are never of metal all through (seals, gaskets, friction plates) or are said to be of something
that is no metal, such as rubber: that is no slip.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.mechanics.axial.stiffness import MODULUS_MPA
from stackcheck.mechanics.bodies import SOFT_KINDS, lower
from stackcheck.model.part import Part

KNOWN = tuple(MODULUS_MPA)

NO_METAL = frozenset({"rubber", "felt", "plastic", "paper", "cork", "leather", "fibre", "wood"})
"""Materials that nobody takes for a metal."""


def unknown_metals(part: Part) -> tuple[str, ...]:
    """What a part and its sections are said to be of, where that is no metal known here; once each."""
    said = (part.material, *(section.material for section in part.sections))
    if part.kind in SOFT_KINDS:
        return ()
    return tuple(each for each in dict.fromkeys(said) if each and each not in MODULUS_MPA and each not in NO_METAL)


def metals_taken(parts: Iterable[Part]) -> list[str]:
    """The default for each of these parts of an unknown metal, in words."""
    named = dict.fromkeys((lower(part.name), metal) for part in parts for metal in unknown_metals(part))
    return [f'metal of the {name} not known: "{metal}", its stiffness a wide range' for name, metal in named]
