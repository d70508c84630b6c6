"""`teardown`, `open`, `tag`, `close`: a job from its beginning to its closing, however long it lies in between."""

from __future__ import annotations

import argparse
import re
import sys
from typing import Any

from stackcheck.commands.common import CANNOT_TELL, DONE, library_of, print_json
from stackcheck.commands.jobs import is_job, job_named, job_options, jobs_folder, mistake, say


def add(commands: Any) -> None:
    teardown = commands.add_parser(
        "teardown",
        help="record parts as they come off, question by question",
        description="Begin or go on with a job: what to look at before loosening, then one question a part, in the "
        "words of the bench. Every answer is on disk before the next question; stop anywhere with /. Answers may be "
        "piped in, one a line.",
    )
    teardown.add_argument("name", metavar="REF-OR-JOB", help="the reference of the assembly, or a job that was begun")
    teardown.add_argument("--why", default="", metavar="WORDS", help="why it is opened, in your own words")
    teardown.add_argument(
        "--unit", choices=("mm", "in"), default="mm", help="unit of bare figures in this job (default mm)"
    )
    teardown.add_argument("--job", metavar="NAME", help="name of a new job (default: that of the assembly)")
    teardown.add_argument(
        "--call", action="store_true", help="one calls, one keys: every answer is read back as a sentence"
    )
    teardown.add_argument(
        "--second-look",
        action="store_true",
        help="another person says which way each part pointed, without seeing the first answers (with --by)",
    )
    teardown.add_argument("--machine", default="", metavar="WORDS", help="which machine it is")
    teardown.add_argument("--serial", default="", metavar="WORDS", help="its serial number or year")
    teardown.add_argument("--library", metavar="FOLDER", help="folder of machines")
    job_options(teardown, named=False)
    teardown.set_defaults(command=_teardown)

    open_ = commands.add_parser(
        "open",
        help="what is open: all jobs, or one",
        description="All jobs with what is open in each; with JOB the way back into it: how long ago, the last "
        "things said, what is open, the next question. Exit status 2 where something is open.",
    )
    open_.add_argument("name", metavar="JOB", nargs="?")
    open_.add_argument("--still-so", action="store_true", help="confirm that the last things said are still so")
    open_.add_argument(
        "--no-longer",
        metavar="NUMBER",
        type=int,
        help="the last thing of that number is no longer so: it does not count until it is said again",
    )
    open_.add_argument("--json", action="store_true", help="answer as JSON")
    job_options(open_, named=False)
    open_.set_defaults(command=_open)

    tag = commands.add_parser(
        "tag",
        help="text for a paper tag",
        description="Three lines for a paper tag on the machine: what is open, what not to do, since when.",
    )
    tag.add_argument("name", metavar="JOB", nargs="?")
    job_options(tag, named=False)
    tag.set_defaults(command=_tag)

    close = commands.add_parser(
        "close",
        help="close a job, with what is still open",
        description="Close a job. It is a person who closes it: initials are asked for. "
        "What is open is listed and stays in the record; the tool never says that a machine may be used.",
    )
    close.add_argument("name", metavar="JOB", nargs="?")
    close.add_argument(
        "--recall",
        default="",
        metavar="WORDS",
        help='what was looked up about recalls of the maker, like "none on 2026-03-11"',
    )
    close.add_argument("--note", default="", metavar="WORDS")
    job_options(close, named=False)
    close.set_defaults(command=_close)


def _teardown(options: argparse.Namespace) -> int:
    from stackcheck.bench import terminal
    from stackcheck.present.blocks import show
    from stackcheck.present.job_page import came_off_words, page, tag

    folder = _begun(options)
    reference = folder.job.reference
    show_line = terminal.show_line
    show_line(
        f"{folder.job.begun.title}. Ends: {reference.ends[0]}, {reference.ends[1]}. "
        f"{reference.ends[0].capitalize()}: {reference.ends_seen_from}."
    )
    show_line(f"Job {folder.name}, saved in {folder.path} at each answer.")
    show_line(terminal.KEYS)
    if sys.stdin.isatty():
        names = sorted({word for part in reference.parts for word in (part.name.lower(), part.kind)})
        ask = terminal.at_terminal(names)
    else:
        ask = terminal.piped(show_line)
    if options.second_look:
        if not options.by:
            raise mistake("teardown", "a second look needs somebody", "say who looks: --by INITIALS")
        terminal.second_look(folder, ask, show_line, by=options.by)
        return DONE
    if folder.job.offs:
        show(page(folder.job, _items(folder.job), _now()))
    done = terminal.teardown(folder, ask, show_line, by=options.by, call=options.call)
    job = folder.job
    show_line(came_off_words(job))
    show_line("Nothing is left to ask. Compare: stackcheck compare " + folder.name if done else "Saved. Tag:")
    if not done:
        print(tag(job, _items(job)))
    return DONE


