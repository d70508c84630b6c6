"""The stacks of a reference file: orders of places and gaps -> `Stack` and `Place`.

A place is described once, in whichever stack first says more than its name. Names that stand several times in one stack
("steel-plate" seven times, or in a repeat) become numbered places, steel-plate@1 and so on.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

from stackcheck.formats.facing import read_facing
from stackcheck.formats.positions import TreePath
from stackcheck.formats.reference_tables import GapItem, PlaceItem, RepeatItem, StackTable
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.formats.words import plain
from stackcheck.model.part import Part
from stackcheck.model.reference import Gap, Place, Stack
from stackcheck.value import Value, replace

MOST_PLACES = 20_000
_PLACE = re.compile(r"[a-z0-9][a-z0-9-]{0,63}(@[a-z0-9][a-z0-9-]{0,31})?")
_PLACE_WANTED = (
    "a place is a part's id, with @ and an end or number where the part has several: bearing@left, "
    "or bearing@motor-side where the end is the motor side"
)
_ITEM_WANTED = 'write "collar@left", or { place = "collar@left", toward = "outside" }'


class _Written(Value):
    """An item of an order with its place in the tree, for pointing at."""

    item: PlaceItem | Gap
    path: TreePath


class PlacesReader:
    """Reads all stacks; `places` fills as they are read. `complete` is False once anything could not be read.

    `ends` is empty where the file does not say them; then no facing is settled.
    """

    def __init__(self, reader: Reader, parts: dict[str, Part], declared: list[str], ends: tuple[str, ...]):
        self.reader, self.parts, self.declared, self.ends = reader, parts, declared, ends
        self.places: dict[str, Place] = {}
        self.stacks: list[Stack] = []
        self.described_at: dict[str, TreePath] = {}
        self.complete = True

    def read(self, tables: list[Any]) -> None:
        mistakes_before = len(self.reader.mistakes)
        for index, raw in enumerate(tables):
            self._read_stack(raw, ("stacks", index), f"stack {index + 1}")
        self.complete = len(self.reader.mistakes) == mistakes_before
        self._settle_facings()
        if self.complete:
            self._check_connected()
            self._check_all_placed()

    def _read_stack(self, raw: Any, path: TreePath, what: str) -> None:
        table = self.reader.check(StackTable, raw, path, what)
        if table is None:
            return
        what = f'stack "{table.name}"'
        if table.name in {stack.name for stack in self.stacks}:
            self.reader.mistake(
                path + ("name",), f"two stacks are called {table.name}", "give each its own name", said=table.name
            )
        mistakes_before = len(self.reader.mistakes)
        items = self._items(table, path + ("order",), what)
        if len(self.reader.mistakes) == mistakes_before and sum(isinstance(item, str) for item in items) < 2:
            self.reader.mistake(
                path + ("order",), f"{what}: fewer than two places", "name at least two places that touch"
            )
        for index, item in enumerate(items):
            if isinstance(item, Gap) and not all(isinstance(other, str) for other in _neighbours(items, index)):
                wanted = "put it between the two places that stay apart"
                self.reader.mistake(
                    path + ("order",), f'{what}: gap "{item.name}" has no place on each side', wanted, said=item.name
                )
        self.stacks.append(Stack(name=table.name, items=tuple(items), through=table.through))

    def _items(self, table: StackTable, path: TreePath, what: str) -> list[str | Gap]:
        written = [one for index, raw in enumerate(table.order) for one in self._item(raw, path + (index,), what)]
        if len(written) + len(self.places) > MOST_PLACES:
            self.reader.mistake(path, f"{what}: more than {MOST_PLACES:,} places", "look at the repeats")
            return []
        times = Counter(one.item.place for one in written if isinstance(one.item, PlaceItem))
        counted: Counter[str] = Counter()
        items: dict[str | Gap, None] = {}
        for one in written:
            if isinstance(one.item, Gap):
                items[one.item] = None
                continue
            name = one.item.place
            if times[name] > 1 and "@" not in name:
                counted[name] += 1
                name = f"{name}@{counted[name]}"
            if name in items:
                wanted = "each place stands once; number them: bearing@1, bearing@2"
                self.reader.mistake(one.path, f'{what}: place "{name}" stands twice', wanted, said=one.item.place)
            elif self._keep_place(one, name, what):
                items[name] = None
        return list(items)

    def _item(self, raw: Any, path: TreePath, what: str) -> Iterator[_Written]:
        if isinstance(raw, str):
            yield _Written(PlaceItem(place=raw), path)
        elif not isinstance(raw, dict):
            self.reader.mistake(path, f"{what}: an entry of the order is of the wrong type", _ITEM_WANTED, said="")
        elif "gap" in raw:
            table = self.reader.check(GapItem, raw, path, f"{what}: gap")
            if table and limits_in_sequence(self.reader, table, path, f'{what}: gap "{table.gap}"'):
                yield _Written(_gap(table), path)
        elif "repeat" in raw:
            table = self.reader.check(RepeatItem, raw, path, f"{what}: repeat")
            for name in table.of * table.repeat if table else ():
                yield _Written(PlaceItem(place=name), path)
        else:
            table = self.reader.check(PlaceItem, raw, path, f"{what}: place")
            if table:
                yield _Written(table, path)

    def _keep_place(self, one: _Written, name: str, what: str) -> bool:
        item = one.item
        if not _PLACE.fullmatch(name):
            self.reader.mistake(one.path, f"{what}: a place cannot be called that", _PLACE_WANTED, said=item.place)
            return False
        part, _, tag = name.partition("@")
        if part not in self.declared:
            self.reader.mistake(
                one.path, f'{what}: unknown part "{part}"', did_you_mean(part, self.declared), said=item.place
            )
            return False
        bare = Place(name=name, part=part, end=self._end(tag))
        place = replace(bare, toward=item.toward, count=item.count, may_be_absent=item.may_be_absent)
        before = self.places.get(name, bare)
        if before == bare:
            self.places[name] = place
            self.described_at[name] = one.path
        elif place not in (before, bare):
            wanted = "say toward, count and may_be_absent once"
            self.reader.mistake(
                one.path, f'{what}: place "{name}" is described twice, differently', wanted, said=item.place
            )
        return True

    def _end(self, tag: str) -> int | None:
        """Which end a tag names: "left", or "coupling" for the coupling end."""
        for index, end in enumerate(map(plain, self.ends)):
            if plain(tag) in (end, end.removesuffix(" end")):
                return index
        return None

    def _settle_facings(self) -> None:
        """Resolves what each feature points to, once every neighbour is known."""
        for place in [place for place in self.places.values() if place.toward and self.ends]:
            part = self.parts.get(place.part)
            if part is None:
                continue
            path = self.described_at[place.name]
            if part.same_both_ways or not part.feature:
                reason = "is the same both ways" if part.same_both_ways else "has no feature to tell by"
                wanted = 'take toward out, or add feature = "flange" (what shows it) to the part'
                self.reader.mistake(
                    path + ("toward",), f'place "{place.name}": part "{part.id}" {reason}', wanted, said=place.toward
                )
                continue
            facing = read_facing(place.toward, ends=self.ends, end=place.end, lines=self._lines_with(place.name))
            if facing:
                self.places[place.name] = replace(place, facing=facing)
            elif self.complete:
                wanted = (
                    f"write {self.ends[0]} or {self.ends[1]}; middle or outside for a place named after an end; "
                    "or a part that stands nearest on one side in the same stack"
                )
                self.reader.mistake(
                    path + ("toward",), f'place "{place.name}": toward what?', wanted, said=place.toward
                )

    def _lines_with(self, name: str) -> list[tuple[list[set[str]], int]]:
        stacks = [stack.places for stack in self.stacks if name in stack.places]
        return [([self._names(place) for place in places], places.index(name)) for places in stacks]

    def _names(self, place: str) -> set[str]:
        part = self.parts.get(self.places[place].part)
        more = (part.id, part.name, part.kind) if part else ()
        return {plain(name) for name in (place, *more)}

    def _check_connected(self) -> None:
        reached: set[str] = set(self.stacks[0].places) if self.stacks else set()
        waiting = list(enumerate(self.stacks))[1:]
        while joined := [(index, stack) for index, stack in waiting if reached & set(stack.places)]:
            reached.update(name for _, stack in joined for name in stack.places)
            waiting = [one for one in waiting if one not in joined]
        for index, stack in waiting:
            what = f'stack "{stack.name}" does not meet stack "{self.stacks[0].name}"'
            wanted = "the stacks of one assembly share places: name one that both have"
            self.reader.mistake(("stacks", index, "name"), what, wanted, said=stack.name)

    def _check_all_placed(self) -> None:
        placed = {place.part for place in self.places.values()}
        for id in self.parts:
            if id not in placed:
                wanted = "name it in the order of a stack, or take it out"
                self.reader.mistake(("parts", id), f'part "{id}" stands in no stack', wanted)


def _neighbours(items: list[str | Gap], index: int) -> list[str | Gap | None]:
    return [items[index - 1] if index else None, items[index + 1] if index + 1 < len(items) else None]


def limits_in_sequence(reader: Reader, table: Any, path: TreePath, what: str, *, by: str = "nominal_mm") -> bool:
    """Whether least is not above most, both taken by their field `by`; notes the mistake where it is."""
    if table.least is None or table.most is None or getattr(table.least, by) <= getattr(table.most, by):
        return True
    reader.mistake(path + ("least",), f"{what}: least is larger than most", "exchange the two", said=table.least.text)
    return False


def _gap(table: GapItem) -> Gap:
    return Gap(
        name=table.gap,
        least_mm=table.least and table.least.nominal_mm,
        most_mm=table.most and table.most.nominal_mm,
        text=limits_text(table),
        clamped=table.clamped,
        set_by=table.set_by,
        source=table.source,
    )


def limits_text(table: Any) -> str:
    """Both limits as written, "2.5 mm..4.0 mm"; an open side stays empty."""
    if table.least is None and table.most is None:
        return ""
    return "..".join(size.text if size else "" for size in (table.least, table.most))
