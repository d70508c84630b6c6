"""A parts list as CSV: one row a place, first end to second;
every cell that cannot be used is named by line and column.

Headings in any sequence: number, name, count, sizes, and kind, standard, material, duty, toward, feature, fixed, stack,
gap, note, or a size by its own name (length, bore, outside, ...). Commas, semicolons or tabs stand between cells; a
decimal comma is a decimal point; quoted cells may hold anything. In `stack` and `duty` several are joined by "+".
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from pathlib import Path

from stackcheck.errors import InputError, Mistake, SizeError
from stackcheck.formats.drawn_sizes import drawn_size, read_drawn_part, read_drawn_sizes, thick_and_long, with_unit
from stackcheck.formats.source import did_you_mean
from stackcheck.formats.words import SIZES_ALSO_CALLED, designation_in, kind_of_name, named_kind
from stackcheck.model.part import DUTIES, KINDS, SIZE_NAMES
from stackcheck.tables import UnknownStandard, resolve
from stackcheck.value import Value

CONSEQUENCE = "Nothing was written."
LARGEST_BYTES = 2_000_000
MOST_ROWS = 2_000
SEPARATORS = (",", ";", "\t")

HEADINGS = {
    "number": "number", "no": "number", "part number": "number", "part no": "number", "item number": "number",
    "name": "name", "description": "name", "designation": "name", "part": "name", "what": "name",
    "count": "count", "quantity": "count", "qty": "count", "pieces": "count",
    "sizes": "sizes", "size": "sizes", "dimensions": "sizes",
    "kind": "kind", "type": "kind", "standard": "standard", "material": "material", "toward": "toward",
    "facing": "toward", "feature": "feature", "fixed": "fixed", "stays on": "fixed", "stack": "stack",
    "stacks": "stack", "gap": "gap", "note": "note", "remark": "note", "duty": "duty", "duties": "duty",
    **{name.replace("_", " "): name for name in SIZE_NAMES}, **SIZES_ALSO_CALLED,
}  # fmt: skip
"""What may stand at the head of a column -> our word for it."""

_YES, _NO = ("yes", "y", "x", "true", "1"), ("", "no", "n", "false", "0")


class ListedRow(Value, kw_only=True):
    """One row as it was read; `gap` rows hold limits instead of a part. `line` is where the row begins."""

    line: int
    name: str = ""
    kind: str = ""
    number: str = ""
    standard: str = ""
    count: int = 1
    sizes: tuple[tuple[str, str], ...] = ()
    material: str = ""
    feature: str = ""
    toward: str = ""
    fixed: bool | None = None
    stacks: tuple[str, ...] = ()
    note: str = ""
    duties: tuple[str, ...] = ()
    gap: tuple[str, str] | None = None


def read_parts_list(path: Path, ends: tuple[str, str]) -> tuple[ListedRow, ...]:
    """Read the rows of a parts list.

    Raises:
        InputError: every cell that cannot be used, with its line and column.
    """
    return _List(path, ends).rows()


class _List:
    def __init__(self, path: Path, ends: tuple[str, str]):
        self.path, self.ends = path, ends
        self.mistakes: list[Mistake] = []
        self.partners: list[tuple[int, int, str]] = []

    def rows(self) -> tuple[ListedRow, ...]:
        lines = list(self._lines(self._text()))
        if not lines:
            raise self._refusal("the list is empty", "its first line names the columns: number,name,count,sizes")
        (line, head), *rest = lines
        columns = self._columns(line, head)
        self._stop()
        rows = [row for line, cells in rest if any(cells) and (row := self._row(line, cells, columns))]
        self._check_partners(rows)
        self._stop()
        if sum(row.gap is None for row in rows) < 2:
            raise self._refusal(
                "fewer than two parts are listed", "list at least two parts that touch, first end to second"
            )
        return tuple(rows)

    def _text(self) -> str:
        try:
            data = self.path.read_bytes()[: LARGEST_BYTES + 1]
        except (OSError, ValueError) as problem:
            reason = getattr(problem, "strerror", None) or str(problem)
            raise self._refusal(f"cannot be read ({reason})", "look at its name and at who may read it") from None
        if len(data) > LARGEST_BYTES:
            raise self._refusal("the file is far too large for a parts list", "is it the one you mean?")
        try:
            return data.decode("utf-8-sig")
        except UnicodeDecodeError as problem:
            line = data[: problem.start].count(b"\n") + 1
            raise self._refusal(
                f"the text is not UTF-8 (byte 0x{data[problem.start]:02x})",
                "save it again with the encoding UTF-8",
                line,
            ) from None

    def _lines(self, text: str) -> Iterator[tuple[int, list[str]]]:
        """Each row with the line it begins in; a quoted cell may go on over several lines."""
        separator = self._separator(text)
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
        line = 1
        try:
            for cells in reader:
                yield line, [" ".join(cell.split()) for cell in cells]
                line = reader.line_num + 1
                if line > 10 * MOST_ROWS:
                    raise self._refusal(f"more than {MOST_ROWS:,} rows", "is it a list of one assembly?")
        except csv.Error as problem:
            what = (
                "a quotation mark is opened and never closed"
                if "unexpected end" in str(problem)
                else f"the row cannot be read ({problem})"
            )
            raise self._refusal(what, 'a quotation mark inside a cell is written twice: "1/2"" washer"', line) from None

    def _separator(self, text: str) -> str:
        """The one that makes the most known headings of the first line."""
        first = text.lstrip("\r\n").split("\n", 1)[0]
        return max(SEPARATORS, key=lambda each: sum(_plain(cell) in HEADINGS for cell in first.split(each)))

    def _columns(self, line: int, head: list[str]) -> list[str]:
        columns = []
        for index, cell in enumerate(head):
            own = HEADINGS.get(_plain(cell), "")
            if not cell:
                own = ""
            elif not own:
                self._mistake(
                    line, index, f'unknown heading "{cell}"', did_you_mean(_plain(cell), list(HEADINGS)), cell
                )
            elif own in columns:
                self._mistake(line, index, f'a second column for the {own}: "{cell}"', "keep one of them", cell)
            columns.append(own)
        if "name" not in columns and "standard" not in columns:
            self._mistake(line, 0, "no column holds the names", 'head one of them "name"', "")
        return columns

    def _row(self, line: int, cells: list[str], columns: list[str]) -> ListedRow | None:
        for index, cell in enumerate(cells[len(columns) :], len(columns)):
            if cell:
                self._mistake(
                    line,
                    index,
                    f'a cell stands beyond the last heading: "{cell}"',
                    "quote a cell that holds the separator",
                    cell,
                )
                return None
        said = {name: (index, cell) for index, (name, cell) in enumerate(zip(columns, cells)) if name and cell}
        before = len(self.mistakes)
        stacks = _joined(said.get("stack", (0, ""))[1])
        if "gap" in said:
            gap = self._gap(line, *said["gap"])
            name = said.get("name", (0, ""))[1] or "free gap"
            return ListedRow(line=line, name=name, gap=gap, stacks=stacks) if gap else None
        index, name = said.get("name", (0, ""))
        drawn = self._read(line, index, name, read_drawn_part)
        at, standard = said.get("standard", (index, drawn.standard if drawn else ""))
        if not standard and (found := designation_in(said.get("sizes", (0, ""))[1])):
            at, cell = said["sizes"]  # "6201" among the sizes is a bearing, and no length
            standard, said["sizes"] = found, (at, cell.replace(found, " "))
        standard = self._standard(line, at, standard)
        kind = self._kind(line, said, name, standard)
        row = {
            "name": (drawn.name if drawn else "") or standard,
            "number": said.get("number", (0, drawn.number if drawn else ""))[1],
            "count": self._count(line, *said["count"]) if "count" in said else drawn.count if drawn else 1,
            "standard": standard, "sizes": thick_and_long(kind, self._sizes(line, said, drawn.sizes if drawn else ())),
            "kind": kind, "toward": self._toward(line, said), "fixed": self._fixed(line, said),
            "stacks": stacks, "duties": self._duties(line, *said["duty"]) if "duty" in said else (),
        } | {key: said.get(key, (0, ""))[1] for key in ("material", "feature", "note")}  # fmt: skip
        return ListedRow(line=line, **row) if len(self.mistakes) == before else None

    def _read(self, line: int, index: int, cell: str, read):
        try:
            return read(cell) if cell else None
        except SizeError as problem:
            self._mistake(line, index, f'"{problem.said[:40]}" cannot be read', problem.wanted, cell)
            return None

    def _sizes(self, line: int, said: dict, from_name: tuple) -> tuple[tuple[str, str], ...]:
        sizes = dict(from_name)
        if "sizes" in said:
            index, cell = said["sizes"]
            read = self._read(line, index, cell, read_drawn_sizes)
            if read and read[0].strip(" ,;"):
                self._mistake(
                    line,
                    index,
                    f'"{read[0].strip()}" is no size',
                    'write "30x20x18 mm" or "length 18.0 ±0.05, bore 20 H8"',
                    cell,
                )
            sizes |= dict(read[1]) if read else {}
        for name in SIZE_NAMES:
            if name in said:
                index, cell = said[name]
                if self._read(line, index, cell, drawn_size):
                    sizes[name] = with_unit(cell)
        return tuple((name, sizes[name]) for name in SIZE_NAMES if name in sizes)

    def _count(self, line: int, index: int, cell: str) -> int:
        if cell.isdigit() and 1 <= int(cell[:6]) <= 10_000:
            return int(cell)
        self._mistake(line, index, f'"{cell[:40]}" is no count', "write a whole number, 1 or more", cell)
        return 1

    def _standard(self, line: int, index: int, cell: str) -> str:
        if not cell:
            return ""
        try:
            resolve(cell)
        except UnknownStandard as problem:
            self._mistake(
                line,
                index,
                f'"{cell[:40]}" is not in the tables of standard parts',
                f"{' or '.join(problem.suggestions[:3]) or 'leave it out'}?",
                cell,
            )
        return cell

    def _kind(self, line: int, said: dict, name: str, standard: str) -> str:
        index, cell = said.get("kind", (0, ""))
        if cell:
            kind = cell if cell in KINDS else named_kind(cell)
            if kind not in KINDS:
                self._mistake(line, index, f'unknown kind "{cell[:40]}"', did_you_mean(cell, KINDS), cell)
            return kind
        try:
            kind = resolve(standard).kind if standard else kind_of_name(name)
        except UnknownStandard:
            return ""
        if not kind:
            self._mistake(
                line,
                said.get("name", (0, ""))[0],
                f'nothing says what kind of part "{name[:40]}" is',
                "add a column kind: collar, washer, seal, ...",
                name,
            )
        return kind

    def _toward(self, line: int, said: dict) -> str:
        index, cell = said.get("toward", (0, ""))
        word = cell.lower()
        if word and word not in (*self.ends, "middle", "outside"):
            self._mistake(line, index, f'toward "{cell[:40]}"?', f"write {self.ends[0]} or {self.ends[1]}", cell)
        if word and "feature" not in said:
            self._mistake(
                line,
                index,
                "nothing says which feature points there",
                'add a column feature: "flange", "spring side", ...',
                cell,
            )
        return word

    def _fixed(self, line: int, said: dict) -> bool | None:
        if "fixed" not in said:
            return None
        index, cell = said["fixed"]
        if cell.lower() not in (*_YES, *_NO):
            self._mistake(
                line,
                index,
                f'"{cell[:40]}" is neither yes nor no',
                "write yes where the part stays on the machine",
                cell,
            )
        return cell.lower() in _YES

    def _duties(self, line: int, index: int, cell: str) -> tuple[str, ...]:
        """Duties by their names; the partner of a pair by the name that its own row has."""
        duties = tuple(each if each.startswith("pair") else each.lower() for each in _joined(cell))
        for duty in duties:
            name, _, partner = (piece.strip() for piece in duty.partition(":"))
            if name not in DUTIES:
                self._mistake(line, index, f'unknown duty "{duty[:40]}"', did_you_mean(duty, list(DUTIES)), cell)
            elif (name == "pair") != bool(partner):
                self._mistake(
                    line,
                    index,
                    f'the duty "{duty[:40]}" cannot be used',
                    "only a pair names something: pair: long collar",
                    cell,
                )
            elif partner:
                self.partners.append((line, index, partner))
        return duties

    def _check_partners(self, rows: list[ListedRow]) -> None:
        names = [row.name for row in rows if row.gap is None]
        for line, index, partner in self.partners:
            if partner.lower() not in map(str.lower, names):
                self._mistake(line, index, f'no row is called "{partner[:40]}"', did_you_mean(partner, names), partner)

    def _gap(self, line: int, index: int, cell: str) -> tuple[str, str] | None:
        size = self._read(line, index, cell, drawn_size)
        if size is not None and not size.has_limits:
            self._mistake(line, index, "a gap has two figures", "write 2.5..4.0 mm", cell)
            return None
        return (f"{size.least_mm:.9g} mm", f"{size.most_mm:.9g} mm") if size else None

    def _mistake(self, line: int, index: int, what: str, wanted: str, cell: str) -> None:
        self.mistakes.append(
            Mistake(file=str(self.path), line=line, what=f"column {index + 1}: {what}", wanted=wanted, said=cell[:60])
        )

    def _refusal(self, what: str, wanted: str, line: int | None = None) -> InputError:
        return InputError([Mistake(file=str(self.path), line=line, what=what, wanted=wanted)], consequence=CONSEQUENCE)

    def _stop(self) -> None:
        if self.mistakes:
            raise InputError(self.mistakes, consequence=CONSEQUENCE)


def _joined(cell: str) -> tuple[str, ...]:
    return tuple(piece.strip() for piece in cell.split("+") if piece.strip())


def _plain(cell: str) -> str:
    return " ".join(cell.strip().strip('"').lower().replace("_", " ").replace(".", " ").split())
