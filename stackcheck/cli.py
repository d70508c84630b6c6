"""The command line: read, ask the engines, present, answer with an exit status.

0 agrees or done, 1 differs, 2 cannot tell or not looked at, 3 could not run. Heavy modules are imported by the command
that needs them, so that `--help` and a short comparison start quickly.
"""

from __future__ import annotations

import argparse
import gc
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NoReturn

from stackcheck import __version__
from stackcheck.errors import InputError, Mistake

DONE, DIFFERS, CANNOT_TELL, COULD_NOT_RUN = 0, 1, 2, 3
LIBRARY_FOLDER = "reference_assemblies"
LIBRARY_VARIABLE = "STACKCHECK_LIBRARY"


def run() -> NoReturn:
    """The console command."""
    # This process is ours: no plugin of somebody else's is looked for, which also takes a tenth of the start.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # One answer and out: looking for garbage while the modules load costs more than the garbage.
    gc.freeze()
    gc.set_threshold(100_000)
    try:
        status = main(sys.argv[1:])
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader of the pipe has seen enough (head, less); Python would complain again while closing.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = DONE
    except OSError as problem:
        print(f"stackcheck: the answer cannot be written ({problem.strerror})", file=sys.stderr)
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = COULD_NOT_RUN
    except KeyboardInterrupt:
        status = COULD_NOT_RUN
    sys.exit(status)


def main(arguments: Sequence[str]) -> int:
    """Run one command; returns the exit status and prints nothing but its answer."""
    try:
        options = _parser().parse_args(arguments)
        return options.command(options)
    except InputError as problem:
        print(problem, file=sys.stderr)
        return COULD_NOT_RUN
    except _UsageError as problem:
        print(problem, file=sys.stderr)
        return COULD_NOT_RUN


