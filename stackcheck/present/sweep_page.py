"""A range of torque or temperature as a page: a row a step, each stretch drawn to one scale."""

from __future__ import annotations

from stackcheck.mechanics.loop_forces import NOTHING_N, LoopForces
from stackcheck.mechanics.set_gap import GAUGE_N
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.force_figures import force_words
from stackcheck.present.force_limit_words import wanted_words
from stackcheck.present.forces_page import is_near, loop_words
from stackcheck.present.limits_in_sweep import limits_in_sweep, stretch_words
from stackcheck.present.swept_plays import swept_plays
from stackcheck.result.forces import ForcesResult

DRAWN = 36
"""Width of a drawn stretch in signs."""


def sweep_blocks(steps: tuple[tuple[ForcesResult, ...], ...], *, over_torque: bool) -> list[Block]:
    """A range of torque or temperature, a row a step: the figures, and the stretch they lie in drawn to one scale."""
    blocks: list[Block] = []
    for i, first in enumerate(steps[0] if steps else ()):
        joints = [step[i].as_found for step in steps]
        blocks.append(
            Heading(
                "SWEEP of the "
                f"{first.reference.joint.name}{', as found' if first.as_found is not first.reference else ''}"
            )
        )
        if any(joint.is_unclamped for joint in joints):
            blocks.append(Text("nothing is clamped at any of them", mark=" -  "))
            continue
        at = [joint.torque_nmm / 1000 if over_torque else joint.at_c for joint in joints]
        unit = "N·m" if over_torque else "°C"
        names = [f"{place:.4g} {unit}" if over_torque else f"{round(place, 1):g} {unit}" for place in at]
        column = [step[i] for step in steps]
        if all(joint.tension_n is None and not joint.turned_past for joint in joints):
            blocks.append(Text("tension: cannot tell at any of them", mark=" -  "))
            continue
        blocks += _drawn("tension", names, [joint.now_n for joint in joints], is_force=True)
        blocks += _kept(at, column, first.reference.joint.name, unit)
        for play in swept_plays(column):
            blocks += _drawn(f"{play.name}: end float under ±{GAUGE_N:g} N", names, list(play.dial), is_force=False)
            blocks += _drawn(f"{play.name}: preload", names, list(play.preload), is_force=True, beyond=play.beyond_n)
        for j, loop in enumerate(first.as_found.loops):
            blocks += _loop_drawn(names, [joint.loops[j] for joint in joints])
            blocks += _kept(at, column, loop.loop, unit)
    return blocks


def _loop_drawn(names: list[str], loops: list[LoopForces]) -> list[Block]:
    """Preload and end float of two bearings; a step that cannot be told says so."""
    name, known = loops[0].loop, [loop for loop in loops if loop.slides is not None]
    if not known:
        return [Text(f"{name}: {loop_words(loops[0])}", mark=" -  ")]
    blocks: list[Block] = []
    one_answer = all(map(is_near, known))
    ways = (("free to slide", "slides", "float_slides"), ("held fast", "held", "float_held"))
    for how, preload, play in ways[: 1 if one_answer else 2]:
        rings = "" if one_answer else f", rings {how}"
        forces, plays = ([getattr(loop, field) for loop in loops] for field in (preload, play))
        blocks += _drawn(f"{name}: preload{rings}", names, forces, is_force=True, beyond=known[0].beyond_n)
        # Where the bearings are forced past what the model can say, their end float is no figure either.
        beyond = known[0].beyond_n
        told = [
            None if beyond is not None and force is not None and force.most > beyond else play
            for force, play in zip(forces, plays)
        ]
        if any(play is not None for play in told):
            blocks += _drawn(f"{name}: end float under ±{GAUGE_N:g} N{rings}", names, told, is_force=False)
    return blocks


def _kept(at: list[float], steps: list[ForcesResult], of: str, unit: str) -> list[Block]:
    """What the force is against each of its limits, and where along the sweep that changes."""
    return [
        Text(f"{wanted_words(each.limit)}: {stretch_words(each, at, unit)}", mark=" -  ")
        for each in limits_in_sweep(at, steps, of)
    ]


def _drawn(
    title: str, names: list[str], values: list[Spanned | None], *, is_force: bool, beyond: float | None = None
) -> list[Block]:
    """One row a step; "=" from least to most, "o" at the usual value, from nothing to the greatest of all;
    one line where none differs.

    Above `beyond` the model says nothing: no figure stands there, and what is drawn ends in ">".
    """
    known = [value for value in values if value is not None]
    if not known:
        return [Text(f"{title}: cannot tell at any of them", mark=" -  ")]
    top = max(value.most for value in known)
    greatest = top if beyond is None else min(top, beyond)
    unit, size, digits = _scale(greatest) if is_force else ("mm", 1.0, 2)
    if round(greatest / size, digits) == 0:
        told = "any of them" if known == values else "any of them that can be told"
        return [Text(f"{title}: none at {told}", mark=" -  ")]
    rows = []
    for name, value in zip(names, values):
        if value is None:
            rows.append((name, "cannot tell", ""))
            continue
        at = [round(each / greatest * (DRAWN - 1)) for each in (value.least, value.usual, value.most)]
        line = "".join("o" if i == at[1] else "=" if at[0] <= i <= at[2] else " " for i in range(DRAWN))
        least, most = (
            (_force_figure(each, size, digits) if is_force else f"{each:.{digits}f}") if each <= greatest else "beyond"
            for each in (value.least, value.most)
        )
        rows.append(
            (
                name,
                least if least == most in ("beyond", "none") else f"{least} to {most}",
                f"|{line}{'>' if most == 'beyond' else '|'}",
            )
        )
    if {row[1] for row in rows} == {"beyond"}:
        words = f"{title}: beyond {force_words(greatest)} at all of them, where no figure holds"
        return [Text(words, mark=" -  ")]
    if len({row[1:] for row in rows}) == 1:
        return [Text(f"{title}: {rows[0][1]} {unit} at all of them", mark=" -  ")]
    if len(known) == len(values) and len({row[2] for row in rows}) == 1 and _within(known, size, digits):
        words = f"{title}: {rows[0][1]} {unit} at all of them, to {10.0**-digits:g} {unit} near enough"
        return [Text(words, mark=" -  ")]
    return [Rows(("", f"{title}, {unit}", f"0 to {greatest / size:.{digits}f}"), tuple(rows), right=(0,), wraps=(1,))]


def _scale(greatest_n: float) -> tuple[str, float, int]:
    """Unit, what one of it is in newtons, and decimals: as many as `force_words` has."""
    return ("N", 1.0, 0) if greatest_n < 1000 else ("kN", 1000.0, 1 if greatest_n < 99_950 else 0)


def _within(values: list[Spanned], size: float, digits: int) -> bool:
    """Whether no end moves by more than the last digit that is shown."""
    ends = ([round(each.least / size, digits) for each in values], [round(each.most / size, digits) for each in values])
    return all(max(end) - min(end) <= 1.001 * 10.0**-digits for end in ends)


def _force_figure(newton: float, size: float, digits: int) -> str:
    """A force in the unit of its rows; no figure stands for one that is none, nor a nought for one that is small."""
    if newton < NOTHING_N:
        return "none"
    return f"{newton:.0f} N" if round(newton / size, digits) == 0 else f"{newton / size:.{digits}f}"
