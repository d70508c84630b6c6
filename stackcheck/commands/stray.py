"""`explain`: what a stray part is, where it belongs, what it does."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import common_options, library_of, print_json, read_all, reference_in
from stackcheck.errors import InputError, Mistake


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "explain",
        help="what a stray part is, where it belongs, what it does",
        description="Explain one part: an entry of a teardown list (FOUND ENTRY), or sizes by hand with --machine, "
        "like: --machine freight-tricycle washer 28x20x0.5 mic, not magnetic. What it is and why it is here are two "
        "answers; exit status 0 where the object is identified, 2 for a shortlist or an unknown part.",
    )
    parser.add_argument(
        "words",
        metavar="WORD",
        nargs="+",
        help="FOUND ENTRY: a teardown list and the number of the entry; or the part in words",
    )
    parser.add_argument(
        "--machine", metavar="MACHINE", help="the part is described by hand; look for it on this machine"
    )
    parser.add_argument("--found-in", metavar="REF", help="the assembly that a part described by hand was found in")
    parser.add_argument(
        "--also",
        metavar="FOUND",
        type=Path,
        action="append",
        default=[],
        help="another open teardown list of this bench; as often as wanted",
    )
    parser.add_argument(
        "--built", choices=("new", "old"), default="", help="the assembly was newly built, or has run for long"
    )
    common_options(parser)
    parser.set_defaults(command=_explain)


def _explain(options: argparse.Namespace) -> int:
    from stackcheck.stray.explain import explain, with_other_machines

    if options.machine is None:
        stray, bench, library = _listed_stray(options)
    else:
        stray, bench, library = _typed_stray(options)
    explained = explain(stray, bench)
    if explained.has_no_home:
        references, refused = read_all(library, [id for id in library.files if bench.assembly(id) is None])
        explained = with_other_machines(
            explained, references, [mistake.file for error in refused for mistake in error.mistakes[:1]]
        )
    if options.json:
        from stackcheck.present import stray_json

        print_json(stray_json.explained(explained))
    else:
        from stackcheck.present.blocks import show
        from stackcheck.present.stray_page import page

        show(page(explained))
    return explained.exit_status


def _listed_stray(options: argparse.Namespace) -> tuple[Any, Any, Any]:
    from stackcheck.commands.common import list_in
    from stackcheck.stray.seen import stray_of

    if len(options.words) != 2:
        raise _refused(
            "explain",
            f'"{" ".join(options.words)}" is no list with an entry',
            "write FOUND ENTRY, or --machine MACHINE and the part in words",
        )
    file, number = Path(options.words[0]), options.words[1]
    library = library_of(options, near=file)
    found, reference = list_in(options, file, library)
    loose = [entry.number for entry in found.entries if entry.is_loose]
    if number[:1] in "xX" and number[1:].isdecimal() and 1 <= int(number[1:]) <= len(loose):
        number = str(loose[int(number[1:]) - 1])
    if not number.isdecimal() or not 1 <= int(number) <= len(found.entries):
        raise _refused(file, f'there is no entry "{number}"', f"the list has entries 1 to {len(found.entries)}")
    entry = found.entry(int(number))
    _refuse_contradictions(f"{file}: entry {number}", entry)
    kind = reference.part(entry.part).kind if entry.part and reference.has_part(entry.part) else ""
    lists = [
        (found, reference),
        *(list_in(options, other, library) for other in options.also),
        *_other_jobs(options, file),
    ]
    return (
        stray_of(entry, reference.id, kind),
        _bench(library, reference.id.partition("/")[0], lists, options.built),
        library,
    )


def _other_jobs(options: argparse.Namespace, name: Path) -> list[tuple[Any, Any]]:
    """The lists of all other open jobs, where an entry of a job is explained: they came apart on the same bench."""
    if name.is_file():
        return []
    from stackcheck.commands.jobs import jobs_folder, open_jobs

    return [
        (other.job.found, other.reference)
        for other in open_jobs(jobs_folder(options))
        if other.name != name.name and other.job.offs
    ]


def _typed_stray(options: argparse.Namespace) -> tuple[Any, Any, Any]:
    from stackcheck.commands.common import list_in
    from stackcheck.formats.typed_part import read_typed_part
    from stackcheck.stray.seen import stray_of
    from stackcheck.value import replace

    library = library_of(options)
    home = reference_in(library, options.found_in) if options.found_in else None
    lists = [list_in(options, other, library) for other in options.also]
    entry = read_typed_part(options.words).entry
    _refuse_contradictions("explain", entry)
    stray = replace(stray_of(entry, home.id if home else ""), entry=None)  # it stands in no list
    return stray, _bench(library, options.machine, lists, options.built, home), library


def _refuse_contradictions(where: str, entry: Any) -> None:
    from stackcheck.stray.seen import contradictions

    if both := contradictions(entry):
        raise _refused(where, f"it says both {' and '.join(both[0])}", "look again and say one of them")


def _refused(file: Path | str, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(file), what=what, wanted=wanted)], consequence="Nothing was explained.")


def _bench(library: Any, machine: str, lists: list[tuple[Any, Any]], built: str, found_in: Any = None) -> Any:
    """All assemblies of one machine and the one it was found in, compared where there is a list of them."""
    from stackcheck.formats.source import did_you_mean
    from stackcheck.stray.bench import Assembly, Bench, compared

    ids = [id for id in library.files if id.partition("/")[0] == machine]
    if not ids:
        machines = list(dict.fromkeys(id.partition("/")[0] for id in library.files))
        what = f"{machine} has no references" if (library.folder / machine).is_dir() else f'unknown machine "{machine}"'
        raise _refused(library.folder, what, did_you_mean(machine, machines))
    known = {reference.id: compared(reference, found) for found, reference in lists}
    if found_in is not None and found_in.id not in ids:  # it may be of the machine in which it was found, too
        known.setdefault(found_in.id, Assembly(reference=found_in))
    assemblies = tuple(known.pop(id, None) or Assembly(reference=library.reference(id)) for id in ids)
    assemblies += tuple(known.values())  # lists of other machines that lie open on the same bench
    return Bench(assemblies=assemblies, built=built)
