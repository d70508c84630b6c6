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


def for_machine(reference: Any, option: str, text: str) -> Any:
    """The reference as it is on one machine: 'serial 42', 'year 2009, serial 42', or a variant by its name;
    as it stands for "".

    Raises:
        InputError: no variant of that name.
    """
    from stackcheck.formats.source import did_you_mean

    if not text:
        return reference
    said = [piece.strip().partition(" ")[::2] for piece in text.split(",")]
    if all(word in ("year", "serial") and value for word, value in said) and len(dict(said)) == len(said):
        return reference.for_a_machine(dict(said).get("year", ""), dict(said).get("serial", ""))
    for variant in reference.variants:
        if variant.name == text:
            return variant.as_reference
    names = [variant.name for variant in reference.variants]
    wanted = (
        f'{did_you_mean(text, names)}; or write "serial 42" or "year 2009, serial 42"'
        if names
        else f'{reference.id} has no variants; write "serial 42" or "year 2009, serial 42"'
    )
    raise mistake(option, f'"{text[:60]}" is no variant of {reference.id}', wanted)


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