class _UsageError(Exception):
    pass


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        raise _UsageError(f"{self.prog}: {message}\nTry: {self.prog} --help")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="stackcheck",
        description="Compare the parts that came off a shaft or axle with the assembly they should make.",
        epilog="Exit status: 0 agrees or done, 1 differs, 2 cannot tell or not looked at, 3 could not run.",
    )
    parser.add_argument("--version", action="version", version=f"stackcheck {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    _add_compare(commands)
    _add_stack(commands)
    _add_references(commands)
    _add_find(commands)
    return parser


def _common(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="answer as JSON, every field described in the manual")
    parser.add_argument(
        "--library", metavar="FOLDER", type=Path,
        help=f"folder of machines (default: ${LIBRARY_VARIABLE}, else {LIBRARY_FOLDER}/ here or above)",
    )  # fmt: skip


def _add_compare(commands: Any) -> None:
    parser = commands.add_parser(
        "compare",
        help="what came off against its reference",
        description="Compare a teardown list with the reference it names: what is missing, extra, swapped, turned round, out of place or of another size, what each difference does, and what was not looked at.",
    )
    parser.add_argument("found", metavar="FOUND", type=Path, help="the teardown list, a TOML file")
    parser.add_argument("--cautions", action="store_true", help="show every caution, not only the first three")
    _common(parser)
    parser.set_defaults(command=_compare)


def _add_stack(commands: Any) -> None:
    parser = commands.add_parser(
        "stack",
        help="lengths and gaps with their sums",
        description="Add up the stacks of a reference, part by part, with the worst case of all limits; with --found also as found, and what changed.",
    )
    parser.add_argument("reference", metavar="REF", help='a reference, like freight-tricycle/front-hub or "front-hub"')
    parser.add_argument("--found", metavar="FOUND", type=Path, help="a teardown list of this reference")
    parser.add_argument(
        "--between", nargs=2, metavar=("FACE", "FACE"),
        help='the distance between two faces, like "leg@left" "hub/left"; a bare place means its nearer face',
    )  # fmt: skip
    parser.add_argument("--only", metavar="NAME", help="only this stack or gap")
    _common(parser)
    parser.set_defaults(command=_stack)


def _add_references(commands: Any) -> None:
    parser = commands.add_parser("references", help="list, show and check the references")
    actions = parser.add_subparsers(title="actions", metavar="ACTION", required=True)
    listing = actions.add_parser("list", help="every reference of the library")
    _common(listing)
    listing.set_defaults(command=_references_list)
    showing = actions.add_parser("show", help="one reference in full")
    showing.add_argument("reference", metavar="REF")
    _common(showing)
    showing.set_defaults(command=_references_show)
    checking = actions.add_parser(
        "check", help="whether the files are sound and every loop closes",
        description="Read every reference (or the named ones), show every mistake with its line, and say for each loop which gap is left in the worst case of all limits.",
    )  # fmt: skip
    checking.add_argument("references", metavar="REF", nargs="*")
    _common(checking)
    checking.set_defaults(command=_references_check)
    indexing = actions.add_parser("index", help="make an index of a catalogue of parts for find --catalogue")
    indexing.add_argument("csv", metavar="CSV", type=Path, help="name, kind, and bore, outside, thickness with _least and _most, in mm")
    indexing.add_argument("index", metavar="INDEX", type=Path, help="the new file")
    indexing.set_defaults(command=_references_index)
    shelf = actions.add_parser("tables", help="the tables of standard parts, their sources, what they do not cover")
    shelf.add_argument("--json", action="store_true", help="answer as JSON, every field described in the manual")
    shelf.set_defaults(command=_references_tables)


def _add_find(commands: Any) -> None:
    parser = commands.add_parser(
        "find",
        help="known parts by their sizes",
        description="Look a part up by any of its sizes in all references and all tables of standard parts.",
    )
    parser.add_argument("sizes", metavar="WORD", nargs="+", help='kind and sizes: 28x20x0.5 mic, or washer bore 17 outside "30 cal"')
    parser.add_argument("--catalogue", metavar="INDEX", type=Path, help="look only in this index, made by references index")
    _common(parser)
    parser.set_defaults(command=_find)


def _find(options: argparse.Namespace) -> int:
    from stackcheck.catalogue.near import near
    from stackcheck.formats.asked_sizes import read_asked

    asked = read_asked(" ".join(options.sizes))
    if options.catalogue:
        known, searched, refused = _known_in_catalogue(options.catalogue, asked.readings)
    else:
        known, searched, refused = _known_everywhere(_library(options))
    found = near(asked.readings, known, asked.kind)
    from stackcheck.present.find_page import find_json, find_page

    if options.json:
        _print_json(find_json(asked, found, searched))
    else:
        from stackcheck.present.blocks import show

        show(find_page(asked, found, searched))
    if refused:
        return _refuse(refused)
    return DONE if found else CANNOT_TELL


def _known_in_catalogue(file: Path, readings: Any) -> tuple[Sequence[Any], str, list[InputError]]:
    from stackcheck.catalogue.index import TooMany, look_up
    from stackcheck.catalogue.near import MOST

    try:
        return look_up(file, readings), f"the catalogue {file.name} only", []
    except TooMany:
        raise _mistake(file, f"more than {MOST} parts can have these sizes", "measure another size, or the same more finely") from None


def _known_everywhere(library: Any) -> tuple[Sequence[Any], str, list[InputError]]:
    from stackcheck.catalogue.near import known_part, known_standard
    from stackcheck.tables import candidates

    references, refused = _read_all(library, list(library.files))
    known = [known_part(reference.id, part) for reference in references for part in reference.parts]
    known += map(known_standard, candidates())
    return known, f"{len(references)} references and {len(candidates())} rows of the tables of standard parts", refused


def _compare(options: argparse.Namespace) -> int:
    from stackcheck.formats.found_file import read_found
    from stackcheck.result import compare

    found, reference = read_found(options.found, _library(options, near=options.found).reference)
    comparison = compare(reference, found)
    if options.json:
        from stackcheck.present import as_json

        _print_json(as_json.comparison(comparison))
    else:
        from stackcheck.present.blocks import show
        from stackcheck.present.compare_page import page

        show(page(comparison, all_cautions=options.cautions))
    return comparison.exit_status


def _stack(options: argparse.Namespace) -> int:
    from stackcheck.formats.found_file import read_found
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.stack_page import distance_page, page
    from stackcheck.result.lengths import between, lengths

    library = _library(options, near=options.found)
    reference = _reference(library, options.reference)
    found = None
    if options.found is not None:
        found, listed = read_found(options.found, library.reference)
        if listed.id != reference.id:
            raise _mistake(options.found, f"the list is of {listed.id}", f"name that reference, or a list of {reference.id}")
    if options.between:
        try:
            distance = between(reference, found, *options.between)
        except ValueError as problem:
            raise _mistake("--between", f"{' and '.join(options.between)}: {problem.args[0]}", f"places: {', '.join(reference.line)}") from None
        if options.json:
            _print_json(as_json.distance(distance))
        else:
            show(distance_page(reference, distance))
        return DONE if distance.as_found.total is not None else CANNOT_TELL
    stacks, loops = lengths(reference, found)
    if options.only:
        known = [result.name for result in stacks] + [result.reference.loop.name for result in loops]
        if options.only not in known:
            raise _mistake("--only", f'no stack or gap is called "{options.only}"', f"there are: {', '.join(known)}")
        stacks = tuple(result for result in stacks if result.name == options.only)
        loops = tuple(result for result in loops if result.reference.loop.name == options.only)
    if options.json:
        _print_json(as_json.lengths(reference, stacks, loops))
    else:
        show(page(reference, stacks, loops, with_found=found is not None))
    known = [result.as_found.total for result in stacks] + [result.as_found.gap or result.as_found.measured for result in loops]
    return DONE if all(each is not None for each in known) else CANNOT_TELL


def _references_list(options: argparse.Namespace) -> int:
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.reference_page import list_page

    library = _library(options)
    references, refused = _read_all(library, list(library.files))
    if options.json:
        _print_json({"references": [as_json.reference(reference) for reference in references]})
    else:
        show(list_page(library.machines, references))
    return _refuse(refused)


def _references_show(options: argparse.Namespace) -> int:
    from stackcheck.mechanics.chain import loops
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.reference_page import show_page

    reference = _reference(_library(options), options.reference)
    if options.json:
        _print_json(as_json.whole_reference(reference, loops(reference)))
    else:
        show(show_page(reference, loops(reference)))
    return DONE


def _references_check(options: argparse.Namespace) -> int:
    from stackcheck.mechanics.chain import loops
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.reference_page import check_page

    library = _library(options)
    references, refused = _read_all(library, options.references or list(library.files))
    checked = [(reference, loops(reference)) for reference in references]
    if options.json:
        _print_json(as_json.check(checked, refused))
    else:
        show(check_page(checked, len(refused)))
    if refused:
        return _refuse(refused)
    verdicts = {state.verdict for _, states in checked for state in states}
    return DIFFERS if "differs" in verdicts else CANNOT_TELL if "cannot tell" in verdicts else DONE


def _references_index(options: argparse.Namespace) -> int:
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    from stackcheck.catalogue.index import build

    columns = TextColumn("{task.description}"), BarColumn(), TextColumn("{task.completed:,} parts"), TimeElapsedColumn()
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("Reading", total=None)
        count = build(options.csv, options.index, lambda read: progress.update(task, completed=read))
    print(f"{count} parts in {options.index}.")
    return DONE


def _references_tables(options: argparse.Namespace) -> int:
    from stackcheck.present.blocks import show
    from stackcheck.present.tables_page import tables_json, tables_page
    from stackcheck.tables import rows, tables

    counted = [(table, len(rows(table.id))) for table in tables()]
    if options.json:
        _print_json(tables_json(counted))
    else:
        show(tables_page(counted))
    return DONE


def _read_all(library: Any, ids: Sequence[str]) -> tuple[list[Any], list[InputError]]:
    references, refused = [], []
    for id in ids:
        try:
            references.append(_reference(library, id))
        except InputError as problem:
            refused.append(problem)
    return references, refused


def _refuse(refused: list[InputError]) -> int:
    if refused:
        mistakes = [mistake for problem in refused for mistake in problem.mistakes]
        print(InputError(mistakes, consequence="The other files were read."), file=sys.stderr)
    return COULD_NOT_RUN if refused else DONE


def _reference(library: Any, id: str) -> Any:
    try:
        return library.reference(id)
    except LookupError as problem:
        raise _mistake(library.folder, f'unknown reference "{id}"', str(problem.args[0])) from None


def _library(options: argparse.Namespace, near: Path | None = None) -> Any:
    """The library named on the command line, else by the environment, else beside the list, here, above, or the tool."""
    from stackcheck.formats.library import Library

    named = options.library or (Path(os.environ[LIBRARY_VARIABLE]) if os.environ.get(LIBRARY_VARIABLE) else None)
    if named is not None:
        if not named.is_dir():
            raise _mistake(str(named), "there is no such folder", "name the folder that holds a folder for each machine")
        return _filled(Library(named))
    starts = [near.resolve().parent] if near is not None else []
    starts += [Path.cwd(), Path(__file__).resolve().parent]
    for start in starts:
        for folder in (start, *start.parents):
            if (folder / LIBRARY_FOLDER).is_dir():
                return _filled(Library(_from_here(folder / LIBRARY_FOLDER)))
    raise _mistake(LIBRARY_FOLDER, "no library of references was found", "name it: --library FOLDER")


def _filled(library: Any) -> Any:
    """The library, if it holds anything: an empty answer would look like agreement."""
    if not library.files:
        raise _mistake(library.folder, "no reference stands in this folder", "name the folder that holds a folder for each machine")
    return library


def _from_here(folder: Path) -> Path:
    """A folder as short as it can be said from here: it stands in every message about its files."""
    return folder.relative_to(Path.cwd()) if folder.is_relative_to(Path.cwd()) else folder


def _mistake(file: Path | str, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(file), what=what, wanted=wanted)])


def _print_json(tree: dict[str, Any]) -> None:
    print(json.dumps(tree, indent=1, ensure_ascii=False))


