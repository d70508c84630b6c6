"""Mistakes a person can make in a file or on the command line, as values that say what to mend.

A `Mistake` names file, line, key, what was said and what is wanted; an `InputError` carries all the mistakes of a run,
because somebody who mends one file wants to see them together. Findings about a machine are never errors: see
`stackcheck.model.finding`.
"""

from __future__ import annotations

from stackcheck.paragraph import lines_of
from stackcheck.value import Value


class Mistake(Value, kw_only=True):
    """One thing to mend: where it stands, what it is, what is wanted.

    `key` is the dotted path in the file and `said` the offending text. `column` counts from 0 on `source_line`; what
    stands there for `width` characters is pointed at, the whole line where no column is known.
    """

    file: str
    what: str
    wanted: str
    line: int | None = None
    key: str = ""
    said: str = ""
    source_line: str = ""
    column: int | None = None
    width: int = 1

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        head = _printable(f"{place}: {self.what}")
        if not self.source_line.strip():
            return "\n".join([head, *_wrapped(self.wanted, "    ", _TERMINAL)])
        text = self.source_line.rstrip()
        start, width = self.column, self.width
        if start is None:
            start, width = len(text) - len(text.lstrip()), len(text.strip())
        shown, start, width = _window(_printable(text), start, width)
        margin, pointer = "      | ", " " * start + "^" * width
        lines = [head, f"{self.line or 0:>5} | {shown}"]
        if len(margin) + len(pointer) + 1 + len(self.wanted) <= _WIDEST:
            return "\n".join([*lines, f"{margin}{pointer} {_printable(self.wanted)}"])
        return "\n".join([*lines, margin + pointer, *_wrapped(self.wanted, margin)])


_WIDEST = 100
_TERMINAL = 80
"""The remedy of what has no line of a file to point at is as wide as the answers are."""
_MOST_SHOWN = 60


def _printable(text: str) -> str:
    """The text with a blank for every tab and a mark for everything else that a terminal would obey."""
    return "".join(
        sign if sign.isprintable() else " " if sign == "\t" else "\N{REPLACEMENT CHARACTER}" for sign in text
    )


def _wrapped(text: str, margin: str, width: int = _WIDEST) -> list[str]:
    return lines_of(_printable(text), width, first=margin, then=margin)


def _window(text: str, start: int, width: int, room: int = 72) -> tuple[str, int, int]:
    """The part of a long line that holds the mistake, so that one line of a terminal shows it."""
    left = max(0, min(start - 8, len(text) - room))
    shown = text[left : left + room]
    start = min(start - left, room - 1)
    return shown, start, max(1, min(width, room - start))


class InputError(Exception):
    """The input cannot be used; `mistakes` holds every reason found, in the sequence of the file."""

    def __init__(self, mistakes: list[Mistake] | tuple[Mistake, ...], *, consequence: str = "Nothing was compared."):
        self.mistakes = tuple(
            sorted(dict.fromkeys(mistakes), key=lambda mistake: (mistake.file, mistake.line or 0, mistake.column or 0))
        )
        self.consequence = consequence
        super().__init__(str(self))

    def __str__(self) -> str:
        count = len(self.mistakes)
        files = sorted({mistake.file for mistake in self.mistakes})
        where = f" in {files[0]}" if len(files) == 1 else f" in {len(files)} files"
        total = f"{count} mistake{'s' if count != 1 else ''}{where}. {self.consequence}"
        more = [f"... and {count - _MOST_SHOWN} more"] if count > _MOST_SHOWN else []
        return "\n".join([*map(str, self.mistakes[:_MOST_SHOWN]), *more, total])


class SizeError(ValueError):
    """A size text cannot be read: `said` is the piece that stopped the reading, `wanted` how to write it."""

    def __init__(self, said: str, wanted: str):
        self.said = said
        self.wanted = wanted
        super().__init__(f"{said!r}: {wanted}")
