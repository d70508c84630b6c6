"""What somebody found at the points of a machine, as written down."""

from __future__ import annotations

from stackcheck.model.gauges import GaugeReadings
from stackcheck.value import Value

FOUND = ("agrees", "differs", "cannot tell")
"""What a look at a point can end in; nothing written means not looked at."""


class PointReading(Value, kw_only=True):
    """One reading at a point, in our inside unit.

    `step` is the smallest step of the digits typed, `repeats_to` what the same gauge would read again within,
    `good_to` what it is good to with the deviation of the gauge, None where nobody says. `gauge` is "" where nobody
    says which.
    """

    text: str
    value: float
    step: float
    repeats_to: float
    good_to: float | None = None
    gauge: str = ""


class PointEntry(Value, kw_only=True):
    """One point as found: `found` from `FOUND` or "", `note` in the words of whoever looked."""

    name: str
    found: str = ""
    readings: tuple[PointReading, ...] = ()
    note: str = ""


class PointsSeen(Value, kw_only=True):
    """A filled-in list of points; `gauges` are the comparisons of gauges that it names."""

    machine: str
    entries: tuple[PointEntry, ...]
    gauges: tuple[GaugeReadings, ...] = ()
    by: str = ""
    date: str = ""
    file: str = ""

    def entry(self, name: str) -> PointEntry | None:
        return next((entry for entry in self.entries if entry.name == name), None)
