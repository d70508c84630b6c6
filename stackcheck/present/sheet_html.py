"""The sheet to fill in by pencil: what to look at before loosening, then numbered empty boxes from each end.

Names are offered, answers never: no size, no direction, no count of the reference stands on it. There are always more
boxes than parts, and the fixed members that are met stand between them as marks.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from math import ceil

from stackcheck.model.reference import Reference
from stackcheck.present.names import end_words
from stackcheck.present.printed import RULED_STYLE, document, ruled
from stackcheck.value import Value

MARKS = frozenset({"leg", "bracket", "carrier", "cover", "housing", "hub", "drum", "wheel"})
"""Kinds of fixed member that somebody meets on the way and can tell by sight."""

BOX_MM, MARK_MM, COLUMN_MM = 10.2, 6.0, 152.0
SPARE = 2
LINES = 15
"""Lines of the first page at the side of the questions; what the questions leave empty is for what else is seen."""

_STYLE = (
    RULED_STYLE
    + """
.page { width: 297mm; min-height: 209.5mm; padding: 9mm 10mm 0; }
.head { display: flex; justify-content: space-between; align-items: flex-start; min-height: 14mm; }
.head .who { text-align: right; white-space: nowrap; }
.ends { font-size: 10pt; }
.rule { min-height: 9.5mm; padding-top: 2mm; font-size: 8.5pt; }
.columns { display: flex; justify-content: space-between; }
.column { width: 136mm; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; }
th { font-size: 7pt; font-weight: normal; text-align: left; vertical-align: bottom; padding: 0 0.8mm 0.4mm; }
td { border: 0.25mm solid #000; vertical-align: top; padding: 0.4mm 0.8mm; font-size: 6.5pt; }
tr.box td { height: 10.2mm; }
tr.mark td { height: 6mm; font-size: 8.5pt; font-weight: bold; text-align: center; vertical-align: middle; \
border-width: 0.5mm; background: #e4e4e4; letter-spacing: 0.3mm; }
td.number { font-size: 14pt; font-weight: bold; text-align: center; vertical-align: middle; padding: 0; }
td.facing { padding: 0; }
td.facing div { display: flex; justify-content: space-between; padding: 0 0.6mm; color: #000; }
.foot { position: absolute; bottom: 5mm; left: 10mm; right: 10mm; font-size: 7pt; \
display: flex; justify-content: space-between; }
.half { width: 134mm; }
.ask { margin-bottom: 5mm; }
.ask table td { height: 9.6mm; font-size: 9pt; vertical-align: middle; }
.ask table td.short { font-size: 6.5pt; vertical-align: top; }
"""
)
_BOX_COLUMNS = (
    ("", 10),
    ("what it is", 43),
    ("size, and how it was got", 28),
    ("which feature; arrow to where it points", 28),
    ("feel, look", 18),
    ("card", 9),
)


class Mark(Value):
    """A fixed member met on the way from one end: its name, and how many parts lie before it in the reference."""

    name: str
    parts_before: int


def sheet_html(
    reference: Reference,
    *,
    questions: Sequence[str],
    measure: Sequence[str],
    marks: tuple[Sequence[Mark], Sequence[Mark]],
) -> str:
    """The whole file.

    Args:
        questions: what is to be looked at before loosening, in words.
        measure: what has to be measured, each with the name of the size.
        marks: fixed members met from the first end, and from the second, in the sequence they are met.
    """
    parts = sum(not reference.part_at(place.name).fixed for place in reference.places)
    columns = [_pages_of_boxes(ends, parts) for ends in marks]
    pages = [_first_page(reference, questions, measure)]
    for number in range(max(map(len, columns))):
        pages.append(
            _boxes_page(reference, [column[number] if number < len(column) else [] for column in columns], number)
        )
    return document(f"{reference.title}, sheet to fill in", paper="A4 landscape", style=_STYLE, pages=pages)


Row = int | str
"""A numbered box, or the name of a mark."""


def _pages_of_boxes(marks: Sequence[Mark], parts: int) -> list[list[Row]]:
    """Boxes and marks of one end, page by page; the last page is filled up with boxes."""
    rows: list[Row] = []
    number = before = 0
    for mark in marks:
        boxes = _roomy(mark.parts_before - before) if mark.parts_before > before else 0
        rows += [*range(number + 1, number + boxes + 1), mark.name]
        number, before = number + boxes, mark.parts_before
    rows += range(number + 1, max(number, parts + SPARE) + 1)
    pages: list[list[Row]] = [[]]
    room = COLUMN_MM
    for row in rows:
        height = BOX_MM if isinstance(row, int) else MARK_MM
        if height > room:
            pages.append([])
            room = COLUMN_MM
        pages[-1].append(row)
        room -= height
    last = max((row for row in rows if isinstance(row, int)), default=0)
    pages[-1] += range(last + 1, last + 1 + int(room / BOX_MM + 1e-9))
    return pages


def _roomy(parts: int) -> int:
    """More boxes than parts, to an even number, so that the boxes do not tell how many are expected."""
    return 2 * ceil((parts + SPARE) / 2)


def _head(reference: Reference, what: str) -> str:
    ends = f"{_capital(reference.ends[0])} = {reference.ends_seen_from}."
    return (
        f'<div class="head"><div><h1>{escape(reference.title)}: {escape(what)}</h1>'
        f'<p class="ends"><b>{escape(ends)}</b></p></div>'
        f'<div class="who">{ruled("machine, job", 42)}{ruled("date", 22)}{ruled("by", 12)}</div></div>'
    )


def _foot(reference: Reference, side: str) -> str:
    return (
        f'<div class="foot"><span>Reference {escape(reference.id)}, rev {escape(reference.revision)}. '
        f"Nothing expected is printed here: write what is seen.</span><span>{escape(side)}</span></div>"
    )


def _first_page(reference: Reference, questions: Sequence[str], measure: Sequence[str]) -> str:
    asked = _asked_table(
        [*questions, *[""] * max(2, LINES - len(questions))],
        ("before the first turn of the spanner", "what is seen, and how it was got", "card"),
    )
    measured = _asked_table(
        [*measure, ""] if measure else ["", ""], ("must be measured", "size, and how it was got", "card")
    )
    loose = _asked_table(
        [f"X{number}" for number in range(1, 5)],
        ("found loose", "what, size, where it lay: tray, rag, floor, stuck to a face", "card"), narrow=True,
    )  # fmt: skip
    rule = (
        "Every line takes an answer: a figure, a word, or 0 for not seen, not measured, do not know. "
        "An empty line counts as not looked at."
    )
    clamps = _asked_table(
        [joint.name for joint in reference.joints] + ["", ""],
        ("clamp, nut or bolt", "what did it do when it was loosened: nothing, sprang, which way, how far", "card"),
    )
    return (
        _head(reference, "before you loosen")
        + f'<p class="rule">{escape(rule)}</p>'
        + f'<div class="columns"><div class="half"><div class="ask">{asked}</div></div>'
        + (
            f'<div class="half"><div class="ask">{clamps}</div><div class="ask">{measured}</div>'
            f'<div class="ask">{loose}</div></div></div>'
        )
        + _foot(reference, "side 1")
    )


def _asked_table(lines: Iterable[str], heads: tuple[str, str, str], *, narrow: bool = False) -> str:
    widths = (12, 108, 14) if narrow else (64, 56, 14)
    head = "".join(f'<th style="width:{width}mm">{escape(text)}</th>' for text, width in zip(heads, widths))
    rows = "".join(f"<tr><td>{escape(_capital(line))}</td><td></td><td></td></tr>" for line in lines)
    return f"<table><tr>{head}</tr>{rows}</table>"


def _boxes_page(reference: Reference, columns: Sequence[Sequence[Row]], number: int) -> str:
    rule = (
        "One box for each thing, in the sequence it comes off; things stuck together share one. "
        "There are more boxes than parts. 0: not seen, not measured, do not know."
    )
    goes_on = ", goes on" if number else ""
    columns_html = "".join(_column(reference, end, rows) for end, rows in enumerate(columns))
    return (
        _head(reference, f"as it comes off{goes_on}")
        + f'<p class="rule">{escape(rule)}</p><div class="columns">{columns_html}</div>'
        + _foot(reference, f"side {number + 2}")
    )


def _column(reference: Reference, end: int, rows: Sequence[Row]) -> str:
    if not rows:
        return '<div class="column"></div>'
    head = "".join(f'<th style="width:{width}mm">{escape(name)}</th>' for name, width in _BOX_COLUMNS)
    body = "".join(_box(reference, row) if isinstance(row, int) else _mark(row) for row in rows)
    title = f"FROM THE {end_words(reference, end).upper()}"
    return f'<div class="column"><h2>{escape(title)}</h2><table><tr>{head}</tr>{body}</table></div>'


def _box(reference: Reference, number: int) -> str:
    ends = "".join(f"<span>{escape(end.removesuffix(' end'))}</span>" for end in reference.ends)
    return (
        f'<tr class="box"><td class="number">{number}</td><td></td><td></td>'
        f'<td class="facing"><div>{ends}</div></td><td></td><td></td></tr>'
    )


def _mark(name: str) -> str:
    return f'<tr class="mark"><td colspan="{len(_BOX_COLUMNS)}">{escape(name.upper())}</td></tr>'


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
