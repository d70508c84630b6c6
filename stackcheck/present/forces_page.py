"""The forces of `stack`: tension, preload and end float, each with its range and what the range comes from."""

from __future__ import annotations

from collections.abc import Callable

from stackcheck.mechanics.forces import GAUGE_N, NOTHING_N, JointForces, LoopForces, either_way
from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.spring_stacks import QUOTED_SHARE, SpringStack
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.press_fit_words import press_fit_words
from stackcheck.present.side_by_side import taken_blocks
from stackcheck.present.words import listed, mm
from stackcheck.result.forces import ForcesResult, SpringsResult

YIELD_MPA = 640.0
DRAWN = 36
"""Width of a drawn stretch in signs."""
LIMITS = (
    "Along one axis only: no tilt, no radial load, no yield. A range holds 95 of 100 draws of everything "
    "that is not known."
)
SPRINGS = (
    "Numbers nested in each group, first end to second end; force by EN 16984, all springs alike within their limits, friction "
    "left out (2 to 3 in 100 for each nested pair)."
)
WARM = "Tightened at 20 °C, then brought to {at}. Races grow with their rings; those of angular and taper bearings with their seats too."


def forces_blocks(results: tuple[ForcesResult, ...], *, with_found: bool) -> list[Block]:
    if not results:
        return []
    heat = results[0].reference.heat
    blocks: list[Block] = [Heading("FORCES when tightened"), Text(LIMITS)]
    if heat.is_warm:
        blocks = [Heading(f"FORCES at {heat_words(heat)}"), Text(LIMITS), Text(WARM.format(at=heat_words(heat)))]
    for result in results:
        own, seen = result.reference, result.as_found
        blocks.append(Text(joint_words(own), mark=" -  "))
        settled, settled_found = settling_words(result)
        said = (settled, tension_change_words(result) if with_found else "", settled_found)
        blocks += [Text(words, indent=4) for words in said if words]
        for i, loop in enumerate(own.loops):
            if with_found:
                blocks += [Text(f"{loop.loop}, reference: {words}", indent=4) for words in loop_words(loop)]
                blocks += [Text(f"{loop.loop}, as found: {words}", indent=4) for words in loop_words(seen.loops[i])]
                if words := loop_change_words(result, i):
                    blocks.append(Text(f"{loop.loop}, difference: {words}", indent=4))
            else:
                blocks += [Text(f"{loop.loop}: {words}", indent=4) for words in loop_words(loop)]
    return blocks + taken_blocks(result.reference.defaults for result in results)


def heat_words(heat: Heat) -> str:
    """ "60 °C", "60 °C, hub at 45 °C"."""
    return ", ".join([f"{heat.at_c:g} °C", *(f"{name} at {at_c:g} °C" for name, at_c in heat.named)])


def sweep_blocks(steps: tuple[tuple[ForcesResult, ...], ...], *, over_torque: bool) -> list[Block]:
    """A range of torque or temperature, a row a step: the figures, and the stretch they lie in drawn to one scale."""
    blocks: list[Block] = []
    for i, first in enumerate(steps[0] if steps else ()):
        joints = [step[i].as_found for step in steps]
        if first.reference.tension_n is None:
            continue
        blocks.append(Heading(f"SWEEP of the {first.reference.joint.name}{', as found' if first.as_found is not first.reference else ''}"))
        names = [f"{joint.torque_nmm / 1000:.4g} N·m" if over_torque else f"{joint.at_c:.4g} °C" for joint in joints]
        blocks += _drawn("tension, kN", names, [at_temperature(joint) for joint in joints], 1000.0)
        for j, loop in enumerate(first.as_found.loops):
            if loop.slides is not None:
                loops = [joint.loops[j] for joint in joints]
                one_answer = all(map(_is_near, loops))
                for how, preload, play in (("free to slide", "slides", "float_slides"), ("held fast", "held", "float_held"))[: 1 if one_answer else 2]:
                    rings = "" if one_answer else f", rings {how}"
                    title = f"{loop.loop}: preload{rings}, kN"
                    blocks += _drawn(title, names, [getattr(each, preload) for each in loops], 1000.0, beyond=loop.beyond_n)
                    title = f"{loop.loop}: end float under ±{GAUGE_N:g} N{rings}, mm"
                    blocks += _drawn(title, names, [getattr(each, play) for each in loops], 1.0)
    return blocks


