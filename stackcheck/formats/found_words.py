"""What the words of a teardown list mean beside the reference: which part is called this, which way is toward that."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from stackcheck.formats.facing import read_facing
from stackcheck.formats.words import FACING_NOT_TOLD, head_of_name, kind_of, plain
from stackcheck.model.found import Entry
from stackcheck.model.part import Part, Reading
from stackcheck.model.reference import Reference
from stackcheck.value import Value

LOOSE_WORDS = frozenset({"ring", "bush", "spacer tube", "collar", "washer", "disc"})
"""Kinds by whose names people call anything that goes round a shaft: "thick ring", "sleeve", "bush"."""
GOES_ROUND = LOOSE_WORDS | {"shim ring", "thrust washer", "seal", "O-ring", "gasket"}


class LineOfNames(Value):
    """Things from the first end to the second: the plain names of each, and where each entry is in the line.

    `turn` tells the how manyth of its part an entry is, and of how many; `depth` how many came off the same end before
    it.
    """

    names: tuple[set[str], ...]
    position: dict[int, int]
    turn: dict[int, tuple[int, int]]
    depth: dict[int, int]
    from_one_end: int | None = None
    """The end that a whole teardown was taken from, None for one from both ends or one that stopped early."""


class FoundWords:
    """The names of one reference, ready to be looked up."""

    def __init__(self, reference: Reference):
        self.reference = reference
        self._called = _names(reference)

    def part_with_id(self, text: str) -> str | None:
        """The id itself, or the part of the place that was named instead ("bearing@left")."""
        reference = self.reference
        if reference.has_part(text) or any(unit.id == text for unit in reference.units):
            return text
        return reference.place(text).part if reference.has_place(text) else None

    def part_called(self, typed: str) -> str | None:
        """The one part that is called this, or the only part of this kind; None when none or several are.

        "Left collar" says where a collar sat, not which of two collars it is: with two in the reference it stays open.
        """
        called = plain(typed)
        if called in self._called:
            return self._called[called]
        for end in map(plain, self.reference.ends):
            called = called.removeprefix(f"{end} ").removesuffix(f" {end}")
        if called in self._called:
            return self._called[called]
        kind = kind_of(called)
        parts = [part.id for part in self.reference.parts if part.kind == kind]
        return parts[0] if len(parts) == 1 and plain(kind) == called else None

    def part_meant(self, typed: str) -> str | None:
        """The part that is called this, or the only one of whose name one word is left out."""
        return self.part_called(typed) or self.part_less_a_word(typed)

    def part_less_a_word(self, typed: str) -> str | None:
        """The one part of whose name the typed words are all but one, in their sequence, the thing itself among them:
        "threaded adjuster" is the "Threaded cup adjuster". None where several are, and for one word alone.
        """
        words = tuple(plain(typed).split())
        if len(words) < 2:
            return None
        near = {part for part, names in self._words_of.items() if any(_less_one(words, name) for name in names)}
        only = near.pop() if len(near) == 1 else None
        return only if only is not None and not self.reference.part(only).fixed else None

    @cached_property
    def _words_of(self) -> dict[str, set[tuple[str, ...]]]:
        """The names of each part, and what they are called before they say of what, word for word."""
        return {
            part.id: {tuple(plain(name).split()) for name in (part.name, head_of_name(part.name), *part.also)}
            for part in self.reference.parts
        }

    def kind_called(self, typed: str) -> str:
        """The kind that the words show; "bearing" or "washer" alone leaves open which kind of it,
        if the reference has another.
        """
        kind = kind_of(typed)
        kinds = {part.kind for part in self.reference.parts}
        family = kind.rpartition(" ")[2]
        ends = {word for end in self.reference.ends for word in plain(end).split()}
        is_bare = [word for word in plain(typed).split() if word not in ends] == [family] != [kind]
        if kind in kinds and not is_bare or not kind:
            return kind
        relatives = {known for known in kinds if known.rpartition(" ")[2] == family}
        return kind if not relatives else relatives.pop() if len(relatives) == 1 else ""

    def part_fitting(self, kind: str, sizes: Iterable[tuple[str, Reading]]) -> str | None:
        """The one part that goes round the shaft and has all these sizes, where its word is a loose one ("thick ring").

        A kind that the reference knows is no loose word there: a ring beside rings is one of them, or extra.
        """
        sizes = tuple(sizes)
        if kind not in LOOSE_WORDS or not sizes or any(part.kind == kind for part in self.reference.parts):
            return None
        fitting = [part.id for part in self.reference.parts if part.kind in GOES_ROUND and _has(part, sizes)]
        return fitting[0] if len(fitting) == 1 else None

    def kind_of_part(self, part: str | None) -> str:
        return self.reference.part(part).kind if part and self.reference.has_part(part) else ""

    def facing(self, entry: Entry, word: str, line: LineOfNames) -> str | None:
        """ "first", "second", "same both ways", "not seen" or "" for a typed `toward`; None where it settles nothing.

        Neighbours are looked for in `line`, the things as they sat, then among the places of the reference.
        """
        if (told := FACING_NOT_TOLD.get(word.strip().lower())) is not None:
            return told
        lines = [(line.names, line.position[entry.number]), *self._places_of(entry, line)]
        return read_facing(word, ends=self.reference.ends, end=self._side(entry, line), lines=lines) or None

    def line(self, entries: Iterable[Entry], *, finished: bool) -> LineOfNames:
        """The entries as they sat, each with all the names it goes by."""
        seated = found_line(tuple(entries))
        ends = {entry.end for entry in seated}
        of_part: dict[str | None, list[int]] = {}
        of_end: dict[int | None, list[int]] = {}
        for entry in seated:
            of_part.setdefault(entry.part, []).append(entry.number)
            of_end.setdefault(entry.end, []).append(entry.number)
        return LineOfNames(
            names=tuple(self._names_of_entry(entry) for entry in seated),
            position={entry.number: position for position, entry in enumerate(seated)},
            turn={number: (turn, len(alike)) for alike in of_part.values() for turn, number in enumerate(alike)},
            depth={number: depth for off in of_end.values() for depth, number in enumerate(sorted(off))},
            from_one_end=next(iter(ends)) or 0 if finished and len(ends) == 1 else None,
        )

    def _side(self, entry: Entry, line: LineOfNames) -> int | None:
        """The end that "outside" is toward: the one named with it, the only one its part has, or the one it came off.

        What came off last of a whole list taken from one end sat at the other one. What came off early sat at the end
        it came off, wherever its part belongs: a right collar among the first things off the left end stood at the
        left.
        """
        said = f" {plain(entry.what)} "
        named = [end for end, name in enumerate(self.reference.ends) if f" {plain(name)} " in said]
        own = {place.end for place in self.reference.places_of(entry.part)} if entry.part else set()
        if len(named) == 1:
            return named[0]
        if len(own) == 1 and None not in own:
            is_near = entry.end is not None and 2 * line.depth[entry.number] < len(self._line_of_reference) // 2
            return entry.end if is_near else own.pop()
        if line.from_one_end is None:
            return entry.end
        far = 2 * line.position[entry.number] >= len(line.names)
        return line.from_one_end if far == (line.from_one_end == 1) else 1 - line.from_one_end

    def _names_of_entry(self, entry: Entry) -> set[str]:
        names = {entry.what, entry.part or "", entry.kind, self.kind_of_part(entry.part)}
        if entry.part and self.reference.has_part(entry.part):
            names.add(self.reference.part(entry.part).name)
        return {plain(name) for name in names if name}

    def _places_of(self, entry: Entry, line: LineOfNames) -> list[tuple[list[set[str]], int]]:
        """The line of the reference, and where in it the thing sat:
        its turn among as many places, else those of its end.
        """
        reference = self.reference
        own = sorted(reference.line.index(place.name) for place in reference.places if place.part == entry.part)
        turn, of = line.turn[entry.number]
        if len(own) == of:
            return [(self._line_of_reference, own[turn])]
        own = [here for here in own if reference.place(reference.line[here]).end in (None, entry.end)]
        return [(self._line_of_reference, own[0])] if own else []

    @cached_property
    def _line_of_reference(self) -> list[set[str]]:
        return [self._names_of_place(place) for place in self.reference.line]

    def _names_of_place(self, name: str) -> set[str]:
        place, part = self.reference.place(name), self.reference.part_at(name)
        names = {plain(word) for word in (name, part.id, part.name, part.kind)}
        if place.end is None:
            return names
        return names | {f"{plain(self.reference.ends[place.end])} {called}" for called in names}


def _less_one(words: tuple[str, ...], name: tuple[str, ...]) -> bool:
    """Whether `words` are `name` without one word that is not its last."""
    return len(words) == len(name) - 1 and any(words == name[:i] + name[i + 1 :] for i in range(len(name) - 1))


def found_line(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """The entries as they sat: what came off the first end in sequence, then what came off the second end backwards."""
    first = tuple(entry for entry in entries if entry.end != 1)
    return first + tuple(entry for entry in reversed(entries) if entry.end == 1)


def _has(part: Part, sizes: tuple[tuple[str, Reading], ...]) -> bool:
    own = [(part.size(name), reading) for name, reading in sizes]
    return not part.fixed and all(
        size is not None
        and reading.is_measurement
        and reading.low_mm <= size.high_mm
        and size.low_mm <= reading.high_mm
        for size, reading in own
    )


def _names(reference: Reference) -> dict[str, str]:
    """What a part may be called -> its id; a name that two parts share names neither.

    "Sleeve that the seal runs on" is called sleeve too, and "Small gear of the layshaft" small gear, where no other
    part is.
    """
    called: dict[str, set[str]] = {}
    for part in reference.parts:
        for name in (part.id, part.name, part.number, *part.accepts, *part.also):
            called.setdefault(plain(name), set()).add(part.id)
    heads = [(plain(head_of_name(part.name)), part.id) for part in reference.parts]
    for head, part_id in heads:
        if not any(other != part_id and f" {called} ".endswith(f" {head} ") for called, other in heads):
            called.setdefault(head, set()).add(part_id)
    for unit in reference.units:
        for name in (unit.id, unit.name):
            called.setdefault(plain(name), set()).add(unit.id)
    return {name: ids.pop() for name, ids in called.items() if name and len(ids) == 1}
