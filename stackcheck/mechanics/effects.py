"""What one finding does, taken alone: to the length of each stack, to each gap, to parts whose place matters.

The finding is applied to the reference and to nothing else, so that effects can be read one by one; only what differs
from the reference is added up, and lengths that stand on both sides cancel exactly, known or not. What all findings do
together is told by the sums as found.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from stackcheck.mechanics.arrangement import Arrangement, arranged, as_wanted, reference_line
from stackcheck.mechanics.bearing_change import BearingChange, bearing_changes
from stackcheck.mechanics.bridges import Bridge, bridges
from stackcheck.mechanics.disc_groups import DiscGroups, disc_groups
from stackcheck.mechanics.distance import distance_in
from stackcheck.mechanics.force_path import LOOSE, ForcePath, force_paths
from stackcheck.mechanics.lengths import Interval, Readings, Ruler, total_of
from stackcheck.mechanics.loops import against, loop_lengths
from stackcheck.mechanics.sums import Lengths, passing, stack_lengths
from stackcheck.mechanics.thread_end import thread_room
from stackcheck.model.finding import Explanation, Finding, Standing
from stackcheck.model.found import Found
from stackcheck.model.reference import Loop, Reference
from stackcheck.value import Value, replace

CROSSES, STAYS, CANNOT_TELL = "crosses", "stays inside", "cannot tell"
_VERDICT = {"agrees": STAYS, "differs": CROSSES}
_NOTHING_MM = 0.0005
"""Half of the last digit that is shown."""

Line = list[Standing]


class Change(Value, kw_only=True):
    """How much longer a stack is than by the reference [mm]; `change` is None where a length is not known."""

    stack: str
    change: Interval | None


class LoopChange(Value, kw_only=True):
    """A gap before and after [mm]; `crosses_limit` is "crosses", "stays inside", "cannot tell" or "" (no limits)."""

    loop: str
    before: Interval | None
    after: Interval | None
    crosses_limit: str


class Shift(Value, kw_only=True):
    """How far a part stands from where it should [mm], above 0 toward the second end.

    `either_mm` where a ring may lie in one path or another: how far in either case;
    `mm` is then the middle between them.
    """

    place: str
    mm: float
    either_mm: tuple[float, ...] = ()


class Effect(Value, kw_only=True):
    """What a finding does. `changes` and `loop_changes` hold only what changes;
    `unchanged` names the loops that do not.

    `paths` tells what presses on the parts it is about, as found, or in their places where they are missing;
    `home_paths` what presses on them in their places where they were moved. `bearings` is what bearings feel of it,
    `discs` how disc springs lie by the reference and then, where that differs; `set_changes` how much wider the gaps
    come out that something else than a joint sets, such as a number of gaskets; `thread_ends` the joints whose nut
    meets the end of its thread before it clamps: for sure, or perhaps; `bridges` parts that press both rings of a
    bearing and would not by the reference.
    """

    changes: tuple[Change, ...] = ()
    loop_changes: tuple[LoopChange, ...] = ()
    shifts: tuple[Shift, ...] = ()
    unchanged: tuple[str, ...] = ()
    paths: tuple[ForcePath, ...] = ()
    home_paths: tuple[ForcePath, ...] = ()
    bearings: tuple[BearingChange, ...] = ()
    discs: tuple[tuple[DiscGroups, DiscGroups], ...] = ()
    set_changes: tuple[tuple[str, Interval], ...] = ()
    thread_ends: tuple[tuple[str, bool], ...] = ()
    bridges: tuple[Bridge, ...] = ()


def effect(reference: Reference, found: Found, finding: Finding, *, explanation: Explanation | None = None) -> Effect:
    """The effect of one finding alone; findings about the list rather than the machine have none.

    The explanation that the finding is of tells how parts stood that no stack orders.
    """
    changed = changed_by(reference, found, finding, explanation=explanation)
    if changed is None:
        return Effect()
    wanted = as_wanted(reference)
    loops = [(loop, _loop_change(wanted, changed, loop)) for loop in reference.loops if not loop.set_by]
    at_home = _paths_of(finding, wanted)
    return Effect(
        changes=tuple(change for stack in reference.stacks if (change := _change(wanted, changed, stack.name))),
        loop_changes=tuple(change for _, change in loops if change is not None),
        shifts=_shifts(wanted, changed),
        unchanged=tuple(loop.name for loop, change in loops if change is None and loop.stated),
        paths=at_home if finding.kind == "missing" else _paths_of(finding, changed),
        home_paths=at_home if finding.kind in ("out_of_place", "run_moved") else (),
        bearings=bearing_changes(wanted, changed),
        discs=discs_laid(wanted, changed),
        set_changes=_set_changes(wanted, changed),
        thread_ends=tuple(_thread_ends(changed)),
        bridges=_bridges(wanted, changed),
    )


def _bridges(wanted: Arrangement, changed: Arrangement) -> tuple[Bridge, ...]:
    known = {(bridge.bearing, bridge.standing.home, bridge.answer) for bridge in bridges(wanted)}
    return tuple(
        bridge for bridge in bridges(changed) if (bridge.bearing, bridge.standing.home, bridge.answer) not in known
    )


def _thread_ends(changed: Arrangement) -> Iterator[tuple[str, bool]]:
    for joint in changed.reference.joints:
        room = thread_room(changed, joint)
        if room is not None and room.least_mm <= 0:
            yield joint.name, room.most_mm < 0


def _set_changes(wanted: Arrangement, changed: Arrangement) -> tuple[tuple[str, Interval], ...]:
    reference = wanted.reference
    turned = {joint.name for joint in reference.joints}
    changes = []
    for loop in reference.loops:
        if loop.set_by and loop.set_by not in turned and loop.closed_stack:
            change = loop_lengths(changed, loop).less(loop_lengths(wanted, loop)).total
            if change is not None and not _is_nothing(change):
                changes.append((loop.name, change))
    return tuple(changes)


def discs_laid(wanted: Arrangement, changed: Arrangement) -> tuple[tuple[DiscGroups, DiscGroups], ...]:
    """How disc springs lie by the reference and otherwise, for every stack where that differs."""
    reference = wanted.reference
    stacks = (s for s in reference.stacks if any(reference.part_at(place).kind == "disc spring" for place in s.places))
    laid = ((disc_groups(wanted, stack.name), disc_groups(changed, stack.name)) for stack in stacks)
    return tuple((own, seen) for own, seen in laid if own != seen)


def changed_by(
    reference: Reference, found: Found, finding: Finding, *, explanation: Explanation | None = None
) -> Arrangement | None:
    """The reference with one finding applied to it; None for one about the list rather than the machine."""
    apply = _APPLY.get(finding.kind)
    if apply is None or getattr(finding, "loose", False):
        return None
    line = apply(finding, _in_sequence(reference, explanation), found)
    # A part of the reference that only stands elsewhere keeps the reference's size:
    # its reading is no part of the effect.
    measured = finding.entries if finding.kind in _SIZE_MATTERS else ()
    readings = Readings(entries={number: found.entry(number) for number in measured})
    return arranged(Ruler(reference=reference, readings=readings, as_found=True), line, (finding,))


def _paths_of(finding: Finding, arrangement: Arrangement) -> tuple[ForcePath, ...]:
    """What presses on the parts that a finding is about."""
    members = {member.standing: None for stack in arrangement.paths for member in arrangement.members(stack)}
    about = [s for s in members if s.home in finding.places or s.home is None and s.entry in finding.entries]
    own = {s.home for s in about if s.entry in finding.entries}
    about = [s for s in about if s.entry in finding.entries or s.home not in own]
    if not about and finding.kind == "extra":
        return (ForcePath(where=LOOSE),)  # it fits in no path: it lies around or inside the others
    return force_paths(arrangement, about)


def _change(wanted: Arrangement, believed: Arrangement, stack: str) -> Change | None:
    if passing(wanted, stack):
        return None
    difference = stack_lengths(believed, stack)[0].less(stack_lengths(wanted, stack)[0])
    if difference.total is not None and _is_nothing(difference.total):
        return None
    return Change(stack=stack, change=difference.total)


def _loop_change(wanted: Arrangement, believed: Arrangement, loop: Loop) -> LoopChange | None:
    own, lengths = loop_lengths(wanted, loop), loop_lengths(believed, loop)
    difference = lengths.less(own)
    if difference.total is not None and _is_nothing(difference.total):
        return None
    before, after = own.total, lengths.total
    if loop.least_mm is None and loop.most_mm is None:
        crosses = ""
    elif after is None:
        crosses = CANNOT_TELL
    else:
        crosses = _VERDICT.get(against(after, (loop.least_mm, loop.most_mm)), CANNOT_TELL)
    return LoopChange(loop=loop.name, before=before, after=after, crosses_limit=crosses)


def _is_nothing(length: Interval) -> bool:
    return abs(length.nominal_mm) < _NOTHING_MM and length.half_width_mm < _NOTHING_MM


def _shifts(wanted: Arrangement, believed: Arrangement) -> tuple[Shift, ...]:
    reference = wanted.reference
    shifts = []
    for place in reference.places:
        if not reference.part(place.part).has_duty("watch") or place.name == reference.datum:
            continue
        moved = distance_in(believed, reference.datum, place.name).less(
            distance_in(wanted, reference.datum, place.name)
        )
        if moved.total is not None and abs(moved.total.nominal_mm) >= _NOTHING_MM:
            shifts.append(Shift(place=place.name, mm=moved.total.nominal_mm, either_mm=_either(moved)))
    return tuple(shifts)


def _either(moved: Lengths) -> tuple[float, ...]:
    """The sum with every doubtful term for nothing and with all of it, nothing for a sum without one [mm]."""
    doubtful = [term for term in moved.terms if term.whole is not None]
    if not doubtful or moved.total is None:
        return ()
    sure = total_of([term for term in moved.terms if term.whole is None]).nominal_mm
    every = sure + sum(term.sign * term.whole.nominal_mm for term in doubtful)
    return tuple(sorted({round(sure, 9), round(every, 9)}, key=abs))


def _in_sequence(reference: Reference, explanation: Explanation | None) -> Line:
    """The line of the reference, with parts that no stack orders in the sequence in which they stood."""
    line = reference_line(reference)
    if explanation is None:
        return list(line)
    elsewhere = {place for finding in explanation.findings if finding.kind in MOVED for place in finding.places}
    stood = {standing.home: spot for spot, standing in enumerate(explanation.line) if standing.home not in elsewhere}
    wanted = {standing.home: standing for standing in line}
    return [wanted[home] for home in reference.line_near(stood)]


def _at(line: Line, place: str, entry: int | None = None) -> int:
    """The spot of a place, of a counted one that of the pieces of this entry."""
    spots = [index for index, standing in enumerate(line) if standing.home == place]
    return next((index for index in spots if line[index].entry == entry), spots[0])


def _entries_by_place(finding: Finding) -> dict[str, int | None]:
    numbers = [*finding.entries, *[None] * len(finding.places)]
    return dict(zip(finding.places, numbers))


def _missing(finding: Finding, line: Line, found: Found) -> Line:
    return [standing for standing in line if standing.home not in finding.places]


def _seen(finding: Finding, line: Line, found: Found) -> Line:
    """The part in its place, with what was measured on it; of a group only the pieces of that entry."""
    numbers = _entries_by_place(finding)
    seen: Line = []
    for standing in line:
        number = numbers.get(standing.home)
        pieces = found.entry(number).count if number is not None else standing.count
        if number is not None and pieces < standing.count:
            seen.append(replace(standing, count=standing.count - pieces))
        seen.append(replace(standing, entry=number or standing.entry, count=min(pieces, standing.count)))
    return seen


def _turned_round(finding: Finding, line: Line, found: Found) -> Line:
    return [replace(s, turned=True) if s.home in finding.places else s for s in _seen(finding, line, found)]


def _different_part(finding: Finding, line: Line, found: Found) -> Line:
    part = getattr(finding, "part", None)
    ours = (*finding.entries, *[None] * (not finding.entries))  # of a counted place only the pieces of this entry
    return [
        replace(s, part=part) if s.home in finding.places and s.entry in ours else s
        for s in _seen(finding, line, found)
    ]


def _count_differs(finding: Finding, line: Line, found: Found) -> Line:
    return [replace(s, count=finding.found) if s.home in finding.places else s for s in line]


def _swapped(finding: Finding, line: Line, found: Found) -> Line:
    line = _seen(finding, line, found)
    a, b = (_at(line, place, number) for place, number in _entries_by_place(finding).items())
    line[a], line[b] = line[b], line[a]
    return line


def _run_end_for_end(finding: Finding, line: Line, found: Found) -> Line:
    line = _seen(finding, line, found)
    spots = sorted(_at(line, place) for place in finding.places)
    turned = [replace(line[spot], turned=not line[spot].turned) for spot in reversed(spots)]
    for spot, standing in zip(spots, turned):
        line[spot] = standing
    return line


def _moved(finding: Finding, line: Line, found: Found) -> Line:
    """Of a counted place only the pieces of the entries that were moved."""
    line = _seen(finding, line, found)
    pieces = {standing.home for standing in line if standing.home in finding.places and standing.entry is not None}
    moved = [s.home in finding.places and (s.entry is not None or s.home not in pieces) for s in line]
    run = [standing for standing, goes in zip(line, moved) if goes]
    return _inserted(finding, [standing for standing, goes in zip(line, moved) if not goes], run)


def _extra(finding: Finding, line: Line, found: Found) -> Line:
    run = [Standing(entry=number, part=finding.part, count=found.entry(number).count) for number in finding.entries]
    return _inserted(finding, line, run)


def _inserted(finding: Finding, line: Line, run: Line) -> Line:
    """The run put between its neighbours as found; beside the first of them that is there."""
    homes = [standing.home for standing in line]
    if finding.before in homes and finding.after in homes and homes.index(finding.before) < homes.index(finding.after):
        spot = homes.index(finding.before)  # the two stand in this sequence only where nothing orders them
    elif finding.after in homes:
        spot = homes.index(finding.after) + 1
    elif finding.before in homes:
        spot = homes.index(finding.before)
    else:
        spot = 0 if finding.before else len(line)
    return [*line[:spot], *run, *line[spot:]]


MOVED = frozenset({"swapped", "out_of_place", "run_moved", "run_end_for_end"})
_SIZE_MATTERS = frozenset({"extra", "different_part", "size_differs"})

_APPLY: dict[str, Callable[[Finding, Line, Found], Line]] = {
    "missing": _missing,
    "different_part": _different_part,
    "swapped": _swapped,
    "turned_round": _turned_round,
    "out_of_place": _moved,
    "run_moved": _moved,
    "run_end_for_end": _run_end_for_end,
    "extra": _extra,
    "count_differs": _count_differs,
    "size_differs": _seen,
}
