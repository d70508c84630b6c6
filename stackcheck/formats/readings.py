"""A measured length as typed -> a reading. Apart from `sizes`,
because a record at the bench starts without the tables of files.
"""

from __future__ import annotations

from typing import Any

from stackcheck.model.part import Reading
from stackcheck.units import WrittenReading, read_reading


def reading_of(text: Any, *, may_be_zero: bool = False) -> Reading:
    """A measured length as typed. Raises SizeError."""
    return as_reading(read_reading(text, may_be_zero=may_be_zero))


def as_reading(read: WrittenReading) -> Reading:
    """The written text as a reading."""
    return Reading(
        text=read.text, value_mm=read.value_mm, good_to_mm=read.good_to_mm, how=read.how, readings_mm=read.readings_mm,
        step_mm=read.step_mm, own_good_to=read.own_good_to,
    )  # fmt: skip
