"""From a file on disk to a tree of plain values, and from a place in the tree back to its line.

tomllib reads, pydantic checks the shape of one table at a time; `Reader` gathers every mistake of the file with its
line, so that somebody who mends a file by hand sees them all together. Nothing here knows what a part is.
"""

from __future__ import annotations

import re
import tomllib
from difflib import get_close_matches
from functools import cached_property
from pathlib import Path
from typing import Any, ClassVar, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, ValidationError

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.near_words import did_you_mean
from stackcheck.formats.positions import Span, TreePath, positions
from stackcheck.formats.toml_slips import explain_slip

LARGEST_BYTES = 5_000_000
"""A reference written by hand has some thousands of bytes; beyond this it is another kind of file."""

DEEPEST = 40
"""No file of ours nests deeper than four; far below the depth at which reading would run out of stack."""

FILE_KINDS = {
    "as found": "an as-found list",
    "reference assembly": "a reference assembly",
    "machine": "the words about a machine",
    "gauges": "readings of several gauges",
    "points": "what was found at the points of a machine",
}

Model = TypeVar("Model", bound=BaseModel)


class Table(BaseModel):
    """A table of one of our files: closed (an unknown key is a mistake) and frozen."""

    # Deferred: a file builds the shapes it uses, which is a third of them.
    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid", strict=True)

    also_called: ClassVar[dict[str, str]] = {}
    """Names people give a key -> our key, for "did you mean"."""
    examples: ClassVar[dict[str, str]] = {}
    """Key that must be given -> how it is written, where that is no plain text."""


_WRONG_TYPE = {
    "string_type": "write it as text, in quotes",
    "bool_type": "write true or false, without quotes",
    "int_type": "write a whole number, without quotes",
    "tuple_type": 'write a list in square brackets, like ["a", "b"]',
    "list_type": "each entry of a list stands under double brackets: [[{key}]]",
    "dict_type": "it is a heading in single brackets, [{key}] or [{key}.name]",
    "model_type": "write it as a table, in braces or under its own heading",
    "model_attributes_type": "write it as a table, in braces or under its own heading",
}


