"""TOML text for values of ours, and files that did not exist before.

Headings and the shape of lists are ours, so that a written file reads like one written by hand; tomli-w writes the
values. Nothing here ever writes over a file: what somebody typed, with their remarks, stays theirs.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from stackcheck.errors import InputError, Mistake
from stackcheck.value import Value

_LINE = 100
_SAYS_NOTHING = (None, "", (), [])
_REMARKS_FROM = 37
_RULE = 116


class Remarked(Value):
    """An entry of a list with the remark that stands behind it."""

    value: Any
    remark: str


def table_text(heading: str, values: dict[str, Any], remarks: Mapping[str, str] = {}) -> str:
    """A heading with its keys; a value that says nothing is left out.
    `remarks`: key -> what stands behind its value.
    """
    lines = [heading] if heading else []
    lines += [
        remarked(f"{key} = {_value(value)}", remarks.get(key, ""))
        for key, value in values.items()
        if value not in _SAYS_NOTHING
    ]
    return "\n".join(lines) + "\n"


def key_text(name: str) -> str:
    """A name as the last piece of a heading, in quotes where TOML wants them."""
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else _value(name)


def remarked(line: str, remark: str) -> str:
    return f"{line:<{_REMARKS_FROM}} # {' '.join(remark.split())}" if remark else line


def section_text(name: str) -> str:
    """The line that opens a section of a file."""
    return f"# --- {name} ".ljust(_RULE, "-") + "\n"


def join_tables(tables: Iterable[str]) -> str:
    return "\n".join(tables)


def _value(value: Any) -> str:
    if isinstance(value, dict):
        said = [f"{key_text(key)} = {_value(inner)}" for key, inner in value.items() if inner not in _SAYS_NOTHING]
        return "{ " + ", ".join(said) + " }"
    if isinstance(value, (list, tuple)):
        items = [(item.value, item.remark) if isinstance(item, Remarked) else (item, "") for item in value]
        line = "[" + ", ".join(_value(item) for item, _ in items) + "]"
        if len(line) <= _LINE and not any(isinstance(item, dict) or remark for item, remark in items):
            return line
        return "[\n" + "".join(remarked(f"  {_value(item)},", remark) + "\n" for item, remark in items) + "]"
    import tomli_w  # only who writes needs it

    return tomli_w.dumps({"": value}).partition(" = ")[2].rstrip("\n")


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet.

    Raises:
        InputError: it is there already, or cannot be written.
    """
    try:
        with path.open("xb") as file:
            file.write(text.encode())
    except FileExistsError:
        raise _refusal(path, "the file exists already", "choose another name") from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or str(problem)
        raise _refusal(path, f"cannot be written ({reason})", "look at its name and at who may write there") from None


def _refusal(path: Path, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(path), what=what, wanted=wanted)], consequence="Nothing was written.")
