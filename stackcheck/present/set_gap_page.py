"""The play that a nut sets between two bearings, in words and as JSON: reference beside as found."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.set_gap import GAUGE_N, PAST_MM, SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.forces_json import spanned
from stackcheck.present.forces_page import because, force_words, heat_words
from stackcheck.present.json_values import interval
from stackcheck.present.side_by_side import beside_blocks, taken_blocks
from stackcheck.present.stack_page import inch
from stackcheck.present.words import gap_words, mm
from stackcheck.result.forces import SetGapResult

HEADING = "PLAY THAT A NUT SETS"
SEATED = "Seated, before it is backed off, the rollers or balls carry the whole tension above. No radial load."


def set_gap_blocks(results: tuple[SetGapResult, ...], reference: Reference, *, with_found: bool) -> list[Block]:
    if not results:
        return []
    blocks: list[Block] = [Heading(HEADING), Text(SEATED)]
    for result in results:
        own, seen = (set_gap_words(each, in_inch=reference.inches) for each in (result.reference, result.as_found))
        if result.as_found.play != result.reference.play:
            seen = seen.replace("set to ", "measured ", 1)
        blocks += beside_blocks(f"{result.reference.gap}, set by the {result.reference.joint}", own, seen, with_found=with_found)
    return blocks + taken_blocks(result.reference.defaults for result in results)


def set_gap_words(value: SetGap, *, in_inch: bool = False) -> str:
    """ "set to gap 0.03 to 0.08: a dial under ±50 N reads 0.03 to 0.08; 0.02 past no play, 5 degrees of the nut: preload ..."."""
    if value.needs:
        return f"cannot tell: needs {' and '.join(value.needs)}"
    words = []
    if value.play is not None and value.float_mm is not None:
        read = value.float_mm
        words.append(
            f"set to {gap_words(value.play.least_mm, value.play.most_mm)}: no preload, and a dial under ±{GAUGE_N:g} N "
            f"reads {mm(round(read.least, 3))} to {mm(round(read.most, 3))}{f' ({inch(read.least)} to {inch(read.most)} in)' if in_inch else ''}"
        )  # fmt: skip
    turn = f", {value.past_deg:.0f} degrees of the nut" if value.past_deg is not None else ""
    past = value.past_n
    words.append(f"{mm(PAST_MM)} past no play{turn}: preload {force_words(past.least)} to {force_words(past.most)}{because(past)}")
    if value.then_mm is not None:
        words.append(_warm_words(value))
    if value.limit is not None:
        words.append(f"no figure holds past {value.limit.called}, about {force_words(value.limit.force_n)}")
    return "; ".join(words)


def _warm_words(value: SetGap) -> str:
    """ "at 60 °C: gap 0.04 to 0.10, by length 0.02 less, by the races 0.03 more; a dial reads ..."."""
    play, force = value.then_mm, value.then_n
    words = f"at {heat_words(value.heat)}: {gap_words(play.least, play.most)}, by length {_more(value.by_length_mm)}, by the races {_more(value.by_races_mm)}{because(play)}"
    if force.most > 0:
        least = "none" if force.least <= 0 else force_words(force.least)
        return f"{words}; preload {least} to {force_words(force.most)}{because(force)}"
    read = value.then_reads_mm
    return f"{words}; no preload, and a dial reads {mm(round(read.least, 3))} to {mm(round(read.most, 3))}"


def _more(value: Spanned) -> str:
    least, most = sorted((round(abs(value.least), 3), round(abs(value.most), 3)))
    if most == 0:
        return "nothing"
    return f"{mm(least)} to {mm(most)} {'more' if value.usual > 0 else 'less'}" if least != most else f"{mm(most)} {'more' if value.usual > 0 else 'less'}"


def set_gap_json(value: SetGapResult) -> dict[str, Any]:
    return {"gap": value.reference.gap, "joint": value.reference.joint, "gauge_n": GAUGE_N, "past_mm": PAST_MM,
            "reference": _tree(value.reference), "as_found": _tree(value.as_found), "defaults": list(value.reference.defaults)}  # fmt: skip


def _tree(value: SetGap) -> dict[str, Any]:
    return {
        "play_mm": interval(value.play), "dial_reads_mm": spanned(value.float_mm, 4), "preload_past_no_play_n": spanned(value.past_n, 1),
        "play_then_mm": spanned(value.then_mm, 4), "play_then_by_length_mm": spanned(value.by_length_mm, 4),
        "play_then_by_races_mm": spanned(value.by_races_mm, 4), "dial_reads_then_mm": spanned(value.then_reads_mm, 4),
        "preload_then_n": spanned(value.then_n, 1),
        "no_figure_beyond_n": None if value.limit is None else round(value.limit.force_n, 1), "needs": list(value.needs),
    }  # fmt: skip
