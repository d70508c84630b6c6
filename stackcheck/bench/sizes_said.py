"""A size said at the bench: with the job's unit and the way of measuring last used where it says neither,
and read back.
"""

from __future__ import annotations

import re

from stackcheck.errors import SizeError
from stackcheck.formats.bench_line import Question
from stackcheck.formats.readings import reading_of
from stackcheck.job.events import Measured, Off
from stackcheck.job.state import Job
from stackcheck.model.part import Reading
from stackcheck.model.reference import Reference
from stackcheck.units import read_reading
from stackcheck.units.instruments import INSTRUMENTS

USUAL = frozenset({"calliper", "calliper 0.05", "calliper 0.1", "micrometer", "rule"})
"""Ways of measuring that a bare figure may go on with; a depth gauge or a feeler is said each time."""


def last_how(job: Job, size: str = "length") -> str:
    """The short word for the way in which sizes of this kind were last taken in this job, "" where none was."""
    for event in reversed(job.live):
        texts = (
            [event.reading]
            if isinstance(event, Measured) and event.size == size
            else [event.sizes.get(size, "")]
            if isinstance(event, Off)
            else []
        )
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
        text = f"{figures[0].strip()} {job.begun.unit} {text[figures.end() :].strip()}".strip()
    return text, reading_of(text, may_be_zero=True)


SUITS = 0.15
"""How near a figure comes to a wanted size, as a part of it, to be one of that part, worn or measured roughly."""
WITHIN = 3.0
"""A size more times as large or small as this than every wanted one is not of such a part."""


def unit_asked(job: Job, text: str, size: str, kind: str) -> Question | None:
    """What has to be asked about a bare figure that cannot be meant in the job's unit:
    each choice with the unit that it means.

    It cannot be meant where it lies far from every size of such a part and suits one in another unit, or where it is
    longer than anything that the reference holds. One that says its unit is never asked about.
    """
    read = read_reading(text, default_unit=job.begun.unit, may_be_zero=True)
    others = {unit: read_reading(text, default_unit=unit, may_be_zero=True).value_mm for unit in ("mm", "in", "thou")}
    if others["mm"] == others["in"] or not read.value_mm:
        return None
    reference = job.reference
    every = [own.nominal_mm for part in reference.parts for _, own in part.sizes]
    wanted = [own.nominal_mm for part in reference.parts if part.kind == kind and (own := part.size(size)) is not None]
    if any(1 / WITHIN < read.value_mm / nominal < WITHIN for nominal in wanted if nominal):
        return None
    longest = max(
        (*every, *(total for stack in reference.stacks if (total := _length_of(reference, stack.places)))), default=0.0
    )
    suiting = [
        unit
        for unit, value in others.items()
        if unit != job.begun.unit and any(abs(value - nominal) <= SUITS * nominal for nominal in wanted)
    ]
    is_too_long = bool(longest) and read.value_mm > longest
    if not suiting and not is_too_long:
        return None
    units = suiting or [unit for unit, value in others.items() if unit != job.begun.unit and value <= longest]
    figure = f"{_figures(text)} {job.begun.unit}"
    why = "longer than anything here" if is_too_long else "far from any part of this kind here"
    choices = [
        (f"{_figures(text)} {unit}, {others[unit]:.5g} mm" if unit != "mm" else f"{_figures(text)} mm", unit)
        for unit in units
    ]
    return Question(
        about="unit", text=f"{figure}? That is {why}: which unit?", choices=(*choices, (figure, job.begun.unit))
    )


def line_with_unit(text: str, unit: str) -> str:
    """A typed size with its unit behind the figures: "867 cal" -> "867 thou cal"."""
    figures = _figures(text)
    rest = re.sub(r"^(mm|in)\b", "", text.strip()[len(figures) :].strip()).strip()
    return f"{figures} {unit} {rest}".strip()


def _figures(text: str) -> str:
    found = re.match(r"[\d.,/ -]+", text.strip())
    return found[0].strip() if found else text


def _length_of(reference: Reference, places: tuple[str, ...]) -> float:
    """The lengths of a row of places, one behind the other [mm]."""
    return sum(size.nominal_mm for name in places if (size := reference.part_at(name).size("length")) is not None)


def reading_back(reading: Reading) -> str:
    """ "57.94 mm by micrometer (middle of 3, spread 0.01)"."""
    by = (
        f" by {reading.how}"
        if reading.how and reading.how not in ("guess", "marking", "drawing")
        else f", {reading.how}"
        if reading.how
        else ""
    )
    if reading.readings_mm and ".." in reading.text:
        low, high = reading.readings_mm[0], reading.readings_mm[-1]
        return f"{low:g} to {high:g} mm ({low / 25.4:.3f} to {high / 25.4:.3f} in){by}."
    several = ""
    if len(reading.readings_mm) > 1:
        spread = max(reading.readings_mm) - min(reading.readings_mm)
        several = f" (middle of {len(reading.readings_mm)}, spread {spread:.3g})"
    warm = reading.warm and f", {reading.warm.read_mm:g} read at {reading.warm.part.text}, brought to 20 °C as steel"
    return f"{reading.value_mm:g} mm ({reading.value_mm / 25.4:.3f} in){by}{several}{warm or ''}."
