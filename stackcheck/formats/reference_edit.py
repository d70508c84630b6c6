"""One change to somebody's own reference file: the values that were asked for, and nothing else.

tomlkit keeps every remark, blank and the sequence of the file. The changed text is read as any reference is, and its
tree must be the old tree with just these values changed; only then does it take the place of the file, in one step.
What is changed is named as `formats.remarks` names it: parts.collar-short.length, limits.seat gap.most,
places.seal@left.toward, one step of a part by its number: parts.hub.sections.2.bore; inside a variant with its name
before: variants.early.parts.collar-short.length, variants.early.serials.
"""

from __future__ import annotations

import copy
import os
import shutil
import tempfile
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.new_file import table_text
from stackcheck.formats.positions import TreePath
from stackcheck.formats.reference_file import read_reference
from stackcheck.formats.remarks import NAMED_BY
from stackcheck.formats.sections import STEPS
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.formats.variants import NAMED
from stackcheck.model.reference import Reference, Revised
from stackcheck.value import Value

CONSEQUENCE = "Nothing was changed."
_WHOLE_NUMBERS = frozenset({"count", "slots", "repeat"})
_YES_OR_NO = frozenset({"fixed", "same_both_ways", "clamped", "floating", "pinched_after_settling"})
_EXAMPLE = 'write NAME=VALUE, like "parts.collar-short.length=18.0 mm ±0.05"'


class Setting(Value, kw_only=True):
    """One value to set: the table's path in the tree, the key, and the value; None takes the key out."""

    path: TreePath
    key: str
    value: Any


def edit_reference(path: Path, wanted: Sequence[str], entry: Revised) -> tuple[Reference, Reference]:
    """Change a reference file in place; returns the reference before and after.

    Args:
        path: the file.
        wanted: "NAME=VALUE"; an empty value takes the key out.
        entry: the new revision, kept at the end of the history; its revision becomes that of the assembly.
    Raises:
        InputError: something that is not there, or a file that would have mistakes; the file is as it was.
    """
    import tomlkit

    before = read_reference(path, consequence=CONSEQUENCE)
    reader = Reader(path, consequence=CONSEQUENCE)
    settings = [_setting(reader, text) for text in wanted]
    settings.append(Setting(path=("assembly",), key="revision", value=entry.revision))
    raw = path.read_bytes().decode("utf-8")
    text = raw.removeprefix("\ufeff")
    document = tomlkit.parse(text)
    tree = copy.deepcopy(reader.tree)
    for setting in settings:
        _apply(document, setting, _inline, tomlkit.table)
        _apply(tree, setting)
    changed = raw[: len(raw) - len(text)] + tomlkit.dumps(document)
    changed = _with_history(changed, entry)
    tree.setdefault("history", []).append(_told(entry))
    if tomllib.loads(changed.removeprefix("\ufeff").replace("\r\n", "\n")) != tree:
        raise _refused(path, "the change would alter more than was asked for", "change the file by hand")
    return before, _put(path, changed)


def _setting(reader: Reader, text: str) -> Setting:
    name, equals, value = text.partition("=")
    if not equals:
        raise _refused(text, "nothing says what to set", _EXAMPLE)
    table, *names = [piece.strip() for piece in name.strip().split(".")]
    key = names[-1] if names else ""
    step = names[-3:-1] if len(names) > 3 and names[-3] in STEPS else []
    owner = names[:-3] if step else names[:-1]
    if table == "variants":
        path = _path_in_variant(reader.tree, [*owner, key], text)
    else:
        path = _path(reader.tree, table, ".".join(owner), text)
    if step:
        path += _path_of_step(reader.tree, path, *step, text)
    return Setting(path=path, key=key, value=_value(key, value.strip(), text))


def _path_of_step(tree: dict[str, Any], owner: TreePath, steps: str, number: str, text: str) -> TreePath:
    """Where one of the steps of a part or a joint stands; they count from 1."""
    there = tree
    for piece in owner:
        there = there.get(piece, {}) if isinstance(there, dict) else there[piece]
    count = len(there.get(steps, ()))
    if not number.isdigit() or not 1 <= int(number) <= count:
        known = f"number 1 to {count}" if count else f"first give them all: {steps}=[{{ ... }}, {{ ... }}]"
        raise _refused(text, f'there is no "{number}" among its {steps}', known)
    return steps, int(number) - 1


