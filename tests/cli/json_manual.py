"""The tables of manual/json.md as a check: what a structure holds, key by key, and what an answer has beside it.

A table stands under the heading that names its structure. Its rows are `key`, what the key holds, and words; a row that
begins with "only" may be absent. "All of [x](#x)" above a table takes in the rows of another one. A table of words
lists the texts that stand where it is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

MANUAL = Path(__file__).parent.parent.parent / "stackcheck/manual/json.md"
LINK = r"\[([^\]]+)\]\(#([^)]+)\)"
REST = "any other size"
SCALARS = {
    "text": str, "true or false": bool, "whole number": int, "number": (int, float), "share": (int, float),
    **dict.fromkeys(("mm", "N", "N·mm", "N/mm", "MPa", "°C", "deg"), (int, float)),
}  # fmt: skip


class Manual:
    """`tables`: structure -> key -> (what it holds, words); `words`: structure -> the texts that it may be."""

    def __init__(self, text: str) -> None:
        self.tables: dict[str, dict[str, tuple[str, str]]] = {}
        self.words: dict[str, list[str]] = {}
        self.met: set[tuple[str, str]] = set()
        taken: dict[str, str] = {}
        for heading, body in re.findall(r"^##+ (.+)\n((?:(?!^##).*\n)*)", text, re.MULTILINE):
            lines = re.findall(r"^\|(.*)\|$", body, re.MULTILINE) or [""]
            head, *rows = [[cell.strip() for cell in line.split("|")] for line in lines]
            if head[0] == "word":
                self.words[heading] = [text for row in rows for text in re.findall(r'`"(.*?)"`', row[0])]
            elif head[0] == "key":
                self.tables[heading] = {
                    key: (holds, said)
                    for names, holds, said in rows[1:]
                    for key in (re.findall(r"`(\w+)`", names) or [names])
                }
                if also := re.search(rf"^All of {LINK}", body, re.MULTILINE):
                    taken[heading] = also[1]
        for heading, name in taken.items():
            while name:
                self.tables[heading] |= self.tables[name]
                name = taken.get(name, "")

    def problems(self, structure: str, answer: Any) -> list[str]:
        """Where an answer is not what the table of `structure` says; remembers every key that was met."""
        return list(self._object(structure, answer, structure))

    def _object(self, structure: str, value: Any, at: str) -> Iterator[str]:
        table = self.tables[structure]
        if not isinstance(value, dict):
            yield f"{at}: not an object"
            return
        yield from (
            f"{at}.{key}: promised, not there"
            for key, (_, said) in table.items()
            if key not in value and not said.startswith("only")
        )
        for key, inside in value.items():
            row = key if key in table else REST
            if row not in table:
                yield f"{at}.{key}: not in the table"
                continue
            self.met.add((structure, row))
            yield from self._holds(*table[row], inside, f"{at}.{key}")

    def _holds(self, holds: str, said: str, value: Any, at: str) -> Iterator[str]:
        if holds.startswith("by name: "):
            for name, inside in value.items():
                yield from self._holds(holds.removeprefix("by name: "), said, inside, f"{at}.{name}")
        elif holds.endswith(" or null"):
            if value is not None:
                yield from self._holds(holds.removesuffix(" or null"), said, value, at)
        elif holds.startswith("list of "):
            if not isinstance(value, list):
                yield f"{at}: not a list"
                return
            inner = re.sub(r"^\((.*)\)$", r"\1", holds.removeprefix("list of "))
            for inside in value:
                yield from self._holds(inner, said, inside, f"{at}[]")
        elif " or [" in holds:
            ways = [self._trial(way, value, at) for way in re.findall(LINK, holds)]
            yield from min(ways, key=len)
        elif link := re.fullmatch(LINK, holds):
            if link[1] in self.words:
                yield from self._among(self.words[link[1]], value, at)
            else:
                yield from self._object(link[1], value, at)
        elif holds == "word":
            yield from self._among([*re.findall(r'`"(.*?)"`', said), *([""] if '`""`' in said else [])], value, at)
        elif type(value) is bool and holds != "true or false" or not isinstance(value, SCALARS[holds]):
            yield f"{at}: {value!r} is not {holds}"

    def _trial(self, way: tuple[str, str], value: Any, at: str) -> list[str]:
        before = set(self.met)
        found = list(self._object(way[0], value, at))
        if found:
            self.met = before
        return found

    @staticmethod
    def _among(words: list[str], value: Any, at: str) -> Iterator[str]:
        if value not in words:
            yield f"{at}: {value!r} is not among {words}"
