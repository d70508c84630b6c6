"""The layout as SVG, in mm of paper: black and white, every text escaped, with a title and a description.

Everything is written by `_Pen`, so that no text reaches the file unescaped. What differs is said in words at its item;
filling and hatching tell parts apart and never tell good from bad.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from stackcheck.drawing import leaders
from stackcheck.drawing.core_outline import core_outline
from stackcheck.drawing.figures import FAR_MM
from stackcheck.drawing.layout import FOUND, MISSING, NORMAL, REFERENCE, UNSEEN, Label, Layout, Piece
from stackcheck.drawing.legend import legend, parts_list
from stackcheck.drawing.plain_text import shown, text_width
from stackcheck.drawing.shapes import HATCHED, SOLID, Shape
from stackcheck.drawing.sheet import WIDTH, Sheet, sheet_for
from stackcheck.present.compare_summary import summary
from stackcheck.value import Value, replace

MARK, WORDS, SMALL = 4.0, 2.7, 2.9
"""Heights of letters [mm of paper]: item marks, words at them, everything else."""
THICK, THIN = 0.45, 0.18
LEAST_WIDE = 0.45
"""A part is drawn no thinner than this; up to `SOLID_UNDER` it is filled solid."""
SOLID_UNDER = 1.3
_LEAN, _RISE, _LINE = 7.0, 2.0, 3.2
_TOP = 4.0
_FONT = "DejaVu Sans, Verdana, Arial, Helvetica, sans-serif"


class _Pen:
    """Collects elements; the only place where anything is escaped."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.parts: list[str] = []

    def path(
        self,
        points: Iterable[tuple[float, float]],
        *,
        closed: bool = False,
        fill: str = "none",
        width: float = THICK,
        dash: str = "",
    ) -> None:
        d = "M" + "L".join(f"{x:.3f} {y:.3f}" for x, y in points) + ("Z" if closed else "")
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self.parts.append(
            f'<path d="{d}" fill="{fill}" stroke="#000" stroke-width="{width}" stroke-linejoin="round"{dashed}/>'
        )

    def white(self, points: Iterable[tuple[float, float]], width: float) -> None:
        d = "M" + "L".join(f"{x:.3f} {y:.3f}" for x, y in points)
        self.parts.append(f'<path d="{d}" fill="none" stroke="#fff" stroke-width="{width}"/>')

    def dot(self, x: float, y: float, radius: float = 0.55) -> None:
        self.parts.append(
            f'<circle cx="{x:.3f}" cy="{y:.3f}" r="{radius}" fill="#000" stroke="#fff" stroke-width="0.15"/>'
        )

    def box(self, x: float, y: float, width: float, height: float) -> None:
        self.parts.append(f'<rect x="{x:.3f}" y="{y:.3f}" width="{width:.3f}" height="{height:.3f}" fill="#fff"/>')

    def text(
        self,
        x: float,
        y: float,
        words: str,
        size: float,
        *,
        anchor: str = "start",
        bold: bool = False,
        turn: float = 0.0,
        kind: str = "",
    ) -> None:
        weight = ' font-weight="bold"' if bold else ""
        turned = f' transform="rotate({turn:g} {x:.3f} {y:.3f})"' if turn else ""
        named = f" class={quoteattr(kind)}" if kind else ""
        self.parts.append(
            f'<text x="{x:.3f}" y="{y:.3f}" font-size="{size}" text-anchor="{anchor}"{weight}{turned}{named}>{escape(shown(words))}</text>'
        )

    def open(self, kind: str) -> None:
        self.parts.append(f'<g id="{self.name}-{kind}">')

    def close(self) -> None:
        self.parts.append("</g>")


class Drawing(Value, kw_only=True):
    """An SVG document, and the sentences that say how to read it (in the document too where it was asked for)."""

    svg: str
    legend: tuple[str, ...]


def svg(layout: Layout, *, name: str = "stack") -> str:
    """A complete SVG document with parts list and signs used below the picture; `name` begins every id in it."""
    return drawing(layout, name=name, with_words=True).svg


def drawing(layout: Layout, *, name: str, with_words: bool = False) -> Drawing:
    """The picture alone, or with its words below."""
    pen = _Pen(name)
    sheet = sheet_for(layout)
    upper, dropped_above = _set(layout, sheet, FOUND)
    lower, dropped_below = _set(layout, sheet, REFERENCE)
    above, below = (max((_label_height(each.label) for each in row), default=0.0) for row in (upper, lower))
    out = sheet.height + _distance_room(layout) + _RISE + _LEAN
    sheet = replace(sheet, centre=_TOP + above + out)
    _halves(pen, layout, sheet)
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


