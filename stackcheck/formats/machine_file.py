"""A machine from its `machine.toml`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from stackcheck.errors import SizeError
from stackcheck.formats.amounts import read_distance, read_range, scale_of
from stackcheck.formats.sizes import Said
from stackcheck.formats.source import Reader, Table
from stackcheck.model.gauges import Scale
from stackcheck.model.machine import MACHINE_FILE, Machine, Point


class PointTable(Table):
    name: Said
    look: Said
    readings: Annotated[int, Field(ge=1, le=100)] = 1
    limits: str = ""
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
            scale = _scale(reader, table, index)
            points.append(Point(**dict(table), scale=scale))
    reader.stop_if_mistaken()
    folder = path.resolve().parent
    files = [file for file in sorted(folder.glob("*.toml")) if file.name != MACHINE_FILE]
    return Machine(
        id=folder.name,
        points=tuple(points),
        assemblies=tuple(f"{folder.name}/{file.stem}" for file in files),
        **dict(tables.machine),
    )


def _scale(reader: Reader, table: PointTable, index: int) -> Scale | None:
    """The unit of what a point is measured by, after looking that its limits can be read; None for a mere look."""
    scales = []
    for key, text, read in (("limits", table.limits, read_range), ("agree_within", table.agree_within, read_distance)):
        if not text:
            continue
        try:
            scales.append(scale_of(text))
            read(text, scales[-1])
        except SizeError as problem:
            reader.mistake(
                ("points", index, key), f"point {index + 1}: {key} cannot be read", problem.wanted, said=problem.said
            )
    if len({scale.dimension for scale in scales}) > 1:
        wanted = "give both in units of one kind"
        reader.mistake(
            ("points", index, "limits"), f"point {index + 1}: limits and agree_within measure different things", wanted
        )
    if table.agree_within and table.readings < 2:
        wanted = "write how many there are: readings = 2"
        reader.mistake(
            ("points", index, "agree_within"), f"point {index + 1}: one reading has nothing to agree with", wanted
        )
    return scales[0] if scales else None
