"""What a finding does to the forces, in words: which path the part lies in, what that means for the bearings, and why.

Directions and sizes only: the forces themselves, with their ranges, are for `stack --found` and `compare --forces`.
"""

from __future__ import annotations

from stackcheck.mechanics.bearing_change import (
    APART,
    INSIDE_PLAY,
    LOADED,
    MAY_BE,
    NARROW,
    ROOM,
    SLACK,
    TOGETHER,
    WIDE,
    BearingChange,
    set_gap_side,
)
from stackcheck.mechanics.bridges import NEEDS_SIZE, OVER_THE_SEAL, PRESSES_BOTH, Bridge
from stackcheck.mechanics.clamp import pinching
from stackcheck.mechanics.disc_groups import DiscGroups
from stackcheck.mechanics.effects import MOVED, Effect
from stackcheck.mechanics.force_path import BEARING, CLAMPED, EITHER, GAP, INNER, LOOSE, OUTER, ForcePath
from stackcheck.model.finding import Finding, GapDiffers
from stackcheck.model.part import SEATS, SINGLE_DIRECTION_KINDS
from stackcheck.model.reference import Joint, Reference
from stackcheck.present.figures import size_word
from stackcheck.present.names import lower_first, place_words, the
from stackcheck.present.words import gap_words, listed, mm, set_words, span

UNCLAMPED = "no joint that the reference names clamps it there"
TURNED = frozenset({"nut", "bolt"})
"""Kinds of part that somebody tightens."""
_NOTHING_MM = 0.0005


def force_sentence(finding: Finding, effect: Effect | None, reference: Reference, *, discs: bool = True) -> str:
    """One line; "" for a finding that no force feels (a face that changes no length, an entry typed twice).

    Without `discs` nothing is said of how disc springs lie: where several are turned, one alone tells nothing.
    """
    if effect is None:
        return _gap_words(finding, reference)
    turned = _turned_bearing(finding, reference)
    feels = (
        effect.changes
        or effect.loop_changes
        or effect.bearings
        or effect.shifts
        or effect.discs
        or effect.set_changes
        or effect.bridges
        or turned
        or any(path.spring in finding.places for path in effect.paths)  # its free length is no length of a stack
    )
    if not effect.paths or not feels and finding.kind not in ("extra", "missing"):
        return ""
    here = _paths_words(effect.paths, finding, reference)
    if effect.home_paths and effect.home_paths != effect.paths:
        here += f"; in its place: {_paths_words(effect.home_paths, finding, reference)}"
    elif here == UNCLAMPED:
        here = ""
    springs = map(disc_words, effect.discs if discs else ())
    words = [*([] if effect.discs or not here else [here]), *map(_bearing_words, effect.bearings), *springs, *turned]
    words += set_words(effect)
    return "; ".join(
        [
            *words,
            *(_bridge_words(bridge, reference) for bridge in effect.bridges),
            *_consequences(finding, effect, reference),
        ]
    )


def _gap_words(finding: Finding, reference: Reference) -> str:
    """What a play that a nut sets does to the bearings it lies between, where it is outside its limits."""
    if words := _pinched(reference, finding):
        return words
    side = set_gap_side(reference, finding)
    if side == WIDE:
        return "the bearings have more end float than they should: they rock"
    return "the bearings have less end float than they should: they may run loaded, and warm" if side == NARROW else ""


def _pinched(reference: Reference, finding: Finding) -> str:
    """What a joint does to a part that should turn or slide beside what it clamps, where no room is left for it."""
    loop = next(
        (loop for loop in reference.loops if isinstance(finding, GapDiffers) and loop.name == finding.what), None
    )
    is_over = loop is not None and finding.gap_mm[0] < 0 <= (finding.limits_mm[0] or 0.0)
    if not is_over or not (joint := pinching(reference, loop)):
        return ""
    when = "no room is left" if finding.gap_mm[1] <= 0 else "where it overlaps no room is left"
    between = [place for place in loop.gap_between if place not in (loop.start, loop.end)] or loop.gap_between
    part = the(place_words(reference, between[0]))
    return f"{when}: the {joint} then clamps {part} too, which should be free, and the rest carries less of its pull"


