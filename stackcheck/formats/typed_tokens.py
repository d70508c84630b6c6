"""Takes the words of a part typed by hand apart: figures, units, ways of measuring, names of sizes, marks, other words.

Only what a piece is, never what it means. Anything else that has a figure in it comes out as one whole word, so that
whoever refuses it can name it as it was typed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from stackcheck.formats.words import DESIGNATION, SIZES_ALSO_CALLED, designation_in
from stackcheck.model.part import SIZE_NAMES
from stackcheck.pattern import Pattern
from stackcheck.units import TYPED_HOW, plain_signs
from stackcheck.value import Value

_BY_KIND = {"thick": "thickness", "thickness": "thickness", "high": "height", "height": "height", "wide": "width"}
SIZE_WORDS = {
    name.replace("_", " "): size
    for name, size in (
        {size: size for size in SIZE_NAMES} | SIZES_ALSO_CALLED | {"hole": "bore", "outer": "outside"} | _BY_KIND
    ).items()
}
"""What people type for a size, with a blank or a _ between words -> its name;
width, height and thickness by the kind.
"""
MARKS = ("number", "marked", "marking")

_FIGURE_STARTS = r"[Øø⌀]?\s*(?:[\d?]|[.,]\d)"
_CROSS = rf"[x×*](?=\s*{_FIGURE_STARTS})"
_UNIT = rf"(?:mm|cm|inch(?:es)?|in|thou|mils?|µm|um|kg|\"|'')(?!(?!{_CROSS})[A-Za-zµ])"
_FIGURE = (
    rf"[Øø⌀]?\s*(?:\d+[ -]\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|[.,]\d+|\?)(?![.,/-]?\d)(?!(?!{_UNIT}|{_CROSS})[A-Za-zµ])"
)
_NAME = (
    rf"(?:{'|'.join(sorted(SIZE_WORDS, key=len, reverse=True)).replace(' ', '[ _]')})(?=\s*[=:]?\s*{_FIGURE_STARTS})"
)


def _any(**patterns: str) -> Pattern:
    return Pattern("|".join(f"(?P<{name}>{pattern})" for name, pattern in patterns.items()), re.IGNORECASE)


_KINDS = (
    _any(
        blank=r"\s+|\.(?=\s|$)",
        comma=r"[,;](?!\d)|[,;](?=\d+[x×*])",
        name=rf"\b{_NAME}",
        equals=rf"[=:](?=\s*{_FIGURE_STARTS})",
        other_name=r"[\w-]+\s*=\s*[^\s,;]*",
        mark=r"(?:marked|stamped|number)\s+(?![^\s,;]*\d\s*[x×*]\s*\d)[^\s,;]*\d[^\s,;]*",
    ),
    TYPED_HOW,
    _any(
        plus_minus=r"±|\+ ?/ ?-|\+-",
        to=r"\.\.\.?",
        figure=_FIGURE,
        cross=_CROSS,
        unit=_UNIT,
        word=r"[\d.,;](?:[^\s,;]|[,;](?=\d))*|[^\s,;]+",
    ),
)
"""The kinds of pieces, the first that fits counts; the last fits anything."""
_CALLED = {"other_name": "other name", "typed": "how"}
_FOLLOWED_BY_CROSS = Pattern(rf"\s*{_CROSS}", re.IGNORECASE)


class Token(Value):
    """`kind` is one of comma, name, other name, mark, how, plus_minus, to, figure, cross, unit, designation, word."""

    kind: str
    text: str


def size_called(name: str) -> str:
    """Our name of a size for what somebody typed, "" where it is none."""
    return SIZE_WORDS.get(name.strip().lower().replace("_", " "), "")


def tokens(words: Sequence[str]) -> tuple[Token, ...]:
    """The pieces of the words in their sequence. A mark given as one word ("number=FT 1207") keeps its blanks.

    >>> [token.kind for token in tokens(["washer", "28x1/2", "mic"])]
    ['word', 'figure', 'cross', 'figure', 'how']
    """
    found: list[Token] = []
    between: list[str] = []
    for word in words:
        if word.partition("=")[0].strip().lower() in MARKS and word.count("=") == 1:
            found += [*_of_text(" ".join(between)), Token("other name", word)]
            between = []
        else:
            between.append(word)
    return (*found, *_of_text(" ".join(between)))


def _of_text(text: str) -> list[Token]:
    text = plain_signs(text)
    found: list[Token] = []
    position = 0
    while position < len(text):
        if number := _designation(text, position, found[-1].kind if found else ""):
            found.append(Token("designation", number))
            position += len(number)
            continue
        match = _match(text, position)
        kind = _CALLED.get(match.lastgroup, match.lastgroup)
        if kind not in ("blank", "equals"):
            found.append(Token(kind, match.group().strip().rstrip(".:!") or match.group()))
        position = match.end()
    return found


def _match(text: str, position: int) -> re.Match[str] | None:
    """The piece that starts here, None at the end."""
    return next((match for kind in _KINDS if (match := kind.match(text, position))), None)


def _designation(text: str, position: int, before: str) -> str:
    """The designation of a standard part that starts here, "" where none does: behind a name or an x it is a size."""
    match = DESIGNATION.match(text, position)
    if match is None or before in ("name", "cross", "figure", "to", "plus_minus"):
        return ""
    if match.group().isdigit() and (_FOLLOWED_BY_CROSS.match(text, match.end()) or len(match.group()) < 4):
        rest = _match(text, match.end())
        after = _match(text, rest.end()) if rest and rest.lastgroup == "blank" else rest
        if after and after.lastgroup in ("figure", "cross", "unit", "typed"):
            return ""
    return match.group() if designation_in(match.group()) else ""