def at_temperature(joint: JointForces) -> Spanned:
    """The tension at the temperature asked for where a loop tells it, else that of tightening."""
    return next((loop.then_n for loop in joint.loops if loop.then_n is not None), joint.tension_n)


def _drawn(title: str, names: list[str], values: list[Spanned], unit: float, beyond: float | None = None) -> list[Block]:
    """One row a step; "=" from least to most, "o" at the usual value, from nothing to the greatest of all.

    Above `beyond` the model says nothing: no figure stands there, and what is drawn ends in ">".
    """
    digits = 1 if unit > 1 else 2
    top = max(value.most for value in values)
    greatest = top if beyond is None else min(top, beyond)
    if round(greatest / unit, digits) == 0:
        return [Text(f"{title}: none at any of them", mark=" -  ")]
    rows = []
    for name, value in zip(names, values):
        at = [round(each / greatest * (DRAWN - 1)) for each in (value.least, value.usual, value.most)]
        line = "".join("o" if i == at[1] else "=" if at[0] <= i <= at[2] else " " for i in range(DRAWN))
        least, most = (f"{each / unit:.{digits}f}" if each <= greatest else "beyond" for each in (value.least, value.most))
        rows.append((name, least if least == "beyond" else f"{least} to {most}", f"|{line}{'>' if most == 'beyond' else '|'}"))
    return [Rows(("", title, f"0 to {greatest / unit:.{digits}f}"), tuple(rows), right=(0,), wraps=(1,))]


def springs_blocks(results: tuple[SpringsResult, ...], *, with_found: bool) -> list[Block]:
    """Stacks of disc springs: groups, free length, and the force at the length that they are set to."""
    if not results:
        return []
    blocks: list[Block] = [Heading("DISC SPRINGS"), Text(SPRINGS)]
    for result in results:
        own, seen = spring_words(result.reference), spring_words(result.as_found)
        if not with_found:
            blocks.append(Text(f"{result.reference.stack}: {own}", mark=" -  "))
            continue
        blocks.append(Text(f"{result.reference.stack}, reference: {own}", mark=" -  "))
        blocks.append(Text(f"as found: {'the same' if own == seen else seen}", indent=4))
    return blocks


def spring_words(value: SpringStack) -> str:
    """ "2 + 2 + 2 nested, free 15.30; at 14.20: 2.9 to 6.0 kN, about 4.4"."""
    if value.needs:
        return f"cannot tell: needs {' and '.join(value.needs)}"
    words = f"{' + '.join(map(str, value.counts))} nested, free {mm(round(value.free_mm, 3))}"
    if value.at_mm is None or value.force_n is None:
        return words
    said = {value.measured_mm: " as measured"}
    ends = [f"at {mm(at)}{said.get(at, '')}: {_pressed_words(value, i) or _spanned_force(value.force_n[i])}" for i, at in enumerate(value.at_mm)]
    figures = [force for i, force in enumerate(value.force_n) if not value.beyond(i)]
    return f"{words}; {'; '.join(reversed(ends))}{because(figures[0]) if figures else ''}"


def _pressed_words(value: SpringStack, at: int) -> str:
    """Which groups are pressed past three quarters of their cone, so that no figure holds; "" for none."""
    beyond, counts = value.beyond(at), value.counts
    if not beyond:
        return ""
    single = [i for i, count in enumerate(counts) if count == 1]
    which = "all" if len(beyond) == len(counts) else "the single ones" if list(beyond) == single else f"group {listed(str(i + 1) for i in beyond)}"
    shares = [value.pressed[at][i].usual for i in beyond]
    ends = dict.fromkeys(f"{share:.3f}" for share in (min(shares), max(shares)))
    return f"no figure holds: {which} pressed to {' to '.join(ends)} of the cone, past {QUOTED_SHARE:g} springs are harder than the formula"