class Reader:
    """One file being read: its text, its tree, and the mistakes found so far."""

    def __init__(self, path: Path, *, shown_as: str = "", consequence: str = "Nothing was compared."):
        self.path = path
        self.name = shown_as or str(path)
        self.consequence = consequence
        self.mistakes: list[Mistake] = []
        self.top_keys: frozenset[str] = frozenset()
        self.text = self._read_text()
        self.tree = self._read_tree()

    def _read_text(self) -> str:
        try:
            if self.path.is_dir():
                raise self._refusal("this is a folder", "name a file in it")
            size = self.path.stat().st_size
            if size > LARGEST_BYTES:
                wanted = f"no file of this kind has more than {LARGEST_BYTES:,}: is it the one you mean?"
                raise self._refusal(f"the file has {size:,} bytes", wanted)
            with self.path.open("rb") as file:
                data = file.read(LARGEST_BYTES)
        except FileNotFoundError:
            raise self._refusal("there is no such file", _like_it(self.path)) from None
        except (OSError, ValueError) as problem:
            reason = getattr(problem, "strerror", None) or str(problem)
            raise self._refusal(f"cannot be read ({reason})", "look at its name and at who may read it") from None
        try:
            return data.decode("utf-8-sig").replace("\r\n", "\n")
        except UnicodeDecodeError as problem:
            line = data[: problem.start].count(b"\n") + 1
            what = f"the text is not UTF-8 (byte 0x{data[problem.start]:02x} in line {line})"
            raise self._refusal(what, "save the file again with the encoding UTF-8") from None

    def _refusal(self, what: str, wanted: str) -> InputError:
        return InputError([Mistake(file=self.name, what=what, wanted=wanted)], consequence=self.consequence)

    def _read_tree(self) -> dict[str, Any]:
        try:
            tree = tomllib.loads(self.text)
        except tomllib.TOMLDecodeError as problem:
            raise self._not_toml(str(problem)) from None
        except ValueError:  # tomllib lets Python's own refusal of a number with thousands of figures through
            raise self._refusal("a number has far too many figures", "no size needs more than ten") from None
        except RecursionError:
            tree = None
        if tree is None or _is_deeper(tree, DEEPEST):
            raise self._refusal(
                "lists or tables are nested too deep", "no file of this kind needs more than four levels"
            )
        return tree

    def _not_toml(self, problem: str) -> InputError:
        said = re.search(r"\(at line (\d+), column (\d+)\)", problem)
        lines = self.text.split("\n")
        number, column = (int(said[1]), int(said[2]) - 1) if said else (len(self.text.rstrip().split("\n")), 0)
        start = sum(len(line) + 1 for line in lines[: number - 1])
        line = lines[number - 1]
        what, wanted, span = explain_slip(problem, self.text, line)
        if span is None:
            from_here = line[column:].strip() and said
            span = (start + column, start + len(line)) if from_here else (start, start + len(line))
        self._point(span, what=what, wanted=wanted)
        return InputError(self.mistakes, consequence=self.consequence)

    @cached_property
    def positions(self) -> dict[TreePath, Span]:
        return positions(self.text)

    def line_of(self, path: TreePath) -> int | None:
        """The line where a place of the tree stands (the nearest table or key above it where it has no line)."""
        span = self._span(path)
        return None if span is None else self._line_at(span.key[0])

    def _span(self, path: TreePath) -> Span | None:
        for length in range(len(path), 0, -1):
            if path[:length] in self.positions:
                return self.positions[path[:length]]
        return None

    def _line_at(self, offset: int) -> int:
        return self.text.count("\n", 0, offset) + 1

    def mistake(self, path: TreePath, what: str, wanted: str, *, said: str | None = None) -> None:
        """Note one mistake at a place of the tree.

        Points at `said` inside the value, at the whole value where it does not stand there, and at the key or heading
        where `said` is None.
        """
        key = ".".join(str(piece) for piece in path)
        span = self._span(path)
        if span is None:
            self.mistakes.append(Mistake(file=self.name, what=what, wanted=wanted, key=key, said=said or ""))
        else:
            self._point(
                span.key if said is None else self._said(said, span), what=what, wanted=wanted, key=key, said=said or ""
            )

    def _said(self, said: str, span: Span) -> tuple[int, int]:
        start, end = span.value
        for piece in (f'"{said}"', said):
            at = self.text.find(piece, start, end) if said else -1
            if at >= 0:
                return at, at + len(piece)
        return start, end

    def _point(self, span: tuple[int, int], **words: str) -> None:
        start, end = span
        line_start = self.text.rfind("\n", 0, start) + 1
        line_end = self.text.find("\n", start)
        line_end = len(self.text) if line_end < 0 else line_end
        self.mistakes.append(
            Mistake(
                file=self.name,
                line=self._line_at(start),
                source_line=self.text[line_start:line_end],
                column=start - line_start,
                width=max(1, min(end, line_end) - start),
                **words,
            )
        )

    def stop_if_mistaken(self) -> None:
        if self.mistakes:
            raise InputError(self.mistakes, consequence=self.consequence)

    def check_top(self, schema: type[Model]) -> Model | None:
        """The whole tree as a table of this shape."""
        self.top_keys = frozenset(schema.model_fields)
        self._refuse_another_kind(schema)
        return self.check(schema, self.tree, (), "the file")

    def _refuse_another_kind(self, schema: type[Model]) -> None:
        """One word about a file of another kind, instead of one about each of its keys."""
        said, (wanted,) = self.tree.get("kind"), get_args(schema.model_fields["kind"].annotation)
        if isinstance(said, str) and said in FILE_KINDS and said != wanted:
            self.mistake(("kind",), f"this is {FILE_KINDS[said]}", f"name {FILE_KINDS[wanted]} here", said=said)
            self.stop_if_mistaken()

    def check(self, schema: type[Model], value: Any, path: TreePath, what: str) -> Model | None:
        """The value as a table of this shape, or None after its mistakes are noted. `what` names the table in words."""
        try:
            return schema.model_validate(value)
        except ValidationError as problem:
            self._note_all(problem, schema, path, what)
            return None

    def check_what_can_be(self, schema: type[Model], value: Any, path: TreePath, what: str) -> Model | None:
        """As `check`, but a table with mistakes comes back without the keys that hold them,
        so that the rest is looked at.
        """
        try:
            return schema.model_validate(value)
        except ValidationError as problem:
            unsound = self._note_all(problem, schema, path, what)
        if not isinstance(value, dict):
            return None
        try:
            return schema.model_validate({key: inner for key, inner in value.items() if key not in unsound})
        except ValidationError:
            return None  # a key that must be there is not, or holds a mistake

    def _note_all(self, problem: ValidationError, schema: type[Table], path: TreePath, what: str) -> set[str | int]:
        """Notes what a table was refused for; returns the keys that hold it."""
        refusals = problem.errors(include_url=False)
        for refusal in refusals:
            self._note(refusal, schema, path, what)
        return {refusal["loc"][0] for refusal in refusals if refusal["loc"]}

    def _note(self, refusal: dict[str, Any], schema: type[Table], path: TreePath, what: str) -> None:
        inside = tuple(refusal["loc"])
        key = next((piece for piece in reversed(inside) if isinstance(piece, str)), "")
        where = path + inside
        if len(inside) > 2 and isinstance(inside[1], int):
            what = f"{what}, {inside[0].removesuffix('s')} {inside[1] + 1}"
        words = refusal.get("ctx", {})
        match refusal["type"]:
            case "extra_forbidden":
                self.mistake(where, f'{what}: unknown key "{key}"', self._known_key(key, _inner(schema, inside[:-1])))
            case "missing":
                example = _inner(schema, inside[:-1]).examples.get(key, f'{key} = "..."')
                self.mistake(where, f'{what}: "{key}" is not given', f"add {example}")
            case "size":
                self.mistake(where, f"{what}: {key} cannot be read", words["wanted"], said=words["said"])
            case "wanted":
                self.mistake(where, f"{what}: {words['what']}", words["wanted"], said=words["said"])
            case "string_too_short":
                self.mistake(where, f"{what}: {key} says nothing", "write it out", said="")
            case "literal_error":
                self.mistake(
                    where,
                    f"{what}: {key} says something else",
                    f"write {key} = {words['expected']}".replace("'", '"'),
                    said="",
                )
            case "greater_than" | "greater_than_equal" | "less_than_equal":
                bounds = {"gt": "above {:g}", "ge": "of at least {:g}", "le": "of at most {:g}"}
                bound = next(bounds[name].format(value) for name, value in words.items() if name in bounds)
                self.mistake(where, f"{what}: {key} is out of range", f"write a number {bound}", said="")
            case kind:
                wanted = _WRONG_TYPE.get(kind, "write it as the other files do").format(key=key)
                self.mistake(where, f"{what}: {key or 'it'} is of the wrong type", wanted, said="")

    def _known_key(self, said: str, schema: type[Table]) -> str:
        if said in schema.also_called:
            return f'write "{schema.also_called[said]}" here'
        if said in self.top_keys:
            return "it belongs to the whole file: move it to the top, above the first heading"
        return did_you_mean(said, sorted(schema.model_fields))


def _inner(schema: type[Table], path: TreePath) -> type[Table]:
    """The shape of the table inside a table, "source" in [assembly] for example."""
    for key in path:
        if isinstance(key, str):
            said = schema.model_fields[key].annotation
            schema = next((each for each in get_args(said) if each is not Ellipsis), said)
    return schema


def _is_deeper(value: Any, depth: int) -> bool:
    """Whether tables and lists nest deeper than `depth`;
    counted level by level, because the nesting may be without end.
    """
    level = [value]
    for _ in range(depth):
        level = [
            inner
            for outer in level
            if isinstance(outer, (dict, list))
            for inner in (outer.values() if isinstance(outer, dict) else outer)
        ]
    return bool(level)


def _like_it(path: Path) -> str:
    try:
        names = [entry.name for entry in path.parent.iterdir()]
    except (OSError, ValueError):
        return f"there is no folder {path.parent} either"
    near = get_close_matches(path.name, names, n=1, cutoff=0.6)
    return f"did you mean {path.parent / near[0]}?" if near else "look at its name"
