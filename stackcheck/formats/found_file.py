"""A teardown list from its TOML file, and back: what came off, as typed, read against the reference it names.

Names are matched here only so far as they are spelled (`found_words`): a name that fits gives a guess, `part = "..."`
gives a certain identity, anything else stays unknown with the kind that its words show. Who it really is, is decided by
`stackcheck.compare` together with where it sat.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from stackcheck.formats.found_symptoms import read_symptom
from stackcheck.formats.found_tables import FoundTables, MeasuredTable, OffTable, SymptomTable
from stackcheck.formats.found_words import FoundWords, LineOfNames
from stackcheck.formats.positions import TreePath
from stackcheck.formats.readings import belonging_to, degrees_of, measured_warm
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.formats.words import SIZES_ALSO_CALLED, WIDTH_IS_LENGTH, designation_in, plain
from stackcheck.model.found import Entry, Found, Measured, MeasuredSection
from stackcheck.model.part import SIZE_NAMES, Part, Reading
from stackcheck.model.reference import Reference
from stackcheck.model.warm_reading import Warm
from stackcheck.value import replace


def read_found(
    path: Path | str, find_reference: Callable[[str], Reference], *, shown_as: str = ""
) -> tuple[Found, Reference]:
    """Read a teardown list and the reference it names.

    Args:
        path: the TOML file.
        find_reference: id ("freight-tricycle/front-hub") -> Reference; raises LookupError with the ids that are known.
        shown_as: how messages name the file.
    Raises:
        InputError: every mistake of the file, each with its line; also an unknown reference or another revision of it.
    """
    reader = Reader(Path(path), shown_as=shown_as)
    tables = reader.check_top(FoundTables)
    if tables is None:
        _check_shapes_alone(reader)
    reader.stop_if_mistaken()
    try:
        reference = find_reference(tables.reference)
    except LookupError as problem:
        what = f'unknown reference "{tables.reference}"'
        reader.mistake(("reference",), what, str(problem.args[0]), said=tables.reference)
        _check_shapes_alone(reader)
        reader.stop_if_mistaken()
        raise
    if tables.revision != reference.revision:
        what = (
            f"the list was made against revision {tables.revision}, the reference here is revision {reference.revision}"
        )
        wanted = "see what changed between the two, then write the revision that the list was compared with"
        reader.mistake(("revision",), what, wanted, said=tables.revision)
    reference = reference.for_a_machine(tables.year, tables.serial)
    return _Builder(reader, reference).build(tables), reference


def _check_shapes_alone(reader: Reader) -> None:
    """Notes what can be said about the entries while the reference is not known."""
    shapes = (
        ("off", OffTable, "entry"),
        ("measured", MeasuredTable, "measured"),
        ("symptoms", SymptomTable, "symptom"),
    )
    for name, schema, what in shapes:
        raw = reader.tree.get(name)
        for index, table in enumerate(raw if isinstance(raw, list) else []):
            reader.check(schema, table, (name, index), f"{what} {index + 1}")


class _Builder:
    def __init__(self, reader: Reader, reference: Reference):
        self.reader, self.reference = reader, reference
        self.words = FoundWords(reference)
        self.warm: Warm | None = None

    def build(self, tables: FoundTables) -> Found:
        if tables.finished and not tables.off:
            wanted = "add [[off]] for each part that came off, or write finished = false"
            self.reader.mistake(("off",), "nothing is entered, and the list counts as finished", wanted)
        self.warm = self._how_warm(tables)
        entries: dict[int, Entry] = {}
        toward: dict[int, str] = {}
        for index, raw in enumerate(tables.off):
            table = self.reader.check_what_can_be(OffTable, raw, ("off", index), f"entry {index + 1}")
            if table is not None:
                if not {"what", "part"} & raw.keys():
                    wanted = 'add what = "..." in your own words'
                    self.reader.mistake(("off", index), f"entry {index + 1}: nothing says what it is", wanted)
                entries[index], toward[index] = self._entry(index, table), table.toward
        measured = [self._measured(index, raw) for index, raw in enumerate(tables.measured)]
        symptoms = [read_symptom(self.reader, self.reference, index, raw) for index, raw in enumerate(tables.symptoms)]
        for place in tables.not_seen:
            self._known(
                place, [place.name for place in self.reference.places], ("not_seen",), "not seen: unknown place"
            )
        if len(entries) == len(tables.off):
            line = self.words.line(entries.values(), finished=tables.finished)
            entries = {index: self._faced(entry, toward[index], line) for index, entry in entries.items()}
        self.reader.stop_if_mistaken()
        return Found(
            reference=self.reference.id,
            revision=tables.revision,
            entries=tuple(entries.values()),
            finished=tables.finished,
            measured=tuple(item for item in measured if item is not None),
            symptoms=tuple(item for item in symptoms if item is not None),
            not_seen=tables.not_seen,
            title=tables.title,
            story=tables.story,
            by=tables.by,
            date=tables.date,
            year=tables.year,
            serial=tables.serial,
            file=self.reader.name,
        )

    def _how_warm(self, tables: FoundTables) -> Warm | None:
        """How warm all was that does not say it by itself."""
        if tables.instruments_at is not None and tables.parts_at is None:
            wanted = 'add parts_at = "..."; parts that nobody says were warm count as at 20 °C'
            self.reader.mistake(
                ("instruments_at",), "how warm were the parts?", wanted, said=tables.instruments_at.text
            )
        if tables.parts_at is None:
            return None
        tool = tables.instruments_at and degrees_of(tables.instruments_at, "the instruments")
        return Warm(part=degrees_of(tables.parts_at, "the parts"), tool=tool)

    def _at_20(
        self, reading: Reading, whose: str, part: Part | None, *, metal: str = "", across: bool = False
    ) -> Reading:
        """A reading at 20 °C: by what it says itself of how warm it was, else by what the list says of all."""
        if reading.warm is None and self.warm is not None and reading.is_measurement:
            return measured_warm(reading, self.warm, part, metal=metal, across=across)
        return belonging_to(reading, whose, part, metal=metal, across=across)

    def _entry(self, index: int, table: Any) -> Entry:
        path, what = ("off", index), f"entry {index + 1}"
        end = self._end(table.end, path, what)
        part = self._part(table, path, what)
        if part is None and any(lump in (table.what or "").lower() for lump in ("stuck together", "as one lump")):
            wanted = "write one [[off]] for each of its parts, all but the last with stuck_to_next = true"
            self.reader.mistake(path + ("what",), f"{what}: a lump in one entry", wanted, said=table.what)
        kind = table.kind or ("" if part else self.words.kind_called(table.what or ""))
        marked = table.number or designation_in(table.what or "")
        sizes = self._sizes(table, kind or self.words.kind_of_part(part), path, what)
        if part is None and not marked and not table.kind and (part := self.words.part_fitting(kind, sizes)):
            kind = ""
        return Entry(
            number=index + 1,
            what=table.what or table.part or "",
            end=end,
            part=part,
            sure=table.sure and table.part is not None,
            kind=kind,
            marked=marked,
            count=table.count,
            sizes=self._sizes_at_20(sizes, what, part),
            sections=self._sections_at_20(self._sections(table, sizes, path, what), what, part),
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

    def _end(self, word: str | None, path: TreePath, what: str) -> int | None:
        if word is None:
            return None
        ends = [plain(end) for end in self.reference.ends]
        if plain(word) in ends:
            return ends.index(plain(word))
        wanted = f"write {ends[0]} or {ends[1]} (the reference says: {ends[0]} = {self.reference.ends_seen_from})"
        self.reader.mistake(path + ("end",), f'{what}: unknown end "{word}"', wanted, said=word)
        return None

    def _part(self, table: Any, path: TreePath, what: str) -> str | None:
        """The id that was given, else the part whose name was typed."""
        if table.part is None:
            return self.words.part_meant(table.what or "")
        part = self.words.part_with_id(table.part)
        if part is None:
            known = [*(part.id for part in self.reference.parts), *(unit.id for unit in self.reference.units)]
            wanted = f'{did_you_mean(table.part, known)}; a part that is none of these has only what = "..."'
            self.reader.mistake(path + ("part",), f'{what}: unknown part "{table.part}"', wanted, said=table.part)
        return part

    def _sizes(self, table: Any, kind: str, path: TreePath, what: str) -> tuple[tuple[str, Reading], ...]:
        sizes: dict[str, Reading] = {}
        for name in (*SIZE_NAMES, *SIZES_ALSO_CALLED):
            reading = getattr(table, name)
            if reading is None:
                continue
            own = "length" if name == "width" and kind in WIDTH_IS_LENGTH else SIZES_ALSO_CALLED.get(name, name)
            if own in sizes:
                self.reader.mistake(
                    path + (name,), f"{what}: {own} is given twice", f"{name} is the {own} too: write one of them"
                )
            sizes[own] = reading
        bore, outside = sizes.get("bore"), sizes.get("outside")
        if bore and outside and bore.low_mm >= outside.high_mm:
            wanted = "exchange the two, or measure again"
            self.reader.mistake(
                path + ("bore",), f"{what}: the bore is not smaller than the outside", wanted, said=bore.text
            )
        return tuple((name, sizes[name]) for name in SIZE_NAMES if name in sizes)

    def _sizes_at_20(
        self, sizes: tuple[tuple[str, Reading], ...], what: str, part: str | None
    ) -> tuple[tuple[str, Reading], ...]:
        own = self.reference.part(part) if part is not None and self.reference.has_part(part) else None
        return tuple((name, self._at_20(size, what, own, across="length" not in name)) for name, size in sizes)

    def _sections_at_20(
        self, sections: tuple[MeasuredSection, ...], what: str, part: str | None
    ) -> tuple[MeasuredSection, ...]:
        own = self.reference.part(part).material if part is not None and self.reference.has_part(part) else ""
        return tuple(
            replace(
                each,
                **{
                    name: self._at_20(getattr(each, name), what, None, metal=each.material or own)
                    for name in ("length", "outside", "bore")
                },
            )
            for each in sections
        )

    def _sections(
        self, table: Any, sizes: tuple[tuple[str, Reading], ...], path: TreePath, what: str
    ) -> tuple[MeasuredSection, ...]:
        """The steps of a part as measured: each with metal in it, and together as long as it is said to be."""
        sections = tuple(MeasuredSection(**dict(each)) for each in table.sections)
        for index, section in enumerate(sections):
            if section.bore.low_mm >= section.outside.high_mm:
                problem = f"{what}, section {index + 1}: the bore is not smaller than the outside"
                at = path + ("sections", index, "bore")
                self.reader.mistake(at, problem, "exchange the two, or measure again", said=section.bore.text)
        length = dict(sizes).get("length")
        if sections and length is not None:
            apart = abs(sum(section.length.value_mm for section in sections) - length.value_mm)
            if apart > length.good_to_mm + sum(section.length.good_to_mm for section in sections):
                problem = f"{what}: its sections add up to another length, {apart:.3g} mm apart"
                self.reader.mistake(path + ("sections",), problem, "measure the length and the steps again")
        return sections

    def _faced(self, entry: Entry, word: str, line: LineOfNames) -> Entry:
        toward = self.words.facing(entry, word, line)
        if toward is None:
            ends = self.reference.ends
            wanted = (
                f"write {ends[0]} or {ends[1]}; middle or outside where the entry has its end; "
                "the nearest part on that side; "
                "same both ways; or not seen"
            )
            what = f'entry {entry.number}: which way is toward "{word}"?'
            self.reader.mistake(("off", entry.number - 1, "toward"), what, wanted, said=word)
        return replace(entry, toward=toward or "")

    def _measured(self, index: int, raw: Any) -> Measured | None:
        path, what = ("measured", index), f"measured {index + 1}"
        table = self.reader.check(MeasuredTable, raw, path, what)
        if table is None:
            return None
        if bool(table.gap) == bool(table.place):
            wanted = 'either gap = "free gap", or place = "hub" with size = "length"'
            self.reader.mistake(path, f"{what}: what was measured?", wanted)
            return None
        if table.gap:
            gaps = [gap.name for stack in self.reference.stacks for gap in stack.gaps]
            gaps += [limit.what for limit in self.reference.limits]
            known = self._known(table.gap, gaps, path + ("gap",), f"{what}: unknown gap")
            if table.reading.warm is not None:
                wanted = "give it as it was read; stack --temperature tells what a gap is while it is warm"
                said = table.reading.text
                self.reader.mistake(path + ("reading",), f"{what}: a gap is not brought to 20 °C", wanted, said=said)
            return Measured(reading=table.reading, gap=table.gap) if known else None
        places = [place.name for place in self.reference.places]
        known = self._known(table.place, places, path + ("place",), f"{what}: unknown place")
        size = table.size or "length"
        known &= self._known(size, list(SIZE_NAMES), path + ("size",), f"{what}: unknown size")
        if not known:
            return None
        part = self.reference.part_at(table.place)
        reading = self._at_20(table.reading, f"the {part.name}", part, across="length" not in size)
        return Measured(reading=reading, place=table.place, size=size)

    def _known(self, word: str, known: list[str], path: TreePath, what: str) -> bool:
        if word not in known:
            self.reader.mistake(path, f'{what} "{word}"', did_you_mean(word, known), said=word)
        return word in known
