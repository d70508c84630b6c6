"""Reads one file of `data` into rows. A column `x` with `x_least` and `x_most` beside it is a size called x.

Files are read once; an empty cell means that the sources do not support that size, and the row then has none. The
columns `source`, `second` and `rule` hold keys of `sources.csv`, several of them set apart by blanks.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from stackcheck.model.hardware import HardwareRow, HardwareSize
from stackcheck.tables.catalogue import BY_ID, TableSpec

DATA = Path(__file__).parent / "data"
KEY_COLUMNS = ("source", "second", "rule")


def read_records(file: str) -> list[dict[str, str]]:
    """The lines of one data file as they stand, one dict per line."""
    with open(DATA / file, encoding="utf-8", newline="") as handle:
        return list(csv.DictReader(handle))


@cache
def source_texts() -> dict[str, str]:
    """Source key -> full text."""
    return {record["key"]: record["text"] for record in read_records("sources.csv")}


def sources_of(record: dict[str, str]) -> tuple[str, ...]:
    """The full texts of a record's sources, in the sequence source, second, rule, each once."""
    texts = source_texts()
    keys = [key for column in KEY_COLUMNS for key in record.get(column, "").split()]
    return tuple(texts[key] for key in dict.fromkeys(keys))


@cache
def table_rows(table_id: str) -> dict[str, HardwareRow]:
    """The rows of one table by their size as written in the file ("M12", "20", "6204").

    Raises:
        KeyError: no table is called `table_id`.
    """
    spec = BY_ID[table_id]
    records = read_records(spec.file)
    columns = [name for name in records[0] if f"{name}_least" in records[0]]
    return {record["size"]: _row(spec, record, columns) for record in records}


def _row(spec: TableSpec, record: dict[str, str], columns: list[str]) -> HardwareRow:
    sizes = []
    for column in columns:
        if not record[column]:
            continue
        figures = float(record[column]), float(record[f"{column}_least"]), float(record[f"{column}_most"])
        for name in spec.width_names if column == "width" else (column,):
            sizes.append(HardwareSize(name=name, nominal_mm=figures[0], least_mm=figures[1], most_mm=figures[2]))
    return HardwareRow(
        standard=spec.standard,
        designation=f"{spec.prefix}{record['size']}",
        kind=spec.kind,
        sizes=tuple(sizes),
        features=spec.features,
        sources=sources_of(record),
    )
