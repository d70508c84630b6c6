"""The buying list of a job: what is renewed by itself, what was decided, what was asked for, and how far each has come.

Single-use parts that came off are on it by themselves, and so are parts that somebody decided to renew; of a bearing,
every one of that part, because one bearing gone bad asks for its partner (common practice, no source). What arrives is
measured before it is fitted: same bore and outside with another width is the wrong part.
"""

from __future__ import annotations

from stackcheck.compare.sizes import size_verdict
from stackcheck.job.events import Arrived, Decided, Ordered, ToBuy
from stackcheck.job.state import Job, finest
from stackcheck.model.part import ROLLING_BEARINGS, Part, Reading, Size
from stackcheck.value import Value

TO_BUY, ON_ORDER, ARRIVED, READY = "to buy", "on order", "arrived", "ready"
RENEWED_ALWAYS = ("new every time", "crushes once")
WIDTHS = ("inner_width", "outer_width", "inner_standout")
"""What may differ where a bearing of the same bore, outside diameter and width is another one."""


class Measured(Value, kw_only=True):
    """A size of an arrived part against the reference: `verdict` is a word of `compare.sizes`."""

    size: str
    reading: Reading
    wanted: Size
    verdict: str

    @property
    def agrees(self) -> bool:
        return self.verdict == "in"


class Item(Value, kw_only=True):
    """One line of the buying list; `since` is the time of its state, "" where it follows from the record."""

    name: str
    state: str
    part: str = ""
    number: str = ""
    accepts: tuple[str, ...] = ()
    count: int = 1
    why: str = ""
    since: str = ""
    marked: str = ""
    measured: tuple[Measured, ...] = ()
    not_measured: tuple[str, ...] = ()

    @property
    def differs(self) -> bool:
        return any(each.verdict not in ("in", "close", "no limits") for each in self.measured)


def buying(job: Job) -> tuple[Item, ...]:
    """The whole list: what follows from the record first, then what was asked for in words."""
    wanted: dict[str, list[str]] = {}
    counts: dict[str, int] = {}
    together: set[str] = set()
    for off in job.offs:
        part = part_off(job, off.part, off.place)
        if (
            part is not None
            and off.place_seen != "found loose"
            and (duty := next((name for name in RENEWED_ALWAYS if part.has_duty(name)), ""))
        ):
            wanted.setdefault(part.id, []).append(duty)
            counts[part.id] = counts.get(part.id, 0) + off.count
            if part.kind in ROLLING_BEARINGS and len(job.reference.places_of(part.id)) > 1:
                together.add(part.id)
    for id in together:
        if (whole := sum(place.count for place in job.reference.places_of(id))) > counts[id]:
            wanted[id].append("renewed together")  # one was not seen: it is fitted anew with its partner
            counts[id] = whole
    for decided in job.decisions.values():
        if decided.decision == "renew":
            for part in _parts_about(job, decided):
                wanted.setdefault(part.id, []).append("decided: renew")
                places = job.reference.places_of(part.id)
                whole = sum(place.count for place in places)
                if part.kind in ROLLING_BEARINGS and len(places) > 1:
                    wanted[part.id].append("renewed together")
                    counts[part.id] = whole
                counts[part.id] = max(counts.get(part.id, 0), _wanted_at(job, decided, part))
    items = [
        _followed(job, Item(
            name=_name(job.reference.part(id).name), state=TO_BUY, part=id,
            number=job.reference.part(id).number or job.reference.part(id).standard,
            accepts=job.reference.part(id).accepts, count=counts[id], why=", ".join(dict.fromkeys(reasons)),
        ))
        for id, reasons in wanted.items()
    ]  # fmt: skip
    own = {item.name for item in items}
    for event in job.of(ToBuy):
        if event.item not in own:
            part = job.reference.part(event.part) if event.part and job.reference.has_part(event.part) else None
            number = event.number_of_part or (part.number if part else "")
            items.append(
                _followed(
                    job,
                    Item(
                        name=event.item,
                        state=TO_BUY,
                        part=event.part,
                        number=number,
                        count=event.count,
                        why=event.why or "asked for",
                    ),
                )
            )
            own.add(event.item)
    return tuple(items)


