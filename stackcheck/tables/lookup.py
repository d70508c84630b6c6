"""Looks standard parts up: one row for one designation, or what was probably meant.

A row leaves here complete: sizes with limits, features in words, sources in full. What the suffixes say is added to the
row of the table: seals as features, the clearance group as a size.
"""

from __future__ import annotations

import re
from functools import cache

from stackcheck.model.hardware import HardwareRow, HardwareSize, HardwareTable
from stackcheck.tables.catalogue import BY_ID, FIGURES, OLDER_NAMES, SPECS, TableSpec
from stackcheck.tables.designation import Typed, Unreadable, read, tidy
from stackcheck.tables.loader import KEY_COLUMNS, read_records, source_texts, sources_of, table_rows

SHOWN = 5
LONGEST = 40


class UnknownStandard(LookupError):
    """No row for this designation. `suggestions` are near designations that exist, nearest first."""

    def __init__(self, designation: str, suggestions: tuple[str, ...], why: str):
        self.designation = designation
        self.suggestions = suggestions
        shown = designation if len(designation) <= LONGEST else designation[: LONGEST - 3] + "..."
        near = f"; near it: {', '.join(suggestions)}" if suggestions else ""
        super().__init__(f'"{shown}" is not in the tables of standard parts: {why}{near}. Covered: {_coverage()}')


def resolve(designation: str) -> HardwareRow:
    """The row for a designation such as "6204", "6204-2RS C3", "32004 X", "ISO 7089 M12" or "DIN 471 20".

    Upper and lower case, blanks, dashes and a decimal comma do not matter. A ball bearing has `radial_clearance` (mm,
    ISO 5753-1) by its group, CN where none is marked, as far as two sources give it.

    Raises:
        UnknownStandard: nothing of that name is in the tables; its message says what is, and what is near.
    """
    try:
        typed = read(designation)
    except Unreadable as error:
        raise _unknown(designation, error.why, error.base) from None
    own = table_rows(typed.table_id)
    row = own.get(typed.size) or own.get(typed.or_else)
    base = f"{BY_ID[typed.table_id].prefix}{typed.size}"
    if row is None:
        raise _unknown(designation, "its table has no such size", base)
    for name, value in typed.also:
        if row.size(name).nominal_mm != value:
            raise _unknown(designation, f"{row.designation} has {row.size(name).nominal_mm:g}, not {value:g}", base)
    return _with_suffixes(designation, row, typed)


def tables() -> tuple[HardwareTable, ...]:
    """Every table, in the sequence of the shelf, with what it covers and leaves out."""
    return tuple(_table(spec) for spec in SPECS)


def figures() -> tuple[tuple[HardwareTable, int], ...]:
    """Every table of figures that parts are made with (grades, deviations, clearances), with its number of rows."""
    return tuple((_table(spec), len(read_records(spec.file))) for spec in FIGURES)


def rows(table_id: str) -> tuple[HardwareRow, ...]:
    """The rows of one table in the sequence of its file, as `resolve` gives them for the plain designations.

    Raises:
        KeyError: no table has this id; `tables` gives the ids.
    """
    return tuple(resolve(row.designation) for row in table_rows(table_id).values())


def _table(spec: TableSpec) -> HardwareTable:
    texts = source_texts()
    records = read_records(spec.file)
    keys = (key for record in records for column in KEY_COLUMNS for key in record.get(column, "").split())
    return HardwareTable(
        id=spec.id,
        standard=spec.standard,
        edition=spec.edition,
        title=spec.title,
        covers=spec.covers,
        not_covered=spec.not_covered,
        sources=tuple(texts[key] for key in dict.fromkeys(keys)),
    )


