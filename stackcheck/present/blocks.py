"""A page as a list of blocks, and its two renderings: plain text for a pipe, rich for a terminal.

Both hold the same words in the same sequence, so nothing is lost when a page is piped, printed or read aloud. Plain
text keeps to 80 columns; rich adds weight, never meaning.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from stackcheck.paragraph import lines_of
from stackcheck.value import Value

WIDTH = 80


class Heading(Value):
    text: str


class Text(Value):
    """A paragraph; `mark` stands before its first line, the rest hangs below;
    `strong` for the sentence that matters.
    """

    text: str
    mark: str = ""
    indent: int = 0
    strong: bool = False


class Rows(Value):
    """A table without lines; columns in `right` are set to the right, those in `wraps` give way where room is short."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    right: tuple[int, ...] = ()
    wraps: tuple[int, ...] = (0,)


Block = Heading | Text | Rows


def plain(blocks: Sequence[Block], width: int = WIDTH) -> str:
    """The page as plain text, no line longer than `width` where words allow it."""
    lines: list[str] = []
    for block in blocks:
        if isinstance(block, Heading):
            lines += ["", block.text]
        elif isinstance(block, Text):
            lines += _wrapped(block, width)
        else:
            lines += _table(block, width)
    return "\n".join(line.rstrip() for line in lines).strip("\n") + "\n"


def _wrapped(block: Text, width: int) -> list[str]:
    start = " " * block.indent + block.mark
    return lines_of(block.text, width, first=start, then=" " * len(start))


def _widths(block: Rows, width: int) -> list[int]:
    rows = (block.header, *block.rows)
    columns = [max(map(len, cells)) for cells in zip(*rows)]
    narrowest = [max(len(word) for cell in cells for word in cell.split() or [""]) for cells in zip(*rows)]
    while sum(columns) + 2 * (len(columns) - 1) + 1 > width:
        giving = [index for index in block.wraps if columns[index] > narrowest[index]]
        if not giving:
            break
        columns[max(giving, key=columns.__getitem__)] -= 1
    return columns


def _table(block: Rows, width: int) -> list[str]:
    columns = _widths(block, width)
    lines = []
    for row in (block.header, *block.rows) if any(block.header) else block.rows:
        cells = [lines_of(cell, columns[index]) if index in block.wraps else [cell] for index, cell in enumerate(row)]
        for depth in range(max(map(len, cells), default=0)):
            texts = [cell[depth] if depth < len(cell) else "" for cell in cells]
            set_ = [
                text.rjust(columns[i]) if i in block.right else text.ljust(columns[i]) for i, text in enumerate(texts)
            ]
            lines.append(" " + "  ".join(set_))
    return lines


def show(blocks: Sequence[Block]) -> None:
    """Print the page: rich on a terminal, plain text into a pipe or file."""
    if not sys.stdout.isatty():
        sys.stdout.write(plain(blocks))
        return
    from rich.console import Console
    from rich.padding import Padding
    from rich.table import Table
    from rich.text import Text as RichText

    console = Console(highlight=False)
    width = min(console.width, 100)
    for block in blocks:
        if isinstance(block, Heading):
            console.print()
            console.print(RichText(block.text, style="bold"))
        elif isinstance(block, Text):
            style = "bold" if block.strong else ""
            console.print(RichText("\n".join(_wrapped(block, width)), style=style), soft_wrap=True)
        else:
            table = Table(box=None, padding=(0, 2, 0, 0), show_header=any(block.header), header_style="dim")
            for index, name in enumerate(block.header):
                table.add_column(
                    RichText(name),
                    justify="right" if index in block.right else "left",
                    no_wrap=index not in block.wraps,
                )
            for row in block.rows:
                table.add_row(*(RichText(cell) for cell in row))
            console.print(Padding(table, (0, 0, 0, 1)), width=width)
