"""`references mirror`: the good side becomes the reference for the other side, as a new file."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import DONE, common_options
from stackcheck.commands.named import named_reference


def add(actions: Any) -> None:
    mirroring = actions.add_parser(
        "mirror",
        help="the reference of one side becomes that of the other side",
        description="Write a new reference for the other side of the machine: "
        "sequence, facings and the names of the ends exchanged, pairs and sizes kept. It begins as a draft.",
    )
    mirroring.add_argument("reference", metavar="REF")
    mirroring.add_argument(
        "file", metavar="NEW.toml", type=Path, help="the new file; its name is the id of the new reference"
    )
    mirroring.add_argument("--title", help="its title; else that of the other side with the ends exchanged")
    common_options(mirroring)
    mirroring.set_defaults(command=_mirror)


def _mirror(options: argparse.Namespace) -> int:
    from stackcheck.commands.new_reference import place_of_new, written
    from stackcheck.formats.reference_file import read_remarks
    from stackcheck.references.other_side import other_side

    place = place_of_new(options.file)
    reference = named_reference(options, options.reference)
    made, remarks, look = other_side(reference, read_remarks(reference.file), title=options.title or "")
    return written(options, place, made, remarks, look) or DONE