def _path(tree: dict[str, Any], table: str, name: str, text: str) -> TreePath:
    """Where the table that is named stands; a place counts where its stack describes it,
    else where it is named first.
    """
    if table == "assembly" and not name:
        return ("assembly",)
    if table in ("parts", "units"):
        known = list(tree.get(table, {}))
        if name in known:
            return (table, name)
    elif table == "places":
        spots = [
            (index, item, said)
            for index, stack in enumerate(tree["stacks"])
            for item, said in enumerate(stack["order"])
        ]
        met = [(index, item, said) for index, item, said in spots if name and name in (said, *_called(said))]
        if met:
            index, item, _ = next((spot for spot in met if isinstance(spot[2], dict)), met[0])
            return ("stacks", index, "order", item)
        known = [each for *_, said in spots for each in ((said,) if isinstance(said, str) else _called(said))]
    elif table in NAMED_BY:
        apart = table == "states" and name.endswith(".apart")  # states.running.apart.hub
        name = name.removesuffix(".apart") if apart else name
        known = [each.get(NAMED_BY[table], "") for each in tree.get(table, [])]
        if name in known:
            return (table, known.index(name), *(["apart"] if apart else []))
    else:
        known = ["assembly", "parts", "places", *NAMED_BY, "units"]  # a variant is found by `_path_in_variant`
        raise _refused(text, f'"{table}" is no heading that can be changed', did_you_mean(table, known))
    raise _refused(text, f'there is no "{name}" among the {table}', did_you_mean(name, known))


def _path_in_variant(tree: dict[str, Any], names: list[str], text: str) -> TreePath:
    """Where a value of a variant stands: its own, or one of what it says otherwise; that need not be there yet."""
    variants = tree.get("variants", [])
    known = [each["name"] for each in variants]
    index, rest = next(
        ((index, rest) for index, name in enumerate(known) if (rest := _behind(name, names))), (None, [])
    )
    if index is None:
        raise _refused(
            text, f'there is no "{".".join(names[:1])}" among the variants', did_you_mean(".".join(names[:1]), known)
        )
    if len(rest) == 1:
        return ("variants", index)
    if rest[0] not in NAMED or len(rest) < 3:
        raise _refused(
            text,
            f'"{".".join(rest)}" is nothing that a variant says',
            f"{did_you_mean(rest[0], list(NAMED))}; then a name and a key: parts.collar-short.length",
        )
    return ("variants", index, rest[0], ".".join(rest[1:-1]))


def _behind(name: str, pieces: list[str]) -> list[str]:
    """What stands behind a name that may hold full stops itself; nothing where it is another one."""
    count = name.count(".") + 1
    return pieces[count:] if ".".join(pieces[:count]) == name else []


def _called(said: Any) -> tuple[str, ...]:
    return (said.get("place", ""), said.get("gap", "")) if isinstance(said, dict) else ()


def _value(key: str, text: str, whole: str) -> Any:
    if not text:
        return None
    if text.startswith("[") or key in _YES_OR_NO or key in _WHOLE_NUMBERS:
        try:
            return tomllib.loads(f"value = {text}")["value"]
        except tomllib.TOMLDecodeError:
            wanted = (
                "true or false"
                if key in _YES_OR_NO
                else "a whole number"
                if key in _WHOLE_NUMBERS
                else '["...", "..."]'
            )
            raise _refused(whole, f'"{text}" cannot be read', f"write {wanted}") from None
    return text


def _apply(
    tree: Any, setting: Setting, make: Callable[[Any], Any] = lambda said: said, table: Callable[[], Any] = dict
) -> None:
    above, last = tree, setting.path[-1]
    for piece in setting.path[:-1]:
        above = above.setdefault(piece, table()) if isinstance(piece, str) else above[piece]
    if setting.path[0] == "stacks" and len(setting.path) > 2:
        # An entry of an order is written anew: it holds no remarks of its own, and a bare name becomes a table.
        said = {"place": above[last]} if isinstance(above[last], str) else dict(above[last])
        above[last] = make(_changed(said, setting))
        return
    said = above.setdefault(last, table()) if isinstance(last, str) else above[last]
    if setting.value is None:
        said.pop(setting.key, None)
    else:
        said[setting.key] = make(setting.value) if setting.key in STEPS else setting.value


def _changed(said: dict[str, Any], setting: Setting) -> dict[str, Any]:
    return {key: value for key, value in (said | {setting.key: setting.value}).items() if value is not None}


def _inline(said: Any) -> Any:
    """A table in braces, a list of such tables in square brackets."""
    import tomlkit

    return tomlkit.parse(table_text("", {"said": said}))["said"]


def _told(entry: Revised) -> dict[str, str]:
    return {name: value for name in ("revision", "date", "what", "by") if (value := getattr(entry, name))}


def _with_history(text: str, entry: Revised) -> str:
    """The entry at the very end of the file, in the line ends of the file."""
    end = "\r\n" if "\r\n" in text else "\n"
    lines = ["", *table_text("[[history]]", _told(entry)).rstrip("\n").split("\n"), ""]
    return text.rstrip() + end + end.join(lines)


def _put(path: Path, text: str) -> Reference:
    """The text takes the place of the file, once it reads as a reference."""
    with tempfile.TemporaryDirectory(dir=path.resolve().parent, prefix=".edit-") as folder:
        draft = Path(folder) / path.name
        draft.write_bytes(text.encode("utf-8"))
        read_reference(draft, shown_as=str(path), consequence=CONSEQUENCE)
        shutil.copymode(path, draft)
        os.replace(draft, path.resolve())
    return read_reference(path)


def _refused(where: Path | str, what: str, wanted: str) -> InputError:
    return InputError([Mistake(file=str(where), what=what, wanted=wanted)], consequence=CONSEQUENCE)
