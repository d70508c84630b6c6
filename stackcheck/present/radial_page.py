"""What a load across does along the axis, a line a bearing."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.radial_load import SelfThrust
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.force_figures import because, force_words, limit_words, spanned_force
from stackcheck.present.forces_json import spanned
from stackcheck.present.words import listed

WHAT = (
    "Along the axis by its own slant, while half of the circle carries: with play the member moves over until the "
    "other bearing takes it up; a preload below it leaves fewer than half of the balls or rollers to carry. "
    "Where it acts is not said: between two bearings each takes from nothing to all of it, one on an overhang more than all; "
    "--radial-at shares it."
)


NONE = "No angular or taper bearing stands here: a deep-groove ball bearing makes no force along the axis of its own."


def radial_blocks(thrusts: tuple[SelfThrust, ...], radial_n: float | None) -> list[Block]:
    """`radial_n` is the load that was asked for; nothing is said where none was."""
    if radial_n is None:
        return []
    blocks: list[Block] = [
        Heading(f"LOAD ACROSS of {force_words(radial_n)} on one bearing"),
        Text(WHAT if thrusts else NONE),
    ]
    for each in thrusts:
        said = f"cannot tell: needs {listed(each.needs)}"
        if each.beyond is not None:
            said = f"that uses up {limit_words(each.beyond)}: no figure along the axis holds there"
        if each.thrust_n is not None:
            said = f"its rings are pushed apart by {spanned_force(each.thrust_n)}{because(each.thrust_n)}"
        blocks.append(Text(f"{each.place}: {said}", mark=" -  "))
    return blocks


def radial_json(value: SelfThrust) -> dict[str, Any]:
    return {
        "place": value.place,
        "bearing": value.bearing,
        "radial_n": value.radial_n,
        "thrust_n": spanned(value.thrust_n, 1),
        "past_rating_n": None if value.beyond is None else round(value.beyond.force_n),
        "needs": list(value.needs),
    }
