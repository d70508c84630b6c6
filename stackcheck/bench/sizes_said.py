"""A size said at the bench: with the job's unit and the way of measuring last used where it says neither, and read back."""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.formats.readings import reading_of
from stackcheck.job.events import Measured, Off
from stackcheck.job.state import Job
from stackcheck.model.part import Reading
from stackcheck.units import read_reading
from stackcheck.units.instruments import INSTRUMENTS

USUAL = frozenset({"calliper", "calliper 0.05", "calliper 0.1", "micrometer", "rule"})
"""Ways of measuring that a bare figure may go on with; a depth gauge or a feeler is said each time."""


def last_how(job: Job, size: str = "length") -> str:
    """The short word for the way in which sizes of this kind were last taken in this job, "" where none was."""
    for event in reversed(job.live):
        texts = [event.reading] if isinstance(event, Measured) and event.size == size else [event.sizes.get(size, "")] if isinstance(event, Off) else []
        for text in filter(None, texts):
            try:
                how = read_reading(text, may_be_zero=True).how
            except SizeError:
                continue
            if how in USUAL:
                return INSTRUMENTS[how].typed[0]
    return ""


def with_unit_and_how(job: Job, text: str, size: str) -> tuple[str, Reading]:
    """A typed size with the job's unit and the way of measuring last used, where it says neither. Raises SizeError."""
    read = read_reading(text, default_unit=job.begun.unit, may_be_zero=True)
    if not re.search(r"[A-Za-z\"]", text):
        text = " ".join(filter(None, (text, job.begun.unit if job.begun.unit != "mm" else "", last_how(job, size))))
        read = read_reading(text, may_be_zero=True)
    elif job.begun.unit != "mm" and read.value_mm != read_reading(text, may_be_zero=True).value_mm:
        figures = re.match(r"[\d.,/ -]+", text)
        text = f"{figures[0].strip()} {job.begun.unit} {text[figures.end():].strip()}".strip()
    return text, reading_of(text, may_be_zero=True)


def reading_back(reading: Reading) -> str:
    """ "57.94 mm by micrometer (middle of 3, spread 0.01)"."""
    by = f" by {reading.how}" if reading.how and reading.how not in ("guess", "marking", "drawing") else f", {reading.how}" if reading.how else ""
    if reading.readings_mm and ".." in reading.text:
        low, high = reading.readings_mm[0], reading.readings_mm[-1]
        return f"{low:g} to {high:g} mm ({low / 25.4:.3f} to {high / 25.4:.3f} in){by}."
    several = ""
    if len(reading.readings_mm) > 1:
        spread = max(reading.readings_mm) - min(reading.readings_mm)
        several = f" (middle of {len(reading.readings_mm)}, spread {spread:.3g})"
    return f"{reading.value_mm:g} mm ({reading.value_mm / 25.4:.3f} in){by}{several}."
