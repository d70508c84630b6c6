"""A teardown list from its TOML file, and back: what came off, as typed, read against the reference it names.

Names are matched here only so far as they are spelled: a part's id, name or number, "left seal" for the one seal at the
left end. A name that fits gives a guess, `part = "..."` gives a certain identity, anything else stays unknown with the
kind that its words show. Who it really is, is decided by `stackcheck.compare` together with where it sat.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any, Literal

import tomli_w
from pydantic import Field, create_model

from stackcheck.errors import InputError, Mistake
from stackcheck.formats.reference_tables import Texts, one_of
from stackcheck.formats.sizes import MeasuredLength
from stackcheck.formats.source import Reader, Table, did_you_mean
from stackcheck.formats.words import kind_of, plain
from stackcheck.model.found import Entry, Found, Measured
from stackcheck.model.part import KINDS, SIZE_NAMES
from stackcheck.model.reference import Reference

PLACE_SEEN = ("seen in place", "inferred", "found loose")
CAME_OFF = ("by hand", "spanner", "puller", "hammer", "cut", "very hard")


class FoundTables(Table):
    kind: Literal["as found"]
    format: Literal[1]
    reference: str
    revision: str
    finished: bool = True
    title: str = ""
    story: str = ""
    by: str = ""
    date: str = ""
    off: list[Any] = []
    measured: list[Any] = []


class _OffWords(Table):
    what: str = ""
    end: str | None = None
    part: str | None = None
    sure: bool = True
    kind: Annotated[str, one_of(KINDS, "kind")] | None = None
    number: str = ""
    count: Annotated[int, Field(ge=1, le=10_000)] = 1
    feature: str = ""
    toward: str = ""
    feel: Texts = ()
    look: Texts = ()
    came_off: str = ""
    card: str = ""
    tag: str = ""
    place_seen: Annotated[str, one_of(PLACE_SEEN, "way of knowing the place")] | None = None
    stuck_to_next: bool = False
    note: str = ""


ALSO_CALLED = {"thickness": "length", "od": "outside"}
"""Sizes that people write by another name."""

OffTable = create_model(
    "OffTable",
    __base__=_OffWords,
    **{name: (MeasuredLength | None, None) for name in (*SIZE_NAMES, *ALSO_CALLED)},
)


class MeasuredTable(Table):
    reading: MeasuredLength
    place: str = ""
    size: str = ""
    gap: str = ""


def read_found(path: Path | str, find_reference: Callable[[str], Reference]) -> tuple[Found, Reference]:
    """Read a teardown list and the reference it names.

    Args:
        path: the TOML file.
        find_reference: id ("freight-tricycle/front-hub") -> Reference; raises LookupError with the ids that are known.
    Raises:
        InputError: every mistake of the file, each with its line; also an unknown reference or another revision of it.
    """
    reader = Reader(Path(path))
    tables = reader.check(FoundTables, reader.tree, (), "the file")
    reader.stop_if_mistaken()
    try:
        reference = find_reference(tables.reference)
    except LookupError as problem:
        reader.mistake(("reference",), f'unknown reference "{tables.reference}"', str(problem.args[0]), said=tables.reference)
        reader.stop_if_mistaken()
        raise AssertionError from problem  # a noted mistake always stops
    if tables.revision != reference.revision:
        reader.mistake(
            ("revision",),
            f'the list was made against revision "{tables.revision}"',
            f'the reference here is revision "{reference.revision}": see what changed, then write that revision in the list',
            said=tables.revision,
        )
    return _Builder(reader, reference).build(tables), reference


class _Builder:
    def __init__(self, reader: Reader, reference: Reference):
        self.reader = reader
        self.reference = reference
        self.names = _names(reference)

    def build(self, tables: FoundTables) -> Found:
        entries: list[Entry] = []
        pointing: list[tuple[int, str]] = []
        for index, raw in enumerate(tables.off):
            table = self.reader.check(OffTable, raw, ("off", index), f"entry {index + 1}")
            if table is not None:
                entries.append(self._entry(index, table))
                pointing.append((index, table.toward))
        measured = tuple(
            item for index, raw in enumerate(tables.measured) if (item := self._measured(index, raw)) is not None
        )
        if len(entries) == len(tables.off):
            entries = [
                replace(entry, toward=self._toward(entry, toward, entries, ("off", index)))
                for entry, (index, toward) in zip(entries, pointing)
            ]
        self.reader.stop_if_mistaken()
        return Found(
            reference=self.reference.id,
            revision=tables.revision,
            entries=tuple(entries),
            finished=tables.finished,
            measured=measured,
            title=tables.title,
            story=tables.story,
            by=tables.by,
            date=tables.date,
            file=self.reader.name,
        )

    def _entry(self, index: int, table: Any) -> Entry:
        path = ("off", index)
        if not table.what and table.part is None:
            self.reader.mistake(path, f"entry {index + 1}: nothing says what it is", 'add what = "..." in your own words')
        end = self._end(table.end, path, index)
        part, sure = self._identity(table, path, index)
        kind = table.kind or ("" if part else kind_of(table.what))
        return Entry(
            number=index + 1,
            what=table.what or table.part or "",
            end=end,
            part=part,
            sure=sure,
            kind=kind,
            marked=table.number,
            count=table.count,
            sizes=self._sizes(table, path, index),
            feature=table.feature,
            feel=table.feel,
            look=table.look,
            came_off=table.came_off,
            card=table.card,
            tag=table.tag,
            place_seen=table.place_seen or "",
            stuck_to_next=table.stuck_to_next,
            note=table.note,
            line=self.reader.line_of(path),
        )

    def _sizes(self, table: Any, path: tuple[str | int, ...], index: int) -> tuple:
        sizes = {}
        for name in (*SIZE_NAMES, *ALSO_CALLED):
            reading = getattr(table, name)
            if reading is None:
                continue
            own = ALSO_CALLED.get(name, name)
            if own in sizes:
                self.reader.mistake(path + (name,), f"entry {index + 1}: {own} and {name} are one size", "write one of them", said=name)
            sizes[own] = reading
        bore, outside = sizes.get("bore"), sizes.get("outside")
        if bore and outside and bore.low_mm >= outside.high_mm:
            self.reader.mistake(path + ("bore",), f"entry {index + 1}: the bore is not smaller than the outside", "exchange the two, or measure again", said=bore.text)
        return tuple(sizes.items())

    def _end(self, word: str | None, path: tuple[str | int, ...], index: int) -> int | None:
        if word is None:
            return None
        if word not in self.reference.ends:
            ends = self.reference.ends
            self.reader.mistake(path + ("end",), f'entry {index + 1}: unknown end "{word}"', f"{ends[0]} or {ends[1]}: {self.reference.ends_seen_from}", said=word)
            return None
        return self.reference.ends.index(word)

    def _identity(self, table: Any, path: tuple[str | int, ...], index: int) -> tuple[str | None, bool]:
        if table.part is not None:
            part = self._part_id(table.part)
            if part is None:
                known = [*(part.id for part in self.reference.parts), *(unit.id for unit in self.reference.units)]
                self.reader.mistake(
                    path + ("part",), f'entry {index + 1}: unknown part "{table.part}"',
                    did_you_mean(table.part, known) + '; a part that is none of these has only what = "..."', said=table.part,
                )  # fmt: skip
            return part, table.sure
        return self._named(table.what), False

    def _part_id(self, text: str) -> str | None:
        if self.reference.has_part(text) or any(unit.id == text for unit in self.reference.units):
            return text
        return self.reference.place(text).part if self.reference.has_place(text) else None

    def _named(self, typed: str) -> str | None:
        """The one part that is called this, or the only part of this kind; None when none or several are.

        "Left collar" says where a collar sat, not which of two collars it is: with two in the reference it stays open.
        """
        called = plain(typed)
        if called in self.names:
            return self.names[called]
        for end in self.reference.ends:
            called = called.removeprefix(f"{end} ").removesuffix(f" {end}")
        if called in self.names:
            return self.names[called]
        kind = kind_of(called)
        parts = [part.id for part in self.reference.parts if part.kind == kind]
        return parts[0] if len(parts) == 1 and plain(kind) == called else None

    def _toward(self, entry: Entry, word: str, entries: list[Entry], path: tuple[str | int, ...]) -> str:
        if word in ("", "same both ways", "not seen"):
            return word
        ends = self.reference.ends
        away = word.startswith("away from ")
        target = word.removeprefix("away from ")
        direction: str | None = None
        if target in ends:
            direction = ("first", "second")[ends.index(target)]
        elif target in ("middle", "outside"):
            end = entry.end if entry.end is not None else self._end_of_part(entry)
            direction = None if end is None else ("first", "second")[end if target == "outside" else 1 - end]
        else:
            direction = self._toward_thing(entry, target, entries)
        if direction is None:
            self.reader.mistake(
                path + ("toward",), f"entry {entry.number}: toward what?",
                f"{ends[0]} or {ends[1]}; middle or outside where the entry has its end; a part of this list; not seen", said=word,
            )  # fmt: skip
            return ""
        return ({"first": "second", "second": "first"}[direction]) if away else direction

    def _end_of_part(self, entry: Entry) -> int | None:
        ends = {place.end for place in self.reference.places_of(entry.part)} if entry.part else set()
        return ends.pop() if len(ends) == 1 else None

    def _toward_thing(self, entry: Entry, target: str, entries: list[Entry]) -> str | None:
        """Where the nearest thing of that name lies: in the list first, else by the places of the reference."""
        line = found_line(entries)
        here = line.index(entry)
        called = plain(target)
        near = [
            position
            for position, other in enumerate(line)
            if position != here and called in (plain(other.what), plain(other.part or ""), other.kind, self._kind(other))
        ]
        if near:
            return "second" if min(near, key=lambda position: abs(position - here)) > here else "first"
        return self._toward_place(entry, called)

    def _kind(self, entry: Entry) -> str:
        return self.reference.part(entry.part).kind if entry.part and self.reference.has_part(entry.part) else ""

    def _toward_place(self, entry: Entry, called: str) -> str | None:
        reference = self.reference
        own = [place.name for place in reference.places if place.part == entry.part and place.end in (None, entry.end)]
        if not own:
            return None
        here = reference.line.index(own[0])
        near = [
            position
            for position, name in enumerate(reference.line)
            if position != here and called in (plain(name), plain(reference.part_at(name).name), plain(reference.place(name).part), reference.part_at(name).kind)
        ]
        if not near:
            return None
        return "second" if min(near, key=lambda position: abs(position - here)) > here else "first"

    def _measured(self, index: int, raw: Any) -> Measured | None:
        path = ("measured", index)
        what = f"measured {index + 1}"
        table = self.reader.check(MeasuredTable, raw, path, what)
        if table is None:
            return None
        if bool(table.gap) == bool(table.place):
            self.reader.mistake(path, f"{what}: what was measured?", 'either gap = "free gap", or place = "hub" with size = "length"')
            return None
        if table.gap:
            gaps = [gap.name for stack in self.reference.stacks for gap in stack.gaps] + [limit.what for limit in self.reference.limits]
            if table.gap not in gaps:
                self.reader.mistake(path + ("gap",), f'{what}: unknown gap "{table.gap}"', did_you_mean(table.gap, gaps), said=table.gap)
                return None
            return Measured(reading=table.reading, gap=table.gap)
        if not self.reference.has_place(table.place):
            places = [place.name for place in self.reference.places]
            self.reader.mistake(path + ("place",), f'{what}: unknown place "{table.place}"', did_you_mean(table.place, places), said=table.place)
            return None
        size = table.size or "length"
        if size not in SIZE_NAMES:
            self.reader.mistake(path + ("size",), f'{what}: unknown size "{size}"', did_you_mean(size, list(SIZE_NAMES)), said=size)
            return None
        return Measured(reading=table.reading, place=table.place, size=size)


def found_line(entries: list[Entry] | tuple[Entry, ...]) -> list[Entry]:
    """The entries as they sat: what came off the first end in sequence, then what came off the second end backwards."""
    first = [entry for entry in entries if entry.end != 1]
    return first + [entry for entry in reversed(entries) if entry.end == 1]


def _names(reference: Reference) -> dict[str, str]:
    """What a part may be called -> its id; a name that two parts share names neither."""
    called: dict[str, set[str]] = {}
    for part in reference.parts:
        for name in (part.id, part.name, part.number, *part.accepts, *part.also):
            if name:
                called.setdefault(plain(name), set()).add(part.id)
    for unit in reference.units:
        called.setdefault(plain(unit.id), set()).add(unit.id)
        called.setdefault(plain(unit.name), set()).add(unit.id)
    return {name: ids.pop() for name, ids in called.items() if len(ids) == 1}


def write_found(found: Found, reference: Reference, path: Path | str) -> None:
    """Write a teardown list as a new file that `read_found` reads back to the same list.

    Raises:
        InputError: the file exists already; somebody's own list is never written over.
    """
    path = Path(path)
    try:
        with path.open("xb") as file:
            tomli_w.dump(found_tree(found, reference), file)
    except FileExistsError:
        mistake = Mistake(file=str(path), what="the file exists already", wanted="choose another name; nothing was written")
        raise InputError([mistake], consequence="Nothing was written.") from None


def found_tree(found: Found, reference: Reference) -> dict[str, Any]:
    """The list as the plain tree of its TOML file."""
    tree: dict[str, Any] = {"kind": "as found", "format": 1, "reference": found.reference, "revision": found.revision, "finished": found.finished}
    for name in ("title", "story", "by", "date"):
        if getattr(found, name):
            tree[name] = getattr(found, name)
    tree["off"] = [_entry_tree(entry, reference) for entry in found.entries]
    if found.measured:
        tree["measured"] = [_measured_tree(item) for item in found.measured]
    return tree


def _entry_tree(entry: Entry, reference: Reference) -> dict[str, Any]:
    tree: dict[str, Any] = {}
    if entry.end is not None:
        tree["end"] = reference.ends[entry.end]
    tree["what"] = entry.what
    if entry.part is not None:
        tree["part"] = entry.part
        if not entry.sure:
            tree["sure"] = False
    if entry.kind:
        tree["kind"] = entry.kind
    if entry.marked:
        tree["number"] = entry.marked
    if entry.count != 1:
        tree["count"] = entry.count
    tree.update((name, reading.text) for name, reading in entry.sizes)
    toward = {"first": reference.ends[0], "second": reference.ends[1]}.get(entry.toward, entry.toward)
    for name, value in (("feature", entry.feature), ("toward", toward), ("feel", list(entry.feel)), ("look", list(entry.look)),
                        ("came_off", entry.came_off), ("card", entry.card), ("tag", entry.tag),
                        ("place_seen", entry.place_seen), ("stuck_to_next", entry.stuck_to_next), ("note", entry.note)):  # fmt: skip
        if value:
            tree[name] = value
    return tree


def _measured_tree(item: Measured) -> dict[str, Any]:
    where = {"gap": item.gap} if item.gap else {"place": item.place, "size": item.size}
    return {**where, "reading": item.reading.text}
