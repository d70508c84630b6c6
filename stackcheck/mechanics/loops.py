"""What the two paths of a loop leave between them: a gap or an overlap, and what the limits say to it.

The gap is the length of the closed path less the length of the open one. The two bearings that a loop shares add
nothing: a ring width varies, one-sidedly, but what counts is where its faces stand beside the spacer tube and the
seats, and that only differs by how far the inner ring stands out of the outer one: `inner_standout`, where the
reference gives it, and the widths of a taper bearing.

A gap that was measured directly decides; the sum stands beside it, and where the two have nothing in common the list
contradicts itself. Sizes that are only assumed decide nothing as long as
nothing in the loop was measured and nothing in it differs: then it was not looked at.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement, Member, as_believed, as_wanted
from stackcheck.mechanics.faces import wide_end
from stackcheck.mechanics.lengths import RING_WIDTH, Interval, Ruler, Term, has_two_widths
from stackcheck.mechanics.spread import Spread, spread_of
from stackcheck.mechanics.sums import Lengths, lengths_of
from stackcheck.mechanics.uncertainty import Measurement
from stackcheck.model.finding import Explanation, Standing
from stackcheck.model.found import Found
from stackcheck.model.part import SEATS, Part, Reading
from stackcheck.model.place_words import in_its_place
from stackcheck.model.reference import Loop, Reference
from stackcheck.value import Value, replace

Limits = tuple[float | None, float | None]

_ROUND_OFF_MM = 1e-9
"""Sums of decimal fractions miss a limit by less than this; no instrument sees it."""


class LoopState(Value, kw_only=True):
    """A loop with its gap as computed and as measured.

    `verdict` is "agrees", "differs", "cannot tell", "not looked at" or "no limits".
    `contradicted`: the gap as measured is not one that the parts as found can leave.
    """

    loop: Loop
    gap: Interval | None
    measured: Reading | None
    limits: Limits
    verdict: str
    needs: tuple[str, ...] = ()
    terms: tuple[Term, ...] = ()
    as_measured: Measurement | None = None
    contradicted: bool = False

    @property
    def spread(self) -> Spread | None:
        """How the sum is spread; None where anything is missing or doubtful, or where the gap is no sum."""
        return spread_of(self.terms, self.needs)

    @property
    def share_outside(self) -> tuple[float, float] | None:
        """The shares of all such assemblies whose gap lies below the least and above the most that is allowed."""
        spread = self.spread
        if spread is None:
            return None
        least, most = self.limits
        return (0.0 if least is None else spread.below(least), 0.0 if most is None else spread.above(most))


def loops(reference: Reference) -> tuple[LoopState, ...]:
    """Every loop of the reference: whether it closes within its limits, worst case."""
    arrangement = as_wanted(reference)
    return tuple(_state(loop, loop_lengths(arrangement, loop), None, looked_at=True) for loop in reference.loops)


def as_found_loops(reference: Reference, found: Found, explanation: Explanation) -> tuple[LoopState, ...]:
    """Every loop as this explanation believes it stood, with what was measured."""
    wanted, believed = as_wanted(reference), as_believed(reference, found, explanation)
    states = []
    for loop in reference.loops:
        lengths = loop_lengths(believed, loop)
        looked_at = any(term.is_measured for term in lengths.terms)
        looked_at = looked_at or bool(loop.closed_stack) and not _stands_as(wanted, believed, loop)
        state = _state(loop, lengths, measured_gap(found, loop.name), looked_at=looked_at)
        states.append(_contradicted(state, _gives_mm(reference, loop)))
    return tuple(states)


def _gives_mm(reference: Reference, loop: Loop) -> float:
    """How far a member that gives may stand from its place while the gap is measured [mm]:
    as far as the gap may vary.
    """
    gives = {support.place for support in reference.supports} & {*loop.gap_between, loop.start, loop.end}
    return loop.most_mm - loop.least_mm if gives and None not in (loop.least_mm, loop.most_mm) else 0.0


def _contradicted(state: LoopState, gives_mm: float) -> LoopState:
    """The state, told as contradicted where gap as measured and sum have nothing in common."""
    if state.measured is None or state.gap is None:
        return state
    apart = max(state.measured.low_mm - state.gap.most_mm, state.gap.least_mm - state.measured.high_mm)
    if apart <= gives_mm + _ROUND_OFF_MM:
        return state
    return replace(state, contradicted=True)


def measured_gap(found: Found, name: str) -> Reading | None:
    """The finest direct measurement of a gap."""
    readings = [item.reading for item in found.measured if item.gap == name and item.reading.is_measurement]
    return min(readings, key=lambda reading: reading.good_to_mm, default=None)


def against(gap: Interval, limits: Limits) -> str:
    """Whether a gap lies within its limits whatever it is in its interval, outside them, or neither for sure."""
    least = float("-inf") if limits[0] is None else limits[0] - _ROUND_OFF_MM
    most = float("inf") if limits[1] is None else limits[1] + _ROUND_OFF_MM
    if least <= gap.least_mm and gap.most_mm <= most:
        return "agrees"
    return "differs" if gap.most_mm < least or gap.least_mm > most else "cannot tell"


def _state(loop: Loop, lengths: Lengths, measured: Reading | None, *, looked_at: bool) -> LoopState:
    limits = (loop.least_mm, loop.most_mm)
    if loop.set_by:
        lengths = Lengths(doubts=(f"{loop.name} as measured, no sum of lengths (set by: {loop.set_by})",))
    gap = None if loop.set_by else lengths.total
    if limits == (None, None):
        verdict = "no limits"
    elif measured is not None:
        verdict = against(Interval.of_reading(measured), limits)
    elif not looked_at or loop.set_by:
        verdict = "not looked at"
    else:
        verdict = "cannot tell" if gap is None else against(gap, limits)
    return LoopState(
        loop=loop, gap=gap, measured=measured, limits=limits, verdict=verdict, needs=lengths.needs,
        terms=lengths.terms, as_measured=lengths.measurement,
    )  # fmt: skip


def loop_lengths(arrangement: Arrangement, loop: Loop) -> Lengths:
    """The closed path less the open one, with the sign of a gap."""
    if not loop.closed_stack:
        return Lengths()  # no second path: only a measurement can tell
    absent = [
        in_its_place(arrangement.reference, place)
        for place in (loop.start, loop.end)
        if any(_position(arrangement, stack, place) is None for stack in (loop.closed_stack, loop.open_stack))
    ]
    if absent := absent or _seats_gone(arrangement, loop):
        return Lengths(missing=tuple(absent))
    return _path(arrangement, loop, loop.closed_stack) + -_path(arrangement, loop, loop.open_stack)


def _seats_gone(arrangement: Arrangement, loop: Loop) -> list[str]:
    """What holds the outer rings of a loop, where it is gone from between them: without seats there is no such gap, and
    no length of another part says how the rings stand.
    """
    reference = arrangement.reference
    for stack, path in ((loop.closed_stack, loop.closed_path), (loop.open_stack, loop.open_path)):
        seats = [place for place in path if reference.part_at(place).kind in SEATS]
        if reference.stack(stack).through == "outer rings" and seats:
            first, last = _ends(arrangement, loop, stack)
            between = arrangement.members(stack)[first + 1 : last]
            if not any(_is_seat(arrangement, member) for member in between):
                return [in_its_place(reference, place) for place in seats]
    return []


def _is_seat(arrangement: Arrangement, member: Member) -> bool:
    """Whether something that holds an outer ring stands there, or something that nobody has told."""
    part = arrangement.ruler.part(member.standing)
    return part is None or part.kind in SEATS


def _path(arrangement: Arrangement, loop: Loop, stack: str) -> Lengths:
    first, last = _ends(arrangement, loop, stack)
    members = arrangement.members(stack)
    through = arrangement.reference.stack(stack).through
    lengths = lengths_of(arrangement.ruler, members[first + 1 : last], through)
    if through == "inner rings":
        lengths += standout(arrangement, members[first].standing).toward_second
        lengths += standout(arrangement, members[last].standing).toward_first
    return lengths


def _ends(arrangement: Arrangement, loop: Loop, stack: str) -> tuple[int, int]:
    ends = (_position(arrangement, stack, loop.start), _position(arrangement, stack, loop.end))
    return min(ends), max(ends)


def _position(arrangement: Arrangement, stack: str, place: str) -> int | None:
    """Where the part of a place stands in a stack;
    None where it is not there, or was moved: beside it lies no such gap.
    """
    homes = [member.standing.home if member.place is not None else None for member in arrangement.members(stack)]
    return homes.index(place) if place in homes else None


def _stands_as(wanted: Arrangement, believed: Arrangement, loop: Loop) -> bool:
    """Whether both paths hold what the reference wants in them, whatever its sizes."""
    return all(
        _held(wanted, loop, stack) == _held(believed, loop, stack) for stack in (loop.closed_stack, loop.open_stack)
    )


def _held(arrangement: Arrangement, loop: Loop, stack: str) -> list[Member] | None:
    if any(_position(arrangement, stack, place) is None for place in (loop.start, loop.end)):
        return None
    first, last = _ends(arrangement, loop, stack)
    return [
        replace(member, standing=replace(member.standing, entry=None))
        for member in arrangement.members(stack)[first : last + 1]
    ]


class Standout(Value, kw_only=True):
    """How far the inner ring of a bearing stands out of its outer ring, toward either end."""

    toward_first: Lengths = Lengths()
    toward_second: Lengths = Lengths()


def standout(arrangement: Arrangement, standing: Standing) -> Standout:
    """The stand-out of the inner ring, nothing where the reference gives none.

    The rings of a taper bearing stand out by its widths: T over both backs less that of the inner ring where the small
    ends of the rollers look, T less that of the outer ring where they do not (ISO 355).
    `inner_standout` holds for the first place of the part; in a place that faces the other way, and in a part that was
    turned round, it is on the other side. What stands out at one side is missing at the other,
    but for the difference of the two ring widths where both are given.
    """
    ruler = arrangement.ruler
    part = ruler.part(standing)
    size = part.size("inner_standout") if part is not None else None
    if part is not None and size is None and has_two_widths(part):
        return _of_widths(ruler, standing, part)
    if part is None or size is None:
        return Standout()
    reading = ruler.readings.size(standing, "inner_standout")
    measured = reading is not None and reading.is_measurement
    term = Term(
        place=standing.home, entry=standing.entry, name=f"{part.name}: inner ring stands out", sign=1,
        interval=Interval.of_reading(reading) if measured else Interval.of_size(size),
        how=reading.how if measured else size.limits_from or "reference", text=reading.text if measured else size.text,
        reading=reading if measured else None,
    )  # fmt: skip
    one_side = Lengths(terms=(term,))
    widths = {through: ruler.term(standing, through) for through, name in RING_WIDTH.items() if part.size(name)}
    other_side = -one_side
    if len(widths) == 2:
        inner, outer = (replace(widths[through], name=f"{part.name}: {through[:-1]}") for through in RING_WIDTH)
        other_side += Lengths(terms=(inner, replace(outer, sign=-1)))
    mirrored = standing.turned != _faces_otherwise(arrangement.reference, standing)
    first, second = (other_side, one_side) if mirrored else (one_side, other_side)
    return Standout(toward_first=first, toward_second=second)


def over_both_backs(ruler: Ruler, standing: Standing) -> Term | None:
    """The width T of a taper bearing, from the back of its inner ring to the back of its outer one; None for any other."""
    part = ruler.part(standing)
    return ruler.term(standing, "") if part is not None and has_two_widths(part) else None


def _of_widths(ruler: Ruler, standing: Standing, part: Part) -> Standout:
    looks, over = wide_end(ruler, standing), over_both_backs(ruler, standing)
    inner, outer = (ruler.term(standing, through) for through in RING_WIDTH)
    if not looks or over is None or inner is None:
        return Standout()
    over, inner = replace(over, name=f"{part.name}: both rings"), replace(inner, name=f"{part.name}: inner ring")
    small = Lengths(terms=(inner, replace(over, sign=-1)))
    if outer is None:
        large = Lengths(missing=(ruler.needs_length(standing),))
    else:
        large = Lengths(terms=(over, replace(outer, name=f"{part.name}: outer ring", sign=-1)))
    first, second = (small, large) if looks == "first" else (large, small)
    return Standout(toward_first=first, toward_second=second)


def _faces_otherwise(reference: Reference, standing: Standing) -> bool:
    places = reference.places_of(standing.part)
    if standing.home is None or not reference.has_place(standing.home):
        return False
    return bool(places) and reference.place(standing.home).facing != places[0].facing
