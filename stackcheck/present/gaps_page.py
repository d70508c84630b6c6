"""The gaps of `stack`: each as found, then by the reference, against what is allowed;
in the worst case, and by an even spread.
"""

from __future__ import annotations

from collections.abc import Mapping

from stackcheck.mechanics.chain import LoopState
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.compare_sums import contradiction, gap_found
from stackcheck.present.names import needed, place_words, the
from stackcheck.present.spread_words import gap_spread_words
from stackcheck.present.words import beside, gap_words, limits_words, named_gap
from stackcheck.result.lengths import LoopResult
from stackcheck.result.points import CANNOT_TELL, DIFFERS, NOT_LOOKED_AT
from stackcheck.units.inches import in_inches

CLOSES = {"agrees": "closes", DIFFERS: "does not close", CANNOT_TELL: "may not close"}
"""What the lengths of a reference say of its own limits."""


def gap_blocks(
    reference: Reference,
    loops: tuple[LoopResult, ...],
    *,
    with_found: bool,
    unclamped: Mapping[str, str] | None = None,
    warm: Mapping[str, str] | None = None,
) -> list[Block]:
    """`unclamped` holds, by its name, each gap whose parts nothing holds together as found,
    and the joint that should; `warm` what heat does to it.
    """
    blocks: list[Block] = [Heading("GAPS, worst case")] if loops else []
    for result in loops:
        inch = reference.inches or with_found and _is_typed_in_inch(result.as_found)
        first, *others = _found_lines(result, inch) if with_found else _reference_lines(result.reference, inch)
        if joint := (unclamped or {}).get(result.reference.loop.name):
            others.insert(0, f"by lengths alone: the {joint} clamps nothing, so nothing holds it there")
        others += [(warm or {})[name]] if (name := result.reference.loop.name) in (warm or {}) else []
        blocks.append(Text(first, mark=" -  "))
        blocks += [Text(line, indent=4) for line in (*others, _faces(reference, result.reference))]
    return blocks


def _reference_lines(state: LoopState, inch: bool) -> list[str]:
    loop = state.loop
    allowed = f"allowed {beside(inch, limits_words, loop.least_mm, loop.most_mm)}"
    if loop.set_by:
        return [f"{loop.name}: {allowed}; set by the {loop.set_by} when fitted, never a sum"]
    if state.gap is None:
        return [f"{loop.name}: cannot tell: needs {needed(state.needs) or 'a reading'}; {allowed}"]
    closes = f": {CLOSES[state.verdict]}" if state.verdict in CLOSES else ""
    return [f"{named_gap(loop.name, state.gap.least_mm, state.gap.most_mm, inch)}; {allowed}{closes}", *_spread(state)]


def _found_lines(result: LoopResult, inch: bool) -> list[str]:
    own, seen = result.reference, result.as_found
    loop = seen.loop
    allowed = f"allowed {beside(inch, limits_words, loop.least_mm, loop.most_mm)}"
    lines = [f"{loop.name} as found: {_as_found(seen, inch)}; {allowed}: {seen.verdict}"]
    if seen.verdict == NOT_LOOKED_AT:
        same = (
            f"; by the lengths of the reference {beside(inch, gap_words, seen.gap.least_mm, seen.gap.most_mm)}"
            if seen.gap is not None
            else ""
        )
        lines = [f"{loop.name} as found: {seen.verdict}{same}; {allowed}"]
    elif seen.measured is None and seen.terms != own.terms:
        lines += _spread(seen)
    if seen.contradicted:
        lines.append(contradiction(seen, inch))
    if loop.set_by:
        return [*lines, f"set by the {loop.set_by} when fitted, never a sum"]
    return (
        lines
        if own.gap is None or seen.verdict == NOT_LOOKED_AT
        else [*lines, f"reference: {beside(inch, gap_words, own.gap.least_mm, own.gap.most_mm)}"]
    )


def _as_found(state: LoopState, inch: bool) -> str:
    if state.gap is None and state.measured is None and state.needs:
        return f"needs {needed(state.needs)}"
    return gap_found(state, inch)


def _faces(reference: Reference, state: LoopState) -> str:
    """Between which faces it lies, and of which two paths it is the difference."""
    loop = state.loop
    faces = " and ".join(the(place_words(reference, place).partition(", ")[0]) for place in loop.gap_between)
    if not loop.closed_stack:
        return f"between {faces}: no second path closes it, only a measurement can tell"
    return f"between {faces}: {loop.closed_stack} less {loop.open_stack}"


def _spread(state: LoopState) -> list[str]:
    return [] if state.spread is None else [gap_spread_words(state)]


def _is_typed_in_inch(state: LoopState) -> bool:
    texts = [term.text for term in state.terms] + ([state.measured.text] if state.measured is not None else [])
    return any(map(in_inches, texts))
