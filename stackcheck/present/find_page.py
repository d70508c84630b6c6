"""What parts a look-up by sizes found, as a page and as JSON."""

from __future__ import annotations

from typing import Any

from stackcheck.catalogue.near import MOST, Near
from stackcheck.formats.asked_sizes import SIZES, AskedSizes
from stackcheck.present.blocks import Block, Rows, Text

SHOWN = 25


def find_page(asked: AskedSizes, found: tuple[Near, ...], searched: str) -> list[Block]:
    """Each class of parts with equal limits in one row, best first, with how far every size is from its limits."""
    blocks: list[Block] = [Text(_headline(asked, found), strong=True), Text(_measured(asked)), Text(f"Searched: {searched}.")]
    if not found:
        return [*blocks, Text("That no known part has these sizes does not say what the part is. Parts whose limits of a measured size are not known were left out.")]
    rows = tuple((_names(each), _where(each), _off(each), each.verdict) for each in found[:SHOWN])
    blocks.append(Rows(("part", "from", "off its limits", "agrees"), rows, wraps=(0, 1, 2, 3)))
    if len(found) > SHOWN:
        more = "; another measurement narrows it down" if len(found) <= MOST else ": measure another size first"
        blocks.append(Text(f"{len(found) - SHOWN} more not shown{more}."))
    blocks.append(Text("Sizes alone do not say what a part is: kind, material, marking and where it lay count too."))
    return blocks


def find_json(asked: AskedSizes, found: tuple[Near, ...], searched: str) -> dict[str, Any]:
    """`find`: what was asked, and every class of parts with equal limits."""
    return {
        "asked": {"text": asked.text, "kind": asked.kind}
        | {
            name: reading and {"mm": reading.value_mm, "good_to_mm": reading.good_to_mm, "how": reading.how}
            for name, reading in zip(SIZES, asked.readings)
        },
        "searched": searched,
        "found": [
            {
                "parts": [{"name": part.name, "kind": part.kind, "where": part.where} for part in each.parts],
                "limits_mm": {name: limits and list(limits) for name, limits in zip(SIZES, each.parts[0].limits)},
                "off_mm": dict(zip(SIZES, each.off_mm)),
                "agrees": each.verdict,
            }
            for each in found[:MOST]
        ],
        "left_out": max(0, len(found) - MOST),
    }


def _headline(asked: AskedSizes, found: tuple[Near, ...]) -> str:
    kind = asked.kind or "part"
    if not found:
        return f"No known {kind} has these sizes."
    parts = sum(len(each.parts) for each in found)
    if parts == 1:
        return f"One known {kind} can have these sizes."
    if len(found) == 1:
        return f"{parts} known parts of equal limits can have these sizes: sizes cannot tell them apart."
    return f"{parts} known parts can have these sizes, in {len(found)} classes of equal limits."


def _measured(asked: AskedSizes) -> str:
    pieces = [
        f"{name} {reading.value_mm:g} mm, good to {reading.good_to_mm:g}{f' ({reading.how})' if reading.how else ''}"
        for name, reading in zip(SIZES, asked.readings)
        if reading
    ]
    return f"Measured: {'; '.join(pieces)}."


def _names(each: Near) -> str:
    return f"{each.parts[0].kind}: {' = '.join(dict.fromkeys(part.name for part in each.parts))}"


def _where(each: Near) -> str:
    return ", ".join(dict.fromkeys(part.where for part in each.parts))


def _off(each: Near) -> str:
    offs = [f"{name} {off:+.3f}" for name, off in zip(SIZES, each.off_mm) if off]
    return ", ".join(offs) or "inside"
