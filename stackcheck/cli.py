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
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NoReturn

from stackcheck import __version__
from stackcheck.errors import InputError, Mistake, SizeError

DONE, DIFFERS, CANNOT_TELL, COULD_NOT_RUN = 0, 1, 2, 3
ABSOLUTE_ZERO_C = -273.15
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
    _add_shims(commands)
    _add_slots(commands)
    _add_explain(commands)
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
    parser.add_argument("--torque", metavar="TORQUE", help='tightened to this instead, like "50 N·m"')
    parser.add_argument("--temperature", metavar="TEMPERATURE", help='tightened at 20 °C, then all of it at this, like "60 °C"')
    _common(parser)
    parser.set_defaults(command=_stack)


def _add_shims(commands: Any) -> None:
    parser = commands.add_parser(
        "shims",
        help="which shims of a box bring a gap where it should be",
        description="Which pieces of a box bring a gap of a reference between its limits: fewest pieces first, then nearest to the middle. Without --box: which thickness does.",
    )
    parser.add_argument("reference", metavar="REF")
    parser.add_argument("gap", metavar="GAP", help='name of the gap, like "end float of the pinion"')
    parser.add_argument("--box", metavar="BOX", help='what there is, like "0.10 x4, 0.30 x2, 0.50 x6 mm"')
    parser.add_argument("--found", metavar="FOUND", type=Path, help="a teardown list of this reference")
    parser.add_argument("--measured", metavar="READING", help='the gap as it is, like "0.42 dial"; counts before the list')
    parser.add_argument("--at", metavar="PLACE", default="", help="whose thickness is chosen, where that is not plain")
    parser.add_argument("--target", metavar="RANGE", help='gap wanted, like "0.02..0.06 mm" (default: the limits of the reference)')
    _common(parser)
    parser.set_defaults(command=_shims)


def _add_slots(commands: Any) -> None:
    parser = commands.add_parser(
        "slots",
        help="which slot of a castellated nut leaves the play wanted",
        description="The positions in which a castellated nut can be locked around the play that was measured, with the play that each leaves.",
    )
    parser.add_argument("reference", metavar="REF")
    parser.add_argument("gap", metavar="GAP", help='name of the gap that the nut sets, like "end float"')
    parser.add_argument("measured", metavar="READING", help='the play where the nut stands, like "0.15 dial"')
    parser.add_argument("--target", metavar="RANGE", help='play wanted, like "0.02..0.06 mm" (default: the limits of the reference)')
    _common(parser)
    parser.set_defaults(command=_slots)


def _add_explain(commands: Any) -> None:
    parser = commands.add_parser(
        "explain",
        help="what a stray part is, where it belongs, what it does",
        description="Explain one part: an entry of a teardown list (FOUND ENTRY), or sizes by hand with --machine, like: --machine freight-tricycle washer 28x20x0.5 mic, not magnetic. What it is and why it is here are two answers; exit status 0 where the object is identified, 2 for a shortlist or an unknown part.",
    )
    parser.add_argument("words", metavar="WORD", nargs="+", help="FOUND ENTRY: a teardown list and the number of the entry; or the part in words")
    parser.add_argument("--machine", metavar="MACHINE", help="the part is described by hand; look for it on this machine")
    parser.add_argument("--found-in", metavar="REF", help="the assembly that a part described by hand was found in")
    parser.add_argument("--also", metavar="FOUND", type=Path, action="append", default=[], help="another open teardown list of this bench; as often as wanted")
    parser.add_argument("--built", choices=("new", "old"), default="", help="the assembly was newly built, or has run for long")
    _common(parser)
    parser.set_defaults(command=_explain)


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
    from stackcheck.present import as_json
    from stackcheck.present.blocks import show
    from stackcheck.present.stack_page import distance_page, page
    from stackcheck.result.lengths import between, lengths

    reference, found = _reference_and_list(options)
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
        _print_json(as_json.lengths(reference, stacks, loops) | _forces(options, reference, found))
    else:
        show([*page(reference, stacks, loops, with_found=found is not None), *_forces(options, reference, found)])
    known = [result.as_found.total for result in stacks] + [result.as_found.gap or result.as_found.measured for result in loops]
    return DONE if all(each is not None for each in known) else CANNOT_TELL


