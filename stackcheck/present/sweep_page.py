"""A range of torque or temperature as a page: a row a step, each stretch drawn to one scale."""

from __future__ import annotations

from stackcheck.mechanics.forces import GAUGE_N
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.force_figures import force_words
from stackcheck.present.forces_page import is_near
from stackcheck.result.forces import ForcesResult

DRAWN = 36
ALL = "at all of them"
"""Width of a drawn stretch in signs."""


def sweep_blocks(steps: tuple[tuple[ForcesResult, ...], ...], *, over_torque: bool) -> list[Block]:
    """A range of torque or temperature, a row a step: the figures, and the stretch they lie in drawn to one scale."""
    blocks: list[Block] = []
    for i, first in enumerate(steps[0] if steps else ()):
        joints = [step[i].as_found for step in steps]
        if first.reference.tension_n is None:
            continue
        blocks.append(
            Heading(
                "SWEEP of the "
                f"{first.reference.joint.name}{', as found' if first.as_found is not first.reference else ''}"
            )
        )
        if any(joint.is_unclamped for joint in joints):
            blocks.append(Text("nothing is clamped at any of them", mark=" -  "))
            continue
        names = [
            f"{joint.torque_nmm / 1000:.4g} N·m" if over_torque else f"{round(joint.at_c, 1):g} °C" for joint in joints
        ]
        blocks += _drawn("tension", names, [joint.now_n for joint in joints], is_force=True)
        for j, loop in enumerate(first.as_found.loops):
            if loop.slides is not None:
                loops = [joint.loops[j] for joint in joints]
                one_answer = all(map(is_near, loops))
                for how, preload, play in (
                    ("free to slide", "slides", "float_slides"),
                    ("held fast", "held", "float_held"),
                )[: 1 if one_answer else 2]:
                    rings = "" if one_answer else f", rings {how}"
                    title = f"{loop.loop}: preload{rings}"
                    forced = [getattr(each, preload) for each in loops]
                    blocks += _drawn(title, names, forced, is_force=True, beyond=loop.beyond_n)
                    title = f"{loop.loop}: end float under ±{GAUGE_N:g} N{rings}"
                    # Where the bearings are forced past what the model can say, its end float is no figure either.
                    told = [
                        (name, getattr(each, play))
                        for name, each, force in zip(names, loops, forced)
                        if loop.beyond_n is None or force.most <= loop.beyond_n
                    ]
                    if told:
                        at = ALL if len(told) == len(names) else "where a figure of the preload holds"
                        blocks += _drawn(title, *map(list, zip(*told)), is_force=False, at=at)
    return blocks


def _drawn(
    title: str, names: list[str], values: list[Spanned], *, is_force: bool, beyond: float | None = None, at: str = ALL
) -> list[Block]:
    """One row a step; "=" from least to most, "o" at the usual value, from nothing to the greatest of all;
    one line where none differs.

    Above `beyond` the model says nothing: no figure stands there, and what is drawn ends in ">".
    """
    top = max(value.most for value in values)
    greatest = top if beyond is None else min(top, beyond)
    unit, size, digits = ("mm", 1.0, 2) if not is_force else ("kN", 1000.0, 1) if greatest >= 1000 else ("N", 1.0, 0)
    if round(greatest / size, digits) == 0:
        return [Text(f"{title}: none {at.replace('all', 'any')}", mark=" -  ")]
    rows = []
    for name, value in zip(names, values):
        spots = [round(each / greatest * (DRAWN - 1)) for each in (value.least, value.usual, value.most)]
        line = "".join("o" if i == spots[1] else "=" if spots[0] <= i <= spots[2] else " " for i in range(DRAWN))
        least, most = (
            f"{each / size:.{digits}f}" if each <= greatest else "beyond" for each in (value.least, value.most)
        )
        rows.append(
            (name, least if least == "beyond" else f"{least} to {most}", f"|{line}{'>' if most == 'beyond' else '|'}")
        )
    if {row[1] for row in rows} == {"beyond"}:
        words = f"{title}: beyond {force_words(greatest)} at all of them, where no figure holds"
        return [Text(words, mark=" -  ")]
    if len({row[1:] for row in rows}) == 1:
        return [Text(f"{title}: {rows[0][1]} {unit} {at}", mark=" -  ")]
    return [Rows(("", f"{title}, {unit}", f"0 to {greatest / size:.{digits}f}"), tuple(rows), right=(0,), wraps=(1,))]
