"""From a file on disk to a tree of plain values, and from a place in the tree back to its line.

tomllib reads, pydantic checks the shape of one table at a time; `Reader` gathers every mistake of the file with its line,
so that somebody who mends a file by hand sees them all together. Nothing here knows what a part is.
"""

from __future__ import annotations

import re
import tomllib
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ConfigDict, ValidationError

from stackcheck.errors import InputError, Mistake

LARGEST_BYTES = 5_000_000
"""A reference written by hand has some thousands of bytes; beyond this it is another kind of file."""

Key = str | int
Path_ = tuple[Key, ...]
Model = TypeVar("Model", bound=BaseModel)


class Table(BaseModel):
    """A table of one of our files: closed (an unknown key is a mistake) and frozen."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


_SAYS = {
    "string_type": "write it as text, in quotes",
    "bool_type": "write true or false, without quotes",
    "int_type": "write a whole number, without quotes",
    "tuple_type": 'write a list in square brackets, like ["a", "b"]',
    "list_type": 'write a list in square brackets, like ["a", "b"]',
    "dict_type": "write it as a table",
    "model_type": "write it as a table, in braces or under its own heading",
    "greater_than_equal": "the number is too small",
    "less_than_equal": "the number is too large",
}


class Reader:
    """One file being read: its text, its tree, and the mistakes found so far."""

    def __init__(self, path: Path, *, shown_as: str = "", consequence: str = "Nothing was compared."):
        self.path = path
        self.name = shown_as or str(path)
        self.consequence = consequence
        self.mistakes: list[Mistake] = []
        self.text = self._read_text()
        self.lines = self.text.splitlines()
        self.tree = self._read_tree()

    def _stop(self, what: str, wanted: str, line: int | None = None) -> InputError:
        source_line = self.lines[line - 1] if line and hasattr(self, "lines") and line <= len(self.lines) else ""
        mistake = Mistake(file=self.name, what=what, wanted=wanted, line=line, source_line=source_line)
        return InputError([mistake], consequence=self.consequence)

    def _read_text(self) -> str:
        try:
            if self.path.is_dir():
                raise self._stop("this is a folder", "name a file")
            if self.path.stat().st_size > LARGEST_BYTES:
                raise self._stop(
                    f"the file has {self.path.stat().st_size:,} bytes",
                    f"more than {LARGEST_BYTES:,} is no file of this kind: is it the right one?",
                )
            data = self.path.read_bytes()
        except FileNotFoundError:
            raise self._stop("there is no such file", _like_it(self.path)) from None
        except (OSError, ValueError) as problem:
            reason = getattr(problem, "strerror", None) or str(problem)
            raise self._stop(f"cannot be read ({reason})", "check the name and who may read it") from None
        try:
            return data.decode("utf-8-sig")
        except UnicodeDecodeError as problem:
            line = data[: problem.start].count(b"\n") + 1
            byte = data[problem.start]
            raise self._stop(
                f"the text is not UTF-8 (byte 0x{byte:02x})", "save the file as UTF-8", line
            ) from None

    def _read_tree(self) -> dict[str, Any]:
        try:
            return tomllib.loads(self.text)
        except tomllib.TOMLDecodeError as problem:
            found = re.search(r"\(at line (\d+), column \d+\)", str(problem))
            line = int(found.group(1)) if found else len(self.lines) or None
            reason = str(problem).partition(" (at ")[0]
            raise self._stop(f"this is not TOML: {reason[0].lower()}{reason[1:]}", _toml_hint(reason), line) from None
        except RecursionError:
            raise self._stop("lists or tables are nested too deep", "no file of this kind needs more than four levels") from None

    def mistake(self, path: Path_, what: str, wanted: str, *, said: str = "") -> None:
        """Note one mistake at a place of the tree; `said` finds the exact line and is pointed at."""
        line = self.line_of(path, said)
        self.mistakes.append(
            Mistake(
                file=self.name,
                what=what,
                wanted=wanted,
                line=line,
                key=".".join(str(key) for key in path),
                said=said,
                source_line=self.lines[line - 1] if line else "",
            )
        )

    def stop_if_mistaken(self) -> None:
        if self.mistakes:
            raise InputError(self.mistakes, consequence=self.consequence)

    def check(self, schema: type[Model], value: Any, path: Path_, what: str) -> Model | None:
        """The value as a table of this shape, or None after its mistakes are noted. `what` names the table in words."""
        try:
            return schema.model_validate(value)
        except ValidationError as problem:
            for error in problem.errors(include_url=False, include_context=True):
                self._note(error, schema, path, what)
            return None

    def _note(self, error: dict[str, Any], schema: type[BaseModel], path: Path_, what: str) -> None:
        inside = tuple(error["loc"])
        key = str(inside[0]) if inside else ""
        kind = error["type"]
        value = error.get("input")
        if kind == "extra_forbidden":
            known = sorted(_keys(schema))
            self.mistake(path + inside, f'{what}: unknown key "{inside[-1]}"', did_you_mean(str(inside[-1]), known), said=str(inside[-1]))
        elif kind == "missing":
            self.mistake(path, f'{what}: "{inside[-1]}" is not given', f'add {inside[-1]} = "..."')
        elif kind == "size":
            self.mistake(path + inside, f"{what}: {key} cannot be read", error["ctx"]["wanted"], said=error["ctx"]["said"])
        elif kind == "wanted":
            self.mistake(path + inside, f"{what}: {error['ctx']['what']}", error["ctx"]["wanted"], said=error["ctx"]["said"])
        else:
            said = value if isinstance(value, str) else ""
            self.mistake(path + inside, f"{what}: {key or 'it'} is of the wrong type", _SAYS.get(kind, error["msg"]), said=said)

    def line_of(self, path: Path_, said: str = "") -> int | None:
        """The line where a place of the tree stands (the nearest table or key above it where it has no line)."""
        index = _line_index(self.lines)
        start = None
        for length in range(len(path), 0, -1):
            start = index.get(path[:length])
            if start is not None:
                break
        if start is None:
            return None
        if said:
            stop = min((line for line in index.values() if line > start), default=len(self.lines) + 1)
            for line in range(start, min(stop, len(self.lines) + 1)):
                if said in self.lines[line - 1]:
                    return line
        return start


_HEADER = re.compile(r"\s*(\[\[?)\s*([^\]]+?)\s*\]\]?")
_KEY = re.compile(r"\s*((?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')(?:\s*\.\s*(?:[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*'))*)\s*=")
_PIECE = re.compile(r"[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*'")


def _pieces(text: str) -> tuple[str, ...]:
    return tuple(piece.strip("\"'") for piece in _PIECE.findall(text))


def _line_index(lines: list[str]) -> dict[Path_, int]:
    """Where each table and key stands. Good enough to point at a line; tomllib has already read the file."""
    index: dict[Path_, int] = {}
    counts: dict[tuple[str, ...], int] = {}
    here: Path_ = ()
    for number, line in enumerate(lines, start=1):
        header = _HEADER.match(line)
        if header and line.lstrip().startswith("["):
            names = _pieces(header.group(2))
            if header.group(1) == "[[":
                counts[names] = counts.get(names, -1) + 1
            here = ()
            for length in range(1, len(names) + 1):
                here += (names[length - 1],)
                if names[:length] in counts:
                    here += (counts[names[:length]],)
            index.setdefault(here, number)
            continue
        key = _KEY.match(line)
        if key:
            index.setdefault(here + _pieces(key.group(1)), number)
    return index


def did_you_mean(said: str, known: list[str] | tuple[str, ...]) -> str:
    """ "did you mean "length"? Known here: ..." for a word that is not known."""
    near = get_close_matches(said, known, n=1, cutoff=0.6)
    start = f'did you mean "{near[0]}"? ' if near else ""
    shown = ", ".join(known[:24]) + (f" and {len(known) - 24} more" if len(known) > 24 else "")
    return f"{start}Known here: {shown}" if known else "none is known here"


def _keys(schema: type[BaseModel]) -> list[str]:
    return [field.alias or name for name, field in schema.model_fields.items()]


def _like_it(path: Path) -> str:
    try:
        names = [entry.name for entry in path.parent.iterdir()]
    except OSError:
        return f"there is no folder {path.parent} either"
    near = get_close_matches(path.name, names, n=1, cutoff=0.6)
    return f"did you mean {path.parent / near[0]}?" if near else "check the name"


def _toml_hint(reason: str) -> str:
    if "overwrite" in reason or "Cannot declare" in reason or "twice" in reason:
        return "the same key or table stands twice: rename or remove one"
    if "Invalid value" in reason or "Unterminated" in reason or "Illegal character" in reason:
        return 'text stands in quotes, like length = "22.0 mm"'
    return 'a line reads key = "value"; a heading stands in [brackets]'
