"""What a job has come to: computed from its events, each time anew, and from nothing else.

An event that was undone does not count; all others do, in their sequence. Entries are numbered in the sequence in which
they came off. What an entry is said to be may be added to later; a size that was taken twice keeps both readings, and
the finer one counts.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from stackcheck.errors import SizeError
from stackcheck.formats.found_words import FoundWords
from stackcheck.formats.readings import belonging_to, reading_of
from stackcheck.job.events import (
    Answered,
    Begun,
    Closed,
    Compared,
    Confirmed,
    Decided,
    EndReached,
    Event,
    Fastened,
    Fitted,
    GaugesCompared,
    Measured,
    NotSeen,
    NotThere,
    Off,
    Photographed,
    Seen,
    Stopped,
    TakenApart,
    Undone,
)
from stackcheck.job.noticed import symptoms_of
from stackcheck.model.found import Entry, Found
from stackcheck.model.found import Measured as MeasuredThere
from stackcheck.model.part import SIZE_NAMES, Reading
from stackcheck.model.reference import Reference
from stackcheck.value import Value, replace

if TYPE_CHECKING:
    from stackcheck.result import Comparison

Kind = TypeVar("Kind", bound=Event)

NOT_SEEN = "not seen"
SAID_SAME = "said same as the other side, not measured"


class Job(Value, kw_only=True, dict=True, gc=True):
    """One job: its name, its reference, and every event of its journal, undone ones too."""

    name: str
    reference: Reference
    events: tuple[Event, ...]

    @cached_property
    def undone(self) -> frozenset[int]:
        return frozenset(event.event for event in self.events if isinstance(event, Undone))

    @cached_property
    def live(self) -> tuple[Event, ...]:
        """The events that count."""
        return tuple(
            event for event in self.events if event.number not in self.undone and not isinstance(event, Undone)
        )

    def of(self, kind: type[Kind]) -> tuple[Kind, ...]:
        """The events of one kind that count and are still so;
        what came off stays an entry whatever is no longer so of it.
        """
        events = self._by_kind.get(kind, ())
        if not self.no_longer or kind is Off:
            return events
        return tuple(event for event in events if event.number not in self.no_longer)

    @cached_property
    def no_longer(self) -> frozenset[int]:
        """The numbers of events of which somebody, coming back, said that they are no longer so."""
        said = {number: event.still for event in self._by_kind.get(Confirmed, ()) for number in event.events}
        return frozenset(number for number, still in said.items() if not still)

    @cached_property
    def _by_kind(self) -> dict[type[Event], tuple[Event, ...]]:
        kinds: dict[type[Event], list[Event]] = {}
        for event in self.live:
            kinds.setdefault(type(event), []).append(event)
        return {kind: tuple(events) for kind, events in kinds.items()}

    def followed_by(self, event: Event) -> Job:
        """The job with one more event; which of the earlier ones count is not gone through anew,
        however many they are.
        """
        longer = replace(self, events=(*self.events, event))
        if not isinstance(event, Undone) and event.number not in self.undone:
            kind = type(event)
            longer.__dict__.update(
                undone=self.undone,
                live=(*self.live, event),
                _by_kind={**self._by_kind, kind: (*self._by_kind.get(kind, ()), event)},
            )
        longer.__dict__["_compared_before"] = self.__dict__.get("comparison", self.__dict__.get("_compared_before"))
        return longer

    @cached_property
    def comparison(self) -> Comparison:
        """The list as it now is, compared. A decision or a part fitted changes nothing in the list:
        what was found before holds.
        """
        from stackcheck.result import compare

        before: Comparison | None = self.__dict__.get("_compared_before")
        return before if before is not None and before.found == self.found else compare(self.reference, self.found)

    def last(self, kind: type[Kind]) -> Kind | None:
        events = self.of(kind)
        return events[-1] if events else None

    @cached_property
    def sent(self) -> frozenset[str]:
        """The marks of all answers that came from a phone, undone ones too."""
        return frozenset(event.sent for event in self.events if event.sent)

    @property
    def begun(self) -> Begun:
        return self.of(Begun)[0]

    @cached_property
    def offs(self) -> tuple[Off, ...]:
        """What came off, each with everything that was seen of it later; entry 1 stands first."""
        offs = list(self._as_said)
        for seen in self.of(Seen):
            if 1 <= seen.entry <= len(offs):
                offs[seen.entry - 1] = _with_seen(offs[seen.entry - 1], seen)
        for number in self.disagreed:
            offs[number - 1] = replace(offs[number - 1], toward=NOT_SEEN)
        return tuple(offs)

    @cached_property
    def _as_said(self) -> tuple[Off, ...]:
        """What came off as it was said then, without the sizes and the direction of one that is no longer so."""
        return tuple(replace(off, sizes={}, toward="") if off.number in self.no_longer else off for off in self.of(Off))

    def looks(self, entry: int) -> dict[str, str]:
        """Initials -> the direction that this person last gave for the feature of an entry; "" for nobody named."""
        first = self._as_said[entry - 1]
        said = [(first.by, first.toward), *((seen.by, seen.toward) for seen in self.of(Seen) if seen.entry == entry)]
        return {by: toward for by, toward in said if toward and toward != NOT_SEEN}

    @cached_property
    def disagreed(self) -> frozenset[int]:
        """Entries whose direction two people saw differently: it cannot be told until they look again and agree."""
        numbers = range(1, len(self.of(Off)) + 1)
        return frozenset(
            number for number in numbers if len({toward for by, toward in self.looks(number).items() if by}) > 1
        )

    @cached_property
    def answers(self) -> dict[str, str]:
        """Key of a question that is about no part -> the answer as typed, "" where it was skipped."""
        return {event.key: event.answer for event in self.of(Answered)}

    @property
    def cards(self) -> tuple[str, ...]:
        """The numbers of all cards in a picture or at a part."""
        return (*(event.card for event in self.of(Photographed)), *(off.card for off in self.offs if off.card))

    def last_said(self, count: int = 3) -> tuple[Event, ...]:
        """The latest things that somebody saw or did, for reading them out again."""
        said = (Off, Seen, Measured, NotThere, NotSeen, Photographed, Fitted, Fastened)
        return tuple(
            event for event in self.live if isinstance(event, said) or (isinstance(event, Answered) and event.answer)
        )[-count:]

    @property
    def taken_apart(self) -> bool:
        return bool(self.of(TakenApart))

    @property
    def closed(self) -> Closed | None:
        """The closing, unless somebody went on after it."""
        return self.live[-1] if isinstance(self.live[-1], Closed) else None

    @property
    def ends_reached(self) -> frozenset[str]:
        return frozenset(event.end for event in self.of(EndReached))

    @property
    def passed(self) -> frozenset[str]:
        """Places that were reached and either had nothing in them or were not looked at."""
        return frozenset(event.place for event in (*self.of(NotThere), *self.of(NotSeen)))

    @property
    def empty(self) -> frozenset[str]:
        """Places that were reached and found empty, unless something of theirs came off after all."""
        return frozenset(event.place for event in self.of(NotThere)) - {off.place for off in self.offs}

    @cached_property
    def decisions(self) -> dict[str, Decided]:
        """What a decision is about -> the latest one."""
        return {event.about: event for event in self.of(Decided)}

    @property
    def changed_after_comparing(self) -> bool:
        """Whether the list was added to or changed since it was last compared."""
        compared = self.last(Compared)
        later = (Off, Seen, Measured, NotThere, NotSeen, TakenApart, Undone)
        return compared is not None and any(
            (isinstance(event, later) or (isinstance(event, Confirmed) and not event.still))
            and not getattr(event, "item", "")
            for event in self.events
            if event.number > compared.number
        )

    def readings(
        self, *, entry: int = 0, item: str = "", place: str = "", gap: str = ""
    ) -> dict[str, tuple[Reading, ...]]:
        """Size ("" for a gap) -> every reading of it that counts, as typed one after the other."""
        own: dict[str, list[Reading]] = {}
        if entry and entry <= len(self.offs):
            for name, text in self.offs[entry - 1].sizes.items():
                own.setdefault(name, []).append(self._reading(text))
        for event in self._by_kind.get(Measured, ()):
            if (event.entry, event.item, event.place, event.gap) == (entry, item, place, gap):
                # A size that is no longer so takes every earlier reading of it along: it has to be measured again.
                own[event.size] = (
                    [] if event.number in self.no_longer else [*own.get(event.size, ()), self._reading(event.reading)]
                )
        return {name: tuple(readings) for name, readings in own.items() if readings}

    @property
    def to_measure_again(self) -> tuple[tuple[int, str, str, str], ...]:
        """(entry, place, gap, size) of every size that is no longer so and was not measured since;
        what arrived is asked for anyway.
        """
        said = [
            (event.entry, event.place, event.gap, event.size)
            for event in self._by_kind.get(Measured, ())
            if event.number in self.no_longer and not event.item
        ]
        said += [
            (number, "", "", size)
            for number, off in enumerate(self.of(Off), start=1)
            if off.number in self.no_longer
            for size in off.sizes
        ]
        return tuple(
            each
            for each in dict.fromkeys(said)
            if each[3] not in self.readings(entry=each[0], place=each[1], gap=each[2])
        )

    @cached_property
    def good_to_mm(self) -> dict[str, float]:
        """Way of measuring -> what its instruments of this job are good to, where they were compared [mm]."""
        return {how: good_to for event in self.of(GaugesCompared) for how, good_to in event.good_to_mm.items()}

    def _reading(self, text: str) -> Reading:
        """A reading as typed, no better than a comparison of the instruments has shown them to be."""
        reading = _reading(text)
        shown = self.good_to_mm.get(reading.how, 0.0)
        return replace(reading, good_to_mm=shown) if shown > reading.good_to_mm and not reading.own_good_to else reading

    @cached_property
    def found(self) -> Found:
        """The as-found list, the same as if it had been written by hand."""
        words = FoundWords(self.reference)
        entries = [self._entry(number, off, words) for number, off in enumerate(self.offs, start=1)]
        line = words.line(entries, finished=self.taken_apart)
        faced = tuple(
            replace(entry, toward=words.facing(entry, off.toward, line) or "") for entry, off in zip(entries, self.offs)
        )
        places = {event.place for event in self.of(NotSeen)}
        return Found(
            reference=self.reference.id,
            revision=self.reference.revision,
            entries=faced,
            finished=self.taken_apart,
            measured=tuple(self._measured_there()),
            compared_tools=tuple(self.good_to_mm),
            symptoms=symptoms_of(self),
            seen_empty=tuple(place.name for place in self.reference.places if place.name in self.empty),
            not_seen=tuple(place.name for place in self.reference.places if place.name in places),
            not_measured=self._not_measured,
            title=self.begun.title,
            story=self.begun.why,
            by=self.begun.by,
            date=self.begun.at[:10],
            file=self.name,
        )

    @property
    def _not_measured(self) -> tuple[tuple[str, str], ...]:
        """(place, size) of what stayed on, that had to be measured and of which it was answered that it was not."""
        asked = (
            key.split(":", 2)[1:] for key, answer in self.answers.items() if key.startswith("stays:") and not answer
        )
        return tuple(
            (place, size)
            for place, size in asked
            if self.reference.has_place(place) and size not in self.readings(place=place)
        )

    def _entry(self, number: int, off: Off, words: FoundWords) -> Entry:
        part = words.part_with_id(off.part) if off.part else words.part_meant(off.what)
        kind, other = off.kind, self._other_side(off) if off.same_as_other_side else None
        if other is not None:
            part, kind = part or (other.part or None), kind or other.kind
        if kind and not off.place:
            kind = words.kind_called(kind)  # "bearing" is any bearing: which kind of it, the reference says
        kind = kind or ("" if part else words.kind_called(off.what))
        readings = self.readings(entry=number)
        sizes = tuple((name, finest(readings[name])) for name in SIZE_NAMES if name in readings)
        if part is None and not off.marked and not off.part and (part := words.part_fitting(kind, sizes)):
            kind = ""
        sizes = tuple((name, self._of_part(size, f"entry {number}", part, name)) for name, size in sizes)
        return Entry(
            number=number,
            what=off.what,
            end=self.reference.ends.index(off.end) if off.end in self.reference.ends else None,
            part=part,
            sure=off.sure and bool(off.part),
            kind=kind,
            marked=off.marked,
            count=off.count,
            sizes=sizes,
            feature=off.feature,
            feel=off.feel,
            look=off.look,
            came_off=off.came_off,
            card=off.card,
            place_seen=off.place_seen,
            stuck_to_next=off.stuck_to_next,
            note=" · ".join(filter(None, (off.note, SAID_SAME if other is not None else ""))),
        )

    def _other_side(self, off: Off) -> Off | None:
        """The entry as many places from the other end, which somebody called the same."""
        position = [other for other in self.offs if other.end == off.end].index(off)
        others = [other for other in self.offs if other.end not in ("", off.end)]
        return others[position] if position < len(others) else None

    def _of_part(self, reading: Reading, whose: str, part: str | None, size: str) -> Reading:
        """A reading of a part that was warm, as one of its metal."""
        own = self.reference.part(part) if part is not None and self.reference.has_part(part) else None
        return belonging_to(reading, whose, own, across="length" not in size)

    def _measured_there(self) -> Iterable[MeasuredThere]:
        latest = {(event.place, event.size, event.gap): None for event in self.of(Measured) if event.place or event.gap}
        for place, size, gap in latest:
            readings = self.readings(place=place, gap=gap).get(size, ())
            if not readings:
                continue
            reading, size = finest(readings), size or ("length" if place else "")
            if place and self.reference.has_place(place):
                part = self.reference.part_at(place)
                reading = self._of_part(reading, f"the {part.name}", part.id, size)
            yield MeasuredThere(reading=reading, place=place, size=size, gap=gap)


def finest(readings: tuple[Reading, ...]) -> Reading:
    """The reading that counts: a measurement before a marking or guess, then the finest, then the latest."""
    return min(reversed(readings), key=lambda reading: (not reading.is_measurement, reading.good_to_mm))


def _with_seen(off: Off, seen: Seen) -> Off:
    """What was said of an entry later: single words take the place of the earlier ones, feel,
    look and notes are added.
    """
    told = {
        name: value
        for name in ("part", "place", "count", "feature", "toward", "came_off", "place_seen", "where", "card")
        if (value := getattr(seen, name))
    }
    return replace(
        off, **told, sure=seen.sure if seen.part else off.sure, feel=(*off.feel, *seen.feel),
        look=(*off.look, *seen.look), note=" · ".join(filter(None, (off.note, seen.note))),
    )  # fmt: skip


def _reading(text: str) -> Reading:
    try:
        return reading_of(text, may_be_zero=True)
    except SizeError:  # it was read when it was typed; a journal that was changed by hand says so by itself
        return Reading(text=text, value_mm=0.0, good_to_mm=1e5, how="guess")


def undoable(job: Job) -> Event | None:
    """The answer that `undo` takes back next: the latest that counts, never the beginning,
    nor that somebody compared or stopped.
    """
    return next(
        (event for event in reversed(job.live) if not isinstance(event, (Begun, Compared, Confirmed, Stopped))), None
    )
