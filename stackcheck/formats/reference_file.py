"""A reference assembly from its TOML file, and back.

The file is read table by table, then put together; every mistake is noted with its line and the reading goes on, so that
one run shows them all. A standard part (`standard = "6204 C3"`) takes its sizes from the tables shipped with the tool; a
size written beside it stands instead. Repeated names in one stack ("steel-plate" seven times) become numbered places.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from stackcheck.formats.reference_tables import (
    AssemblyTable,
    GapItem,
    JointTable,
    LimitTable,
    PairingTable,
    PartTable,
    PlaceItem,
    ReferenceTables,
    RepeatItem,
    StackTable,
    SupportTable,
    UnitTable,
)
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.model.part import SIZE_NAMES, Duty, Part, Size
from stackcheck.model.reference import (
    Gap,
    Joint,
    Limit,
    Pairing,
    Place,
    Reference,
    SequenceLoopError,
    Source,
    Stack,
    Support,
    Unit,
)
from stackcheck.tables import UnknownStandard, resolve

ID = re.compile(r"[a-z0-9][a-z0-9-]{0,63}\Z")
PLACE = re.compile(r"[a-z0-9][a-z0-9-]{0,63}(@[a-z0-9][a-z0-9-]{0,31})?\Z")
ID_WANTED = "an id is made of small letters, figures and hyphens, like spacer-tube"
PLACE_WANTED = "a place is a part's id, with @ and an end or number where the part has several: bearing@left"


def read_reference(path: Path | str, *, shown_as: str = "", consequence: str = "Nothing was compared.") -> Reference:
    """Read one reference assembly.

    Args:
        path: the TOML file; its folder names the machine.
        shown_as: how messages name the file.
    Raises:
        InputError: every mistake of the file, each with its line, what was said and what is wanted.
    """
    path = Path(path)
    reader = Reader(path, shown_as=shown_as, consequence=consequence)
    return _Builder(reader).build()


class _Builder:
    """Puts one file together. Every step notes mistakes on the reader; `build` stops when there is any."""

    def __init__(self, reader: Reader):
        self.reader = reader
        self.parts: dict[str, Part] = {}
        self.declared: list[str] = []
        self.places: dict[str, Place] = {}
        self.first_seen: dict[str, tuple[str | int, ...]] = {}

    def build(self) -> Reference:
        reader = self.reader
        tables = reader.check(ReferenceTables, reader.tree, (), "the file")
        if tables is None:
            tables = self._lenient()
        assembly = reader.check(AssemblyTable, tables.assembly, ("assembly",), "[assembly]") if tables.assembly else None
        ends = self._ends(assembly)
        self._read_parts(tables.parts)
        stacks = self._read_stacks(tables.stacks, ends)
        self._settle_facings(stacks, ends)
        limits = self._read_limits(tables.limits, ends)
        pairings = self._read_pairings(tables.pairings)
        joints = self._read_joints(tables.joints)
        supports = self._read_supports(tables.supports)
        units = self._read_units(tables.units)
        self._check_parts()
        self._check_connected(stacks)
        if assembly is not None and not ID.match(assembly.id):
            reader.mistake(("assembly", "id"), "[assembly]: the id cannot be used", ID_WANTED, said=assembly.id)
        reader.stop_if_mistaken()
        machine = reader.path.resolve().parent.name
        try:
            return Reference(
                id=f"{machine}/{assembly.id}",
                machine=machine,
                title=assembly.title,
                revision=assembly.revision,
                covers=assembly.covers,
                ends=ends,
                ends_seen_from=assembly.ends_seen_from,
                source=Source(kind=assembly.source.kind, what=assembly.source.what, state=assembly.source.state),
                parts=tuple(self.parts.values()),
                places=tuple(self.places.values()),
                stacks=tuple(stacks),
                limits=limits,
                pairings=pairings,
                joints=joints,
                supports=supports,
                units=units,
                cautions=assembly.cautions,
                replaced_by=assembly.replaced_by,
                note=assembly.note,
                file=reader.name,
            )
        except SequenceLoopError as problem:
            index = next(i for i, stack in enumerate(stacks) if stack.name == problem.stacks[-1])
            reader.mistake(
                ("stacks", index, "order"),
                f"the stacks contradict each other: {problem}",
                f"look at the order of {' and of '.join(dict.fromkeys(problem.stacks))}",
                said=f'"{problem.places[0]}"',
            )
            reader.stop_if_mistaken()
            raise AssertionError from problem  # a noted mistake always stops

    def _lenient(self) -> ReferenceTables:
        """What can still be checked of a file whose outermost shape is wrong."""
        tree = self.reader.tree
        kept: dict[str, Any] = {"kind": "reference assembly", "format": 1}
        for name, shape in (("assembly", dict), ("parts", dict), ("stacks", list), ("limits", list), ("pairings", list),
                            ("joints", list), ("supports", list), ("units", dict)):  # fmt: skip
            value = tree.get(name)
            kept[name] = value if isinstance(value, shape) else shape()
        return ReferenceTables.model_validate(kept)

    def _ends(self, assembly: AssemblyTable | None) -> tuple[str, str]:
        if assembly is None:
            return ("left", "right")
        for index, end in enumerate(assembly.ends):
            if not re.fullmatch(r"[a-z0-9][a-z0-9 -]{0,31}", end) or end in ("middle", "outside"):
                self.reader.mistake(
                    ("assembly", "ends"), "[assembly]: an end cannot be called that", 'like ends = ["left", "right"]', said=end
                )
        if assembly.ends[0] == assembly.ends[1]:
            self.reader.mistake(("assembly", "ends"), "[assembly]: the two ends have one name", 'like ends = ["left", "right"]')
        return assembly.ends

    def _read_parts(self, tables: dict[str, Any]) -> None:
        for id, raw in tables.items():
            self.declared.append(id)
            path = ("parts", id)
            if not ID.match(id):
                self.reader.mistake(path, f'part "{id[:40]}": the id cannot be used', ID_WANTED)
            table = self.reader.check(PartTable, raw, path, f'part "{id[:40]}"')
            if table is None:
                continue
            sizes, kind = self._sizes(id, table)
            if table.kind is None and not kind:
                self.reader.mistake(path, f'part "{id}": "kind" is not given', 'add kind = "collar", "washer", "seal", ...')
                continue
            self.parts[id] = Part(
                id=id,
                name=table.name,
                kind=table.kind or kind,
                number=table.number,
                accepts=table.accepts,
                also=table.also,
                standard=table.standard,
                sizes=sizes,
                material=table.material,
                feature=table.feature,
                same_both_ways=table.same_both_ways,
                duties=tuple(_duty(text) for text in table.duty),
                must_measure=table.must_measure,
                fixed=table.fixed,
                note=table.note,
            )

    def _sizes(self, id: str, table: Any) -> tuple[tuple[tuple[str, Size], ...], str]:
        """The sizes of a part: written ones first, then those of its standard; with the standard's kind."""
        sizes: dict[str, Size] = {}
        for name in SIZE_NAMES:
            size = getattr(table, name)
            if size is not None:
                sizes[name] = size
        if not table.standard:
            return tuple(sizes.items()), ""
        try:
            row = resolve(table.standard)
        except UnknownStandard as problem:
            near = f"did you mean {' or '.join(problem.suggestions[:3])}? " if problem.suggestions else ""
            self.reader.mistake(
                ("parts", id, "standard"), f'part "{id}": the standard part is not known here', f"{near}{problem}", said=table.standard
            )
            return tuple(sizes.items()), table.kind or "washer"
        for size in row.sizes:
            if size.name in SIZE_NAMES and size.name not in sizes:
                sizes[size.name] = Size(
                    text=table.standard,
                    nominal_mm=size.nominal_mm,
                    least_mm=size.least_mm,
                    most_mm=size.most_mm,
                    limits_from=row.standard,
                )
        return tuple(sizes.items()), row.kind

    def _check_parts(self) -> None:
        placed = {place.part for place in self.places.values()}
        for part in self.parts.values():
            path = ("parts", part.id)
            if part.id not in placed:
                self.reader.mistake(path, f'part "{part.id}" stands in no stack', "name it in the order of a stack, or take it out")
            for duty in part.duties:
                if duty.name == "pair" and duty.detail not in self.declared:
                    self.reader.mistake(
                        path + ("duty",), f'part "{part.id}": its partner is not known', did_you_mean(duty.detail, self.declared), said=duty.detail
                    )
            for name in part.must_measure:
                if part.size(name) is None:
                    self.reader.mistake(
                        path + ("must_measure",), f'part "{part.id}": must be measured, but no {name} is given',
                        f'add {name} = "..." with its limits', said=name,
                    )  # fmt: skip

    def _read_stacks(self, tables: list[Any], ends: tuple[str, str]) -> list[Stack]:
        stacks: list[Stack] = []
        names: set[str] = set()
        for index, raw in enumerate(tables):
            path = ("stacks", index)
            table = self.reader.check(StackTable, raw, path, f"stack {index + 1}")
            if table is None:
                continue
            if table.name in names:
                self.reader.mistake(path + ("name",), f'two stacks are called "{table.name}"', "give each its own name", said=table.name)
            names.add(table.name)
            items = self._items(table, path + ("order",), ends)
            if len([item for item in items if isinstance(item, str)]) < 2:
                self.reader.mistake(path, f'stack "{table.name}" has fewer than two places', "name at least two places in its order")
            stacks.append(Stack(name=table.name, items=tuple(items), through=table.through))
        if not tables:
            self.reader.mistake((), "the file has no stack", "add [[stacks]] with a name and an order of places")
        return stacks

    def _items(self, table: StackTable, path: tuple[str | int, ...], ends: tuple[str, str]) -> list[str | Gap]:
        written: list[PlaceItem | Gap] = []
        what = f'stack "{table.name}"'
        for raw in table.order:
            written.extend(self._item(raw, path, what))
        repeated = _repeated(item.place for item in written if isinstance(item, PlaceItem) and "@" not in item.place)
        counted: dict[str, int] = {}
        items: list[str | Gap] = []
        for item in written:
            if isinstance(item, Gap):
                items.append(item)
                continue
            name = item.place
            if name in repeated:
                counted[name] = counted.get(name, 0) + 1
                name = f"{name}@{counted[name]}"
            if name in items:
                self.reader.mistake(path, f'{what}: place "{name}" stands twice', "each place stands once; number them: bearing@1, bearing@2", said=name)
                continue
            if self._keep_place(item, name, path, what, ends):
                items.append(name)
        return items

    def _item(self, raw: Any, path: tuple[str | int, ...], what: str) -> list[PlaceItem | Gap]:
        if isinstance(raw, str):
            return [PlaceItem(place=raw)]
        if isinstance(raw, dict) and "gap" in raw:
            table = self.reader.check(GapItem, raw, path, f"{what}: gap")
            return [_gap(table)] if table and self._limits_in_order(table, path, f'{what}: gap "{table.gap}"') else []
        if isinstance(raw, dict) and "repeat" in raw:
            table = self.reader.check(RepeatItem, raw, path, f"{what}: repeat")
            return [PlaceItem(place=name) for name in table.of] * table.repeat if table else []
        if isinstance(raw, dict):
            table = self.reader.check(PlaceItem, raw, path, f"{what}: place")
            return [table] if table else []
        self.reader.mistake(path, f"{what}: an entry of the order is of the wrong type", 'write "collar@left", or { place = "collar@left", toward = "outside" }', said=str(raw))
        return []

    def _limits_in_order(self, table: Any, path: tuple[str | int, ...], what: str) -> bool:
        if table.least is not None and table.most is not None and table.least.nominal_mm > table.most.nominal_mm:
            self.reader.mistake(path, f"{what}: least is larger than most", "exchange the two", said=table.least.text)
            return False
        return True

    def _keep_place(self, item: PlaceItem, name: str, path: tuple[str | int, ...], what: str, ends: tuple[str, str]) -> bool:
        if not PLACE.match(name):
            self.reader.mistake(path, f"{what}: a place cannot be called that", PLACE_WANTED, said=item.place)
            return False
        part, _, tag = name.partition("@")
        if part not in self.declared:
            self.reader.mistake(path, f'{what}: unknown part "{part}"', did_you_mean(part, self.declared), said=item.place)
            return False
        place = Place(
            name=name, part=part, toward=item.toward, count=item.count, may_be_absent=item.may_be_absent,
            end=ends.index(tag) if tag in ends else None,
        )  # fmt: skip
        before = self.places.get(name)
        if before is None or before == Place(name=name, part=part, end=place.end):
            self.places[name] = place
            self.first_seen[name] = path
        elif place != before and place != Place(name=name, part=part, end=place.end):
            self.reader.mistake(path, f'{what}: place "{name}" is described twice, differently', "say toward and count once", said=name)
        return True

    def _settle_facings(self, stacks: list[Stack], ends: tuple[str, str]) -> None:
        for name, place in list(self.places.items()):
            part = self.parts.get(place.part)
            if part is None or not place.toward:
                continue
            path = self.first_seen[name]
            if part.same_both_ways or not part.feature:
                reason = "is the same both ways" if part.same_both_ways else "has no feature to tell by"
                self.reader.mistake(path, f'place "{name}": part "{part.id}" {reason}', 'add feature = "flange" (or what shows it) to the part', said=place.toward)
                continue
            facing = _facing(place, place.toward, stacks, ends, self.parts)
            if facing is None:
                wanted = f"{ends[0]}, {ends[1]}, middle or outside (for a place named after an end), or a part in the same stack"
                self.reader.mistake(path, f'place "{name}": toward what?', wanted, said=place.toward)
                continue
            self.places[name] = Place(
                name=name, part=place.part, facing=facing, toward=place.toward, count=place.count, end=place.end, may_be_absent=place.may_be_absent
            )

    def _known_place(self, text: str, path: tuple[str | int, ...], what: str, ends: tuple[str, str] | None = None) -> bool:
        name, slash, side = text.partition("/")
        if name not in self.places:
            self.reader.mistake(path, f'{what}: unknown place "{name}"', did_you_mean(name, list(self.places)), said=text)
            return False
        if slash and (ends is None or side not in ends):
            faces = f'"{name}/{ends[0]}" or "{name}/{ends[1]}"' if ends else "a place without a face"
            self.reader.mistake(path, f'{what}: unknown face "{side}"', f"write {faces}", said=text)
            return False
        return True

    def _read_limits(self, tables: list[Any], ends: tuple[str, str]) -> tuple[Limit, ...]:
        limits = []
        for index, raw in enumerate(tables):
            path = ("limits", index)
            table = self.reader.check(LimitTable, raw, path, f"limit {index + 1}")
            if table is None:
                continue
            what = f'limit "{table.what}"'
            known = [self._known_place(text, path + ("between",), what, ends) for text in table.between]
            if table.least is None and table.most is None:
                self.reader.mistake(path, f"{what}: neither least nor most is given", 'add least = "0.00 mm" or most = "0.10 mm"')
            if all(known) and self._limits_in_order(table, path + ("least",), what):
                limits.append(
                    Limit(what=table.what, between=table.between, least_mm=_mm(table.least), most_mm=_mm(table.most), source=table.source)
                )
        return tuple(limits)

    def _read_pairings(self, tables: list[Any]) -> tuple[Pairing, ...]:
        pairings = []
        for index, raw in enumerate(tables):
            path = ("pairings", index)
            table = self.reader.check(PairingTable, raw, path, f"pairing {index + 1}")
            if table is None:
                continue
            what = f'pairing "{table.what}"'
            known = [self._known_size(*getattr(table, side), path + (side,), what) for side in ("outer", "inner")]
            if all(known) and self._limits_in_order(table, path + ("least",), what):
                pairings.append(
                    Pairing(what=table.what, outer=table.outer, inner=table.inner, least_mm=_mm(table.least), most_mm=_mm(table.most), source=table.source)
                )
        return tuple(pairings)

    def _known_size(self, part: str, size: str, path: tuple[str | int, ...], what: str) -> bool:
        if part not in self.declared:
            self.reader.mistake(path, f'{what}: unknown part "{part}"', did_you_mean(part, self.declared), said=part)
            return False
        known = self.parts.get(part)
        if known is not None and known.size(size) is None:
            self.reader.mistake(path, f'{what}: part "{part}" has no {size}', did_you_mean(size, [name for name, _ in known.sizes]), said=size)
            return False
        return True

    def _read_joints(self, tables: list[Any]) -> tuple[Joint, ...]:
        joints = []
        for index, raw in enumerate(tables):
            path = ("joints", index)
            table = self.reader.check(JointTable, raw, path, f"joint {index + 1}")
            if table and all([self._known_place(text, path + ("clamps",), f'joint "{table.name}"') for text in table.clamps]):
                joints.append(Joint(**{name: getattr(table, name) for name in JointTable.model_fields}))
        return tuple(joints)

    def _read_supports(self, tables: list[Any]) -> tuple[Support, ...]:
        supports = []
        for index, raw in enumerate(tables):
            path = ("supports", index)
            table = self.reader.check(SupportTable, raw, path, f"support {index + 1}")
            if table and self._known_place(table.place, path + ("place",), "support"):
                supports.append(Support(**{name: getattr(table, name) for name in SupportTable.model_fields}))
        return tuple(supports)

    def _read_units(self, tables: dict[str, Any]) -> tuple[Unit, ...]:
        units = []
        for id, raw in tables.items():
            path = ("units", id)
            if not ID.match(id) or id in self.declared:
                wanted = ID_WANTED if not ID.match(id) else "a part has this id already; give the unit another"
                self.reader.mistake(path, f'unit "{id}": the id cannot be used', wanted, said=id)
            table = self.reader.check(UnitTable, raw, path, f'unit "{id}"')
            if table and all([self._known_place(text, path + ("members",), f'unit "{id}"') for text in table.members]):
                units.append(Unit(id=id, name=table.name, members=table.members))
        return tuple(units)

    def _check_connected(self, stacks: list[Stack]) -> None:
        reached: set[str] = set()
        for index, stack in enumerate(stacks):
            places = set(stack.places)
            if index and not places & reached:
                later = any(places & set(other.places) for other in stacks[index + 1 :])
                if not later:
                    self.reader.mistake(
                        ("stacks", index), f'stack "{stack.name}" meets no other stack', "stacks of one assembly share at least one place", said=stack.name
                    )
            reached |= places