def _paths_words(paths: tuple[ForcePath, ...], finding: Finding, reference: Reference) -> str:
    return listed(dict.fromkeys(_path_words(path, finding, reference) for path in paths))


def _path_words(path: ForcePath, finding: Finding, reference: Reference) -> str:
    held = f"clamped by the {path.joint}" if path.joint else "clamped by no joint that the reference names"
    if path.where == INNER:
        return f"in the path of the inner rings, between the two bearings, {held}"
    if path.where == OUTER:
        return "in the path of the outer rings, between the two bearings"
    if path.where == CLAMPED:
        return f"{held}, not between two bearings" if path.joint else held
    if path.where == GAP and path.spring:
        spring = reference.part_at(path.spring)
        if path.spring in finding.places:
            return f"it fills the {path.gap}: how far that presses it together is how hard it presses"
        what = "disc springs" if spring.kind == "disc spring" else the(place_words(reference, path.spring))
        return f"in the {path.gap}, pressed by {what}"
    if path.where == GAP:
        return f"in the {path.gap}, which stays open: nothing presses on it"
    if path.where == EITHER:
        choices = (_path_words(choice, finding, reference) for choice in path.choices)
        return f"a look must tell: either {listed(choices, 'or')}"
    if path.where == BEARING:
        return f"one of the two bearings that the {path.loop} lies between"
    if not path.stacks:
        return "in no path: by bore and outside diameter it meets none of the faces beside it"
    return UNCLAMPED


def disc_words(laid: tuple[DiscGroups, DiscGroups]) -> str:
    own, seen = laid
    return f"the springs lie {_laid_words(seen)}; reference {_laid_words(own)}: at one length the force is another"


def _bridge_words(bridge: Bridge, reference: Reference) -> str:
    """A part wide enough for both rings of a bearing: a path of force that no stack has."""
    size, ring, place = size_word(bridge.size), bridge.other_ring, the(place_words(reference, bridge.bearing))
    if bridge.answer == NEEDS_SIZE:
        return f"whether it reaches the {ring} of {place} too cannot be told: needs its {size}"
    begins = f"which begins at about {mm(round(sum(bridge.begins_mm) / 2, 1))}"
    said = f"its {size} of {mm(bridge.reaches_mm)}"
    if bridge.answer == PRESSES_BOTH:
        return (
            f"{said} reaches the {ring} of {place}, {begins}: "
            "clamped, it presses both rings, and the force goes past the balls"
        )
    if bridge.answer == OVER_THE_SEAL:
        return f"{said} stands out over the shoulder of the inner ring of {place}: it may rub on the seal"
    return (
        f"{said} may reach the {ring} of {place}, {begins}: cannot tell whether it presses both; "
        "look for a rubbed ring on its face"
    )


def _laid_words(value: DiscGroups) -> str:
    if value.needs:
        return f"nobody can tell how: needs {listed(value.needs)}"
    free = f", {mm(round(value.free_mm, 3))} free" if value.free_mm is not None else ""
    return f"{' + '.join(map(str, value.counts))} nested{free}"


def _bearing_words(change: BearingChange) -> str:
    moved = f"{_about(change)} {'further apart' if change.change.nominal_mm > 0 else 'nearer together'}"
    start = f"the inner rings stand {moved} against their seats"
    if change.set_by:
        return (
            f"{start}, which the {change.set_by} takes up when the {change.loop} is set: "
            f"where it stands differs, not the {change.loop}"
        )
    if change.answer in (LOADED, SLACK) and change.play_mm is None:
        what = "preload" if change.answer == LOADED else "end float"
        return f"{start}: bearings that face this way take that as {what}"
    if change.spring:
        return (
            f"{start}: the {change.spring[:1].lower() + change.spring[1:]} takes it up, "
            "and its force changes by its stiffness times that"
        )
    if change.answer == ROOM:
        room, wanted = (span(each.least_mm, each.most_mm) for each in (change.apart, change.room))
        return (
            f"{start}: the outer ring that slides in its seat has room for it by design, "
            f"{room} ({wanted} by the reference): nothing is forced"
        )
    return f"{start}: {_used_up(change) if change.room is not None else _driven(change)}"


