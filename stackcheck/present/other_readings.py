"""The other readings of a list: only what each has otherwise than the answer, and the look or measurement that decides.

Readings that differ only in which of equal parts stood where are one line that names the entries. A reading is left out
where it gives the mechanic nothing to look at or to put right otherwise: a part called extra whose own place it calls
missing, and everything turned end for end in the stead of a list that was entered from the other end, which that
finding says itself. All stand whole in `--json`.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.compare.separate import EQUAL_PARTS, key
from stackcheck.compare.sizes import size_verdict
from stackcheck.model.finding import Explanation, Finding
from stackcheck.model.found import Entry
from stackcheck.model.part import Part
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.figures import mm
from stackcheck.present.names import counted, listed, lower_first, size_words
from stackcheck.present.words import entry_words, sentence
from stackcheck.result.comparison import Comparison


def other_readings(comparison: Comparison) -> list[Block]:
    """The section of a page; [] where there is no other reading and the search was not cut short."""
    others, best = comparison.others, comparison.best
    either = _loose_of_either(comparison)
    if not others and not either and best.proved_least:
        return []
    shown = [other for other in others if not _comes_to_the_same(comparison, other)]
    blocks: list[Block] = []
    for words, settled_by in either:
        blocks += [Text(words, mark=" -  "), Text(settled_by, indent=4, mark="would settle it: ")]
    for settled_by in dict.fromkeys(other.separated_by for other in shown):
        blocks += [
            Text(difference_words(comparison, other), mark=" -  ")
            for other in shown
            if other.separated_by == settled_by
        ]
        if settled_by:
            blocks.append(Text(settled_by, indent=4, mark="would settle it: "))
    if words := _equal_parts(others, more=bool(shown)):
        blocks.append(Text(words, mark=" -  "))
    if not best.proved_least:
        blocks.append(Text("The search was cut short: a reading with fewer mistakes may exist.", mark=" -  "))
    return [Heading("OTHER READINGS OF THE SAME LIST"), *blocks] if blocks else []


def _equal_parts(others: Iterable[Explanation], *, more: bool) -> str:
    """The readings that only exchange equal parts, with the entries that each of them exchanges;
    "" where there is none.
    """
    told = [other.separated_by for other in others if other.separated_by.startswith(EQUAL_PARTS)]
    if not told:
        return ""
    entries = (words.removeprefix(EQUAL_PARTS).partition(";")[0].rpartition(" ")[0].strip() for words in told)
    which = f"{len(told)} more" if more else counted(len(told), "reading")
    differs = "differs" if len(told) == 1 else "differ"
    return (
        f"{which} {differs} only in which of equal parts stood where ({'; '.join(dict.fromkeys(entries))}): "
        "only witness marks and wear tell"
    )


def difference_words(comparison: Comparison, other: Explanation) -> str:
    """ "instead of finding 1: ...", "also: ...", "without finding 2": a reading by what it has otherwise."""
    own = {key(finding) for finding in comparison.best.findings}
    has = {key(finding) for finding in other.findings}
    added = [finding for finding in other.findings if key(finding) not in own]
    dropped = [str(n) for n, result in enumerate(comparison.findings, start=1) if key(result.finding) in own - has]
    numbers = f"finding{'s' if len(dropped) > 1 else ''} {listed(dropped)}"
    if not added:
        return f"without {numbers}" if dropped else "the same findings, with other parts not reached"
    words = "; ".join(sentence(finding, comparison.reference, comparison.found) for finding in added)
    return f"instead of {numbers}: {words}" if dropped else f"{'also: ' if own else ''}{words}"


def _loose_of_either(comparison: Comparison) -> list[tuple[str, str]]:
    """Parts found loose that would suit another place that is short or empty as well,
    and what tells of which they are.
    """
    reference, said = comparison.reference, []
    short = [
        (n, f)
        for n, r in enumerate(comparison.findings, start=1)
        if (f := r.finding).kind in ("missing", "count_differs") and f.places
    ]
    for number, finding in short:
        for entry in (comparison.found.entry(n) for n in finding.entries):
            own = reference.part_at(finding.places[0])
            for other, another in short:
                part = reference.part_at(another.places[0])
                if not entry.is_loose or other == number or part.id == own.id or not _may_be(entry, part):
                    continue
                thing = entry_words(reference, comparison.found, entry.number)
                said.append(
                    (
                        f"{thing} may as well be the {lower_first(part.name)} of finding {other}",
                        _told_by(entry, own, part),
                    )
                )
    return said


def _may_be(entry: Entry, part: Part) -> bool:
    sizes = ((reading, part.size(name)) for name, reading in entry.sizes)
    return entry.kind in ("", part.kind) and not any(
        size and size_verdict(reading, size) in ("out", "gross") for reading, size in sizes
    )


def _told_by(entry: Entry, one: Part, other: Part) -> str:
    for name, size in one.sizes:
        its = other.size(name)
        if its is not None and (size.high_mm < its.low_mm or its.high_mm < size.low_mm):
            means = ", ".join(
                f"{mm(each.nominal_mm)} means {lower_first(part.name)}" for each, part in ((size, one), (its, other))
            )
            return f"measure the {size_words(name)} of entry {entry.number}: {means}"
    return f"no measurement; look at entry {entry.number} for witness marks and wear"


def _comes_to_the_same(comparison: Comparison, other: Explanation) -> bool:
    if other.separated_by.startswith(EQUAL_PARTS) or _is_away_from_home(comparison.best, other):
        return True
    kinds, own = ({finding.kind for finding in each.findings} for each in (other, comparison.best))
    return "entered_from_other_end" in own - kinds and any(_is_most(comparison, finding) for finding in other.findings)


def _is_most(comparison: Comparison, finding: Finding) -> bool:
    return finding.kind == "run_end_for_end" and 2 * len(finding.entries) > len(comparison.found.entries)


def _is_away_from_home(best: Explanation, other: Explanation) -> bool:
    """Whether the other reading calls a part extra, and missing the place that it stands in by the answer."""
    homes = {standing.entry: standing.home for standing in best.line if standing.entry is not None}
    missing = {place for finding in other.findings if finding.kind == "missing" for place in finding.places}
    extra = {number for finding in other.findings if finding.kind == "extra" for number in finding.entries}
    return any(homes.get(number) in missing for number in extra)
