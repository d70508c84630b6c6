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
        description="Several gauges read on one source, round by round: how far apart they are, the odd one out, what each is good to.",
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
        _into_job(options, comparison)
    if options.json:
        print_json(gauges_json(comparison))
    else:
        from stackcheck.present.blocks import show

        show(gauges_page(comparison))
    return STATUS[comparison.verdict]


def _into_job(options: argparse.Namespace, comparison: Any) -> None:
    """Keep the readings in the job's folder: from now on its sizes are no better than its instruments have shown."""
    from stackcheck.formats.new_file import write_new
    from stackcheck.job.events import GaugesCompared

    folder = job_named(options)
    number = 1
    while (file := folder.path / f"gauges-{number}.toml").exists():
        number += 1
    write_new(file, options.readings.read_text(encoding="utf-8"))
    good_to: dict[str, float] = {}
    for result in comparison.results:
        if comparison.readings.scale.dimension == "length" and result.gauge.how and result.good_to is not None:
            good_to[result.gauge.how] = max(round(result.good_to, 4), good_to.get(result.gauge.how, 0.0))
    folder.record(GaugesCompared(file=file.name, good_to_mm=good_to, by=options.by))