def _forces(options: argparse.Namespace, reference: Any, found: Any) -> Any:
    """What joints and springs do, as blocks or as JSON; not for one stack or gap alone: it loads the numerical libraries."""
    from stackcheck.formats.sizes import amount_of

    torque = None if options.torque is None else _said("--torque", options.torque, lambda text: amount_of("torque", text))
    warm = None if options.temperature is None else _said("--temperature", options.temperature, lambda text: amount_of("temperature", text))
    if warm is not None and not warm.nominal > ABSOLUTE_ZERO_C:
        raise _mistake("--temperature", f'"{options.temperature[:60]}" lies below absolute zero', "name a temperature above -273.15 °C")
    if options.only:
        return {"forces": [], "disc_springs": []} if options.json else []
    from stackcheck.present import forces_json
    from stackcheck.present.forces_page import forces_blocks, springs_blocks
    from stackcheck.result.forces import forces, springs

    results = forces(reference, found, torque_nmm=torque.nominal if torque else None, at_c=warm.nominal if warm else 20.0)
    discs = springs(reference, found)
    if options.json:
        return {"forces": [forces_json.joint(each) for each in results], "disc_springs": [forces_json.springs(each) for each in discs]}
    with_found = found is not None
    return [*forces_blocks(results, with_found=with_found), *springs_blocks(discs, with_found=with_found)]


def _shims(options: argparse.Namespace) -> int:
    from stackcheck.formats.box import read_box
    from stackcheck.present import choosing_json
    from stackcheck.present.blocks import show
    from stackcheck.present.choosing_page import shims_page
    from stackcheck.result.choosing import CannotChoose, shims

    reference, found = _reference_and_list(options)
    box = _said("--box", options.box, read_box) if options.box is not None else ()
    try:
        answer = shims(
            reference, options.gap, box, found=found, measured=_reading("--measured", options.measured), place=options.at,
            target=_range("--target", options.target),
        )  # fmt: skip
    except CannotChoose as problem:
        raise _mistake(reference.id, problem.what, problem.wanted) from None
    if options.json:
        _print_json(choosing_json.shims(reference, answer, found))
    else:
        show(shims_page(reference, answer, found))
    return DONE if answer.is_sure else CANNOT_TELL


def _slots(options: argparse.Namespace) -> int:
    from stackcheck.present import choosing_json
    from stackcheck.present.blocks import show
    from stackcheck.present.choosing_page import slots_page
    from stackcheck.result.choosing import CannotChoose, nut_slots

    reference = _reference(_library(options), options.reference)
    measured = _reading("READING", options.measured)
    try:
        answer = nut_slots(reference, options.gap, measured, target=_range("--target", options.target))
    except CannotChoose as problem:
        raise _mistake(reference.id, problem.what, problem.wanted) from None
    if options.json:
        _print_json(choosing_json.slots(reference, answer))
    else:
        show(slots_page(reference, answer))
    return DONE if answer.is_sure else CANNOT_TELL


def _reference_and_list(options: argparse.Namespace) -> tuple[Any, Any]:
    """The reference, and the teardown list of it where one is named."""
    from stackcheck.formats.found_file import read_found

    library = _library(options, near=options.found)
    reference = _reference(library, options.reference)
    if options.found is None:
        return reference, None
    found, listed = read_found(options.found, library.reference)
    if listed.id != reference.id:
        raise _mistake(options.found, f"the list is of {listed.id}", f"name that reference, or a list of {reference.id}")
    return reference, found


