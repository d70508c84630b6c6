"""A catalogue of up to a million parts as a plain SQLite file, looked up by any of its sizes.

Made from a CSV file with the columns name, kind, and least and most of bore, outside and thickness in mm; an empty pair
of cells is a size the part does not have. Sizes are kept as whole numbers of 0.1 µm, so nothing is lost or blurred. As
no part's limits lie further apart than the widest of the file, low limits within that distance below a reading are all
that need looking at. An index of two sizes holds the first one in steps of `STEP` and the second as it is: of the few
steps that a reading reaches, only the parts that suit the second size are looked at. `look_up` gives a superset box,
`near` judges.
"""

from __future__ import annotations

import _datetime
import math
import os.path
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from stackcheck.aside import Aside
from stackcheck.catalogue.known import Known, Limits
from stackcheck.catalogue.near import GROWS, MOST, WEAR_MM, Readings
from stackcheck.errors import InputError, Mistake

if TYPE_CHECKING:
    from pathlib import Path

with Aside({"datetime": _datetime}):  # a catalogue holds no dates; what is written in C does for sqlite3
    import sqlite3

UNITS_PER_MM = 10_000
SIZES = {"bore": "bore", "outside": "outside", "length": "thickness"}
"""The sizes of a catalogue by our name -> the name in its columns."""
COLUMNS = tuple(f"{size}_{end}" for size in SIZES.values() for end in ("least", "most"))
LARGEST_MM = 1e5
_TABLE = f"CREATE TABLE part (name TEXT, kind TEXT, {', '.join(f'{column} INTEGER' for column in COLUMNS)})"
STEP = 2_000
"""0.2 mm: about as much as limits and wear let a size vary, so that few steps hold all that a reading reaches."""
MOST_STEPS = 500
_CYCLES = (("bore", "outside", "thickness"), ("outside", "thickness", "bore"), ("thickness", "bore", "outside"))
"""One index each: every size leads one, every two sizes lead one together."""
_INDEXES = tuple(
    # All limits stand in it: whether a part is in the box is then told by the index, without a look at its row.
    (
        f"CREATE INDEX by_{first} ON part ({first}_least / {STEP}, {second}_least, {first}_least, {first}_most, "
        f"{second}_most, {third}_least, {third}_most)"
    )
    for first, second, third in _CYCLES
)


class TooMany(Exception):
    """More parts than `MOST` can have these sizes: another measurement helps, a list does not."""


def build(csv_file: Path, index_file: Path, advance: Callable[[int], None] = lambda read: None) -> int:
    """Write the index of a CSV file to a new file; returns the number of parts.

    `advance` is told now and then how many parts were read. Raises InputError for a line that cannot be a part; nothing
    is then left behind. A file that stands there already is never written over.
    """
    if index_file.exists():
        raise _refused(index_file, None, "this file stands there already", "name a new file")
    try:
        database = sqlite3.connect(index_file)
    except sqlite3.OperationalError as problem:
        raise _refused(
            index_file, None, f"this file cannot be made ({problem})", "name a new file in a folder that is there"
        ) from None
    try:
        with database:
            database.execute(_TABLE)
            database.executemany(f"INSERT INTO part VALUES ({', '.join('?' * 8)})", _lines(csv_file, advance))
            for statement in _INDEXES:
                database.execute(statement)
            widest = ", ".join(f"max({size}_most - {size}_least) AS {size}" for size in SIZES.values())
            database.execute(f"CREATE TABLE widest AS SELECT {widest}, count(*) AS parts FROM part")
        count = database.execute("SELECT parts FROM widest").fetchone()[0]
        database.close()
    except BaseException:
        database.close()
        index_file.unlink()
        raise
    return count


def _lines(csv_file: Path, advance: Callable[[int], None]) -> Iterator[tuple[object, ...]]:
    import csv

    try:
        with open(csv_file, encoding="utf-8-sig", newline="") as handle:
            lines = csv.reader(handle)
            header = next(lines, [])
            wanted = ("name", "kind", *COLUMNS)
            if missing := [column for column in wanted if column not in header]:
                raise _refused(
                    csv_file,
                    1,
                    f"the columns {', '.join(missing)} are missing",
                    f"the first line names {', '.join(wanted)}",
                )
            order = [header.index(column) for column in wanted]
            for count, cells in enumerate(lines, start=1):
                if count % 10_000 == 0:
                    advance(count)
                if len(cells) != len(header):
                    raise _refused(
                        csv_file,
                        lines.line_num,
                        f"{len(cells)} cells under {len(header)} columns",
                        "one cell for each column",
                    )
                name, kind, *sizes = (cells[index] for index in order)
                yield (name, kind, *_sizes(csv_file, lines.line_num, sizes))
    except FileNotFoundError:
        raise _refused(csv_file, None, "there is no such file", "name a CSV file") from None
    except OSError as problem:
        raise _refused(
            csv_file,
            None,
            f"the file cannot be read ({(problem.strerror or 'unknown reason').lower()})",
            "name a CSV file",
        ) from None
    except UnicodeDecodeError:
        raise _refused(csv_file, None, "the file is not text in UTF-8", "save it as CSV in UTF-8") from None
    except csv.Error as problem:
        raise _refused(csv_file, None, f"the file is no CSV ({problem})", "save it as CSV in UTF-8") from None