def joint_words(value: JointForces) -> str:
    """ "axle nut, 60 N·m: tension 15.0 to 27.2 kN, about 20.6; friction of thread and face not known"."""
    if value.tension_n is None:
        return f"{value.joint.name}: cannot tell the tension; needs {' and '.join(value.needs)}"
    stated = value.joint.torque
    as_written = f" ({stated.text})" if stated is not None and stated.nominal == value.torque_nmm and "lb" in stated.text else ""
    torque = f"{value.torque_nmm / 1000:.4g} N·m{as_written}"
    if value.joint.prevailing is not None:
        torque += f", of which the nut takes {value.joint.prevailing.text} before it clamps"
    if value.joint.angle is not None:
        torque += f", then turned on by {value.joint.angle.text}"
    when = f" while it is seated, before it is backed off to set the {value.sets}" if value.sets else ""
    words = f"{value.joint.name}, {torque}{when}: tension {_spanned_force(value.tension_n)}{because(value.tension_n)}"
    words += _thread_end_words(value.thread_room)
    if value.stress_mpa is not None and value.stress_mpa > YIELD_MPA:
        words += f"; up to {value.stress_mpa:.0f} N/mm² in the thread, beyond the {YIELD_MPA:g} at which class 8.8 yields (ISO 898-1, from memory)"
    return words


def tension_change_words(value: ForcesResult) -> str:
    """The tension as found, where it is another one or none of it clamps; "" where torque alone decides it."""
    change = value.change.tension_n if value.change is not None else None
    at_end = _thread_end_words(value.as_found.thread_room)
    if change is None or max(abs(change.least), abs(change.most)) < NOTHING_N:
        return f"as found: tension as by the reference{at_end}" if at_end and value.as_found.tension_n is not None else ""
    tension = f"as found: tension {_spanned_force(value.as_found.tension_n)}; difference {_signed(change, force_words)}{because(change)}"
    return tension + at_end


def settling_words(value: ForcesResult) -> tuple[str, str]:
    """ "less by 2.4 to 5.3 kN, about 3.7, once 8 pairs of new faces and the thread have settled"; as found where it is another."""
    own, seen = (_settled_words(each) for each in (value.reference, value.as_found))
    return own, f"as found: {seen}" if seen and seen != own else ""


def _settled_words(value: JointForces) -> str:
    settling = value.settling
    is_at_end = value.thread_room is not None and value.thread_room.most_mm < 0
    if settling is None or value.tension_n is None or not settling.faces or is_at_end:
        return ""
    once = f"once {settling.faces} pairs of new faces and the thread have settled"
    if settling.loss_n is None:
        return f"cannot tell how much less {once}: needs {' and '.join(settling.needs)}"
    loss = settling.loss_n
    words = f"less by {_spanned_force(loss)}, {once}{because(loss)}"
    return words + ("; that may be all of it" if loss.most >= value.tension_n.least else "")


def loop_change_words(value: ForcesResult, position: int) -> str:
    """What is different as found, with the range of the difference; "" where no figure holds or nothing is different."""
    change = value.change.loops[position] if value.change is not None else None
    loops = value.reference.loops[position], value.as_found.loops[position]
    if change is None or any(map(_is_beyond, loops)):
        return ""
    rings = ("outer rings free to slide", change.slides, change.float_slides), ("held fast", change.held, change.float_held)
    words = [(how, _difference(preload, play)) for how, preload, play in rings]
    if not any(said for _, said in words):
        return ""
    if words[0][1] == words[1][1]:
        return words[0][1]
    return "; ".join(f"{how}: {said or 'none'}" for how, said in words)


def _difference(preload: Spanned, play: Spanned) -> str:
    words = []
    if _shows(preload, NOTHING_N):
        words.append(f"preload {_signed(preload, force_words)}{because(preload)}")
    elif _shows(play, 0.005):
        words.append(f"end float {_signed(play, lambda value: mm(round(value, 2)))}{because(play)}")
    return "; ".join(words)


def _shows(change: Spanned, least: float) -> bool:
    """Whether anything is different; a range about nothing only tells how well the lengths are known."""
    return max(abs(change.least), abs(change.most)) > least and (abs(change.usual) > least or change.least * change.most >= 0)


def _signed(value: Spanned, said: Callable[[float], str]) -> str:
    """ "0.10 to 0.20 more", "3 N less to 12 N more"."""
    if said(abs(value.least)) == said(abs(value.most)) and value.least * value.most >= 0:
        return f"{said(abs(value.usual))} {'more' if value.usual > 0 else 'less'}"
    if value.least >= 0:
        return f"{said(value.least)} to {said(value.most)} more"
    if value.most <= 0:
        return f"{said(-value.most)} to {said(-value.least)} less"
    return f"{said(-value.least)} less to {said(value.most)} more"


