"""The lengths of `stack`: every sum with its terms, reference beside as found."""

from __future__ import annotations

from collections.abc import Callable

from stackcheck.mechanics.chain import Sum
from stackcheck.mechanics.lengths import Interval, Term
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.compare_sums import fills_words
from stackcheck.present.gaps_page import gap_blocks
from stackcheck.present.how_page import how_blocks, is_exact
from stackcheck.present.names import lower_first, needed
from stackcheck.present.spread_words import spread_words
from stackcheck.present.words import grade_words, mm, place_words, reference_words, span
from stackcheck.result.lengths import LoopResult, StackResult
from stackcheck.units.inches import in_inches, inch_figure

SHORT = {"depth micrometer": "depth mic", "inside calliper": "inside cal", "depth gauge": "depth"}
"""Ways of measuring, as the narrow column says them (and as people type them)."""


def title(reference: Reference, what: str) -> list[Block]:
    """What is told of which reference, and who says so."""
    return [
        Text(f"{what} of {reference_words(reference)}, in mm.", strong=True),
        Text(f"{reference.id}: {grade_words(reference)}."),
    ]


def stack_blocks(reference: Reference, stacks: tuple[StackResult, ...], *, with_found: bool) -> list[Block]:
    """Every stack term by term; `with_found` adds the reference beside it."""
    blocks: list[Block] = []
    for result in stacks:
        blocks.append(Heading(result.name))
        if result.reference.passing:
            blocks.append(
                Text(
                    (f"Nothing is added up: the {lower_first(result.reference.passing)} {_lies(reference, result)}."),
                    indent=1,
                )
            )
            continue
        if with_found and result.reference.total is not None and _stands_as(result.as_found, result.reference):
            total = result.reference.total
            inch = f" ({_range(total, inch_figure)} in)" if reference.inches else ""
            blocks.append(
                Text(
                    f"Nothing of it was measured: by the reference {mm(total.nominal_mm)}, {_range(total, mm)}{inch}.",
                    indent=1,
                )
            )
            continue
        blocks += sum_blocks(reference, result.as_found, result.reference if with_found else None)
    return blocks


def _lies(reference: Reference, result: StackResult) -> str:
    """How the part lies for whose sake a stack is not added up."""
    named = [part for part in reference.parts if part.name == result.reference.passing]
    return "sits in a bore" if named and named[0].kind == "bush" else "passes through its neighbours or lies across"


def _stands_as(own: Sum, beside: Sum) -> bool:
    """Whether every term is that of the reference, because nobody measured any and nothing else stands there."""
    return [(term.place, term.interval) for term in own.terms] == [
        (term.place, term.interval) for term in beside.terms
    ] and not any(term.is_measured for term in own.terms)


def lengths_page(
    reference: Reference, stacks: tuple[StackResult, ...], loops: tuple[LoopResult, ...], *, with_found: bool
) -> list[Block]:
    """Stacks and gaps alone, without forces."""
    sums, states = [result.as_found for result in stacks], [result.as_found for result in loops]
    return [
        *title(reference, "Lengths"), *gap_blocks(reference, loops, with_found=with_found),
        *stack_blocks(reference, stacks, with_found=with_found), *how_blocks(sums, states),
    ]  # fmt: skip


def distance_page(reference: Reference, distance: StackResult, *, with_found: bool) -> list[Block]:
    """The distance between two faces, term by term."""
    return [
        Text(f"From {distance.name}, {reference_words(reference)}, in mm.", strong=True),
        *sum_blocks(reference, distance.as_found, distance.reference if with_found else None),
        *how_blocks([distance.as_found]),
    ]


