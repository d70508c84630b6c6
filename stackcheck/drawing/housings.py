"""How a housing is drawn: its shoulders, how far its wall reaches over what sits in it, and where it is left open.

A housing stands in the stack through the outer rings; what it holds lies beside it there, and its own length is only
the distance between its seats. So its outline follows from what sits in it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stackcheck.drawing.figure import BODY, FAR_MM, SHELL, WITHIN, Figure
from stackcheck.drawing.positions import Line, Who
from stackcheck.mechanics.lengths import Ruler
from stackcheck.model.reference import Reference
from stackcheck.value import replace


def housing_around(
    reference: Reference, ruler: Ruler, line: Line, figures: Mapping[Who, Figure], figure: Figure, core: float
) -> Figure:
    """A housing around outer rings: shoulders between them,
    and a wall that reaches over what sits in it at either side.
    """
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
    inner = [step[1] for step in figure.steps]
    outer = [step[2] for step in figure.steps]
    return replace(
        figure,
        inner_mm=min(inner, default=min((each.outer_mm for each in rings), default=default) - 0.3 * ring),
        outer_mm=max(outer, default=max(around) + 0.45 * ring),
        reach_mm=(
            min((each.first_mm for each in sides[0]), default=figure.first_mm),
            max((each.second_mm for each in sides[1]), default=figure.second_mm),
        ),
        reach_inner_mm=around,
    )


def opening(housing: Figure, figures: Mapping[Who, Figure]) -> tuple[float, float] | None:
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
    """What sits in a housing at one side, from its shoulder outward:
    bearings, and what is about as wide behind them.
    """
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
