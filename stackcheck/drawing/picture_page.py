"""The words below a drawing in a terminal: what differs at which item, gaps, and the list of the parts."""

from __future__ import annotations

from stackcheck.drawing.callouts import BY_THE_SUM
from stackcheck.drawing.picture import FOUND, REFERENCE, Layout
from stackcheck.drawing.plain_text import shown
from stackcheck.model.finding import Finding
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.compare_summary import summary
from stackcheck.present.verdict_words import not_verified
from stackcheck.present.words import LABELS, sentence

LONGEST = 60
SIGNS = (
    "[ + ] bearing, its cross leans where its direction matters; > < a feature and where it looks; @ nut; "
    "# member that "
    "stays; x housing; = shaft; : missing; . not looked at; X extra; ? way round not said."
)


def words(layout: Layout, *, only: int | None = None) -> list[Block]:
    """Findings with their items, gaps as found and in the reference, shifts, parts, signs;
    of one finding where `only` is given.
    """
    comparison = layout.comparison
    blocks: list[Block] = []
    for number, result in enumerate(comparison.findings, start=1):
        if only not in (None, number):
            continue
        finding = result.finding
        said = shown(sentence(finding, comparison.reference, comparison.found))
        blocks.append(
            Text(
                f"{LABELS[finding.kind]}  {said}",
                mark=f"{', '.join(marks_of(layout, finding)) or 'gap':>5}  ",
                strong=True,
            )
        )
    rows = _gap_rows(layout)
    if rows:
        blocks.append(Rows(("gap, mm", "as found", "reference"), rows, wraps=(0,)))
    blocks += [Text(f"{moved.mark}: {moved.words}.", indent=1) for moved in layout.moved]
    blocks.append(Heading("ITEMS"))
    parts = tuple(
        (item.mark + ("~" if item.assumed else ""), shown(item.name, LONGEST), str(item.entry or ""))
        for item in layout.items
    )
    blocks.append(Rows(("item", "part", "entry"), parts, right=(0, 2), wraps=(1,)))
    blocks.append(Text(f"Both halves have the same columns, stretched where a thin part needs one. {SIGNS}"))
    if any(item.assumed for item in layout.items):
        blocks.append(Text("~ a size that the reference does not give was assumed to draw it."))
    blocks.append(Heading("NOT VERIFIED"))
    blocks.append(Text(shown(" · ".join(not_verified(comparison))) + ".", indent=1))
    return blocks


def marks_of(layout: Layout, finding: Finding) -> list[str]:
    """Item marks of the parts that a finding names."""
    by_place = {item.place: item.mark for item in layout.items if item.place}
    by_entry = {item.entry: item.mark for item in layout.items if item.entry is not None}
    marks = [by_place.get(place) for place in finding.places] + [by_entry.get(entry) for entry in finding.entries]
    return list(dict.fromkeys(mark for mark in marks if mark))


def headline_text(layout: Layout) -> Block:
    return Text(shown(summary(layout.comparison)), strong=True)


def _gap_rows(layout: Layout) -> tuple[tuple[str, ...], ...]:
    by_name: dict[str, dict[str, str]] = {}
    for gap in layout.gaps:
        name = " ".join(word for word in gap.words[:-1] if not word.isupper() and word != BY_THE_SUM)
        by_name.setdefault(name, {})[gap.half] = gap.words[-1]
    return tuple((name, each.get(FOUND, "-"), each.get(REFERENCE, "-")) for name, each in by_name.items())
