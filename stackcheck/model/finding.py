"""What a comparison says: one frozen class per kind of difference, each with its place and its evidence.

A finding is a value that travels to the end; the words for it are made once, in `stackcheck.present.words`, and its
effect on lengths and gaps is computed once, in `stackcheck.mechanics`. Kinds and their sequence follow the shop's way
of reading: what is absent or strange first, entry slips last.
"""

from __future__ import annotations

from typing import ClassVar

from stackcheck.model.part import Reading, Size
from stackcheck.value import Value


class Finding(Value, kw_only=True):
    """One difference. `places` are names of the reference, `entries` count from 1 as typed, `evidence` is in words.

    `after` and `before` are the neighbours (place names, "" at an end) between which the thing stands as found, for the
    kinds where that is not the place itself.
    """

    kind: ClassVar[str]
    places: tuple[str, ...] = ()
    entries: tuple[int, ...] = ()
    evidence: tuple[str, ...] = ()
    after: str = ""
    before: str = ""


class Missing(Finding, kw_only=True):
    """The reference wants it and it is not there. `group` names the equal places any of which may be the empty one."""

    kind: ClassVar[str] = "missing"
    group: tuple[str, ...] = ()


class DifferentPart(Finding, kw_only=True):
    """Another part of the same kind stands in the place;
    `part` is its id where it is a part of this reference, else None.
    """

    kind: ClassVar[str] = "different_part"
    part: str | None = None


class Swapped(Finding):
    """Two parts stand each in the other's place: `entries[0]` belongs to `places[0]` and stands in `places[1]`."""

    kind: ClassVar[str] = "swapped"


class TurnedRound(Finding, kw_only=True):
    """In place, with its feature pointing the other way; `toward` is "first" or "second", as found."""

    kind: ClassVar[str] = "turned_round"
    toward: str = ""


class OutOfPlace(Finding):
    """Taken out of its place and put between `after` and `before`."""

    kind: ClassVar[str] = "out_of_place"


class RunMoved(Finding):
    """Neighbours that moved together; they stand between `after` and `before`."""

    kind: ClassVar[str] = "run_moved"


class RunEndForEnd(Finding):
    """Neighbours turned as one lump: sequence reversed and every face turned."""

    kind: ClassVar[str] = "run_end_for_end"


class Extra(Finding, kw_only=True):
    """In the stack, not in the reference; `part` is the part of the reference it equals, if any."""

    kind: ClassVar[str] = "extra"
    part: str | None = None
    loose: bool = False


class CountDiffers(Finding, kw_only=True):
    """The place holds more or fewer pieces than it should."""

    kind: ClassVar[str] = "count_differs"
    wanted: int = 1
    found: int = 1


class PairingDiffers(Finding, kw_only=True):
    """Two sizes that must suit each other do not; the clearance is an interval [mm], negative is overlap."""

    kind: ClassVar[str] = "pairing_differs"
    what: str = ""
    clearance_mm: tuple[float, float] = (0.0, 0.0)
    limits_mm: tuple[float | None, float | None] = (None, None)


class SizeDiffers(Finding, kw_only=True):
    """The right part, outside its limits by more than the measuring can explain."""

    kind: ClassVar[str] = "size_differs"
    size_name: str
    reading: Reading
    size: Size


class GapDiffers(Finding, kw_only=True):
    """A gap or overlap outside its limits; `gap_mm` is the interval as found. `measured` tells a reading from a sum."""

    kind: ClassVar[str] = "gap_differs"
    what: str
    gap_mm: tuple[float, float]
    limits_mm: tuple[float | None, float | None]
    measured: bool = False


class Condition(Finding, kw_only=True):
    """A feel or look that the reference or the person marks: do not refit."""

    kind: ClassVar[str] = "condition"
    words: tuple[str, ...] = ()


class EnteredTwice(Finding):
    """One thing stands twice in the list: the list differs, not the machine."""

    kind: ClassVar[str] = "entered_twice"


class EnteredFromOtherEnd(Finding):
    """The whole list was entered from the other end: all ends and facings exchanged."""

    kind: ClassVar[str] = "entered_from_other_end"


class Alternate(Finding, kw_only=True):
    """Note: a number that the reference accepts stands here."""

    kind: ClassVar[str] = "alternate"
    number: str = ""


class NotReached(Finding):
    """Note: deeper than the teardown went."""

    kind: ClassVar[str] = "not_reached"


class NotVerified(Finding, kw_only=True):
    """Note: inside a unit that was not stripped; `unit` is its id."""

    kind: ClassVar[str] = "not_verified"
    unit: str = ""


SEQUENCE = (
    "missing", "different_part", "swapped", "turned_round", "out_of_place", "run_moved", "run_end_for_end", "extra",
    "count_differs", "pairing_differs", "size_differs", "gap_differs", "condition", "entered_twice",
    "entered_from_other_end", "alternate", "not_reached", "not_verified",
)  # fmt: skip
"""Most serious first; a list of findings is always shown in this sequence."""

NOTES = frozenset({"alternate", "not_reached", "not_verified"})


class Standing(Value, kw_only=True):
    """What stands at one spot of the line as found, first end to second end.

    `entry` is the number of the entry (None for a fixed member or a place not reached). `part` is the id of the part it
    was taken for, None when it is no part of the reference. `home` is the place it belongs to, None for an extra part.
    `count` pieces. `turned` when its feature points the other way than its home wants.
    """

    entry: int | None = None
    part: str | None = None
    home: str | None = None
    count: int = 1
    turned: bool = False


class Explanation(Value, kw_only=True):
    """A set of findings that together account for everything found.

    `line` is the assembly as this explanation believes it stood: every found entry, the fixed members, and the places
    not reached, from the first end to the second; missing parts are not in it. `price` is in the points of
    `stackcheck.compare.prices`. `proved_least` False: the search was cut, and no explanation costs less than `bound`.
    """

    findings: tuple[Finding, ...]
    notes: tuple[Finding, ...]
    line: tuple[Standing, ...]
    price: int
    proved_least: bool = True
    bound: int = 0
    separated_by: str = ""
