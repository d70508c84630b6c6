"""Figures as outlines: polygons and lines in mm along the axis and from it,
with the feature that shows which way round.

Conventions, as known from general drawing practice (ISO 128-3 sections, ISO 6410-1 threads, ISO 8826-1 and -2 rolling
bearings, ISO 9222-2 seals; the texts were not opened): shafts, bolts, nuts and rolling bearings are not hatched; a
bearing is its outline with an upright cross inside that does not touch it, leaned over where its direction matters; a
seal shows its lip and the spring that presses it. Features without a size are drawn as signs, not to scale.
"""

from __future__ import annotations

import math
from itertools import pairwise

from stackcheck.drawing.figure import CORE, DISTANCE, HIDDEN, HOUSING, PIN, SHAFTS, WITHIN, Figure, Stage
from stackcheck.value import Value

HATCHED, SOLID, PLAIN, NOTHING = "hatched", "solid", "plain", "nothing"
Point = tuple[float, float]


class Shape(Value, kw_only=True):
    """A closed outline (x along the axis, radius) and how it is filled."""

    points: tuple[Point, ...]
    fill: str = HATCHED


class Stroke(Value, kw_only=True):
    """An open line; thin ones are those of threads, crosses and centre lines."""

    points: tuple[Point, ...]
    thin: bool = True


