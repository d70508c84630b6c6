"""The remarks of a reference file: the lines above everything, and what stands behind a key or an entry of an order.

They belong to whoever wrote them. A new file made from an old one carries them along; a file that is changed keeps them
where they are (`reference_edit`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from msgspec import field

from stackcheck.formats.positions import TreePath, positions
from stackcheck.value import Value

_BEHIND = re.compile(r"[ \t]*,?[ \t]*#[ \t]*([^\n]*)")


class Remarks(Value, kw_only=True):
    """`head` are the lines above the file. `behind` is what stands behind one thing: ("parts", id, key), ("places",
    name), ("assembly", key), ("stacks", name, key), ("limits", what, key), ("joints", name, key), ...
    """

    head: tuple[str, ...] = ()
    behind: Mapping[tuple[str, ...], str] = field(default_factory=dict)

    def about(self, *path: str) -> dict[str, str]:
        """The remarks behind the keys of one table."""
        return {key[-1]: text for key, text in self.behind.items() if key[:-1] == path}


NONE = Remarks()
NAMED_BY = {
    "stacks": "name",
    "limits": "what",
    "pairings": "what",
    "joints": "name",
    "supports": "place",
    "states": "name",
    "variants": "name",
}
"""Heading of a list of tables -> the key that its tables are called by."""


def remarks_of(text: str, tree: dict) -> Remarks:
    """The remarks of a sound reference file, given its text and its tree."""
    head = []
    for line in text.lstrip("\n").split("\n"):
        if not line.startswith("#"):
            break
        head.append(line.removeprefix("#").strip())
    behind = {}
    for path, span in positions(text).items():
        match = _BEHIND.match(text, span.value[1])
        if match and match[1].strip():
            for name in named_path(path, tree)[:1]:
                behind[name] = match[1].strip()
    return Remarks(head=tuple(head), behind=behind)


def named_path(path: TreePath, tree: dict) -> tuple[tuple[str, ...], ...]:
    """What a place of the tree is called by name instead of by number; a repeat stands for several places at once."""
    match path:
        case (("assembly" | "parts" | "units"), *_) if all(isinstance(piece, str) for piece in path):
            return (path,)
        case ("stacks", int(index), "order", int(item)):
            said = tree["stacks"][index]["order"][item]
            names = (said,) if isinstance(said, str) else said.get("of") or (said.get("place", said.get("gap")),)
            return tuple(("places", name) for name in names)
        case (str(table), int(index), *rest) if table in NAMED_BY and len(rest) < 2:
            return ((table, tree[table][index].get(NAMED_BY[table], ""), *rest),)
    return ()
