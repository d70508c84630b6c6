"""`report`: the strip report of a comparison, and the sheet to carry along."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import DONE, job_at, library_option, list_in, mistake


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "report",
        help="the strip report on paper",
        description="Write a strip report: sentence, drawing, findings with evidence and effect, sums, measurements, "
        "cautions, and what was not verified. One HTML file that needs nothing beside it and prints on A4.",
    )
    parser.add_argument(
        "found", metavar="FOUND", type=Path, help="the teardown list, a TOML file, or the name of a job"
    )
    parser.add_argument(
        "--out", metavar="FILE", type=Path, help="the HTML file to write; never over a file that is there"
    )
    parser.add_argument("--pdf", metavar="FILE", type=Path, help="write it as PDF (needs weasyprint)")
    parser.add_argument(
        "--carry", action="store_true", help="instead the sheet to carry along: sizes, marks, locking parts, tightening"
    )
    library_option(parser)
    parser.set_defaults(command=_report)


def _report(options: argparse.Namespace) -> int:
    from stackcheck.formats.new_file import write_new
    from stackcheck.report.carry import carry_along
    from stackcheck.report.content import strip_report
    from stackcheck.report.html import html
    from stackcheck.result import compare

    if options.out is None and options.pdf is None:
        raise mistake("report", "no file is named to write to", "name one: --out FILE.html, --pdf FILE.pdf, or both")
    job = None if options.found.is_file() else job_at(options, options.found)
    found, reference = (job.job.found, job.reference) if job is not None else list_in(options, options.found)
    comparison = compare(reference, found)
    if options.carry:
        document = html(carry_along(comparison))
    else:
        document = html(strip_report(comparison, _parts(job, comparison) if job is not None else None))
    if options.out is not None:
        write_new(options.out, document)
        print(f"Written: {options.out}")
    if options.pdf is not None:
        from stackcheck.report.pdf import write_pdf

        write_pdf(document, options.pdf)
        print(f"Written: {options.pdf}")
    return DONE


def _parts(job: Any, comparison: Any) -> Any:
    from stackcheck.job.folder import now
    from stackcheck.report.from_job import job_parts

    return job_parts(job, comparison, now())