def _with_suffixes(designation: str, row: HardwareRow, typed: Typed) -> HardwareRow:
    if not (typed.suffix or typed.features):
        return row
    sizes, sources, features = row.sizes, row.sources, typed.features
    if typed.clearance_group:
        clearance, their_sources = _clearance(row.size("bore").nominal_mm, typed.clearance_group)
        if clearance is not None:
            sizes += (clearance,)
            sources = tuple(dict.fromkeys((*sources, *their_sources)))
        elif typed.suffix.endswith(typed.clearance_group):
            why = f"clearance group {typed.clearance_group} has no second source at this bore"
            raise _unknown(designation, why, row.designation)
    return HardwareRow(
        standard=row.standard,
        designation=f"{row.designation}{typed.suffix}",
        kind=row.kind,
        sizes=sizes,
        features=(*row.features, *features),
        sources=sources,
    )


def _clearance(bore_mm: float, group: str) -> tuple[HardwareSize | None, tuple[str, ...]]:
    """Radial clearance as delivered [mm] by ISO 5753-1, bands "over, up to and including"."""
    for record in _clearance_records():
        if float(record["over"]) < bore_mm <= float(record["to"]) and record[f"{group}_least"]:
            least, most = float(record[f"{group}_least"]), float(record[f"{group}_most"])
            middle = round((least + most) / 2, 5)
            size = HardwareSize(name="radial_clearance", nominal_mm=middle, least_mm=least, most_mm=most)
            return size, sources_of(record)
    return None, ()


@cache
def _clearance_records() -> tuple[dict[str, str], ...]:
    return tuple(read_records("iso_5753_1.csv"))


def _unknown(designation: str, why: str, base: str) -> UnknownStandard:
    return UnknownStandard(designation, _near(base or designation), why)


def _coverage() -> str:
    bearings = ", ".join(spec.id.rpartition("-")[2] for spec in SPECS if not spec.prefix)
    others = ", ".join(spec.standard for spec in SPECS if spec.prefix)
    return f"bearing series {bearings}; {others}"


@cache
def _upper_case() -> dict[str, str]:
    """Every designation by its upper-case form, in the sequence of the shelf."""
    return {row.designation.upper(): row.designation for spec in SPECS for row in table_rows(spec.id).values()}


def _near(text: str) -> tuple[str, ...]:
    """Designations that exist and are few slips of the pen away, nearest first; of equals, the nearer number."""
    wanted = tidy(text[: 2 * LONGEST])
    for older, newer in OLDER_NAMES.items():
        if wanted.startswith(older) and not wanted[len(older) :][:1].isdigit() and not wanted.startswith(newer):
            wanted = newer + wanted[len(older) :]
    if wanted in _upper_case():
        return (_upper_case()[wanted],)  # only the suffix was not understood
    wanted = wanted.replace(" ", "")
    allowed = 1 + len(wanted) // 4
    scored = []
    for place, (upper, name) in enumerate(_upper_case().items()):
        plain = upper.replace(" ", "")
        if abs(len(plain) - len(wanted)) <= allowed:
            slips = _slips(wanted, plain)
            if slips <= allowed:
                scored.append((slips, abs(_last_number(plain) - _last_number(wanted)), place, name))
    return tuple(name for *_, name in sorted(scored)[:SHOWN])


def _last_number(text: str) -> float:
    """The last number in a designation: its size, or 0 where it has none."""
    numbers = re.findall(r"[0-9]{1,6}(?:\.[0-9]{1,3})?", text)
    return float(numbers[-1]) if numbers else 0.0


def _slips(left: str, right: str) -> float:
    """How many slips turn one text into the other: a wrong, missing or surplus sign counts 1, two exchanged 0.9.

    Dynamic programming over prefixes (optimal string alignment); exchanged digits count a little less because that is
    how bearing numbers are most often mistyped.
    """
    two_above: list[float] = []
    above = [float(column) for column in range(len(right) + 1)]
    for index, sign in enumerate(left, start=1):
        row = [float(index)]
        for column, other in enumerate(right, start=1):
            best = min(above[column] + 1, row[-1] + 1, above[column - 1] + (sign != other))
            if index > 1 and column > 1 and sign != other and sign == right[column - 2] and left[index - 2] == other:
                best = min(best, two_above[column - 2] + 0.9)
            row.append(best)
        two_above, above = above, row
    return above[-1]