def sum_blocks(reference: Reference, own: Sum, beside: Sum | None = None) -> list[Block]:
    """One sum, a row a term; `beside` is the reference where `own` is as found.
    Where somebody works in inches, in inches too.
    """
    in_inch = reference.inches or any(in_inches(term.text) for term in own.terms)
    if beside is None:
        blocks: list[Block] = [_table(reference, own, in_inch=in_inch)]
        if in_inch and own.total is not None and own.total.least_mm != own.total.most_mm:
            blocks.append(
                Text(f"Total in inches: {span(own.total.least_mm, own.total.most_mm, inch_figure)}.", indent=1)
            )
    else:
        blocks = [_beside_table(reference, own, beside, mm)]
        if in_inch:
            blocks += [Text("in inches:", indent=1), _beside_table(reference, own, beside, inch_figure)]
        blocks += _change(own.longer_than(beside), in_inch=in_inch)
    if own.as_measured is not None:
        measured = own.as_measured
        most = measured.contributions[0].what or f"the {_name(reference, measured.largest)}"
        largest = f"; most of it from {most}" if measured.largest else ""
        few = f" ({measured.factor:.2f} standard uncertainties: few readings)" if measured.factor > 2.005 else ""
        words = f"As measured {mm(measured.value_mm)}, good to {mm(round(measured.good_to_mm, 2))}{few}{largest}."
        blocks.append(Text(words, indent=1))
    elif own.spread is not None and len(own.terms) > 1 and not is_exact(own):
        blocks.append(Text(spread_words(own.spread), indent=1))
    if own.fills:
        blocks.append(Text(fills_words(own), indent=1))
    return blocks + ([Text(f"Cannot tell the total: needs {needed(own.needs)}.", indent=1)] if own.needs else [])


def _table(reference: Reference, own: Sum, *, in_inch: bool) -> Rows:
    rows = [
        (
            _name(reference, term),
            mm(term.interval.nominal_mm),
            _range(term.interval, mm),
            SHORT.get(term.how, term.how),
            inch_figure(term.interval.nominal_mm),
        )
        for term in own.terms
    ]
    if own.total is not None:
        rows.append(("total", mm(own.total.nominal_mm), _range(own.total, mm), "", inch_figure(own.total.nominal_mm)))
    width = 5 if in_inch else 4
    header = ("part", "length", "range", "how", "inch")
    return Rows(header[:width], tuple(row[:width] for row in rows), right=(1,), wraps=(0, 3))


def _beside_table(reference: Reference, own: Sum, beside: Sum, show: Callable[[float], str]) -> Rows:
    wanted = {term.place: term for term in beside.terms}
    rows = [
        (
            _name(reference, term),
            *_cells(term.interval, show),
            SHORT.get(term.how, term.how),
            *_reference_cells(wanted.pop(term.place, None), show),
        )
        for term in own.terms
    ]
    rows += [(_name(reference, term), "not there", "", "", *_reference_cells(term, show)) for term in wanted.values()]
    if own.total is not None:
        rows.append(
            (
                "total",
                *_cells(own.total, show),
                "",
                *(_cells(beside.total, show) if beside.total is not None else ("", "")),
            )
        )
    return Rows(("part", "length", "range", "how", "reference", "range"), tuple(rows), right=(1, 4), wraps=(0, 3))


def _change(change_mm: float | None, *, in_inch: bool) -> list[Block]:
    if change_mm is None:
        return []
    size = f"{mm(abs(change_mm))}{f' ({inch_figure(abs(change_mm))} in)' if in_inch else ''}"
    words = (
        "the same length as the reference"
        if abs(change_mm) < 0.0005
        else f"{size} {'longer' if change_mm > 0 else 'shorter'} than the reference"
    )
    return [Text(f"As found {words}.", indent=1)]


def _name(reference: Reference, term: Term) -> str:
    name = term.name
    if term.place:
        own = reference.part_at(term.place).name
        more = name.removeprefix(own) if name.startswith(own) else f": {lower_first(name)}"  # another part stands there
        name = place_words(reference, term.place) + more
    return f"less {name}" if term.sign < 0 else name


def _reference_cells(term: Term | None, show: Callable[[float], str]) -> tuple[str, str]:
    return ("-", "") if term is None else _cells(term.interval, show)


def _cells(value: Interval, show: Callable[[float], str]) -> tuple[str, str]:
    return show(value.nominal_mm), _range(value, show)


def _range(value: Interval, show: Callable[[float], str]) -> str:
    return span(value.least_mm, value.most_mm, show).replace(" to ", "..")
