"""The two halves of the picture as SVG: the core, each part with its filling and feature, gaps,
and where it is cut off.

Above the centre line as found, below it the reference. Filling and hatching tell parts apart and never tell good from
bad; a missing part is a dashed outline, one that nobody looked at an empty one.
"""

from __future__ import annotations

from stackcheck.drawing.core_outline import core_outline
from stackcheck.drawing.figure import FAR_MM
from stackcheck.drawing.pen import THICK, THIN, Pen, arrowed, broken
from stackcheck.drawing.picture import FOUND, MISSING, NORMAL, REFERENCE, UNSEEN, Layout, Piece
from stackcheck.drawing.shapes import HATCHED, SOLID, Shape
from stackcheck.drawing.sheet import Sheet

LEAST_WIDE = 0.45
"""A part is drawn no thinner than this; up to `SOLID_UNDER` it is filled solid."""
SOLID_UNDER = 1.3


def halves(pen: Pen, layout: Layout, sheet: Sheet) -> None:
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
                broken(pen, (x, sheet.y(half, 0.0)), (x, sheet.y(half, radius)))
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
                arrowed(pen, sheet.x(half, gap.first_mm), sheet.x(half, gap.second_mm), sheet.y(half, gap.radius_mm))
        pen.close()
    pen.path(((start - 3, sheet.centre), (end + 3, sheet.centre)), width=THIN, dash="6 1 0.6 1")
    if sheet.hollow_mm:
        for half in (FOUND, REFERENCE):
            y = sheet.y(half, sheet.hollow_mm * 0.75)
            broken(pen, (start + 3, y), (end - 3, y))


def _cuts(pen: Pen, layout: Layout, sheet: Sheet, half: str) -> None:
    """Waved lines across the half where the picture is cut off or where repeats are folded away."""
    high, low = sheet.y(half, FAR_MM), sheet.y(half, sheet.hollow_mm)
    spots = [
        (sheet.x(half, fold.first_mm) + sheet.x(half, fold.second_mm)) / 2 for fold in layout.folds if fold.half == half
    ]
    for spot in spots:
        for side in (-0.9, 0.9):
            broken(pen, (spot + side, high), (spot + side, low))
    if layout.window is not None:
        for edge in (sheet.left, sheet.left + (sheet.end_mm - sheet.start_mm) * sheet.along):
            broken(pen, (edge, high), (edge, low))


def _piece(pen: Pen, piece: Piece, sheet: Sheet, half: str) -> None:
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
        broken(pen, (sheet.x(half, piece.figure.first_mm), y), (sheet.x(half, piece.figure.second_mm), y))
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


def _facing_arrow(pen: Pen, x: float, y: float, facing: int) -> None:
    pen.path(
        ((x - 1.1 * facing, y - 0.9), (x + 1.1 * facing, y), (x - 1.1 * facing, y + 0.9)),
        closed=True,
        fill="#000",
        width=0.1,
    )
