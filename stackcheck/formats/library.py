"""A library: a folder of machines, each a folder with `machine.toml` and one file per assembly."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.reference_file import read_reference
from stackcheck.formats.source import did_you_mean
from stackcheck.model.machine import MACHINE_FILE, Machine
from stackcheck.model.reference import Reference

CONFIG_FILE = "stackcheck.toml"


@dataclass(frozen=True)
class Library:
    """A folder of machines, each a folder with `machine.toml` and one file per assembly.

    `below` are further folders, looked in where those before them hold no file of that name: one's own references over
    those of the workshop over those of a club.
    """

    folder: Path
    below: tuple[Path, ...] = ()

    def _layered(self, pattern: str) -> list[Path]:
        """Every file of the pattern, that of an earlier folder in place of one of the same name in a later one."""
        found: dict[Path, Path] = {}
        for folder in (self.folder, *self.below):
            for file in folder.glob(pattern):
                found.setdefault(file.relative_to(folder), file)
        return list(found.values())

    @cached_property
    def files(self) -> dict[str, Path]:
        """Reference id ("freight-tricycle/front-hub") -> its file, sorted by id."""
        found = {
            f"{file.parent.name}/{file.stem}": file for file in self._layered("*/*.toml") if file.name != MACHINE_FILE
        }
        return dict(sorted(found.items()))

    @cached_property
    def machines(self) -> tuple[Machine, ...]:
        from stackcheck.formats.machine_file import read_machine  # a comparison reads no machine file

        return tuple(read_machine(file) for file in self.machine_files)

    def machine(self, id: str) -> Machine:
        """Read one machine by the name of its folder. Raises LookupError (says which there are) or InputError."""
        from stackcheck.formats.machine_file import read_machine

        files = {file.parent.name: file for file in self.machine_files}
        if id not in files:
            raise LookupError(did_you_mean(id, list(files)))
        return read_machine(files[id])

    def machine_of(self, reference: str) -> Machine | None:
        """The machine of a reference id; None where nothing sound is written about it."""
        try:
            return self.machine(reference.partition("/")[0])
        except (LookupError, InputError):
            return None

    @property
    def unsound_machines(self) -> list[InputError]:
        """What is wrong in the machine files, one error a file."""
        from stackcheck.formats.machine_file import read_machine

        refused = []
        for file in self.machine_files:
            try:
                read_machine(file)
            except InputError as problem:
                refused.append(problem)
        return refused

    @property
    def machine_files(self) -> list[Path]:
        return sorted(self._layered(f"*/{MACHINE_FILE}"))

    def path_of(self, id: str) -> Path:
        """The file of a reference; "front-hub" will do where only one machine has one.

        Raises:
            LookupError: says which references there are.
        """
        if id in self.files:
            return self.files[id]
        short = [known for known in self.files if known.endswith(f"/{id}")]
        if len(short) == 1:
            return self.files[short[0]]
        if short:
            raise LookupError(f"several machines have one: {', '.join(short)}")
        if not self.files:
            raise LookupError(f"no reference stands in {self.folder}")
        near = [
            known for known in self.files if known.partition("/")[2] in get_close_matches(id, self._short_names, n=1)
        ]
        raise LookupError(f"did you mean {' or '.join(near)}?" if near else did_you_mean(id, list(self.files)))

    @property
    def _short_names(self) -> list[str]:
        return [known.partition("/")[2] for known in self.files]

    def reference(self, id: str) -> Reference:
        """Read a reference by its id. Raises LookupError (unknown id) or InputError (the file has mistakes)."""
        path = self.path_of(id)
        reference = read_reference(path)
        if reference.id != f"{path.parent.name}/{path.stem}":
            wanted = f'the file is called {path.name}: write id = "{path.stem}"'
            mistake = Mistake(file=str(path), what=f'the id says "{reference.id}"', wanted=wanted)
            raise InputError([mistake])
        return reference


def configured(start: Path) -> tuple[Path, ...]:
    """The folders that a `stackcheck.toml` here or above names under `libraries`, relative to that file;
    none without one.

    Raises:
        InputError: the file has mistakes, or names a folder that is not there.
    """
    for folder in (start, *start.parents):
        file = folder / CONFIG_FILE
        if file.is_file():
            return _configured_in(file)
    return ()


def _configured_in(file: Path) -> tuple[Path, ...]:
    import tomllib

    wanted = 'write libraries = ["references", "../workshop"], folders that hold a folder for each machine'
    try:
        names = tomllib.loads(file.read_text(encoding="utf-8")).get("libraries", [])
    except (OSError, ValueError) as problem:
        raise InputError([Mistake(file=str(file), what=f"cannot be read ({problem})", wanted=wanted)]) from None
    if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
        raise InputError(
            [Mistake(file=str(file), key="libraries", what="libraries is no list of folders", wanted=wanted)]
        )
    folders = tuple(file.parent / name for name in names)
    lost = [str(folder) for folder in folders if not folder.is_dir()]
    if lost:
        raise InputError(
            [Mistake(file=str(file), key="libraries", what=f"there is no folder {lost[0]}", wanted=wanted)]
        )
    return folders
