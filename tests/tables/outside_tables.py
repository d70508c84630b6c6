"""Open tables of other people, read from their data files without importing their code.

Each reader yields cells: our designation, our size, which of its figures (nominal, least or most) their column holds, and
their value. What a column holds was settled first: a column "h" of plain washers is the greatest thickness, a "d1" the
least hole, an "s" of a nut the nominal width.
"""

from __future__ import annotations

import csv
import importlib.metadata
import importlib.util
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest


class Cell(NamedTuple):
    designation: str
    size: str
    figure: str
    theirs: float


def _records(file: str) -> list[dict[str, str]]:
    spec = importlib.util.find_spec("bd_warehouse")
    if spec is None:
        pytest.skip("bd-warehouse is not installed in this test environment")
    with open(Path(spec.submodule_search_locations[0]) / "data" / file, encoding="utf-8-sig", newline="") as handle:
        return [{(name or "").strip(): value for name, value in record.items()} for record in csv.DictReader(handle)]


def _cells(designation: str, record: dict[str, str], columns: dict[str, tuple[str, str]]) -> Iterator[Cell]:
    for column, (size, figure) in columns.items():
        if record.get(column):
            yield Cell(designation, size, figure, float(record[column]))


def bd_washers() -> Iterator[Cell]:
    for file, standards in {
        "plain_washer_parameters.csv": {
            "iso7089": "ISO 7089",
            "iso7091": "ISO 7091",
            "iso7093": "ISO 7093-1",
            "iso7094": "ISO 7094",
        },
        "chamfered_washer_parameters.csv": {"iso7090": "ISO 7090"},
        "cheese_head_washer_parameters.csv": {"iso7092": "ISO 7092"},
    }.items():
        for record in _records(file):
            for prefix, standard in standards.items():
                columns = {
                    f"{prefix}:d1": ("bore", "least"),
                    f"{prefix}:d2": ("outside", "most"),
                    f"{prefix}:h": ("length", "most"),
                }
                yield from _cells(f"{standard} {record['Size']}", record, columns)


def bd_nuts() -> Iterator[Cell]:
    for record in _records("hex_nut_parameters.csv"):
        thread, pitch = record["Size"].split("-")
        for prefix, standard in {"iso4032": "ISO 4032", "iso4035": "ISO 4035"}.items():
            columns = {f"{prefix}:m": ("length", "nominal"), f"{prefix}:s": ("across_flats", "nominal")}
            cells = list(_cells(f"{standard} {thread}", record, columns))
            yield from cells
            if cells:
                yield Cell(f"{standard} {thread}", "thread_pitch", "nominal", float(pitch))


def bd_flange_nuts() -> Iterator[Cell]:
    """Under DIN 1665, the draft of ISO 4161; coarse threads only, as ours."""
    for record in _records("hex_nut_with_flange_parameters.csv"):
        thread, pitch = record["Size"].split("-")
        columns = {"din1665:m": ("length", "most"), "din1665:s": ("across_flats", "most")}
        if float(pitch) in COARSE.values() and COARSE.get(thread) == float(pitch):
            yield from _cells(f"ISO 4161 {thread}", record, columns)


COARSE = {"M5": 0.8, "M6": 1, "M8": 1.25, "M10": 1.5, "M12": 1.75, "M14": 2, "M16": 2, "M20": 2.5}


def bd_threads() -> Iterator[Cell]:
    """Threads as other tables of nuts and tap holes name them: only that the pair of diameter and pitch is one of ours."""
    for record in (*_records("tap_hole_sizes.csv"), *_records("hex_nut_parameters.csv")):
        if match := re.fullmatch(r"M([0-9.]+)-([0-9.]+)", record["Size"]):
            yield Cell(f"ISO 261 M{match[1]}x{float(match[2]):g}", "thread_pitch", "nominal", float(match[2]))
            yield Cell(f"ISO 261 M{match[1]}x{float(match[2]):g}", "thread_diameter", "nominal", float(match[1]))


def bd_circlips() -> Iterator[Cell]:
    for standard, free in {"DIN 471": "bore", "DIN 472": "outside"}.items():
        for record in _records(f"{standard.replace(' ', '').lower()}.csv"):
            designation = f"{standard} {record['d1']}"
            columns = {
                "s": ("length", "nominal"),
                "d3": (free, "nominal"),
                "d2": ("groove", "nominal"),
                "m": ("groove_width", "least"),
            }
            yield from _cells(designation, record, columns)
            for their_name, size in {"s": "length", "d3": free, "d2": "groove"}.items():
                for sign, figure in {"+": "most", "-": "least"}.items():
                    limit = float(record[their_name]) + float(record[f"{their_name}_tol{sign}"])
                    yield Cell(designation, size, figure, round(limit, 4))


def bd_bearings() -> Iterator[Cell]:
    columns = {"SKT:d": ("bore", "nominal"), "SKT:D": ("outside", "nominal")}
    for kind, width in {
        "deep_groove_ball": {"SKT:B": ("length", "nominal")},
        "capped_deep_groove_ball": {"SKT:B": ("length", "nominal")},
        "angular_contact_ball": {"SKT:B": ("length", "nominal")},
        "tapered_roller": {"SKT:T": ("length", "nominal"), "SKT:B": ("inner_width", "nominal")},
    }.items():
        for record in _records(f"single_row_{kind}_bearing_parameters.csv"):
            number = _bearing_number(record["SKT:Designation"])
            if number:
                yield from _cells(number, record, columns | width)


def _bearing_number(text: str) -> str:
    """ "* 7304 BECBPH" -> "7304", "E2.608-2Z" -> "608", "320/28 X/Q" -> "320/28 X", "619/4" -> ""."""
    match = re.search(r"(?<![A-Z0-9])([0-9]{3}/[0-9]{2}|[0-9]{3,5})(?![0-9/])", text.replace("E2.", " "))
    if match is None:
        return ""
    return f"{match[1]} X" if match[1].startswith("320") else match[1]


def queryabolt_nuts() -> Iterator[Cell]:
    try:
        files = importlib.metadata.files("cq-queryabolt") or []
    except importlib.metadata.PackageNotFoundError:
        pytest.skip("cq-queryabolt is not installed in this test environment")
    path = next(file for file in files if file.name == "nuts.json").locate()
    for thread, kinds in json.loads(Path(path).read_text(encoding="utf-8")).items():
        for kind, standard in {"hexagon": "ISO 4032", "hexagon_thin": "ISO 4035"}.items():
            if kind in kinds:
                yield Cell(f"{standard} {thread}", "length", "nominal", kinds[kind]["thickness"])
                yield Cell(f"{standard} {thread}", "across_flats", "nominal", kinds[kind]["width"])


def melib_bearings() -> Iterator[Cell]:
    openpyxl = pytest.importorskip("openpyxl")
    try:
        files = importlib.metadata.files("melib") or []
    except importlib.metadata.PackageNotFoundError:
        pytest.skip("melib is not installed in this test environment")
    path = next(file for file in files if file.name == "bearing.xlsx").locate()
    sheet = openpyxl.load_workbook(path, read_only=True, data_only=True)["metric"]
    for number, bore, outside, width in sheet.iter_rows(min_row=7, min_col=3, max_col=6, values_only=True):
        if bore and outside and width:
            yield Cell(str(number), "bore", "nominal", float(bore))
            yield Cell(str(number), "outside", "nominal", float(outside))
            yield Cell(str(number), "length", "nominal", float(width))
