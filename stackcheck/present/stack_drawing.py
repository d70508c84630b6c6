"""A stack as it is being written down, drawn in a line of text: one box a part, from the first end to the second.

Boxes are as wide as the parts are long (one character for two millimetres, never less than its number needs), so that a
slip of the pen shows. A member that stays on is filled, an arrow stands on the side that the feature points to, a gap
left open is open, and what passes through the others stands in round brackets. The numbers are those of the questions.
"""

from __future__ import annotations

import textwrap

from stackcheck.formats.drawn_sizes import drawn_size
from stackcheck.references.draft import MAIN, Draft, DraftGap, DraftPart
from stackcheck.tables import resolve

MM_A_CHARACTER = 2.0
WIDEST_BOX = 24
WIDTH = 78


def stack_drawing(draft: Draft) -> tuple[str, ...]:
    """The main stack and, under it, which number is what.

    The drawing of three parts::

        left [1][#2#][3 >] right
    """
    boxes, names, number = [], [], 0
    for row in draft.rows:
        if isinstance(row, DraftGap):
            boxes.append("  ")
            continue
        if MAIN in row.stacks:
            number += 1
            boxes.append(_box(row, number, draft))
            names.append(f"{number} {_name(row)}")
    lines, line = [], f"{draft.ends[0]} "
    for box in boxes:
        if len(line) + len(box) > WIDTH - len(draft.ends[1]):
            lines, line = [*lines, line], " " * (len(draft.ends[0]) + 1)
        line += box
    lines.append(f"{line} {draft.ends[1]}")
    lines = [line.rstrip() for line in lines]
    return (*lines, *textwrap.wrap(" · ".join(names), WIDTH, initial_indent="  ", subsequent_indent="  "))


def _name(row: DraftPart) -> str:
    count = f"{row.count} x " if row.count > 1 else ""
    return count + (f"{row.name}, {row.feature} toward {row.toward}" if row.toward else row.name)


def _box(row: DraftPart, number: int, draft: Draft) -> str:
    inside = str(number)
    if row.toward == draft.ends[0]:
        inside = f"<{inside}"
    elif row.toward == draft.ends[1]:
        inside = f"{inside}>"
    width = min(WIDEST_BOX, max(len(inside), round(_length(row) * row.count / MM_A_CHARACTER) - 2))
    if row.passes_through:
        return f"({inside})"
    if row.fixed:
        return f"[{inside.center(max(width, len(inside) + 2), '#')}]"
    if inside.endswith(">"):
        return f"[{inside[:-1].ljust(width - 1)}>]"
    return f"[{inside.ljust(width)}]"


def _length(row: DraftPart) -> float:
    said = dict(row.sizes).get("length")
    if said:
        return drawn_size(said).nominal_mm
    size = resolve(row.standard).size("length") if row.standard else None
    return size.nominal_mm if size else 0.0
