"""What can happen in a job: one kind of event per answer, kept for ever in the sequence in which they were said.

An event holds what was typed and how it was read, never what follows from it: who a part is and what differs is
computed from the events each time. `did` on disk is the `tag` of the class.
"""

from __future__ import annotations

import re
from typing import Any

import msgspec

from stackcheck.value import Value


class Event(Value, kw_only=True, tag_field="did", omit_defaults=True):
    """One answer: `number` counts from 1 in the journal, `at` is its time with the zone, `by` initials where given.

    `sent` is the mark that a phone put on an answer, so that one that is sent twice counts once.
    """

    number: int = 0
    at: str = ""
    by: str = ""
    sent: str = ""


class Begun(Event, kw_only=True, tag="begun"):
    """The job was begun on one assembly; `why` in the person's own words, `unit` that of bare figures.

    `points` names what is to be looked at on the machine beside its stacks.
    """

    reference: str
    revision: str
    ends: tuple[str, str]
    ends_seen_from: str
    title: str
    machine: str = ""
    serial: str = ""
    why: str = ""
    unit: str = "mm"
    points: tuple[str, ...] = ()


class Answered(Event, kw_only=True, tag="answered"):
    """A question that is about no part: `key` names it, `answer` is as typed, "" was skipped with one key."""

    key: str
    question: str
    answer: str = ""

    @property
    def is_none(self) -> bool:
        """Whether nothing was said, or that there is nothing."""
        return not self.answer or re.match(r"(?:no|none|nothing|not)\b", self.answer, re.IGNORECASE) is not None


class Off(Event, kw_only=True, tag="off"):
    """One thing came off; the fields are those of an entry, sizes and direction in the words typed.

    `place` is the place that was offered and confirmed; `typed` the whole line where one was typed.
    """

    what: str
    typed: str = ""
    end: str = ""
    place: str = ""
    part: str = ""
    sure: bool = True
    kind: str = ""
    marked: str = ""
    count: int = 1
    sizes: dict[str, str] = msgspec.field(default_factory=dict)
    feature: str = ""
    toward: str = ""
    feel: tuple[str, ...] = ()
    look: tuple[str, ...] = ()
    came_off: str = ""
    place_seen: str = ""
    where: str = ""
    card: str = ""
    stuck_to_next: bool = False
    same_as_other_side: bool = False
    note: str = ""


class NotThere(Event, kw_only=True, tag="not there"):
    """The place was reached and nothing stood in it so far; the part may still come from the other end."""

    place: str
    end: str = ""


class NotSeen(Event, kw_only=True, tag="not seen"):
    """The place was passed without being looked at."""

    place: str
    end: str = ""


class Seen(Event, kw_only=True, tag="seen"):
    """More about an entry: what it points to, how it feels and looks, how it came off, what it is after all."""

    entry: int
    part: str = ""
    place: str = ""
    sure: bool = True
    count: int = 0
    feature: str = ""
    toward: str = ""
    feel: tuple[str, ...] = ()
    look: tuple[str, ...] = ()
    came_off: str = ""
    place_seen: str = ""
    where: str = ""
    card: str = ""
    note: str = ""


class Measured(Event, kw_only=True, tag="measured"):
    """A size of an entry, of a part that arrived (`item`), of a place that stayed on, or a gap.
    The latest one counts.
    """

    reading: str
    entry: int = 0
    item: str = ""
    place: str = ""
    gap: str = ""
    size: str = ""


class Noted(Event, kw_only=True, tag="noted"):
    """Free words; `until` "temporary", "borrowed" or "after use" keeps them open until they are settled."""

    text: str
    until: str = ""
    entry: int = 0


class Settled(Event, kw_only=True, tag="settled"):
    """An open note is no longer open."""

    note: int


class Photographed(Event, kw_only=True, tag="photographed"):
    """A photo with a numbered card in it; `file` is the copy in the folder where it was brought in."""

    card: str
    entry: int = 0
    of: str = ""
    file: str = ""


class EndReached(Event, kw_only=True, tag="end reached"):
    """Nothing more comes off this end."""

    end: str


class TakenApart(Event, kw_only=True, tag="taken apart"):
    """The teardown is finished: a place that nothing came off is now missing, no longer unreached."""


class Stopped(Event, kw_only=True, tag="stopped"):
    """Somebody stopped here."""


class Confirmed(Event, kw_only=True, tag="confirmed"):
    """On coming back: these events were read out and are still so; `still` False: they are not."""

    events: tuple[int, ...]
    still: bool = True


