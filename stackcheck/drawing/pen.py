"""The pen that writes SVG: lines, outlines, words and the waved and arrowed lines made of them, in mm of paper.

All but the frame of the document is written here, so that no text reaches the file unescaped.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from stackcheck.drawing.plain_text import shown

THICK, THIN = 0.45, 0.18


class Pen:
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
            f'<text x="{x:.3f}" y="{y:.3f}" font-size="{size}" '
            f'text-anchor="{anchor}"{weight}{turned}{named}>{escape(shown(words))}</text>'
        )

    def open(self, kind: str) -> None:
        self.parts.append(f'<g id="{self.name}-{kind}">')

    def close(self) -> None:
        self.parts.append("</g>")


def broken(pen: Pen, start: tuple[float, float], end: tuple[float, float]) -> None:
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


def arrowed(pen: Pen, first: float, second: float, y: float) -> None:
    """A dimension line between two faces."""
    pen.path(((first, y), (second, y)), width=THIN)
    for x, turn in ((first, 1.0), (second, -1.0)):
        pen.path(((x, y), (x + 1.3 * turn, y - 0.4), (x + 1.3 * turn, y + 0.4)), closed=True, fill="#000", width=0.05)
