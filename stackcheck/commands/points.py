"""`points`: what to look at on a machine that is no stack, and what was found there."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import CANNOT_TELL, DIFFERS, DONE, common_options, library_of, mistake, print_json
from stackcheck.commands.jobs import job_named, job_options

STATUS = {"agrees": DONE, "differs": DIFFERS, "cannot tell": CANNOT_TELL, "not looked at": CANNOT_TELL}


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "points",
        help="the points of a machine that are no stack, and what was found there",
        description="List what is to be looked at on a machine (levels, hoses, plug gaps, readings that must agree); "
        "with FILE, judge what was found.",
    )
    parser.add_argument("machine", metavar="MACHINE", help="the folder of the machine in the library")
    parser.add_argument(
        "found", metavar="FILE", type=Path, nargs="?", help='what was found: a TOML file with kind = "points"'
    )
    parser.add_argument("--out", metavar="FILE", type=Path, help="write the file to fill in, as a new file")
    common_options(parser)
    job_options(parser)
    parser.set_defaults(command=_points)


def _points(options: argparse.Namespace) -> int:
    from stackcheck.present.blocks import show
    from stackcheck.present.points_page import list_json, list_page

    library = library_of(options, near=options.found)
    machine = _machine_in(library, options.machine)
    if options.found is not None:
        return _judge(options, library, machine)
    if options.out is not None:
        from stackcheck.formats.new_file import write_new
        from stackcheck.formats.points_file import blank_points

        write_new(options.out, blank_points(machine))
    if options.json:
        print_json(list_json(machine))
    else:
        show(list_page(machine))
    return DONE


def _judge(options: argparse.Namespace, library: Any, machine: Any) -> int:
    from stackcheck.formats.points_file import read_points
    from stackcheck.present.blocks import show
    from stackcheck.present.points_page import points_json, points_page
    from stackcheck.result.machine_points import judge_points

    if options.out is not None:
        raise mistake("--out", "a list was given to judge", "leave FILE out to get a blank one")
    seen, listed = read_points(options.found, library.machine)
    if listed.id != machine.id:
        raise mistake(options.found, f"the list is of {listed.id}", f"name that machine, or a list of {machine.id}")
    result = judge_points(machine, seen)
    if options.job:
        from stackcheck.job.events import Looked
        from stackcheck.present.points_page import point_sentence

        looked = [each for each in result.results if each.verdict != "not looked at"]
        job_named(options).record(
            *(
                Looked(point=each.point.name, verdict=each.verdict, seen=point_sentence(each), by=options.by)
                for each in looked
            )
        )
    if options.json:
        print_json(points_json(result))
    else:
        show(points_page(result))
    return STATUS[result.verdict]


def _machine_in(library: Any, id: str) -> Any:
    try:
        return library.machine(id)
    except LookupError as problem:
        raise mistake(library.folder, f'unknown machine "{id}"', str(problem.args[0])) from None
