"""The answers of `shims` and `slots` as pages."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stackcheck.mechanics.loops import against
from stackcheck.mechanics.nut_slots import Slot
from stackcheck.mechanics.shims import Pack
from stackcheck.model.finding import Finding
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.words import (
    beside,
    gap_words,
    limits_words,
    listed,
    mm,
    place_words,
    reading_words,
    reference_words,
    sentence,
    span,
)
from stackcheck.result.choosing import ShimAnswer, SlotAnswer, WarmSlots
from stackcheck.units.inches import in_inches

if TYPE_CHECKING:
    from stackcheck.mechanics.unknowns import Spanned

CLAMPED = "Thickness is added up here. Burrs and oil add to a packet: measure it clamped together before it goes in."
VERDICT = {"agrees": "within", "differs": "outside", "cannot tell": "may be either"}


def shims_page(reference: Reference, answer: ShimAnswer, found: Found | None) -> list[Block]:
    """What is wanted, what is there, and what of the box brings it there."""
    name, place = answer.loop.name, place_words(reference, answer.place)
    blocks: list[Block] = [Text(_shims_sentence(reference, answer), strong=True)]
    blocks.append(
        Text(f"{name} of {reference_words(reference)}: wanted {limits_words(*answer.target)}; set by the {place}.")
    )
    blocks += [Text(line, mark=" -  ") for line in _first(reference, answer.put_right_first, found)]
    if answer.put_right_first:
        return blocks
    if answer.bare_gap is not None:
        blocks.append(Text(_bare_words(answer, place)))
    blocks += [Text(f"cannot tell: {need}", mark=" -  ") for need in answer.needs]
    if answer.choice is None:
        return blocks
    packs = answer.choice.packs or answer.choice.nearest
    blocks.append(Heading("FROM THE BOX, mm" if answer.choice.packs else "NONE FITS; NEAREST, mm"))
    rows = tuple(_pack_row(answer, pack) for pack in packs)
    blocks.append(Rows(("pack", "thick", "gap then", f"wanted {limits_words(*answer.target)}"), rows, right=(1,)))
    blocks.append(Text(CLAMPED))
    if answer.reckoned:
        blocks.append(Text("Reckoned from the limits of the reference alone: nothing of this assembly was measured."))
    if against(packs[0].gap, answer.target) == "cannot tell":
        blocks.append(Text(f"Cheapest next measurement: {_next_words(answer, packs[0], place)}."))
    return blocks


def _next_words(answer: ShimAnswer, pack: Pack, place: str) -> str:
    """What leaves most of the range of the gap with this pack in, and how it is measured."""
    ranges = {
        f"the pieces to go in, by micrometer, clamped together: {_pieces(answer, pack)}": pack.thickness.most_mm
        - pack.thickness.least_mm
    }
    if answer.gap_now is None:
        ranges[f"the {answer.loop.name} with what is in now"] = answer.bare_gap.most_mm - answer.bare_gap.least_mm
    else:
        ranges[f"the {answer.loop.name} again, finer than by {answer.gap_now.how or 'eye'}"] = (
            2 * answer.gap_now.good_to_mm
        )
        ranges[f"what is in the place of the {place} now, by micrometer, clamped together"] = (
            answer.now.most_mm - answer.now.least_mm
        )
    what = max(ranges, key=ranges.__getitem__)
    return f"{what}: {100 * ranges[what] / sum(ranges.values()):.0f} in 100 of the range"


def _shims_sentence(reference: Reference, answer: ShimAnswer) -> str:
    if answer.put_right_first:
        return (
            f"Nothing is proposed for the {answer.loop.name}: "
            "what stands in its two paths differs, and no ring makes up for that."
        )
    if answer.bare_gap is None:
        return f"Cannot tell what sets the {answer.loop.name}: a length is missing."
    if answer.choice is None:
        if answer.wanted_mm is None:
            return (
                f"No thickness is sure to bring the {answer.loop.name} to {limits_words(*answer.target)}: "
                "measure it first."
            )
        return (
            f"{mm(answer.wanted_mm[0])} to {mm(answer.wanted_mm[1])} thick brings the {answer.loop.name} "
            f"to {limits_words(*answer.target)}."
        )
    if not answer.choice.packs:
        return f"None of the box brings the {answer.loop.name} to {limits_words(*answer.target)}."
    best = answer.choice.packs[0]
    ties = [pack for pack in answer.choice.packs[1:] if (pack.pieces, pack.gap) == (best.pieces, best.gap)]
    packs = listed([_pieces(answer, pack) for pack in (best, *ties)], last="or")
    words = f"{packs[:1].upper()}{packs[1:]}: {gap_words(best.gap.nominal_mm, best.gap.nominal_mm)}"
    if against(best.gap, answer.target) != "agrees":
        words += f", but {gap_words(best.gap.least_mm, best.gap.most_mm)} by what the lengths are good to"
    return f"{words}."


def _first(reference: Reference, findings: tuple[Finding, ...], found: Found | None) -> list[str]:
    return (
        [f"put right first: {sentence(finding, reference, found)}" for finding in findings] if found is not None else []
    )


def _bare_words(answer: ShimAnswer, place: str) -> str:
    bare = gap_words(answer.bare_gap.least_mm, answer.bare_gap.most_mm)
    words = f"Without the {place}: {bare}"
    now = span(answer.now.least_mm, answer.now.most_mm)
    if answer.gap_now is not None:
        words += f" (measured {reading_words(answer.gap_now)} with {now} in)"
    else:
        words += f" by the sum of all else; with {now} as it is now"
    if answer.wanted_mm is not None:
        return f"{words}. Wanted: {mm(answer.wanted_mm[0])} to {mm(answer.wanted_mm[1])} thick."
    return f"{words}. That is wider than what is wanted: no thickness is sure to do, measure the gap."


def _pack_row(answer: ShimAnswer, pack: Pack) -> tuple[str, ...]:
    reach = gap_words(pack.gap.least_mm, pack.gap.most_mm)
    return (_pieces(answer, pack), mm(pack.thickness.nominal_mm), reach, VERDICT[against(pack.gap, answer.target)])


def _pieces(answer: ShimAnswer, pack: Pack) -> str:
    used = [f"{count}x{mm(shim.thickness.nominal_mm)}" for shim, count in zip(answer.box, pack.counts) if count]
    return " + ".join(used) or "none in"


def slots_page(reference: Reference, answer: SlotAnswer) -> list[Block]:
    """The positions around the measured play, tightest first."""
    inside = [slot for slot in answer.slots if against(slot.play, answer.target) == "agrees"]
    every = (*answer.slots, *(slot for other in answer.elsewhere for slot in other.slots))
    inch = reference.inches or in_inches(answer.play.text)
    wanted = beside(inch, limits_words, *answer.target)
    if answer.elsewhere and any(against(slot.play, answer.target) != "differs" for slot in every):
        holes = [answer.joint.holes_deg[0], *(other.hole_deg for other in answer.elsewhere)]
        words = f"Look which hole the pin stands in now, {listed((f'{hole:g}' for hole in holes), 'or')} degrees: each leads to other slots."
    elif inside:
        words = f"{_turn_words(inside[-1])}: {beside(inch, gap_words, *_ends(inside[-1]))}; wanted {wanted}."
        words += " The loosest of those within is the cautious choice." if len(inside) > 1 else ""
    elif any(against(slot.play, answer.target) == "cannot tell" for slot in answer.slots):
        words = f"May be either: no slot is sure to leave {wanted}; measure the play more finely."
    else:
        words = (
            f"No slot leaves {wanted}: change the nut or the washer under it, "
            "or put the hole elsewhere as the maker says."
        )
    blocks: list[Block] = [
        Text(words, strong=True),
        Text(
            f"{answer.loop.name} of {reference_words(reference)}: measured {reading_words(answer.play)} where the nut "
            f"stands; {answer.joint.slots} slots, thread {answer.joint.thread}."
        ),
        Heading("SLOTS, mm"),
    ]
    if answer.elsewhere:
        blocks.append(Text(f"If the pin now stands in the hole at {answer.joint.holes_deg[0]:g} degrees:", indent=1))
    blocks.append(_slot_rows(answer, answer.slots, inch))
    for other in answer.elsewhere:
        blocks.append(Text(f"If it now stands in the hole at {other.hole_deg:g} degrees:", indent=1))
        blocks.append(_slot_rows(answer, other.slots, inch))
    blocks += _warm_words(answer)
    blocks.append(
        Text(
            "Never go on to the next slot where that takes the play below nothing: on taper bearings a part of a slot "
            "past it loads them with kilonewtons. "
            "Measure again in the slot, turning the bearings, then lock with a new pin."
        )
    )
    return blocks


def _slot_rows(answer: SlotAnswer, slots: tuple[Slot, ...], inch: bool) -> Rows:
    warm = [own for own in answer.warm if own.more_mm is not None]
    header = ("nut", "play then", f"wanted {limits_words(*answer.target)}", *(_heat_words(own) for own in warm))
    rows = tuple(
        (
            _turn_words(slot),
            beside(inch, gap_words, *_ends(slot)),
            VERDICT[against(slot.play, answer.target)],
            *(beside(inch, gap_words, own.play(slot).least_mm, own.play(slot).most_mm) for own in warm),
        )
        for slot in slots
    )
    return Rows(header, rows, wraps=tuple(range(1, len(header))) if warm else (0,))


def _heat_words(own: WarmSlots) -> str:
    from stackcheck.present.heat_words import heat_words

    return heat_words(own.heat)


def _warm_words(answer: SlotAnswer) -> list[Block]:
    """How warm each state is, what it adds and what cannot be told of it."""
    if not answer.warm:
        return []
    from stackcheck.present.force_figures import because
    from stackcheck.present.heat_words import state_words

    said = [f"{state_words(own.heat)} " if own.heat.state else "" for own in answer.warm]
    told = [
        f"{_heat_words(own)[:1].upper()}{_heat_words(own)[1:]}: {_more_words(own.more_mm)} play{because(own.more_mm)}."
        if own.more_mm is not None
        else f"{_heat_words(own)}: cannot tell: needs {listed(own.needs)}."
        for own in answer.warm
    ]
    words = [f"{state}{what}" for state, what in zip(said, told)]
    last = "The play wanted is that of the nut as it is set; warm, less than nothing presses the bearings."
    return [Text(each, indent=1) for each in (*words, last)]


def _more_words(more: Spanned) -> str:
    from stackcheck.present.force_figures import signed

    return "no more and no less" if mm(more.least) == mm(more.most) == mm(0.0) else signed(more, mm)


def _ends(slot: Slot) -> tuple[float, float]:
    return slot.play.least_mm, slot.play.most_mm


def _turn_words(slot: Slot) -> str:
    if not slot.turned_deg:
        return "as it stands"
    return f"{abs(slot.turned_deg):g} degrees {'looser' if slot.turned_deg > 0 else 'tighter'}"
