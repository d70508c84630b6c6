"""The answer of `stack` as a page: every sum with its terms, reference beside as found, then the gaps."""

from __future__ import annotations

from stackcheck.mechanics.chain import LoopState, Sum
from stackcheck.mechanics.lengths import Term
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.compare_page import gap_found
from stackcheck.present.names import lower_first
from stackcheck.present.spread_words import gap_spread_words, spread_words
from stackcheck.present.words import gap_words, grade_words, limits_words, mm, narrow_span, place_words, reference_words
from stackcheck.result.lengths import LoopResult, StackResult
from stackcheck.units.inches import in_inches

RANGES = (
    'The range is the worst case, every part at its limit at once. "As measured" takes parts that were not measured as evenly '
    "spread between their limits and is good to two standard uncertainties, about 95 in 100 (JCGM 100:2008)."
)
EVEN_SPREAD = (
    "Even spread takes each part as independent and evenly spread between its limits: an assumption of ours, no drawing "
    "says so. Root of squares holds only if every limit is three deviations of a centred normal spread; parts spread evenly "
    "lie outside it about eight times in a hundred."
)


SHORT = {"depth micrometer": "depth mic", "inside calliper": "inside cal", "depth gauge": "depth"}
"""Ways of measuring, as the narrow column says them (and as people type them)."""


def page(
    reference: Reference, stacks: tuple[StackResult, ...], loops: tuple[LoopResult, ...], *, with_found: bool
) -> list[Block]:
    """All stacks term by term, then all gaps; `with_found` adds the columns as found."""
    blocks: list[Block] = [
        Text(f"Lengths of {reference_words(reference)}, in mm.", strong=True),
        Text(f"{reference.id}: {grade_words(reference)}."),
        Text(f"Free lengths added up, nothing pressed together. {RANGES}"),
    ]
    spreads = [result.as_found.spread for result in stacks if result.as_found.as_measured is None and not _is_exact(result.as_found)]
    spreads += [loop.reference.spread for loop in loops]
    if any(spreads):
        blocks.append(Text(EVEN_SPREAD))
    for result in stacks:
        blocks.append(Heading(result.name))
        if result.reference.passing:
            blocks.append(Text(f"Nothing is added up: the {lower_first(result.reference.passing)} passes through its neighbours or lies across.", indent=1))
            continue
        blocks += sum_blocks(reference, result.as_found, result.reference if with_found else None)
    if loops:
        blocks.append(Heading("GAPS between two paths"))
        for result in loops:
            blocks += _loop(result, with_found)
            in_inch = reference.inches or with_found and _is_typed_in_inch(result.as_found)
            blocks += _loop_in_inch(result, with_found) if in_inch else []
    return blocks


def distance_page(reference: Reference, distance: StackResult) -> list[Block]:
    """The distance between two faces, term by term."""
    differs = distance.as_found is not distance.reference
    return [
        Text(f"From {distance.name}, {reference_words(reference)}, in mm.", strong=True),
        Text(RANGES),
        *sum_blocks(reference, distance.as_found, distance.reference if differs else None),
    ]


def sum_blocks(reference: Reference, own: Sum, beside: Sum | None = None) -> list[Block]:
    """One sum, a row a term; `beside` is the reference where `own` is as found."""
    reference_terms = {term.place: term for term in beside.terms} if beside else {}
    rows = []
    in_inch = reference.inches or any(in_inches(term.text) for term in own.terms)
    for term in own.terms:
        row = (_name(reference, term), mm(term.interval.nominal_mm), _range(term), SHORT.get(term.how, term.how))
        row += (inch(term.interval.nominal_mm),) if in_inch and beside is None else ()
        if beside is not None:
            row += _reference_cells(reference_terms.pop(term.place, None))
        rows.append(row)
    for term in reference_terms.values():
        rows.append((_name(reference, term), "not there", "", "", *_reference_cells(term)))
    if own.total is not None:
        total = ["total", mm(own.total.nominal_mm), narrow_span(own.total.least_mm, own.total.most_mm), ""]
        if beside is not None and beside.total is not None:
            total += [mm(beside.total.nominal_mm), narrow_span(beside.total.least_mm, beside.total.most_mm)]
        total += [inch(own.total.nominal_mm)] if in_inch and beside is None else []
        rows.append(tuple(total))
    header = ("part", "length", "range", "how") + (("reference", "range") if beside is not None else ("inch",) if in_inch else ())
    width = len(header)
    blocks: list[Block] = [
        Rows(header, tuple(row[:width] + ("",) * (width - len(row)) for row in rows), right=(1, 4) if width > 4 else (1,), wraps=(0, 3))
    ]
    if in_inch and own.total is not None:
        ends = inch(own.total.least_mm), inch(own.total.most_mm)
        span = f", {' to '.join(ends)}" if ends[0] != ends[1] else ""
        blocks.append(Text(f"In inch: total {inch(own.total.nominal_mm)}{span}.", indent=1))
    change = None if beside is None else own.longer_than(beside)
    if change is not None:
        words = "the same length as the reference" if abs(change) < 0.0005 else f"{mm(abs(change))} {'longer' if change > 0 else 'shorter'} than the reference"
        blocks.append(Text(f"As found {words}.", indent=1))
    if own.as_measured is not None:
        measured = own.as_measured
        largest = f"; most of it from the {_name(reference, measured.largest)}" if measured.largest else ""
        few = f" ({measured.factor:.2f} standard uncertainties: few readings)" if measured.factor > 2.005 else ""
        words = f"As measured {mm(measured.value_mm)}, good to {mm(round(measured.good_to_mm, 2))}{few}{largest}."
        blocks.append(Text(words, indent=1))
    elif own.spread is not None and len(own.terms) > 1 and not _is_exact(own):
        blocks.append(Text(spread_words(own.spread), indent=1))
    blocks += [Text(f"cannot tell: {need}", indent=1) for need in own.needs]
    return blocks


