"""One part as it is drawn: its role, its faces and its two radii [mm], and which of its sizes were assumed.

A role says what a part is in the picture: a body of its own, the core that runs through everything, a distance of the
machine, a pin, a ring within a bearing's outline, a housing, a shell around what it spans, or nothing to be seen.
"""

from __future__ import annotations

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


class Figure(Value, kw_only=True):
    """One part of one half. `inner_mm` and `outer_mm` are radii; a housing reaches over its neighbours from `reach_mm`.

    `facing` is -1 where the named feature points to the first end, +1 to the second, 0 where that is not known or
    asked.
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
