"""The answer of `compare` as a page: sentence, findings, other readings, items, sums, cautions, not verified."""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.formats.found_words import FoundWords
from stackcheck.mechanics.effects import CROSSES
from stackcheck.mechanics.symptoms import DOES_NOT, Tried
from stackcheck.model.finding import Finding
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.compare_summary import summary
from stackcheck.present.compare_sums import contradiction, gap_found, gap_span, lengths_and_gaps
from stackcheck.present.force_path_words import disc_words, force_sentence
from stackcheck.present.names import capital_first, end_words, listed, lower_first, place_words
from stackcheck.present.other_readings import other_readings
from stackcheck.present.symptom_words import pinched_words, symptom_words, trial_words
from stackcheck.present.verdict_words import not_verified, point_words, size_or_feature
from stackcheck.present.words import (
    LABELS,
    beside,
    effect_words,
    entry_words,
    grade_words,
    in_inches_too,
    limits_words,
    named_gap,
    reading_words,
    sentence,
)
from stackcheck.result.comparison import Comparison, FindingResult
from stackcheck.result.points import AGREES, CANNOT_TELL, FACING, PRESENCE, Point

MOST_CAUTIONS = 3


def page(comparison: Comparison, *, all_cautions: bool = False) -> list[Block]:
    """The whole answer, most important first; NOT VERIFIED is never folded away."""
    findings = [block for words in finding_blocks(comparison) for block in words]
    return [
        *top(comparison),
        *([Heading("FINDINGS"), *findings] if findings else []),
        *below(comparison, all_cautions=all_cautions),
    ]


def top(comparison: Comparison) -> list[Block]:
    """The sentence, what was compared with what, and which end is which."""
    blocks: list[Block] = [Text(summary(comparison), strong=True)]
    blocks.append(Text(f"Reference {comparison.reference.id}: {grade_words(comparison.reference)}."))
    if comparison.reference.for_machine:
        blocks.append(Text(f"Which machine: {comparison.reference.for_machine}."))
    blocks.append(Text(f"Ends seen from: {comparison.reference.ends_seen_from}."))
    return blocks


def below(comparison: Comparison, *, all_cautions: bool = False) -> list[Block]:
    """What stands below the findings."""
    blocks = _together(comparison)
    blocks += _symptoms(comparison)
    blocks += _cannot_tell(comparison)
    blocks += _notes(comparison)
    blocks += other_readings(comparison)
    blocks += _items(comparison)
    blocks += lengths_and_gaps(comparison)
    blocks += _cautions(comparison, all_cautions)
    blocks.append(Heading("NOT VERIFIED"))
    blocks.append(Text(" · ".join(not_verified(comparison)) + ".", indent=1))
    return blocks


SAYS_MORE = frozenset(
    {"different_part", "swapped", "out_of_place", "run_moved", "run_end_for_end", "entered_twice", "extra"}
)
"""Findings whose evidence says more than their sentence; the evidence of all stands in `--json`."""


def _entries(result: FindingResult) -> str:
    """ "entry 3", "entries 3 and 9"."""
    numbers = result.finding.entries
    return f"{'entry' if len(numbers) == 1 else 'entries'} {listed(str(number) for number in numbers)}"


def finding_blocks(comparison: Comparison) -> list[list[Block]]:
    """Each finding in words: what it is, what was seen, what it does."""
    return [_finding(comparison, position, result) for position, result in enumerate(comparison.findings, start=1)]


def _finding(comparison: Comparison, position: int, result: FindingResult) -> list[Block]:
    finding, reference = result.finding, comparison.reference
    words = sentence(finding, reference, comparison.found)
    said = "(entry " in words or words.startswith("entries ")
    entries = f" ({_entries(result)})" if finding.entries and not said else ""
    follows = f"; follows from finding {result.follows + 1}" if result.follows is not None else ""
    blocks: list[Block] = [
        Text(f"{LABELS[finding.kind]}  {words}{entries}{follows}", mark=f"{position:>2}  ", strong=True)
    ]
    if finding.evidence and finding.kind in SAYS_MORE and not _is_only_unknown(comparison, finding):
        blocks.append(Text("; ".join(finding.evidence), indent=4, mark="seen: "))
    if result.effect is not None and (
        does := effect_words(result.effect, reference, in_inches_too(reference, comparison.found))
    ):
        blocks.append(Text("; ".join([does, *_inside_together(comparison, result)]), indent=4, mark="does: "))
    if force := force_sentence(finding, result.effect, reference, discs=not _lie_together(comparison)):
        blocks.append(Text(force, indent=4, mark="force: "))
    return blocks


