"""What every command that makes a reference shares: where the new file goes, writing it, and what to look at next."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from stackcheck.commands.common import mistake, print_json


def place_of_new(path: Path) -> Path:
    """The path of a new reference, refused before any work is done for it.

    Raises:
        InputError: no .toml, a name that can be no id, a folder that is not there, or a file that is.
    """
    from stackcheck.formats.reference_parts import ID, ID_WANTED

    if path.suffix != ".toml" or not ID.fullmatch(path.stem):
        raise mistake(path, "a new reference cannot be called that", f"{ID_WANTED}, and the file spacer-tube.toml")
    if path.exists():
        raise mistake(path, "the file exists already", "choose another name")
    if not path.resolve().parent.is_dir():
        raise mistake(path, "its folder is not there", f"make the folder {path.parent} first: its name is the id of the machine")
    return path


def written(options: argparse.Namespace, path: Path, made: Any, remarks: Any, look: Sequence[str]) -> int:
    """Write the reference under the id of its file, read it back, and say what somebody has to look at."""
    from stackcheck.formats.reference_file import write_sound_reference
    from stackcheck.present.blocks import show
    from stackcheck.present.new_page import new_json, new_page
    from stackcheck.references.weak import weaknesses
    from stackcheck.value import replace

    made = replace(made, id=f"{path.resolve().parent.name}/{path.stem}", machine=path.resolve().parent.name)
    read = write_sound_reference(made, path, remarks)
    look = (*look, *(f"{weakness.sentence}; {weakness.mend}" for weakness in weaknesses(read)))
    if options.json:
        print_json(new_json(read, look))
    else:
        show(new_page(read, look))
    return 0
