"""UNDO on every screen: the last thing said is taken back, said in words;
what belongs to another screen is asked about first.
"""

from __future__ import annotations

from starlette.responses import JSONResponse, Response

from stackcheck.job.events import (
    Arrived,
    Closed,
    Decided,
    Event,
    Fastened,
    Fitted,
    GaugeRead,
    GaugesBegun,
    GaugesCompared,
    Looked,
    Measured,
    Ordered,
    Photographed,
    ToBuy,
    Undone,
)
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import undoable
from stackcheck.page.teardown import reply
from stackcheck.page.visit import Visit, after
from stackcheck.present.event_words import said_of

QUESTIONS = ""
OWN: dict[type[Event], tuple[str, ...]] = {
    Measured: (QUESTIONS, "measure"), Looked: ("points",), GaugesBegun: ("gauges",), GaugeRead: ("gauges",),
    GaugesCompared: ("gauges",), Fitted: ("fit",), Fastened: ("fit",), Decided: ("result", "decide"),
    ToBuy: ("buy", "result"), Ordered: ("buy",), Arrived: ("buy",), Closed: ("close",),
}  # fmt: skip
"""Kind of event -> the screens where it is said; every other kind is said at the questions, a photo anywhere."""


def undo(visit: Visit, folder: JobFolder) -> Response:
    """Take back the last thing said; read, the screen that asks whether it shall be."""
    job, event = folder.job, undoable(folder.job)
    words = said_of(job, event) if event is not None else ""
    if not visit.is_post:
        return visit.page(
            "undo.html",
            job=job,
            words=words,
            number=event.number if event else 0,
            to=visit.said("to", 20),
            back=after(visit, folder),
        )
    if visit.wants_json and visit.sent in job.sent:
        return JSONResponse(reply(job, ("Already taken back.",)))
    if event is None:
        return _done(visit, folder, "There is nothing to undo.")
    if not _is_sure(visit, event):
        address = f"/job/{folder.name}/undo?to={visit.said('to', 20)}"
        return JSONResponse({"go": address}) if visit.wants_json else visit.go_to(address)
    folder.record(Undone(event=event.number, by=visit.by))
    return _done(visit, folder, f"Undone: {words}.")


def _is_sure(visit: Visit, event: Event) -> bool:
    """Whether it is said on this screen, or was asked about;
    a phone without network takes back its own answer by its mark.
    """
    if of := visit.said("of", 64):
        return event.sent == of
    if said := visit.said("event", 9):
        return said == str(event.number)
    return isinstance(event, Photographed) or visit.said("to", 20) in OWN.get(type(event), (QUESTIONS,))


def _done(visit: Visit, folder: JobFolder, said: str) -> Response:
    return JSONResponse(reply(folder.job, (said,))) if visit.wants_json else visit.go_to(after(visit, folder), said)
