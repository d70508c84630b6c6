"""What a change of length does to the two bearings of a loop, by direction and size; no force is computed.

The inner rings stand S apart, the seats of the outer rings H. Where S is smaller, the pull of the joint draws the inner
rings together, and the seats keep the outer ones from following; where S is larger, the inner rings are driven apart,
which loads the balls only if the outer rings are held fast. Two deep-groove bearings allow either by the axial play of
one of them; bearings of one direction take the one way as preload and the other as end float. A bearing that by the
reference has more room in its seat than their play is one that slides: while room is left there nothing is forced.
Source: stackcheck's own reckoning of a loop; axial play by NSK, Rolling Bearings catalogue, section 15.3.
"""

from __future__ import annotations

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.bearings import axial_play, estimated_deep_groove
from stackcheck.mechanics.clamp import clamps_loop, inner_stack, joins_bearings
from stackcheck.mechanics.force_path import SPRINGS
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.loops import loop_lengths
from stackcheck.model.finding import Finding, GapDiffers
from stackcheck.model.part import Part
from stackcheck.model.reference import Loop, Reference
from stackcheck.value import Value

FIT_TAKES = 0.8
"""A fit takes up to this share of the least clearance: NSK, Rolling Bearings catalogue, 9.2.2 (70 to 90 in 100)."""

GROOVE_GOOD_TO = 0.15
"""Share by which the estimated groove distance may be off (see `estimated_deep_groove`)."""

LOADED, SLACK, INSIDE_PLAY, MAY_BE, ROOM = (
    "beyond their play",
    "adds end float",
    "within their play",
    "may be beyond their play",
    "has room by design",
)

_ROUND_OFF_MM = 1e-9

TOGETHER, APART = "together", "apart"
WIDE, NARROW = "wide", "narrow"


class BearingChange(Value, kw_only=True):
    """What happens to two bearings.

    `change` is how much farther apart the inner rings stand than by the reference [mm], below zero nearer. `apart` is
    where they stand then against their seats, above zero farther apart. `way` is which way they are driven, "" where
    that may be either. `answer` is one of the words above, "" where nothing is known of their play; `play_mm` the axial
    play that counts, least and most, `held_by` the joint that presses the inner rings, `spring` what gives way in the
    outer path, `set_by` what is turned until the gap is as wanted. `room` is the room by the
    reference of an outer ring that slides in its seat by design, None for any other.
    """

    loop: str
    change: Interval
    apart: Interval
    way: str
    answer: str
    play_mm: tuple[float, float] | None = None
    held_by: str = ""
    spring: str = ""
    set_by: str = ""
    room: Interval | None = None


def bearing_changes(wanted: Arrangement, changed: Arrangement) -> tuple[BearingChange, ...]:
    """Every loop of two bearings whose paths differ in length from the reference by a known amount."""
    changes = (
        _change(wanted, changed, loop) for loop in wanted.reference.loops if joins_bearings(wanted.reference, loop)
    )
    return tuple(change for change in changes if change is not None)


def set_gap_side(reference: Reference, finding: Finding) -> str:
    """`WIDE` or `NARROW` where a gap differs that something sets between two bearings, "" for any other finding."""
    if not isinstance(finding, GapDiffers):
        return ""
    loop = next((loop for loop in reference.loops if loop.name == finding.what), None)
    if (
        loop is None
        or not loop.set_by
        or not any("bearing" in reference.part_at(place).kind for place in loop.gap_between)
    ):
        return ""
    least, most = finding.limits_mm
    if most is not None and finding.gap_mm[0] > most:
        return WIDE
    return NARROW if least is not None and finding.gap_mm[1] < least else ""


