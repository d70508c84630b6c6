"""A machine from its `machine.toml`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from stackcheck.formats.sizes import Said
from stackcheck.formats.source import Reader, Table
from stackcheck.model.machine import MACHINE_FILE, Machine, Point


class PointTable(Table):
    name: Said
    look: Said
    readings: Annotated[int, Field(ge=1, le=100)] = 1
    agree_within: str = ""
    source: str = ""


class MachineWords(Table):
    name: Said
    years: str = ""
    serials: str = ""
    note: str = ""


class MachineTables(Table):
    kind: Literal["machine"]
    format: Literal[1]
    machine: MachineWords
    points: list[Any] = Field(default_factory=list)

    examples: ClassVar = {
        "kind": 'kind = "machine"',
        "format": "format = 1",
        "machine": '[machine] with name = "..."',
    }


def read_machine(path: Path | str, *, shown_as: str = "") -> Machine:
    """Read one machine; its id is the name of its folder. Raises InputError with every mistake of the file."""
    path = Path(path)
    reader = Reader(path, shown_as=shown_as)
    tables = reader.check_top(MachineTables)
    points = []
    raw_points = reader.tree.get("points")
    for index, raw in enumerate(raw_points if isinstance(raw_points, list) else []):
        table = reader.check(PointTable, raw, ("points", index), f"point {index + 1}")
        if table:
            points.append(Point(**dict(table)))
    reader.stop_if_mistaken()
    folder = path.resolve().parent
    files = [file for file in sorted(folder.glob("*.toml")) if file.name != MACHINE_FILE]
    return Machine(
        id=folder.name,
        points=tuple(points),
        assemblies=tuple(f"{folder.name}/{file.stem}" for file in files),
        **dict(tables.machine),
    )
