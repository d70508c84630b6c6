"""What heat does to a gap that no force closes: each of its two paths grows, and the gap by the difference, Σ ± α L ΔT.

Gaps between two bearings that a joint clamps or sets have more to them (preload, races):
`stackcheck.mechanics.clamped_network` and `stackcheck.mechanics.set_gap` answer for those.
Left out: what a clamped stack is shortened by another tension, the growth of a spring in the gap.
Source: lengths at 20 °C, ISO 1; linear growth (elementary).
"""

from __future__ import annotations

from collections.abc import Collection

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.heat import Heat, expansion_along
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.model.part import RING_BEARINGS
from stackcheck.model.reference import Loop
from stackcheck.value import Value


class WarmGap(Value, kw_only=True):
    """A gap of a reference, and how much wider it is at the temperatures of `heat` [mm];
    less than nothing: narrower.
    """

    gap: str
    heat: Heat
    wider_mm: float


def warm_gaps(arrangement: Arrangement, heat: Heat, *, told: Collection[str] = ()) -> tuple[WarmGap, ...]:
    """Every gap whose two paths are known, but those of the names in `told`; none where nothing is warm."""
    if not heat.is_warm:
        return ()
    found = []
    for loop in arrangement.reference.loops:
        wider = None if loop.name in told else _wider(arrangement, loop, heat)
        found += [] if wider is None else [WarmGap(gap=loop.name, heat=heat, wider_mm=wider)]
    return tuple(found)


def _wider(arrangement: Arrangement, loop: Loop, heat: Heat) -> float | None:
    lengths = loop_lengths(arrangement, loop)
    if lengths.missing or not lengths.terms:
        return None
    wider = 0.0
    for term in lengths.terms:
        part = arrangement.reference.part_at(term.place)
        ring = "outer" if part.kind in RING_BEARINGS and _is_outer(arrangement, loop, term.sign) else "inner"
        kelvin = heat.ring(part, term.place, ring) if part.kind in RING_BEARINGS else heat.kelvin(term.place, part.id)
        wider += term.sign * term.interval.nominal_mm * expansion_along(part) * kelvin
    return wider


def _is_outer(arrangement: Arrangement, loop: Loop, sign: int) -> bool:
    """Whether a length of this sign stands in the path of the outer rings."""
    stack = loop.closed_stack if sign > 0 else loop.open_stack
    return arrangement.reference.stack(stack).through == "outer rings"
