"""What a load across does along the axis, a line a bearing."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.radial_load import SelfThrust
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.force_figures import because, force_words, limit_words, range_of_force, spanned_force
from stackcheck.present.forces_json import spanned
from stackcheck.present.words import listed

WHAT = (
    "Along the axis by its own slant, while half of the circle carries: with play the member moves over until the "
    "other bearing takes it up; a preload below it leaves fewer than half of the balls or rollers to carry."
)
PLACE = "Where it acts is not said"
ON_ONE = f"{PLACE}: told as if one bearing took all of it."
ANYWHERE = (
    f"{PLACE}: between the two bearings each takes from nothing to all of it, on an overhang one takes more than all. "
    "--radial-at narrows it: a place, a face, or a length from one."
)


NONE = "No angular or taper bearing stands here: a deep-groove ball bearing makes no force along the axis of its own."


def radial_blocks(
    thrusts: tuple[SelfThrust, ...], radial_n: float | None, anywhere_n: tuple[float, float] | None = None
) -> list[Block]:
    """`radial_n` is the load that was asked for; nothing is said where none was.
    `anywhere_n`: what two bearings carry along the axis wherever between them it acts.
    """
    if radial_n is None:
        return []
    where = "on one bearing" if anywhere_n is None else "anywhere between the two bearings"
    blocks: list[Block] = [Heading(f"LOAD ACROSS of {force_words(radial_n)} {where}")]
    if anywhere_n is not None:
        least, most = anywhere_n
        carried = range_of_force(Spanned(usual=least, least=least, most=most))
        blocks.append(
            Text(
                f"along the axis: both carry {carried}, wherever between them it acts; a larger preload stays",
                mark=" -  ",
            )
        )
    all_of_it = "all of the load on it: " if anywhere_n is not None else ""
    for each in thrusts:
        said = f"cannot tell: needs {listed(each.needs)}"
        if each.beyond is not None:
            said = f"that uses up {limit_words(each.beyond)}: no figure along the axis holds there"
        if each.thrust_n is not None:
            said = f"{all_of_it}its rings are pushed apart by {spanned_force(each.thrust_n)}{because(each.thrust_n)}"
        blocks.append(Text(f"{each.place}: {said}", mark=" -  "))
    if not thrusts:
        return [*blocks, Text(NONE)]
    return [*blocks, Text(f"{WHAT} {ON_ONE if anywhere_n is None else ANYWHERE}")]


def radial_json(value: SelfThrust) -> dict[str, Any]:
    return {
        "place": value.place,
        "bearing": value.bearing,
        "radial_n": value.radial_n,
        "thrust_n": spanned(value.thrust_n, 1),
        "past_rating_n": None if value.beyond is None else round(value.beyond.force_n),
        "needs": list(value.needs),
    }


def radial_anywhere_json(value: tuple[float, float] | None) -> dict[str, float] | None:
    return None if value is None else dict(zip(("least", "most"), (round(each, 1) for each in value)))
