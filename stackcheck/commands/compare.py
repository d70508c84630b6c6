"""`compare`: what came off against its reference."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import common_options, job_at, list_in, print_json


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "compare",
        help="what came off against its reference",
        description="Compare a teardown list with the reference it names: what is missing, extra, swapped, turned round, out of place or of another size, what each difference does, and what was not looked at.",
    )
    parser.add_argument("found", metavar="FOUND", type=Path, help="the teardown list, a TOML file, or the name of a job")
    parser.add_argument("--cautions", action="store_true", help="show every caution, not only the first three")
    parser.add_argument("--forces", action="store_true", help="also what every joint clamps, reference beside as found")
    common_options(parser)
    parser.set_defaults(command=_compare)


def _compare(options: argparse.Namespace) -> int:
    from stackcheck.result import compare

    job = None if options.found.is_file() else job_at(options, options.found)
    found, reference = (job.job.found, job.reference) if job is not None else list_in(options, options.found)
    comparison = compare(reference, found)
    if job is not None:
        from stackcheck.job.deciding import record_comparison

        record_comparison(job, comparison)
    if options.json:
        from stackcheck.present import as_json

        print_json(as_json.comparison(comparison) | (_forces_tree(reference, found) if options.forces else {}))
    else:
        from stackcheck.present.blocks import show
        from stackcheck.present.compare_page import page

        blocks = page(comparison, all_cautions=options.cautions)
        if options.forces:
            blocks[-2:-2] = _forces_blocks(reference, found)  # NOT VERIFIED stays last
        if job is not None:
            from stackcheck.present.putting_right_page import beside_as_found

            blocks[-2:-2] = beside_as_found(job.job, comparison)
        show(blocks)
    return comparison.exit_status


def _forces_tree(reference: Any, found: Any) -> dict[str, Any]:
    from stackcheck.present import forces_json
    from stackcheck.result.forces import forces, springs

    joints, discs = forces(reference, found), springs(reference, found)
    return {"forces": [forces_json.joint(each) for each in joints], "disc_springs": [forces_json.springs(each) for each in discs]}


def _forces_blocks(reference: Any, found: Any) -> list[Any]:
    from stackcheck.present.forces_page import forces_blocks, springs_blocks
    from stackcheck.result.forces import forces, springs

    joints, discs = forces(reference, found), springs(reference, found)
    return [*forces_blocks(joints, with_found=True), *springs_blocks(discs, with_found=True)]
