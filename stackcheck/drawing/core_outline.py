"""The outline of what runs through the middle: axle or shaft, as thick as the bores around it allow."""

from __future__ import annotations

from itertools import pairwise

from stackcheck.drawing.figure import BODY
from stackcheck.drawing.picture import Layout


def core_outline(layout: Layout, half: str) -> tuple[tuple[float, float], ...]:
    """(from where along the axis, radius) of each step, first end to second end [mm].

    At each spot the smallest real bore counts; where nothing sits on the shaft it goes on as thick as beside it. A bore
    hardly larger than the seat is taken as running on the seat.
    """
    least = layout.core_mm
    reference = layout.comparison.reference
    off_shaft = {place for stack in reference.stacks if stack.through == "outer rings" for place in stack.places}
    off_shaft -= {place for stack in reference.stacks if stack.through != "outer rings" for place in stack.places}
    around = [
        stage
        for piece in layout.half(half)
        if piece.figure.role == BODY and 0 < piece.figure.inner_mm <= 2.2 * least and "bore" not in piece.figure.assumed
        and piece.figure.standing.home not in off_shaft
        for stage in piece.figure.stages
    ]  # fmt: skip
    edges = sorted({edge for stage in around for edge in (stage.first_mm, stage.second_mm)})
    if not edges:
        return ((0.0, least), (1.0, least))
    radii: list[float | None] = []
    for first, second in pairwise(edges):
        middle = (first + second) / 2
        here = [stage.inner_mm for stage in around if stage.first_mm <= middle <= stage.second_mm]
        radii.append(min(here) if here else None)
    known = [radius for radius in radii if radius is not None] or [least]
    steps: list[tuple[float, float]] = []
    last = known[0]
    for position, (first, radius) in enumerate(zip(edges, radii)):
        after = next((each for each in radii[position:] if each is not None), last)
        radius = min(last, after) if radius is None else radius
        radius = steps[-1][1] if steps and abs(radius - steps[-1][1]) < 0.06 * radius else radius
        last = radius
        if not steps or radius != steps[-1][1]:
            steps.append((first, radius))
    return (*steps,) if steps else ((0.0, least),)
