"""Which pieces of a box make a pack that brings a gap where it should be.

All packs that the box allows are looked at, by thickness: for each thickness the sets of fewest pieces. Fewer pieces
come first, then the gap nearest to the middle of what is wanted; sets of equal thickness tie and are all named. "None"
is an answer, with the nearest pack to either side. Thickness is added up; a real packet also holds burrs and oil, so
measure it clamped (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.taken_limits import with_limits
from stackcheck.model.part import Shim, Size
from stackcheck.value import Value

STEP_MM = 0.001
MOST_SETS = 8
"""So many sets of one thickness and number are kept; they serve the same."""


class Pack(Value, kw_only=True):
    """A set of pieces: how many of each thickness of the box (in its sequence), what they add up to,
    and the gap they leave.
    """

    counts: tuple[int, ...]
    thickness: Interval
    gap: Interval

    @property
    def pieces(self) -> int:
        return sum(self.counts)


class Choice(Value, kw_only=True):
    """`packs` reach the target, best first; where none does, `nearest` holds the pack to either side of it, if any."""

    packs: tuple[Pack, ...]
    nearest: tuple[Pack, ...] = ()


def thickness_of(size: Size) -> Interval:
    """The thickness of one shim [mm], with the usual limits where none are stated.

    >>> thickness_of(Size(text="0.5 mm", nominal_mm=0.5))
    Interval(nominal_mm=0.5, least_mm=0.475, most_mm=0.525)
    """
    return Interval.of_size(with_limits(size, "shim ring"))


def choose(
    box: Sequence[Shim],
    *,
    bare_gap: Interval,
    opens: bool,
    target: tuple[float, float],
    pieces: int | None = None,
    most: int = 5,
) -> Choice:
    """The packs of a box that bring a gap between the target's ends.

    Args:
        box: thicknesses [mm] with their counts.
        bare_gap: the gap [mm] with no piece in; below 0 an overlap.
        opens: True where a thicker pack makes the gap larger.
        target: least and most gap wanted [mm].
        pieces: exactly so many; None for any number, none at all included.
        most: so many packs at the most.
    Raises:
        ValueError: a thickness not above 0, a count below 1, or a target that ends before it begins.

    Valid for rigid, flat pieces; left out: what the clamp takes from the pack.
    Source: enumeration, no formula; the preference is common practice, no source.

    >>> box = [Shim(thickness=Size(text="", nominal_mm=t, least_mm=t, most_mm=t), count=2) for t in (0.10, 0.25)]
    >>> choose(box, bare_gap=Interval.exactly(0.60), opens=False, target=(0.20, 0.30)).packs[0].counts
    (1, 1)
    """
    if any(not shim.thickness.nominal_mm > 0 or not shim.count > 0 for shim in box):
        raise ValueError("a thickness and a count are above 0")
    if not target[0] <= target[1]:
        raise ValueError("the target ends before it begins")
    packs = [_pack(box, counts, bare_gap, opens) for counts in _sets(box, pieces)]
    low, high = target[0] - STEP_MM / 1000, target[1] + STEP_MM / 1000
    middle = (target[0] + target[1]) / 2
    fitting = [pack for pack in packs if low <= pack.gap.nominal_mm <= high]
    fitting.sort(key=lambda pack: (pack.pieces, round(abs(pack.gap.nominal_mm - middle), 6), pack.counts))
    if fitting:
        return Choice(packs=tuple(fitting[:most]))
    below = max(
        (pack for pack in packs if pack.gap.nominal_mm < low),
        key=lambda pack: (pack.gap.nominal_mm, -pack.pieces),
        default=None,
    )
    above = min(
        (pack for pack in packs if pack.gap.nominal_mm > high),
        key=lambda pack: (pack.gap.nominal_mm, pack.pieces),
        default=None,
    )
    return Choice(packs=(), nearest=tuple(pack for pack in (below, above) if pack is not None))


def wanted_thickness(*, bare_gap: Interval, opens: bool, target: tuple[float, float]) -> tuple[float, float] | None:
    """Between which thicknesses [mm] a piece or a pack brings the gap between the target's ends, whatever the rest is.

    None where no thickness does for sure: what the gap may be without it is wider than the target.

    >>> bare_gap = Interval(nominal_mm=1.0, least_mm=0.98, most_mm=1.02)
    >>> wanted_thickness(bare_gap=bare_gap, opens=False, target=(0.20, 0.30))
    (0.72, 0.78)
    """
    if opens:
        low, high = target[0] - bare_gap.least_mm, target[1] - bare_gap.most_mm
    else:
        low, high = bare_gap.most_mm - target[1], bare_gap.least_mm - target[0]
    return (round(low, 9), round(high, 9)) if low <= high else None


def _pack(box: Sequence[Shim], counts: tuple[int, ...], bare_gap: Interval, opens: bool) -> Pack:
    thickness = Interval.exactly(0.0)
    for shim, count in zip(box, counts):
        if count:
            thickness += thickness_of(shim.thickness).times(count)
    return Pack(counts=counts, thickness=thickness, gap=bare_gap + thickness if opens else bare_gap - thickness)


def _sets(box: Sequence[Shim], pieces: int | None) -> Iterable[tuple[int, ...]]:
    """For every thickness that the box can make, the sets of fewest pieces; with `pieces` those of so many."""
    known: dict[tuple[int, int], list[tuple[int, ...]]] = {(0, 0): [()]}
    for shim in box:
        step = round(shim.thickness.nominal_mm / STEP_MM)
        more: dict[tuple[int, int], list[tuple[int, ...]]] = {}
        for (total, used), sets in known.items():
            for count in range(shim.count + 1):
                if pieces is None or used + count <= pieces:
                    ways = more.setdefault((total + count * step, used + count), [])
                    ways += [(*chosen, count) for chosen in sets[: MOST_SETS - len(ways)]]
        known = more
    fewest: dict[int, int] = {}
    for total, used in known:
        fewest[total] = min(used, fewest.get(total, used))
    for (total, used), sets in known.items():
        if used == (fewest[total] if pieces is None else pieces):
            yield from sets
