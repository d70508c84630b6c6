"""What each part is drawn as: its role in the picture, its faces, its inner and outer radius [mm].

Real sizes come first: as measured, else as the reference gives them. What nobody knows is assumed from the parts beside
it, and said: `assumed` names those sizes. Some parts are no body of their own: an axle runs through everything, a distance
of the machine is a dimension, a split pin lies in its nut, a pressed-in ring in the outline of its bearing.
"""

from __future__ import annotations

import math
from bisect import bisect
from collections.abc import Mapping, Sequence

from stackcheck.drawing.positions import Line, Who
from stackcheck.mechanics.lengths import Ruler
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part, Size
from stackcheck.model.reference import Reference
from stackcheck.value import Value, replace

BODY, CORE, DISTANCE, PIN, WITHIN, HOUSING, SHELL, HIDDEN = (
    "body", "core", "distance", "pin", "within", "housing", "shell", "hidden",
)  # fmt: skip
SHAFTS = frozenset({"axle", "shaft", "arbor"})
HOUSINGS = frozenset({"hub", "housing", "drum", "bracket", "carrier", "wheel"})
PLATES = frozenset({"leg", "bracket", "carrier"})
FAR_MM = 1e6
"""Beyond every part: what reaches so far is drawn broken off."""
_CORNER = 1 / math.cos(math.pi / 6)
"""Across corners of a hexagon over across flats."""


class Figure(Value, kw_only=True):
    """One part of one half. `inner_mm` and `outer_mm` are radii; a housing reaches over its neighbours from `reach_mm`.

    `facing` is -1 where the named feature points to the first end, +1 to the second, 0 where that is not known or asked.
    """

    who: Who
    standing: Standing
    role: str
    kind: str
    feature: str
    first_mm: float
    second_mm: float
    inner_mm: float
    outer_mm: float
    assumed: tuple[str, ...] = ()
    facing: int = 0
    fixed: bool = False
    reach_mm: tuple[float, float] | None = None
    reach_inner_mm: tuple[float, float] = (0.0, 0.0)
    open_mm: tuple[float, float] | None = None
    outer_ring_mm: tuple[float, float] | None = None
    count: int = 1
    disc_mm: float = 0.0

    @property
    def length_mm(self) -> float:
        return self.second_mm - self.first_mm


class Surroundings(Value, kw_only=True):
    """What is beside each place of a reference, looked up once: its neighbours in every stack, and the places in housings.

    `typical_mm` is a length that suits the others: an eighteenth of all the known ones together.
    """

    beside: Mapping[str, tuple[tuple[Part | None, Part | None], ...]]
    in_housings: frozenset[str]
    typical_mm: float

    @classmethod
    def of(cls, reference: Reference) -> Surroundings:
        beside: dict[str, list[tuple[Part | None, Part | None]]] = {}
        for stack in reference.stacks:
            parts = [None, *(reference.part_at(place) for place in stack.places), None]
            for place, before, after in zip(stack.places, parts, parts[2:]):
                beside.setdefault(place, []).append((before, after))
        known = [
            size.nominal_mm for place in reference.places for size in [_own_length(reference.part(place.part))] if size
        ]
        return cls(
            beside={place: tuple(pairs) for place, pairs in beside.items()},
            in_housings=frozenset(
                place for stack in reference.stacks if stack.through == "outer rings" for place in stack.places
            ),
            typical_mm=max(sum(known) / 18, 0.05) if known else 5.0,
        )


def _own_length(part: Part) -> Size | None:
    return None if part.fixed else part.size("length")


def role_of(around: Surroundings, standing: Standing, part: Part | None) -> str:
    """What a part is in the picture; by the reference's own stacks, so that both halves say the same."""
    if part is None:
        return BODY
    lengthless = part.size("length") is None and part.size("free_length") is None
    if part.kind == "split pin":
        return PIN
    if part.kind == "key" or (part.kind == "bolt" and not part.sizes):
        return HIDDEN
    if part.kind in SHAFTS and not part.fixed and lengthless:
        return CORE
    beside = around.beside.get(standing.home or "", ())
    if part.kind in HOUSINGS and not lengthless and standing.home in around.in_housings:
        return HOUSING
    if (
        part.fixed
        and not lengthless
        and beside
        and all(a is not None and b is not None and a.fixed and b.fixed for a, b in beside)
    ):
        return DISTANCE
    if (
        part.fixed
        and part.kind == "ring"
        and lengthless
        and any("bearing" in each.kind for pair in beside for each in pair if each)
    ):
        return WITHIN
    return SHELL if part.kind == "housing" and not lengthless else BODY


def assumed_length(around: Surroundings, standing: Standing, part: Part | None, kind: str) -> float:
    """A length to draw where nobody knows it [mm]; nothing for what takes up no room of its own."""
    if role_of(around, standing, part) in (PIN, WITHIN, HIDDEN):
        return 0.0
    if part is not None and (free := part.size("free_length") or part.size("disc_height")):
        return free.nominal_mm
    across = max((size.nominal_mm for name, size in part.sizes if name in _ACROSS), default=0.0) if part else 0.0
    if kind in ("nut", "bolt") and across:
        return min(0.6 * across, 2 * around.typical_mm)
    return (
        0.5 * around.typical_mm
        if kind in ("washer", "shim ring", "gasket", "O-ring", "tab washer", "circlip")
        else around.typical_mm
    )


