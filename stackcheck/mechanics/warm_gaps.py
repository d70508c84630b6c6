"""What heat does to a gap that no force closes: each of its two paths grows, and the gap by the difference, Σ ± α L ΔT.

Where a path goes through a taper bearing from ring to ring, as it does where covers stop the outer rings from outside
(X, face to face), the races add Δd/(2 tan α) a bearing. Gaps between two bearings that a joint clamps or sets have more
to them (preload, races): `stackcheck.mechanics.clamped_network` and `stackcheck.mechanics.set_gap` answer for those.
Left out: what a clamped stack is shortened by another tension, the growth of a spring in the gap.
Source: lengths at 20 °C, ISO 1; linear growth (elementary).
"""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.bearing_laws import contact_angle
from stackcheck.mechanics.heat import COLD, FOLLOWS_IS, Heat, along
from stackcheck.mechanics.heat_of_bearings import clearance_change
from stackcheck.mechanics.lengths import Term
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.mechanics.sums import Lengths
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.expansion import expansion_along
from stackcheck.model.part import RING_BEARINGS, SEATS, Part
from stackcheck.model.reference import Loop
from stackcheck.value import Value


class WarmGap(Value, kw_only=True):
    """A gap of a reference, and how much wider it is at the temperatures of `heat` [mm]; less than nothing: narrower.

    `wider_mm` by length; `by_races_mm` by the races of taper bearings that one of its paths goes through from ring to
    ring, None where none stands there.
    """

    gap: str
    heat: Heat
    wider_mm: float
    by_races_mm: Spanned | None = None

    @property
    def defaults(self) -> tuple[str, ...]:
        return () if self.by_races_mm is None else (FOLLOWS_IS,)


def warm_gaps(arrangement: Arrangement, heat: Heat, *, told: Collection[str] = ()) -> tuple[WarmGap, ...]:
    """Every gap whose two paths are known, but those of the names in `told`; none where nothing has grown."""
    if not heat.is_grown:
        return ()
    loops = (loop for loop in arrangement.reference.loops if loop.name not in told)
    return tuple(gap for loop in loops if (gap := warm_gap(arrangement, loop, heat)) is not None)


def warm_gap(arrangement: Arrangement, loop: Loop, heat: Heat) -> WarmGap | None:
    """How much wider a gap is than at 20 °C, or than when somebody set it; None where a length is missing."""
    lengths = loop_lengths(arrangement, loop)
    if lengths.missing or not lengths.terms:
        return None
    before = heat.together if loop.set_by else COLD
    longer = by_length(arrangement, loop, lengths, heat) - by_length(arrangement, loop, lengths, before)
    crossed = [term for term in lengths.terms if _goes_from_ring_to_ring(arrangement, loop, term)]
    if not crossed:
        return WarmGap(gap=loop.name, heat=heat, wider_mm=longer)
    unknowns, races = with_variants(
        lambda u: sum(
            by_races(u, arrangement, loop, term, heat) - by_races(u, arrangement, loop, term, before)
            for term in crossed
        )
    )
    return WarmGap(gap=loop.name, heat=heat, wider_mm=longer, by_races_mm=unknowns.spanned(races))


def by_length(arrangement: Arrangement, loop: Loop, lengths: Lengths, heat: Heat) -> float:
    """What its lengths have added to a gap since 20 °C [mm]."""
    wider = 0.0
    for term in lengths.terms:
        part = _part_of(arrangement, loop, term)
        if part is not None and part.kind in RING_BEARINGS:
            kelvin = heat.ring(part, term.place, "outer" if _is_outer(arrangement, loop, term.sign) else "inner")
        else:
            kelvin = heat.kelvin(term.place, part and part.id)
        wider += term.sign * term.interval.nominal_mm * expansion_along(part) * kelvin
    return wider


def _goes_from_ring_to_ring(arrangement: Arrangement, loop: Loop, term: Term) -> bool:
    """Whether a path comes in at one ring of a taper bearing and leaves at the other: its stack is through neither."""
    stack = arrangement.reference.stack(_stack_of(loop, term.sign))
    part = _part_of(arrangement, loop, term)
    return not stack.through and part is not None and part.kind == "taper bearing"


def by_races(unknowns: Unknowns, arrangement: Arrangement, loop: Loop, term: Term, heat: Heat) -> Any:
    """A wider outer race lets the rollers further in: the bearing is shorter over both rings by Δd/(2 tan α)."""
    reference = arrangement.reference
    part = _part_of(arrangement, loop, term)
    standing = [reference.part_at(place) for place in (*loop.open_path, *loop.closed_path)]
    seat = next((each for each in standing if each.kind in SEATS), None)
    wider = clearance_change(unknowns, part, term.place, seat, heat)
    return -term.sign * along(wider, contact_angle(unknowns, part))


def _part_of(arrangement: Arrangement, loop: Loop, term: Term) -> Part | None:
    """What a length is of; None for what is no part of the reference."""
    if term.place is not None:
        return arrangement.reference.part_at(term.place)
    members = arrangement.members(_stack_of(loop, term.sign))
    return next((arrangement.ruler.part(each.standing) for each in members if each.standing.entry == term.entry), None)


def _stack_of(loop: Loop, sign: int) -> str:
    """In which stack a length of this sign stands."""
    return loop.closed_stack if sign > 0 else loop.open_stack


def _is_outer(arrangement: Arrangement, loop: Loop, sign: int) -> bool:
    """Whether a length of this sign stands in the path of the outer rings."""
    return arrangement.reference.stack(_stack_of(loop, sign)).through == "outer rings"
