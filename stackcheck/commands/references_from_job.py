"""`references from-job`: what came off one machine, or several, becomes a reference."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import common_options, job_at, list_in, mistake


def add(actions: Any) -> None:
    making = actions.add_parser(
        "from-job",
        help="one machine as it was found or fitted, or several, becomes a reference",
        description="Write a reference from lists of what came off, or with --as-fitted from what was put in again: "
        "the parts as they stood, with the sizes that were measured. Several lists of one assembly are merged: sizes "
        "become ranges, and where the machines differ that is said. The result is graded as taken from a machine.",
    )
    making.add_argument(
        "file", metavar="NEW.toml", type=Path, help="the new file; its name is the id of the new reference"
    )
    making.add_argument(
        "found",
        metavar="JOB",
        nargs="+",
        type=Path,
        help="jobs (a name or folder) or teardown lists of the same assembly, oldest first",
    )
    making.add_argument(
        "--as-fitted",
        action="store_true",
        help="as the machines were put together again, not as they were found; of jobs only",
    )
    making.add_argument("--title", default="", help="what it is")
    making.add_argument(
        "--ends",
        default="",
        help="the names of both ends, like left,right, where the list's reference is not in the library",
    )
    making.add_argument("--seen-from", default="", help="how somebody knows which end is which, likewise")
    common_options(making)
    making.set_defaults(command=_from_job)


def _from_job(options: argparse.Namespace) -> int:
    from stackcheck.commands.new_reference import place_of_new, written
    from stackcheck.present.difference_page import change_label, change_words
    from stackcheck.present.words import sentence
    from stackcheck.references.merged import merged

    place = place_of_new(options.file)
    machines = [_taken(options, path) for path in options.found]
    assemblies = list(
        dict.fromkeys(each.compared_with.id if each.compared_with else each.reference.id for each in machines)
    )
    if len(assemblies) > 1:
        raise mistake(
            options.file, f"the lists are of several assemblies: {', '.join(assemblies)}", "name lists of one assembly"
        )
    answer = merged(machines, options.title)
    differ = [
        f"{each.machine} differed from {each.compared_with.id} rev {each.compared_with.revision}: "
        f"{sentence(finding, each.compared_with, each.found)}"
        for each in machines
        for finding in each.findings
    ]
    if not all(each.compared_with for each in machines):
        differ += [
            f"{machine}, against the first: {change_label(change).lower()} {change_words(change, value)}"
            for machine, value, change in answer.differ
        ]
    remarks = type(answer.remarks)(head=(*answer.remarks.head, *differ), behind=answer.remarks.behind)
    return written(options, place, answer.reference, remarks, (*differ, *answer.look))


def _taken(options: argparse.Namespace, path: Path) -> Any:
    """One machine: against the reference of its list, or by itself where no library holds that."""
    from stackcheck.references.taken import AS_FITTED, taken

    if options.ends:
        from stackcheck.formats.found_alone import read_found_alone
        from stackcheck.references.taken_alone import taken_alone

        ends = tuple(end.strip().lower() for end in options.ends.split(","))
        if len(ends) != 2 or not all(ends) or ends[0] == ends[1]:
            raise mistake("--ends", f'"{options.ends}" names no two ends', "write --ends left,right")
        found, blank = read_found_alone(path, ends, options.seen_from or f"{ends[0]} as whoever took it apart says")
        return taken_alone(found, blank, options.title)
    if options.as_fitted:
        return taken(*_fitted(options, path), AS_FITTED)
    found, reference = list_in(options, path)
    return taken(reference, found)


def _fitted(options: argparse.Namespace, path: Path) -> tuple[Any, Any]:
    """The reference of a job, and what was fitted in it as a list."""
    from stackcheck.job.events import Fitted
    from stackcheck.job.fitting import as_fitted

    folder = job_at(options, path)
    if folder is None:
        raise mistake(path, "only a job knows what was fitted", "name the job, or leave --as-fitted out")
    if not folder.job.of(Fitted):
        raise mistake(path, "nothing was fitted in this job yet", "record it: stackcheck fit, or leave --as-fitted out")
    return folder.reference, as_fitted(folder.job)
