"""A measured length as typed -> a reading, at 20 °C. Apart from `sizes`,
because a record at the bench starts without the tables of files.
"""

from __future__ import annotations

from math import ceil, log10, sqrt
from typing import Any

from stackcheck.errors import SizeError
from stackcheck.model.expansion import expansion, expansion_along
from stackcheck.model.part import Amount, Part, Reading
from stackcheck.model.state import TEMPERATURE_WANTED, out_of_range
from stackcheck.model.warm_reading import ONE_FIGURE_K, Degrees, Warm, brought_to_20
from stackcheck.units import Written, WrittenReading, read_reading
from stackcheck.units.digits import good_to
from stackcheck.value import replace


def reading_of(text: Any, *, may_be_zero: bool = False) -> Reading:
    """A measured length as typed; what was measured warm is taken for steel. Raises SizeError."""
    return as_reading(read_reading(text, may_be_zero=may_be_zero))


def as_reading(read: WrittenReading) -> Reading:
    """The written text as a reading."""
    cold = Reading(
        text=read.text, value_mm=read.value_mm, good_to_mm=read.good_to_mm, how=read.how, readings_mm=read.readings_mm,
        step_mm=read.step_mm, own_good_to=read.own_good_to,
    )  # fmt: skip
    if read.part_at is None:
        return cold
    tool = degrees_of(read.tool_at, "the instrument at one part") if read.tool_at else None
    return measured_warm(cold, Warm(part=degrees_of(read.part_at, "one part"), tool=tool))


def degrees_of(written: Written | Amount, whose: str) -> Degrees:
    """A temperature as said; one figure alone is good to `ONE_FIGURE_K`. Raises SizeError."""
    least, most = (written.nominal if end is None else end for end in (written.least, written.most))
    if what := out_of_range(Amount(text=written.text, dimension="temperature", nominal=least, least=least, most=most)):
        raise SizeError(written.text, f"it is {what}; name {TEMPERATURE_WANTED}")
    apart = ONE_FIGURE_K if least == most else 0.0
    return Degrees(text=written.text, least_c=least - apart, most_c=most + apart, whose=whose)


def measured_warm(
    reading: Reading, warm: Warm, part: Part | None = None, *, metal: str = "", across: bool = False
) -> Reading:
    """The reading brought to 20 °C; `across` for a size that is no length, and so of the metal of the part alone.

    One that was brought there before, as steel, is brought there anew from what was read.
    """
    if reading.warm is not None:
        before = reading.warm
        reading = replace(
            reading, value_mm=before.read_mm, good_to_mm=before.read_good_to_mm, readings_mm=before.readings_mm
        )
    own = Part(id="", name="", kind="", material=metal) if part is None else part
    alpha = expansion(own) if across else expansion_along(own)
    steps = [] if across else [section.material or own.material for section in own.sections]
    metals = set(steps or [own.material])
    metal = "" if "" in metals else " and ".join(sorted(metals))
    factor, doubts = brought_to_20(reading.value_mm, warm, metal, alpha)
    told = replace(
        warm, metal=metal, read_mm=reading.value_mm, read_good_to_mm=reading.good_to_mm,
        readings_mm=reading.readings_mm, doubts=doubts,
    )  # fmt: skip
    # No finer than what it is good to: digits that nobody read would stand in every table.
    known_to = float(good_to(sqrt(reading.good_to_mm**2 + sum((2 * doubt.adds_mm) ** 2 for doubt in doubts))))
    decimals = ceil(-log10(known_to / 2) - 1e-9) if known_to else 6
    return replace(
        reading,
        value_mm=round(reading.value_mm * factor, decimals),
        good_to_mm=known_to,
        readings_mm=tuple(round(value * factor, decimals) for value in reading.readings_mm),
        warm=told,
    )


def belonging_to(reading: Reading, whose: str, part: Part | None, *, metal: str = "", across: bool = False) -> Reading:
    """A reading that says itself how warm it was, brought to 20 °C as one of this part."""
    if reading.warm is None:
        return reading
    tool = reading.warm.tool and replace(reading.warm.tool, whose=f"the instrument at {whose}")
    warm = replace(reading.warm, part=replace(reading.warm.part, whose=whose), tool=tool)
    return measured_warm(reading, warm, part, metal=metal, across=across)