def _sizes(file: Path, line: int, cells: list[str]) -> list[int | None]:
    sizes: list[int | None] = []
    for column, cell in zip(COLUMNS, cells):
        try:
            figure = float(cell) if cell else None
        except ValueError:
            figure = math.nan
        if figure is not None and not 0 < figure <= LARGEST_MM:
            raise _refused(
                file, line, f'{column} "{cell}" is no size', "millimetres above 0 with a decimal point, or nothing"
            )
        sizes.append(None if figure is None else round(figure * UNITS_PER_MM))
    for name, least, most in zip(SIZES.values(), sizes[::2], sizes[1::2]):
        if (least is None) is not (most is None) or (least is not None and least > most):
            raise _refused(
                file, line, f"the limits of the {name} cannot be", "least and most, the smaller first, or neither"
            )
    if sizes[0] is not None and sizes[2] is not None and sizes[0] >= sizes[3]:
        raise _refused(file, line, "the bore is not below the outside", "look which figure is which")
    return sizes


def look_up(index_file: Path | str, readings: Readings) -> tuple[Known, ...]:
    """The parts of an index that the readings may allow, in the sequence of its CSV file.

    Raises:
        TooMany: more than `MOST`.
        InputError: the file is no such index.
    """
    if not os.path.isfile(index_file):
        raise _refused(index_file, None, "there is no such file", "make one: stackcheck references index CSV FILE")
    database = sqlite3.connect(index_file)
    try:
        question, figures = _question(readings, database.execute("SELECT * FROM widest").fetchone())
        found = database.execute(f"{question} LIMIT {MOST + 1}", figures).fetchall()
    except sqlite3.DatabaseError as problem:
        raise _refused(
            index_file, None, f"this is no index of parts ({problem})", "make one: stackcheck references index CSV FILE"
        ) from None
    finally:
        database.close()
    if len(found) > MOST:
        raise TooMany
    where = os.path.basename(index_file)
    return tuple(_known(row, where) for _, *row in sorted(found))


def _question(readings: Readings, widest: tuple[int | None, ...]) -> tuple[str, list[int]]:
    """The look-up as SQL and its figures: the box of the readings,
    by the index of two of its sizes where two were taken.
    """
    box = _box(readings, widest)
    first = next((first for first, second, _ in _CYCLES if first in box and second in box), next(iter(box)))
    least, most, _ = box[first]
    steps = range(least // STEP, most // STEP + 1)
    among = f"IN ({', '.join(map(str, steps))})" if len(steps) <= MOST_STEPS else f"BETWEEN {steps[0]} AND {steps[-1]}"
    within = [f"{size}_least BETWEEN ? AND ? AND {size}_most >= ?" for size in box]
    condition = " AND ".join([f"{first}_least / {STEP} {among}", *within])
    return f"SELECT rowid, * FROM part INDEXED BY by_{first} WHERE {condition}", [
        figure for limits in box.values() for figure in limits
    ]


def _box(readings: Readings, widest: tuple[int | None, ...]) -> dict[str, tuple[int, int, int]]:
    """For each size measured what a part must have to be reached, wear in its own direction allowed: the lowest and the
    highest low limit, the lowest high limit."""
    box = {}
    taken = dict(readings)
    for (size, column), span in zip(SIZES.items(), widest):
        if reading := taken.get(size):
            below, above = (WEAR_MM, 0.0) if size in GROWS else (0.0, WEAR_MM)
            low = math.floor((reading.low_mm - below) * UNITS_PER_MM) - 1
            high = math.ceil((reading.high_mm + above) * UNITS_PER_MM) + 1
            box[column] = (max(low - (span or 0), 0), high, low)
    return box


def _known(row: tuple, where: str) -> Known:
    name, kind, *units = row
    pairs = zip(SIZES, units[::2], units[1::2])
    sizes = tuple(
        Limits(size, least / UNITS_PER_MM, most / UNITS_PER_MM) for size, least, most in pairs if least is not None
    )
    return Known(name=name, kind=kind, where=where, sizes=sizes)


def _refused(file: Path | str, line: int | None, what: str, wanted: str) -> InputError:
    return InputError(
        [Mistake(file=str(file), line=line, what=what, wanted=wanted)], consequence="Nothing was looked up."
    )
