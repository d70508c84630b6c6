"""Inner and outer radius of each part [mm]: as measured, as the reference gives them, or assumed from the parts beside.

The nearest part of the same stack whose radii are known lends them; shells go around whatever they span, last of all.
An assumed radius gives way to real ones in the same stretch of the axis.
"""

from __future__ import annotations

import math
from bisect import bisect
from collections.abc import Mapping, Sequence

from stackcheck.drawing.figure import (
    BODY,
    CORE,
    DISTANCE,
    FAR_MM,
    HIDDEN,
    HOUSING,
    PIN,
    PLATES,
    SHAFTS,
    SHELL,
    WITHIN,
    Figure,
)
from stackcheck.drawing.housings import housing_around, opening
from stackcheck.drawing.positions import Line, Who
from stackcheck.drawing.roles import Surroundings
from stackcheck.mechanics.lengths import Ruler
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.value import replace

_CORNER = 1 / math.cos(math.pi / 6)
"""Across corners of a hexagon over across flats."""


def known_radii(ruler: Ruler, standing: Standing, part: Part | None, kind: str) -> tuple[float | None, float | None]:
    def radius(name: str) -> float | None:
        reading = ruler.readings.size(standing, name)
        size = part.size(name) if part is not None else None
        value = reading.value_mm if reading is not None else size.nominal_mm if size is not None else None
        return None if value is None or value <= 0 else value / 2

    inner, outer = radius("bore"), radius("outside")
    if kind in ("nut", "bolt"):
        flats = radius("across_flats")
        inner = inner if inner is not None else radius("thread_diameter")
        outer = outer if outer is not None else flats * _CORNER if flats is not None else None
        if kind == "bolt":
            shank = radius("seat") or radius("shaft")
            inner, outer = 0.0, outer if outer is not None else 0.9 * 2 * shank if shank else None
    elif kind in SHAFTS:
        inner, outer = 0.0, outer if outer is not None else radius("seat")
    elif kind == "circlip":
        shaft, seat, groove = radius("shaft"), radius("seat"), radius("groove")
        if shaft is not None:
            inner = groove if groove is not None else inner
            outer = outer if outer is not None else 1.12 * shaft
        elif seat is not None:
            outer = groove if groove is not None else outer
            inner = 0.88 * seat if inner is None else inner
    elif kind == "split pin":
        inner, outer = 0.0, 0.0
    return inner, outer


def core_radius(reference: Reference, around: Surroundings, figures: Mapping[Who, Figure]) -> float:
    """Radius of what runs through everything [mm]: the seat of axle or shaft, else the smallest bore."""
    seats = [
        size.nominal_mm
        for part in reference.parts
        if part.kind in SHAFTS | {"bolt"}
        for name in ("seat", "shaft")
        if (size := part.size(name))
    ]
    bores = [2 * figure.inner_mm for figure in figures.values() if figure.inner_mm > 0 and figure.role == BODY]
    known = [value for value in (*seats, *bores) if value > 0]
    smallest = min(known, default=2 * around.typical_mm)
    return smallest / 2


def completed(
    reference: Reference, ruler: Ruler, line: Line, figures: dict[Who, Figure], core: float
) -> dict[Who, Figure]:
    """Radii that nobody knows, taken from the parts beside each; shells go around whatever they span, last of all."""
    known = _Known(line, dict(figures), core)
    for who, figure in figures.items():
        inner, outer = known.beside(who)
        if figure.role == PIN:
            figures[who] = replace(figure, inner_mm=0.0, outer_mm=outer)
        elif (wall := _groove_wall(ruler, line, figures, figure)) is not None:
            figures[who] = replace(figure, inner_mm=wall[0], outer_mm=wall[1])
        elif (
            figure.kind in SHAFTS
            and figure.outer_mm >= 0
            and not figure.assumed
            and not _on_rings(reference, line, who)
        ):
            pass  # a plain length of shaft, as thick as its seat
        elif figure.role in (BODY, DISTANCE, WITHIN, HIDDEN):
            figures[who] = _with_radii(figure, inner, outer, core)
        elif figure.role == CORE:
            figures[who] = _changed(figure, 0.0, core)
    for who, figure in figures.items():
        if figure.role == HOUSING:
            figures[who] = housing_around(reference, ruler, line, figures, figure, core)
    for who, figure in figures.items():
        if figure.role == SHELL:
            spanned = [
                other.outer_mm
                for other in figures.values()
                if other.role == BODY and _spans(figure, other) and other.outer_mm < FAR_MM
            ]
            inside = 1.02 * max(spanned, default=2 * core)
            figures[who] = _changed(figure, inside, 1.15 * inside)
    for who, figure in figures.items():
        if figure.role == HOUSING:
            figures[who] = replace(figure, open_mm=opening(figure, figures))
    real = [
        figure
        for figure in figures.values()
        if figure.role == HOUSING or (figure.role == BODY and not _RADII & set(figure.assumed))
    ]
    return {
        who: _kept_apart(figure, real) if figure.role == BODY and figure.assumed else figure
        for who, figure in figures.items()
    }


def _on_rings(reference: Reference, line: Line, who: Who) -> bool:
    return any(reference.stack(stack).through == "inner rings" for stack in line.standees[who].stacks)


