"""The journal of a job: an append-only TOML file, one `[[event]]` per answer, on disk before the next question.

Every event ends with a line `whole = "..."`, the CRC-32 of its own text. An event without it was torn by a crash: it is
cut off, kept in a file beside the journal, and reported. Events that were accepted together (a pasted note) carry
`through`, the number of the last of them, and stand or fall together. Two programs may write at once: each takes the
lock, reads what the other added, and only then numbers its own. What an event means is told in `stackcheck.job`.
"""

from __future__ import annotations

import os
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from copy import copy
from pathlib import Path
from typing import Any
from zlib import crc32

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.new_file import table_text

JOURNAL_FILE = "journal.toml"
HEAD = 'kind = "journal"\nformat = 1\n'
DAMAGED = "damaged"
_EVENT = "[[event]]"
_STARTS = re.compile(rb"^\[\[event\]\]\n", re.MULTILINE)
_CLOSING = re.compile(rb'^whole = "([0-9a-f]{8})"\n\n?', re.MULTILINE)

Table = dict[str, Any]


class Journal:
    """One journal as far as it has been read: `events` as tables, and what had to be reported about the file."""

    def __init__(self, path: Path):
        self.path = path
        self.events: list[Table] = []
        self.reports: list[str] = []
        self._read_to = 0
        self._sum = 0  # CRC-32 of what was read
        self._stamp: tuple[int, ...] = ()

    @classmethod
    def new(cls, folder: Path, first: Mapping[str, Any]) -> Journal:
        """Begin a journal with its first event, in a folder that holds none;
        the folder is made where it is not there yet.

        Raises:
            InputError: there is one already, or it cannot be written.
        """
        path, beside = folder / JOURNAL_FILE, folder / f"{JOURNAL_FILE}.{os.getpid()}"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            with beside.open("wb") as file:
                file.write((HEAD + "\n" + _block({"number": 1, **first})).encode())
                file.flush()
                os.fsync(file.fileno())
            try:
                os.link(beside, path)  # whole or not at all, and never over another one
            finally:
                beside.unlink()
            _flush_folder(folder)
        except FileExistsError:
            raise _refusal(path, "there is a job already", "open it, or choose another name") from None
        except OSError as problem:
            raise _refusal(path, f"cannot be written ({problem.strerror})", "look at who may write there") from None
        return cls.open(folder)

    @classmethod
    def open(cls, folder: Path) -> Journal:
        """Read the journal of a folder; a torn end is cut off and reported."""
        journal = cls(folder / JOURNAL_FILE)
        journal.refresh()
        return journal

    def copy(self) -> Journal:
        """Another one that has read as far, and goes on without this one."""
        own = copy(self)
        own.events, own.reports = [*self.events], [*self.reports]
        return own

    def goes_on(self) -> bool:
        """Whether what was read still stands there: the file was added to,
        but neither changed by hand nor exchanged.
        """
        try:
            if stamp_of(os.stat(self.path)) == self._stamp:
                return True
            with self.path.open("rb") as file:
                return crc32(file.read(self._read_to)) == self._sum
        except OSError:
            return False

    def refresh(self) -> list[Table]:
        """Read what other programs have added since; returns the new events."""
        try:
            with self._locked(os.O_RDWR) as file:
                return self._read_on(file, may_cut=True)
        except PermissionError:
            with self._locked(os.O_RDONLY) as file:
                return self._read_on(file, may_cut=False)

    def append(self, tables: Sequence[Mapping[str, Any]]) -> list[Table]:
        """Number the events, put them on disk together, and return them as they now stand in the journal.

        Raises:
            InputError: they could not be written; then none of them is in the journal.
        """
        with self._locked(os.O_RDWR) as file:
            self._read_on(file, may_cut=True)
            first, size = len(self.events) + 1, os.fstat(file).st_size
            last = first + len(tables) - 1
            together = {"through": last} if len(tables) > 1 else {}
            text = "".join(_block({"number": first + index, **table, **together}) for index, table in enumerate(tables))
            try:
                _write(file, text.encode())
            except OSError as problem:
                os.ftruncate(file, size)
                wanted = "make room or look at who may write there, then say it again"
                raise _refusal(self.path, f"the last answer could not be saved ({problem.strerror})", wanted) from None
            return self._read_on(file, may_cut=False)

    @contextmanager
    def _locked(self, flags: int) -> Iterator[int]:
        try:
            file = os.open(self.path, flags | os.O_APPEND)
        except FileNotFoundError:
            raise _refusal(self.path, "there is no journal here", "name the folder of a job") from None
        except PermissionError:
            if flags & os.O_RDWR:
                raise
            raise _refusal(self.path, "cannot be read", "look at who may read it") from None
        try:
            _lock(file)
            yield file
        finally:
            os.close(file)  # closing gives the lock back

    def _read_on(self, file: int, *, may_cut: bool) -> list[Table]:
        size = os.fstat(file).st_size
        if size < self._read_to:
            raise _refusal(self.path, "the journal has become shorter", "somebody cut it: look at it before going on")
        os.lseek(file, self._read_to, os.SEEK_SET)
        data = b""
        while piece := os.read(file, size - self._read_to - len(data)):
            data += piece
        new, used = self._events_in(data, len(self.events))
        if used < len(data):
            self._report_torn(file, data[used:], self._read_to + used, may_cut)
        self._sum = crc32(data[:used], self._sum)
        self._read_to += used
        self._stamp = stamp_of(os.fstat(file))
        self.events += new
        return new

    def _events_in(self, data: bytes, before: int) -> tuple[list[Table], int]:
        """The whole events at the start of `data`, and how many bytes they take.

        A damaged event that others follow is kept with its text: nothing behind it is lost for its sake.
        """
        starts = [match.start() for match in _STARTS.finditer(data)]
        head = data[: starts[0]] if starts else data
        if self._read_to == 0:
            self._check_head(head)
        events: list[Table] = []
        kept, used, together = 0, len(head), 0
        for start, end in zip(starts, [*starts[1:], len(data)]):
            number = before + len(events) + 1
            table, length = _read_block(data[start:end])
            if table is None and end == len(data):
                break
            if table is None:
                self.reports.append(f"event {number} in {self.path} is damaged; what it says is not counted")
                table = {"number": number, "did": DAMAGED, "text": data[start:end].decode(errors="replace")}
            elif table.pop("changed", False):
                self.reports.append(f"event {number} in {self.path} was changed by hand")
            events.append(table)
            through = table.get("through", 0)
            together = max(together, through if isinstance(through, int) else 0)
            if before + len(events) >= together:
                kept, used = len(events), start + length
        return events[:kept], used

    def _check_head(self, head: bytes) -> None:
        if head.strip() != HEAD.strip().encode():
            raise _refusal(self.path, "this is no journal of a job", f"it starts with {HEAD.splitlines()[0]}")

    def _report_torn(self, file: int, torn: bytes, at: int, may_cut: bool) -> None:
        if not torn.strip():
            return
        if not may_cut:
            self.reports.append(f"the last answer in {self.path} is torn and not counted")
            return
        keep = self.path.with_name(f"torn-{at}.txt")
        try:
            keep.write_bytes(torn)
            os.ftruncate(file, at)
        except OSError:
            self.reports.append(f"the last answer in {self.path} is torn and not counted; it could not be cut off")
            return
        self.reports.append(f"the last answer was torn by a crash; it was cut off and kept in {keep}")


