"""Figures and names of sizes as they stand in an answer. Loads next to nothing, so that a short
answer starts quickly."""

from __future__ import annotations

from stackcheck.formats.bare_sizes import length_word
from stackcheck.units.digits import good_to

SIZE_WORDS = {"length": "thickness", "outside": "outside diameter", "bore": "bore"}


def mm(value: float) -> str:
    """A length to a hundredth, or to a thousandth where it has one: 18.00, 0.025."""
    rounded = round(value, 3) + 0.0
    return f"{rounded:.2f}" if abs(rounded * 100 - round(rounded * 100)) < 1e-6 else f"{rounded:.3f}"


def reading_mm(value_mm: float, good_to_mm: float) -> str:
    """A reading [mm] with no more decimals than what it is good to has.

    >>> reading_mm(35.0023, 0.58), reading_mm(45.0, 0.058), reading_mm(0.4962, 0.0089)
    ('35.0', '45.00', '0.496')
    """
    decimals = len(good_to(good_to_mm).partition(".")[2])
    return f"{value_mm:.{min(max(decimals, 1), 3)}f}"


def size_word(name: str, kind: str = "") -> str:
    """ "thickness", "outside diameter", "across flats"; of a nut the "height", of a tube the "length"."""
    if name == "length" and kind:
        return length_word(kind)
    return SIZE_WORDS.get(name, name.replace("_", " "))
