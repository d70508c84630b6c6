"""One part as it is drawn: its role, its faces and its two radii [mm], and which of its sizes were assumed.

A role says what a part is in the picture: a body of its own, the core that runs through everything, a distance of the
machine, a pin, a ring within a bearing's outline, a housing, a shell around what it spans, or nothing to be seen.
"""

from __future__ import annotations

from itertools import accumulate

from stackcheck.drawing.positions import Who
from stackcheck.model.finding import Standing
from stackcheck.value import Value

BODY, CORE, DISTANCE, PIN, WITHIN, HOUSING, SHELL, HIDDEN = (
    "body", "core", "distance", "pin", "within", "housing", "shell", "hidden",
)  # fmt: skip
SHAFTS = frozenset({"axle", "shaft", "arbor"})
HOUSINGS = frozenset({"hub", "housing", "drum", "bracket", "carrier", "wheel"})
PLATES = frozenset({"leg", "bracket", "carrier"})
FAR_MM = 1e6
"""Beyond every part: what reaches so far is drawn broken off."""


class Stage(Value, kw_only=True):
    """One step of a part that has several: where it lies along the axis, and its two radii [mm]."""

    first_mm: float
    second_mm: float
    inner_mm: float
    outer_mm: float


class Figure(Value, kw_only=True):
    """One part of one half. `inner_mm` and `outer_mm` are radii; a housing reaches over its neighbours from `reach_mm`.

    `facing` is -1 where the named feature points to the first end, +1 to the second, 0 where that is not known or
    asked. `steps` are those of a part that is given by its sections, first end to second as it stands: how long [share
    of the whole], inner and outer radius.
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
    steps: tuple[tuple[float, float, float], ...] = ()

    @property
    def length_mm(self) -> float:
        return self.second_mm - self.first_mm

    @property
    def stages(self) -> tuple[Stage, ...]:
        """Its steps along the axis, first end to second; itself as the only one where it has none."""
        steps = self.steps or ((1.0, self.inner_mm, self.outer_mm),)
        ends = [self.first_mm, *(self.first_mm + self.length_mm * end for end in accumulate(each[0] for each in steps))]
        return tuple(
            Stage(first_mm=first, second_mm=second, inner_mm=inner, outer_mm=outer)
            for first, second, (_, inner, outer) in zip(ends, ends[1:], steps)
        )
