"""`compare`: what came off against its reference."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import common_options, library_of, print_json


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "compare",
        help="what came off against its reference",
        description="Compare a teardown list with the reference it names: what is missing, extra, swapped, turned round, out of place or of another size, what each difference does, and what was not looked at.",
    )
    parser.add_argument("found", metavar="FOUND", type=Path, help="the teardown list, a TOML file")
    parser.add_argument("--cautions", action="store_true", help="show every caution, not only the first three")
    common_options(parser)
    parser.set_defaults(command=_compare)


def _compare(options: argparse.Namespace) -> int:
    from stackcheck.formats.found_file import read_found
    from stackcheck.result import compare

    found, reference = read_found(options.found, library_of(options, near=options.found).reference)
    comparison = compare(reference, found)
    if options.json:
        from stackcheck.present import as_json

        print_json(as_json.comparison(comparison))
    else:
        from stackcheck.present.blocks import show
        from stackcheck.present.compare_page import page

        show(page(comparison, all_cautions=options.cautions))
    return comparison.exit_status
