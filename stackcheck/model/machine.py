"""A machine: what it is, and the points to look at that are no stack."""

from __future__ import annotations

from stackcheck.model.gauges import Scale
from stackcheck.value import Value

MACHINE_FILE = "machine.toml"
"""The file in a machine's folder that describes it; all other TOML files there are its assemblies."""


class Point(Value, kw_only=True):
    """Something to look at that is no stack: a hose clamp, a level, a plug gap, several readings that must agree.

    `limits` is what every reading must lie within ("0.6..0.7 mm"), `agree_within` how far the readings may be apart
    ("0.2 bar"), both as written and "" where there is none; `scale` is the unit of them.
    """

    name: str
    look: str
    readings: int = 1
    limits: str = ""
    agree_within: str = ""
    scale: Scale | None = None
    source: str = ""

    @property
    def is_measured(self) -> bool:
        return bool(self.limits or self.agree_within)


class Machine(Value, kw_only=True):
    """A machine of the library; `assemblies` are the ids of its references."""

    id: str
    name: str
    years: str = ""
    serials: str = ""
    note: str = ""
    points: tuple[Point, ...] = ()
    assemblies: tuple[str, ...] = ()
