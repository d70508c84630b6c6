"""The whole answer of `stack`: forces and gaps first, then the sums behind them, then how it was reckoned."""

from __future__ import annotations

from typing import Any

from stackcheck.model.reference import Reference
from stackcheck.present import forces_json
from stackcheck.present.agreement_page import agreement_blocks, agreement_tree
from stackcheck.present.all_forces_page import carried_blocks, clamp_blocks, forces_how, named, unclamped_gaps
from stackcheck.present.blocks import Block, Text
from stackcheck.present.force_terms_page import terms_blocks
from stackcheck.present.gaps_page import gap_blocks
from stackcheck.present.heat_words import state_words, warm_gap_words
from stackcheck.present.how_page import how_blocks
from stackcheck.present.next_page import next_blocks, next_tree
from stackcheck.present.stack_page import stack_blocks, title
from stackcheck.present.state_limits import state_limit_blocks
from stackcheck.present.sweep_page import sweep_blocks
from stackcheck.result.agreement import aspects
from stackcheck.result.comparison import Comparison
from stackcheck.result.forces import AllForces, ForcesResult
from stackcheck.result.lengths import LoopResult, StackResult
from stackcheck.result.next_look import next_look
from stackcheck.result.states import StateResult

Swept = tuple[tuple[ForcesResult, ...], ...]


def stack_answer(
    reference: Reference,
    comparison: Comparison | None,
    stacks: tuple[StackResult, ...],
    loops: tuple[LoopResult, ...],
    forces: AllForces,
    swept: Swept,
    judged: tuple[StateResult, ...],
    *,
    over_torque: bool,
    opened: bool,
) -> list[Block]:
    """`swept` is a range of torque or temperature in steps, `judged` the states that limits are said for;
    `opened`: every force to its terms.
    """
    with_found = comparison is not None
    clamped, carried = (told(forces, reference, with_found=with_found) for told in (clamp_blocks, carried_blocks))
    sums, states = [result.as_found for result in stacks], [result.as_found for result in loops]
    beside = (
        agreement_blocks(aspects(comparison, forces), reference, comparison.found) if comparison is not None else []
    )
    warm = {each.gap: warm_gap_words(each) for each in forces.warm_gaps}
    gaps = gap_blocks(reference, loops, with_found=with_found, unclamped=unclamped_gaps(forces), warm=warm)
    opened_ = terms_blocks(forces.joints, with_found=with_found) if opened else []
    behind = [
        *sweep_blocks(swept, over_torque=over_torque),
        *stack_blocks(reference, stacks, with_found=with_found),
        *opened_,
    ]
    return [
        *title(reference, "Forces, gaps, lengths" if clamped or carried else "Gaps and lengths"),
        *([Text(state_words(forces.heat))] if forces.heat.state else []),
        *beside,
        *clamped,
        *named(gaps, reference),
        *state_limit_blocks(judged, with_found=with_found, only_said=True),
        *carried,
        *named(behind, reference),
        *how_blocks(sums, states, forces_how(forces, reference)),
        *next_blocks(next_look(reference, loops, forces, with_found=with_found), reference),
    ]


def sweep_tree(swept: Swept, *, with_found: bool) -> list[list[dict[str, Any]]]:
    return [[forces_json.joint(each, with_found=with_found) for each in step] for step in swept]


def said_tree(
    reference: Reference, comparison: Comparison | None, loops: tuple[LoopResult, ...], forces: AllForces
) -> dict[str, Any]:
    """In which respects it agrees, and what to measure next."""
    respects = None if comparison is None else agreement_tree(aspects(comparison, forces))
    look = next_look(reference, loops, forces, with_found=comparison is not None)
    return {"respects": respects, "next": next_tree(look)}
