"""What a strip report holds, as a value: sentences, pictures and tables, in the sequence in which they are read.

Everything is said by the same words as `compare` says it (`stackcheck.present`); here it is only put in sequence:
sentence, picture, findings, what agrees, items, sums, measurements, cautions, not verified, then whatever a job adds:
gauges, open items, decisions, buying list, photos. A part that a job does not have is not there; nothing is made up in
its place.
"""

from __future__ import annotations

from stackcheck.drawing.excerpt import detail, folded
from stackcheck.drawing.layout import layout
from stackcheck.drawing.legend import parts_list
from stackcheck.drawing.picture import Layout
from stackcheck.drawing.picture_page import marks_of
from stackcheck.drawing.plain_text import shown
from stackcheck.drawing.svg import drawing
from stackcheck.model.found import Found
from stackcheck.model.part import SIZE_NAMES, Reading
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.compare_page import MOST_CAUTIONS, page
from stackcheck.present.compare_summary import summary
from stackcheck.present.how_page import LENGTHS, MEASURED
from stackcheck.present.names import counted
from stackcheck.present.stack_page import sum_blocks
from stackcheck.present.verdict_words import not_verified
from stackcheck.present.words import (
    LABELS,
    effect_words,
    end_words,
    grade_words,
    limits_words,
    mm,
    place_words,
    sentence,
)
from stackcheck.report.agreeing import agreeing
from stackcheck.result.comparison import Comparison, FindingResult
from stackcheck.value import Value

NAMED_NOT_VERIFIED = 9
MOST_DETAILS = 8
MANY_ITEMS = 40
"""From here on the picture folds repeats."""


class Picture(Value, kw_only=True):
    """A drawing of ours (`svg`) or a photo (`source`, a data address) with the words that stand for it; the words alone
    where there is nothing to show."""

    words: str
    svg: str = ""
    source: str = ""
    card: str = ""


class Section(Value, kw_only=True):
    """A heading with what stands below it."""

    title: str
    blocks: tuple[Block, ...] = ()
    pictures: tuple[Picture, ...] = ()


class FindingPart(Value, kw_only=True):
    """One finding: items, kind, sentence, what was seen, what it does, its own picture,
    and the decision where a job has one.
    """

    number: int
    marks: str
    label: str
    words: str
    seen: tuple[str, ...] = ()
    does: str = ""
    picture: str = ""
    decision: str = ""


class JobParts(Value, kw_only=True):
    """What the record of a job adds to a report; each part may be empty.

    `decisions` are by number of finding; `fitted` is the comparison of the same assembly as fitted.
    """

    decisions: tuple[tuple[int, str], ...] = ()
    gauges: tuple[Block, ...] = ()
    open_items: tuple[Block, ...] = ()
    buying: tuple[Block, ...] = ()
    photos: tuple[Picture, ...] = ()
    fitted: Comparison | None = None
    recorded: tuple[str, ...] = ()


class Report(Value, kw_only=True):
    """A whole report. `about` are the lines below the title; `not_verified` is never shortened in the last section."""

    title: str
    kind: str
    about: tuple[tuple[str, str], ...]
    summary: str
    picture: str
    legend: tuple[str, ...]
    items: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]
    more_cautions: int
    not_verified: tuple[str, ...]
    more_not_verified: int
    findings: tuple[FindingPart, ...] = ()
    sections: tuple[Section, ...] = ()


def strip_report(comparison: Comparison, job: JobParts | None = None) -> Report:
    """The report of one comparison, with what a job adds to it."""
    job = job or JobParts()
    reference, found = comparison.reference, comparison.found
    picture = layout(comparison)
    whole = drawing(folded(picture) if len(picture.items) > MANY_ITEMS else picture, name="whole")
    unseen = not_verified(comparison)
    sections = [
        Section(title="Agrees", blocks=agreeing(comparison)),
        *_sections_of_page(comparison),
        Section(title="Sums, mm", blocks=_sums(comparison)),
        Section(title="Measurements, mm", blocks=_measurements(comparison, job.fitted)),
        Section(title="Gauges", blocks=job.gauges or (Text("No comparison of gauges is recorded in this job."),)),
        Section(title="Cautions", blocks=tuple(Text(caution.text, mark="- ") for caution in comparison.cautions)),
        Section(title="Not verified", blocks=tuple(Text(words, mark="- ") for words in unseen)),
        Section(title="Open items", blocks=job.open_items),
        Section(title="Buying list", blocks=job.buying),
        Section(title="Photos", pictures=job.photos),
        Section(title="Recorded", blocks=tuple(Text(words) for words in (*_recorded(found), *job.recorded))),
    ]
    return Report(
        title=f"{reference.title}, rev {reference.revision}",
        kind="Strip report",
        about=_about(comparison),
        summary=summary(comparison),
        picture=whole.svg,
        legend=whole.legend,
        items=tuple(parts_list(picture)),
        cautions=tuple(caution.text for caution in comparison.cautions[:MOST_CAUTIONS]),
        more_cautions=max(0, len(comparison.cautions) - MOST_CAUTIONS),
        not_verified=tuple(unseen[:NAMED_NOT_VERIFIED]),
        more_not_verified=max(0, len(unseen) - NAMED_NOT_VERIFIED),
        findings=_findings(comparison, picture, dict(job.decisions)),
        sections=tuple(section for section in sections if section.blocks or section.pictures),
    )