def _mm(size: Size | None) -> float | None:
    return None if size is None else size.nominal_mm


def _gap(table: GapItem) -> Gap:
    return Gap(
        name=table.gap, least_mm=_mm(table.least), most_mm=_mm(table.most), clamped=table.clamped, set_by=table.set_by, source=table.source
    )


def _duty(text: str) -> Duty:
    name, _, detail = text.partition(":")
    return Duty(name=name.strip(), detail=detail.strip())


def _repeated(names: Any) -> set[str]:
    seen: set[str] = set()
    twice: set[str] = set()
    for name in names:
        (twice if name in seen else seen).add(name)
    return twice


def _facing(place: Place, toward: str, stacks: list[Stack], ends: tuple[str, str], parts: dict[str, Part]) -> str | None:
    """ "first" or "second" for what a place says its feature points to; None where that cannot be told."""
    word, away = (toward.removeprefix("away from "), True) if toward.startswith("away from ") else (toward, False)
    towards: str | None = None
    if word in ends:
        towards = ("first", "second")[ends.index(word)]
    elif word in ("middle", "outside") and place.end is not None:
        towards = ("first", "second")[place.end if word == "outside" else 1 - place.end]
    else:
        towards = _toward_neighbour(place, word, stacks, parts)
    if towards is None or not away:
        return towards
    return "second" if towards == "first" else "first"


def _toward_neighbour(place: Place, word: str, stacks: list[Stack], parts: dict[str, Part]) -> str | None:
    """Where the nearest place of that name, part or kind lies, in the first stack that holds both."""
    for stack in stacks:
        places = stack.places
        if place.name not in places:
            continue
        here = places.index(place.name)
        near = [
            index
            for index, name in enumerate(places)
            if index != here and word in (name, name.partition("@")[0], getattr(parts.get(name.partition("@")[0]), "kind", None))
        ]
        if near:
            return "second" if min(near, key=lambda index: abs(index - here)) > here else "first"
    return None