def _block(table: Mapping[str, Any]) -> str:
    text = table_text(_EVENT, dict(table))
    return f'{text}whole = "{crc32(text.encode()):08x}"\n\n'


def _read_block(data: bytes) -> tuple[Table | None, int]:
    """The event of one block and the bytes it takes with the blank line behind it; None where it is torn or damaged.

    `changed` marks an event whose sum does not fit its text.
    """
    closing = _CLOSING.search(data)
    if closing is None:
        return None, len(data)
    text = data[: closing.start()]
    try:
        table = tomllib.loads(text.decode())["event"][0]
    except (ValueError, KeyError, IndexError, TypeError, RecursionError):
        return None, len(data)
    if closing[1] != f"{crc32(text):08x}".encode():
        table["changed"] = True
    return table, closing.end()


def stamp_of(found: os.stat_result) -> tuple[int, ...]:
    """By what a file is known to be unchanged: which it is, how long, when it was last written."""
    return found.st_ino, found.st_size, found.st_mtime_ns


def _write(file: int, data: bytes) -> None:
    while data:
        data = data[os.write(file, data) :]
    os.fsync(file)


def _flush_folder(folder: Path) -> None:
    if os.name == "posix":  # elsewhere a folder cannot be opened
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _lock(file: int) -> None:
    """Wait until this program alone holds the file; the lock goes when it is closed."""
    if os.name == "posix":
        import fcntl

        fcntl.flock(file, fcntl.LOCK_EX)
    else:
        import msvcrt

        msvcrt.locking(file, msvcrt.LK_LOCK, 1)


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="Nothing was recorded.")
