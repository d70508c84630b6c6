"""The layout in letters, 80 columns wide: the same parts at the same places, every part at least one column wide.

One column is the same length in both halves, so that a shift shows; thin parts take more than their share and push on
what stands behind them, in both halves alike. What needs more than one strip of 72 columns goes on in a second one
below.
"""

from __future__ import annotations

from bisect import bisect
from collections.abc import Iterable

from stackcheck.drawing.core_outline import core_outline
from stackcheck.drawing.figure import FAR_MM, HOUSING, PIN, SHAFTS, SHELL, Figure
from stackcheck.drawing.picture import FOUND, MISSING, REFERENCE, UNSEEN, Layout, Piece
from stackcheck.drawing.plain_text import shown
from stackcheck.drawing.shapes import SOLID
from stackcheck.drawing.sheet import Sheet, bodies, sheet_for

COLUMNS, EDGE = 72, 4
ROWS = 6
_HATCH = ("/", "\\", "x", "%")


def terminal(layout: Layout) -> str:
    """Both halves between their titles, strip by strip."""
    sheet = sheet_for(layout)
    columns = _Columns(layout)
    upper, lower = (_half(layout, sheet, columns, half) for half in (FOUND, REFERENCE))
    above, below = (_numbers(layout, columns, half) for half in (FOUND, REFERENCE))
    strips = []
    for start in range(0, columns.total, COLUMNS):
        end = min(start + COLUMNS, columns.total)
        strips.append("\n".join(_strip(layout, above, upper, below, lower, start, end)))
    return "\n\n".join(strips) + "\n"


class _Columns:
    """Which column each face stands in, the same for both halves."""

    def __init__(self, layout: Layout) -> None:
        self.layout = layout
        figures = bodies(layout)
        window = layout.window or (-FAR_MM, FAR_MM)
        spans = [
            (max(figure.first_mm, window[0]), min(figure.second_mm, window[1]), _least(figure)) for figure in figures
        ]
        spans += [(*figure.reach_mm, 1) for figure in figures if figure.reach_mm and layout.window is None]
        spans += [(gap.first_mm, gap.second_mm, 1) for gap in layout.gaps if gap.second_mm > gap.first_mm + 1e-6]
        self.edges = sorted({round(edge, 6) for first, second, _ in spans for edge in (first, second)}) or [0.0, 1.0]
        high = COLUMNS / max(self.edges[-1] - self.edges[0], 1e-6)
        ending: dict[float, list[tuple[float, int]]] = {}
        for first, second, least in spans:
            ending.setdefault(round(second, 6), []).append((round(first, 6), least))
        self.at = self._set(high, ending)
        for _ in range(20):  # the largest scale that keeps to one strip; without one, the smallest
            if self.at[self.edges[-1]] <= COLUMNS:
                break
            high *= 0.85
            self.at = self._set(high, ending)
        self.total = max(self.at[self.edges[-1]], 1)

    def _set(self, scale: float, ending: dict[float, list[tuple[float, int]]]) -> dict[float, int]:
        at: dict[float, int] = {}
        last = 0
        for edge in self.edges:
            wanted = [at[first] + least for first, least in ending.get(edge, ()) if first in at and first < edge]
            last = max([last, round((edge - self.edges[0]) * scale), *wanted])
            at[edge] = last
        return at

    def span(self, first: float, second: float) -> tuple[int, int]:
        start, end = self._column(first), self._column(second)
        return start, max(end, start + 1)

    def _column(self, along: float) -> int:
        spot = bisect(self.edges, along)
        return self.at[min(self.edges[max(0, spot - 1) : spot + 1], key=lambda edge: abs(edge - along))]


def _least(figure: Figure) -> int:
    return (
        3
        if "bearing" in figure.kind
        else 2
        if figure.kind == "seal" or figure.fixed and figure.outer_mm >= FAR_MM
        else 1
    )


def _half(layout: Layout, sheet: Sheet, columns: _Columns, half: str) -> list[list[str]]:
    """Rows of letters from the outermost radius to the centre line."""
    pitch = (sheet.cap_mm - sheet.hollow_mm) / ROWS
    radii = [sheet.hollow_mm + (ROWS - row - 0.5) * pitch for row in range(ROWS)]
    grid = [[" "] * columns.total for _ in radii]
    if not sheet.hollow_mm:
        _draw_core(layout, columns, half, radii, grid)
    for piece in sorted(
        layout.half(half), key=lambda piece: (piece.style == MISSING, piece.figure.role == PIN, -piece.figure.outer_mm)
    ):
        if piece.drawn.shapes:
            _draw(piece, columns, half, radii, grid)
    return grid


def _draw_core(layout: Layout, columns: _Columns, half: str, radii: list[float], grid: list[list[str]]) -> None:
    outline = core_outline(layout, half)
    for (first, radius), (second, _) in zip(outline, (*outline[1:], (FAR_MM, 0.0))):
        start, end = columns.span(first, min(second, columns.edges[-1]))
        start = 0 if first == outline[0][0] else start
        row = next((index for index, each in enumerate(radii) if each <= radius), len(radii) - 1)
        for column in range(start, min(end, columns.total)):
            grid[row][column] = "="


