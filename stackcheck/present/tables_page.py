"""The tables of standard parts: what each covers, who says so, and what it does not cover."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from stackcheck.model.hardware import HardwareTable
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.words import counted

NO_TABLE = (
    "ISO 4161 (nuts with flange)", "ISO 1234 (split pins)", "DIN 988 (shim rings)", "EN 16983 (disc springs)",
    "ISO 261 and ISO 724 (threads by themselves)", "ASME B18.21.1 type B", "balls by themselves",
)  # fmt: skip
"""What somebody may look for and will not find: not yet entered with two sources, or one and a rule that reproduces it."""


def tables_page(tables: Iterable[tuple[HardwareTable, int]]) -> list[Block]:
    """Every table with its number of rows, its sources in full and its gaps; last what has no table at all."""
    blocks: list[Block] = []
    total = 0
    for table, rows in tables:
        total += rows
        blocks += [
            Heading(f"{table.id}: {table.title} ({table.standard}, {table.edition})"),
            Text(f"{counted(rows, 'row')}: {table.covers}.", mark=" -  "),
            Text(f"Not covered: {table.not_covered}.", mark=" -  "),
            *(Text(source, mark=" -  source: ") for source in table.sources),
        ]
    blocks.append(Heading("NO TABLE"))
    blocks += [Text(name, mark=" -  ") for name in NO_TABLE]
    return [Text(f"{counted(total, 'row')} of standard parts, every row with two sources or one and a rule.", strong=True), *blocks]


def tables_json(tables: Iterable[tuple[HardwareTable, int]]) -> dict[str, Any]:
    """`references tables`."""
    return {
        "tables": [
            {
                "id": table.id, "standard": table.standard, "edition": table.edition, "title": table.title, "rows": rows,
                "covers": table.covers, "not_covered": table.not_covered, "sources": list(table.sources),
            }
            for table, rows in tables
        ],
        "no_table": list(NO_TABLE),
    }  # fmt: skip
