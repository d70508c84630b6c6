"""Every force of a reference, as found beside it, places by the names of the bench."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.axial.tighten import REFERENCE_C
from stackcheck.mechanics.lengths import is_taken_as_one_width
from stackcheck.model.reference import Reference
from stackcheck.present import forces_json
from stackcheck.present.across_page import across_blocks, across_json
from stackcheck.present.blocks import Block, Heading, Rows
from stackcheck.present.disc_springs_page import HOW as DISCS
from stackcheck.present.disc_springs_page import springs_blocks
from stackcheck.present.force_limit_words import limit_tree, unclamped_blocks
from stackcheck.present.forces_page import forces_blocks
from stackcheck.present.names import in_place_words, listed, lower_first
from stackcheck.present.radial_page import radial_anywhere_json, radial_blocks, radial_json
from stackcheck.present.set_gap_page import set_gap_blocks, set_gap_json
from stackcheck.present.supports_page import support_json, supports_blocks
from stackcheck.present.working_springs_page import working_spring_json, working_springs_blocks
from stackcheck.result.forces import AllForces
from stackcheck.value import replace

LIMITS = (
    "along one axis only, no tilt, no radial load, no yield. A range holds 95 of 100 draws of everything "
    "that is not known."
)
ACROSS = "Load across: it enters no force but those under LOAD ACROSS."
WARM_GAPS = "Heat: every part at its own temperature; steel where no material is given."
WARM = (
    "Heat: every part at its own temperature; "
    "races grow with their rings, those of angular and taper bearings with their seats too."
)


def clamp_blocks(value: AllForces, reference: Reference, *, with_found: bool) -> list[Block]:
    """What is clamped, what two bearings feel of it, and the plays that a nut sets."""
    blocks = [
        *forces_blocks(value.joints, with_found=with_found),
        *unclamped_blocks(value.unclamped),
        *set_gap_blocks(value.set_gaps, reference, with_found=with_found),
    ]
    return named(blocks, reference)


def carried_blocks(value: AllForces, reference: Reference, *, with_found: bool, is_warm: bool = False) -> list[Block]:
    """What springs press with, and what the members carry that the stack stands between;
    `is_warm`: other answers stand beside them that are told warm.
    """
    blocks = [
        *springs_blocks(value.discs, with_found=with_found),
        *working_springs_blocks(value.coils, reference, with_found=with_found),
        *supports_blocks(value.supports, reference, with_found=with_found),
        *(radial_blocks(value.thrusts, value.radial_n, value.thrust_anywhere_n) if value.across is None else []),
        *across_blocks(value.across, with_found=with_found),
    ]
    if is_warm or value.warm_gaps or any(joint.reference.heat.is_grown for joint in value.joints):
        blocks = [
            replace(block, text=f"{block.text}, at {REFERENCE_C:g} °C") if isinstance(block, Heading) else block
            for block in blocks
        ]
    return named(blocks, reference)


def unclamped_gaps(value: AllForces) -> dict[str, str]:
    """Gaps between two bearings that nothing holds together as found, by name, and the joint that should."""
    return {
        loop.loop: result.reference.joint.name
        for result in value.joints
        if result.as_found.is_unclamped
        for loop in result.as_found.loops
    }


def forces_tree(value: AllForces, *, with_found: bool) -> dict[str, Any]:
    """The same as plain values; as found null where there is no list."""
    return {
        "forces": [forces_json.joint(each, with_found=with_found) for each in value.joints],
        "unclamped_limits": [limit_tree(each) for each in value.unclamped],
        "set_gaps": [set_gap_json(each, with_found=with_found) for each in value.set_gaps],
        "supports": [support_json(each, with_found=with_found) for each in value.supports],
        "disc_springs": [forces_json.springs(each, with_found=with_found) for each in value.discs],
        "warm_gaps": [
            {
                "gap": each.gap,
                "wider_mm": round(each.wider_mm, 4) + 0.0,
                "wider_by_races_mm": forces_json.spanned(each.by_races_mm, 4),
            }
            for each in value.warm_gaps
        ],
        "self_thrusts": [radial_json(each) for each in value.thrusts],
        "thrust_anywhere_n": radial_anywhere_json(value.thrust_anywhere_n),
        "load_across": across_json(value.across, with_found=with_found),
        "coil_springs": [working_spring_json(each, with_found=with_found) for each in value.coils],
    }


def named(blocks: list[Block], reference: Reference) -> list[Block]:
    """The same blocks with places as people call them; the engines know them by their keys."""
    return [
        _named_rows(block, reference)
        if isinstance(block, Rows)
        else replace(block, text=in_place_words(reference, block.text))
        for block in blocks
    ]


def _named_rows(block: Rows, reference: Reference) -> Rows:
    header, *rows = (tuple(in_place_words(reference, cell) for cell in row) for row in (block.header, *block.rows))
    return replace(block, header=header, rows=tuple(rows))


def _one_width(reference: Reference) -> list[str]:
    """Taper bearings of which only the length is given, where a stack goes through one of their rings."""
    through = [reference.part_at(place) for stack in reference.stacks if stack.through for place in stack.places]
    names = dict.fromkeys(lower_first(part.name) for part in through if is_taken_as_one_width(part))
    return [f"length of the {listed(names)} as the width of either ring"] if names else []


def forces_how(value: AllForces, reference: Reference) -> list[str]:
    """What the forces rest on, and what was taken where nothing is given."""
    has_forces = bool(value.joints or value.supports or value.coils or value.discs)
    words = [f"Forces: {LIMITS}"] if has_forces else []
    words += [ACROSS] if value.radial_n is not None else []
    if value.warm_gaps or any(result.reference.heat.is_grown for result in value.joints):
        has_races = value.joints or any(gap.by_races_mm is not None for gap in value.warm_gaps)
        words.append(WARM if has_races else WARM_GAPS)
    words += [DISCS] if value.discs else []
    taken = in_place_words(reference, "; ".join((*value.defaults, *_one_width(reference))))
    return [*words, *([f"Taken where nothing is given: {taken}."] if taken else [])]
