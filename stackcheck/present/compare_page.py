"""The answer of `compare` as a page: sentence, findings, other readings, items, sums, cautions, not verified."""

from __future__ import annotations

from stackcheck.mechanics.chain import LoopState
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.force_path_words import force_words
from stackcheck.present.symptom_words import pinched_words, symptom_words, trial_words
from stackcheck.present.words import (
    LABELS,
    effect_words,
    end_words,
    gap_words,
    grade_words,
    headline,
    limits_words,
    listed,
    main_effect_words,
    mm,
    narrow_span,
    not_verified,
    not_verified_sentence,
    place_words,
    point_words,
    reading_words,
    sentence,
)
from stackcheck.result.comparison import Comparison, FindingResult
from stackcheck.result.lengths import LoopResult, StackResult
from stackcheck.result.points import CANNOT_TELL, FACING, PRESENCE

MOST_SENTENCES = 6
MOST_CAUTIONS = 3


def page(comparison: Comparison, *, all_cautions: bool = False) -> list[Block]:
    """The whole answer, most important first; NOT VERIFIED is never folded away."""
    findings = [block for words in finding_blocks(comparison) for block in words]
    return [*top(comparison), *([Heading("FINDINGS"), *findings] if findings else []), *below(comparison, all_cautions=all_cautions)]


def top(comparison: Comparison) -> list[Block]:
    """The sentence, what was compared with what, and which end is which."""
    blocks: list[Block] = [Text(summary(comparison), strong=True)]
    blocks.append(Text(f"Reference {comparison.reference.id}: {grade_words(comparison.reference)}."))
    if comparison.reference.for_machine:
        blocks.append(Text(f"Which machine: {comparison.reference.for_machine}."))
    blocks.append(Text(f"{end_words(comparison.reference, 0).capitalize()}: {comparison.reference.ends_seen_from}."))
    return blocks


def below(comparison: Comparison, *, all_cautions: bool = False) -> list[Block]:
    """What stands below the findings."""
    blocks = _symptoms(comparison)
    blocks += _cannot_tell(comparison)
    blocks += _notes(comparison)
    blocks += _other_readings(comparison)
    blocks += _items(comparison)
    blocks += _sums(comparison)
    blocks += _cautions(comparison, all_cautions)
    blocks.append(Heading("NOT VERIFIED"))
    blocks.append(Text(" · ".join(not_verified(comparison)) + ".", indent=1))
    return blocks


def summary(comparison: Comparison) -> str:
    """At most six sentences: verdict, the findings, not verified."""
    room = MOST_SENTENCES - 2
    sentences = [headline(comparison)]
    results = comparison.findings
    shown = results if len(results) <= room else results[: room - 1]
    for result in shown:
        words = sentence(result.finding, comparison.reference, comparison.found)
        # A size out of limits is followed by the gap that it brings out of its own: that is not told twice.
        tells = result.effect is not None and result.finding.kind != "size_differs"
        does = main_effect_words(result.effect, comparison.reference) if tells else ""
        sentences.append(words[:1].upper() + words[1:] + (f"; {does}." if does else "."))
    if len(results) > len(shown):
        sentences.append(f"{len(results) - len(shown)} more findings below.")
    sentences.append(not_verified_sentence(comparison))
    return " ".join(sentences)


def _entries(result: FindingResult) -> str:
    """ "entry 3", "entries 3 and 9"."""
    numbers = result.finding.entries
    return f"{'entry' if len(numbers) == 1 else 'entries'} {listed(str(number) for number in numbers)}"


def finding_blocks(comparison: Comparison) -> list[list[Block]]:
    """Each finding in words: what it is, what was seen, what it does."""
    return [_finding(comparison, position, result) for position, result in enumerate(comparison.findings, start=1)]


def _finding(comparison: Comparison, position: int, result: FindingResult) -> list[Block]:
    words = sentence(result.finding, comparison.reference, comparison.found)
    said = "(entry " in words or words.startswith("entries ")
    entries = f" ({_entries(result)})" if result.finding.entries and not said else ""
    blocks: list[Block] = [Text(f"{LABELS[result.finding.kind]}  {words}{entries}", mark=f"{position:>2}  ", strong=True)]
    if result.finding.evidence:
        blocks.append(Text("; ".join(result.finding.evidence), indent=4, mark="seen: "))
    if result.effect is not None and (does := effect_words(result.effect, comparison.reference)):
        blocks.append(Text(does, indent=4, mark="does: "))
    if (force := force_words(result.finding, result.effect, comparison.reference)):
        blocks.append(Text(force, indent=4, mark="force: "))
    return blocks


def _symptoms(comparison: Comparison) -> list[Block]:
    """What was noticed, and which finding explains it by direction and size; what does not suit is said, too."""
    if not comparison.symptoms:
        return []
    blocks: list[Block] = [Heading("WHAT WAS NOTICED")]
    for tried in comparison.symptoms:
        blocks.append(Text(symptom_words(tried.symptom, comparison.reference), mark=" -  ", strong=True))
        for trial in tried.trials:
            name = f"finding {trial.finding + 1}" if trial.finding is not None else "all together"
            blocks.append(Text(f"{name} {trial_words(trial, tried.symptom, comparison.reference)}", indent=4))
        if not tried.is_explained:
            blocks.append(Text("No finding explains it.", indent=4))
        if pinched := pinched_words(tried, comparison.reference):
            blocks.append(Text(pinched, indent=4))
    return blocks


