"""What an answer at the bench leads to: events to be recorded, words to be shown, or a question before either."""

from __future__ import annotations

from stackcheck.formats.bench_line import Question as LineQuestion
from stackcheck.job.events import Event
from stackcheck.value import Value


class Step(Value, kw_only=True):
    """What an answer leads to: events to be recorded, words to be shown;
    or something to `ask` before it can be recorded.

    `again` holds the reason where the text could not be read: nothing is recorded and the question stands.
    """

    events: tuple[Event, ...] = ()
    said: tuple[str, ...] = ()
    ask: LineQuestion | None = None
    again: str = ""