def _said(option: str, text: str, read: Callable[[str], Any]) -> Any:
    """What an option says, read as the files are; a mistake names the option."""
    try:
        return read(text)
    except SizeError as problem:
        raise _mistake(option, f'"{problem.said[:60]}" cannot be read', problem.wanted) from None


def _reading(option: str, text: str | None) -> Any:
    from stackcheck.formats.sizes import reading_of

    return None if text is None else _said(option, text, reading_of)


def _range(option: str, text: str | None) -> tuple[float, float] | None:
    from stackcheck.units import read_limits

    if text is None:
        return None
    written = _said(option, text, lambda said: read_limits(said, may_be_negative=True))
    if written.least is None or written.most is None:
        raise _mistake(option, f'"{text[:60]}" has no two ends', 'write least..most, like "0.02..0.06 mm"')
    return written.least, written.most


def _explain(options: argparse.Namespace) -> int:
    from stackcheck.stray.explain import explain

    if options.machine is None:
        stray, bench = _listed_stray(options)
    else:
        stray, bench = _typed_stray(options)
    explained = explain(stray, bench)
    if options.json:
        from stackcheck.present import stray_json

        _print_json(stray_json.explained(explained))
    else:
        from stackcheck.present.blocks import show
        from stackcheck.present.stray_page import page

        show(page(explained))
    return explained.exit_status


def _listed_stray(options: argparse.Namespace) -> tuple[Any, Any]:
    from stackcheck.formats.found_file import read_found
    from stackcheck.stray.seen import stray_of

    if len(options.words) != 2:
        raise _mistake("explain", f'"{" ".join(options.words)}" is no list with an entry', "write FOUND ENTRY, or --machine MACHINE and the part in words")
    file, number = Path(options.words[0]), options.words[1]
    library = _library(options, near=file)
    found, reference = read_found(file, library.reference)
    if not number.isdecimal() or not 1 <= int(number) <= len(found.entries):
        raise _mistake(file, f'there is no entry "{number}"', f"the list has entries 1 to {len(found.entries)}")
    entry = found.entry(int(number))
    kind = reference.part(entry.part).kind if entry.part and reference.has_part(entry.part) else ""
    lists = [(found, reference), *(read_found(other, library.reference) for other in options.also)]
    return stray_of(entry, reference.id, kind), _bench(library, reference.id.partition("/")[0], lists, options.built)


def _typed_stray(options: argparse.Namespace) -> tuple[Any, Any]:
    from stackcheck.formats.found_file import read_found
    from stackcheck.formats.typed_part import read_typed_part
    from stackcheck.stray.seen import stray_of

    library = _library(options)
    home = _reference(library, options.found_in).id if options.found_in else ""
    lists = [read_found(other, library.reference) for other in options.also]
    entry = read_typed_part(options.words)
    return stray_of(entry, home), _bench(library, options.machine, lists, options.built)


def _bench(library: Any, machine: str, lists: list[tuple[Any, Any]], built: str) -> Any:
    """All assemblies of one machine, compared where there is a list of them."""
    from stackcheck.formats.source import did_you_mean
    from stackcheck.stray.bench import Assembly, Bench, compared

    ids = [id for id in library.files if id.partition("/")[0] == machine]
    if not ids:
        machines = list(dict.fromkeys(id.partition("/")[0] for id in library.files))
        what = f"{machine} has no references" if (library.folder / machine).is_dir() else f'unknown machine "{machine}"'
        raise _mistake(library.folder, what, did_you_mean(machine, machines))
    known = {reference.id: compared(reference, found) for found, reference in lists}
    assemblies = tuple(known.pop(id, None) or Assembly(reference=library.reference(id)) for id in ids)
    assemblies += tuple(known.values())  # lists of other machines that lie open on the same bench
    return Bench(assemblies=assemblies, built=built)


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
    if not options.references:
        refused += library.unsound_machines
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


