"""`shims` and `slots`: what brings a gap where it should be."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import (
    CANNOT_TELL,
    DONE,
    common_options,
    library_of,
    mistake,
    print_json,
    range_said,
    reading_said,
    reference_and_list,
    reference_in,
    said,
)
from stackcheck.commands.temperatures import add_temperature, heats_asked


def add(commands: Any) -> None:
    _add_shims(commands)
    _add_slots(commands)


def _add_shims(commands: Any) -> None:
    parser = commands.add_parser(
        "shims",
        help="which shims of a box bring a gap where it should be",
        description="Which pieces of a box bring a gap of a reference between its limits: "
        "fewest pieces first, then nearest to the middle. Without --box: which thickness does.",
    )
    parser.add_argument("reference", metavar="REF")
    parser.add_argument("gap", metavar="GAP", help='name of the gap, like "end float of the pinion"')
    parser.add_argument("--box", metavar="BOX", help='what there is, like "0.10 x4, 0.30 x2, 0.50 x6 mm"')
    parser.add_argument("--found", metavar="FOUND", type=Path, help="a teardown list of this reference")
    parser.add_argument(
        "--measured", metavar="READING", help='the gap as it is, like "0.42 dial"; counts before the list'
    )
    parser.add_argument("--at", metavar="PLACE", default="", help="whose thickness is chosen, where that is not plain")
    parser.add_argument(
        "--target", metavar="RANGE", help='gap wanted, like "0.02..0.06 mm" (default: the limits of the reference)'
    )
    common_options(parser)
    parser.set_defaults(command=_shims)


def _add_slots(commands: Any) -> None:
    parser = commands.add_parser(
        "slots",
        help="which slot of a castellated nut leaves the play wanted",
        description="The positions in which a castellated nut can be locked around the play that was measured, "
        "with the play that each leaves.",
    )
    parser.add_argument("reference", metavar="REF")
    parser.add_argument("gap", metavar="GAP", help='name of the gap that the nut sets, like "end float"')
    parser.add_argument("measured", metavar="READING", help='the play where the nut stands, like "0.15 dial"')
    parser.add_argument(
        "--target", metavar="RANGE", help='play wanted, like "0.02..0.06 mm" (default: the limits of the reference)'
    )
    add_temperature(parser)
    common_options(parser)
    parser.set_defaults(command=_slots)


def _shims(options: argparse.Namespace) -> int:
    from stackcheck.formats.box import read_box
    from stackcheck.present import choosing_json
    from stackcheck.present.blocks import show
    from stackcheck.present.choosing_page import shims_page
    from stackcheck.result.choosing import CannotChoose, shims

    reference, found = reference_and_list(options)
    box = said("--box", options.box, read_box) if options.box is not None else ()
    try:
        answer = shims(
            reference, options.gap, box, found=found, measured=reading_said("--measured", options.measured),
            place=options.at, target=range_said("--target", options.target),
        )  # fmt: skip
    except CannotChoose as problem:
        raise mistake(reference.id, problem.what, problem.wanted) from None
    if options.json:
        print_json(choosing_json.shims(reference, answer, found))
    else:
        show(shims_page(reference, answer, found))
    return DONE if answer.is_sure else CANNOT_TELL


def _slots(options: argparse.Namespace) -> int:
    from stackcheck.present import choosing_json
    from stackcheck.present.blocks import show
    from stackcheck.present.choosing_page import slots_page
    from stackcheck.result.choosing import CannotChoose, nut_slots

    reference = reference_in(library_of(options), options.reference)
    measured = reading_said("READING", options.measured)
    try:
        answer = nut_slots(
            reference, options.gap, measured, target=range_said("--target", options.target),
            heats=heats_asked(options.temperature, reference),
        )  # fmt: skip
    except CannotChoose as problem:
        raise mistake(reference.id, problem.what, problem.wanted) from None
    if options.json:
        print_json(choosing_json.slots(reference, answer))
    else:
        show(slots_page(reference, answer))
    return DONE if answer.is_sure else CANNOT_TELL
