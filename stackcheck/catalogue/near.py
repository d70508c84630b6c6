"""Which known parts agree with what was measured, each with its distance from the readings.

A part agrees with a reading where the interval that holds the true size (reading ± good to) meets the limits of the
part. Use thins a part, wears its outside down and its bore wide, never the other way; so a second class, "only if
worn", lets the limits reach out by `WEAR_MM` in that direction. A part whose limits of a measured size are not known is
not offered.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.catalogue.known import Known, Limits
from stackcheck.model.part import Reading
from stackcheck.value import Value

Readings = tuple[tuple[str, Reading], ...]
"""What was measured: name of the size and reading, only those that were taken."""

WEAR_MM = 0.25
"""How far use may carry a size beyond its limit before a part is no longer offered [mm]. Common practice, no source."""
GROWS = frozenset({"bore"})
"""Sizes that use makes larger."""
MOST = 2000
"""Above so many answers another measurement helps more than a list."""

WITHIN, WITHIN_INSTRUMENT, ONLY_IF_WORN = "within limits", "within what the reading is good to", "only if worn"
VERDICTS = (WITHIN, WITHIN_INSTRUMENT, ONLY_IF_WORN)


class Near(Value, kw_only=True):
    """Known parts with equal limits that can be the measured one, all as far from the readings as each other.

    `off_mm` is reading less nearest limit for each measured size [mm], 0 inside the limits.
    """

    parts: tuple[Known, ...]
    off_mm: tuple[tuple[str, float], ...]
    verdict: str

    @property
    def distance_mm(self) -> float:
        return sum(abs(off) for _, off in self.off_mm)


def near(readings: Readings, known: Iterable[Known], kind: str = "") -> tuple[Near, ...]:
    """The known parts that the readings allow, equal limits together; best verdict first, then the nearest.

    Args:
        readings: what was measured, by the names of the sizes.
        kind: only parts of this kind and its narrower kinds ("washer" includes "thrust washer"); "" for any.
    """
    classes: dict[tuple[object, ...], list[Known]] = {}
    for part in known:
        if is_kind(part.kind, kind):
            classes.setdefault((part.kind, part.sizes), []).append(part)
    found = []
    for same in classes.values():
        judged = [(name, _judge(reading, same[0].size(name))) for name, reading in readings]
        if judged and all(each for _, each in judged):
            verdict = max((verdict for _, (_, verdict) in judged), key=VERDICTS.index)
            off_mm = tuple((name, off) for name, (off, _) in judged)
            found.append(Near(parts=tuple(same), off_mm=off_mm, verdict=verdict))
    return tuple(sorted(found, key=lambda each: (VERDICTS.index(each.verdict), each.distance_mm)))


def is_kind(kind: str, wanted: str) -> bool:
    return not wanted or kind == wanted or kind.endswith(f" {wanted}")


def _judge(reading: Reading, limits: Limits | None) -> tuple[float, str] | None:
    """(reading less nearest limit, verdict), None where the part cannot have this size."""
    if limits is None:
        return None
    off = round(reading.value_mm - min(max(reading.value_mm, limits.low_mm), limits.high_mm), 6)
    if off == 0:
        return off, WITHIN
    if abs(off) <= reading.good_to_mm + 1e-9:
        return off, WITHIN_INSTRUMENT
    if (off > 0) is (limits.name in GROWS) and abs(off) <= WEAR_MM + reading.good_to_mm + 1e-9:
        return off, ONLY_IF_WORN
    return None
