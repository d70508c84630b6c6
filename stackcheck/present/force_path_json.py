"""What a finding does to the forces as a tree of plain values: paths, bearings, disc springs;
the manual describes every field.
"""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.disc_groups import DiscGroups
from stackcheck.mechanics.effects import Effect
from stackcheck.mechanics.force_path import ForcePath
from stackcheck.model.reference import Reference
from stackcheck.present.force_path_words import force_sentence
from stackcheck.present.json_values import interval, rounded_mm
from stackcheck.result.comparison import FindingResult


def force(result: FindingResult, reference: Reference) -> dict[str, Any] | None:
    """null for a finding that has no effect of its own and that no bearing feels (a pairing, a condition)."""
    effect = result.effect
    if effect is None:
        words = force_sentence(result.finding, None, reference)
        if not words:
            return None
        effect = Effect()
    else:
        words = force_sentence(result.finding, effect, reference)
    return {
        "paths": [_path(path) for path in effect.paths],
        "home_paths": [_path(path) for path in effect.home_paths],
        "bearings": [
            {
                "loop": change.loop,
                "change_mm": interval(change.change),
                "apart_mm": interval(change.apart),
                "driven": change.way,
                "answer": change.answer,
                "play_mm": _ends(change.play_mm),
                "held_by": change.held_by,
                "spring": change.spring,
                "set_by": change.set_by,
            }
            for change in effect.bearings
        ],
        "disc_springs": [
            {"stack": own.stack, "reference": _laid(own), "as_found": _laid(seen)} for own, seen in effect.discs
        ],
        "gaps_that_are_set": [{"name": name, "change_mm": interval(change)} for name, change in effect.set_changes],
        "sentence": words,
    }


def _path(value: ForcePath) -> dict[str, Any]:
    return {
        "where": value.where,
        "stacks": list(value.stacks),
        "joint": value.joint,
        "loop": value.loop,
        "gap": value.gap,
        "spring": value.spring,
        "choices": [_path(choice) for choice in value.choices],
    }


def _ends(value: tuple[float, float] | None) -> dict[str, Any] | None:
    return None if value is None else {"least": rounded_mm(value[0]), "most": rounded_mm(value[1])}


def _laid(value: DiscGroups) -> dict[str, Any]:
    return {"groups": list(value.counts), "free_mm": rounded_mm(value.free_mm), "needs": list(value.needs)}