def _groove_wall(ruler: Ruler, line: Line, figures: Mapping[Who, Figure], figure: Figure) -> tuple[float, float] | None:
    """The wall of a circlip's groove: of a shaft below the circlip, of a bore around it."""
    if figure.kind != "shoulder" or not figure.fixed:
        return None
    for path in (line.paths[stack] for stack in line.standees[figure.who].stacks):
        here = path.index(figure.who)
        for other in (
            figures[each]
            for each in (*path[here - 1 : here], *path[here + 1 : here + 2])
            if figures[each].kind == "circlip"
        ):
            part = ruler.part(other.standing)
            shaft = part.size("shaft") if part else None
            return (0.0, shaft.nominal_mm / 2) if shaft else (0.95 * other.outer_mm, 1.05 * other.outer_mm)
    return None


def _spans(shell: Figure, other: Figure) -> bool:
    return (
        other.first_mm >= shell.first_mm - 0.5 * other.length_mm
        and other.second_mm <= shell.second_mm + 0.5 * other.length_mm
    )


def _changed(figure: Figure, inner: float, outer: float) -> Figure:
    return replace(
        figure,
        inner_mm=figure.inner_mm if figure.inner_mm >= 0 else inner,
        outer_mm=figure.outer_mm if figure.outer_mm >= 0 else outer,
    )


class _Known:
    """The parts of each stack whose two radii are known, to be asked for the nearest."""

    def __init__(self, line: Line, figures: Mapping[Who, Figure], core: float) -> None:
        self.line, self.figures, self.core = line, figures, core
        self.at = {stack: {who: index for index, who in enumerate(path)} for stack, path in line.paths.items()}
        self.known = {
            stack: [index for index, who in enumerate(path) if _is_known(figures[who])]
            for stack, path in line.paths.items()
        }

    def beside(self, who: Who) -> tuple[float, float]:
        """Inner and outer radius of the nearest one, along the first stack that has any."""
        for stack in self.line.standees[who].stacks:
            here, known = self.at[stack][who], self.known[stack]
            spot = bisect(known, here)
            near = [index for index in known[max(0, spot - 2) : spot + 1] if index != here]
            if near:
                figure = self.figures[self.line.paths[stack][min(near, key=lambda index: abs(index - here))]]
                return figure.inner_mm, figure.outer_mm
        return self.core, 2 * self.core


def _is_known(figure: Figure) -> bool:
    return figure.role == BODY and 0 <= figure.inner_mm < figure.outer_mm


def _with_radii(figure: Figure, inner: float, outer: float, core: float) -> Figure:
    """The missing radii of one part, by what it is."""
    if figure.fixed and "length" in figure.assumed and figure.kind in PLATES:
        return _changed(figure, core, FAR_MM)
    if figure.kind == "circlip":
        return _changed(figure, 0.9 * figure.outer_mm if figure.outer_mm >= 0 else inner, outer)
    if figure.kind in SHAFTS or (figure.fixed and figure.kind in ("shoulder", "gear") and "length" in figure.assumed):
        return _shoulder(figure, inner, outer)
    if figure.kind == "bolt":
        return _changed(figure, 0.0, 1.8 * core)
    if figure.kind == "nut":
        bore = figure.inner_mm if figure.inner_mm >= 0 else core
        return _changed(figure, core, 1.7 * bore)
    if figure.kind in ("cap", "cover"):
        inside = 0.0 if figure.kind == "cap" else core
        return _changed(figure, inside, max(outer, figure.inner_mm + 0.1 * core))
    if figure.kind == "O-ring":
        section = max(0.1 * outer, 0.5 * figure.length_mm)
        return _changed(figure, outer, (figure.inner_mm if figure.inner_mm >= 0 else outer) + section)
    inner = min(inner, 0.9 * figure.outer_mm) if figure.outer_mm >= 0 else inner
    outer = max(outer, 1.15 * figure.inner_mm)
    return _changed(figure, inner, outer)


def _shoulder(figure: Figure, inner: float, outer: float) -> Figure:
    """A shoulder of shaft or axle stands higher than what it carries is bored, lower than that is wide."""
    height = inner + 0.45 * (outer - inner)
    seat = figure.outer_mm
    return replace(figure, inner_mm=0.0, outer_mm=max(seat, height) if figure.kind in SHAFTS or seat < 0 else seat)


_RADII = frozenset({"bore", "outside"})


def _kept_apart(figure: Figure, real: Sequence[Figure]) -> Figure:
    """An assumed radius gives way to real ones in the same stretch of the axis."""
    inner, outer = figure.inner_mm, figure.outer_mm
    for other in real:
        if (
            min(other.second_mm, figure.second_mm) - max(other.first_mm, figure.first_mm) < 0.05 * figure.length_mm
            or other.who == figure.who
        ):
            continue
        if "outside" in figure.assumed and other.inner_mm > inner and other.inner_mm < outer:
            outer = max(other.inner_mm, inner * 1.02 + 0.01)
        elif "bore" in figure.assumed and other.outer_mm < outer and other.outer_mm > inner:
            inner = other.outer_mm
    return replace(figure, inner_mm=inner, outer_mm=outer)
