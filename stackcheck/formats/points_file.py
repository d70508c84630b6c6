"""What was found at the points of a machine, from a TOML file, and the blank file to fill in."""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt
from pathlib import Path
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BeforeValidator, Field

from stackcheck.errors import InputError, SizeError
from stackcheck.formats.amounts import read_distance, scale_of
from stackcheck.formats.gauges_file import read_gauges
from stackcheck.formats.positions import TreePath
from stackcheck.formats.sizes import Dated, Said, Texts, one_of, reading_of
from stackcheck.formats.source import Reader, Table, did_you_mean
from stackcheck.model.gauges import GaugeReadings, Scale
from stackcheck.model.machine import Machine, Point
from stackcheck.model.points import FOUND, PointEntry, PointReading, PointsSeen
from stackcheck.units import INSTRUMENTS, read_figure


class PointsTables(Table):
    kind: Literal["points"]
    format: Literal[1]
    machine: Said
    gauges_compared: Texts = ()
    by: str = ""
    date: Dated = ""
    points: list[Any] = Field(default_factory=list)

    examples: ClassVar = {
        "kind": 'kind = "points"',
        "format": "format = 1",
        "machine": 'machine = "freight-tricycle", the name of its folder',
    }
    also_called: ClassVar = {"point": "points", "gauges": "gauges_compared"}


class PointTable(Table):
    name: Said
    found: Annotated[Annotated[str, one_of(FOUND, "finding")] | None, BeforeValidator(lambda said: said or None)] = None
    readings: Texts = ()
    gauge: str = ""
    gauges: Texts = ()
    good_to: str = ""
    note: str = ""

    also_called: ClassVar = {"reading": "readings", "read": "readings", "remark": "note", "looked": "found"}


def read_points(
    path: Path | str, find_machine: Callable[[str], Machine], *, shown_as: str = ""
) -> tuple[PointsSeen, Machine]:
    """Read a filled-in list of points and the machine it names.

    `gauges_compared` names files beside this one. Raises InputError with every mistake of the file, or those of the
    first file of gauges that has some.
    """
    reader = Reader(Path(path), shown_as=shown_as)
    tables = reader.check_top(PointsTables)
    reader.stop_if_mistaken()
    try:
        machine = find_machine(tables.machine)
    except LookupError as problem:
        reader.mistake(("machine",), f'unknown machine "{tables.machine}"', str(problem.args[0]), said=tables.machine)
        reader.stop_if_mistaken()
        raise
    return _Builder(reader, machine).build(tables), machine


class _Builder:
    def __init__(self, reader: Reader, machine: Machine):
        self.reader, self.machine = reader, machine
        self.points = {point.name: point for point in machine.points}

    def build(self, tables: PointsTables) -> PointsSeen:
        entries: list[PointEntry] = []
        for index, raw in enumerate(tables.points):
            table = self.reader.check_what_can_be(PointTable, raw, ("points", index), f"point {index + 1}")
            if table is None:
                continue
            if table.name in [entry.name for entry in entries]:
                self.reader.mistake(
                    ("points", index, "name"), f'"{table.name}" stands here twice', "keep one of them", said=table.name
                )
            elif entry := self._entry(table, index):
                entries.append(entry)
        gauges = tuple(filter(None, (self._gauges(name) for name in tables.gauges_compared)))
        self.reader.stop_if_mistaken()
        return PointsSeen(
            machine=self.machine.id,
            entries=tuple(entries),
            gauges=gauges,
            by=tables.by,
            date=tables.date,
            file=self.reader.name,
        )

    def _gauges(self, name: str) -> GaugeReadings | None:
        try:
            return read_gauges(self.reader.path.parent / name, shown_as=name)
        except InputError as problem:
            self.reader.mistakes += problem.mistakes
            return None

    def _entry(self, table: PointTable, index: int) -> PointEntry | None:
        path, what = ("points", index), f"point {index + 1}"
        point = self.points.get(table.name)
        if point is None:
            wanted = did_you_mean(table.name, list(self.points))
            self.reader.mistake(
                (*path, "name"), f'{what}: {self.machine.name} has no point "{table.name}"', wanted, said=table.name
            )
            return None
        read = [text for text in table.readings if text.strip()]
        if len(read) > point.readings:
            wanted = f"the machine's file says readings = {point.readings}"
            self.reader.mistake((*path, "readings"), f"{what}: {len(read)} readings for {point.readings}", wanted)
        if table.gauges and (table.gauge or len(table.gauges) != len(table.readings)):
            wanted = 'either gauge = "..." for all readings, or gauges = [...] with one for each'
            self.reader.mistake((*path, "gauges"), f"{what}: which gauge read which?", wanted)
            return None
        gauges = table.gauges or (table.gauge,) * len(table.readings)
        taken = [(text, gauge) for text, gauge in zip(table.readings, gauges) if text.strip()]
        readings = [self._reading(point, text, gauge, table, path, what) for text, gauge in taken]
        return PointEntry(
            name=point.name, found=table.found or "", readings=tuple(filter(None, readings)), note=table.note
        )

    def _reading(
        self, point: Point, text: str, gauge: str, table: PointTable, path: TreePath, what: str
    ) -> PointReading | None:
        try:
            return point_reading(point, text, gauge, table.good_to)
        except SizeError as problem:
            key = "good_to" if problem.said and problem.said in table.good_to else "readings"
            self.reader.mistake((*path, key), f"{what}: {key} cannot be read", problem.wanted, said=problem.said)
            return None