def _change(wanted: Arrangement, changed: Arrangement, loop: Loop) -> BearingChange | None:
    reference = wanted.reference
    inner = inner_stack(reference, loop)
    own, lengths = loop_lengths(wanted, loop), loop_lengths(changed, loop)
    difference, after = lengths.less(own).total, lengths.total
    if not inner or difference is None or after is None or abs(difference.nominal_mm) < 5e-4:
        return None
    by_reference = own.total
    if inner != loop.closed_stack:
        difference, after, by_reference = -difference, -after, by_reference and -by_reference
    play, loads = _play(reference, loop), _loaded_by(reference, loop)
    slides = not loads and play is not None and by_reference is not None and by_reference.least_mm > play[1]
    way = APART if after.least_mm >= -_ROUND_OFF_MM else TOGETHER if after.most_mm <= _ROUND_OFF_MM else ""
    return BearingChange(
        loop=loop.name,
        change=difference,
        apart=after,
        way=way,
        answer=ROOM if slides and way == APART else _answer(difference, after, play, loads),
        play_mm=play,
        held_by=next((joint.name for joint in reference.joints if clamps_loop(reference, joint, loop)), ""),
        spring=_spring(reference, loop),
        set_by=loop.set_by,
        room=by_reference if slides else None,
    )


def _answer(change: Interval, after: Interval, play: tuple[float, float] | None, loads: str) -> str:
    if loads:
        return LOADED if (change.nominal_mm > 0) == (loads == APART) else SLACK
    if play is None:
        return ""
    farthest = max(abs(after.least_mm), abs(after.most_mm))
    nearest = 0.0 if after.least_mm < 0 < after.most_mm else min(abs(after.least_mm), abs(after.most_mm))
    return LOADED if nearest > play[1] else INSIDE_PLAY if farthest <= play[0] else MAY_BE


def _play(reference: Reference, loop: Loop) -> tuple[float, float] | None:
    """The axial play of the tighter one and of the looser one of two deep-groove bearings, as mounted."""
    plays = [
        play for place in (loop.start, loop.end) if (play := deep_groove_play(reference.part_at(place))) is not None
    ]
    return (min(play[0] for play in plays), max(play[1] for play in plays)) if len(plays) == 2 else None


def deep_groove_play(part: Part) -> tuple[float, float] | None:
    """The least and the most axial play of a deep-groove bearing in its place [mm]; None where its sizes do not tell.

    As the reference gives it, read in its place, before any estimate:
    2 √(A G_r - G_r²/4), A estimated from bore and outside diameter, G_r the radial clearance less what the fit takes.
    Source: NSK, Rolling Bearings catalogue, sections 9.2.2 and 15.3.
    """
    if part.kind == "ball bearing" and (given := part.size("axial_play")) is not None:
        return given.low_mm, given.high_mm
    sizes = [part.size(name) for name in ("bore", "outside", "radial_clearance")]
    if part.kind != "ball bearing" or None in sizes:
        return None
    bore, outside, clearance = sizes
    groove = estimated_deep_groove(bore_mm=bore.nominal_mm, outside_mm=outside.nominal_mm).groove_distance_mm
    ends = ((1 - GROOVE_GOOD_TO, (1 - FIT_TAKES) * clearance.low_mm), (1 + GROOVE_GOOD_TO, clearance.high_mm))
    least, most = (axial_play(groove_distance_mm=share * groove, radial_clearance_mm=radial) for share, radial in ends)
    return least, most


def _loaded_by(reference: Reference, loop: Loop) -> str:
    """Which way two bearings of one direction take load: inner rings together (wide faces inward) or apart;
    "" for others.

    The wide face of an outer ring, and the small end of the rollers of a taper bearing, lie on the side that its outer
    ring is pushed to.
    """
    facings = [reference.place(place).facing for place in (loop.start, loop.end)]
    one_way = all(
        reference.part_at(place).kind in ("angular bearing", "taper bearing") for place in (loop.start, loop.end)
    )
    return {("second", "first"): TOGETHER, ("first", "second"): APART}.get(tuple(facings), "") if one_way else ""


def _spring(reference: Reference, loop: Loop) -> str:
    """The spring that gives way in the path of the outer rings."""
    outer = loop.open_path if inner_stack(reference, loop) == loop.closed_stack else loop.closed_path
    return next((reference.part_at(place).name for place in outer if reference.part_at(place).kind in SPRINGS), "")
