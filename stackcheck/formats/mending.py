"""Where a weak place of a reference stands in its file: from what it is about to a line.

("parts", "collar", "length"), ("places", "seal@left"), ("limits", "seat gap"), ("joints", "axle nut", "torque"): the
same names that the remarks of a file go by. Where the thing itself has no line, the line of what it belongs to counts.
"""

from __future__ import annotations

from pathlib import Path

from stackcheck.formats.remarks import named_path
from stackcheck.formats.source import Reader


class Lines:
    """The lines of one reference file, found when the first is asked for."""

    def __init__(self, path: Path | str):
        self.path = path
        self._lines: dict[tuple[str, ...], int] | None = None

    def of(self, about: tuple[str, ...]) -> int | None:
        if self._lines is None:
            self._lines = self._read()
        for candidate in _candidates(about):
            if candidate in self._lines:
                return self._lines[candidate]
        return None

    def _read(self) -> dict[tuple[str, ...], int]:
        reader = Reader(Path(self.path))
        lines: dict[tuple[str, ...], int] = {}
        for path in reader.positions:
            for name in named_path(path, reader.tree):
                lines.setdefault(name, reader.line_of(path))
        return lines


def _candidates(about: tuple[str, ...]):
    yield about
    if about[0] == "places":
        part = about[1].partition("@")[0]
        yield from (("places", part), ("parts", part))
    yield from (about[:length] for length in range(len(about) - 1, 0, -1))
