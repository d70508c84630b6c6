"""Machines and their references as one file to hand to somebody: a plain zip archive of their TOML files, and back.

Nothing is run from a pack. Before anything is written, every name in it must be that of a machine's file, every size
within bounds, and every file must read as what it says it is; a pack that holds anything else is refused whole.
"""

from __future__ import annotations

import re
import tempfile
import zipfile
from collections.abc import Mapping
from pathlib import Path

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.machine_file import read_machine
from stackcheck.formats.new_file import write_new
from stackcheck.formats.reference_file import read_reference
from stackcheck.model.machine import MACHINE_FILE

MOST_FILES = 2_000
LARGEST_FILE = 5_000_000
LARGEST_PACK = 50_000_000
_NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,63}/[a-z0-9][a-z0-9-]{0,63}\.toml")
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The same files make the same pack, whenever they are packed."""


def pack(files: Mapping[str, Path], path: Path) -> None:
    """Write the files ("machine/assembly.toml" -> where it lies) as a new pack.

    Raises:
        InputError: the file exists already or cannot be written.
    """
    try:
        with path.open("xb") as out, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, file in sorted(files.items()):
                archive.writestr(zipfile.ZipInfo(name, _FIRST_DAY), file.read_bytes(), zipfile.ZIP_DEFLATED)
    except FileExistsError:
        raise _refusal(path, "the file exists already", "choose another name") from None
    except OSError as problem:
        raise _refusal(
            path, f"cannot be written ({problem.strerror})", "look at its name and at who may write there"
        ) from None


def unpack(path: Path, folder: Path) -> list[str]:
    """Write every file of a pack below a folder, none over another; returns their names.

    Raises:
        InputError: the pack holds anything that is no machine or reference, or a file of that name is there already.
    """
    texts = _texts(path)
    _check(path, texts)
    there = [name for name in texts if (folder / name).exists()]
    if there:
        raise _refusal(
            folder / there[0],
            "the file exists already",
            "unpack into another folder, and compare the two: references compare",
        )
    for name, text in texts.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        write_new(folder / name, text)
    return list(texts)


def _texts(path: Path) -> dict[str, str]:
    """Name -> text of every file of the pack, no more read than a pack may hold."""
    texts: dict[str, str] = {}
    room = LARGEST_PACK
    try:
        with zipfile.ZipFile(path) as archive:
            entries = archive.infolist()
            if len(entries) > MOST_FILES:
                raise _refusal(
                    path, f"the pack holds {len(entries):,} files", f"no library has more than {MOST_FILES:,}"
                )
            for entry in entries:
                if (
                    not _NAME.fullmatch(entry.filename)
                    or entry.filename in texts
                    or (entry.external_attr >> 28) not in (0, 0o10)
                ):
                    raise _refusal(
                        path,
                        f'the pack holds "{entry.filename[:60]}"',
                        "each file of a pack is machine/assembly.toml, once",
                    )
                with archive.open(entry) as file:
                    data = file.read(min(LARGEST_FILE, room) + 1)
                room -= len(data)
                if len(data) > LARGEST_FILE or room < 0:
                    raise _refusal(
                        path,
                        f"{entry.filename} is far too large",
                        f"no reference needs more than {LARGEST_FILE:,} bytes",
                    )
                texts[entry.filename] = data.decode("utf-8")
    except FileNotFoundError:
        raise _refusal(path, "there is no such file", "look at its name") from None
    except (
        zipfile.BadZipFile,
        zipfile.LargeZipFile,
        UnicodeDecodeError,
        NotImplementedError,
        RuntimeError,
        OSError,
        EOFError,
        ValueError,
    ) as problem:
        raise _refusal(
            path,
            f"this is no pack that can be read ({type(problem).__name__})",
            "ask for it again; it is made by references pack",
        ) from None
    if not texts:
        raise _refusal(path, "the pack holds nothing", "ask for it again")
    return texts


def _check(path: Path, texts: Mapping[str, str]) -> None:
    """Refuses a pack with a file that is neither a machine nor a reference, with every mistake in it."""
    mistakes: list[Mistake] = []
    with tempfile.TemporaryDirectory() as name:
        for each, text in texts.items():
            file = Path(name) / each
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8")
        for each in texts:
            read = read_machine if each.endswith(f"/{MACHINE_FILE}") else read_reference
            try:
                read(Path(name) / each, shown_as=f"{path}/{each}")
            except InputError as problem:
                mistakes += problem.mistakes
    if mistakes:
        raise InputError(mistakes, consequence="Nothing was unpacked.")


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="Nothing was written.")
