"""What was noticed of the machine: one `[[symptoms]]` of a teardown list, read against its reference."""

from __future__ import annotations

from typing import Any

from stackcheck.formats.facing import read_facing
from stackcheck.formats.found_tables import SymptomTable
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.model.found import MOVED, STANDS_OFF, Symptom
from stackcheck.model.reference import Reference


def read_symptom(reader: Reader, reference: Reference, index: int, raw: Any) -> Symptom | None:
    """The symptom, None with its mistakes noted."""
    path, what = ("symptoms", index), f"symptom {index + 1}"
    table = reader.check(SymptomTable, raw, path, what)
    if table is None:
        return None
    if table.place and not reference.has_place(table.place):
        wanted = did_you_mean(table.place, [place.name for place in reference.places])
        reader.mistake((*path, "place"), f'{what}: unknown place "{table.place}"', wanted, said=table.place)
        return None
    if table.what not in (MOVED, STANDS_OFF):
        for name in ("toward", "by"):
            if getattr(table, name):
                reader.mistake((*path, name), f"{what}: {table.what} has no {name}", "leave it out", said="")
        return Symptom(what=table.what, place=table.place, note=table.note)
    if not table.place or not table.toward:
        wanted = f'add place = "leg@{reference.ends[1]}" and toward = "outside", or the name of an end'
        reader.mistake(path, f"{what}: what went which way?", wanted)
        return None
    end = reference.place(table.place).end
    toward = read_facing(table.toward, ends=reference.ends, end=end, lines=())
    if not toward:
        wanted = f"write {reference.ends[0]} or {reference.ends[1]}{'' if end is None else '; middle or outside'}"
        reader.mistake((*path, "toward"), f'{what}: which way is toward "{table.toward}"?', wanted, said=table.toward)
        return None
    return Symptom(what=table.what, place=table.place, toward=toward, by=table.by, note=table.note)
