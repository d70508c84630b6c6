"""Two bearings of one direction and what presses them on each other: their middles, and what gives between those.

A *nut* presses the inner rings together, or lets them apart, while the hub stands between the outer ones. An *adjuster*
that screws into the case, or a *cover* over shims, presses the outer rings together while the shaft stands between the
inner ones (X, face to face: the wide faces of the outer rings look away from each other). One row of springs, both
times: rollers, inner path, rollers, outer path; what is set is only how long one path is beside the other.

The case that an adjuster or a cover pulls on is stretched: a tube around the outer rings, of a wall that nobody gives.
A cover bends, and its screws stretch.
Left out: what the thread of an adjuster gives, a gasket that creeps.
Source: elementary; walls, covers and screws by our own figures.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.laws import Element, held
from stackcheck.mechanics.axial.network import Network
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA, tube_stiffness
from stackcheck.mechanics.axle import axle_stiffness, rods, stretches
from stackcheck.mechanics.bearing_laws import contact_angle, pushed, rolling
from stackcheck.mechanics.bodies import Missing, ring_stiffness
from stackcheck.mechanics.clamp import clamped_stack, inner_stack, joins_bearings
from stackcheck.mechanics.grip_gives import row_gives
from stackcheck.mechanics.heat import Heat, along
from stackcheck.mechanics.heat_of_bearings import axle_expansion, axle_kelvin, clearance_change, seat_of
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.mechanics.slip_force import SEAT_WALL
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.mechanics.warm_gaps import by_length, by_races
from stackcheck.model.expansion import expansion, expansion_along
from stackcheck.model.finding import Standing
from stackcheck.model.part import SEATS, SINGLE_DIRECTION_KINDS, Part
from stackcheck.model.place_words import in_its_place
from stackcheck.model.reference import Joint, Loop, Reference
from stackcheck.value import Value

FORCED = "inner path"
"""The element whose force is that between the rings."""

FACE_TO_FACE = ["first", "second"]
"""The ends that the wide faces of two outer rings look to where an adjuster or a cover can press them."""

COVER_GIVES_MM_PER_N = (0.0, 1.5e-6, 5e-6)
"""What one cover and its screws give under the thrust of a bearing: our own figures."""

CASE_MPA = (70e3, 110e3, 206e3)
"""Of a case whose metal nobody gives: aluminium, cast iron, steel."""

Grows = Callable[[Heat], Any]


class SetPair(Value, kw_only=True):
    """`parts` by their places, first end to second; `rows` the law of each; `opens` is 1 where inner rings that come
    apart have more play, -1 where they have less; `inner` and `outer` are what gives between the middles [mm/N];
    `by_length` and `by_races` what heat adds to the play [mm]; `is_pressed` tells outer rings that are pressed.
    """

    parts: dict[str, Part]
    rows: tuple[Element, ...]
    opens: float
    inner: Any
    outer: Any
    by_length: Grows
    by_races: Grows
    is_pressed: bool = False
    defaults: tuple[str, ...] = ()

    @property
    def places(self) -> tuple[str, ...]:
        return tuple(self.parts)

    def network(self, play_mm: Any) -> Network:
        """`play_mm` from where all rollers just touch."""
        inner = held(FORCED, "inner, first", "inner, second", length=self.opens * play_mm, k=1 / self.inner)
        outer = held("outer path", "outer, first", "outer, second", length=0.0, k=1 / self.outer)
        return Network(elements=(*self.rows, inner, outer), fixed={"inner, first": 0.0})


def set_loops(reference: Reference) -> tuple[tuple[Joint | None, Loop], ...]:
    """Every play between two bearings of one direction that a joint sets, or a cover that presses their outer rings
    (None: no joint).
    """
    joints = {joint.name: joint for joint in reference.joints}
    return tuple(
        (joints.get(loop.set_by), loop)
        for loop in reference.loops
        if loop.set_by in joints and joins_bearings(reference, loop) or _is_between_covers(reference, loop)
    )


def paired_places(reference: Reference, loop: Loop) -> tuple[str, ...]:
    """The two bearings that a play lies between: its ends, or those in its path from cover to cover."""
    if joins_bearings(reference, loop):
        return loop.start, loop.end
    return tuple(place for place in loop.open_path if reference.part_at(place).kind in SINGLE_DIRECTION_KINDS)


def _is_between_covers(reference: Reference, loop: Loop) -> bool:
    """Whether a gap lies in a path from case to case through both bearings, their wide faces outward."""
    places = paired_places(reference, loop)
    if not (loop.stated and loop.closed_stack) or joins_bearings(reference, loop) or len(places) != 2:
        return False
    through = reference.stack(loop.open_stack).through
    return not through and [reference.place(place).facing for place in places] == FACE_TO_FACE


def set_pair(unknowns: Unknowns, arrangement: Arrangement, joint: Joint | None, loop: Loop) -> SetPair:
    """The two bearings of a loop and what presses them.

    Raises:
        Missing: a part, a size, or which way a bearing looks.
    """
    reference, ruler = arrangement.reference, arrangement.ruler
    places = paired_places(reference, loop)
    standings = {place: _standing(arrangement, place) for place in places}
    parts = {place: ruler.part(standing) for place, standing in standings.items()}
    ways = [pushed(ruler, standing) for standing in standings.values()]
    if set(ways) != {"first", "second"}:
        raise Missing(
            f"two bearings of one direction that look at each other, or away from each other, around the {loop.name}"
        )
    rows = tuple(
        rolling(unknowns, part, place, f"inner, {at}", f"outer, {at}", pushed=way)
        for (place, part), at, way in zip(parts.items(), ("first", "second"), ways)
    )
    if joint is not None and clamped_stack(reference, joint) is not None:
        pressed = _by_nut(unknowns, arrangement, joint, loop, parts, 1.0 if ways != FACE_TO_FACE else -1.0)
    elif ways != FACE_TO_FACE:
        raise Missing(
            "outer rings whose wide faces (at the small ends of the rollers) look away from each other: pressed "
            "from outside, others carry nothing"
        )
    elif joint is not None:
        pressed = _by_adjuster(unknowns, arrangement, joint, loop, parts)
    else:
        pressed = _by_cover(unknowns, arrangement, loop, parts)
    return SetPair(parts=parts, rows=rows, opens=-1.0 if ways == FACE_TO_FACE else 1.0, **pressed)


def _half_rings(unknowns: Unknowns, parts: dict[str, Part], ring: str) -> Any:
    """What the inner halves of both rings give [mm/N]."""
    return sum(1 / (2 * ring_stiffness(unknowns, part, ring)) for part in parts.values())


def _by_nut(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop, parts: dict[str, Part], opens: float
) -> dict[str, Any]:
    """Inner rings joined by what the nut presses, outer rings by the hub."""
    reference, stack = arrangement.reference, clamped_stack(arrangement.reference, joint)
    outer_stack = loop.open_stack if loop.closed_stack == inner_stack(reference, loop) else loop.closed_stack
    pressed = row_gives(unknowns, arrangement, stack, _run(arrangement, stack, *joint.clamps), joint)
    between = row_gives(
        unknowns, arrangement, outer_stack, _run(arrangement, outer_stack, loop.start, loop.end), joint
    )[1:-1]
    inner, hub = (_half_rings(unknowns, parts, ring) for ring in ("inner", "outer"))
    hub += sum(soft for _, soft, _ in between)
    inner += sum(soft for member, soft, _ in pressed if member.standing.home not in parts)
    length, thread = sum(length for _, _, length in (*pressed, *between)), thread_of(joint)
    if thread is not None and length > 0:
        around, shank = stretches(arrangement, pressed), rods(reference, joint)
        inner += 1 / axle_stiffness(unknowns, thread, around, length, shank)

    def grown(heat: Heat) -> float:
        """The inner rings stand between the shoulder of the axle and its nut:
        they come apart by what the axle grows there, less what the parts outside them grow.
        """
        outer = sum(_growth(arrangement, *row, heat) for row in between)
        apart = sum(length for _, _, length in between)
        outside, gripped = 0.0, 0.0
        for member, soft, length in pressed:
            part, home = arrangement.ruler.part(member.standing), member.standing.home
            if home in parts:
                outer += length / 2 * expansion(part) * heat.ring(part, home, "outer")
                outside += length / 2 * expansion(part) * heat.ring(part, home, "inner")
                apart, gripped = apart + length / 2, gripped + length / 2
            else:
                outside += _growth(arrangement, member, soft, length, heat)
                gripped += length
        axle = axle_expansion(reference, joint) * axle_kelvin(reference, heat) * (gripped + apart)
        return opens * (axle - outside - outer)

    return {
        "inner": inner, "outer": hub, "by_length": grown,
        "by_races": lambda heat: _races(unknowns, arrangement, parts, outer_stack, heat),
    }  # fmt: skip


def _by_adjuster(
    unknowns: Unknowns, arrangement: Arrangement, joint: Joint, loop: Loop, parts: dict[str, Part]
) -> dict[str, Any]:
    """Outer rings that the adjuster presses against what stops the other one, inner rings with the shaft between."""
    reference = arrangement.reference
    outer_stack = next(
        (
            name
            for name in (loop.open_stack, loop.closed_stack)
            if set(joint.clamps) <= set(reference.stack(name).places)
        ),
        None,
    )
    if outer_stack is None:
        raise Missing(f"the stack that holds both places the {joint.name} clamps")
    shaft_stack = loop.open_stack if outer_stack == loop.closed_stack else loop.closed_stack
    between = row_gives(
        unknowns, arrangement, shaft_stack, _run(arrangement, shaft_stack, loop.start, loop.end), joint
    )[1:-1]
    pressed = row_gives(unknowns, arrangement, outer_stack, _run(arrangement, outer_stack, *joint.clamps), joint)
    rings = [row for row in pressed if row[0].standing.home in parts]
    pressed = [row for row in pressed if row[0].standing.home not in parts]
    width = sum(length for *_, length in rings)
    length = sum(length for *_, length in (*between, *pressed)) + width
    case = next((seat_of(arrangement, place, outer_stack) for place in parts), None)
    ends = [reference.part_at(place) for place in _beyond(reference, outer_stack, joint)]
    case_gives, defaults = _case(unknowns, parts, length, case.material if case is not None else "")
    cover_gives, bends = _covers(unknowns, ends)
    inner, outer = (_half_rings(unknowns, parts, ring) for ring in ("inner", "outer"))

    def grown(heat: Heat) -> float:
        """The case between its two ends grows, less what of it the parts between these and the rollers take."""
        apart = sum(_growth(arrangement, *row, heat) for row in between)
        stretched = length * expansion(case) * heat.kelvin(*((case.id,) if case is not None else ()))
        stretched -= sum(_growth(arrangement, *row, heat) for row in pressed)
        for member, _, wide in rings:
            part, home = arrangement.ruler.part(member.standing), member.standing.home
            apart += wide / 2 * expansion(part) * heat.ring(part, home, "inner")
            stretched -= wide / 2 * expansion(part) * heat.ring(part, home, "outer")
        return stretched - apart

    return {
        "inner": inner + sum(soft for _, soft, _ in between),
        "outer": outer + case_gives + cover_gives + sum(soft for _, soft, _ in pressed),
        "by_length": grown,
        "by_races": lambda heat: _races(unknowns, arrangement, parts, outer_stack, heat),
        "is_pressed": True,
        "defaults": (*defaults, *bends),
    }


def _by_cover(unknowns: Unknowns, arrangement: Arrangement, loop: Loop, parts: dict[str, Part]) -> dict[str, Any]:
    """Outer rings between two ends of a case, one of them a cover over shims; inner rings with the shaft between."""
    reference = arrangement.reference
    row = row_gives(unknowns, arrangement, loop.open_stack, _run(arrangement, loop.open_stack, *parts)[1:-1], None)
    lengths = loop_lengths(arrangement, loop)
    if lengths.missing:
        raise Missing(*lengths.missing)
    case = next((part for place in loop.closed_path if (part := reference.part_at(place)).kind in SEATS), None)
    length = sum(term.interval.nominal_mm for term in lengths.terms if term.sign > 0)
    case_gives, defaults = _case(unknowns, parts, length, case.material if case is not None else "")
    cover_gives, bends = _covers(unknowns, [reference.part_at(place) for place in (loop.start, loop.end)])
    inner, outer = (_half_rings(unknowns, parts, ring) for ring in ("inner", "outer"))
    crossed = [term for term in lengths.terms if term.place in parts]
    return {
        "inner": inner + sum(soft for _, soft, _ in row),
        "outer": outer + case_gives + cover_gives,
        "by_length": lambda heat: by_length(arrangement, loop, lengths, heat),
        "by_races": lambda heat: sum(by_races(unknowns, arrangement, loop, term, heat) for term in crossed),
        "is_pressed": True,
        "defaults": (*defaults, *bends),
    }


def _case(unknowns: Unknowns, parts: dict[str, Part], length_mm: float, metal: str) -> tuple[Any, tuple[str, ...]]:
    """What a case around the outer rings is stretched by [mm/N], and what was taken for it."""
    bores = [size.nominal_mm for part in parts.values() if (size := part.size("outside")) is not None]
    if not bores or not length_mm > 0:
        raise Missing("outside diameter of the bearings and length of what stands between them")
    bore, known = max(bores), MODULUS_MPA.get(metal)
    modulus = unknowns.value("metal of the case", *CASE_MPA) if known is None else known
    wall = unknowns.value("outside of the case over its seat", *SEAT_WALL)
    k = tube_stiffness(outside_mm=wall * bore, bore_mm=bore, length_mm=length_mm, modulus_mpa=modulus)
    taken = f"outside of the case {SEAT_WALL[0]:g} to {SEAT_WALL[-1]:g} times its seat (our own figures)"
    return 1 / k, (taken,) if known else (taken, "case of any metal from aluminium to steel")


def _covers(unknowns: Unknowns, ends: list[Part]) -> tuple[Any, tuple[str, ...]]:
    """What the covers among the ends of a case give [mm/N], and what was taken for them."""
    count = sum(part.kind in ("cover", "cap") for part in ends)
    if not count:
        return 0.0, ()
    gives = unknowns.value("give of a cover and its screws", *COVER_GIVES_MM_PER_N)
    most = 1e6 * COVER_GIVES_MM_PER_N[-1]
    return count * gives, (f"a cover and its screws give up to {most:g} µm a kN (our own figures)",)


def _beyond(reference: Reference, stack: str, joint: Joint) -> list[str]:
    """What stands next to the two clamped places, outside them."""
    places = reference.stack(stack).places
    first, last = sorted(places.index(place) for place in joint.clamps)
    return [*places[max(first - 1, 0) : first], *places[last + 1 : last + 2]]


def _growth(arrangement: Arrangement, member: Member, _: Any, length_mm: float, heat: Heat) -> float:
    """What one member between two bearings has grown [mm]."""
    part = arrangement.ruler.part(member.standing)
    kelvin = heat.kelvin(member.standing.home, part.id if part is not None else None)
    return length_mm * expansion_along(part) * kelvin


def _races(unknowns: Unknowns, arrangement: Arrangement, parts: dict[str, Part], outer_stack: str, heat: Heat) -> Any:
    """What the growth of the races adds to the play of both bearings [mm]."""
    return sum(
        along(
            clearance_change(unknowns, part, place, seat_of(arrangement, place, outer_stack), heat),
            contact_angle(unknowns, part),
        )
        for place, part in parts.items()
    )


def _standing(arrangement: Arrangement, place: str) -> Standing:
    for stack in arrangement.reference.stacks:
        for member in arrangement.members(stack.name):
            if member.standing.home == place and (part := arrangement.ruler.part(member.standing)) is not None:
                if part.kind not in SINGLE_DIRECTION_KINDS:
                    raise Missing(f"a bearing of one direction in {place}")
                return member.standing
    raise Missing(in_its_place(arrangement.reference, place))


def _run(arrangement: Arrangement, stack: str, start: str, end: str) -> list[Member]:
    members = list(arrangement.members(stack))
    homes = [member.standing.home for member in members]
    absent = [place for place in (start, end) if place not in homes]
    if absent:
        raise Missing(*(in_its_place(arrangement.reference, place) for place in absent))
    first, last = sorted((homes.index(start), homes.index(end)))
    return members[first : last + 1]
