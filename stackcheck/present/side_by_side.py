"""What the sections of `stack` share: as found first, the reference below it,
and both in one line where they are the same.
"""

from __future__ import annotations

from stackcheck.present.blocks import Block, Text

BOTH = "as found and by the reference"


def beside_lines(own: str, seen: str, difference: str = "", *, called: str = "", with_found: bool = True) -> list[str]:
    """What is said of one thing as found, then by the reference, then how far they differ;
    `called` names it in every line.
    """
    name = f"{called}, " if called else ""
    if not with_found:
        return [f"{called}: {own}" if called else own]
    if own == seen:
        return [f"{name}{BOTH}: {own}"]
    return [
        f"{name}as found: {seen}",
        f"{name}reference: {own}",
        *([f"{name}difference: {difference}"] if difference else []),
    ]


def beside_blocks(called: str, own: str, seen: str, *, with_found: bool) -> list[Block]:
    """One thing by its name, then what is said of it."""
    if not with_found:
        return [Text(f"{called}: {own}", mark=" -  ")]
    return [Text(called, mark=" -  "), *(Text(line, indent=4) for line in beside_lines(own, seen))]