def _cannot_tell(comparison: Comparison) -> list[Block]:
    points = comparison.points_in(CANNOT_TELL)
    if not points:
        return []
    blocks: list[Block] = [Heading("CANNOT TELL")]
    for point in points:
        name = point_words(comparison.reference, point)
        if point.reading is not None and point.place:
            size = comparison.reference.part_at(point.place).size(point.what)
            words = f"{name}: {reading_words(point.reading)}; limits {limits_words(size.least_mm, size.most_mm)}: measure it finer"
        elif point.what == FACING:
            words = f"{name}: which end it points to was not clear"
        elif point.what == PRESENCE:
            words = f"{name}: its place was inferred, not seen, or nobody said what came out of it"
        else:
            state = next(result.as_found for result in comparison.loops if result.as_found.loop.name == point.gap)
            words = f"{name}: {gap_found(state)}; allowed {limits_words(state.loop.least_mm, state.loop.most_mm)}"
        blocks.append(Text(words, mark=" -  "))
    return blocks


def _notes(comparison: Comparison) -> list[Block]:
    if not comparison.notes:
        return []
    by_kind: dict[str, list[str]] = {}
    for note in comparison.notes:
        by_kind.setdefault(note.kind, []).append(sentence(note, comparison.reference, comparison.found))
    return [
        Heading("NOTES"),
        *(Text(f"{LABELS[kind].lower()}: {'; '.join(words)}", mark=" -  ") for kind, words in by_kind.items()),
    ]


def _other_readings(comparison: Comparison) -> list[Block]:
    if not comparison.others and comparison.best.proved_least:
        return []
    blocks: list[Block] = [Heading("OTHER READINGS OF THE SAME LIST")]
    for other in comparison.others:
        words = "; ".join(sentence(finding, comparison.reference, comparison.found) for finding in other.findings) or "no difference"
        blocks.append(Text(words, mark=" -  "))
        if other.separated_by:
            blocks.append(Text(other.separated_by, indent=4, mark="would settle it: "))
    if not comparison.best.proved_least:
        blocks.append(Text("The search was cut short: a reading with fewer mistakes may exist.", mark=" -  "))
    return blocks


def _items(comparison: Comparison) -> list[Block]:
    """One row per place: which entry stands there, and what was said of it."""
    reference = comparison.reference
    standing = {spot.home: spot for spot in comparison.best.line if spot.home}
    rows = []
    for name in reference.line:
        points = [point for point in comparison.points if point.place == name]
        if not points:
            continue
        spot = standing.get(name)
        entry = comparison.found.entry(spot.entry) if spot and spot.entry else None
        presence = next((point.state for point in points if point.what == PRESENCE), "stays on")
        rest = [
            f"{reference.part_at(name).feature if point.what == FACING else point.what} {point.state}"
            for point in points
            if point.what != PRESENCE
        ]
        rows.append((place_words(reference, name), str(entry.number) if entry else "", presence, ", ".join(rest)))
    return [
        Heading(f"ITEMS, from the {end_words(reference, 0)}"),
        Rows(("place", "entry", "part", "facing and sizes"), tuple(rows), right=(1,), wraps=(0, 3)),
    ]


def _sums(comparison: Comparison) -> list[Block]:
    summed = [result for result in comparison.stacks if result.reference.total is not None]
    rows = [_stack_row(result) for result in summed]
    blocks: list[Block] = [Heading("LENGTHS AND GAPS, mm")]
    blocks.append(Rows(("stack", "reference", "", "as found", "", "change"), tuple(rows), right=(1, 3, 5)))
    needs = dict.fromkeys(need for result in summed for need in result.as_found.needs)
    blocks += [Text(f"cannot tell: {need}", indent=1) for need in needs]
    loops = [_loop_row(result) for result in comparison.loops]
    if loops:
        blocks.append(Rows(("gap", "reference", "as found", "allowed", ""), tuple(loops), wraps=(0, 1, 2)))
    blocks.append(Text(f"Term by term: stackcheck stack {comparison.reference.id} --found FILE", indent=1))
    return blocks


def _stack_row(result: StackResult) -> tuple[str, ...]:
    own, seen = result.reference.total, result.as_found.total
    if seen is None:
        return (result.name, mm(own.nominal_mm), narrow_span(own.least_mm, own.most_mm), "cannot tell", "", "")
    change = result.change_mm or 0.0
    words = "same" if abs(change) < 0.0005 else f"{mm(abs(change))} {'longer' if change > 0 else 'shorter'}"
    return (
        result.name, mm(own.nominal_mm), narrow_span(own.least_mm, own.most_mm),
        mm(seen.nominal_mm), narrow_span(seen.least_mm, seen.most_mm), words,
    )  # fmt: skip


def gap_found(state: LoopState) -> str:
    """The gap as found, measured or summed, in words."""
    if state.measured is not None:
        return f"{gap_words(state.measured.low_mm, state.measured.high_mm)} measured"
    if state.gap is None:
        return "cannot tell"
    return gap_words(state.gap.least_mm, state.gap.most_mm)


def _loop_row(result: LoopResult) -> tuple[str, ...]:
    own, seen = result.reference, result.as_found
    reference = gap_words(own.gap.least_mm, own.gap.most_mm) if own.gap is not None else "set when fitted" if own.loop.set_by else "-"
    return (own.loop.name, reference, gap_found(seen), limits_words(own.loop.least_mm, own.loop.most_mm), seen.verdict)


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
