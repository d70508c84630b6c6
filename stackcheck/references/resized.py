"""A part with other sizes: its steps made to agree with them.

Taken from a machine, the length of a part with steps is what was measured there, and its steps are those of the
reference it was compared with. The longest step takes what the length differs by; the widest are as wide as the outside
and the narrowest as narrow as the bore that was measured.
"""

from __future__ import annotations

from collections.abc import Mapping

from stackcheck.formats.sections import AS_WRITTEN_MM
from stackcheck.model.part import Part, Section, Size
from stackcheck.value import replace


def resized(part: Part, sizes: Mapping[str, Size]) -> Part:
    """The part with these sizes instead of its own."""
    sections = list(part.sections)
    if sections and (length := sizes.get("length")) is not None:
        longest = max(range(len(sections)), key=lambda i: sections[i].length.nominal_mm)
        differs = length.nominal_mm - sum(section.length.nominal_mm for section in sections)
        if abs(differs) > AS_WRITTEN_MM:
            own = round(sections[longest].length.nominal_mm + differs, 6)
            sections[longest] = replace(sections[longest], length=Size(text=f"{own:.9g} mm", nominal_mm=own))
    for name in ("outside", "bore"):
        if sections and name in sizes:
            sections = [_across(section, name, part.across(name), sizes[name]) for section in sections]
    return replace(part, sizes=tuple(sizes.items()), sections=tuple(sections))


def _across(section: Section, name: str, was: Size, now: Size) -> Section:
    own = getattr(section, name)
    return replace(section, **{name: now}) if own is not None and own.nominal_mm == was.nominal_mm else section
