"""From mm of the machine to mm of paper: one scale for both halves, and what has to give way on a sheet of A4.

Along and across the axis the scale is the same wherever the picture allows it; where it does not (a shaft a hundred
times as long as it is thick), it is larger across, and the sheet says so. Parts that reach far beyond the others are
broken off; a hollow assembly is cut off inside its bore.
"""

from __future__ import annotations

from stackcheck.drawing.figure import CORE, DISTANCE, FAR_MM, HIDDEN, SHAFTS, WITHIN, Figure
from stackcheck.drawing.picture import FOUND, Fold, Layout
from stackcheck.value import Value

WIDTH = 180.0
ROOM_ALONG, ROOM_ACROSS, LEAST_ACROSS = 146.0, 50.0, 20.0
LEAST_ALONG = 60.0
HOLLOW = 7.0
"""What is left open on each side of the centre line where the bore is cut off [mm of paper]."""


class Sheet(Value, kw_only=True):
    """Scales and offsets [mm of paper]; `hollow_mm` is the radius that the picture begins at,
    `cap_mm` where it is broken off.
    """

    along: float
    across: float
    start_mm: float
    end_mm: float
    hollow_mm: float
    cap_mm: float
    left: float
    centre: float
    folds: tuple[Fold, ...] = ()

    def x(self, half: str, along_mm: float) -> float:
        shortened = min(max(_shortened(self.folds, half, along_mm), self.start_mm), self.end_mm)
        return self.left + (shortened - self.start_mm) * self.along

    def y(self, half: str, radius_mm: float) -> float:
        across = self.depth(radius_mm)
        return self.centre - across if half == FOUND else self.centre + across

    def depth(self, radius_mm: float) -> float:
        """How far from the centre line a radius is drawn."""
        radius = min(max(radius_mm, 0.0), self.cap_mm)
        if not self.hollow_mm:
            return radius * self.across
        return (
            HOLLOW + (radius - self.hollow_mm) * self.across
            if radius > self.hollow_mm
            else HOLLOW * radius / self.hollow_mm
        )

    @property
    def height(self) -> float:
        """Of one half."""
        return self.depth(self.cap_mm)


def _shortened(folds: tuple[Fold, ...], half: str, along_mm: float) -> float:
    """Along the axis with what is folded away taken out."""
    taken = 0.0
    for fold in folds:
        if fold.half != half or along_mm <= fold.first_mm:
            continue
        inside = min(along_mm, fold.second_mm) - fold.first_mm
        taken += inside * (1 - fold.width_mm / (fold.second_mm - fold.first_mm))
    return along_mm - taken


def bodies(layout: Layout) -> list[Figure]:
    return [piece.figure for piece in layout.pieces if piece.figure.role not in (CORE, DISTANCE, HIDDEN, WITHIN)]


def sheet_for(layout: Layout, centre: float = 0.0) -> Sheet:
    """The largest scale that fits, the same for both halves."""
    drawn = bodies(layout)
    start, end = layout.window or _extent(layout)
    length = max(end - start, 1e-3)
    outers = sorted(figure.outer_mm for figure in drawn if figure.outer_mm < FAR_MM) or [1.0]
    hollow = _hollow(layout, drawn, outers)
    most, usual = outers[-1] - hollow, outers[int(0.72 * (len(outers) - 1))] - hollow
    along = ROOM_ALONG / length
    across = min(along, ROOM_ACROSS / most)
    if across < 0.7 * min(along, ROOM_ACROSS / usual):
        across = min(along, ROOM_ACROSS / usual)  # what reaches beyond is broken off
    cap = min(1.04 * outers[-1], hollow + ROOM_ACROSS / across)
    if any(figure.outer_mm >= FAR_MM for figure in drawn):
        cap = min(1.15 * outers[-1], hollow + 1.1 * ROOM_ACROSS / across)
    along = max(across, LEAST_ALONG / length) if across < along else along
    along = min(along, ROOM_ALONG / length)
    if (cap - hollow) * across < LEAST_ACROSS:
        across = LEAST_ACROSS / (cap - hollow)
    return Sheet(
        along=along, across=across, start_mm=start, end_mm=end, hollow_mm=hollow, cap_mm=cap,
        left=(WIDTH - length * along) / 2, centre=centre, folds=layout.folds,
    )  # fmt: skip


def _extent(layout: Layout) -> tuple[float, float]:
    edges = [
        _shortened(layout.folds, piece.half, edge)
        for piece in layout.pieces
        if piece.figure.role not in (CORE, DISTANCE, HIDDEN, WITHIN)
        for edge in (piece.figure.first_mm, piece.figure.second_mm, *(piece.figure.reach_mm or ()))
    ]
    return min(edges, default=0.0), max(edges, default=1.0)


def _hollow(layout: Layout, drawn: list[Figure], outers: list[float]) -> float:
    """The radius to begin at: above nothing only where no shaft runs through and all bores are wide."""
    if any(piece.figure.kind in SHAFTS or piece.figure.kind in ("bolt", "nut") for piece in layout.pieces):
        return 0.0
    inner = min((figure.inner_mm for figure in drawn), default=0.0)
    return 0.94 * inner if inner > 0.4 * outers[-1] else 0.0
