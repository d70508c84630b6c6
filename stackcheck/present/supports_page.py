"""Side load and shift of every support, in words and as JSON: reference beside as found."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.supports import REACH_MM, SupportForces, by_its_tube
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.reference import Reference, Support
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.force_figures import because, force_words, range_of_force
from stackcheck.present.forces_json import spanned
from stackcheck.present.json_values import interval
from stackcheck.present.names import needed
from stackcheck.present.words import gap_words, mm, place_words
from stackcheck.result.forces import SupportResult

_NOTHING_N, _NOTHING_MM = 0.5, 0.005
HEADING = "SUPPORTS, side load and shift"


def supports_blocks(results: tuple[SupportResult, ...], reference: Reference, *, with_found: bool) -> list[Block]:
    if not results:
        return []
    blocks: list[Block] = [Heading(HEADING)]
    for result in results:
        own, called = result.reference, _called(result.reference.support, reference)
        if with_found:
            seen = result.as_found
            blocks += [
                Text(called, mark=" -  "),
                Text(f"as found: {support_words(seen, reference)}{too_early_words(seen)}", indent=4),
            ]
            blocks.append(Text(f"reference: {support_words(own, reference)}", indent=4))
        else:
            blocks.append(Text(f"{called}: {support_words(own, reference)}{too_early_words(own)}", mark=" -  "))
    return blocks


def _called(support: Support, reference: Reference) -> str:
    """ "right fork leg, 180 N/mm, floats, pinched after it has settled"."""
    words = [place_words(reference, support.place)]
    words += [support.stiffness.text] if support.stiffness is not None else []
    tube = ("outside", support.outside), ("bore", support.bore), ("reach", support.reach)
    if support.stiffness is None and by_its_tube(support):
        words += [f"{name} {size.text}" for name, size in tube if size is not None]
    words += {"free": ["its end free to turn"], "guided": ["its end kept straight by the axle"]}.get(support.end, [])
    words += ["floats"] if support.floating else ["clamped with the stack"]
    words += ["pinched after it has settled"] if support.floating and support.pinched_after_settling else []
    return ", ".join(words)


TOO_FAR = f"no load is told past {REACH_MM:g} mm, where a member stays bent"


def support_words(value: SupportForces, reference: Reference) -> str:
    """ "no side load and no shift; gap 2.88 to 3.76 beside it"."""
    if value.needs:
        return f"cannot tell: needs {needed(value.needs)}"
    load = _load_words(value, reference) if value.side_load_n is not None else TOO_FAR
    return f"{load}; {gap_words(value.room.least_mm, value.room.most_mm)} beside it"


def too_early_words(value: SupportForces) -> str:
    """What a floating member would keep that is pinched before it has settled; "" for any other."""
    early = value.pinched_early_n
    if not value.reaches and value.side_load_n is not None:
        return f"; pinched before it has settled: {TOO_FAR}"
    if early is None or not value.support.pinched_after_settling or early.most <= _NOTHING_N:
        return ""
    return (
        f"; pulled against the stack and pinched before it has settled it would keep {range_of_force(early)}, "
        f"which no length shows{because(early)}"
    )


def _load_words(value: SupportForces, reference: Reference) -> str:
    load, shift = value.side_load_n, value.shift_mm
    ends = sorted((abs(shift.least), abs(shift.most)))
    if max(abs(load.least), abs(load.most)) < _NOTHING_N and ends[1] < _NOTHING_MM:
        return "no side load and no shift"
    toward = reference.end_name("second" if shift.usual > 0 else "first")
    if max(abs(load.least), abs(load.most)) < _NOTHING_N:
        low = 0.0 if shift.least * shift.most <= 0 else ends[0]
        gives = f"{mm(round(low, 2))} to {mm(round(ends[1], 2))} toward {toward}"
        return f"hardly any side load, it gives way by {gives}{because(shift)}"
    size = Spanned(
        usual=abs(load.usual), least=min(abs(load.least), abs(load.most)), most=max(abs(load.least), abs(load.most))
    )
    if load.least < -_NOTHING_N and load.most > _NOTHING_N:
        return (
            f"may be either: spread by up to {force_words(-load.least)}, "
            f"or pulled in by up to {force_words(load.most)}{because(load)}"
        )
    if size.least < _NOTHING_N and size.usual < _NOTHING_N:
        return f"may be either: no side load, or up to {force_words(size.most)}{because(load)}"
    how = "pulled in" if load.usual > 0 else "pushed out"
    return (
        f"{how} with {range_of_force(size)}, {mm(round(ends[0], 2))} "
        f"to {mm(round(ends[1], 2))} toward {toward}{because(load)}"
    )


def support_json(value: SupportResult, *, with_found: bool) -> dict[str, Any]:
    support = value.reference.support
    return {
        "place": support.place,
        "end": support.end,
        "floating": support.floating,
        "pinched_after_settling": support.pinched_after_settling,
        "reference": _tree(value.reference),
        "as_found": _tree(value.as_found) if with_found else None,
        "defaults": list(value.reference.defaults),
    }


def _tree(value: SupportForces) -> dict[str, Any]:
    return {
        "room_mm": interval(value.room),
        "side_load_n": spanned(value.side_load_n, 1),
        "shift_mm": spanned(value.shift_mm, 4),
        "pinched_too_early_n": spanned(value.pinched_early_n, 1),
        "needs": list(value.needs),
    }
