"""What a comparison could look at, and what became of each point.

A point is one thing that can agree or differ: a part in its place, a facing that the place wants, a size that the
reference wants measured, a gap with limits. Agreement is only ever counted over points that somebody looked at, so a
list of bare names agrees in its places and leaves the rest open. A size that somebody measured is a point wherever the
reference has limits for it.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.compare.sizes import size_verdict
from stackcheck.mechanics.chain import LoopState
from stackcheck.model.finding import Explanation, Finding, Standing
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Part, Reading, Size
from stackcheck.model.reference import Place, Reference
from stackcheck.value import Value

AGREES, DIFFERS, CANNOT_TELL = "agrees", "differs", "cannot tell"
NOT_LOOKED_AT, NOT_REACHED, NOT_VERIFIED = "not looked at", "not reached", "not verified"
UNSETTLED = (CANNOT_TELL, NOT_LOOKED_AT, NOT_REACHED, NOT_VERIFIED)

PRESENCE, FACING, GAP = "place", "facing", "gap"


class Point(Value, kw_only=True):
    """One thing that can agree or differ.

    `place` is a place of the reference ("" for a gap), `what` is `PRESENCE`, `FACING`, `GAP` or the name of a size;
    `gap` names the gap. `called` is the part that somebody took it for, where nothing measured tells which of the two
    it is. `blocks`: left unsettled, it leaves the whole assembly undecided.
    """

    place: str
    what: str
    state: str
    blocks: bool = False
    gap: str = ""
    reading: Reading | None = None
    called: str = ""


def points(
    reference: Reference, found: Found, explanation: Explanation, loops: Iterable[LoopState]
) -> tuple[Point, ...]:
    """Every point of the reference with its state, along the line of the reference; gaps stand last."""
    covered = {place: finding for finding in explanation.findings for place in finding.places}
    unreached = {place for note in explanation.notes if note.kind == "not_reached" for place in note.places}
    closed = {place for note in explanation.notes if note.kind == "not_verified" for place in note.places}
    standing = {spot.home: spot for spot in explanation.line if spot.home}
    result: list[Point] = []
    for name in reference.line:
        place = reference.place(name)
        part = reference.part(place.part)
        outside = NOT_REACHED if name in unreached else NOT_VERIFIED if name in closed else ""
        entry = _entry(found, standing.get(name))
        if not part.fixed:
            if place.may_be_absent and entry is None and name not in covered and not outside:
                continue
            unseen = outside or (NOT_LOOKED_AT if entry is None and name in found.not_seen else "")
            called = called_otherwise(reference, entry, part)
            result.append(_presence(place, entry, covered.get(name), unseen, part.blocks_agreement, called))
        if place.facing:
            state = outside or _facing_state(entry, standing.get(name), covered.get(name))
            result.append(Point(place=name, what=FACING, state=state, blocks=part.blocks_agreement))
        asked = (size for where, size in found.not_measured if where == name and size not in part.must_measure)
        for size in (*part.must_measure, *asked, *_also_measured(found, name, entry, part)):
            reading = size_reading(found, name, entry, size)
            state = outside or _size_state(reading, part.size(size), covered.get(name))
            result.append(Point(place=name, what=size, state=state, reading=reading))
    for loop in loops:
        if loop.verdict != "no limits":
            result.append(Point(place="", what=GAP, state=loop.verdict, gap=loop.loop.name, reading=loop.measured))
    return tuple(result)


def _also_measured(found: Found, place: str, entry: Entry | None, part: Part) -> list[str]:
    """Sizes that nobody demanded and somebody measured, where the reference has limits to hold them against."""
    return [
        name
        for name, size in part.sizes
        if size.has_limits and name not in part.must_measure and size_reading(found, place, entry, name) is not None
    ]


def size_reading(found: Found, place: str, entry: Entry | None, size: str) -> Reading | None:
    """What was measured of one size at one place: on the part that came off, else the finest on the assembly."""
    own = entry.size(size) if entry is not None else None
    if own is not None and own.is_measurement:
        return own
    there = [item.reading for item in found.measured if (item.place, item.size) == (place, size)]
    return min((each for each in there if each.is_measurement), key=lambda each: each.good_to_mm, default=None)


def _entry(found: Found, spot: Standing | None) -> Entry | None:
    return found.entry(spot.entry) if spot is not None and spot.entry is not None else None


def _presence(
    place: Place, entry: Entry | None, finding: Finding | None, unseen: str, blocks: bool, called: str
) -> Point:
    absent_or_other = finding is not None and finding.kind not in ("turned_round", "size_differs", "entered_twice")
    if unseen:
        state = unseen
    elif absent_or_other:
        state = DIFFERS
    elif entry is not None and (entry.place_seen == "inferred" or says_nothing(entry) or called):
        state = CANNOT_TELL
    else:
        state = AGREES
    return Point(
        place=place.name, what=PRESENCE, state=state, blocks=blocks, called=called if state == CANNOT_TELL else ""
    )


def called_otherwise(reference: Reference, entry: Entry | None, part: Part) -> str:
    """The part that an entry was called, where it stands for another one and no size or number of it tells which it is.

    Gears exchanged on a shaft and gears called by each other's name are one list until somebody looks at one of them.
    """
    if (
        entry is None
        or entry.sure
        or entry.marked
        or entry.part in (None, part.id)
        or not reference.has_part(entry.part)
    ):
        return ""
    named = reference.part(entry.part)
    if named.number and (named.number == part.number or named.number in part.accepts):
        return ""
    return "" if any(_speaks_against(reading, named.size(name)) for name, reading in entry.sizes) else named.id


def _speaks_against(reading: Reading, size: Size | None) -> bool:
    return size is not None and reading.is_measurement and size_verdict(reading, size) in ("out", "gross")


def says_nothing(entry: Entry) -> bool:
    """Whether an entry holds nothing that could tell one part from another:
    it may stand in a place, and is no agreement.
    """
    return entry.part is None and not (entry.kind or entry.sizes or entry.marked)


def _facing_state(entry: Entry | None, spot: Standing | None, finding: Finding | None) -> str:
    if finding is not None and finding.kind in ("turned_round", "missing", "different_part"):
        return DIFFERS
    if entry is None or not entry.toward:
        return NOT_LOOKED_AT
    if entry.toward in ("first", "second"):
        return DIFFERS if spot is not None and spot.turned and finding is not None else AGREES
    return CANNOT_TELL


def _size_state(reading: Reading | None, size, finding: Finding | None) -> str:
    if finding is not None and finding.kind in ("missing", "different_part"):
        return DIFFERS
    if reading is None or not reading.is_measurement:
        return NOT_LOOKED_AT
    verdict = size_verdict(reading, size)
    return {"in": AGREES, "close": CANNOT_TELL, "no limits": CANNOT_TELL}.get(verdict, DIFFERS)
