"""Readings of several gauges on one common source, from a TOML file.

The unit at the top is that of every bare figure and of the answer. What the readings tell is worked out in
`stackcheck.mechanics.gauges`.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from stackcheck.errors import SizeError
from stackcheck.formats.new_file import table_text
from stackcheck.formats.positions import TreePath
from stackcheck.formats.sizes import Dated, Said, Texts, one_of
from stackcheck.formats.source import Reader, Table
from stackcheck.model.gauges import Gauge, GaugeReadings, KnownSource, Room, Round, Scale
from stackcheck.units import DIMENSIONS, INSTRUMENTS, Figure, find_unit, read_figure, read_limits
from stackcheck.units.instruments import HOW

INSTRUMENTS_READ = tuple(name for name in INSTRUMENTS if name not in ("marking", "drawing", "guess"))
MOST_GAUGES, MOST_ROUNDS = 40, 400


class GaugesTables(Table):
    kind: Literal["gauges"]
    format: Literal[1]
    source: Said
    unit: Said
    known: str = ""
    known_from: str = ""
    room: str = ""
    warmth_differs: str = ""
    agree_within: str = ""
    title: str = ""
    by: str = ""
    date: Dated = ""
    gauges: list[Any] = Field(default_factory=list)
    rounds: list[Any] = Field(default_factory=list)

    examples: ClassVar = {
        "kind": 'kind = "gauges"',
        "format": "format = 1",
        "source": 'source = "50 mm gauge block": what they were all read on',
        "unit": 'unit = "mm"',
    }
    also_called: ClassVar = {"gauge": "gauges", "round": "rounds", "readings": "rounds", "limit": "agree_within"}


class GaugeTable(Table):
    name: Said
    how: Annotated[str, one_of(INSTRUMENTS_READ, "instrument", also=lambda word: HOW.get(word.lower(), word))] = ""
    good_to: str = ""


class RoundTable(Table):
    read: Texts
    again: str = ""

    examples: ClassVar = {"read": 'read = ["50.02", "50.01"], one figure for each gauge, in their sequence'}


def read_gauges(path: Path | str, *, shown_as: str = "") -> GaugeReadings:
    """Read a comparison of gauges. Raises InputError with every mistake of the file."""
    reader = Reader(Path(path), shown_as=shown_as)
    tables = reader.check_top(GaugesTables)
    reader.stop_if_mistaken()
    return _Builder(reader, tables).build()


def gauges_text(
    *,
    source: str,
    unit: str,
    gauges: Sequence[tuple[str, str]],
    rounds: Sequence[Sequence[str]],
    agree_within: str = "",
    by: str = "",
    date: str = "",
) -> str:
    """The file of readings taken at the bench: (name, way of measuring) of each gauge,
    then its figures round by round.
    """
    head = {
        "kind": "gauges",
        "format": 1,
        "source": source,
        "unit": unit,
        "agree_within": agree_within,
        "by": by,
        "date": date,
    }
    tables = [table_text("", head)]
    tables += [table_text("[[gauges]]", {"name": name, "how": how}) for name, how in gauges]
    tables += [table_text("[[rounds]]", {"read": list(read)}) for read in rounds]
    return "\n".join(tables)


class _Builder:
    def __init__(self, reader: Reader, tables: GaugesTables):
        self.reader, self.tables = reader, tables
        dimension, factor = find_unit(tables.unit)
        self.scale = Scale(dimension, tables.unit, factor)
        if not dimension:
            units = [examples.split('"')[1].split(" ")[-1] for _, examples in DIMENSIONS.values()]
            wanted = f"write a unit such as {', '.join(units)}"
            reader.mistake(("unit",), f'"{tables.unit}" is no unit known here', wanted, said=tables.unit)
            reader.stop_if_mistaken()

    def build(self) -> GaugeReadings:
        gauges = self._gauges()
        rounds = [self._round(index, raw, len(gauges)) for index, raw in enumerate(self.tables.rounds)]
        if not rounds:
            self.reader.mistake(
                ("rounds",), "no reading is given", 'add [[rounds]] with read = ["..."], a figure for each gauge'
            )
        if len(rounds) > MOST_ROUNDS:
            self.reader.mistake(("rounds",), f"rounds given: {len(rounds)}", f"at most {MOST_ROUNDS} are read")
        known = self._known()
        room = self._room()
        agree_within = self._size(self.tables.agree_within, ("agree_within",), "agree_within")
        self.reader.stop_if_mistaken()
        return GaugeReadings(
            source=self.tables.source,
            scale=self.scale,
            gauges=tuple(gauges),
            rounds=tuple(each for each in rounds if each is not None),
            known=known,
            room=room,
            agree_within=agree_within,
            title=self.tables.title,
            by=self.tables.by,
            date=self.tables.date,
        )

    def _gauges(self) -> list[Gauge]:
        gauges: list[Gauge] = []
        for index, raw in enumerate(self.tables.gauges):
            what = f"gauge {index + 1}"
            table = self.reader.check_what_can_be(GaugeTable, raw, ("gauges", index), what)
            gauge = Gauge(name=what) if table is None else self._gauge(table, index)
            if gauge.name in [other.name for other in gauges]:
                self.reader.mistake(
                    ("gauges", index, "name"), f'two gauges are called "{gauge.name}"', "number them", said=gauge.name
                )
            gauges.append(gauge)
        least = 1 if self.tables.known else 2
        if not least <= len(gauges) <= MOST_GAUGES:
            wanted = f"add [[gauges]] for each, {least} to {MOST_GAUGES}"
            if least == 2:
                wanted += "; a single one needs a source of known size: known = ..."
            self.reader.mistake(("gauges",), f"gauges given: {len(gauges)}", wanted)
        return gauges

    def _gauge(self, table: GaugeTable, index: int) -> Gauge:
        if table.how and self.scale.dimension != "length":
            wanted = f"leave it out: {self.tables.unit} measures {self.scale.dimension}"
            self.reader.mistake(("gauges", index, "how"), f"a {table.how} measures length", wanted, said=table.how)
        good_to = self._size(table.good_to, ("gauges", index, "good_to"), f"gauge {index + 1}: good_to")
        if good_to is None and table.how:
            good_to = INSTRUMENTS[table.how].good_to_mm
        return Gauge(name=table.name, how=table.how, good_to=good_to)

    def _round(self, index: int, raw: Any, gauges: int) -> Round | None:
        path, what = ("rounds", index), f"round {index + 1}"
        table = self.reader.check(RoundTable, raw, path, what)
        if table is None:
            return None
        if len(table.read) != gauges:
            wanted = "write one figure for each gauge, in their sequence; leave out a round that has not all of them"
            self.reader.mistake((*path, "read"), f"{what}: {len(table.read)} figures for {gauges} gauges", wanted)
        read = [self._figure(text, (*path, "read"), f"{what}: a reading") for text in table.read]
        again = self._figure(table.again, (*path, "again"), f"{what}: again") if table.again else None
        return None if None in read else Round(read=tuple(read), again=again)

    def _figure(self, text: str, path: TreePath, what: str) -> Figure | None:
        try:
            return read_figure(text, dimension=self.scale.dimension, default_unit=self.tables.unit)
        except SizeError as problem:
            self.reader.mistake(path, f"{what} cannot be read", problem.wanted, said=problem.said)
            return None

    def _size(self, text: str, path: TreePath, what: str) -> float | None:
        """A size that is above nothing; None where it is not given or cannot be read."""
        if not text:
            return None
        figure = self._figure(text.strip().removeprefix("±"), path, what)
        if figure is not None and not figure.value > 0:
            self.reader.mistake(path, f"{what} is not above 0", "write how far apart they may be", said=text)
        return figure.value if figure else None

    def _known(self) -> KnownSource | None:
        text = self.tables.known
        if not text:
            return None
        try:
            written = read_limits(
                text, dimension=self.scale.dimension, default_unit=self.tables.unit, may_be_negative=True
            )
        except SizeError as problem:
            self.reader.mistake(("known",), "the known size cannot be read", problem.wanted, said=problem.said)
            return None
        if written.least is None or written.fit:
            wanted = (
                f'write what it is good to behind it, "{text} ±..."; a size that is only marked belongs into source'
            )
            self.reader.mistake(("known",), "nothing says what the known size is good to", wanted, said=text)
            return None
        return KnownSource(
            text=text,
            value=(written.least + written.most) / 2,
            good_to=(written.most - written.least) / 2,
            known_from=self.tables.known_from,
        )

    def _room(self) -> Room | None:
        tables = self.tables
        if not (tables.room or tables.warmth_differs):
            return None
        if not (tables.room and tables.warmth_differs and tables.known and self.scale.dimension == "length"):
            key = "room" if tables.room else "warmth_differs"
            wanted = (
                'give room = "23 °C ±2" and warmth_differs = "1 °C" together, with a length that is known; '
                "or leave both out"
            )
            self.reader.mistake((key,), f"{key} alone says nothing", wanted)
            return None
        try:
            room = read_limits(tables.room, dimension="temperature", default_unit="°C", may_be_negative=True)
            differ = read_limits(tables.warmth_differs.removeprefix("±"), dimension="temperature", default_unit="°C")
        except SizeError as problem:
            key = "room" if problem.said in tables.room else "warmth_differs"
            self.reader.mistake((key,), f"{key} cannot be read", problem.wanted, said=problem.said)
            return None
        good_to = 0.0 if room.least is None else (room.most - room.least) / 2
        text = f"{tables.room}, source and gauge within {tables.warmth_differs} of one another"
        return Room(text=text, warmer_k=room.nominal - 20, warmer_good_to_k=good_to, differ_k=differ.nominal)
