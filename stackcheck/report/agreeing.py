"""What was looked at and agrees: a result too. Who reads only of differences
cannot tell it from what nobody looked at.
"""

from __future__ import annotations

from stackcheck.present.blocks import Block, Rows, Text
from stackcheck.present.names import counted
from stackcheck.present.verdict_words import point_words
from stackcheck.present.words import limits_words, reading_words, reference_words
from stackcheck.result.comparison import Comparison
from stackcheck.result.points import AGREES, FACING, GAP, PRESENCE, Point

KINDS = ((PRESENCE, "the part in its place"), (FACING, "which way it points"), ("size", "size"), (GAP, "gap"))


def agreeing(comparison: Comparison) -> tuple[Block, ...]:
    """The count, and every point that agrees by name, sizes with their reading and limits."""
    points = comparison.points_in(AGREES)
    count = (
        f"{len(points)} of {counted(len(comparison.points), 'point')} looked at and in "
        f"agreement with {reference_words(comparison.reference)}"
    )
    if not points:
        return (Text(f"{count}."),)
    rows = [
        (words, "; ".join(_words(comparison, point) for point in points if _kind(point) == kind))
        for kind, words in KINDS
    ]
    return (Text(f"{count}:"), Rows(("what", "of"), tuple(row for row in rows if row[1]), wraps=(1,)))


def _kind(point: Point) -> str:
    return point.what if point.what in (PRESENCE, FACING, GAP) else "size"


def _words(comparison: Comparison, point: Point) -> str:
    words = point_words(comparison.reference, point)
    if _kind(point) != "size" or point.reading is None:
        return words
    size = comparison.reference.part_at(point.place).size(point.what)
    return f"{words} {reading_words(point.reading)}, limits {limits_words(size.least_mm, size.most_mm)}"