def _thread_end_words(room: Interval | None) -> str:
    """Whether the nut meets the end of its thread before anything is clamped."""
    if room is None or room.least_mm > 0:
        return ""
    if room.most_mm < 0:
        return f"; nut at its thread end: no clamp. It meets it {mm(-room.most_mm)} to {mm(-room.least_mm)} too soon; the wrench feels its torque all the same"
    return "; the nut may meet the end of its thread before anything is clamped"


def loop_words(value: LoopForces) -> list[str]:
    if value.slides is None or value.held is None:
        return [f"cannot tell: needs {' and '.join(value.needs)}"]
    slides, fast = _state_words(value, value.slides, value.float_slides), _state_words(value, value.held, value.float_held)
    words = [slides] if slides == fast or _is_near(value) else [f"outer rings free to slide: {slides}", f"held fast in their seats: {fast}"]
    if value.settled_slides is not None and value.settled_held is not None and not _is_beyond(value):
        settled = either_way(value.settled_slides, value.settled_held)
        then = _preload_words(value, settled)
        words += [f"when the faces have settled: {then}"] if then not in (slides, fast) else []
    if value.then_n is not None:
        words.insert(0, f"tension at that temperature {_spanned_force(value.then_n)}{because(value.then_n)}")
    if value.least_clamp_n is not None and value.slides.most > NOTHING_N and value.least_clamp_n.least < NOTHING_N:
        clamp = value.least_clamp_n
        gone = "is" if clamp.most < NOTHING_N else "is most likely" if clamp.usual < NOTHING_N else "may be"
        words.append(f"the clamp between the inner rings {gone} gone: the bearings carry it")
    return words + [each for each in (press_fit_words(value),) if each]


def _is_beyond(value: LoopForces) -> bool:
    return value.beyond_n is not None and max(value.slides.most, value.held.most) > value.beyond_n


def _is_near(value: LoopForces) -> bool:
    """One line will do where both ways to seat the rings come to the same within their ranges."""
    near = abs(value.slides.usual - value.held.usual) <= 0.02 * max(value.slides.usual, value.held.usual, NOTHING_N)
    return near and abs(value.float_slides.usual - value.float_held.usual) < 0.005


def _state_words(value: LoopForces, preload: Spanned, play: Spanned) -> str:
    if preload.most <= NOTHING_N:
        return f"no preload; end float {_spanned_mm(play)} under ±{GAUGE_N:g} N{because(play)}"
    return _preload_words(value, preload)


def _preload_words(value: LoopForces, preload: Spanned) -> str:
    beyond = value.beyond_n
    limit = f"{value.limit.called}, about {force_words(beyond)}" if beyond is not None else ""
    if preload.most <= NOTHING_N:
        return "no preload"
    if beyond is not None and preload.least > beyond:
        return f"the bearings are forced beyond {limit}: no figure holds there"
    if beyond is not None and preload.most > beyond:
        least = "none" if preload.least <= NOTHING_N else force_words(preload.least)
        return f"preload from {least} to beyond {limit}{because(preload)}"
    if preload.least <= NOTHING_N:
        return f"may be either: no preload, or up to {force_words(preload.most)}{because(preload)}"
    return f"preload {_spanned_force(preload)}{because(preload)}"


def force_words(newton: float) -> str:
    return f"{newton / 1000:.1f} kN" if newton >= 1000 else f"{round(newton, -1) if newton >= 100 else round(newton):g} N"


def _spanned_force(value: Spanned) -> str:
    if value.most >= 1000:
        return f"{value.least / 1000:.1f} to {value.most / 1000:.1f} kN, about {value.usual / 1000:.1f}"
    return f"{value.least:.0f} to {value.most:.0f} N, about {value.usual:.0f}"


def _spanned_mm(value: Spanned) -> str:
    return f"{mm(round(value.least, 2))} to {mm(round(value.most, 2))}"


def because(value: Spanned) -> str:
    return f"; most of the range from the {value.main_cause}" if value.main_cause else ""