def point_reading(point: Point, text: str, gauge: str = "", good_to: str = "") -> PointReading:
    """One reading at a point as typed; a bare figure has the unit of the machine's file. Raises SizeError."""
    scale = point.scale or scale_of(text)
    if scale.dimension == "length" and not good_to:
        return _length(text, gauge)
    reading = read_figure(text, dimension=scale.dimension, default_unit=scale.unit)
    repeats_to = reading.step / sqrt(3)  # two standard uncertainties of a figure cut to a step: 2 · step/√12
    return PointReading(
        text=text, value=reading.value, step=reading.step, repeats_to=repeats_to, gauge=gauge,
        good_to=read_distance(good_to.strip().removeprefix("±"), scale) if good_to else None,
    )  # fmt: skip


def _length(text: str, gauge: str) -> PointReading:
    """A length with how it was got, as everywhere; the instrument is the gauge where no name is given."""
    reading = reading_of(text, may_be_zero=True)
    if reading.own_good_to or not reading.how:
        repeats_to = reading.good_to_mm
    else:
        repeats_to = 2 * sqrt(reading.step_mm**2 / 12 + INSTRUMENTS[reading.how].feel_mm ** 2)
    return PointReading(
        text=text, value=reading.value_mm, step=reading.step_mm, repeats_to=repeats_to, good_to=reading.good_to_mm,
        gauge=gauge or reading.how,
    )  # fmt: skip


def blank_points(machine: Machine) -> str:
    """The file to fill in: every point by its name, what to look at as a remark, nothing answered."""
    lines = [
        f"# {machine.name}: fill in while looking; an answer that stays empty is a point not looked at.",
        'kind = "points"',
        "format = 1",
        f'machine = "{machine.id}"',
        'by = ""',
        'date = ""',
        'gauges_compared = []   # files with kind = "gauges", beside this one',
    ]
    for point in machine.points:
        lines += ["", f"# {point.look}", "[[points]]", f"name = {_quoted(point.name)}"]
        if point.scale:
            empty = ", ".join(['""'] * point.readings)
            lines.append(f"readings = [{empty}]   # {_unit_words(point.scale)}")
            lines.append('gauge = ""')
        else:
            lines.append(f'found = ""   # {", ".join(FOUND)}')
        lines.append('note = ""')
    return "\n".join(lines) + "\n"


def _unit_words(scale: Scale) -> str:
    if scale.dimension == "length":
        return f"with unit and how it was got, as in sizes; wanted in {scale.unit}"
    return f"bare figures are {scale.unit}"


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