def _about(comparison: Comparison) -> tuple[tuple[str, str], ...]:
    reference, found = comparison.reference, comparison.found
    lines = [
        ("Reference", f"{reference.id}, rev {reference.revision}: {grade_words(reference)}"),
        ("Ends", f"{reference.ends[0]} and {reference.ends[1]}; {end_words(reference, 0)}: {reference.ends_seen_from}"),
        ("Teardown list", found.title),
        ("Recorded by", found.by),
        ("Date", found.date),
    ]
    return tuple((name, words) for name, words in lines if words)


def _recorded(found: Found) -> tuple[str, ...]:
    by = f"recorded by {found.by}" if found.by else "the list does not say by whom"
    return (
        f"As found: {counted(len(found.entries), 'entry', 'entries')}, {by}{f', {found.date}' if found.date else ''}.",
    )


def _findings(comparison: Comparison, picture: Layout, decisions: dict[int, str]) -> tuple[FindingPart, ...]:
    return tuple(
        _finding(comparison, picture, number, result, decisions.get(number, ""))
        for number, result in enumerate(comparison.findings, start=1)
    )


def _finding(comparison: Comparison, picture: Layout, number: int, result: FindingResult, decision: str) -> FindingPart:
    finding = result.finding
    own = detail(picture, finding)
    return FindingPart(
        number=number,
        marks=", ".join(marks_of(picture, finding)),
        label=LABELS[finding.kind],
        words=_capital(sentence(finding, comparison.reference, comparison.found)),
        seen=finding.evidence,
        does=effect_words(result.effect, comparison.reference) if result.effect is not None else "",
        picture=drawing(own, name=f"finding-{number}").svg if own is not picture and number <= MOST_DETAILS else "",
        decision=decision,
    )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


_FROM_PAGE = ("CANNOT TELL", "NOTES", "OTHER READINGS OF THE SAME LIST", "ITEMS", "LENGTHS AND GAPS")


def _sections_of_page(comparison: Comparison) -> list[Section]:
    """The sections that stand in the answer of `compare` in the same words."""
    sections: list[Section] = []
    for block in page(comparison):
        if isinstance(block, Heading):
            sections.append(Section(title=block.text))
        elif sections:
            last = sections.pop()
            sections.append(Section(title=last.title, blocks=(*last.blocks, block)))
    return [
        Section(
            title=section.title[:1] + section.title[1:].lower() if section.title.isupper() else _title(section.title),
            blocks=section.blocks,
        )
        for section in sections
        if section.title.startswith(_FROM_PAGE)
    ]


def _title(words: str) -> str:
    """A heading of the terminal as one of a document: "ITEMS, from the left end" -> "Items, from the left end"."""
    first, _, rest = words.partition(",")
    return f"{first[:1]}{first[1:].lower()},{rest}"


def _sums(comparison: Comparison) -> tuple[Block, ...]:
    blocks: list[Block] = [Text(f"{LENGTHS} {MEASURED}")]
    for result in comparison.stacks:
        blocks.append(Heading(result.name))
        blocks += sum_blocks(comparison.reference, result.as_found, result.reference)
    return tuple(blocks)


def _measurements(comparison: Comparison, fitted: Comparison | None) -> tuple[Block, ...]:
    """Every reading as typed, beside what the reference says,
    and beside the same size as fitted where that is known.
    """
    reference = comparison.reference
    later = _readings(fitted) if fitted is not None else {}
    rows = []
    for (place, name), (what, readings) in _readings(comparison).items():
        part = reference.part_at(place) if reference.has_place(place) else None
        size = part.size(name) if part is not None else None
        for reading in readings:
            row = (
                what,
                SIZE_NAMES.get(name, name),
                reading.text,
                mm(reading.value_mm),
                reading.how or "not said",
                mm(reading.good_to_mm),
            )
            own = (
                (mm(size.nominal_mm), limits_words(size.least_mm, size.most_mm))
                if size is not None
                else ("-", _gap_limits(comparison, name))
            )
            fitted_words = tuple(each.text for each in later.get((place, name), ("", ()))[1])
            rows.append((*row, *(["; ".join(fitted_words) or "not measured"] if fitted is not None else []), *own))
    if not rows:
        return (Text("Nothing was measured."),)
    header = (
        "part",
        "size",
        "as typed",
        "mm",
        "how",
        "good to",
        *(["as fitted"] if fitted is not None else []),
        "reference",
        "limits",
    )
    return (Rows(header, tuple(rows), right=(3, 5, len(header) - 2), wraps=(0, 1, 2)),)


def _readings(comparison: Comparison) -> dict[tuple[str, str], tuple[str, list[Reading]]]:
    """(place or entry, size or gap) -> what it is called, and its readings."""
    reference, found = comparison.reference, comparison.found
    homes = {standing.entry: standing.home for standing in comparison.best.line if standing.entry is not None}
    known: dict[tuple[str, str], tuple[str, list[Reading]]] = {}
    for entry in found.entries:
        home = homes.get(entry.number) or ""
        what = place_words(reference, home) if reference.has_place(home) else shown(entry.what)
        for name, reading in entry.sizes:
            known.setdefault((home or f"entry {entry.number}", name), (f"{what}, entry {entry.number}", []))[1].append(
                reading
            )
    for item in found.measured:
        what = place_words(reference, item.place) if item.place else item.gap
        known.setdefault((item.place or "gap", item.size or item.gap), (what, []))[1].append(item.reading)
    return known


def _gap_limits(comparison: Comparison, name: str) -> str:
    loop = next((result.as_found.loop for result in comparison.loops if result.as_found.loop.name == name), None)
    return limits_words(loop.least_mm, loop.most_mm) if loop is not None else "-"
