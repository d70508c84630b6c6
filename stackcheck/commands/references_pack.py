"""`references pack`, `references unpack`: machines and their references as one file to hand to somebody."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import DONE, library_of, library_option, mistake


def add(actions: Any) -> None:
    packing = actions.add_parser(
        "pack",
        help="one file to hand to somebody",
        description="Machines with all their references as one zip archive of their TOML files; "
        "all machines of the library where none is named.",
    )
    packing.add_argument("out", metavar="FILE", type=Path, help="the new file, like references.zip")
    packing.add_argument("machines", metavar="MACHINE", nargs="*")
    library_option(packing)
    packing.set_defaults(command=_pack)
    opening = actions.add_parser(
        "unpack",
        help="a pack into a folder of machines",
        description="Every file of a pack below a folder, none over another. All are read first; "
        "a pack that holds anything but machines and references is refused whole, and nothing is run from it.",
    )
    opening.add_argument("pack", metavar="FILE", type=Path)
    opening.add_argument("folder", metavar="FOLDER", type=Path)
    opening.set_defaults(command=_unpack)


def _pack(options: argparse.Namespace) -> int:
    from stackcheck.formats.pack_file import pack
    from stackcheck.formats.source import did_you_mean
    from stackcheck.present.names import counted

    library = library_of(options)
    machines = {id.partition("/")[0] for id in library.files}
    for named in options.machines:
        if named not in machines:
            raise mistake(library.folder, f'unknown machine "{named}"', did_you_mean(named, sorted(machines)))
    wanted = set(options.machines) or machines
    files = {
        f"{file.parent.name}/{file.name}": file
        for file in (*library.files.values(), *library.machine_files)
        if file.parent.name in wanted
    }
    pack(files, options.out)
    print(f"{counted(len(files), 'file')} of {counted(len(wanted), 'machine')} in {options.out}.")
    return DONE


def _unpack(options: argparse.Namespace) -> int:
    from stackcheck.formats.pack_file import unpack
    from stackcheck.present.names import counted

    names = unpack(options.pack, options.folder)
    print(f"{counted(len(names), 'file')} in {options.folder}. Use them: --library {options.folder}")
    return DONE