def _draw(piece: Piece, columns: _Columns, half: str, radii: list[float], grid: list[list[str]]) -> None:
    figure = piece.figure
    first, second = (
        figure.reach_mm if figure.role == HOUSING and figure.reach_mm else (figure.first_mm, figure.second_mm)
    )
    start, end = columns.span(first, second)
    rows = [
        row for row, radius in enumerate(radii) if figure.inner_mm <= radius <= max(_top_of(piece), figure.outer_mm)
    ]
    if not rows:
        middle = (figure.inner_mm + figure.outer_mm) / 2
        rows = [min(range(len(radii)), key=lambda row: abs(radii[row] - middle))]
        radii = [middle if row in rows else radius for row, radius in enumerate(radii)]
    centre = rows[len(rows) // 2], (start + end - 1) // 2
    for row in rows:
        for column in range(start, min(end, len(grid[0]))):
            along = first + (column - start + 0.5) / (end - start) * (second - first)
            letter = _letter(piece, half, (row, column) == centre, column == start, column == end - 1)
            if letter and any(_holds(shape.points, along, radii[row]) for shape in _outlines(piece)):
                grid[row][column] = letter


def _top_of(piece: Piece) -> float:
    return max(radius for shape in piece.drawn.shapes for _, radius in shape.points)


def _outlines(piece: Piece) -> Iterable:
    """The outlines that count in letters: of a seal and a bearing only the outermost."""
    return (
        piece.drawn.shapes[:1] if piece.figure.kind == "seal" or "bearing" in piece.figure.kind else piece.drawn.shapes
    )


def _letter(piece: Piece, half: str, is_centre: bool, is_first: bool, is_last: bool) -> str:
    figure = piece.figure
    if piece.style == MISSING:
        return ":"
    if piece.style == UNSEEN:
        return "."
    arrow = {-1: "<", 1: ">"}.get(figure.facing, "")
    if "bearing" in figure.kind:
        return _bearing_letter(piece, half, is_centre, is_first, is_last)
    if figure.kind == "seal":
        return arrow or "?"
    if is_centre and arrow:
        return arrow
    if piece.mark.startswith("X"):
        return "X"
    if figure.fixed and figure.outer_mm >= FAR_MM:
        return "#"
    if figure.kind in ("nut", "bolt"):
        return "@"
    if figure.role in (HOUSING, SHELL):
        return "x"
    if figure.kind in SHAFTS:
        return "="
    if piece.drawn.shapes[0].fill == SOLID:
        return "|"
    return _HATCH[piece.hatch]


def _bearing_letter(piece: Piece, half: str, is_centre: bool, is_first: bool, is_last: bool) -> str:
    if is_first or is_last:
        return "[" if is_first else "]"
    if not is_centre:
        return " "
    leans = piece.figure.facing if half == FOUND else -piece.figure.facing
    return {-1: "\\", 0: "+", 1: "/"}[leans]


def _holds(points: tuple[tuple[float, float], ...], along: float, radius: float) -> bool:
    """Whether an outline holds a point, by the number of its edges that a line outward crosses."""
    inside = False
    for (x1, r1), (x2, r2) in zip(points, (*points[1:], points[0])):
        if (x1 > along) != (x2 > along) and radius < r1 + (along - x1) * (r2 - r1) / (x2 - x1):
            inside = not inside
    return inside


def _numbers(layout: Layout, columns: _Columns, half: str) -> list[list[str]]:
    """Rows of item marks, the nearest to the picture first; a mark that stands farther out has a line to its part."""
    rows: list[list[str]] = [[" "] * (columns.total + 4) for _ in range(5)]
    labels = sorted(
        (label for label in layout.labels if label.half == half and label.mark),
        key=lambda label: label.first_mm + label.second_mm,
    )
    for label in labels:
        start, end = columns.span(label.first_mm, label.second_mm)
        mark = label.mark.split(" ")[0].rstrip("~")
        middle = (start + end - 1) // 2
        spots = sorted(range(start, min(end, columns.total)), key=lambda spot: abs(spot - middle))[:9] or [
            columns.total - 1
        ]
        depth, at = next(
            ((depth, at) for depth in range(5) for at in spots if _is_free(rows, depth, at, len(mark))), (5, 0)
        )
        if depth < 5:
            rows[depth][at : at + len(mark)] = mark
            for row in rows[:depth]:
                row[at] = "|"
    return [row for row in rows if any(letter != " " for letter in row)]


def _is_free(rows: list[list[str]], depth: int, at: int, width: int) -> bool:
    return all(each == " " for each in rows[depth][max(0, at - 1) : at + width + 1]) and all(
        row[at] == " " for row in rows[:depth]
    )


def _strip(layout: Layout, above, upper, below, lower, start: int, end: int) -> list[str]:
    revision = shown(layout.comparison.reference.revision, 20)
    ends = [shown(each, 30) for each in layout.comparison.reference.ends]
    width = max(end - start, 44)
    lines = [_both("AS FOUND", width)]
    lines += [_cut(row, start, end) for row in reversed(above)]
    lines += [_cut(row, start, end) for row in upper]
    lines.append(" " * (EDGE - 2) + ("-- . " * 20)[: end - start + 4])
    lines += [_cut(row, start, end) for row in reversed(lower)]
    lines += [_cut(row, start, end) for row in below]
    lines.append(_both(f"REFERENCE rev {revision}", width))
    lines.append(" " * EDGE + f"<- {ends[0]}" + f"{ends[1]} ->".rjust(max(width - len(ends[0]) - 3, len(ends[1]) + 4)))
    return [line.rstrip() for line in lines if line.strip()]


def _cut(row: list[str], start: int, end: int) -> str:
    return " " * EDGE + "".join(row[start : end + (3 if len(row) > end else 0)])


def _both(words: str, width: int) -> str:
    return " " * EDGE + words + words.rjust(width - len(words)) if 2 * len(words) + 2 <= width else " " * EDGE + words
