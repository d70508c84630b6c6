"""How warm an assembly is: when it is put together, and in the states that it works in.

A state has one temperature for everything, and others for what is told apart: a part, a place, or one of the groups
below. The state called "assembly" is the one in which joints are tightened and plays are set; where a reference names
none, that is 20 °C, at which lengths are given (ISO 1).
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.model.part import Amount
from stackcheck.value import Value

ASSEMBLY = "assembly"
"""The state in which it is put together."""

EVERY = "states"
"""What stands for all states of a reference where one is asked for."""

AXLE, INNER, OUTER = "axle", "inner rings", "outer rings"
"""Groups beside parts and places that a temperature may be given for; inner rings with their balls or rollers."""

COLDEST_C, HOTTEST_C = -80.0, 300.0
NOTHING_C = -273.15
TEMPERATURE_WANTED = "-80 to 300 °C: above, steel springs and seals are something else"


class State(Value, kw_only=True):
    """One state: `temperature` of everything, and of what stands `apart`, each with its name."""

    name: str
    temperature: Amount
    apart: tuple[tuple[str, Amount], ...] = ()
    source: str = ""


def can_be_apart(parts: Iterable[str], places: Iterable[str]) -> list[str]:
    """Everything that may have a temperature of its own."""
    return list(dict.fromkeys([AXLE, INNER, OUTER, *parts, *places]))


def out_of_range(temperature: Amount) -> str:
    """Why no answer is meant for this temperature, "" where there is one: "below the absolute zero of -273.15 °C"."""
    ends = [temperature.nominal if end is None else end for end in (temperature.least, temperature.most)]
    if min(ends) < NOTHING_C:
        return f"below the absolute zero of {NOTHING_C} °C"
    return "" if COLDEST_C <= ends[0] <= ends[1] <= HOTTEST_C else "out of range"
