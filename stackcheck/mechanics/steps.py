"""A part by its steps: what stands where along it, first end to second end, as it stands in the assembly.

One that is given by its sections is a row of plain tubes, one behind the other: 1/k = Σ l/(E A). A part that stands the
other way round than in its first place, or is turned, shows them from its other end; one that is measured longer or
shorter than the reference has it has each of them longer or shorter in proportion. What came off and had its steps
measured counts with those.
Source: bodies in series, elementary: the same force goes through all of them and what they give adds up (Budynas &
Nisbett, Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 4-4 and 8-18, from memory).
"""

from __future__ import annotations

from typing import NamedTuple

from stackcheck.mechanics.lengths import Ruler
from stackcheck.model.finding import Standing
from stackcheck.model.found import MeasuredSection
from stackcheck.model.part import Part, Section, Size

NO_PLAIN_TUBE = frozenset(
    {"flange", "sprocket flange", "suction flange", "step", "spigot", "collar", "long boss", "boss", "seal land"}
)
"""Features that stand out of a part, so that one bore and one outside do not tell all of it."""


class Step(NamedTuple):
    """One plain tube [mm]; `number` is that of its section in the reference, from 1."""

    number: int
    outside_mm: float
    bore_mm: float
    length_mm: float
    material: str


def steps_of(ruler: Ruler, standing: Standing, length_mm: float | None = None) -> tuple[Step, ...]:
    """The steps of what stands there, one part or a pack of equal ones, `length_mm` long together;
    none of one that is a plain tube, or that counts another length because it is turned.
    """
    part = ruler.part(standing)
    sections = sections_standing(ruler, standing) * standing.count
    if not sections or part is not None and counts_turned(part, standing):
        return ()
    total = sum(section.length.nominal_mm for _, section in sections)
    share = 1.0 if length_mm is None else length_mm / total
    return tuple(
        Step(
            number=number,
            outside_mm=section.outside.nominal_mm,
            bore_mm=section.bore.nominal_mm if section.bore is not None else 0.0,
            length_mm=share * section.length.nominal_mm,
            material=section.material or (part.material if part is not None else ""),
        )
        for number, section in sections
    )


def counts_turned(part: Part, standing: Standing) -> bool:
    """Whether a part is turned round and takes up another length so: it is pressed elsewhere then."""
    return standing.turned and part.size("length_when_turned") is not None


def sections_standing(ruler: Ruler, standing: Standing) -> tuple[tuple[int, Section], ...]:
    """The sections with their numbers, first end to second end as the part stands:
    as they were measured on what came off, else by the reference.
    """
    entry = ruler.readings.entries.get(standing.entry) if standing.entry is not None else None
    if entry is not None and entry.sections:
        return tuple(enumerate(map(_as_measured, entry.sections), 1))
    part = ruler.part(standing)
    if part is None:
        return ()
    numbered = tuple(enumerate(part.sections, 1))
    wanted = {ruler.facing(standing), *(place.facing for place in ruler.reference.places_of(part.id)[:1])}
    return numbered[::-1] if ({"first", "second"} <= wanted) != standing.turned else numbered


def end_section(ruler: Ruler, standing: Standing, end: str) -> Section | None:
    """The section whose face looks at this end ("first" or "second"); None of a plain tube."""
    sections = sections_standing(ruler, standing)
    return sections[0 if end == "first" else -1][1] if sections else None


def _as_measured(section: MeasuredSection) -> Section:
    length, outside, bore = (
        Size(text=reading.text, nominal_mm=reading.value_mm, least_mm=reading.low_mm, most_mm=reading.high_mm)
        for reading in (section.length, section.outside, section.bore)
    )
    return Section(length=length, outside=outside, bore=bore, material=section.material)
