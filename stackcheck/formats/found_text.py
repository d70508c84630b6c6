"""A teardown list as the text of its TOML file: words and readings as they were typed."""

from __future__ import annotations

from typing import Any

from stackcheck.formats.facing import DIRECTIONS
from stackcheck.formats.new_file import join_tables, table_text
from stackcheck.model.found import Entry, Found, Measured, Symptom
from stackcheck.model.reference import Reference


def found_text(found: Found, reference: Reference) -> str:
    """The whole file; `read_found` reads it back to the same list."""
    head = {
        "kind": "as found",
        "format": 1,
        "reference": found.reference,
        "revision": found.revision,
        "title": found.title,
        "story": found.story,
        "by": found.by,
        "date": found.date,
        "year": found.year,
        "serial": found.serial,
        "finished": found.finished,
        "not_seen": found.not_seen,
    }
    tables = [table_text("", head)]
    tables += [table_text("[[off]]", _entry(entry, reference)) for entry in found.entries]
    tables += [table_text("[[measured]]", _measured(item)) for item in found.measured]
    tables += [table_text("[[symptoms]]", _symptom(item, reference)) for item in found.symptoms]
    return join_tables(tables)


def _entry(entry: Entry, reference: Reference) -> dict[str, Any]:
    return {
        "end": None if entry.end is None else reference.ends[entry.end],
        "what": entry.what,
        "part": entry.part,
        "sure": False if entry.part is not None and not entry.sure else None,
        "kind": entry.kind,
        "number": entry.marked,
        "count": entry.count if entry.count != 1 else None,
        **{name: reading.text for name, reading in entry.sizes},
        "sections": [
            {
                "length": section.length.text,
                "outside": section.outside.text,
                "bore": section.bore.text,
                "material": section.material,
            }
            for section in entry.sections
        ],
        "feature": entry.feature,
        "toward": reference.ends[DIRECTIONS.index(entry.toward)] if entry.toward in DIRECTIONS else entry.toward,
        "feel": entry.feel,
        "look": entry.look,
        "came_off": entry.came_off,
        "card": entry.card,
        "tag": entry.tag,
        "place_seen": entry.place_seen,
        "stuck_to_next": entry.stuck_to_next or None,
        "note": entry.note,
    }


def _measured(item: Measured) -> dict[str, Any]:
    where = {"gap": item.gap} if item.gap else {"place": item.place, "size": item.size}
    return {**where, "reading": item.reading.text}


def _symptom(item: Symptom, reference: Reference) -> dict[str, Any]:
    toward = reference.ends[DIRECTIONS.index(item.toward)] if item.toward else ""
    return {"what": item.what, "place": item.place, "toward": toward, "by": item.by and item.by.text, "note": item.note}
