"""A job's folder: its journal, the reference as it was when the job was begun, photos. Everything else is computed.

The reference is copied in, so that a job of last year still says what it was compared with. What was read from that
copy is kept beside it in a form that loads at once; it is made anew whenever it does not fit.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from copy import copy
from datetime import datetime
from pathlib import Path

import msgspec

from stackcheck import __version__
from stackcheck.errors import InputError, Mistake
from stackcheck.formats.journal_file import JOURNAL_FILE, Journal, stamp_of
from stackcheck.job.events import Begun, Event, read_event, table_of
from stackcheck.job.state import Job
from stackcheck.model.reference import Reference
from stackcheck.value import Value

REFERENCE_FILE = "reference.toml"
KEPT_FILE = ".reference.msgpack"
CLOCK_VARIABLE = "STACKCHECK_CLOCK"
"""Sets the time of every event, for a record that is replayed."""


class _Kept(Value):
    """The reference as read, and what it was read by and from."""

    version: str
    size: int
    changed_ns: int
    reference: Reference


class JobFolder:
    """An open job: `job` is its state after everything that is on disk."""

    def __init__(self, path: Path, journal: Journal):
        self.path, self.journal = path, journal
        self._events: list[Event] = []
        self._reference: Reference | None = None
        self._reference_stamp = _stamp(path)
        self._job: Job | None = None
        self.sent = ""
        """The mark put on every event of one form of the page: the same form sent again is known by it."""
        self._read_on()

    @classmethod
    def begin(
        cls,
        path: Path,
        reference: Reference,
        reference_file: Path,
        *,
        why: str = "",
        by: str = "",
        unit: str = "mm",
        machine: str = "",
        serial: str = "",
        points: tuple[str, ...] = (),
        sent: str = "",
    ) -> JobFolder:
        """Begin a job in a folder that holds none; `sent` is the mark of the form that began it."""
        begun = Begun(
            reference=reference.id, revision=reference.revision, ends=reference.ends,
            ends_seen_from=reference.ends_seen_from, title=reference.title,
            machine=machine, serial=serial, why=why, by=by, unit=unit, points=points, sent=sent, at=now(),
        )  # fmt: skip
        try:
            path.mkdir(parents=True, exist_ok=True)
            (path / REFERENCE_FILE).write_bytes(reference_file.read_bytes())
        except OSError as problem:
            raise _refusal(path, f"cannot be written ({problem.strerror})", "look at who may write there") from None
        return cls(path, Journal.new(path, table_of(begun)))

    @classmethod
    def open(cls, path: Path) -> JobFolder:
        return cls(path, Journal.open(path))

    def copy(self) -> JobFolder:
        """Another one that has read as far: it records and reads on without this one."""
        own = copy(self)
        own.journal, own._events, own._job = self.journal.copy(), [*self._events], self.job
        return own

    def goes_on(self) -> bool:
        """Whether what was read still stands there: the journal was at most added to,
        and the reference is the same file.
        """
        return self.journal.goes_on() and self._reference_stamp == _stamp(self.path)

    @property
    def name(self) -> str:
        return self.path.resolve().name

    @property
    def reports(self) -> list[str]:
        """What had to be said about the journal itself:
        a torn or damaged event, one changed by hand, one of a newer version.
        """
        return self.journal.reports

    @property
    def job(self) -> Job:
        if self._job is None:
            self._job = Job(name=self.name, reference=self.reference, events=tuple(self._events))
        for event in self._events[len(self._job.events) :]:
            self._job = self._job.followed_by(event)
        return self._job

    @property
    def begun(self) -> Begun:
        first = self._events[0] if self._events else None
        if not isinstance(first, Begun):
            raise _refusal(
                self.path / JOURNAL_FILE,
                "the journal does not begin with the beginning of a job",
                "look at its first event",
            )
        return first

    def record(self, *events: Event) -> Job:
        """Put events on disk, all or none, and return the job with them."""
        self.journal.append(
            [
                table_of(msgspec.structs.replace(event, at=event.at or now(), sent=event.sent or self.sent))
                for event in events
            ]
        )
        self._read_on()
        return self.job

    def refresh(self) -> bool:
        """Read what another program added; True where there was something."""
        new = self.journal.refresh()
        self._read_on()
        return bool(new)

    def _read_on(self) -> None:
        for table in self.journal.events[len(self._events) :]:
            event = read_event(table)
            if event is None:
                self.reports.append(
                    f'event {table.get("number", "?")} of kind "{table.get("did", "")}" is not known here; '
                    "it is kept and not counted"
                )
                event = Event(number=len(self._events) + 1)
            self._events.append(event)

    @property
    def reference(self) -> Reference:
        if self._reference is None:
            self._reference = _kept_reference(self.path, self.begun).for_a_machine("", self.begun.serial)
        return self._reference


def _stamp(folder: Path) -> tuple[int, ...]:
    """By what a changed copy of the reference is known; nothing where it is gone."""
    try:
        return stamp_of((folder / REFERENCE_FILE).stat())
    except OSError:
        return ()


def now() -> str:
    """The time with its zone, to the second."""
    said = os.environ.get(CLOCK_VARIABLE)
    return said or datetime.now().astimezone().isoformat(timespec="seconds")


def time_of(event: Event) -> datetime | None:
    try:
        return datetime.fromisoformat(event.at)
    except ValueError:
        return None


def _kept_reference(folder: Path, begun: Begun) -> Reference:
    source, kept_file = folder / REFERENCE_FILE, folder / KEPT_FILE
    try:
        stamp = source.stat()
    except OSError:
        raise _refusal(
            source,
            "the copy of the reference is gone",
            f"put revision {begun.revision} of {begun.reference} there again",
        ) from None
    try:
        kept = msgspec.msgpack.decode(kept_file.read_bytes(), type=_Kept)
        if (kept.version, kept.size, kept.changed_ns) == (__version__, stamp.st_size, stamp.st_mtime_ns):
            return kept.reference
    except (OSError, msgspec.MsgspecError):
        pass  # not there yet, or of another version: it is made anew below
    from stackcheck.formats.reference_file import read_reference

    reference = msgspec.structs.replace(read_reference(source, consequence="Nothing was recorded."), id=begun.reference)
    try:
        kept_file.write_bytes(msgspec.msgpack.encode(_Kept(__version__, stamp.st_size, stamp.st_mtime_ns, reference)))
    except OSError:
        pass  # it only saves time
    return reference


def jobs_in(folder: Path) -> list[Path]:
    """The folders of jobs in a folder, by name."""
    return sorted(file.parent for file in folder.glob(f"*/{JOURNAL_FILE}"))


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="Nothing was recorded.")


__all__: Sequence[str] = ("JobFolder", "jobs_in", "now", "time_of")
