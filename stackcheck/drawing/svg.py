"""The layout as SVG, in mm of paper: black and white, with a title and a description, labels, dimensions and words.

What differs is said in words at its item. The parts themselves are drawn in `svg_halves.py`.
"""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from stackcheck.drawing import leaders
from stackcheck.drawing.legend import legend, parts_list
from stackcheck.drawing.pen import THIN, Pen, arrowed
from stackcheck.drawing.picture import FOUND, REFERENCE, Label, Layout
from stackcheck.drawing.plain_text import shown, text_width
from stackcheck.drawing.sheet import WIDTH, Sheet, sheet_for
from stackcheck.drawing.svg_halves import halves
from stackcheck.present.compare_summary import summary
from stackcheck.value import Value, replace

MARK, WORDS, SMALL = 4.0, 2.7, 2.9
"""Heights of letters [mm of paper]: item marks, words at them, everything else."""
_LEAN, _RISE, _LINE = 7.0, 2.0, 3.2
_TOP = 4.0
_FONT = "DejaVu Sans, Verdana, Arial, Helvetica, sans-serif"


class Drawing(Value, kw_only=True):
    """An SVG document, and the sentences that say how to read it (in the document too where it was asked for)."""

    svg: str
    legend: tuple[str, ...]


def svg(layout: Layout, *, name: str = "stack") -> str:
    """A complete SVG document with parts list and signs used below the picture; `name` begins every id in it."""
    return drawing(layout, name=name, with_words=True).svg


def drawing(layout: Layout, *, name: str, with_words: bool = False) -> Drawing:
    """The picture alone, or with its words below."""
    pen = Pen(name)
    sheet = sheet_for(layout)
    upper, dropped_above = _set(layout, sheet, FOUND)
    lower, dropped_below = _set(layout, sheet, REFERENCE)
    above, below = (max((_label_height(each.label) for each in row), default=0.0) for row in (upper, lower))
    out = sheet.height + _distance_room(layout) + _RISE + _LEAN
    sheet = replace(sheet, centre=_TOP + above + out)
    halves(pen, layout, sheet)
    _distances(pen, layout, sheet)
    _shifts(pen, layout, sheet)
    for half, row in ((FOUND, upper), (REFERENCE, lower)):
        _leaders(pen, layout, sheet, half, row)
    _titles(pen, layout, sheet)
    bottom = _ends(pen, layout, sheet.centre + out + below + 3.0)
    lines = tuple(legend(layout, sheet, dropped_above + dropped_below))
    if with_words:
        bottom = _words_below(pen, layout, lines, bottom)
    return Drawing(svg=_document(layout, name, pen, bottom), legend=lines)


def _document(layout: Layout, name: str, pen: Pen, height: float) -> str:
    reference = layout.comparison.reference
    title = (
        f"{shown(reference.title, 80)}, rev {shown(reference.revision, 30)}: "
        "as found above the centre line, reference below"
    )
    ways = "".join(
        f'<pattern id="{name}-h{way}" width="{pitch}" height="{pitch}" '
        f'patternUnits="userSpaceOnUse" patternTransform="rotate({angle})">'
        f'<rect width="{pitch}" height="{pitch}" fill="#fff"/>'
        f'<line x1="0" y1="0" x2="0" y2="{pitch}" stroke="#000" stroke-width="0.3"/></pattern>'
        for way, (angle, pitch) in enumerate(((45, 2.0), (-45, 2.0), (45, 1.2), (-45, 1.2)))
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {height:.2f}" '
        f'width="{WIDTH:g}mm" height="{height:.2f}mm" '
        f'role="img" aria-labelledby="{name}-title {name}-desc" '
        f'xml:lang="en" lang="en" font-family={quoteattr(_FONT)} fill="#000">'
        f'<title id="{name}-title">{escape(title)}</title>'
        f'<desc id="{name}-desc">{escape(shown(summary(layout.comparison)))}</desc>'
        f"<defs>{ways}</defs>"
        + f'<rect width="{WIDTH:g}" height="{height:.2f}" fill="#fff"/>'
        + "\n".join(pen.parts)
        + "</svg>\n"
    )


# --- labels ---------------------------------------------------------------------------------------------------------


def _label_width(label: Label) -> float:
    mark = text_width(label.mark, MARK, bold=True)
    return max([mark, *(text_width(word, WORDS, bold=True) for word in label.words)]) + 1.4


def _label_height(label: Label) -> float:
    return (MARK + 0.6 if label.mark else 0.0) + _LINE * len(label.words)


def _set(layout: Layout, sheet: Sheet, half: str) -> tuple[tuple[leaders.Set, ...], int]:
    stretches: dict[int, list[tuple[float, float, float]]] = {}
    for piece in layout.half(half):
        if piece.drawn.shapes:
            first, second = sheet.x(half, piece.figure.first_mm), sheet.x(half, piece.figure.second_mm)
            for millimetre in range(int(first), int(second) + 1):
                stretches.setdefault(millimetre, []).append((first, second, piece.figure.inner_mm))

    def covered(label: Label, spot: float) -> int:
        return sum(
            1
            for first, second, inner in stretches.get(int(spot), ())
            if first < spot < second and inner >= label.radius_mm
        )

    return leaders.placed(
        [label for label in layout.labels if label.half == half], x=lambda along: sheet.x(half, along),
        width=_label_width, covered=covered, left=7.0, right=WIDTH - 7.0,
    )  # fmt: skip


