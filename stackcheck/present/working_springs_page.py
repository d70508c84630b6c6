"""Coil springs and wave washers at the length that their place leaves them, in words and as JSON: reference beside as
found.
"""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.working_springs import WorkingSpring
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading
from stackcheck.present.force_figures import because, force_words, range_of_force
from stackcheck.present.forces_json import spanned
from stackcheck.present.json_values import interval
from stackcheck.present.names import needed
from stackcheck.present.side_by_side import beside_blocks
from stackcheck.present.words import mm, place_words
from stackcheck.result.forces import WorkingSpringResult

HEADING = "SPRINGS at the length they are fitted to"


def working_springs_blocks(
    results: tuple[WorkingSpringResult, ...], reference: Reference, *, with_found: bool
) -> list[Block]:
    if not results:
        return []
    blocks: list[Block] = [Heading(HEADING)]
    for result in results:
        own, seen = working_spring_words(result.reference), working_spring_words(result.as_found)
        blocks += beside_blocks(place_words(reference, result.reference.place), own, seen, with_found=with_found)
    return blocks


def working_spring_words(value: WorkingSpring) -> str:
    """ "13.65 to 14.35 long, pressed with 54 to 103 N, about 81; most of the range from ..."."""
    if value.needs:
        return f"cannot tell: needs {needed(value.needs)}"
    words, force = f"{mm(round(value.length.least_mm, 3))} to {mm(round(value.length.most_mm, 3))} long", value.force_n
    if value.coils_touch_mm is not None and value.length.least_mm < value.coils_touch_mm:
        is_sure = value.length.most_mm < value.coils_touch_mm
        if value.is_washer:
            touch = "it is pressed flat" if is_sure else "it may be pressed flat"
        else:
            touch = f"its coils{'' if is_sure else ' may'} touch"
        return f"{words}: {touch}, at {mm(value.coils_touch_mm)}; no force is told"
    if force.most < 0.5:
        return f"{words}: longer than it is by itself, so that nothing presses on it"
    if force.least < 0.5:
        return f"{words}: may be either, pressed with up to {force_words(force.most)}, or not at all{because(force)}"
    return f"{words}, pressed with {range_of_force(force)}, about {force_words(force.usual)}{because(force)}"


def working_spring_json(value: WorkingSpringResult, *, with_found: bool) -> dict[str, Any]:
    return {
        "place": value.reference.place,
        "reference": _tree(value.reference),
        "as_found": _tree(value.as_found) if with_found else None,
    }


def _tree(value: WorkingSpring) -> dict[str, Any]:
    return {
        "length_mm": interval(value.length),
        "force_n": spanned(value.force_n, 1),
        "coils_touch_mm": value.coils_touch_mm,
        "needs": list(value.needs),
    }