def _inside_together(comparison: Comparison, result: FindingResult) -> list[str]:
    """The gaps that this finding alone takes out of their limits, and that are inside them with all that was found."""
    inch = in_inches_too(comparison.reference, comparison.found)
    out = {c.loop for c in result.effect.loop_changes if c.crosses_limit in (CROSSES, CANNOT_TELL)}
    states = (each.as_found for each in comparison.loops if each.as_found.loop.name in out)
    inside = [
        (
            f"{named_gap(state.loop.name, *gap_span(state), inch)}{' measured' if state.measured else ''}, "
            "inside its limits"
        )
        for state in states
        if state.verdict == AGREES
    ]
    return [f"with all that was found together {'; '.join(inside)}"] if inside else []


def _lie_together(comparison: Comparison) -> bool:
    """Whether several findings turn disc springs, so that only all of them together tell how the springs lie."""
    return sum(bool(result.effect and result.effect.discs) for result in comparison.findings) > 1


def _together(comparison: Comparison) -> list[Block]:
    if not _lie_together(comparison):
        return []
    return [Text(f"{capital_first(disc_words(laid))}.", mark="Together: ") for laid in comparison.discs]


def _is_only_unknown(comparison: Comparison, finding: Finding) -> bool:
    """An extra part of which nothing else is known than that it has no place."""
    return finding.kind == "extra" and (
        finding.loose or all(comparison.found.entry(number).part is None for number in finding.entries)
    )


def _symptoms(comparison: Comparison) -> list[Block]:
    """What was noticed, and which finding explains it by direction and size; what does not suit is said, too."""
    if not comparison.symptoms:
        return []
    blocks: list[Block] = [Heading("WHAT WAS NOTICED")]
    for tried in comparison.symptoms:
        blocks.append(Text(symptom_words(tried.symptom, comparison.reference), mark=" -  ", strong=True))
        blocks += [Text(line, indent=4) for line in _trials(comparison, tried)]
        if pinched := pinched_words(tried, comparison.reference):
            blocks.append(Text(pinched, indent=4))
    return blocks


def _trials(comparison: Comparison, tried: Tried) -> list[str]:
    """Each finding that may explain what was noticed;
    those that do not in one line, with the reason where it is one.
    """
    lines = []
    silent = [trial for trial in tried.trials if trial.answer == DOES_NOT]
    for trial in tried.trials if len(silent) == 1 else [trial for trial in tried.trials if trial not in silent]:
        name = f"finding {trial.finding + 1}" if trial.finding is not None else "all together"
        lines.append(f"{name} {trial_words(trial, tried.symptom, comparison.reference)}")
    if not tried.is_explained:
        lines.append("No finding explains it.")
    elif len(silent) > 1:
        lines.append(
            f"findings {listed(str(trial.finding + 1) for trial in silent if trial.finding is not None)} do not "
            "explain it"
        )
    return lines


def _cannot_tell(comparison: Comparison) -> list[Block]:
    points = comparison.points_in(CANNOT_TELL)
    return (
        [Heading("CANNOT TELL"), *(Text(_why_not(comparison, point), mark=" -  ") for point in points)]
        if points
        else []
    )


def _why_not(comparison: Comparison, point: Point) -> str:
    reference, inch = comparison.reference, in_inches_too(comparison.reference, comparison.found)
    name = point_words(reference, point)
    if point.reading is not None and point.place:
        size = reference.part_at(point.place).size(point.what)
        return (
            f"{name}: {reading_words(point.reading, inch)}; limits "
            f"{beside(inch, limits_words, size.least_mm, size.most_mm)}: measure it finer"
        )
    if point.what == FACING:
        return f"{name}: which end it points to was not clear"
    if point.what == PRESENCE:
        number = next(
            spot.entry for spot in comparison.best.line if spot.home == point.place and spot.entry is not None
        )
        if point.called:
            called = lower_first(reference.part(point.called).name)
            return f"{name}: entry {number} was called {called}, and nothing measured tells which of the two it is"
        inferred = comparison.found.entry(number).place_seen == "inferred"
        return f"{name}: {'its place was inferred, not seen' if inferred else f'nobody said what entry {number} is'}"
    state = next(result.as_found for result in comparison.loops if result.as_found.loop.name == point.gap)
    needs = f": needs {listed(state.needs)}" if gap_span(state) is None and state.needs else ""
    return (
        f"{name}: {gap_found(state, inch)}{needs}; allowed "
        f"{beside(inch, limits_words, state.loop.least_mm, state.loop.most_mm)}"
    )


def _notes(comparison: Comparison) -> list[Block]:
    by_kind: dict[str, list[str]] = {}
    for note in comparison.notes:
        by_kind.setdefault(LABELS[note.kind].lower(), []).append(sentence(note, comparison.reference, comparison.found))
    if overruled := _overruled(comparison):
        by_kind["label overruled"] = overruled
    if taken := _names_taken(comparison):
        by_kind["name less a word"] = taken
    if contradicted := _contradicted(comparison):
        by_kind["the list contradicts itself"] = contradicted
    notes = [Text(f"{said}: {'; '.join(words)}", mark=" -  ") for said, words in by_kind.items()]
    return [Heading("NOTES"), *notes] if notes else []


