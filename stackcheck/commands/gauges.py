"""`gauges`: several gauges compared on one common source."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import CANNOT_TELL, DIFFERS, DONE, print_json
from stackcheck.commands.jobs import job_named, job_options

STATUS = {"agrees": DONE, "not judged": DONE, "differs": DIFFERS, "cannot tell": CANNOT_TELL}


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "gauges",
        help="compare gauges on one common source",
        description="Several gauges read on one source, round by round: "
        "how far apart they are, the odd one out, what each is good to.",
    )
    parser.add_argument("readings", metavar="FILE", type=Path, help='the readings: a TOML file with kind = "gauges"')
    parser.add_argument("--json", action="store_true", help="answer as JSON, every field described in the manual")
    job_options(parser)
    parser.set_defaults(command=_gauges)


def _gauges(options: argparse.Namespace) -> int:
    from stackcheck.formats.gauges_file import read_gauges
    from stackcheck.mechanics.gauges import compare_gauges
    from stackcheck.present.gauges_page import gauges_json, gauges_page

    comparison = compare_gauges(read_gauges(options.readings))
    if options.job:
        from stackcheck.job.gauging import keep_comparison

        keep_comparison(job_named(options), options.readings.read_text(encoding="utf-8"), by=options.by)
    if options.json:
        print_json(gauges_json(comparison))
    else:
        from stackcheck.present.blocks import show

        show(gauges_page(comparison))
    return STATUS[comparison.verdict]