def _is_exact(value: Sum) -> bool:
    """Whether every length stands in a parts picture without any limit: nothing spreads."""
    return value.total is not None and value.total.least_mm == value.total.most_mm


def _is_typed_in_inch(state: LoopState) -> bool:
    texts = [term.text for term in state.terms] + ([state.measured.text] if state.measured is not None else [])
    return any(map(in_inches, texts))


def inch(value_mm: float) -> str:
    """In inch, to a tenth of a thou: 1 in = 25.4 mm exactly."""
    return f"{value_mm / 25.4 + 0.0:.4f}"


def _name(reference: Reference, term: Term) -> str:
    name = term.name
    if term.place:
        name = place_words(reference, term.place) + name.removeprefix(reference.part_at(term.place).name)
    return f"less {name}" if term.sign < 0 else name


def _reference_cells(term: Term | None) -> tuple[str, str]:
    return ("-", "") if term is None else (mm(term.interval.nominal_mm), _range(term))


def _range(term: Term) -> str:
    return narrow_span(term.interval.least_mm, term.interval.most_mm)


def _loop(result: LoopResult, with_found: bool) -> list[Block]:
    state: LoopState = result.as_found if with_found else result.reference
    loop = state.loop
    blocks: list[Block] = [
        Text(
            f"{loop.name}: {loop.closed_stack} less {loop.open_stack}, {loop.start} to {loop.end}"
            if loop.closed_stack
            else f"{loop.name}, {loop.start} to {loop.end}: no second path closes it, only a measurement can tell",
            mark=" -  ",
        )
    ]
    own = gap_words(result.reference.gap.least_mm, result.reference.gap.most_mm) if result.reference.gap else ""
    allowed = limits_words(loop.least_mm, loop.most_mm)
    if loop.set_by:
        blocks.append(Text(f"set by the {loop.set_by} when fitted, never a sum; allowed {allowed}", indent=4))
    elif own:
        blocks.append(Text(f"reference: {own}; allowed {allowed}: {result.reference.verdict}", indent=4))
        blocks += _spread(result.reference)
    if with_found:
        blocks.append(Text(f"as found: {gap_found(state)}: {state.verdict}", indent=4))
        if state.measured is None and state.terms != result.reference.terms:
            blocks += _spread(state)
    blocks += [Text(f"cannot tell: {need}", indent=4) for need in state.needs]
    return blocks


def _loop_in_inch(result: LoopResult, with_found: bool) -> list[Block]:
    state = result.as_found if with_found else result.reference
    said = [] if state.gap is None else [gap_words(state.gap.least_mm, state.gap.most_mm, inch)]
    said += [] if state.measured is None else [f"measured {gap_words(state.measured.low_mm, state.measured.high_mm, inch)}"]
    limits = [inch(limit) for limit in (state.loop.least_mm, state.loop.most_mm) if limit is not None]
    said += [f"allowed {' to '.join(limits)}"] if limits else []
    return [Text(f"in inch: {'; '.join(said)}", indent=4)] if said else []


def _spread(state: LoopState) -> list[Block]:
    return [] if state.spread is None else [Text(gap_spread_words(state), indent=4)]
