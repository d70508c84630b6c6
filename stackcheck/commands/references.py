"""`references`: list, show and check them; the tables of standard parts; the index of a catalogue."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands import (
    references_check,
    references_compare,
    references_edit,
    references_from_job,
    references_mirror,
    references_new,
    references_pack,
)
from stackcheck.commands.common import DONE, common_options, library_of, print_json, read_all, reference_in, refuse


def add(commands: Any) -> None:
    parser = commands.add_parser("references", help="list, show, check, compare and make references")
    actions = parser.add_subparsers(title="actions", metavar="ACTION", required=True)
    listing = actions.add_parser("list", help="every reference of the library")
    common_options(listing)
    listing.set_defaults(command=_references_list)
    showing = actions.add_parser("show", help="one reference in full")
    showing.add_argument("reference", metavar="REF")
    common_options(showing)
    showing.set_defaults(command=_references_show)
    indexing = actions.add_parser("index", help="make an index of a catalogue of parts for find --catalogue")
    indexing.add_argument(
        "csv", metavar="CSV", type=Path, help="name, kind, and bore, outside, thickness with _least and _most, in mm"
    )
    indexing.add_argument("index", metavar="INDEX", type=Path, help="the new file")
    indexing.set_defaults(command=_references_index)
    shelf = actions.add_parser("tables", help="the tables of standard parts, their sources, what they do not cover")
    shelf.add_argument("--json", action="store_true", help="answer as JSON, every field described in the manual")
    shelf.set_defaults(command=_references_tables)
    for more in (
        references_check,
        references_compare,
        references_edit,
        references_from_job,
        references_mirror,
        references_new,
        references_pack,
    ):
        more.add(actions)


def _references_list(options: argparse.Namespace) -> int:
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.reference_page import list_page

    library = library_of(options)
    references, refused = read_all(library, list(library.files))
    if options.json:
        print_json({"references": [as_json.reference(reference) for reference in references]})
    else:
        show(list_page(library.machines, references))
    return refuse(refused)


def _references_show(options: argparse.Namespace) -> int:
    from stackcheck.mechanics.chain import loops
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.reference_page import show_page

    reference = reference_in(library_of(options), options.reference)
    if options.json:
        print_json(as_json.whole_reference(reference, loops(reference)))
    else:
        show(show_page(reference, loops(reference)))
    return DONE


def _references_index(options: argparse.Namespace) -> int:
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    from stackcheck.catalogue.index import build
    from stackcheck.present.names import counted

    columns = TextColumn("{task.description}"), BarColumn(), TextColumn("{task.completed:,} parts"), TimeElapsedColumn()
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("Reading", total=None)
        count = build(options.csv, options.index, lambda read: progress.update(task, completed=read))
    print(f"{counted(count, 'part')} in {options.index}.")
    return DONE


def _references_tables(options: argparse.Namespace) -> int:
    from stackcheck.present.blocks import show
    from stackcheck.present.tables_page import tables_json, tables_page
    from stackcheck.tables import figures, rows, tables

    parts = [(table, len(rows(table.id))) for table in tables()]
    if options.json:
        print_json(tables_json(parts, figures()))
    else:
        show(tables_page(parts, figures()))
    return DONE
