"""`find`: known parts by any of their sizes."""

from __future__ import annotations

import argparse
import os.path
from collections.abc import Sequence
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
from stackcheck.errors import InputError, Mistake


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "find",
        help="known parts by their sizes",
        description="Look a part up by any of its sizes in all references and all tables of standard parts.",
    )
    parser.add_argument(
        "sizes", metavar="WORD", nargs="+", help='kind and sizes: 28x20x0.5 mic, or washer bore 17 outside "30 cal"'
    )
    parser.add_argument("--catalogue", metavar="INDEX", help="look only in this index, made by references index")
    common_options(parser)
    parser.set_defaults(command=_find)


def _find(options: argparse.Namespace) -> int:
    from stackcheck.catalogue.near import near

    asked = _asked(options.sizes)
    if options.catalogue is not None:
        known, searched, refused = _known_in_catalogue(options.catalogue, asked.sizes)
    else:
        known, searched, refused = _known_everywhere(library_of(options))
    found = near(asked.sizes, known, asked.kind)
    others = near(asked.sizes, known) if asked.kind and not found else ()
    from stackcheck.present.find_page import find_json, find_page

    if options.json:
        print_json(find_json(" ".join(options.sizes), asked, found, searched, others))
    else:
        from stackcheck.present.blocks import show

        show(find_page(asked, found, searched, others))
    if refused:
        return refuse(refused)
    return DONE if found else CANNOT_TELL


def _asked(words: Sequence[str]) -> Any:
    """What was typed, refused where a look-up by kind and sizes would pass something over."""
    from stackcheck.formats.typed_part import read_typed_part
    from stackcheck.units import is_measured

    consequence = "Nothing was looked up."
    typed = read_typed_part(words, "find", consequence)
    part, wrong = typed.entry, []
    if typed.behind:
        wrong.append(
            (
                f'"{typed.behind}" is passed over: find looks by kind and sizes alone',
                "leave it out, or ask explain, which weighs looks and marks",
            )
        )
    elif part.marked:
        wrong.append(
            (
                f'"{part.marked}" is a mark: find looks by kind and sizes alone',
                "leave it out, or ask explain, which weighs looks and marks",
            )
        )
    elif part.what != "part" and not part.kind:
        wrong.append((f'"{part.what}" is no kind of part known here', "name a kind such as washer, or sizes only"))
    if not part.sizes:
        wrong.append(("no size is given", 'write "28x20x0.5 mic" or "washer bore 17 outside 30 cal"'))
    for name, reading in part.sizes:
        if not is_measured(reading.value_mm, reading.how):
            wrong.append(
                (
                    f'the {name} "{reading.text}" is below what a {reading.how} can show: that is "not measured"',
                    "leave this size out, or measure it with a finer instrument",
                )
            )
    if wrong:
        raise InputError(
            [Mistake(file="find", what=what, wanted=wanted) for what, wanted in wrong], consequence=consequence
        )
    return part


def _known_in_catalogue(file: str, readings: Any) -> tuple[Sequence[Any], str, list[InputError]]:
    from stackcheck.catalogue.index import SIZES, TooMany, look_up
    from stackcheck.catalogue.near import MOST

    if other := [name for name, _ in readings if name not in SIZES]:
        raise mistake(
            file, f"a catalogue holds no {other[0].replace('_', ' ')}", f"measure {', '.join(SIZES.values())}"
        )
    try:
        return look_up(file, readings), f"the catalogue {os.path.basename(file)} only", []
    except TooMany:
        raise mistake(
            file, f"more than {MOST} parts can have these sizes", "measure another size, or the same more finely"
        ) from None


def _known_everywhere(library: Any) -> tuple[Sequence[Any], str, list[InputError]]:
    from stackcheck.catalogue.known import reference_part, standard_parts

    references, refused = read_all(library, list(library.files))
    known = [reference_part(reference.id, part) for reference in references for part in reference.parts]
    known += [part for _, part in standard_parts()]
    return (
        known,
        f"{len(references)} references and {len(standard_parts())} rows of the tables of standard parts",
        refused,
    )