class Drawn(Value, kw_only=True):
    """One figure as shapes; `arrow` is the point at which a small solid arrow shows where its feature looks."""

    shapes: tuple[Shape, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    arrow: Point | None = None


FLANGES = ("flange", "sprocket flange", "suction flange", "studs")
STEPS = (
    "step", "spigot", "collar", "insert", "dome", "long boss", "boss", "seal land", "jaws", "slots", "shoulder",
    "set screw",
)  # fmt: skip
HOLLOWS = ("hollow side", "recess", "open side")
CHAMFERS = ("chamfer", "bevel")
_WALL = 1.08
"""Outside of a housing over its seat where its sections, which lie between the seats, are no wider."""
_NOT_HATCHED = SHAFTS | {"bolt", "nut", "key", "split pin", "loose balls", "spring"}


def drawn(figure: Figure) -> Drawn:
    """The outline of one figure; nothing for what is no body of its own."""
    if figure.role in (CORE, DISTANCE, HIDDEN, WITHIN) or figure.length_mm <= 0:
        return Drawn()
    if figure.role == PIN:
        return Drawn(shapes=(Shape(points=_box(figure.first_mm, figure.second_mm, 0.0, figure.outer_mm), fill=PLAIN),))
    if figure.role == HOUSING:
        return _housing(figure)
    by_kind = {
        "ball bearing": _bearing, "angular bearing": _bearing, "taper bearing": _bearing, "needle bearing": _bearing,
        "seal": _seal, "disc spring": _dished, "spring": _spring, "O-ring": _ring, "loose balls": _balls, "nut": _nut,
    }  # fmt: skip
    return by_kind.get(figure.kind, _plain)(figure)


def _box(first: float, second: float, inner: float, outer: float) -> tuple[Point, ...]:
    return (first, inner), (second, inner), (second, outer), (first, outer)


def _plain(figure: Figure) -> Drawn:
    """A ring, collar, washer or plate; a group of equal pieces as many times."""
    fill = PLAIN if figure.kind in _NOT_HATCHED else SOLID if figure.kind == "circlip" else HATCHED
    if figure.steps:
        return _stepped(figure, fill)
    if figure.count > 1:
        each = figure.length_mm / figure.count
        return Drawn(
            shapes=tuple(
                Shape(
                    points=_box(
                        figure.first_mm + i * each, figure.first_mm + (i + 1) * each, figure.inner_mm, figure.outer_mm
                    ),
                    fill=fill,
                )
                for i in range(figure.count)
            )
        )
    points = _with_feature(figure)
    if points is None:
        return Drawn(
            shapes=(
                Shape(points=_box(figure.first_mm, figure.second_mm, figure.inner_mm, figure.outer_mm), fill=fill),
            ),
            arrow=_arrow(figure),
        )
    return Drawn(shapes=(Shape(points=points, fill=fill),))


def _stepped(figure: Figure, fill: str) -> Drawn:
    """A part by its steps, every piece of a pack by itself;
    an arrow only where its feature is none that the steps show.
    """
    stages = figure.stages
    each = len(stages) // figure.count
    pieces = tuple(
        Shape(
            points=_along(stages[i * each : (i + 1) * each], inner=True)
            + _along(stages[i * each : (i + 1) * each])[::-1],
            fill=fill,
        )
        for i in range(figure.count)
    )
    is_shown = figure.feature in FLANGES + STEPS
    return Drawn(shapes=pieces, arrow=None if is_shown or figure.count > 1 else _arrow(figure))


def _along(stages: tuple[Stage, ...], *, inner: bool = False) -> tuple[Point, ...]:
    """The outside of these steps as a line, first end to second; or their bore."""
    return tuple(
        (end, stage.inner_mm if inner else stage.outer_mm)
        for stage in stages
        for end in (stage.first_mm, stage.second_mm)
    )


def _arrow(figure: Figure) -> Point | None:
    """In the middle of the part, a little outward:
    where an arrow shows the direction of a feature that has no shape.
    """
    if not figure.facing:
        return None
    return (figure.first_mm + figure.second_mm) / 2, figure.inner_mm + 0.62 * (_reach(figure) - figure.inner_mm)


def _reach(figure: Figure) -> float:
    return min(figure.outer_mm, 3 * figure.inner_mm + 2 * figure.length_mm)


def _with_feature(figure: Figure) -> tuple[Point, ...] | None:
    """The outline with its feature at the end that it looks to; None where the feature has no shape."""
    if not figure.facing:
        return None
    inner, outer, length = figure.inner_mm, figure.outer_mm, figure.length_mm
    height, at_end = outer - inner, min(0.28 * length, 0.5 * (outer - inner))
    if figure.feature in FLANGES:
        local = (
            (0, inner),
            (length, inner),
            (length, outer),
            (at_end, outer),
            (at_end, outer + 0.35 * height),
            (0, outer + 0.35 * height),
        )
    elif figure.feature in STEPS:
        local = (
            (0, inner),
            (length, inner),
            (length, outer),
            (at_end, outer),
            (at_end, outer - 0.4 * height),
            (0, outer - 0.4 * height),
        )
    elif figure.feature in HOLLOWS:
        low, high = inner + 0.12 * height, outer - 0.25 * height
        local = (at_end, inner), (length, inner), (length, outer), (0, outer), (0, high), (at_end, low)
    elif figure.feature in CHAMFERS:
        cut = min(0.35 * height, 0.35 * length)
        local = (0, inner), (length, inner), (length, outer), (cut, outer), (0, outer - cut)
    else:
        return None
    if figure.facing < 0:
        return tuple((figure.first_mm + x, r) for x, r in local)
    return tuple((figure.second_mm - x, r) for x, r in local)


def _housing(figure: Figure) -> Drawn:
    """Shoulders and wall; in two halves where something wider turns between its shoulders."""
    start, end = figure.reach_mm or (figure.first_mm, figure.second_mm)
    left, right = figure.reach_inner_mm
    inner, outer = figure.inner_mm, figure.outer_mm
    middle = (figure.first_mm + figure.second_mm) / 2
    arrow = (middle, (inner + outer) / 2) if figure.facing else None
    if figure.open_mm is None and figure.steps:
        stages = figure.stages
        walls = [max(stage.outer_mm, _WALL * seat) for stage, seat in ((stages[0], left), (stages[-1], right))]
        points = (
            *_along(stages, inner=True), (figure.second_mm, right), (end, right), (end, walls[1]),
            (figure.second_mm, walls[1]), *_along(stages)[::-1], (figure.first_mm, walls[0]), (start, walls[0]),
            (start, left), (figure.first_mm, left),
        )  # fmt: skip
        return Drawn(shapes=(Shape(points=points),), arrow=arrow)
    if figure.open_mm is None:
        points = (
            (figure.first_mm, inner), (figure.second_mm, inner), (figure.second_mm, right), (end, right),
            (end, outer), (start, outer), (start, left), (figure.first_mm, left),
        )  # fmt: skip
        return Drawn(shapes=(Shape(points=points),), arrow=arrow)
    near, far = figure.open_mm
    first = (
        (figure.first_mm, inner),
        (near, inner),
        (near, outer),
        (start, outer),
        (start, left),
        (figure.first_mm, left),
    )
    second = (
        (far, inner),
        (figure.second_mm, inner),
        (figure.second_mm, right),
        (end, right),
        (end, outer),
        (far, outer),
    )
    return Drawn(shapes=(Shape(points=first), Shape(points=second)))


def _bearing(figure: Figure) -> Drawn:
    """Outline and cross; the cross leans with the contact line,
    outward to the wide face or the small end of the rollers.
    """
    first, second = figure.outer_ring_mm or (figure.first_mm, figure.second_mm)
    middle = (figure.inner_mm + figure.outer_mm) / 2
    inner_ring = (
        (first, middle),
        (figure.first_mm, middle),
        (figure.first_mm, figure.inner_mm),
        (figure.second_mm, figure.inner_mm),
    )
    points = (
        *inner_ring,
        (figure.second_mm, middle),
        (second, middle),
        (second, figure.outer_mm),
        (first, figure.outer_mm),
    )
    box = Shape(points=points, fill=PLAIN)
    x, r = (figure.first_mm + figure.second_mm) / 2, (figure.inner_mm + figure.outer_mm) / 2
    along, across = 0.33 * figure.length_mm, 0.33 * (figure.outer_mm - figure.inner_mm)
    if figure.kind == "needle bearing":
        across *= 0.4
    lean = {"angular bearing": 30.0, "taper bearing": 20.0}.get(figure.kind, 0.0) * figure.facing
    cos, sin = math.cos(math.radians(lean)), math.sin(math.radians(lean))
    reach = min(along, across) if lean else along
    strokes = (
        Stroke(points=((x - reach * cos, r + reach * sin), (x + reach * cos, r - reach * sin)), thin=False),
        Stroke(points=((x - across * sin, r - across * cos), (x + across * sin, r + across * cos)), thin=False),
    )
    arrow = (x, figure.inner_mm + 0.12 * (figure.outer_mm - figure.inner_mm)) if figure.facing else None
    return Drawn(shapes=(box,), strokes=strokes, arrow=arrow)


def _seal(figure: Figure) -> Drawn:
    """Casing along the outside and the closed face, lip on the shaft,
    its spring on the side that the seal is open to.
    """
    first, second, inner, outer = figure.first_mm, figure.second_mm, figure.inner_mm, figure.outer_mm
    box = Shape(points=_box(first, second, inner, outer), fill=PLAIN)
    if not figure.facing or figure.feature != "spring side":
        crossed = (Stroke(points=((first, inner), (second, outer))), Stroke(points=((first, outer), (second, inner))))
        return Drawn(shapes=(box,), strokes=crossed, arrow=_arrow(figure))
    length, height = second - first, outer - inner
    wall = min(0.18 * length, 0.18 * height)
    back, front = (second, first) if figure.facing < 0 else (first, second)
    step = 1.0 if front > back else -1.0
    casing = (
        (back, outer), (front, outer), (front, outer - wall), (back + step * wall, outer - wall),
        (back + step * wall, inner + 0.45 * height), (back, inner + 0.45 * height),
    )  # fmt: skip
    tip = back + step * 0.62 * length
    lip = (
        (back, inner + 0.45 * height),
        (back + step * wall, inner + 0.5 * height),
        (tip, inner + 0.3 * height),
        (tip, inner),
        (tip - step * 0.14 * length, inner + 0.16 * height),
    )
    radius = 0.11 * min(length, height)
    spring = _circle(tip - step * 0.05 * length, inner + 0.3 * height + radius, radius)
    return Drawn(
        shapes=(box, Shape(points=casing, fill=SOLID), Shape(points=lip, fill=SOLID), Shape(points=spring, fill=PLAIN)),
    )


def _circle(x: float, r: float, radius: float) -> tuple[Point, ...]:
    return tuple((x + radius * math.cos(i * math.pi / 8), r + radius * math.sin(i * math.pi / 8)) for i in range(16))


def _dished(figure: Figure) -> Drawn:
    """A dished spring: its rim stands toward the side that its hollow looks to."""
    first, second = figure.first_mm, figure.second_mm
    thick = min(figure.disc_mm or 0.5 * figure.length_mm, 0.62 * figure.length_mm)
    if not figure.facing:
        return Drawn(shapes=(Shape(points=_box(first, second, figure.inner_mm, figure.outer_mm), fill=PLAIN),))
    if figure.facing < 0:
        points = (
            (second - thick, figure.inner_mm),
            (second, figure.inner_mm),
            (first + thick, figure.outer_mm),
            (first, figure.outer_mm),
        )
    else:
        points = (
            (first, figure.inner_mm),
            (first + thick, figure.inner_mm),
            (second, figure.outer_mm),
            (second - thick, figure.outer_mm),
        )
    return Drawn(shapes=(Shape(points=points),))


def _spring(figure: Figure) -> Drawn:
    """A coil spring: its wire cut every half turn, joined by thin lines."""
    wire = min(0.14 * figure.length_mm, 0.8 * (figure.outer_mm - figure.inner_mm))
    middle = (figure.inner_mm + figure.outer_mm) / 2
    turns = 4
    xs = [figure.first_mm + wire / 2 + i * (figure.length_mm - wire) / (turns - 1) for i in range(turns)]
    circles = tuple(Shape(points=_circle(x, middle, wire / 2), fill=SOLID) for x in xs)
    zigzag = tuple(
        Stroke(points=((x, middle), ((x + y) / 2, figure.inner_mm * 0.9), (y, middle))) for x, y in pairwise(xs)
    )
    return Drawn(shapes=circles, strokes=zigzag, arrow=None)


def _ring(figure: Figure) -> Drawn:
    """A ring of round section."""
    radius = min(figure.length_mm, figure.outer_mm - figure.inner_mm) / 2
    middle = (figure.first_mm + figure.second_mm) / 2, (figure.inner_mm + figure.outer_mm) / 2
    return Drawn(shapes=(Shape(points=_circle(*middle, radius), fill=SOLID),))


def _balls(figure: Figure) -> Drawn:
    radius = min(figure.length_mm, figure.outer_mm - figure.inner_mm) / 2
    middle = (figure.first_mm + figure.second_mm) / 2, (figure.inner_mm + figure.outer_mm) / 2
    return Drawn(shapes=(Shape(points=_circle(*middle, radius), fill=PLAIN),))


def _nut(figure: Figure) -> Drawn:
    """Outline, the edge of the hexagon, and the thread as a thin line outside its bore (ISO 6410-1)."""
    points = _with_feature(figure)
    inner, outer = figure.inner_mm, figure.outer_mm
    thread = inner + 0.1 * (outer - inner)
    edge = (inner + outer) / 2
    strokes = (
        Stroke(points=((figure.first_mm, thread), (figure.second_mm, thread))),
        Stroke(points=((figure.first_mm, edge), (figure.second_mm, edge))),
    )
    box = points or _box(figure.first_mm, figure.second_mm, inner, outer)
    return Drawn(shapes=(Shape(points=box, fill=PLAIN),), strokes=strokes, arrow=None if points else _arrow(figure))
