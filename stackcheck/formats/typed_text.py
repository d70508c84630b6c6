"""One typed line while it is being read: what was understood is crossed out, what is left can be named as typed.

`plain` is the line in the signs that the patterns know (figures for spoken numbers, "1/2" for "½"). Every place of it
remembers the piece of the typed line that it came from, so that nothing typed is lost or shown otherwise than typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from stackcheck.pattern import Pattern

CROSSED = "\x00"
"""What stands in `open` for every sign that has been understood: no pattern crosses it."""
_WORTHLESS = Pattern(r"[\s,;:.()\-–+&\x00]*|\s*(?:and|with|x|the)\s*", re.IGNORECASE)


class TypedText:
    """`plain` never changes; `open` is `plain` with everything understood crossed out."""

    def __init__(self, typed: str, replaced: Iterable[tuple[int, int, str]] = ()):
        """Take a line and the pieces of it (start, end, plain words) that the patterns read in other words."""
        self.typed = typed
        plain: list[str] = []
        self._origin: list[tuple[int, int]] = []
        here = 0
        for start, end, words in (*replaced, (len(typed), len(typed), "")):
            for place in range(here, start):
                plain.append(" " if typed[place] in "\x00\t\n\r" else typed[place])
                self._origin.append((place, place + 1))
            plain.extend(words)
            self._origin.extend([(start, end)] * len(words))
            here = end
        self.plain = "".join(plain)
        self.open = self.plain

    def cross(self, start: int, end: int) -> None:
        self.open = self.open[:start] + CROSSED * (end - start) + self.open[end:]

    def take(self, pattern: Pattern | re.Pattern[str]) -> re.Match[str] | None:
        """The first piece still open that matches, crossed out."""
        match = pattern.search(self.open)
        if match:
            self.cross(*match.span())
        return match

    def as_typed(self, start: int, end: int) -> str:
        """The typed words of a piece of `plain`, breaks around them dropped."""
        if start >= end:
            return ""
        return self.typed[self._origin[start][0] : self._origin[end - 1][1]].strip(" ,;\t\n\r\x00")

    def place_typed(self, start: int, end: int) -> tuple[int, int]:
        """Where a piece of `plain` stands in the typed line."""
        return self._origin[start][0], self._origin[end - 1][1]

    def left(self, start: int, end: int) -> list[str]:
        """What is still open between two places, as typed, piece by piece; bare signs of punctuation are nothing."""
        pieces = []
        for match in re.finditer(rf"[^{CROSSED}]+", self.open[start:end]):
            for piece in re.finditer(r"[^,;]+", match.group()):
                if not _WORTHLESS.fullmatch(piece.group()):
                    words = self.as_typed(start + match.start() + piece.start(), start + match.start() + piece.end())
                    pieces.append(words.strip(" -–:").removesuffix("."))
        return pieces
