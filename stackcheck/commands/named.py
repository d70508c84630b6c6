"""References and machines as a command names them: by id in the library, or by the path of a file or folder."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from stackcheck.commands.common import library_of, mistake, reference_in


def is_file(text: str) -> bool:
    return text.endswith(".toml")


def is_machine_folder(text: str) -> bool:
    from stackcheck.model.machine import MACHINE_FILE

    return (Path(text) / MACHINE_FILE).is_file()


def named_reference(options: argparse.Namespace, text: str) -> Any:
    """The reference of a path that ends in .toml, else of an id in the library."""
    if is_file(text):
        from stackcheck.formats.reference_file import read_reference

        return read_reference(Path(text))
    return reference_in(library_of(options), text)


def is_machine(options: argparse.Namespace, text: str) -> bool:
    if is_machine_folder(text):
        return True
    return not is_file(text) and any(id.startswith(f"{text}/") for id in library_of(options).files)


def references_of_machine(options: argparse.Namespace, text: str) -> list[Any]:
    """All references of a machine, named by its folder or by its id in the library."""
    from stackcheck.formats.library import Library

    folder = Path(text).resolve() if is_machine_folder(text) else None
    library = Library(folder.parent) if folder else library_of(options)
    machine = folder.name if folder else text
    found = [library.reference(id) for id in library.files if id.startswith(f"{machine}/")]
    if not found:
        raise mistake(text, "no reference stands in this machine's folder", "name a folder that holds references")
    return found
