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
        description="Compare a teardown list with the reference it names: what is missing, extra, swapped, turned "
        "round, out of place or of another size, what each difference does, and what was not looked at.",
    )
    parser.add_argument(
        "found", metavar="FOUND", type=Path, help="the teardown list, a TOML file, or the name of a job"
    )
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

        tree = as_json.comparison(comparison)
        if options.forces:
            from stackcheck.present.all_forces_page import forces_tree
            from stackcheck.present.states_json import states_tree
            from stackcheck.result.forces import all_forces
            from stackcheck.result.states import said_for, states

            tree |= forces_tree(all_forces(reference, found, comparison.best), with_found=True)
            judged = states(reference, found, comparison.best, comparison.loops, said_for(reference, None))
            tree |= {"states": states_tree(judged, with_found=True)}
        print_json(tree)
    else:
        from stackcheck.present.blocks import show
        from stackcheck.present.compare_page import page

        blocks = page(comparison, all_cautions=options.cautions)
        if options.forces:
            from stackcheck.present.all_forces_page import carried_blocks, clamp_blocks, forces_how
            from stackcheck.present.how_page import how_blocks
            from stackcheck.present.state_limits import state_limit_blocks
            from stackcheck.result.forces import all_forces
            from stackcheck.result.states import said_for, states

            forces = all_forces(reference, found, comparison.best)
            judged = states(reference, found, comparison.best, comparison.loops, said_for(reference, None))
            told = (
                *clamp_blocks(forces, reference, with_found=True),
                *carried_blocks(forces, reference, with_found=True),
                *state_limit_blocks(judged, with_found=True, only_said=True),
            )
            blocks[-2:-2] = (*told, *how_blocks([], [], forces_how(forces, reference)))  # NOT VERIFIED stays last
        if job is not None:
            from stackcheck.present.putting_right_page import beside_as_found

            blocks[-2:-2] = beside_as_found(job.job, comparison)
        show(blocks)
    return comparison.exit_status
