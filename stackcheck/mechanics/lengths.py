"""How long a part is in a stack, and how sure that is.

An `Interval` is a nominal length with the least and the most it can be; adding two of them is the worst case. A `Term`
is one part of a sum: its interval, its sign, and where the number comes from. A measured part counts with its reading
(value ± good to). A part that nobody measured counts with the limits of the reference; so does a width read off a
marking or a drawing, because that is no measurement of this part. A part that the reference does not have counts with
its reading, else with what the table of its standard gives for the number read off it.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import field

from stackcheck.mechanics.by_number import size_by_number
from stackcheck.mechanics.taken_limits import is_taken, with_limits
from stackcheck.model.finding import Standing
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Part, Reading, Size
from stackcheck.model.reference import Reference
from stackcheck.value import Value

INSTRUMENT_NOT_SAID = "instrument not said"

RING_WIDTH = {"inner rings": "inner_width", "outer rings": "outer_width"}
"""Which size counts before the length, by the faces that a stack runs through."""

TAPER = "taper bearing"


class Interval(Value, kw_only=True):
    """A length or a gap [mm]: nominal, and the least and the most it can be. A gap below zero is an overlap.

    >>> Interval(nominal_mm=58, least_mm=57.5, most_mm=58.25) - Interval(nominal_mm=57, least_mm=56.75, most_mm=57)
    Interval(nominal_mm=1, least_mm=0.5, most_mm=1.5)
    """

    nominal_mm: float
    least_mm: float
    most_mm: float

    @classmethod
    def exactly(cls, length_mm: float) -> Interval:
        return cls(nominal_mm=length_mm, least_mm=length_mm, most_mm=length_mm)

    @classmethod
    def of_size(cls, size: Size) -> Interval:
        return cls(nominal_mm=size.nominal_mm, least_mm=size.low_mm, most_mm=size.high_mm)

    @classmethod
    def of_reading(cls, reading: Reading) -> Interval:
        return cls(nominal_mm=reading.value_mm, least_mm=reading.low_mm, most_mm=reading.high_mm)

    def __add__(self, other: Interval) -> Interval:
        return Interval(
            nominal_mm=self.nominal_mm + other.nominal_mm,
            least_mm=self.least_mm + other.least_mm,
            most_mm=self.most_mm + other.most_mm,
        )

    def __neg__(self) -> Interval:
        return Interval(nominal_mm=-self.nominal_mm, least_mm=-self.most_mm, most_mm=-self.least_mm)

    def __sub__(self, other: Interval) -> Interval:
        return self + -other

    def times(self, factor: float) -> Interval:
        """As many of them, or a half of one; `factor` is above 0."""
        return Interval(
            nominal_mm=factor * self.nominal_mm, least_mm=factor * self.least_mm, most_mm=factor * self.most_mm
        )

    def or_nothing(self) -> Interval:
        """The same length if it counts at all: from 0 to the most, with no preference for either."""
        most = max(self.most_mm, 0.0)
        return Interval(nominal_mm=most / 2, least_mm=0.0, most_mm=most)

    @property
    def half_width_mm(self) -> float:
        return (self.most_mm - self.least_mm) / 2

    @property
    def middle_mm(self) -> float:
        return (self.most_mm + self.least_mm) / 2


class Term(Value, kw_only=True):
    """One part of a sum.

    `place` is the place of the reference that the part belongs to, None for one that has no place there; `entry` the
    number of the entry found. `how` tells where the interval comes from: an instrument, "by marking", "written",
    "ISO 492 Normal", "reference". `text` is the size as typed or written. `interval` is that of all `pieces` together;
    `whole` what it is if it counts, for one that may count for nothing.
    """

    place: str | None
    entry: int | None
    name: str
    sign: int
    interval: Interval
    how: str
    text: str
    reading: Reading | None = None
    pieces: int = 1
    whole: Interval | None = None

    @property
    def signed(self) -> Interval:
        return self.interval if self.sign > 0 else -self.interval

    @property
    def is_measured(self) -> bool:
        return self.reading is not None and self.reading.is_measurement

    @property
    def identity(self) -> tuple:
        """Equal for two terms that are one and the same length, so that a difference need not count it."""
        return self.place, self.entry if self.place is None else None, self.name, self.interval, self.pieces


def total_of(terms: tuple[Term, ...] | list[Term]) -> Interval:
    """The worst-case sum of the terms with their signs."""
    total = Interval.exactly(0.0)
    for term in terms:
        total += term.signed
    return total


def length_size(part: Part, through: str, *, turned: bool = False) -> Size | None:
    """The size a part takes up in a stack that runs `through` its inner rings, its outer rings, or all of it.

    A ring width counts before the length; None where the part has neither.
    """
    for name in length_names(through, turned=turned, part=part):
        if (size := part.size(name)) is not None:
            return size
    return None


def has_two_widths(part: Part) -> bool:
    """Whether the length of a bearing is that of both rings as they stand, and the inner ring has its own."""
    return part.kind == TAPER and part.size("length") is not None and part.size("inner_width") is not None


def is_taken_as_one_width(part: Part) -> bool:
    """Whether of a taper bearing only the length is given: then it counts as the width of either ring."""
    return (
        part.kind == TAPER
        and part.size("length") is not None
        and not (part.size("inner_width") or part.size("outer_width"))
    )


def length_names(through: str, *, turned: bool = False, part: Part | None = None) -> tuple[str, ...]:
    """Names of the sizes that may count, the first that is given first.

    The length of a taper bearing whose inner ring has a width of its own is that from the back of the inner ring to the
    back of the outer one: wider than either.
    """
    ring = RING_WIDTH.get(through)
    if ring and part is not None and has_two_widths(part):
        return (ring,)
    return (("length_when_turned",) if turned else ()) + ((ring,) if ring else ()) + ("length",)


class Readings(Value, kw_only=True):
    """What was measured: on the things that came off, and on places of the assembly."""

    entries: Mapping[int, Entry] = field(default_factory=dict)
    places: Mapping[tuple[str, str], Reading] = field(default_factory=dict)

    @classmethod
    def of(cls, found: Found) -> Readings:
        places: dict[tuple[str, str], Reading] = {}
        for measured in found.measured:
            known = places.get((measured.place, measured.size))
            if measured.place and (known is None or _rank(measured.reading) < _rank(known)):
                places[measured.place, measured.size] = measured.reading
        return cls(entries={entry.number: entry for entry in found.entries}, places=places)

    def size(self, standing: Standing, name: str) -> Reading | None:
        """A size of what stands there, as measured on the part, else as measured in its place, else as marked."""
        entry = self.entries.get(standing.entry) if standing.entry is not None else None
        said = (entry.size(name) if entry else None, self.places.get((standing.home or "", name)))
        return min(
            (reading for reading in said if reading), key=lambda reading: not reading.is_measurement, default=None
        )


def _rank(reading: Reading) -> tuple[bool, float]:
    """Measurements before markings and guesses, the finest first."""
    return not reading.is_measurement, reading.good_to_mm


NOTHING_MEASURED = Readings()


LENGTHS = frozenset({"length", "free_length"})
"""Sizes for which limits are taken where none are given."""


class Ruler(Value, kw_only=True):
    """Lengths of what stands somewhere: the sizes of the reference, and the readings that take their place.

    `as_found` False: the sum of a reference, which tells where its own limits come from. `stands_in` are the places of
    what was swapped: it looks as such a place wants, and not as its own does.
    """

    reference: Reference
    readings: Readings = NOTHING_MEASURED
    as_found: bool = False
    stands_in: Mapping[Standing, str] = field(default_factory=dict)

    def facing(self, standing: Standing) -> str:
        """The end that its feature is wanted to point to where it stands, "first" or "second"; "" where none is."""
        place = self.stands_in.get(standing, standing.home)
        return self.reference.place(place).facing if place and self.reference.has_place(place) else ""

    def part(self, standing: Standing) -> Part | None:
        id = standing.part
        return self.reference.part(id) if id is not None and self.reference.has_part(id) else None

    def size(self, standing: Standing, name: str) -> Interval | None:
        """A size of what stands there: as measured, else as the reference gives it, else None."""
        reading, part = self.readings.size(standing, name), self.part(standing)
        if reading is not None:
            return Interval.of_reading(reading)
        given = part.size(name) if part is not None else None
        if given is not None and name in LENGTHS:
            given = with_limits(given, part.kind)
        return Interval.of_size(given) if given is not None else None

    def name(self, standing: Standing) -> str:
        part = self.part(standing)
        if part is not None:
            return part.name
        entry = self.readings.entries.get(standing.entry or 0)
        return entry.what if entry else f"entry {standing.entry}"

    def needs_length(self, standing: Standing) -> str:
        part = self.part(standing)
        what = "outer ring width" if part is not None and has_two_widths(part) else "length"
        return f"{what} of {self.name(standing) if part else f'entry {standing.entry}'}"

    def term(self, standing: Standing, through: str, sign: int = 1) -> Term | None:
        """The length of what stands there as a term; None where nobody knows it."""
        part = self.part(standing)
        turned = standing.turned and part is not None and part.size("length_when_turned") is not None
        size = length_size(part, through, turned=turned) if part is not None else None
        names = ("length_when_turned",) if turned else length_names(through, part=part)
        if part is None and (entry := self.readings.entries.get(standing.entry or 0)) is not None:
            size = size_by_number(entry, names)
        read = (self.readings.size(standing, name) for name in names)
        reading = next((reading for reading in read if reading is not None), None)
        if reading is None and size is None:
            return None
        size = size and with_limits(size, part.kind if part is not None else "")
        if reading is None or (not reading.is_measurement and size is not None):
            interval = Interval.of_size(size).times(standing.count)
            if reading is not None:
                interval = _marked(interval, reading.value_mm * self._share(standing, reading, size))
        else:
            interval = Interval.of_reading(reading).times(self._share(standing, reading, size))
        return Term(
            place=standing.home, entry=standing.entry, name=self.name(standing), sign=sign, interval=interval,
            how=self._how(part, reading, size), text=reading.text if reading else size.text, reading=reading,
            pieces=standing.count,
        )  # fmt: skip

    def _share(self, standing: Standing, reading: Reading, size: Size | None) -> float:
        """How many times the reading counts: one piece was measured, or the whole pack, whichever it is nearer to."""
        entry = self.readings.entries.get(standing.entry or 0)
        typed = entry.count if entry is not None else standing.count
        if size is None or abs(reading.value_mm - size.nominal_mm) <= abs(reading.value_mm - typed * size.nominal_mm):
            return standing.count
        return standing.count / typed

    def _how(self, part: Part | None, reading: Reading | None, size: Size | None) -> str:
        if reading is not None:
            said = {"marking": "by marking", "drawing": "by drawing", "guess": "guessed", "": INSTRUMENT_NOT_SAID}
            return said.get(reading.how, reading.how)
        is_its = self.as_found and part is not None and not is_taken(size.limits_from)
        return "reference" if is_its else size.limits_from or "reference"


def _marked(limits: Interval, value_mm: float) -> Interval:
    """The limits of the reference, moved to the marked size where that is another one."""
    if limits.least_mm <= value_mm <= limits.most_mm:
        return limits
    return limits + Interval.exactly(value_mm - limits.nominal_mm)
