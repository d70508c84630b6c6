"""The forces of `stack`: what each joint pulls, and what that does to the two bearings of a loop;
each with its range and what the range comes from.

As found stands before the reference; what is the same in both is said once.
"""

from __future__ import annotations

import re

from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.loop_forces import NOTHING_N, LoopForces, either_way
from stackcheck.mechanics.set_gap import GAUGE_N
from stackcheck.mechanics.settling import Settling
from stackcheck.mechanics.static_limit import StaticLimit
from stackcheck.mechanics.unknowns import Spanned, told_apart
from stackcheck.model.reference import Joint
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.crushing_words import crushing_lines
from stackcheck.present.force_figures import because, force_words, range_of_force, signed, spanned_force, spanned_mm
from stackcheck.present.force_limit_words import held_lines
from stackcheck.present.heat_words import heat_words, temperature_words
from stackcheck.present.names import needed
from stackcheck.present.press_fit_words import press_fit_lines
from stackcheck.present.shared_clamp_words import shared_lines
from stackcheck.present.side_by_side import beside_lines
from stackcheck.present.words import listed, mm
from stackcheck.result.forces import ForcesResult

YIELD_MPA = 640.0
NOTHING_MM = 0.005
"""Half of the last digit of an end float."""
TOLD = (
    "slides", "held", "float_slides", "float_held", "settled_slides", "settled_held", "then_n", "least_clamp_n",
)  # fmt: skip
"""What the line of a loop is made of."""

TRAVELS_MM = 1.0
"""A nut that runs further than this past where the reference has it may meet the end of a thread that nobody gave:
common practice, no source.
"""
SLIDE, FAST = "outer rings free to slide", "outer rings held fast"
ONE_WAY = "no preload, and held one way only: both bearings look the same way"
STAYS = "the same tension, axle and parts grow alike"
IF_HELD = "none unless the outer rings are held together; held: "
LOOK = "look how the rings are held"


def forces_blocks(results: tuple[ForcesResult, ...], *, with_found: bool) -> list[Block]:
    """One entry a joint: its tension, what it loses when its faces settle, then every loop that it clamps."""
    if not results:
        return []
    heat = results[0].reference.heat
    together = temperature_words(heat.together)
    now = f"FORCES, tightened {together}, now {heat_words(heat)}"
    blocks: list[Block] = [Heading(now if heat.is_warm else f"FORCES when tightened, {together}")]
    for result in results:
        tension, joint = tension_lines(result, with_found=with_found), joint_words(result.reference)
        if len(tension) == 1:
            joint, tension = f"{joint}: {tension[0]}", []
        lines = [
            *tension,
            *shut_lines(result.reference),
            *warm_lines(result, with_found=with_found),
            *settling_lines(result, with_found=with_found),
            *crushing_lines(result.as_found),
            *shared_lines(result, with_found=with_found),
            *held_lines(result, with_found=with_found),
        ]
        for i in range(len(result.reference.loops)):
            lines += loop_lines(result, i, with_found=with_found)
            lines += held_lines(result, result.reference.loops[i].loop, with_found=with_found)
            lines += [] if result.as_found.is_unclamped else press_fit_lines(result.reference.loops[i])
        blocks += [Text(joint, mark=" -  "), *(Text(words, indent=4) for words in lines)]
    return blocks


def joint_words(value: JointForces) -> str:
    """ "axle nut, 60 N·m, thread dry"."""
    joint, words = value.joint, [value.joint.name]
    if value.torque_nmm is not None:
        stated = joint.torque
        as_written = (
            f" ({stated.text})"
            if stated is not None and stated.nominal == value.torque_nmm and "lb" in stated.text
            else ""
        )
        words += [f"{value.torque_nmm / 1000:.4g} N·m{as_written}", _condition(joint)]
    if joint.prevailing is not None:
        words.append(f"of which the nut takes {joint.prevailing.text.replace('..', ' to ')} before it clamps")
    if joint.angle is not None:
        words.append(f"then turned on by {re.sub(r'(?<=[0-9])(?=[a-z°])', ' ', joint.angle.text)}")
    return ", ".join(words) + (
        f", while it is seated, before it is backed off to set the {value.sets}" if value.sets else ""
    )


def _condition(joint: Joint) -> str:
    """The thread condition, without which a torque says little."""
    said = joint.thread_condition
    if said:
        return said if "thread" in said else f"thread {said}"
    return (
        f"friction {' to '.join(f'{each:.2f}' for each in (joint.friction[0], joint.friction[-1]))}"
        if joint.friction
        else "thread condition not given"
    )


