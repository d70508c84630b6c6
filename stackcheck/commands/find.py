"""`find`: known parts by any of their sizes."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from stackcheck.commands.common import (
    CANNOT_TELL,
    DONE,
    common_options,
    library_of,
    mistake,
    print_json,
    read_all,
    refuse,
)
from stackcheck.errors import InputError


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "find",
        help="known parts by their sizes",
        description="Look a part up by any of its sizes in all references and all tables of standard parts.",
    )
    parser.add_argument("sizes", metavar="WORD", nargs="+", help='kind and sizes: 28x20x0.5 mic, or washer bore 17 outside "30 cal"')
    parser.add_argument("--catalogue", metavar="INDEX", type=Path, help="look only in this index, made by references index")
    common_options(parser)
    parser.set_defaults(command=_find)


def _find(options: argparse.Namespace) -> int:
    from stackcheck.catalogue.near import near
    from stackcheck.formats.asked_sizes import read_asked

    asked = read_asked(" ".join(options.sizes))
    if options.catalogue:
        known, searched, refused = _known_in_catalogue(options.catalogue, asked.readings)
    else:
        known, searched, refused = _known_everywhere(library_of(options))
    found = near(asked.readings, known, asked.kind)
    from stackcheck.present.find_page import find_json, find_page

    if options.json:
        print_json(find_json(asked, found, searched))
    else:
        from stackcheck.present.blocks import show

        show(find_page(asked, found, searched))
    if refused:
        return refuse(refused)
    return DONE if found else CANNOT_TELL


def _known_in_catalogue(file: Path, readings: Any) -> tuple[Sequence[Any], str, list[InputError]]:
    from stackcheck.catalogue.index import TooMany, look_up
    from stackcheck.catalogue.near import MOST

    try:
        return look_up(file, readings), f"the catalogue {file.name} only", []
    except TooMany:
        raise mistake(file, f"more than {MOST} parts can have these sizes", "measure another size, or the same more finely") from None


def _known_everywhere(library: Any) -> tuple[Sequence[Any], str, list[InputError]]:
    from stackcheck.catalogue.near import known_part, known_standard
    from stackcheck.tables import candidates

    references, refused = read_all(library, list(library.files))
    known = [known_part(reference.id, part) for reference in references for part in reference.parts]
    known += map(known_standard, candidates())
    return known, f"{len(references)} references and {len(candidates())} rows of the tables of standard parts", refused
