"""Stacks of disc springs in words and as a page:
groups, free length, and the force at the length that they are set to.
"""

from __future__ import annotations

from stackcheck.mechanics.spring_stacks import QUOTED_SHARE, SpringStack
from stackcheck.present.blocks import Block, Heading
from stackcheck.present.figures import mm
from stackcheck.present.force_figures import because, spanned_force
from stackcheck.present.names import listed, needed
from stackcheck.present.side_by_side import beside_blocks
from stackcheck.result.forces import SpringsResult

HEADING = "DISC SPRINGS, nested in each group from the first end to the second"
HOW = (
    "Disc springs: by EN 16984, all alike within their limits (±0.05 of thickness and height where none are given, "
    "common practice, no source); friction up to 3 in 100 for each nested pair and 3 at the edges, more on the way in, "
    "less on the way out (from memory)."
)


def springs_blocks(results: tuple[SpringsResult, ...], *, with_found: bool) -> list[Block]:
    if not results:
        return []
    blocks: list[Block] = [Heading(HEADING)]
    for result in results:
        own, seen = spring_words(result.reference), spring_words(result.as_found)
        blocks += beside_blocks(result.reference.stack, own, seen, with_found=with_found)
    return blocks


def spring_words(value: SpringStack) -> str:
    """ "2 + 2 + 2 nested, free 15.30; at 14.20: 2.9 to 6.0 kN, about 4.4"."""
    if value.needs:
        return f"cannot tell: needs {needed(value.needs)}"
    words = f"{' + '.join(map(str, value.counts))} nested, free {mm(round(value.free_mm, 2))}"
    if value.outside:
        return f"{words}; no figure holds: {'; '.join(value.outside)}"
    if value.at_mm is None or value.force_n is None:
        return words
    said = {value.measured_mm: " as measured"}
    ends = [
        f"at {mm(at)}{said.get(at, '')}: {_no_figure(value, i) or spanned_force(value.force_n[i])}"
        for i, at in enumerate(value.at_mm)
    ]
    figures = [force for i, force in enumerate(value.force_n) if not _no_figure(value, i)]
    return f"{words}; {'; '.join(reversed(ends))}{because(figures[0]) if figures else ''}"


def _no_figure(value: SpringStack, at: int) -> str:
    """Why no force is told at this one of the lengths; "" where one is."""
    if value.at_mm[at] < value.flat_mm - 1e-9:
        return f"cannot be, they are flat at {mm(value.flat_mm)}"
    if value.force_n[at].most <= 0:
        return "nothing presses on them, they are shorter by themselves"
    return _pressed_words(value, at)


def _pressed_words(value: SpringStack, at: int) -> str:
    """Which groups are pressed past three quarters of their cone, so that no figure holds; "" for none."""
    beyond, counts = value.beyond(at), value.counts
    if not beyond:
        return ""
    single = [i for i, count in enumerate(counts) if count == 1]
    which = (
        "all"
        if len(beyond) == len(counts)
        else "the single ones"
        if list(beyond) == single
        else f"group {listed(str(i + 1) for i in beyond)}"
    )
    shares = [value.pressed[at][i].usual for i in beyond]
    ends = dict.fromkeys(f"{share:.3f}" for share in (min(shares), max(shares)))
    return (
        f"no figure holds: {which} pressed to {' to '.join(ends)} of the cone, "
        f"past {QUOTED_SHARE:g} springs are harder than the formula"
    )
