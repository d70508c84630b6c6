"""The jobs and references that the page shows: names from a request are looked up here, never made into a path."""

from __future__ import annotations

from pathlib import Path
from threading import Lock

from stackcheck.formats.journal_file import JOURNAL_FILE
from stackcheck.formats.library import Library
from stackcheck.job.folder import JobFolder, jobs_in


class Bench:
    """A folder of jobs, and the library that they are begun from."""

    def __init__(self, jobs: Path, library: Library):
        self.jobs, self.library = jobs, library
        self.taking = Lock()
        """Held while one form is taken: two of one mark at the same moment are one."""
        self._reading = Lock()
        self._kept: dict[Path, JobFolder] = {}

    def folder(self, name: str) -> JobFolder | None:
        path = next((path for path in jobs_in(self.jobs) if path.name == name), None)
        return None if path is None else self._as_it_stands(path)

    def folders(self) -> list[JobFolder]:
        return [self._as_it_stands(path) for path in jobs_in(self.jobs)]

    def _as_it_stands(self, path: Path) -> JobFolder:
        """The job as it is on disk now, for one request alone; only what was added since the last request is read."""
        with self._reading:
            kept = self._kept.get(path)
            if kept is not None and kept.goes_on():
                kept.refresh()
            else:
                kept = self._kept[path] = JobFolder.open(path)
            return kept.copy()

    def begin(self, reference: str, why: str, by: str, sent: str = "") -> JobFolder | None:
        """A new job of a reference of the library, in a folder of our own naming;
        None where there is no such reference.

        The mark of its form, `sent`, stands in the journal:
        a form that is sent again, even to a server that was started anew, leads to the job that it began.
        """
        if reference not in self.library.files:
            return None
        if sent and (begun := next((each for each in self.folders() if each.job.begun.sent == sent), None)) is not None:
            return begun
        name, number = reference.rpartition("/")[2], 1
        while (self.jobs / (own := name if number == 1 else f"{name}-{number}") / JOURNAL_FILE).exists():
            number += 1
        machine = self.library.machine_of(reference)
        points = tuple(point.name for point in machine.points) if machine else ()
        return JobFolder.begin(
            self.jobs / own,
            self.library.reference(reference),
            self.library.files[reference],
            why=why[:500],
            by=by[:20],
            points=points,
            sent=sent,
        )