_ACROSS = ("thread_diameter", "shaft", "seat", "across_flats")


def figures_of(
    reference: Reference,
    around: Surroundings,
    ruler: Ruler,
    line: Line,
    kinds: Mapping[Who, str],
    facings: Mapping[Who, int],
) -> dict[Who, Figure]:
    """Every standee as it is drawn."""
    figures = {}
    for who, standee in line.standees.items():
        part = ruler.part(standee.standing)
        role = role_of(around, standee.standing, part)
        inner, outer = _known_radii(ruler, standee.standing, part, kinds[who])
        first, second = line.faces[who]
        if role == PIN:
            first, second = _pin(line, who, part, first)
        disc = part.size("disc_thickness") if part else None
        missing = [name for name, value in (("bore", inner), ("outside", outer)) if value is None]
        if who in line.assumed:
            missing.insert(0, "length")
        if role not in (BODY, HOUSING, SHELL):
            missing = []
        figures[who] = Figure(
            who=who, standing=standee.standing, role=role, kind=kinds[who], feature=part.feature if part else "",
            first_mm=first, second_mm=max(second, first), inner_mm=-1.0 if inner is None else inner,
            outer_mm=-1.0 if outer is None else outer, assumed=tuple(missing), facing=facings.get(who, 0),
            fixed=part is not None and part.fixed, count=standee.standing.count, disc_mm=disc.nominal_mm if disc else 0.0,
            outer_ring_mm=line.outer_faces.get(who),
        )  # fmt: skip
    core = core_radius(reference, around, figures)
    return _completed(reference, ruler, line, figures, core)


def _pin(line: Line, who: Who, part: Part | None, at: float) -> tuple[float, float]:
    """A split pin lies in the slots of the part before it."""
    size = part.size("shaft") if part else None
    width = size.nominal_mm if size else 2.0
    path = next(path for path in line.paths.values() if who in path)
    first = path.index(who) == 0
    return (at + 0.2 * width, at + 1.2 * width) if first else (at - 1.2 * width, at - 0.2 * width)


def _known_radii(ruler: Ruler, standing: Standing, part: Part | None, kind: str) -> tuple[float | None, float | None]:
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


def _completed(
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
            figures[who] = _housing(reference, ruler, line, figures, figure, core)
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
            figures[who] = replace(figure, open_mm=_opening(figure, figures))
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


def _housing(
    reference: Reference, ruler: Ruler, line: Line, figures: Mapping[Who, Figure], figure: Figure, core: float
) -> Figure:
    """A housing around outer rings: shoulders between them, and a wall that reaches over what sits in it at either side."""
    stack = next(name for name in line.standees[figure.who].stacks if reference.stack(name).through == "outer rings")
    path = line.paths[stack]
    here = path.index(figure.who)
    sides = [_seated(figures, path[:here][::-1], 0), _seated(figures, path[here + 1 :], 1)]
    part = ruler.part(figure.standing)
    seat = part.size("seat") if part else None
    default = seat.nominal_mm / 2 if seat else 2 * core
    around = tuple(max((each.outer_mm for each in side), default=default) for side in sides)
    seated = [each for side in sides for each in side]
    rings = [each for each in seated if "bearing" in each.kind] or seated
    ring = min((each.outer_mm - each.inner_mm for each in rings), default=0.4 * default)
    return replace(
        figure,
        inner_mm=min((each.outer_mm for each in rings), default=default) - 0.3 * ring,
        outer_mm=max(around) + 0.45 * ring,
        reach_mm=(
            min((each.first_mm for each in sides[0]), default=figure.first_mm),
            max((each.second_mm for each in sides[1]), default=figure.second_mm),
        ),
        reach_inner_mm=around,
    )


def _opening(housing: Figure, figures: Mapping[Who, Figure]) -> tuple[float, float] | None:
    """The stretch between its shoulders in which a housing is left out, because something wider turns in it."""
    wide = [
        figure
        for figure in figures.values()
        if figure.role == BODY and not figure.fixed and figure.outer_mm > housing.inner_mm
        and housing.first_mm < figure.first_mm and figure.second_mm < housing.second_mm
    ]  # fmt: skip
    if not wide:
        return None
    first, second = min(figure.first_mm for figure in wide), max(figure.second_mm for figure in wide)
    return housing.first_mm + 0.4 * (first - housing.first_mm), housing.second_mm - 0.4 * (housing.second_mm - second)


def _seated(figures: Mapping[Who, Figure], path: Sequence[Who], side: int) -> list[Figure]:
    """What sits in a housing at one side, from its shoulder outward: bearings, and what is about as wide behind them."""
    seated: list[Figure] = []
    for other in (figures[who] for who in path):
        if other.role not in (BODY, WITHIN) or (other.fixed and other.role == BODY) or other.outer_mm >= FAR_MM:
            break
        if seated and not 0.85 <= other.outer_mm / max(each.outer_mm for each in seated) <= 1.1:
            break
        edge = (other.first_mm, other.second_mm)[side]
        if any(each.role == SHELL and each.first_mm <= edge <= each.second_mm for each in figures.values()):
            break
        seated.append(other)
    return seated


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
