"""The play that a nut sets between two bearings, in words and as JSON: reference beside as found."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.set_gap import GAUGE_N, PAST_MM, SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.figures import mm
from stackcheck.present.force_figures import because, force_words, range_of_force
from stackcheck.present.forces_json import spanned
from stackcheck.present.heat_words import warm_play_words
from stackcheck.present.json_values import interval
from stackcheck.present.names import needed
from stackcheck.present.side_by_side import beside_lines
from stackcheck.present.words import beside, gap_words, limits_words, span
from stackcheck.result.forces import SetGapResult
from stackcheck.value import replace

HEADING = "PLAY THAT A NUT SETS"
COVERED = "PLAY BETWEEN TWO PRESSED OUTER RINGS"
"""Where no nut sets any of them."""

NOTHING_N = 1.0
"""A preload that is none."""

SEATED = "seated, before it is backed off, the balls or rollers carry the whole tension above"


def set_gap_blocks(results: tuple[SetGapResult, ...], reference: Reference, *, with_found: bool) -> list[Block]:
    """What each play is set to and reads, as found and by the reference; then how hard the first step past it is."""
    if not results:
        return []
    by_nut = any(is_by_joint(result.reference, reference) for result in results)
    blocks: list[Block] = [Heading(HEADING if by_nut else COVERED)]
    for result in results:
        own, seen = result.reference, result.as_found
        past = past_words(own)
        if with_found:
            blocks.append(Text(_name(own), mark=" -  "))
            blocks.append(Text(f"as found: {measured_words(result, in_inch=reference.inches)}", indent=4))
            blocks.append(Text(f"reference: {set_words(own, in_inch=reference.inches)}", indent=4))
            blocks += [Text(line, indent=4) for line in beside_lines(past, past_words(seen))]
        else:
            to = ": " if own.is_sum else " to "
            blocks.append(Text(f"{_name(own)}{to}{set_words(own, in_inch=reference.inches)}", mark=" -  "))
            blocks.append(Text(past, indent=4))
        if warm := warm_play_words(seen if with_found else own):
            blocks.append(Text(warm, indent=4))
        if own.step is not None:
            step = step_words(own)
            is_told = with_found and seen.step is not None  # what it needs as found is said above
            blocks += [Text(line, indent=4) for line in (beside_lines(step, step_words(seen)) if is_told else [step])]
        if is_by_joint(own, reference):
            blocks.append(Text(SEATED, indent=4))
    return blocks


def is_by_joint(value: SetGap, reference: Reference) -> bool:
    return any(joint.name == value.joint for joint in reference.joints)


def _name(value: SetGap) -> str:
    return f"{value.gap}, as its lengths leave it" if value.is_sum else f"{value.gap}, set by the {value.joint}"


def set_words(value: SetGap, *, in_inch: bool = False) -> str:
    """ "0.03 to 0.08: no preload; a dial under ±50 N reads 0.033 to 0.081"."""
    if value.play is None:
        return "what no limit says"
    words = f"{beside(in_inch, limits_words, value.play.least_mm, value.play.most_mm)}: {_now(value)}"
    if value.float_mm is None or value.play.most_mm <= 0:
        return words
    read = value.float_mm
    return (
        f"{words}; a dial under ±{GAUGE_N:g} N reads {beside(in_inch, span, round(read.least, 3), round(read.most, 3))}"
    )


def measured_words(value: SetGapResult, *, in_inch: bool = False) -> str:
    """The play as somebody read it; nobody's reading is no play."""
    play = value.as_found.play
    if not value.is_measured or play is None:
        return "not measured"
    return f"{beside(in_inch, gap_words, play.least_mm, play.most_mm)} measured: {_now(value.as_found)}"


def past_words(value: SetGap) -> str:
    """ "0.02 past no play, 5 degrees of the nut: preload 570 N to 1.3 kN; most of the range from ..."."""
    if value.past_n is None:
        return f"past no play: cannot tell: needs {needed(value.needs)}"
    turn = f", {value.past_deg:.0f} degrees of the nut" if value.past_deg is not None else ""
    return f"{mm(PAST_MM)} past no play{turn}: preload {_preload(value, value.past_n)}"


def step_words(value: SetGap) -> str:
    """ "an eighth of a turn moves the outer ring by 0.19; that far past no play: preload ..."."""
    if value.step is None:
        return past_words(value)
    what = "an eighth of a turn moves" if value.step.turn else f"{mm(value.step.mm)} less under the cover moves"
    return (
        f"{what} the outer ring by {mm(value.step.mm)}; as far past no play: preload "
        f"{_preload(value, value.step.force_n)}"
    )


def _now(value: SetGap) -> str:
    """ "no preload", "preload 1.1 to 2.4 kN; most of the range from ...", "may be either: ..."."""
    force = value.now_n
    if force is None or force.most < NOTHING_N:
        is_open = value.play is None or value.play.least_mm >= 0 or force is not None
        return "no preload" if is_open else f"preload: cannot tell: needs {needed(value.needs)}"
    most = f"up to {_preload(value, replace(force, least=force.most))}" if force.least < NOTHING_N else ""
    return f"may be either: no preload, or {most}" if most else f"preload {_preload(value, force)}"


def _preload(value: SetGap, force: Spanned) -> str:
    """ "1.1 to 2.4 kN; most of the range from ...", as far as the bearings carry it."""
    limit, words = value.limit, range_of_force(force)
    if limit is not None and force.most > limit.force_n:
        past = f"beyond {limit.called}, about {force_words(limit.force_n)}: no figure holds there"
        words = past if force.least > limit.force_n else f"{force_words(force.least)} to {past}"
    return f"{words}{because(force)}"


def set_gap_json(value: SetGapResult, *, with_found: bool) -> dict[str, Any]:
    return {
        "gap": value.reference.gap,
        "joint": value.reference.joint,
        "gauge_n": GAUGE_N,
        "past_mm": PAST_MM,
        "reference": _tree(value.reference),
        "as_found": _tree(value.as_found) if with_found else None,
        "defaults": list(value.reference.defaults),
    }


def _tree(value: SetGap) -> dict[str, Any]:
    beyond = None if value.limit is None else value.limit.force_n
    return {
        "play_mm": interval(value.play),
        "dial_reads_mm": spanned(value.float_mm, 4),
        "preload_past_no_play_n": spanned(value.past_n, 1, beyond),
        "is_sum": value.is_sum,
        "preload_n": spanned(value.now_n, 1, beyond),
        "step": None
        if value.step is None
        else {
            "mm": round(value.step.mm, 4),
            "turn": value.step.turn,
            "preload_n": spanned(value.step.force_n, 1, beyond),
        },
        "play_then_mm": spanned(value.then_mm, 4),
        "play_then_by_length_mm": spanned(value.by_length_mm, 4),
        "play_then_by_races_mm": spanned(value.by_races_mm, 4),
        "dial_reads_then_mm": spanned(value.then_reads_mm, 4),
        "preload_then_n": spanned(value.then_n, 1, beyond),
        "no_figure_beyond_n": None if beyond is None else round(beyond, 1),
        "needs": list(value.needs),
    }