class Undone(Event, kw_only=True, tag="undone"):
    """An earlier event no longer counts; it stays where it stands."""

    event: int


class Compared(Event, kw_only=True, tag="compared"):
    """The list was compared: what was answered, so that a later change is known to be later."""

    verdict: str
    findings: tuple[str, ...] = ()


class Decided(Event, kw_only=True, tag="decided"):
    """What is done about one finding, entry or place: a word of `DECISIONS`, with its reason and initials."""

    about: str
    decision: str
    reason: str = ""


class ToBuy(Event, kw_only=True, tag="to buy"):
    """Something goes on the buying list: a part of the reference, or in words."""

    item: str
    part: str = ""
    count: int = 1
    number_of_part: str = ""
    why: str = ""


class Ordered(Event, kw_only=True, tag="ordered"):
    """An item of the buying list is on order."""

    item: str
    where: str = ""


class Arrived(Event, kw_only=True, tag="arrived"):
    """An item of the buying list is here; it is measured before it is fitted."""

    item: str
    marked: str = ""


class Fitted(Event, kw_only=True, tag="fitted"):
    """A part went into its place; `entry` or `item` says which one, `turns` how it turned by hand afterwards."""

    place: str
    entry: int = 0
    item: str = ""
    toward: str = ""
    turns: str = ""
    note: str = ""


class Fastened(Event, kw_only=True, tag="fastened"):
    """A fastener's state: a word of `FASTENER_STATES`, with value, thread condition, tool or way of locking."""

    joint: str
    state: str
    value: str = ""
    thread: str = ""
    tool: str = ""
    how: str = ""


class Looked(Event, kw_only=True, tag="looked"):
    """A point of the machine that is no stack was judged: `verdict` and the sentence that says why."""

    point: str
    verdict: str
    seen: str = ""


class GaugesBegun(Event, kw_only=True, tag="gauges begun"):
    """Somebody begins to read gauges on one source: their names and ways of measuring, in the sequence they are read.

    `unit` is that of bare figures, `agree_within` how near they should be, "" where nobody says.
    """

    source: str
    gauges: tuple[str, ...]
    hows: tuple[str, ...] = ()
    unit: str = "mm"
    agree_within: str = ""


class GaugeRead(Event, kw_only=True, tag="gauge read"):
    """One gauge was read on the source, in the round of that number."""

    gauge: str
    reading: str
    round: int = 1


class GaugesCompared(Event, kw_only=True, tag="gauges compared"):
    """Instruments were compared on one source; `file` in the folder holds the readings.

    `good_to_mm`: a way of measuring -> what a reading by any of its instruments here is good to after all [mm].
    """

    file: str
    good_to_mm: dict[str, float] = msgspec.field(default_factory=dict)


class Closed(Event, kw_only=True, tag="closed"):
    """Somebody closed the job; `open_items` counts what was still open then."""

    open_items: int = 0
    note: str = ""


AnyEvent = (
    Begun | Answered | Off | NotThere | NotSeen | Seen | Measured | Noted | Settled | Photographed | EndReached
    | TakenApart | Stopped | Confirmed | Undone | Compared | Decided | ToBuy | Ordered | Arrived | Fitted | Fastened
    | Looked | GaugesBegun | GaugeRead | GaugesCompared | Closed
)  # fmt: skip

DECISIONS = {
    "refit as reference": "agrees; goes back in",
    "renew": "new part, measured before fitting",
    "rework": "changed until it agrees",
    "repair": "made usable, will not agree; say how it differs",
    "keep as is": "differs, kept; reason and initials",
    "leave out": "not refitted; goes into a named bag",
    "belongs to": "given to a place in another job",
    "scrap": "made unusable or marked so",
    "hold": "nobody fits it until decided",
    "ask": "a question to the maker or another person",
}
"""What can be decided about a difference, in our words, and what each means."""

NEEDS_REASON = frozenset({"repair", "keep as is", "belongs to", "ask"})
"""Decisions that need words; those that keep or leave something different also need initials."""
NEEDS_INITIALS = frozenset({"repair", "keep as is"})

FASTENER_STATES = ("loose", "finger tight", "tightened", "marked", "locked")


def read_event(table: dict[str, Any]) -> Event | None:
    """The event of a table of the journal, None for one of a kind or shape that is not known here."""
    try:
        return msgspec.convert(table, AnyEvent)
    except msgspec.ValidationError:
        return None


def table_of(event: Event) -> dict[str, Any]:
    """The event as a table for the journal, without what says nothing."""
    return msgspec.to_builtins(event)
