"""What every command that makes a reference shares: where the new file goes, writing it, and what to look at next."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from stackcheck.commands.common import print_json
from stackcheck.errors import InputError, Mistake

NOTHING = "Nothing was written."


def place_of_new(path: Path) -> Path:
    """The path of a new reference, refused before any work is done for it.

    Raises:
        InputError: no .toml, a name that can be no id, a folder that can be none, or a file that is there.
    """
    from stackcheck.formats.reference_parts import ID, ID_WANTED

    if path.suffix != ".toml" or not ID.fullmatch(path.stem):
        raise _refused(path, "a new reference cannot be called that", f"{ID_WANTED}, and the file spacer-tube.toml")
    if path.exists():
        raise _refused(path, "the file exists already", "choose another name")
    if any(above.exists() and not above.is_dir() for above in path.resolve().parents):
        raise _refused(
            path, "it would lie in something that is no folder", "name a folder: its name is the id of the machine"
        )
    return path


def folder_made(path: Path) -> None:
    """Make the folder of the machine where it is not there yet.

    Raises:
        InputError: it cannot be made.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise _refused(path, f"its folder cannot be made ({problem.strerror})", "look at who may write there") from None


def _refused(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence=NOTHING)


def written(options: argparse.Namespace, path: Path, made: Any, remarks: Any, look: Sequence[str]) -> int:
    """Write the reference under the id of its file, read it back, and say what somebody has to look at."""
    from stackcheck.formats.reference_file import write_sound_reference
    from stackcheck.present.blocks import show
    from stackcheck.present.new_page import new_json, new_page
    from stackcheck.references.weak import weaknesses
    from stackcheck.value import replace

    made = replace(made, id=f"{path.resolve().parent.name}/{path.stem}", machine=path.resolve().parent.name)
    folder_made(path)
    read = write_sound_reference(made, path, remarks)
    look = (*look, *(f"{weakness.sentence}; {weakness.mend}" for weakness in weaknesses(read)))
    if options.json:
        print_json(new_json(read, look))
    else:
        show(new_page(read, look))
    return 0
