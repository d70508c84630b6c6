"""Every stack and every gap, by the reference and as found, with what the sums take for granted."""

from __future__ import annotations

from collections.abc import Callable

from stackcheck.mechanics.chain import LoopState, Sum
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.figures import mm
from stackcheck.present.names import listed, lower_first, place_words
from stackcheck.present.warm_words import measured_warm
from stackcheck.present.words import beside, gap_words, in_inches_too, limits_words
from stackcheck.result.comparison import Comparison
from stackcheck.result.lengths import LoopResult, StackResult
from stackcheck.result.points import NOT_REACHED
from stackcheck.units.inches import inch_figure


def lengths_and_gaps(comparison: Comparison) -> list[Block]:
    """The tables of a page; lengths in inches stand below those in mm where somebody works in inches."""
    inch = in_inches_too(comparison.reference, comparison.found)
    stacks = [result for result in comparison.stacks if not result.reference.passing]
    rows = []
    for result in stacks:
        rows.append(_stack_row(result.name, result, mm))
        if inch and result.reference.total is not None:
            rows.append(_stack_row("in inches", result, inch_figure))
    blocks: list[Block] = [Heading("LENGTHS AND GAPS, mm")]
    blocks.append(Rows(("stack", "reference", "", "as found", "", "change"), tuple(rows), right=(1, 3, 5)))
    blocks += [Text(words, indent=1) for words in _taken_for_granted(comparison, stacks)]
    loops = [_loop_row(result, inch) for result in comparison.loops]
    if loops:
        blocks.append(Rows(("gap", "reference", "as found", "allowed", ""), tuple(loops), wraps=(0, 1, 2, 3)))
    blocks.append(Text(f"Term by term: stackcheck stack {comparison.reference.id} --found FILE", indent=1))
    return blocks


def _taken_for_granted(comparison: Comparison, stacks: list[StackResult]) -> list[str]:
    """What stands behind the sums as found: lengths that nobody knows, parts that may be absent, places not reached."""
    reference = comparison.reference
    unknown = [f"{result.name}: {_no_length(result.reference)}" for result in stacks if result.reference.missing]
    needs = dict.fromkeys(
        need for result in stacks for need in result.as_found.needs if need not in result.reference.missing
    )
    words = [*unknown, *(f"cannot tell: {need}" for need in needs)]
    standing = {spot.home for spot in comparison.best.line}
    counted = {name for result in stacks for name in reference.stack(result.name).places}
    absent = [name for name in reference.line if name in counted - standing and reference.place(name).may_be_absent]
    if absent:
        words.append(f"as found without {listed(place_words(reference, name) for name in absent)}, which may be absent")
    if comparison.points_in(NOT_REACHED):
        words.append("what was not reached is counted as the reference has it")
    warm = measured_warm(
        (f"entry {entry.number}", reading) for entry in comparison.found.entries for _, reading in entry.sizes
    )
    return [*words, *filter(None, [warm])]


MOST_NAMED = 4


def _no_length(own: Sum) -> str:
    """ "cannot tell its length: length of Lock nut not given"; many of them are counted."""
    if not own.needs:
        return fills_words(own)
    return f"cannot tell its length: {_not_given(own)}"


def fills_words(own: Sum) -> str:
    """ "The seal spring is as long as its room; the parts beside it are 24.00, 23.75 to 24.25"."""
    names, many = listed(dict.fromkeys(lower_first(name) for name in own.fills)), len(own.fills) > 1
    words = f"The {names} {'are as long as their' if many else 'is as long as its'} room"
    if own.beside_them is None:
        return f"{words}."
    beside = own.beside_them
    together = f"{mm(beside.nominal_mm)}, {_range(beside.least_mm, beside.most_mm, mm)}"
    return f"{words}; the parts beside {'them' if many else 'it'} are {together} together."


def _not_given(own: Sum) -> str:
    if len(own.needs) > MOST_NAMED:
        return f"{len(own.needs)} lengths not given"
    return f"{listed(own.needs)} not given"


def _stack_row(name: str, result: StackResult, show: Callable[[float], str]) -> tuple[str, ...]:
    change = result.change_mm
    words = (
        ""
        if change is None
        else "same"
        if abs(change) < 0.0005
        else f"{show(abs(change))} {'longer' if change > 0 else 'shorter'}"
    )
    # What is missing by the reference stands below the table.
    unknown = "-" if result.reference.missing else "cannot tell"
    return (name, *_total_cells(result.reference, show, unknown), *_total_cells(result.as_found, show, unknown), words)


def _total_cells(own: Sum, show: Callable[[float], str], unknown: str) -> tuple[str, str]:
    if own.total is None:
        return unknown, ""
    return show(own.total.nominal_mm), _range(own.total.least_mm, own.total.most_mm, show)


def _range(low_mm: float, high_mm: float, show: Callable[[float], str]) -> str:
    return show(low_mm) if show(low_mm) == show(high_mm) else f"{show(low_mm)}..{show(high_mm)}"


def gap_span(state: LoopState) -> tuple[float, float] | None:
    """The gap as found [mm], measured or summed; None where it cannot be told."""
    if state.measured is not None:
        return state.measured.low_mm, state.measured.high_mm
    return None if state.gap is None else (state.gap.least_mm, state.gap.most_mm)


def gap_found(state: LoopState, inch: bool = False) -> str:
    """The gap as found in words."""
    found = gap_span(state)
    if found is None:
        return "cannot tell"
    return f"{beside(inch, gap_words, *found)}{' measured' if state.measured is not None else ''}"


def contradiction(state: LoopState, inch: bool = False) -> str:
    """A gap as measured beside the sum that has nothing in common with it."""
    summed = beside(inch, gap_words, state.gap.least_mm, state.gap.most_mm)
    return f"{gap_found(state, inch)}, {summed} by the parts as entered"


def _loop_row(result: LoopResult, inch: bool) -> tuple[str, ...]:
    own, seen = result.reference, result.as_found
    reference = (
        beside(inch, gap_words, own.gap.least_mm, own.gap.most_mm)
        if own.gap is not None
        else "set when fitted"
        if own.loop.set_by
        else "-"
    )
    return (
        own.loop.name,
        reference,
        gap_found(seen, inch),
        beside(inch, limits_words, own.loop.least_mm, own.loop.most_mm),
        seen.verdict,
    )
