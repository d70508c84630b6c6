"""What came off: one entry per thing as typed, and what was measured beside the parts.

An entry keeps what was said; who it is and where it belongs is decided by `stackcheck.compare`, never here.
"""

from __future__ import annotations

from functools import cached_property

from stackcheck.model.part import Reading
from stackcheck.units.inches import in_inches
from stackcheck.value import Value

TOWARD_FIRST, TOWARD_SECOND = "first", "second"


class MeasuredSection(Value, kw_only=True):
    """One step of a part as somebody measured it; `material` is "" where it is that of the part."""

    length: Reading
    outside: Reading
    bore: Reading
    material: str = ""


class Entry(Value, kw_only=True):
    """One thing that came off.

    `number` counts entries from 1 as typed. `end` is 0 (came off the first end), 1 (the second), None (not said).
    `part` is the id of a part, a unit or a fixed member of the reference when somebody named it: certain when `sure`,
    otherwise a guess; None when nobody could say. `toward` is "first" or "second" (the end that the feature points to),
    "same both ways", "not seen", or "" when nothing was said. `place_seen` is one of "seen in place", "inferred",
    "found loose", "" (not said); a part found loose takes no place in the sequence. `sections` are its steps, first end
    to second as it lay.
    """

    number: int
    what: str
    end: int | None = None
    part: str | None = None
    sure: bool = True
    kind: str = ""
    marked: str = ""
    count: int = 1
    sizes: tuple[tuple[str, Reading], ...] = ()
    sections: tuple[MeasuredSection, ...] = ()
    feature: str = ""
    toward: str = ""
    feel: tuple[str, ...] = ()
    look: tuple[str, ...] = ()
    came_off: str = ""
    card: str = ""
    tag: str = ""
    place_seen: str = ""
    stuck_to_next: bool = False
    note: str = ""
    line: int | None = None

    def size(self, name: str) -> Reading | None:
        for own, reading in self.sizes:
            if own == name:
                return reading
        return None

    @property
    def is_loose(self) -> bool:
        return self.place_seen == "found loose"


class Measured(Value, kw_only=True):
    """A size taken on the assembly rather than on one part that came off.

    Either `place` and `size` (the seat to seat length of a hub that stayed on), or `gap` (the name of a gap or limit).
    """

    reading: Reading
    place: str = ""
    size: str = ""
    gap: str = ""


MOVED, STANDS_OFF, DRAG, ROCK = "moved on release", "stands off", "drag", "rock"
SYMPTOMS = {
    MOVED: "a member that went somewhere when what clamps it was undone",
    STANDS_OFF: "a part that stood beside where it belongs along the axis",
    DRAG: "something turned hard",
    ROCK: "something had rock, or end float that it should not have",
}
"""What may be noticed of the whole machine, before or while it is taken apart."""


class Symptom(Value, kw_only=True):
    """Something noticed that the explanation is held against.

    `what` is one of `SYMPTOMS`; `place` is what moved, stood off, dragged or rocked ("" where nobody says), `toward`
    "first" or "second" for the first two, `by` how far where somebody measured it.
    """

    what: str
    place: str = ""
    toward: str = ""
    by: Reading | None = None
    note: str = ""


class Found(Value, kw_only=True, dict=True, gc=True):
    """A teardown list. `finished` False: the teardown stopped early, deeper places are not reached, never missing.

    `not_seen` names places that were passed without being looked at: an empty one is no difference, and no agreement.
    `seen_empty` names places that were looked at and held nothing: missing, however far the teardown went.
    `not_measured` holds (place, size) of what stays on, that was asked for and answered with not measured.
    `compared_tools` names ways of measuring whose instruments were compared with each other for this job.
    """

    reference: str
    revision: str
    entries: tuple[Entry, ...]
    finished: bool = True
    measured: tuple[Measured, ...] = ()
    symptoms: tuple[Symptom, ...] = ()
    not_seen: tuple[str, ...] = ()
    seen_empty: tuple[str, ...] = ()
    not_measured: tuple[tuple[str, str], ...] = ()
    compared_tools: tuple[str, ...] = ()
    title: str = ""
    story: str = ""
    by: str = ""
    date: str = ""
    year: str = ""
    serial: str = ""
    file: str = ""

    @cached_property
    def inches(self) -> bool:
        """Whether somebody measured in inches."""
        readings = (
            *(reading for entry in self.entries for _, reading in entry.sizes),
            *(item.reading for item in self.measured),
        )
        return any(in_inches(reading.text) for reading in readings)

    def entry(self, number: int) -> Entry:
        return self.entries[number - 1]
