"""Several gauges read on one common source, round by round, as somebody wrote it down.

All figures are in our inside unit (mm, MPa, °C, ...); `Scale` says what was typed. What the readings tell is worked out
in `stackcheck.mechanics.gauges`.
"""

from __future__ import annotations

from stackcheck.units import Figure
from stackcheck.value import Value


class Scale(Value):
    """What is measured, the unit it is typed and shown in, and how many of our inside units one of these is."""

    dimension: str
    unit: str
    factor: float


class Gauge(Value, kw_only=True):
    """One gauge; `how` is a key of `INSTRUMENTS` or "", `good_to` what it is taken to be good to, None: not said."""

    name: str
    how: str = ""
    good_to: float | None = None


class Round(Value, kw_only=True):
    """One reading of every gauge, in their sequence; `again` is the first gauge read once more at the end."""

    read: tuple[Figure, ...]
    again: Figure | None = None


class KnownSource(Value, kw_only=True):
    """A source whose size is known: `good_to` is half the interval that holds it (coverage factor 2)."""

    text: str
    value: float
    good_to: float
    known_from: str = ""


class Room(Value, kw_only=True):
    """How warm it was: degrees above 20 °C with what that is good to, and what source and gauge may differ by [K]."""

    text: str
    warmer_k: float
    warmer_good_to_k: float
    differ_k: float


class GaugeReadings(Value, kw_only=True):
    """The whole comparison as written down; `agree_within` is how near they should be, None where nobody says."""

    source: str
    scale: Scale
    gauges: tuple[Gauge, ...]
    rounds: tuple[Round, ...]
    known: KnownSource | None = None
    room: Room | None = None
    agree_within: float | None = None
    title: str = ""
    by: str = ""
    date: str = ""