def _begun(options: argparse.Namespace) -> Any:
    """The job of that name, or a new one on the assembly of that name."""
    from stackcheck.commands.common import reference_in
    from stackcheck.job.folder import JobFolder

    folder = jobs_folder(options)
    name = options.job or options.name.rpartition("/")[2]
    if not re.fullmatch(r"\w[\w .-]{0,60}", name):
        raise mistake(
            "--job",
            f'"{name[:40]}" is no name for a job',
            "letters, figures, blanks, dots and hyphens, beginning with a letter or figure",
        )
    for path in (folder / name, folder / options.name):
        if is_job(path):
            job = job_named(options, path.name)
            if job.job.closed is None:
                return job
            if options.job or is_job(folder / options.name):
                break
    options.library = _path(options.library)
    library = library_of(options)
    reference = reference_in(library, options.name)
    path, number = folder / name, 2
    while is_job(path):
        path, number = folder / f"{name}-{number}", number + 1
    return JobFolder.begin(
        path, reference, library.path_of(reference.id), why=options.why, by=options.by, unit=options.unit,
        machine=options.machine, serial=options.serial, points=_points(library, reference.id),
    )  # fmt: skip


def _points(library: Any, reference: str) -> tuple[str, ...]:
    """The names of the points of the machine that are no stack; none where nothing is written about it."""
    machine = library.machine_of(reference)
    return tuple(point.name for point in machine.points) if machine else ()


def _path(text: str | None) -> Any:
    from pathlib import Path

    return None if text is None else Path(text)


def _now() -> str:
    from stackcheck.job.folder import now

    return now()


def _items(job: Any) -> Any:
    from stackcheck.job.open_items import open_items
    from stackcheck.result import compare

    return open_items(job, compare(job.reference, job.found))


def _open(options: argparse.Namespace) -> int:
    from stackcheck.commands.jobs import open_jobs
    from stackcheck.present.blocks import show
    from stackcheck.present.job_page import all_jobs, as_json, page, resume_page

    folder = jobs_folder(options)
    if options.name is None:
        jobs = [(job.job, _items(job.job)) for job in open_jobs(folder)]
        if options.json:
            print_json({"jobs": [as_json(job, items) for job, items in jobs]})
        else:
            show(all_jobs(jobs, _now()))
        return CANNOT_TELL if any(items for _, items in jobs) else DONE
    opened = job_named(options, options.name)
    job = opened.job
    last = job.last_said()
    if options.still_so:
        from stackcheck.job.events import Confirmed

        if last:
            opened.record(Confirmed(events=tuple(event.number for event in last), by=options.by))
        job = opened.job
    if options.no_longer is not None:
        from stackcheck.job.events import Confirmed
        from stackcheck.present.event_words import event_words

        if not 1 <= options.no_longer <= len(last):
            raise mistake(
                "open",
                f"there is no number {options.no_longer} among the last things said",
                f"1 to {len(last)}: stackcheck open {opened.name}",
            )
        event = last[options.no_longer - 1]
        job = opened.record(Confirmed(events=(event.number,), still=False, by=options.by))
        say(f"{event_words(event, job.reference)}: no longer so. It does not count until it is said again.")
    items = _items(job)
    if options.json:
        print_json(as_json(job, items))
        return CANNOT_TELL if items else DONE
    blocks = page(job, items, _now())
    if not options.still_so and job.closed is None:
        blocks += resume_page(job, last, _now())
    show(blocks)
    _say_next(job, opened.name)
    return CANNOT_TELL if items else DONE


def _say_next(job: Any, name: str) -> None:
    from stackcheck.bench.questions import next_question
    from stackcheck.bench.terminal import prompt_of

    question = next_question(job)
    if question is not None and job.closed is None:
        say(f"\nNext: {prompt_of(question).strip().removesuffix('>').strip()}\n      stackcheck teardown {name}")


def _tag(options: argparse.Namespace) -> int:
    from stackcheck.present.job_page import tag

    job = job_named(options, options.name).job
    print(tag(job, _items(job)))
    return DONE


def _close(options: argparse.Namespace) -> int:
    from stackcheck.job.closing import close_job
    from stackcheck.present.blocks import show
    from stackcheck.present.job_page import closing_page

    folder = job_named(options, options.name)
    if not options.by:
        raise mistake("close", "nobody says who closes it", "a person closes a job: --by INITIALS")
    items = close_job(folder, by=options.by, recall=options.recall, note=options.note)
    show(closing_page(folder.job, items, options.by))
    return CANNOT_TELL if items else DONE
