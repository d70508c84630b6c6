"""How many pieces a typed line says: "2 washers", "3 off", "shims x 4", "11 1/4 balls".

A figure is a count where it stands before the thing and the thing is named in the plural, or where it is said to be
one. What is no count stays among the figures, to be read as a size.
"""

from __future__ import annotations

import re

from stackcheck.formats.bench_figures import Figure, figures_in
from stackcheck.formats.typed_text import TypedText
from stackcheck.pattern import Pattern

_NOTHING = Pattern(r"0*[.,]?0*")
"""No size of a part: a measured nought stays in the note."""
_COUNT_BEHIND = Pattern(r"(?:\s*(?:x|off|of|pcs|pieces)\b)?[\s\x00]+(?:[^\W\d][\w-]*[\s\x00]+){0,3}?$", re.IGNORECASE)
_COUNT_LAST = Pattern(
    r"(?:(?<![\d ])\s+x\s*(?P<count>\d{1,3})(?![\w/]|[.,]\d|\s*x\b)"
    r"|(?<![\w.,/])(?P<off>\d{1,3})\s*(?:off|pcs|pieces)\b)",
    re.IGNORECASE,
)
_BALLS_TOGETHER = Pattern(r"(?<![\w./-])(?P<count>\d{1,3}) (?=\d+/\d+)")


def sizes_in(text: TypedText) -> list[Figure]:
    """The figures that can be a size or a count."""
    return [figure for figure in figures_in(text) if not _NOTHING.fullmatch(figure.digits)]


def pieces_said(
    text: TypedText, figures: list[Figure], *, kind: str, thing: tuple[int, int], plural: bool
) -> tuple[int, list[Figure]]:
    """How many pieces, 0 where nothing says so, and the figures without it;
    `thing` is where what is counted is named.
    """
    start, end = thing
    if kind == "loose balls" and (match := _BALLS_TOGETHER.search(text.open)) and int(match["count"]) > 4:
        text.cross(*match.span("count"))
        return int(match["count"]), sizes_in(text)
    for figure in figures:
        between = text.open[figure.end : start]
        if figure.is_whole and figure.end <= start and not figure.joined and int(figure.digits) > 0:
            explicit = re.match(r"\s*(?:x|off|of|pcs|pieces)\b", between, re.IGNORECASE)
            if (plural or explicit or figure.digits == "1") and _COUNT_BEHIND.fullmatch(between):
                text.cross(figure.start, figure.end + (explicit.end() if explicit else 0))
                return int(figure.digits), [one for one in figures if one is not figure]
    if (match := _COUNT_LAST.search(text.open, end)) and re.fullmatch(r"[^\d,;]*", text.open[end : match.start()]):
        text.cross(*match.span())
        return max(1, int(match["count"] or match["off"])), [
            figure for figure in figures if figure.end <= match.start() or figure.start >= match.end()
        ]
    return 0, figures