def _leaders(pen: Pen, layout: Layout, sheet: Sheet, half: str, row: tuple[leaders.Set, ...]) -> None:
    out = -1.0 if half == FOUND else 1.0
    level = sheet.centre + out * (sheet.height + _distance_room(layout) + _RISE)
    foot = level + out * _LEAN
    pen.open(f"labels-{half}")
    for each in row:
        label = each.label
        y = sheet.y(half, label.radius_mm)
        pen.path(((each.anchor, y), (each.anchor, level), (each.middle, foot - out * 0.6)), width=THIN)
        pen.dot(each.anchor, y)
        words, mark = list(label.words), label.mark
        if half == FOUND:
            at = foot - 0.4
            if mark:
                pen.text(each.middle, at, mark, MARK, anchor="middle", bold=True, kind="label")
                at -= MARK + 0.3
            for line in reversed(words):
                pen.text(each.middle, at, line, WORDS, anchor="middle", bold=line.isupper(), kind="label")
                at -= _LINE
        else:
            at = foot + MARK - 0.6
            if mark:
                pen.text(each.middle, at, mark, MARK, anchor="middle", bold=True, kind="label")
                at += _LINE + 0.4
            else:
                at = foot + WORDS - 0.2
            for line in words:
                pen.text(each.middle, at, line, WORDS, anchor="middle", kind="label")
                at += _LINE
    pen.close()


# --- dimensions, shifts, titles -------------------------------------------------------------------------------------


def _distance_room(layout: Layout) -> float:
    return 4.2 if layout.distances else 1.0


def _distances(pen: Pen, layout: Layout, sheet: Sheet) -> None:
    """Distances of the machine, between outlines and labels."""
    for distance in layout.distances:
        out = -1.0 if distance.half == FOUND else 1.0
        y = sheet.centre + out * (sheet.height + 2.6)
        first, second = sheet.x(distance.half, distance.first_mm), sheet.x(distance.half, distance.second_mm)
        arrowed(pen, first, second, y)
        for x in (first, second):
            pen.path(((x, y + out), (x, y - out * 2.2)), width=THIN)
        words = f"{distance.mark}  {distance.second_mm - distance.first_mm:.2f}"
        width = text_width(words, SMALL, bold=True) + 1.5
        middle = (first + second) / 2 + 0.18 * (second - first)
        pen.box(middle - width / 2, y - 1.6, width, 3.2)
        pen.text(middle, y + 1.05, words, SMALL, anchor="middle", bold=True)


def _shifts(pen: Pen, layout: Layout, sheet: Sheet) -> None:
    """Witness lines of watched parts that stand elsewhere, with the figure between them."""
    pen.open("shifts")
    for number, moved in enumerate(layout.moved[:2]):
        y = sheet.centre + 4.0 * number
        ours, theirs = sheet.x(FOUND, moved.found_mm), sheet.x(REFERENCE, moved.reference_mm)
        reach = max(6.0, 0.45 * sheet.height)
        pen.path(((ours, sheet.centre - reach), (ours, y + 1.5)), width=THIN)
        pen.path(((theirs, y - 1.5), (theirs, sheet.centre + reach)), width=THIN)
        first, second = sorted((ours, theirs))
        words = f"{moved.mark}: {moved.words}"
        width = text_width(words, SMALL, bold=True) + 1.4
        start = next(
            (at for at in (second + 1.2, first - 1.2 - width) if 8 < at < WIDTH - 8 - width),
            (first + second - width) / 2,
        )
        pen.box(start - 0.4, y - 1.9, width, 3.8)
        pen.text(start + 0.3, y + 1.05, words, SMALL, bold=True)
        arrowed(pen, theirs, ours, y) if ours > theirs else arrowed(pen, ours, theirs, y)
    pen.close()


def _titles(pen: Pen, layout: Layout, sheet: Sheet) -> None:
    """Title words at both ends of both halves, and the names of the ends."""
    reference = layout.comparison.reference
    for x in (4.2, WIDTH - 2.0):
        for out, words in ((-1, "AS FOUND"), (1, f"REFERENCE rev {shown(reference.revision, 12)}")):
            middle = max(sheet.height / 2 + 3, text_width(words, SMALL, bold=True) / 2 + 1)
            pen.text(x, sheet.centre + out * middle, words, SMALL, anchor="middle", bold=True, turn=-90)


def _ends(pen: Pen, layout: Layout, top: float) -> float:
    """The names of both ends; returns where the sheet goes on."""
    first, second = (shown(end, 30) for end in layout.comparison.reference.ends)
    pen.text(4, top + 1, f"\u25c0 {first}", SMALL, bold=True)
    pen.text(WIDTH - 4, top + 1, f"{second} \u25b6", SMALL, anchor="end", bold=True)
    return top + 2.5


def _words_below(pen: Pen, layout: Layout, lines: tuple[str, ...], top: float) -> float:
    """Signs used, and the parts list in two columns; returns where the sheet ends."""
    y = top + 3.5
    for line in lines:
        for piece in _wrapped(line, WIDTH - 8):
            pen.text(4, y, piece, SMALL)
            y += 3.9
    y += 1.5
    rows = parts_list(layout)
    half = (len(rows) + 1) // 2
    for column, part in enumerate((rows[:half], rows[half:])):
        for position, (mark, words) in enumerate(part):
            x = 4 + column * (WIDTH - 8) / 2
            pen.text(x + 6, y + 4.0 * position, mark, SMALL, anchor="end", bold=True)
            pen.text(x + 8, y + 4.0 * position, _cut(words, (WIDTH - 8) / 2 - 10), SMALL)
    return y + 4.0 * half + 1


def _cut(words: str, room: float) -> str:
    words = shown(words)
    while text_width(words, SMALL) > room and len(words) > 2:
        words = words[:-2].rstrip() + "…"
    return words


def _wrapped(words: str, room: float) -> list[str]:
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if text_width(longer, SMALL) > room and lines[-1]:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines
