"""A part by its steps: what stands where along it, first end to second end, as it stands in the assembly.

One that is given by its sections is a row of plain tubes, one behind the other: 1/k = Σ l/(E A). A part that stands the other way round than in its first place, or is turned, shows them from its other end;
one that is measured longer or shorter than the reference has it has each of them longer or shorter in proportion.
Source: bodies in series, elementary: the same force goes through all of them and what they give adds up (Budynas &
Nisbett, Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 4-4 and 8-18, from memory).
"""

from __future__ import annotations

from typing import NamedTuple

from stackcheck.mechanics.lengths import Ruler
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part, Section

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
    if part is None or not part.sections or counts_turned(part, standing):
        return ()
    sections = sections_standing(ruler, standing, part) * standing.count
    total = sum(section.length.nominal_mm for _, section in sections)
    share = 1.0 if length_mm is None else length_mm / total
    return tuple(
        Step(
            number=number,
            outside_mm=section.outside.nominal_mm,
            bore_mm=section.bore.nominal_mm if section.bore is not None else 0.0,
            length_mm=share * section.length.nominal_mm,
            material=section.material or part.material,
        )
        for number, section in sections
    )


def counts_turned(part: Part, standing: Standing) -> bool:
    """Whether a part is turned round and takes up another length so: it is pressed elsewhere then."""
    return standing.turned and part.size("length_when_turned") is not None


def sections_standing(ruler: Ruler, standing: Standing, part: Part) -> tuple[tuple[int, Section], ...]:
    """The sections with their numbers, first end to second end as the part stands."""
    numbered = tuple(enumerate(part.sections, 1))
    wanted = {ruler.facing(standing), *(place.facing for place in ruler.reference.places_of(part.id)[:1])}
    return numbered[::-1] if ({"first", "second"} <= wanted) != standing.turned else numbered


def end_section(ruler: Ruler, standing: Standing, part: Part, end: str) -> Section | None:
    """The section whose face looks at this end ("first" or "second"); None of a plain tube."""
    if not part.sections:
        return None
    return sections_standing(ruler, standing, part)[0 if end == "first" else -1][1]
