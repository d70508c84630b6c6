"""Which shims, which ring or which slot of a nut brings a gap of a reference to where it should be.

The gap without the piece in question comes from a measurement of the gap as it is, else from the sum of everything else
in its two paths, as found where a list is given. A ring that is chosen makes up for wear, never for a part that is not
there: with anything missing, over or exchanged in the two paths nothing is proposed.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stackcheck.compare import explanations
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.chain import LoopState, as_found_loops, loops
from stackcheck.mechanics.lengths import Interval, total_of
from stackcheck.mechanics.loops import against
from stackcheck.mechanics.nut_slots import Slot, slots_within, thread_pitch_mm
from stackcheck.mechanics.shims import Choice, choose, wanted_thickness
from stackcheck.model.finding import Explanation, Finding
from stackcheck.model.found import Found
from stackcheck.model.part import Reading, Shim
from stackcheck.model.reference import Joint, Loop, Reference
from stackcheck.value import Value, replace

if TYPE_CHECKING:
    from stackcheck.mechanics.heat import Heat
    from stackcheck.mechanics.unknowns import Spanned

SHIM_KINDS = frozenset({"shim ring"})
SELECTIVE = "selective"
"""What the name of a part says of which one piece is chosen, whatever its kind."""

CHANGES_WHAT_IS_THERE = frozenset(
    {"missing", "extra", "different_part", "count_differs", "swapped", "out_of_place", "run_moved", "run_end_for_end"}
)


MOST_TURNS = 2
"""A play of more turns of its nut than these is no play, but a slip of the pen: common practice, no source."""


class CannotChoose(ValueError):
    """The question cannot be put so: `what` is the matter, `wanted` how to ask."""

    def __init__(self, what: str, wanted: str):
        self.what, self.wanted = what, wanted
        super().__init__(f"{what}: {wanted}")


class ShimAnswer(Value, kw_only=True):
    """What brings the gap to its target.

    `now` is the pack or piece as it is, `gap_now` the measured gap with it in (None where the sum counts), `bare_gap`
    the gap without it; `wanted_mm` the thickness that does for sure, None where none does; `choice` None without a box.
    `put_right_first` names what else differs in the two paths: then there is no choice. `reckoned` is True where no
    measurement of this very assembly went in.
    """

    loop: Loop
    place: str
    opens: bool
    target: tuple[float, float]
    now: Interval
    gap_now: Reading | None
    bare_gap: Interval | None
    wanted_mm: tuple[float, float] | None
    choice: Choice | None
    box: tuple[Shim, ...] = ()
    put_right_first: tuple[Finding, ...] = ()
    needs: tuple[str, ...] = ()
    reckoned: bool = False

    @property
    def is_sure(self) -> bool:
        """Whether something was found that does, whatever the lengths are within what they are good to."""
        if self.choice is None:
            return self.wanted_mm is not None
        return any(against(pack.gap, self.target) == "agrees" for pack in self.choice.packs)


class AtAnotherHole(Value, kw_only=True):
    """The slots if the pin now stands in this hole [degrees around the axle], where that makes a difference."""

    hole_deg: float
    slots: tuple[Slot, ...]


class WarmSlots(Value, kw_only=True):
    """What heat adds to the play of every slot alike; `needs` where it cannot be told."""

    heat: Heat
    more_mm: Spanned | None = None
    needs: tuple[str, ...] = ()

    def play(self, slot: Slot) -> Interval:
        """The play that a slot leaves while it is so warm [mm]."""
        more = self.more_mm
        return slot.play + Interval(nominal_mm=more.usual, least_mm=more.least, most_mm=more.most)


class SlotAnswer(Value, kw_only=True):
    """Where a castellated nut can be locked around the play that was measured.

    `slots` are those with the pin in the first hole; `elsewhere` those with it in another, each hole from which other
    slots can be reached.
    """

    loop: Loop
    joint: Joint
    play: Reading
    target: tuple[float, float]
    slots: tuple[Slot, ...]
    elsewhere: tuple[AtAnotherHole, ...] = ()
    warm: tuple[WarmSlots, ...] = ()

    @property
    def is_sure(self) -> bool:
        """Whether a slot is within from whatever hole the pin stands in."""
        return all(
            any(against(slot.play, self.target) == "agrees" for slot in slots)
            for slots in (self.slots, *(other.slots for other in self.elsewhere))
        )


def shims(
    reference: Reference,
    gap: str,
    box: Sequence[Shim] = (),
    *,
    found: Found | None = None,
    measured: Reading | None = None,
    place: str = "",
    target: tuple[float, float] | None = None,
) -> ShimAnswer:
    """Which pieces of the box bring the gap between its limits; without a box which thickness does.

    Args:
        gap: name of a loop of the reference.
        box: what there is to choose from.
        found: the teardown list that tells what stood there and what was measured.
        measured: the gap as it is, with the present piece in; counts before what the list says.
        place: the place whose thickness is chosen; may be left out where the gap has one place of shim rings, or
            one of a part that is called selective.
        target: least and most gap wanted [mm], the limits of the reference when left out.
    Raises:
        CannotChoose: unknown gap or place, no target, several places that could be meant.
    """
    explanation = explanations(reference, found)[0] if found is not None else None
    state = _state(reference, gap, found, explanation)
    place = place or _only_place_of_shims(reference, state)
    target = target or _target(state.loop)
    own = [term for term in state.terms if term.place == place]
    if not own:
        raise CannotChoose(f'"{place}" has no length in the {gap}', f"places in it: {_listed(state)}")
    opens = own[0].sign > 0
    in_the_way = _in_the_way(reference, state.loop, place, explanation)
    now = total_of([replace(term, sign=1) for term in own])
    reading = measured or state.measured
    bare = None if in_the_way else _bare_gap(state, place, now, opens, reading)
    is_pack = reference.part_at(place).kind in SHIM_KINDS and not _is_selective(reference, place)
    pieces = None if is_pack else reference.place(place).count
    return ShimAnswer(
        loop=state.loop,
        place=place,
        opens=opens,
        target=target,
        now=now,
        gap_now=reading,
        bare_gap=bare,
        wanted_mm=None if bare is None else wanted_thickness(bare_gap=bare, opens=opens, target=target),
        choice=None
        if bare is None or not box
        else choose(box, bare_gap=bare, opens=opens, target=target, pieces=pieces),
        box=tuple(box),
        put_right_first=in_the_way,
        needs=() if reading or in_the_way else state.needs,
        reckoned=reading is None and not any(term.is_measured for term in state.terms),
    )


def nut_slots(
    reference: Reference,
    gap: str,
    measured: Reading,
    *,
    target: tuple[float, float] | None = None,
    heats: Sequence[Heat] = (),
) -> SlotAnswer:
    """The slots around a measured play.

    Args:
        gap: name of a gap that a castellated nut sets.
        measured: the play with the nut where it stands now, pin hole and slot in line.
        heats: how warm it gets; the play is measured as warm as it is put together.
    Raises:
        CannotChoose: unknown gap, no nut with slots sets it, no pitch, no target, a play of many turns.
    """
    loop = _loop(reference, gap)
    joint = _joint_that_sets(reference, loop)
    if not joint.slots:
        raise CannotChoose(
            f'the joint "{joint.name}" has no slots in the reference', "add slots = 6 (as many as the nut has) to it"
        )
    pitch_mm = thread_pitch_mm(joint.thread)
    if pitch_mm is None:
        raise CannotChoose(
            f'the thread of the "{joint.name}" says no pitch', 'write thread = "M20x1.5" or "3/4-16" in the joint'
        )
    if measured.value_mm > MOST_TURNS * pitch_mm:
        turns = measured.value_mm / pitch_mm
        raise CannotChoose(
            f'"{measured.text[:40]}" of play is {turns:.4g} turns of the {joint.name}',
            "look at the figure and its unit; a play is a part of a turn",
        )
    target = target or _target(loop)
    by_hole = {
        hole: slots_within(
            play=Interval.of_reading(measured),
            thread_pitch_mm=pitch_mm,
            slots=joint.slots,
            holes_deg=(hole, *(other for other in joint.holes_deg if other != hole)),
            target=target,
        )
        for hole in joint.holes_deg
    }
    first = by_hole.pop(joint.holes_deg[0])
    elsewhere: list[AtAnotherHole] = []
    for hole, slots in by_hole.items():
        if not any(_same_turns(slots, known) for known in (first, *(other.slots for other in elsewhere))):
            elsewhere.append(AtAnotherHole(hole_deg=hole, slots=slots))
    warm = tuple(_warm_slots(reference, joint, loop, measured, heat) for heat in heats)
    return SlotAnswer(
        loop=loop, joint=joint, play=measured, target=target, slots=first, elsewhere=tuple(elsewhere), warm=warm
    )


def _same_turns(some: Sequence[Slot], others: Sequence[Slot]) -> bool:
    return [round(slot.turned_deg, 3) for slot in some] == [round(slot.turned_deg, 3) for slot in others]


def _warm_slots(reference: Reference, joint: Joint, loop: Loop, measured: Reading, heat: Heat) -> WarmSlots:
    """What heat does to a play does not hang on the play."""
    from stackcheck.mechanics.bodies import Missing
    from stackcheck.mechanics.set_gap import play_grows

    try:
        return WarmSlots(heat=heat, more_mm=play_grows(as_wanted(reference), joint, loop, heat))
    except Missing as problem:
        return WarmSlots(heat=heat, needs=tuple(map(str, problem.args)))


def _loop(reference: Reference, gap: str) -> Loop:
    for loop in reference.loops:
        if loop.name == gap:
            return loop
    raise CannotChoose(
        f'no gap is called "{gap}"', f"there are: {', '.join(loop.name for loop in reference.loops) or 'none'}"
    )


def _state(reference: Reference, gap: str, found: Found | None, explanation: Explanation | None) -> LoopState:
    loop = _loop(reference, gap)
    if loop.set_by:
        raise CannotChoose(
            f"the {gap} is set by the {loop.set_by} when fitted", "no shim sets it; for a castellated nut see: slots"
        )
    states = loops(reference) if found is None or explanation is None else as_found_loops(reference, found, explanation)
    return next(state for state in states if state.loop.name == gap)


def _only_place_of_shims(reference: Reference, state: LoopState) -> str:
    there = {term.place for term in state.terms if term.place}
    places = {place for place in there if reference.part_at(place).kind in SHIM_KINDS}
    places = places or {place for place in there if _is_selective(reference, place)}
    if len(places) != 1:
        several = "several places of shim rings lie" if places else "no place of shim rings lies"
        raise CannotChoose(
            f"{several} in the {state.loop.name}", f"name one: --at PLACE; places in it: {_listed(state)}"
        )
    return places.pop()


def _is_selective(reference: Reference, place: str) -> bool:
    return SELECTIVE in reference.part_at(place).name.lower().split()


def _target(loop: Loop) -> tuple[float, float]:
    if loop.least_mm is None or loop.most_mm is None:
        raise CannotChoose(
            f"the {loop.name} has no two limits in the reference", 'name what is wanted: --target "0.05..0.10 mm"'
        )
    return loop.least_mm, loop.most_mm


def _in_the_way(reference: Reference, loop: Loop, place: str, explanation: Explanation | None) -> tuple[Finding, ...]:
    if explanation is None:
        return ()
    paths = {name for stack in (loop.closed_stack, loop.open_stack) for name in reference.stack(stack).places}
    return tuple(
        finding
        for finding in explanation.findings
        if finding.kind in CHANGES_WHAT_IS_THERE
        and set(finding.places) != {place}
        and (not finding.places or paths & set(finding.places))
    )


def _bare_gap(state: LoopState, place: str, now: Interval, opens: bool, reading: Reading | None) -> Interval | None:
    if reading is not None:
        gap = Interval.of_reading(reading)
        return gap - now if opens else gap + now
    if state.gap is None or state.needs:
        return None
    return total_of([term for term in state.terms if term.place != place])


def _listed(state: LoopState) -> str:
    return ", ".join(dict.fromkeys(term.place for term in state.terms if term.place))


def _joint_that_sets(reference: Reference, loop: Loop) -> Joint:
    for joint in reference.joints:
        if loop.set_by and joint.name == loop.set_by:
            return joint
    raise CannotChoose(
        f"no joint of the reference sets the {loop.name}",
        "name the nut: set_by in the gap, and [[joints]] with that name",
    )
