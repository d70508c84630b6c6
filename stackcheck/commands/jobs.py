"""Which job a command means: the folder of jobs, a job by its name, the only open one."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from stackcheck.errors import InputError, Mistake

if TYPE_CHECKING:
    from stackcheck.job.folder import JobFolder

JOBS_FOLDER = "jobs"
JOBS_VARIABLE = "STACKCHECK_JOBS"


def job_options(parser: argparse.ArgumentParser, *, named: bool = True) -> None:
    if named:
        parser.add_argument("--job", metavar="JOB", help="which job, where several are open")
    parser.add_argument(
        "--jobs",
        metavar="FOLDER",
        type=Path,
        help=f"folder of jobs (default: ${JOBS_VARIABLE}, else {JOBS_FOLDER}/ here or above)",
    )
    parser.add_argument("--by", metavar="INITIALS", default="", help="who says so")


def jobs_folder(options: argparse.Namespace) -> Path:
    """The folder of jobs: named, set by the environment, found here or above, else to be made here."""
    from stackcheck.job.folder import jobs_in

    named = getattr(options, "jobs", None) or (
        Path(os.environ[JOBS_VARIABLE]) if os.environ.get(JOBS_VARIABLE) else None
    )
    if named is not None:
        return named
    here = Path.cwd()
    for folder in (here, *here.parents):
        if (folder / JOBS_FOLDER).is_dir() and jobs_in(folder / JOBS_FOLDER):
            return (folder / JOBS_FOLDER).relative_to(here) if folder == here else folder / JOBS_FOLDER
    return Path(JOBS_FOLDER)


def job_named(options: argparse.Namespace, name: str | None = None) -> JobFolder:
    """The job of that name (or of `--job`), or the only one that is open."""
    from stackcheck.job.folder import jobs_in

    name = name or getattr(options, "job", None)
    folder = jobs_folder(options)
    if name:
        path = folder / name if (folder / name).is_dir() else Path(name)
        if not is_job(path):
            known = ", ".join(path.name for path in jobs_in(folder)) or "none yet"
            raise mistake(
                folder, f'there is no job "{name}"', f"jobs here: {known}; begin one: stackcheck teardown REFERENCE"
            )
        return opened(path)
    still_open = open_jobs(folder)
    if not still_open:
        raise mistake(folder, "no job is open", "begin one: stackcheck teardown REFERENCE")
    if len(still_open) > 1:
        names = " or ".join(f"--job {job.name}" for job in still_open[:6])
        raise mistake(folder, f"{len(still_open)} jobs are open", f"say which: {names}")
    return still_open[0]


def open_jobs(folder: Path) -> list[JobFolder]:
    """The jobs of a folder that are not closed."""
    from stackcheck.job.folder import jobs_in

    return [job for path in jobs_in(folder) if (job := opened(path)).job.closed is None]


def opened(path: Path) -> JobFolder:
    """The job of a folder; what had to be reported about its journal goes to the error stream."""
    from stackcheck.job.folder import JobFolder

    job = JobFolder.open(path)
    for report in job.reports:
        print(report, file=sys.stderr)
    return job


def is_job(path: Path) -> bool:
    from stackcheck.formats.journal_file import JOURNAL_FILE

    return (path / JOURNAL_FILE).is_file()


def mistake(file: Path | str, what: str, wanted: str) -> InputError:
    """A mistake on the command line of a command that records."""
    return InputError([Mistake(file=str(file), what=what, wanted=wanted)], consequence="Nothing was recorded.")


def say(text: str) -> None:
    """A sentence as an answer, broken as every page is."""
    from stackcheck.present.blocks import Text, show

    show([Text(text)])
