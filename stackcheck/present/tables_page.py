"""The tables of standard parts: what each covers, who says so, and what it does not cover."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from stackcheck.model.hardware import HardwareTable
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.names import counted

NO_TABLE = (
    "DIN 988 (shim rings): two open lists of sizes disagree from the first row on, limits in no source read",
    (
        "EN 16983 (disc springs) series B below 31.5 mm and series C: "
        "cones and forces of the one list read do not fit the formula"
    ),
    "ISO 492 and ISO 5753-1 above 100 mm bore: no bearing of these tables is larger",
    (
        "ASME B18.21.1 type A 7/8 W and 1 W: thickness in no source read; "
        "type B, 5/16 R and W to 5/8 in: limits in no source read"
    ),
    "ISO 7094 (washers) M14, M18, M22, M27, M33: one source only",
    "ISO 3601-1 (O-rings), DIN 6885 (keys), DIN 6799 (E-clips): not entered",
)
"""What somebody may look for and will not find, and why."""

Counted = Iterable[tuple[HardwareTable, int]]
"""Tables with their numbers of rows."""


def tables_page(parts: Counted, figures: Counted) -> list[Block]:
    """Every table with its number of rows, its sources in full and its gaps; last what has no table at all."""
    blocks: list[Block] = []
    total = 0
    for table, rows in parts:
        total += rows
        blocks += _table(table, counted(rows, "row"))
    for table, rows in figures:
        blocks += _table(table, f"{counted(rows, 'row')} of figures, no parts by themselves")
    blocks.append(Heading("NO TABLE"))
    blocks += [Text(name, mark=" -  ") for name in NO_TABLE]
    return [
        Text(f"{counted(total, 'row')} of standard parts, every row with two sources or one and a rule.", strong=True),
        *blocks,
    ]


def _table(table: HardwareTable, rows: str) -> list[Block]:
    return [
        Heading(f"{table.id}: {table.title}"),
        Text(f"{table.standard}, {table.edition}", mark=" -  "),
        Text(f"{rows}: {table.covers}.", mark=" -  "),
        Text(f"Not covered: {table.not_covered}.", mark=" -  "),
        *(Text(source, mark=" -  source: ") for source in table.sources),
    ]


def tables_json(parts: Counted, figures: Counted) -> dict[str, Any]:
    """`references tables`."""
    return {"tables": _listed(parts), "figures": _listed(figures), "no_table": list(NO_TABLE)}


def _listed(tables: Counted) -> list[dict[str, Any]]:
    return [
        {
            "id": table.id, "standard": table.standard, "edition": table.edition, "title": table.title, "rows": rows,
            "covers": table.covers, "not_covered": table.not_covered, "sources": list(table.sources),
        }
        for table, rows in tables
    ]  # fmt: skip