def _document(layout: Layout, name: str, pen: _Pen, height: float) -> str:
    reference = layout.comparison.reference
    title = f"{shown(reference.title, 80)}, rev {shown(reference.revision, 30)}: as found above the centre line, reference below"
    ways = "".join(
        f'<pattern id="{name}-h{way}" width="{pitch}" height="{pitch}" patternUnits="userSpaceOnUse" patternTransform="rotate({angle})">'
        f'<rect width="{pitch}" height="{pitch}" fill="#fff"/><line x1="0" y1="0" x2="0" y2="{pitch}" stroke="#000" stroke-width="0.3"/></pattern>'
        for way, (angle, pitch) in enumerate(((45, 2.0), (-45, 2.0), (45, 1.2), (-45, 1.2)))
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {height:.2f}" width="{WIDTH:g}mm" height="{height:.2f}mm" '
        f'role="img" aria-labelledby="{name}-title {name}-desc" xml:lang="en" lang="en" font-family={quoteattr(_FONT)} fill="#000">'
        f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-desc">{escape(shown(summary(layout.comparison)))}</desc>'
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
        [label for label in layout.labels if label.half == half], x=lambda along: sheet.x(half, along), width=_label_width, covered=covered, left=7.0, right=WIDTH - 7.0,
    )  # fmt: skip


def _leaders(pen: _Pen, layout: Layout, sheet: Sheet, half: str, row: tuple[leaders.Set, ...]) -> None:
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


# --- the two halves -------------------------------------------------------------------------------------------------


def _halves(pen: _Pen, layout: Layout, sheet: Sheet) -> None:
    start, end = sheet.left - 4.0, sheet.left + (sheet.end_mm - sheet.start_mm) * sheet.along + 4.0
    for half in (FOUND, REFERENCE):
        pen.open(half)
        outline = core_outline(layout, half) if not sheet.hollow_mm else ()
        if outline:
            xs = [start, *(sheet.x(half, along) for along, _ in outline[1:]), end]
            points = [(start, sheet.centre)]
            for (_, radius), first, second in zip(outline, xs, xs[1:]):
                points += [(first, sheet.y(half, radius)), (second, sheet.y(half, radius))]
            points.append((end, sheet.centre))
            pen.path(points, fill="#fff")
            for x, (_, radius) in ((start, outline[0]), (end, outline[-1])):
                _broken(pen, (x, sheet.y(half, 0.0)), (x, sheet.y(half, radius)))
        pieces = sorted(
            layout.half(half),
            key=lambda piece: (
                piece.style == MISSING,
                piece.figure.kind in ("O-ring", "split pin"),
                -piece.figure.outer_mm,
            ),
        )
        for piece in pieces:
            _piece(pen, piece, sheet, half)
        _cuts(pen, layout, sheet, half)
        for gap in layout.gaps:
            if gap.half == half and sheet.x(half, gap.second_mm) - sheet.x(half, gap.first_mm) > 2.5:
                _arrowed(pen, sheet.x(half, gap.first_mm), sheet.x(half, gap.second_mm), sheet.y(half, gap.radius_mm))
        pen.close()
    pen.path(((start - 3, sheet.centre), (end + 3, sheet.centre)), width=THIN, dash="6 1 0.6 1")
    if sheet.hollow_mm:
        for half in (FOUND, REFERENCE):
            y = sheet.y(half, sheet.hollow_mm * 0.75)
            _broken(pen, (start + 3, y), (end - 3, y))


def _cuts(pen: _Pen, layout: Layout, sheet: Sheet, half: str) -> None:
    """Waved lines across the half where the picture is cut off or where repeats are folded away."""
    high, low = sheet.y(half, FAR_MM), sheet.y(half, sheet.hollow_mm)
    spots = [
        (sheet.x(half, fold.first_mm) + sheet.x(half, fold.second_mm)) / 2 for fold in layout.folds if fold.half == half
    ]
    for spot in spots:
        for side in (-0.9, 0.9):
            _broken(pen, (spot + side, high), (spot + side, low))
    if layout.window is not None:
        for edge in (sheet.left, sheet.left + (sheet.end_mm - sheet.start_mm) * sheet.along):
            _broken(pen, (edge, high), (edge, low))


def _piece(pen: _Pen, piece: Piece, sheet: Sheet, half: str) -> None:
    dash = {MISSING: "1.6 1", UNSEEN: ""}.get(piece.style, "0.5 0.5" if piece.assumed else "")
    width = THIN if piece.style == UNSEEN or (piece.assumed and piece.style != MISSING) else THICK
    for shape in piece.drawn.shapes:
        points, thin = _on_paper(shape, sheet, half)
        fill = "#fff"
        if piece.style == MISSING:
            fill = "none"
        elif shape.fill == SOLID or (thin and piece.style != UNSEEN):
            fill = "#000"
        elif shape.fill == HATCHED and piece.style != UNSEEN:
            fill = f"url(#{pen.name}-h{piece.hatch})"
        if fill == "#000":
            pen.path(points, closed=True, fill=fill, width=0.12)
            pen.white((points[0], points[-1]), 0.12)
        else:
            if piece.style == MISSING:
                pen.white((*points, points[0]), 1.2)
            pen.path(points, closed=True, fill=fill, width=width, dash=dash)
    if piece.style == NORMAL:
        for stroke in piece.drawn.strokes:
            pen.path(
                ((sheet.x(half, x), sheet.y(half, r)) for x, r in stroke.points), width=THIN if stroke.thin else THICK
            )
    if piece.figure.outer_mm > sheet.cap_mm and piece.drawn.shapes:
        y = sheet.y(half, FAR_MM)
        _broken(pen, (sheet.x(half, piece.figure.first_mm), y), (sheet.x(half, piece.figure.second_mm), y))
    if piece.drawn.arrow is not None and piece.style == NORMAL:
        _facing_arrow(
            pen, sheet.x(half, piece.drawn.arrow[0]), sheet.y(half, piece.drawn.arrow[1]), piece.figure.facing
        )


