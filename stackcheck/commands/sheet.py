"""`sheet`: paper to fill in at the bench, and numbered cards to cut."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import DONE, library_of, library_option, mistake, reference_in

CARDS = "cards"
MOST_CARDS = 400


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "sheet",
        help="a sheet to fill in by pencil, or numbered cards",
        description="Write a page to print: REF for the sheet to fill in (nothing expected stands on it), "
        "the word cards for numbered cards to cut.",
    )
    parser.add_argument("what", metavar="REF", help="a reference, or the word cards")
    parser.add_argument("--out", metavar="FILE", type=Path, required=True, help="the HTML file to write, as a new file")
    parser.add_argument(
        "--of", metavar="REF", help="with cards: the reference whose first end the arrow names (default: left)"
    )
    parser.add_argument("--first", metavar="NUMBER", type=int, help="with cards: the number of the first (default: 1)")
    parser.add_argument("--count", metavar="NUMBER", type=int, help="with cards: how many (default: 16)")
    library_option(parser)
    parser.set_defaults(command=_sheet)


def _sheet(options: argparse.Namespace) -> int:
    from stackcheck.formats.new_file import write_new

    write_new(options.out, _cards(options) if options.what == CARDS else _fill_in(options))
    print(f"Written: {options.out}. Print it at 100 %, on A4.")
    return DONE


def _fill_in(options: argparse.Namespace) -> str:
    from stackcheck.bench.sheet import sheet

    for option in ("of", "first", "count"):
        if getattr(options, option) is not None:
            raise mistake(f"--{option}", "this belongs to cards", "write stackcheck sheet cards, or leave it out")
    return sheet(reference_in(library_of(options), options.what))


def _cards(options: argparse.Namespace) -> str:
    from stackcheck.present.cards_html import cards_html

    first = 1 if options.first is None else options.first
    count = 16 if options.count is None else options.count
    if not 1 <= count <= MOST_CARDS:
        raise mistake("--count", f"{count} cards are wanted", f"write 1 to {MOST_CARDS}")
    if not 1 <= first <= 9999:
        raise mistake("--first", f"the first number is {first}", "write 1 to 9999")
    end = reference_in(library_of(options), options.of).ends[0] if options.of else "left"
    return cards_html(end, first=first, count=count)
