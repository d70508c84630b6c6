"""Which known parts agree with what was measured, each with its distance from the readings.

A part agrees with a reading where the interval that holds the true size (reading ± good to) meets the limits of the part.
Use thins a part, wears its outside down and its bore wide, never the other way; so a second class, "only if worn", lets
the limits reach out by `WEAR_MM` in that direction. A part whose limits of a measured size are not known is not offered.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from stackcheck.model.part import Part, Reading
from stackcheck.value import Value

if TYPE_CHECKING:  # a look-up in a catalogue of its own opens no table
    from stackcheck.tables.candidates import StandardPart

Limits = tuple[float, float]
"""Least and most [mm]."""

WEAR_MM = 0.25
"""How far use may carry a size beyond its limit before a part is no longer offered [mm]. Common practice, no source."""
WORN_WIDER = (True, False, False)
"""Bore, outside, thickness: whether use makes the size larger."""
MOST = 2000
"""Above so many answers another measurement helps more than a list."""

WITHIN, WITHIN_INSTRUMENT, ONLY_IF_WORN = "within limits", "within what the reading is good to", "only if worn"
VERDICTS = (WITHIN, WITHIN_INSTRUMENT, ONLY_IF_WORN)


class Known(Value, kw_only=True):
    """A known part: its name, kind, where it stands, and limits (least, most) of bore, outside, thickness [mm]."""

    name: str
    kind: str
    where: str
    limits: tuple[Limits | None, Limits | None, Limits | None]


class Near(Value, kw_only=True):
    """Known parts with equal limits that can be the measured one, all as far from the readings as each other.

    `off_mm` is reading less nearest limit for bore, outside, thickness [mm], 0 inside the limits, None not measured.
    """

    parts: tuple[Known, ...]
    off_mm: tuple[float | None, float | None, float | None]
    verdict: str

    @property
    def distance_mm(self) -> float:
        return sum(abs(off) for off in self.off_mm if off)


def known_standard(part: StandardPart) -> Known:
    """A row of the tables as a known part."""
    return Known(name=part.designation, kind=part.kind, where="tables of standard parts", limits=part.limits)


def known_part(reference_id: str, part: Part) -> Known:
    """A part of a reference as a known part; a size without limits counts as exactly its nominal."""
    sizes = (part.size("bore"), part.size("outside"), part.size("length"))
    limits = tuple(None if size is None else (size.low_mm, size.high_mm) for size in sizes)
    return Known(name=part.name, kind=part.kind, where=reference_id, limits=limits)


def near(readings: tuple[Reading | None, Reading | None, Reading | None], known: Iterable[Known], kind: str = "") -> tuple[Near, ...]:
    """The known parts that the readings allow, equal limits together; best verdict first, then the nearest.

    Args:
        readings: of bore, outside and thickness, None where not measured.
        kind: only parts of this kind and its narrower kinds ("washer" includes "thrust washer"); "" for any.
    """
    classes: dict[tuple[object, ...], list[Known]] = {}
    for part in known:
        if is_kind(part.kind, kind):
            classes.setdefault((part.kind, part.limits), []).append(part)
    found = []
    for same in classes.values():
        judged = [_judge(*each) for each in zip(readings, same[0].limits, WORN_WIDER) if each[0] is not None]
        if judged and all(judged):
            verdict = max((verdict for _, verdict in judged), key=VERDICTS.index)
            offs = iter(off for off, _ in judged)
            off_mm = tuple(None if reading is None else next(offs) for reading in readings)
            found.append(Near(parts=tuple(same), off_mm=off_mm, verdict=verdict))
    return tuple(sorted(found, key=lambda each: (VERDICTS.index(each.verdict), each.distance_mm)))


def is_kind(kind: str, wanted: str) -> bool:
    return not wanted or kind == wanted or kind.endswith(f" {wanted}")


def _judge(reading: Reading, limits: Limits | None, wider: bool) -> tuple[float, str] | None:
    """(reading less nearest limit, verdict), None where the part cannot have this size."""
    if limits is None:
        return None
    least, most = limits
    off = round(reading.value_mm - min(max(reading.value_mm, least), most), 6)
    if off == 0:
        return off, WITHIN
    if abs(off) <= reading.good_to_mm + 1e-9:
        return off, WITHIN_INSTRUMENT
    if (off > 0) is wider and abs(off) <= WEAR_MM + reading.good_to_mm + 1e-9:
        return off, ONLY_IF_WORN
    return None
