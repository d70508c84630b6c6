"""A machine: what it is, and the points to look at that are no stack."""

from __future__ import annotations

from stackcheck.value import Value

MACHINE_FILE = "machine.toml"
"""The file in a machine's folder that describes it; all other TOML files there are its assemblies."""


class Point(Value, kw_only=True):
    """Something to look at that is no stack: a hose clamp, a level, several readings that must agree."""

    name: str
    look: str
    readings: int = 1
    agree_within: str = ""
    source: str = ""


class Machine(Value, kw_only=True):
    """A machine of the library; `assemblies` are the ids of its references."""

    id: str
    name: str
    years: str = ""
    serials: str = ""
    note: str = ""
    points: tuple[Point, ...] = ()
    assemblies: tuple[str, ...] = ()
