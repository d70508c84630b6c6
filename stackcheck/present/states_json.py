"""States of `stack` as trees of plain values; the manual describes every field."""

from __future__ import annotations

from typing import Any

from stackcheck.present import forces_json
from stackcheck.present.force_limit_words import held_tree, limit_tree
from stackcheck.present.json_values import interval
from stackcheck.present.set_gap_page import set_gap_json
from stackcheck.result.states import GapHeld, StateGap, StateResult


def states_tree(answers: tuple[StateResult, ...], *, with_found: bool) -> list[dict[str, Any]]:
    return [
        {
            "name": each.heat.state,
            "at_c": each.heat.at_c,
            "at_c_apart": dict(each.heat.named),
            "forces": [forces_json.joint(joint, with_found=with_found) for joint in each.joints],
            "set_gaps": [set_gap_json(play, with_found=with_found) for play in each.set_gaps],
            "gaps": [_gap(gap, with_found=with_found) for gap in each.gaps],
            "limits": [_gap_held(held, with_found=with_found) for held in each.gaps_held]
            + [
                limit_tree(held.limit)
                | {
                    "reference": held_tree(held.reference),
                    "as_found": held_tree(held.as_found) if with_found else None,
                }
                for held in each.forces_held
            ],
        }
        for each in answers
    ]


def _gap(value: StateGap, *, with_found: bool) -> dict[str, Any]:
    return {
        "gap": value.loop.name,
        "wider_mm": round(value.grown.wider_mm, 4) + 0.0,
        "wider_by_races_mm": forces_json.spanned(value.grown.by_races_mm, 4),
        "reference_mm": interval(value.reference),
        "as_found_mm": interval(value.as_found) if with_found else None,
        "change_mm": interval(value.change) if with_found else None,
        "main_cause": value.cause,
    }


def _gap_held(value: GapHeld, *, with_found: bool) -> dict[str, Any]:
    limit = value.limit
    return {
        "what": value.loop.name if limit is None else limit.what,
        "of": value.loop.name,
        "state": "" if limit is None else limit.state,
        "least_mm": value.least_mm,
        "most_mm": value.most_mm,
        "source": value.loop.source if limit is None else limit.source,
        "reference": {"verdict": value.reference, "gap_mm": interval(value.own)},
        "as_found": {"verdict": value.as_found, "gap_mm": interval(value.seen)} if with_found else None,
    }
