"""What each part is drawn as: its role in the picture, its faces, its inner and outer radius [mm].

Real sizes come first: as measured, else as the reference gives them. What nobody knows is assumed from the parts beside
it, and said: `assumed` names those sizes. Some parts are no body of their own: an axle runs through everything, a
distance of the machine is a dimension, a split pin lies in its nut, a pressed-in ring in the outline of its bearing.
"""

from __future__ import annotations

from collections.abc import Mapping

from stackcheck.drawing.figure import BODY, HOUSING, PIN, SHELL, Figure
from stackcheck.drawing.positions import Line, Who
from stackcheck.drawing.radii import completed, core_radius, known_radii
from stackcheck.drawing.roles import Surroundings, role_of
from stackcheck.mechanics.lengths import Ruler
from stackcheck.mechanics.steps import steps_of
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference


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
        inner, outer = known_radii(ruler, standee.standing, part, kinds[who])
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
            fixed=part is not None and part.fixed, count=standee.standing.count,
            disc_mm=disc.nominal_mm if disc else 0.0, outer_ring_mm=line.outer_faces.get(who),
            steps=_steps(reference, ruler, standee.standing, facings.get(who, 0)),
        )  # fmt: skip
    core = core_radius(reference, around, figures)
    return completed(reference, ruler, line, figures, core)


def _steps(
    reference: Reference, ruler: Ruler, standing: Standing, facing: int
) -> tuple[tuple[float, float, float], ...]:
    """The steps of a part as it stands; of one that stands in no place of its own as it was seen to look."""
    steps = steps_of(ruler, standing)
    total = sum(step.length_mm for step in steps)
    entry = ruler.readings.entries.get(standing.entry or 0)
    if steps and standing.home is None and facing and not (entry is not None and entry.sections):
        first = reference.places_of(standing.part)[0].facing
        steps = steps[::-1] if first and (first == "first") != (facing < 0) else steps
    return tuple((step.length_mm / total, step.bore_mm / 2, step.outside_mm / 2) for step in steps)


def _pin(line: Line, who: Who, part: Part | None, at: float) -> tuple[float, float]:
    """A split pin lies in the slots of the part before it."""
    size = part.size("shaft") if part else None
    width = size.nominal_mm if size else 2.0
    path = next(path for path in line.paths.values() if who in path)
    first = path.index(who) == 0
    return (at + 0.2 * width, at + 1.2 * width) if first else (at - 1.2 * width, at - 0.2 * width)