def tension_lines(value: ForcesResult, *, with_found: bool) -> list[str]:
    """ "tension 15.0 to 27.2 kN, about 20.6; ..."; as found only where it is another one, or none of it clamps."""
    own, seen = _tension_words(value.reference), _tension_words(value.as_found)
    if not with_found or own == seen:
        return [own]
    change = value.change.tension_n if value.change is not None and not value.as_found.is_unclamped else None
    is_other = change is not None and max(abs(change.least), abs(change.most)) >= NOTHING_N
    return beside_lines(own, seen, f"{signed(change, force_words)}{because(change)}" if is_other else "")


def _tension_words(value: JointForces) -> str:
    if value.is_unclamped:
        room = value.thread_room
        return (
            f"nothing is clamped: the nut meets the end of its thread {mm(-room.most_mm)} to {mm(-room.least_mm)} too "
            "soon, and what it should clamp has that much to spare; the wrench feels its torque all the same"
        )
    if value.turned_past is not None:
        return f"no figure of its tension holds: its turn goes into bearings that it forces beyond {_limit(value.turned_past)}"
    if value.tension_n is None:
        return f"cannot tell the tension: needs {needed(value.needs)}"
    words = f"tension {spanned_force(value.tension_n)}{because(value.tension_n)}"
    if value.may_be_unclamped:
        words += "; may be either: this, or nothing is clamped because the nut meets the end of its thread first"
    if value.further_in_mm is not None and value.further_in_mm > TRAVELS_MM:
        words += (
            f"; the nut runs {mm(round(value.further_in_mm, 2))} further on its thread than by the reference, which does "
            "not say where the thread ends: if it ends before that, nothing is clamped, and the wrench feels its torque "
            "all the same"
        )
    if value.stress_mpa is not None and value.stress_mpa > YIELD_MPA:
        words += (
            f"; up to {value.stress_mpa:.0f} N/mm² in the thread, "
            f"beyond the {YIELD_MPA:g} at which class 8.8 yields (ISO 898-1, from memory)"
        )
    return words


def shut_lines(value: JointForces) -> list[str]:
    """ "draws the room at the right cheek shut first: ..."."""
    if not value.draws_shut:
        return []
    words = (
        f"draws the {listed(value.draws_shut)} shut first: what bending its members takes of that pull is not known, and "
        "what is told of clamp and faces holds if it takes nothing; a support with its stiffness in the reference tells it"
    )
    return [words]


def warm_lines(value: ForcesResult, *, with_found: bool) -> list[str]:
    """ "then, all of it at 60 °C: tension 14.7 to 24.9 kN, about 19.1; ..." of a joint that clamps no two bearings."""
    own, seen = (_warm_words(each) for each in (value.reference, value.as_found))
    if not with_found or own == seen:
        return [own] if own else []
    return beside_lines(own or "cannot tell", seen or "cannot tell")


def _warm_words(value: JointForces) -> str:
    if value.then_n is None or value.is_unclamped:
        return ""
    if _stays(value.then_n, value.tension_n):
        return f"then, {heat_words(value.heat)}: {STAYS}"
    return f"then, {heat_words(value.heat)}: {_tension_left(value.then_n)}"


def _stays(then: Spanned, cold: Spanned | None) -> bool:
    return cold is not None and abs(then.usual - cold.usual) < 0.005 * cold.usual


def _tension_left(value: Spanned, called: str = "tension") -> str:
    """ "tension 8.7 to 13.2 kN, about 10.9; ...", "may be either: no clamp, or tension up to 12.6 kN", "no clamp"."""
    if value.most < NOTHING_N:
        return "no clamp is left"
    if value.least < NOTHING_N:
        return f"may be either: no clamp is left, or {called} up to {force_words(value.most)}{because(value)}"
    return f"{called} {spanned_force(value)}{because(value)}"


def settling_lines(value: ForcesResult, *, with_found: bool) -> list[str]:
    """ "loses 1.2 to 5.3 kN when 8 pairs of new faces and the thread have settled";
    beside the reference where that is another.
    """
    own, seen = value.reference, value.as_found if with_found else value.reference
    words = _settled_words(seen)
    if not words or own.settling is None or own.settling.loss_n is None or _settle_alike(own.settling, seen.settling):
        return [words] if words else []
    return [f"{words}; by the reference {range_of_force(own.settling.loss_n)}, with {own.settling.faces} pairs"]


