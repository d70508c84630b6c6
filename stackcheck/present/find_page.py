"""What parts a look-up by sizes found, as a page and as JSON."""

from __future__ import annotations

from typing import Any

from stackcheck.catalogue.near import MOST, Near
from stackcheck.model.found import Entry
from stackcheck.model.part import Reading
from stackcheck.present.blocks import Block, Rows, Text
from stackcheck.present.figures import good_to

SHOWN = 25
SIZES = ("bore", "outside", "length")
"""Always in the JSON answer; other sizes where they were measured."""


def find_page(asked: Entry, found: tuple[Near, ...], searched: str, others: tuple[Near, ...] = ()) -> list[Block]:
    """Each class of parts with equal limits in one row, best first, with how far every size is from its limits.

    `others` are of another kind than the one asked for, looked for where that kind has none.
    """
    blocks: list[Block] = [
        Text(_headline(asked, found), strong=True),
        Text(_measured(asked)),
        Text(f"Searched: {searched}."),
    ]
    if others:
        blocks.append(Text(f"Of another kind {_counted(others)}: is it called otherwise?"))
        return [*blocks, *_rows(others)]
    if not found:
        return [
            *blocks,
            Text(
                "That no known part has these sizes does not say what the part is. "
                "Parts whose limits of a measured size are not known were left out."
            ),
        ]
    return [*blocks, *_rows(found)]


def _counted(found: tuple[Near, ...]) -> str:
    count = sum(len(each.parts) for each in found)
    return "one part has them" if count == 1 else f"{count} parts have them"


def _rows(found: tuple[Near, ...]) -> list[Block]:
    rows = tuple((_names(each), _where(each), _off(each), each.verdict) for each in found[:SHOWN])
    blocks: list[Block] = [Rows(("part", "from", "off its limits", "agrees"), rows, wraps=(0, 1, 2, 3))]
    if len(found) > SHOWN:
        more = "; another measurement narrows it down" if len(found) <= MOST else ": measure another size first"
        blocks.append(Text(f"{len(found) - SHOWN} more not shown{more}."))
    return [*blocks, Text("Sizes alone do not say what a part is: kind, material, marking and where it lay count too.")]


def find_json(
    text: str, asked: Entry, found: tuple[Near, ...], searched: str, others: tuple[Near, ...] = ()
) -> dict[str, Any]:
    """`find`: what was asked, and every class of parts with equal limits."""
    sizes = list(dict.fromkeys((*SIZES, *(name for name, _ in asked.sizes))))
    return {
        "asked": {"text": text, "kind": asked.kind}
        | {_key(name).replace(" ", "_"): _reading(asked.size(name)) for name in sizes},
        "searched": searched,
        "found": [_class(each, sizes) for each in found[:MOST]],
        "of_another_kind": [_class(each, sizes) for each in others[:MOST]],
        "left_out": max(0, len(found) - MOST),
    }


def _class(each: Near, sizes: list[str]) -> dict[str, Any]:
    return {
        "parts": [{"name": part.name, "kind": part.kind, "where": part.where} for part in each.parts],
        "limits_mm": {_key(name).replace(" ", "_"): _limits(each, name) for name in sizes},
        "off_mm": {_key(name).replace(" ", "_"): dict(each.off_mm).get(name) for name in sizes},
        "agrees": each.verdict,
    }


def _headline(asked: Entry, found: tuple[Near, ...]) -> str:
    kind = asked.kind or "part"
    if not found:
        return f"No known {kind} has these sizes."
    parts = sum(len(each.parts) for each in found)
    if parts == 1:
        return f"One known {'size of balls' if kind == 'loose balls' else kind} can have these sizes."
    if len(found) == 1:
        return f"{parts} known parts of equal limits can have these sizes: sizes cannot tell them apart."
    return f"{parts} known parts can have these sizes, in {len(found)} classes of equal limits."


def _key(name: str) -> str:
    return "thickness" if name == "length" else name.replace("_", " ")


def _reading(reading: Reading | None) -> dict[str, Any] | None:
    return reading and {"mm": reading.value_mm, "good_to_mm": reading.good_to_mm, "how": reading.how}


def _limits(each: Near, name: str) -> list[float] | None:
    limits = each.parts[0].size(name)
    return limits and [limits.low_mm, limits.high_mm]


def _measured(asked: Entry) -> str:
    pieces = [
        (
            f"{_key(name)} {reading.value_mm:g} mm, good to "
            f"{good_to(reading.good_to_mm)}{f' ({reading.how})' if reading.how else ''}"
        )
        for name, reading in sorted(
            asked.sizes, key=lambda size: SIZES.index(size[0]) if size[0] in SIZES else len(SIZES)
        )
    ]
    return f"Measured: {'; '.join(pieces)}."


def _names(each: Near) -> str:
    return f"{each.parts[0].kind}: {' = '.join(dict.fromkeys(part.name for part in each.parts))}"


def _where(each: Near) -> str:
    return ", ".join(dict.fromkeys(part.where for part in each.parts))


def _off(each: Near) -> str:
    offs = [f"{_key(name)} {off:+.3f}" for name, off in each.off_mm if off]
    return ", ".join(offs) or "inside"
