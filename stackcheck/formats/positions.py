"""Where every key and value of a TOML text stands: path in the tree -> span in the text.

tomllib says what a file means and forgets where it said so. This walks the same text once more, only when something has
to be pointed at, and knows just enough of TOML to keep the place: headings, keys, strings, lists and inline tables. It
reads text that tomllib has accepted, or the sound beginning of one; at the first thing it cannot follow it stops.
"""

from __future__ import annotations

import re

from stackcheck.value import Value

TreePath = tuple[str | int, ...]

_GAP = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_BLANKS = re.compile(r"[ \t]*")
_BARE = r"[A-Za-z0-9_-]+|\"(?:[^\"\\\n]|\\.)*\"|'[^'\n]*'"
_KEY = re.compile(rf"(?:{_BARE})(?:[ \t]*\.[ \t]*(?:{_BARE}))*")
_PIECE = re.compile(_BARE)
_SCALAR = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}|'
    r"'''(?:[^']|'(?!''))*'{3,5}|"
    r'"(?:[^"\\\n]|\\.)*"|'
    r"'[^'\n]*'|"
    r"[^\s,\]}#]+(?: \d[^\s,\]}#]*)?",
    re.DOTALL,
)


class Span(Value):
    """A key (or heading) and its value as offsets into the text; `value` equals `key` for a heading or a list item."""

    key: tuple[int, int]
    value: tuple[int, int]


def positions(text: str) -> dict[TreePath, Span]:
    """The span of everything in the text, in the sequence of the file."""
    return _walked(text).found


def first_twice(text: str) -> tuple[TreePath, Span, Span] | None:
    """The first key or heading that stands a second time: its path and both spans."""
    return _walked(text).twice


def _walked(text: str) -> _Walker:
    walker = _Walker(text)
    try:
        walker.walk()
    except (_Lost, RecursionError):
        pass
    return walker


class _Lost(Exception):
    """The text does not go on as TOML would."""


class _Walker:
    def __init__(self, text: str):
        self.text, self.position = text, 0
        self.found: dict[TreePath, Span] = {}
        self.counts: dict[tuple[str, ...], int] = {}
        self.twice: tuple[TreePath, Span, Span] | None = None

    def walk(self) -> None:
        here: TreePath = ()
        while self.skip(_GAP) < len(self.text):
            if self.text[self.position] == "[":
                here = self.heading()
            else:
                self.pair(here)

    def skip(self, pattern: re.Pattern[str]) -> int:
        self.position = pattern.match(self.text, self.position).end()
        return self.position

    def take(self, pattern: re.Pattern[str]) -> tuple[int, int]:
        match = pattern.match(self.text, self.position)
        if match is None:
            raise _Lost
        self.position = match.end()
        return match.span()

    def expect(self, sign: str) -> None:
        self.skip(_BLANKS)
        if not self.text.startswith(sign, self.position):
            raise _Lost
        self.position += len(sign)

    def heading(self) -> TreePath:
        start = self.position
        is_list = self.text.startswith("[[", start)
        self.expect("[[" if is_list else "[")
        self.skip(_BLANKS)
        names = self.key(self.take(_KEY))
        self.expect("]]" if is_list else "]")
        if is_list:
            self.counts[names] = self.counts.get(names, -1) + 1
        here: TreePath = ()
        for length, name in enumerate(names, start=1):
            here += (name,)
            if names[:length] in self.counts:
                here += (self.counts[names[:length]],)
        span = Span((start, self.position), (start, self.position))
        if is_list:
            self.found.setdefault(names, span)  # the list as a whole stands where its first entry does
        self.keep(here, span)
        return here

    def keep(self, path: TreePath, span: Span) -> None:
        first = self.found.setdefault(path, span)
        if first is not span and first.key != span.key and self.twice is None:
            self.twice = (path, first, span)

    def key(self, span: tuple[int, int]) -> tuple[str, ...]:
        return tuple(piece.strip("\"'") for piece in _PIECE.findall(self.text[slice(*span)]))

    def pair(self, above: TreePath) -> None:
        key = self.take(_KEY)
        path = above + self.key(key)
        self.expect("=")
        self.skip(_BLANKS)
        start = self.position
        self.keep(path, Span(key, key))  # before what stands inside the value; the value's end is known only then
        self.value(path)
        self.found[path] = Span(key, (start, self.position))

    def value(self, path: TreePath) -> None:
        if self.text.startswith("[", self.position):
            self.items(path)
        elif self.text.startswith("{", self.position):
            self.inline_table(path)
        else:
            self.take(_SCALAR)

    def items(self, path: TreePath) -> None:
        self.expect("[")
        index = 0
        while self.skip(_GAP) < len(self.text) and self.text[self.position] != "]":
            start = self.position
            self.value(path + (index,))
            span = (start, self.position)
            self.found[path + (index,)] = Span(span, span)
            index += 1
            self.skip(_GAP)
            if not self.text.startswith(",", self.position):
                break
            self.expect(",")
        self.expect("]")

    def inline_table(self, path: TreePath) -> None:
        self.expect("{")
        while self.skip(_GAP) < len(self.text) and self.text[self.position] != "}":
            self.pair(path)
            self.skip(_GAP)
            if not self.text.startswith(",", self.position):
                break
            self.expect(",")
        self.expect("}")