def _on_paper(shape: Shape, sheet: Sheet, half: str) -> tuple[list[tuple[float, float]], bool]:
    """The outline on paper, no thinner than the least; and whether it is so thin that it is filled solid."""
    points = [(sheet.x(half, x), sheet.y(half, r)) for x, r in shape.points]
    first, second = min(x for x, _ in points), max(x for x, _ in points)
    if second - first < LEAST_WIDE:
        middle = (first + second) / 2
        points = [(middle + (LEAST_WIDE / 2 if x > middle else -LEAST_WIDE / 2), y) for x, y in points]
    return points, second - first < SOLID_UNDER and len(points) <= 6


def _facing_arrow(pen: _Pen, x: float, y: float, facing: int) -> None:
    pen.path(
        ((x - 1.1 * facing, y - 0.9), (x + 1.1 * facing, y), (x - 1.1 * facing, y + 0.9)),
        closed=True,
        fill="#000",
        width=0.1,
    )


def _broken(pen: _Pen, start: tuple[float, float], end: tuple[float, float]) -> None:
    """A thin waved line over a straight edge: broken off."""
    pen.white((start, end), 0.7)
    steps = max(4, 2 * round((abs(end[0] - start[0]) + abs(end[1] - start[1])) / 3))
    along_x = abs(end[0] - start[0]) > abs(end[1] - start[1])
    points = []
    for step in range(steps + 1):
        x = start[0] + (end[0] - start[0]) * step / steps
        y = start[1] + (end[1] - start[1]) * step / steps
        swing = 0.0 if step in (0, steps) else 0.6 if step % 2 else -0.6
        points.append((x, y + swing) if along_x else (x + swing, y))
    pen.path(points, width=THIN)


def _arrowed(pen: _Pen, first: float, second: float, y: float) -> None:
    """A dimension line between two faces."""
    pen.path(((first, y), (second, y)), width=THIN)
    for x, turn in ((first, 1.0), (second, -1.0)):
        pen.path(((x, y), (x + 1.3 * turn, y - 0.4), (x + 1.3 * turn, y + 0.4)), closed=True, fill="#000", width=0.05)


# --- dimensions, shifts, titles -------------------------------------------------------------------------------------


def _distance_room(layout: Layout) -> float:
    return 4.2 if layout.distances else 1.0


def _distances(pen: _Pen, layout: Layout, sheet: Sheet) -> None:
    """Distances of the machine, between outlines and labels."""
    for distance in layout.distances:
        out = -1.0 if distance.half == FOUND else 1.0
        y = sheet.centre + out * (sheet.height + 2.6)
        first, second = sheet.x(distance.half, distance.first_mm), sheet.x(distance.half, distance.second_mm)
        _arrowed(pen, first, second, y)
        for x in (first, second):
            pen.path(((x, y + out), (x, y - out * 2.2)), width=THIN)
        words = f"{distance.mark}  {distance.second_mm - distance.first_mm:.2f}"
        width = text_width(words, SMALL, bold=True) + 1.5
        middle = (first + second) / 2 + 0.18 * (second - first)
        pen.box(middle - width / 2, y - 1.6, width, 3.2)
        pen.text(middle, y + 1.05, words, SMALL, anchor="middle", bold=True)


def _shifts(pen: _Pen, layout: Layout, sheet: Sheet) -> None:
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
        _arrowed(pen, theirs, ours, y) if ours > theirs else _arrowed(pen, ours, theirs, y)
    pen.close()


def _titles(pen: _Pen, layout: Layout, sheet: Sheet) -> None:
    """Title words at both ends of both halves, and the names of the ends."""
    reference = layout.comparison.reference
    for x in (4.2, WIDTH - 2.0):
        for out, words in ((-1, "AS FOUND"), (1, f"REFERENCE rev {shown(reference.revision, 12)}")):
            middle = max(sheet.height / 2 + 3, text_width(words, SMALL, bold=True) / 2 + 1)
            pen.text(x, sheet.centre + out * middle, words, SMALL, anchor="middle", bold=True, turn=-90)


def _ends(pen: _Pen, layout: Layout, top: float) -> float:
    """The names of both ends; returns where the sheet goes on."""
    first, second = (shown(end, 30) for end in layout.comparison.reference.ends)
    pen.text(4, top + 1, f"\u25c0 {first}", SMALL, bold=True)
    pen.text(WIDTH - 4, top + 1, f"{second} \u25b6", SMALL, anchor="end", bold=True)
    return top + 2.5


def _words_below(pen: _Pen, layout: Layout, lines: tuple[str, ...], top: float) -> float:
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