def _settle_alike(own: Settling, seen: Settling) -> bool:
    """Whether both lose the same near enough:
    a range that is narrower because somebody measured says nothing of the joint.
    """
    if own.loss_n is None or seen.loss_n is None:
        return False
    return own.faces == seen.faces and abs(own.loss_n.usual - seen.loss_n.usual) <= 0.03 * own.loss_n.usual


def _settled_words(value: JointForces) -> str:
    settling = value.settling
    if settling is None or value.tension_n is None or not settling.faces or value.is_unclamped:
        return ""
    when = f"when {settling.faces} pairs of new faces and {threads(settling)} have settled"
    if settling.loss_n is None:
        return f"loses some of it {when}; cannot tell how much: needs {needed(settling.needs)}"
    loss = settling.loss_n
    words = f"loses {range_of_force(loss)} {when}{because(loss)}"
    return words + ("; that may leave no clamp" if loss.most >= value.tension_n.least else "")


def threads(value: Settling) -> str:
    return "the thread" if value.threads == 1 else "both threads"


def loop_lines(value: ForcesResult, position: int, *, with_found: bool) -> list[str]:
    """Two bearings as found, by the reference, and the difference with its own range."""
    own, seen = value.reference.loops[position], value.as_found.loops[position]
    found = (
        "no preload, and no end float to read: nothing holds the rings"
        if value.as_found.is_unclamped
        else loop_words(seen, value.as_found.tension_n)
    )
    change, told = loop_change_words(value, position), loop_words(own, value.reference.tension_n)
    if with_found and not change and not value.as_found.is_unclamped and _loops_alike(own, seen):
        found = told
    return beside_lines(told, found, change, called=own.loop, with_found=with_found)


def _loops_alike(own: LoopForces, seen: LoopForces) -> bool:
    """Whether every figure that is told of the two is the same as far as the draws can tell."""
    told = [name for name in TOLD if not name.startswith("float") or not (_is_held_tight(own) and _is_held_tight(seen))]
    figures = [(name, getattr(own, name), getattr(seen, name)) for name in told]
    if any((one is None) != (other is None) for _, one, other in figures):
        return False
    return own.needs == seen.needs and not any(
        told_apart(one, other, least=NOTHING_MM if name.startswith("float") else NOTHING_N)
        for name, one, other in figures
        if one is not None
    )


def _is_held_tight(value: LoopForces) -> bool:
    """Whether there is a preload for sure, so that no end float is told."""
    return value.slides is not None and min(value.slides.least, value.held.least) > NOTHING_N


def loop_change_words(value: ForcesResult, position: int) -> str:
    """How far the loop is another one as found;
    "" where no figure holds, nothing is different, or only one of the two has a preload.
    """
    change = value.change.loops[position] if value.change is not None else None
    own, seen = value.reference.loops[position], value.as_found.loops[position]
    if change is None or is_beyond(own) or is_beyond(seen) or _is_loaded(own) != _is_loaded(seen):
        return ""
    slides = _difference(change.slides, change.float_slides, _is_loaded(own))
    held = _difference(change.held, change.float_held, _is_loaded(own))
    if slides == held or is_near(own) and is_near(seen):
        return slides
    return "; ".join(f"{how}: {said or 'none'}" for how, said in ((SLIDE, slides), (FAST, held)))


def _difference(preload: Spanned, play: Spanned, is_loaded: bool) -> str:
    if is_loaded:
        return f"preload {signed(preload, force_words)}{because(preload)}" if _shows(preload, NOTHING_N) else ""
    if not _shows(play, NOTHING_MM):
        return ""
    return f"end float {signed(play, lambda value: mm(round(value, 2)))} under ±{GAUGE_N:g} N{because(play)}"


def _shows(change: Spanned, least: float) -> bool:
    """Whether anything is different; a range about nothing only tells how well the lengths are known."""
    return max(abs(change.least), abs(change.most)) > least and (
        abs(change.usual) > least or change.least * change.most >= 0
    )


