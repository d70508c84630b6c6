"""The steps of a part, or of what a joint stretches, as they stand in a reference file, and what is wrong with them.

    sections = [
      { length = "4.0 mm", outside = "42 mm", bore = "20 mm" },
      { length = "18.0 mm", outside = "30 mm", bore = "20 mm" },
    ]

A part's run from the first end to the second as it stands in its first place, and add up to its length; those of a
joint (`shank`) from the head or shoulder to the nut, solid where no bore is given.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any, ClassVar

from stackcheck.formats.sizes import Extent, Length
from stackcheck.formats.source import Reader, Table
from stackcheck.formats.words import SIZES_ALSO_CALLED
from stackcheck.model.part import PASS_THROUGH, RING_BEARINGS, Part, Section, Size

STEPS = ("sections", "shank")
"""Keys that hold steps."""

AS_WRITTEN_MM = 0.0005
"""Two lengths that differ by less are one: half a step of the finest figures written."""

NO_TUBE = RING_BEARINGS | {
    "needle bearing", "loose balls", "spring washer", "disc spring", "spring", "crush sleeve", "circlip", "split pin",
    "key", "nut", "seal", "mechanical seal", "O-ring",
}  # fmt: skip
"""Kinds whose stiffness comes from something else than a row of tubes."""


class ShankTable(Table):
    length: Extent
    outside: Extent
    bore: Length | None = None
    material: str = ""

    also_called: ClassVar = SIZES_ALSO_CALLED


class SectionTable(ShankTable):
    bore: Length


def sections_of(tables: tuple[ShankTable, ...]) -> tuple[Section, ...]:
    return tuple(Section(**dict(table)) for table in tables)


def section_tables(sections: tuple[Section, ...]) -> list[dict[str, Any]]:
    """As the file has them."""
    return [
        {
            "length": section.length.text,
            "outside": section.outside.text,
            "bore": section.bore and section.bore.text,
            "material": section.material,
        }
        for section in sections
    ]


def check_sections(reader: Reader, part: Part) -> None:
    """Whether the sections of a part are those of one body, and say the same as its other sizes."""
    if not part.sections:
        return
    path, what = ("parts", part.id, "sections"), f'part "{part.id}"'
    if part.kind in PASS_THROUGH:
        wanted = "write them as shank = [...] under the joint that stretches it, from its head or shoulder to its nut"
        reader.mistake(path, f"{what}: the sections of what others stand on", wanted)
        return
    if part.kind in NO_TUBE or part.stiffness is not None:
        of = f"a {part.kind}" if part.kind in NO_TUBE else "a part whose stiffness is given"
        reader.mistake(path, f"{what}: sections of {of}", "leave them out: no row of tubes tells how stiff it is")
        return
    check_steps(reader, part.sections, path, what)
    _check_length(reader, part, path, what)
    for name, size in part.sizes:
        if name in ("outside", "bore"):
            _check_across(reader, part, name, size)


def check_steps(reader: Reader, sections: tuple[Section, ...], path: tuple, what: str) -> None:
    """Each has metal between its bore and its outside, and touches the next with some of it."""
    for index, section in enumerate(sections):
        if section.bore is not None and section.bore.nominal_mm >= section.outside.nominal_mm:
            said = section.bore.text
            problem = f"{what}, section {index + 1}: the bore is not smaller than the outside"
            reader.mistake(path + (index, "bore"), problem, "look at both figures", said=said)
            return
    for index, (one, other) in enumerate(pairwise(sections)):
        bore = max(each.bore.nominal_mm if each.bore is not None else 0.0 for each in (one, other))
        if bore >= min(one.outside.nominal_mm, other.outside.nominal_mm):
            problem = f"{what}: sections {index + 1} and {index + 2} do not touch"
            reader.mistake(
                path + (index + 1,), problem, "the bore of one is as wide as the other: look at both", said=""
            )


def _check_length(reader: Reader, part: Part, path: tuple, what: str) -> None:
    length, total = part.size("length"), sum(section.length.nominal_mm for section in part.sections)
    if length is None:
        reader.mistake(path, f"{what}: sections without its length", f'add length = "{total:.9g} mm", with its limits')
    elif abs(total - length.nominal_mm) > AS_WRITTEN_MM:
        problem = f"{what}: its sections are {total:.9g} mm together, its length is {length.nominal_mm:.9g} mm"
        reader.mistake(path, problem, "let the lengths of the sections add up to the length of the part")


def _check_across(reader: Reader, part: Part, name: str, size: Size) -> None:
    whole = part.across(name)
    if abs(whole.nominal_mm - size.nominal_mm) > AS_WRITTEN_MM:
        widest = "widest" if name == "outside" else "narrowest"
        problem = f'part "{part.id}": its {name} is not that of its {widest} section, {whole.nominal_mm:.9g} mm'
        reader.mistake(("parts", part.id, name), problem, "look at both figures, or leave this one out", said=size.text)
