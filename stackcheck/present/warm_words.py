"""What was measured warm, and what it is at 20 °C."""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.model.part import Reading
from stackcheck.present.figures import mm

MOST_NAMED = 4


def measured_warm(readings: Iterable[tuple[str, Reading | None]]) -> str:
    """ "Measured warm, brought to 20 °C (ISO 1): spacer tube 58.020 read at 60 °C, 57.993 there"; "" where none was."""
    warm = list(dict.fromkeys((name, each) for name, each in readings if each is not None and each.warm is not None))
    if not warm:
        return ""
    told = [f"{name} {_told(each)}" for name, each in warm[:MOST_NAMED]]
    more = [f"and {len(warm) - MOST_NAMED} more"] if len(warm) > MOST_NAMED else []
    unsaid = (
        " Nobody said how warm the instrument was: it lay between 20 °C and the part, which is most of the doubt."
        if any(each.warm.tool is None for _, each in warm)
        else ""
    )
    steel = " Taken for steel where no material is given." if any(not each.warm.metal for _, each in warm) else ""
    return (
        f"Measured warm, brought to 20 °C (ISO 1): {'; '.join([*told, *more])}.{unsaid}{steel} What is not known of "
        "temperatures and expansion counts as doubts of their own (JCGM 100:2008, H.1)."
    )


def _told(reading: Reading) -> str:
    warm = reading.warm
    tool = f", the instrument at {warm.tool.text}" if warm.tool is not None else ""
    return f"{mm(warm.read_mm)} read at {warm.part.text}{tool}: {mm(reading.value_mm)}"