def loop_words(value: LoopForces, tension: Spanned | None = None) -> str:
    """What two bearings feel: preload or end float, at the temperature asked for, settled,
    and whether the clamp is gone; `tension` is what the joint was tightened to.
    """
    if value.one_way:
        return ONE_WAY
    if value.slides is None or value.held is None:
        return f"cannot tell: needs {needed(value.needs)}"
    words = _both_ways(value)
    if value.settled_slides is not None and value.settled_held is not None and not is_beyond(value):
        settled = either_way(value.settled_slides, value.settled_held)
        then = _preload_words(value, settled, says_why=False)
        is_new = told_apart(settled, either_way(value.slides, value.held), least=NOTHING_N)
        if is_new and all(not each.startswith(then) for each in words):
            words.append(f"when the faces have settled: {then}")
    if value.unloads_n is not None and value.held.least > NOTHING_N and not is_beyond(value):
        words.append(f"a load of {spanned_force(value.unloads_n)}, along the axis takes all of it off one of the two")
    if value.then_n is not None:
        words.insert(0, STAYS if _stays(value.then_n, tension) else _tension_left(value.then_n, "tension then"))
    words += [said for said in (_clamp_words(value),) if said]
    return f"{IF_HELD}{'; '.join(words)}; {LOOK}" if value.only_if_held else "; ".join(words)


def _clamp_words(value: LoopForces) -> str:
    """Whether anything still presses what stands between the inner rings, tightened or settled; "" where it does."""
    tight, settled = value.least_clamp_n, value.settled_clamp_n
    if tight is None or not _is_loaded(value):
        return ""
    when, clamp = "", tight
    if tight.least >= NOTHING_N:
        if settled is None or settled.least >= NOTHING_N:
            return ""
        when, clamp = " when the faces have settled", settled
    if clamp.most < NOTHING_N:
        return f"the clamp between the inner rings is gone{when}: the bearings carry it"
    return (
        f"the clamp between the inner rings may be either{when}: gone, so that the bearings carry it, "
        f"or up to {force_words(clamp.most)}"
    )


def _limit(value: StaticLimit) -> str:
    return f"{value.called}, about {force_words(value.force_n)}"


def _both_ways(value: LoopForces) -> list[str]:
    ways = (value.slides, value.float_slides), (value.held, value.float_held)
    if is_near(value):
        return [_state_words(value, *ways[0])]
    if not _is_loaded(value):
        free, fast = (f"{spanned_mm(play)}" for _, play in ways)
        wider = max((play for _, play in ways), key=lambda play: play.most - play.least)
        plays = f"end float under ±{GAUGE_N:g} N {free} with {SLIDE}, {fast} held fast: {LOOK}"
        return [f"no preload; {plays}{because(wider)}"]
    slides, fast = (_state_words(value, *way) for way in ways)
    return [slides] if slides == fast else [f"{SLIDE}: {slides}", f"{FAST}: {fast}", LOOK]


def _is_loaded(value: LoopForces) -> bool:
    return value.slides is not None and value.held is not None and max(value.slides.most, value.held.most) > NOTHING_N


def is_beyond(value: LoopForces) -> bool:
    """Whether the bearings may be forced beyond what the model can say."""
    return (
        value.beyond_n is not None
        and value.slides is not None
        and max(value.slides.most, value.held.most) > value.beyond_n
    )


def is_near(value: LoopForces) -> bool:
    """One line will do where both ways to seat the rings come to the same within their ranges."""
    near = abs(value.slides.usual - value.held.usual) <= 0.02 * max(value.slides.usual, value.held.usual, NOTHING_N)
    return near and abs(value.float_slides.usual - value.float_held.usual) < 0.005


def _state_words(value: LoopForces, preload: Spanned, play: Spanned) -> str:
    if preload.most <= NOTHING_N:
        return f"no preload; end float {spanned_mm(play)} under ±{GAUGE_N:g} N{because(play)}"
    return _preload_words(value, preload, play)


def _preload_words(value: LoopForces, preload: Spanned, play: Spanned | None = None, *, says_why: bool = True) -> str:
    beyond, why = value.beyond_n, because(preload) if says_why else ""
    limit = _limit(value.limit) if value.limit is not None else ""
    if preload.most <= NOTHING_N:
        return "no preload"
    if beyond is not None and preload.least > beyond:
        return f"the bearings are forced beyond {limit}: no figure holds there"
    if beyond is not None and preload.most > beyond:
        least = "none" if preload.least <= NOTHING_N else force_words(preload.least)
        return f"preload from {least} to beyond {limit}{why}"
    if preload.least <= NOTHING_N:
        least = "" if play is None else f" and end float up to {mm(round(play.most, 2))} under ±{GAUGE_N:g} N"
        most = f"{'a preload of ' if least else ''}up to {force_words(preload.most)}"
        return f"may be either: no preload{least}, or {most}{why}"
    # Where between its ends a joint settles nobody knows: no usual figure of what is left.
    return f"preload {spanned_force(preload) if says_why else range_of_force(preload)}{why}"