def _used_up(change: BearingChange) -> str:
    """An outer ring that slides by design, and has come to stand against its seat, or may have."""
    room = gap_words(change.apart.least_mm, change.apart.most_mm).replace("overlap", "short by")
    used = "is" if change.way == TOGETHER else "may be"
    words = f"the room of the outer ring that slides in its seat {used} used up ({room.replace('gap', 'over by')})"
    told = _against_the_play(change, "that is ")
    if change.held_by:
        return f"{words}; the {change.held_by} draws the inner rings together, and the seats hold the outer ones back; {told}"
    return (
        f"{words}; no joint presses the inner rings together: where they can shift on their shaft nothing is forced, "
        f"where they sit tight on it {told}"
    )


def _about(change: BearingChange) -> str:
    low, high = sorted((abs(change.change.least_mm), abs(change.change.most_mm)))
    return span(low, high) if change.change.least_mm * change.change.most_mm >= 0 else mm(abs(change.change.nominal_mm))


def _driven(change: BearingChange) -> str:
    """Deep-groove bearings, or bearings of which no more is known."""
    pull = f"the {change.held_by}" if change.held_by else "whatever clamps them"
    room = (
        gap_words(change.apart.least_mm, change.apart.most_mm).replace("overlap", "short by").replace("gap", "over by")
    )
    if change.way == APART:
        words = (
            "outer rings that can slide in their seats walk outward and nothing is forced; "
            f"held fast, the inner rings are driven apart ({room})"
        )
    elif change.way == TOGETHER:
        words = f"{pull} draws the inner rings together, and the seats hold the outer ones back ({room})"
    else:
        words = f"either way may be ({room})"
    if change.play_mm is None:
        return words
    return f"{words}{'; ' if change.answer == MAY_BE else ', '}{_against_the_play(change)}"


def _against_the_play(change: BearingChange, that_is: str = "") -> str:
    """What the balls feel of it, by the axial play that two deep-groove bearings have."""
    play = f"their axial play, {mm(round(change.play_mm[0], 2))} to {mm(round(change.play_mm[1], 2))} as estimated"
    return {
        LOADED: f"{that_is}more than {play}: the balls are loaded",
        MAY_BE: f"{play}, may be used up: the balls may be loaded",
        INSIDE_PLAY: f"{that_is}less than {play}: end float changes, no preload",
    }[change.answer]


def _turned_bearing(finding: Finding, reference: Reference) -> list[str]:
    if finding.kind != "turned_round" or reference.part_at(finding.places[0]).kind not in SINGLE_DIRECTION_KINDS:
        return []
    turned = "turned round it takes thrust from the other side only"
    if not (beside := _tandem(finding.places[0], reference)):
        return [f"{turned}: the pair no longer holds both ways"]
    the_others = listed(the(place_words(reference, place)) for place in beside)
    return [f"{turned}; what it should carry with {the_others} is left to that alone"]


def _tandem(place: str, reference: Reference) -> list[str]:
    """The bearings of one direction that stand next to one and look the same way by the reference."""

    def beside(other: str) -> bool:
        part = reference.part_at(other)
        return part.kind in SINGLE_DIRECTION_KINDS and reference.place(other).facing == reference.place(place).facing

    rows = [stack.places for stack in reference.stacks if place in stack.places]
    near = (row[spot] for row in rows for i in [row.index(place)] for spot in (i - 1, i + 1) if 0 <= spot < len(row))
    return [other for other in dict.fromkeys(near) if beside(other)]


