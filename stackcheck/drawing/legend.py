"""What stands in words below a picture: how it is to be read, what was assumed, and the list of its parts."""

from __future__ import annotations

from stackcheck.drawing.figure import BODY, FAR_MM, HOUSING
from stackcheck.drawing.picture import MISSING, UNSEEN, Layout
from stackcheck.drawing.sheet import Sheet
from stackcheck.present.names import counted
from stackcheck.present.words import listed, place_words

MOST_ROWS = 60


def legend(layout: Layout, sheet: Sheet, dropped: int) -> list[str]:
    """Sentences, only those that this picture needs."""
    reference = layout.comparison.reference
    first = place_words(reference, reference.datum)
    lines = [
        "Above the centre line as found, below it the reference: two states, not two views. "
        f"Both are counted from the same face: {first}. " + _scale(sheet)
    ]
    lines += [f"{remark}: drawn as it stood." for remark in layout.remarks]
    if any(piece.style == MISSING for piece in layout.pieces):
        lines.append("Dashed outline: missing.")
    if any(piece.style == UNSEEN for piece in layout.pieces):
        lines.append("Thin outline, not filled: nobody looked; drawn by the reference, nothing is said about it.")
    if any(piece.drawn.arrow for piece in layout.pieces):
        lines.append(
            "A small black arrow in a part points to where its named feature looks. Features are signs, not to scale."
        )
    assumed = [item for item in layout.items if item.assumed and item.drawn]
    if assumed:
        each = "; ".join(f"{item.mark} ({', '.join(item.assumed)})" for item in assumed[:20])
        lines.append(
            "~ and dotted outline: a size that the reference does not give is assumed for the picture: "
            f"{each}{'; and more' if len(assumed) > 20 else ''}."
        )
    hidden = [item.mark for item in layout.items if not item.drawn and not item.loose]
    if hidden:
        lines.append(f"Not drawn, no size known or hidden in another part: {', '.join(hidden[:30])}.")
    loose = [f"{item.mark} {item.name}" for item in layout.items if item.loose]
    if loose:
        lines.append(f"Found loose, place not seen, not drawn: {listed(loose)}.")
    if dropped:
        lines.append(f"{counted(dropped, 'label')} left out for want of room: the parts between two numbers count on.")
    if any(
        piece.figure.outer_mm > sheet.cap_mm and piece.figure.role in (BODY, HOUSING) and piece.figure.outer_mm < FAR_MM
        for piece in layout.pieces
    ):
        lines.append("Waved edge: broken off there.")
    return lines


def _scale(sheet: Sheet) -> str:
    along, across = sheet.along, sheet.across
    words = f"Scale {_ratio(along)} when 180 mm wide"
    return f"{words}; across the axis {_ratio(across)}." if abs(across / along - 1) > 0.01 else f"{words}."


def _ratio(scale: float) -> str:
    return f"{scale:.3g} : 1" if scale >= 1 else f"1 : {1 / scale:.3g}"


def parts_list(layout: Layout) -> list[tuple[str, str]]:
    """(mark, name and entry) of every item; of very many only those that a label names."""
    items = layout.items
    if len(items) > MOST_ROWS:
        named = {label.mark.rstrip("~") for label in layout.labels if label.rank == 0}
        items = tuple(item for item in items if item.mark in named or item.place == "")
    rows = [(item.mark, f"{item.name}{f', entry {item.entry}' if item.entry else ''}") for item in items[:MOST_ROWS]]
    more = len(layout.items) - len(rows)
    return [*rows, ("", f"and {more} more, in the table of items")] if more else rows
