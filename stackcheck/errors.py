"""Mistakes a person can make in a file or on the command line, as values that say what to mend.

A `Mistake` names file, line, key, what was said and what is wanted; an `InputError` carries all the mistakes of a run,
because somebody who mends one file wants to see them together. Findings about a machine are never errors: see
`stackcheck.model.finding`.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One thing to mend: where it stands, what it is, what is wanted.

    `said` is the offending text as it stands on the line, used to point at it; `key` is the dotted path in the file.
    """

    file: str
    what: str
    wanted: str
    line: int | None = None
    key: str = ""
    said: str = ""
    source_line: str = ""

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        head = f"{place}: {self.what}"
        if not self.source_line:
            return f"{head}\n    {self.wanted}" if self.wanted else head
        number = f"{self.line:>5}"
        text = self.source_line.rstrip().expandtabs(4)
        quoted = text.find(f'"{self.said}"') if self.said else -1
        start = quoted if quoted >= 0 else text.find(self.said) if self.said else -1
        width = len(self.said) + 2 if quoted >= 0 else len(self.said)
        if start < 0:
            start, width = len(text) - len(text.lstrip()), len(text.strip())
        shown, start, width = _window(text, start, max(width, 1))
        pointer = " " * start + "^" * width
        return f"{head}\n{number} | {shown}\n      | {pointer} {self.wanted}"


def _window(text: str, start: int, width: int, room: int = 72) -> tuple[str, int, int]:
    """The part of a long line that holds the mistake, so that one line of a terminal shows it."""
    if len(text) <= room:
        return text, start, width
    left = max(0, min(start - 8, len(text) - room))
    shown = text[left : left + room]
    return shown, start - left, min(width, len(shown) - (start - left))


class InputError(Exception):
    """The input cannot be used; `mistakes` holds every reason found, in the sequence of the file."""

    def __init__(self, mistakes: list[Mistake] | tuple[Mistake, ...], *, consequence: str = "Nothing was compared."):
        self.mistakes = tuple(sorted(mistakes, key=lambda m: (m.file, m.line or 0)))
        self.consequence = consequence
        super().__init__(str(self))

    def __str__(self) -> str:
        count = len(self.mistakes)
        files = sorted({mistake.file for mistake in self.mistakes})
        where = f" in {files[0]}" if len(files) == 1 else f" in {len(files)} files"
        total = f"{count} mistake{'s' if count != 1 else ''}{where}. {self.consequence}"
        return "\n".join([*(str(mistake) for mistake in self.mistakes), total])


class SizeError(ValueError):
    """A size text cannot be read: `said` is the piece that stopped the reading, `wanted` how to write it."""

    def __init__(self, said: str, wanted: str):
        self.said = said
        self.wanted = wanted
        super().__init__(f"{said!r}: {wanted}")