def _unseats(finding: Finding, effect: Effect, reference: Reference) -> bool:
    """Whether a part that holds the outer rings of two bearings is gone from between them."""
    holds = any(reference.part_at(place).kind in SEATS for place in finding.places)
    home = {path.where for path in effect.home_paths or effect.paths}
    now = {path.where for path in effect.paths} if effect.home_paths else set()
    is_gone = finding.kind == "missing" or bool(effect.home_paths)
    return holds and is_gone and OUTER in home - now and not effect.bearings


def _consequences(finding: Finding, effect: Effect, reference: Reference) -> list[str]:
    """Why the bearings do not feel it, what becomes of the joint, and what a part that carries nothing may still do."""
    where = {path.where for path in effect.paths}
    words = []
    if unseats := _unseats(finding, effect, reference):
        words.append(
            "nothing holds the outer rings at their distance then: what the bearings feel cannot be told before it is in "
            "its place"
        )
    elif where & {INNER, OUTER} and not effect.bearings and not _unknown(effect):
        words.append("that path is as long as by the reference: no bearing feels it")
    if (
        finding.kind != "turned_round"
        and not unseats
        and CLAMPED in where
        and not effect.bearings
        and where <= {CLAMPED}
        and any("bearing" in part.kind for part in reference.parts)
    ):
        words.append("no bearing feels how long it is: their inner and outer rings keep their distance")
    joints = [joint for joint in reference.joints if joint.name in {path.joint for path in effect.paths}]
    if effect.changes and EITHER not in where:
        nut = _moved_nut(finding, reference)
        words += [
            (
                f"the {nut} stands elsewhere: what the {joint.name} clamps, and how far it goes on its thread, "
                "cannot be told"
            )
            if nut
            else _joint_words(joint, effect)
            for joint in joints
        ]
    if where <= {GAP, LOOSE} and finding.kind == "extra":
        words.append("it carries nothing where it lies, and may still retain, wear, or wander")
    return words


def _moved_nut(finding: Finding, reference: Reference) -> str:
    """The nut or bolt that a finding puts in another place, "" for none:
    a stack that changes then tells no travel of it.
    """
    if finding.kind not in MOVED:
        return ""
    parts = (reference.part_at(place) for place in finding.places if reference.has_place(place))
    return next((lower_first(part.name) for part in parts if part.kind in TURNED and not part.fixed), "")


def _joint_words(joint: Joint, effect: Effect) -> str:
    change = max((c.change.nominal_mm for c in effect.changes if c.change is not None), key=abs, default=0.0)
    if abs(change) < _NOTHING_MM:
        return f"how far the {joint.name} goes on its thread cannot be told"
    ends = dict(effect.thread_ends)
    if joint.name in ends:
        return (
            f"the {joint.name} {'meets' if ends[joint.name] else 'may meet'} the end of its thread first: "
            "torque as wanted, no clamp"
        )
    if any(
        bearing.held_by == joint.name and bearing.way == TOGETHER and bearing.answer == LOADED
        for bearing in effect.bearings
    ):
        return (
            f"tightened to its torque the {joint.name} pulls against the bearings: "
            "how far it goes on its thread cannot be told"
        )
    stands = f"it stands {mm(abs(change))} {'further out' if change > 0 else 'further in'} on its thread"
    if joint.torque is None and joint.angle is not None:
        return f"the {joint.name} is tightened by angle: a stack of another stiffness takes another pull; {stands}"
    if joint.torque is None:
        return f"the {joint.name}: {stands}"
    return f"tightened to its torque the {joint.name} pulls as before, if its thread has room: {stands}"


def _unknown(effect: Effect) -> bool:
    """Whether a length that is not known may change what the bearings feel."""
    return any(change.change is None for change in effect.changes) or any(
        change.after is None for change in effect.loop_changes
    )