def part_off(job: Job, part: str, place: str) -> Part | None:
    """The part that an entry is taken for: named, or that of the place it was confirmed at."""
    if part and job.reference.has_part(part):
        return job.reference.part(part)
    return job.reference.part_at(place) if place else None


def is_single_use(job: Job, place: str) -> bool:
    """Whether the part of this place is renewed whenever it comes off."""
    return any(job.reference.part_at(place).has_duty(duty) for duty in RENEWED_ALWAYS)


def _parts_about(job: Job, decided: Decided) -> list[Part]:
    """The parts of the places and entries that a decision is about ("turned_round:seal@right:8")."""
    _, _, about = decided.about.partition(":")
    places, _, entries = about.partition(":")
    parts = [job.reference.part_at(place) for place in places.split(",") if job.reference.has_place(place)]
    if not parts:
        offs = [
            job.offs[int(number) - 1]
            for number in entries.split(",")
            if number.isdecimal() and int(number) <= len(job.offs)
        ]
        parts = [part for off in offs if (part := part_off(job, off.part, off.place)) is not None]
    return [part for part in dict.fromkeys(part.id for part in parts) for part in [job.reference.part(part)]]


def _wanted_at(job: Job, decided: Decided, part: Part) -> int:
    """How many pieces of a part the places of a decision hold, at least one."""
    places = decided.about.split(":")[1].split(",")
    return max(1, sum(place.count for place in job.reference.places_of(part.id) if place.name in places))


def _followed(job: Job, item: Item) -> Item:
    """The item with what has become of it since."""
    state, since, marked = item.state, "", ""
    for event in job.live:
        if isinstance(event, (Ordered, Arrived)) and event.item == item.name:
            state = ON_ORDER if isinstance(event, Ordered) else ARRIVED
            since, marked = event.at, getattr(event, "marked", "")
    part = job.reference.part(item.part) if item.part else None
    measured, lacking = _measured(job, item.name, part)
    if state == ARRIVED and part is not None and not lacking and all(each.agrees for each in measured):
        state = READY
    return Item(
        name=item.name, state=state, part=item.part, number=item.number, accepts=item.accepts, count=item.count,
        why=item.why, since=since, marked=marked, measured=measured, not_measured=lacking if state == ARRIVED else (),
    )  # fmt: skip


def _measured(job: Job, name: str, part: Part | None) -> tuple[tuple[Measured, ...], tuple[str, ...]]:
    """What was measured of an arrived part against the reference, and what still has to be before it is fitted."""
    if part is None:
        return (), ()
    readings = job.readings(item=name)
    told = tuple(
        Measured(
            size=size, reading=finest(each), wanted=part.size(size), verdict=size_verdict(finest(each), part.size(size))
        )
        for size, each in readings.items()
        if part.size(size) is not None
    )
    return told, tuple(size for size in before_fitting(part) if size not in readings)


def before_fitting(part: Part) -> tuple[str, ...]:
    """Sizes of a new part that are measured before it goes in: those the reference demands, of a bearing its widths."""
    widths = []
    if part.kind in ROLLING_BEARINGS and (length := part.size("length")) is not None:
        own = [(size, part.size(size)) for size in WIDTHS]
        widths = ["length", *(name for name, size in own if size is not None and size.nominal_mm != length.nominal_mm)]
    lengths = (
        ["length"] if part.kind in ("spacer tube", "collar", "shim ring") and part.size("length") is not None else []
    )
    return tuple(dict.fromkeys((*part.must_measure, *widths, *lengths)))


def _name(words: str) -> str:
    return words[:1].lower() + words[1:] if words[1:2].islower() else words
