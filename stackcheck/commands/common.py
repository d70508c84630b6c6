"""What several commands share: exit status, options, the library, and mistakes on the command line."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from stackcheck.errors import InputError, Mistake, SizeError

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

DONE, DIFFERS, CANNOT_TELL, COULD_NOT_RUN = 0, 1, 2, 3
LIBRARY_FOLDER = "reference_assemblies"
LIBRARY_VARIABLE = "STACKCHECK_LIBRARY"


def common_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="answer as JSON, every field described in the manual")
    library_option(parser)


def path(text: str) -> Path:
    """A file or folder as typed; what knows paths is loaded when one is typed, not with every command."""
    from pathlib import Path

    return Path(text)


def library_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--library",
        metavar="FOLDER",
        type=path,
        help=f"folder of machines, several with {os.pathsep} between (default: "
        f"${LIBRARY_VARIABLE}, else what stackcheck.toml names, else {LIBRARY_FOLDER}/ here or above)",
    )


def reference_and_list(options: argparse.Namespace) -> tuple[Any, Any]:
    """The reference, and the teardown list of it where one is named."""
    library = library_of(options, near=options.found)
    reference = reference_in(library, options.reference)
    if options.found is None:
        return reference, None
    found, listed = list_in(options, options.found, library)
    if listed.id != reference.id:
        raise mistake(options.found, f"the list is of {listed.id}", f"name that reference, or a list of {reference.id}")
    return listed, found


def list_in(options: argparse.Namespace, path: Path, library: Any = None) -> tuple[Any, Any]:
    """A teardown list and its reference: from a file, or the list of a job by its name or folder."""
    if not path.is_file() and (job := job_at(options, path)) is not None:
        return job.job.found, job.reference
    from stackcheck.formats.found_file import read_found

    return read_found(path, (library or library_of(options, near=path)).reference)


def job_at(options: argparse.Namespace, path: Path) -> Any:
    """The job of that name or folder, None where there is none."""
    from stackcheck.commands.jobs import is_job, jobs_folder, opened

    for folder in (path, jobs_folder(options) / path):
        if is_job(folder):
            return opened(folder)
    return None


def reference_in(library: Any, id: str) -> Any:
    try:
        return library.reference(id)
    except LookupError as problem:
        raise mistake(library.folder, f'unknown reference "{id}"', str(problem.args[0])) from None


def library_of(options: argparse.Namespace, near: Path | None = None) -> Any:
    """The library named on the command line, else by the environment, else beside the list, here, above,
    or the tool.
    """
    from pathlib import Path

    from stackcheck.formats.library import Library, configured

    named = options.library or (Path(os.environ[LIBRARY_VARIABLE]) if os.environ.get(LIBRARY_VARIABLE) else None)
    if named is not None:
        folders = [Path(name) for name in str(named).split(os.pathsep) if name]
        for folder in folders:
            if not folder.is_dir():
                raise mistake(
                    str(folder), "there is no such folder", "name the folder that holds a folder for each machine"
                )
        return _filled(Library(folders[0], tuple(folders[1:])))
    if folders := configured(Path.cwd()):
        return _filled(Library(folders[0], folders[1:]))
    starts = [near.resolve().parent] if near is not None else []
    starts += [Path.cwd(), Path(__file__).resolve().parent]
    for start in starts:
        for folder in (start, *start.parents):
            if (folder / LIBRARY_FOLDER).is_dir():
                return _filled(Library(_from_here(folder / LIBRARY_FOLDER)))
    raise mistake(LIBRARY_FOLDER, "no library of references was found", "name it: --library FOLDER")


def _filled(library: Any) -> Any:
    """The library, if it holds anything: an empty answer would look like agreement."""
    if not library.files:
        raise mistake(
            library.folder, "no reference stands in this folder", "name the folder that holds a folder for each machine"
        )
    return library


def _from_here(folder: Path) -> Path:
    """A folder as short as it can be said from here: it stands in every message about its files."""
    here = folder.cwd()
    return folder.relative_to(here) if folder.is_relative_to(here) else folder


def said(option: str, text: str, read: Callable[[str], Any]) -> Any:
    """What an option says, read as the files are; a mistake names the option."""
    try:
        return read(text)
    except SizeError as problem:
        raise mistake(option, f'"{problem.said[:60]}" cannot be read', problem.wanted) from None


def reading_said(option: str, text: str | None) -> Any:
    """A gap or a play as measured; it may be nothing at all."""
    from stackcheck.formats.readings import reading_of

    if text is None:
        return None
    reading = said(option, text, lambda words: reading_of(words, may_be_zero=True))
    if reading.warm is not None:
        wanted = "give it as it was read; --temperature tells what a play is while it is warm"
        raise mistake(option, f'"{text[:60]}": a gap is not brought to 20 °C', wanted)
    return reading


def range_said(option: str, text: str | None) -> tuple[float, float] | None:
    from stackcheck.units import read_limits

    if text is None:
        return None
    written = said(option, text, lambda said: read_limits(said, may_be_negative=True))
    if written.least is None or written.most is None:
        raise mistake(option, f'"{text[:60]}" has no two ends', 'write least..most, like "0.02..0.06 mm"')
    return written.least, written.most


def mistake(file: Path | str, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(file), what=what, wanted=wanted)])


def read_all(library: Any, ids: Sequence[str]) -> tuple[list[Any], list[InputError]]:
    references, refused = [], []
    for id in ids:
        try:
            references.append(reference_in(library, id))
        except InputError as problem:
            refused.append(problem)
    return references, refused


def refuse(refused: list[InputError]) -> int:
    if refused:
        mistakes = [mistake for problem in refused for mistake in problem.mistakes]
        print(InputError(mistakes, consequence="The other files were read."), file=sys.stderr)
    return COULD_NOT_RUN if refused else DONE


def print_json(tree: dict[str, Any]) -> None:
    import json

    print(json.dumps(tree, indent=1, ensure_ascii=False))