def _contradicted(comparison: Comparison) -> list[str]:
    """Gaps measured otherwise than the parts leave them."""
    inch = in_inches_too(comparison.reference, comparison.found)
    said = "; a part, a size or this reading is not as entered: measure the gap again"
    states = [result.as_found for result in comparison.loops]
    return [f"{each.loop.name}: {contradiction(each, inch)}{said}" for each in states if each.contradicted]


def _names_taken(comparison: Comparison) -> list[str]:
    """Entries whose name is that of a part of the reference but for one word, and what they were taken for."""
    reference, words, names = comparison.reference, [], FoundWords(comparison.reference)
    for entry in comparison.found.entries:
        is_named = entry.part is None or entry.sure or entry.marked or names.part_called(entry.what) is not None
        if not is_named and names.part_less_a_word(entry.what) == entry.part:
            part = lower_first(reference.part(entry.part).name)
            words.append(f'entry {entry.number}, "{entry.what}", taken for the {part}')
    return words


def _overruled(comparison: Comparison) -> list[str]:
    """Entries that stand for another part than the one that somebody took them for, where that is sure."""
    reference, words = comparison.reference, []
    unsure = {point.place for point in comparison.points if point.called}
    for spot in (spot for spot in comparison.best.line if spot.home not in unsure):
        entry = comparison.found.entry(spot.entry) if spot.entry is not None else None
        if entry is None or not entry.part or entry.sure or spot.part is None or spot.part == entry.part:
            continue
        if reference.has_part(entry.part) and reference.has_part(spot.part):
            named, fits = (lower_first(reference.part(part).name) for part in (entry.part, spot.part))
            words.append(f"{entry_words(reference, comparison.found, entry.number)} fits as {fits}, not as {named}")
    return words


def _items(comparison: Comparison) -> list[Block]:
    """One row per place: which entry stands there, and what was said of it."""
    reference = comparison.reference
    rows = []
    for name in _as_it_came_off(comparison):
        points = [point for point in comparison.points if point.place == name]
        if not points:
            continue
        presence = _presence(comparison, name, points)
        entries = ", ".join(str(spot.entry) for spot in comparison.best.line if spot.home == name and spot.entry)
        rest = "" if presence in NOT_THERE else _by_state(reference, points)
        rows.append((place_words(reference, name), entries, presence, rest))
    return [
        Heading(f"ITEMS, from the {end_words(reference, 0)}"),
        Rows(("place", "entry", "part", "facing and sizes"), tuple(rows), right=(1,), wraps=(0, 3)),
    ]


def _as_it_came_off(comparison: Comparison) -> tuple[str, ...]:
    """All places in a line of the reference;
    those that nothing orders as they came off, so that a cover stands outside its nut.

    A place that is empty, or whose part stood elsewhere, goes with the place before it.
    """
    told = {place for finding in comparison.best.findings for place in finding.places}
    line = enumerate(comparison.best.line)
    stood = {
        standing.home: spot
        for spot, standing in line
        if standing.home and standing.entry is not None and standing.home not in told
    }
    return comparison.reference.line_near(stood)


NOT_THERE = ("missing", "another part", "not reached", "not verified")
"""States of a place that leave nothing to say of the facing and the sizes of its part."""


def _presence(comparison: Comparison, name: str, points: Sequence[Point]) -> str:
    state = next((point.state for point in points if point.what == PRESENCE), "stays on")
    kinds = {finding.kind for finding in comparison.best.findings if name in finding.places}
    return "missing" if "missing" in kinds else "another part" if "different_part" in kinds else state


def _by_state(reference: Reference, points: Sequence[Point]) -> str:
    """ "agrees: flange, length; cannot tell: bore"."""
    names: dict[str, list[str]] = {}
    for point in points:
        if point.what != PRESENCE:
            names.setdefault(point.state, []).append(size_or_feature(reference, point))
    return "; ".join(f"{state}: {', '.join(said)}" for state, said in names.items())


def _cautions(comparison: Comparison, all_cautions: bool) -> list[Block]:
    cautions = comparison.cautions if all_cautions else comparison.cautions[:MOST_CAUTIONS]
    if not cautions:
        return []
    blocks: list[Block] = [Heading("CAUTIONS")]
    blocks += [Text(caution.text, mark=" -  ") for caution in cautions]
    more = len(comparison.cautions) - len(cautions)
    if more:
        blocks.append(Text(f"{more} more: compare ... --cautions", indent=4))
    return blocks
