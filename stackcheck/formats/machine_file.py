"""A machine from its `machine.toml`, and a library of machines from its folder."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.reference_file import read_reference
from stackcheck.formats.sizes import Said
from stackcheck.formats.source import Reader, Table, did_you_mean
from stackcheck.model.machine import Machine, Point
from stackcheck.model.reference import Reference

MACHINE_FILE = "machine.toml"


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


@dataclass(frozen=True)
class Library:
    """A folder of machines, each a folder with `machine.toml` and one file per assembly."""

    folder: Path

    @cached_property
    def files(self) -> dict[str, Path]:
        """Reference id ("freight-tricycle/front-hub") -> its file, sorted by id."""
        found = {
            f"{file.parent.name}/{file.stem}": file
            for file in self.folder.glob("*/*.toml")
            if file.name != MACHINE_FILE
        }
        return dict(sorted(found.items()))

    @cached_property
    def machines(self) -> tuple[Machine, ...]:
        return tuple(read_machine(file) for file in sorted(self.folder.glob(f"*/{MACHINE_FILE}")))

    def path_of(self, id: str) -> Path:
        """The file of a reference; "front-hub" will do where only one machine has one.

        Raises:
            LookupError: says which references there are.
        """
        if id in self.files:
            return self.files[id]
        short = [known for known in self.files if known.endswith(f"/{id}")]
        if len(short) == 1:
            return self.files[short[0]]
        if short:
            raise LookupError(f"several machines have one: {', '.join(short)}")
        if not self.files:
            raise LookupError(f"no reference stands in {self.folder}")
        raise LookupError(did_you_mean(id, list(self.files)))

    def reference(self, id: str) -> Reference:
        """Read a reference by its id. Raises LookupError (unknown id) or InputError (the file has mistakes)."""
        path = self.path_of(id)
        reference = read_reference(path)
        if reference.id != f"{path.parent.name}/{path.stem}":
            wanted = f'the file is called {path.name}: write id = "{path.stem}"'
            mistake = Mistake(file=str(path), what=f'the id says "{reference.id}"', wanted=wanted)
            raise InputError([mistake])
        return reference
