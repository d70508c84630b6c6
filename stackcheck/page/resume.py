"""Coming back: how the job stands, what is open and where a tap leads from each,
the last things said to be confirmed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from starlette.responses import Response

from stackcheck.job.events import Confirmed, Fitted, NotSeen, TakenApart, Undone
from stackcheck.job.folder import JobFolder, now
from stackcheck.job.open_items import OpenItem, open_items
from stackcheck.job.state import Job
from stackcheck.page.visit import Visit, told_blocks
from stackcheck.present.event_words import said_of
from stackcheck.present.job_page import head, item_words, not_to_use
from stackcheck.present.job_state import ago, state_of
from stackcheck.result.points import FACING

WAYS = {
    "not fitted": ("FIT", "fit"), "finger tight": ("FASTEN", "fit"), "undecided": ("DECIDE", "result"),
    "to buy": ("ORDERED", "buy"), "on order": ("ARRIVED", "buy"), "arrived, not measured": ("MEASURE", "measure"),
    "arrived, differs": ("LOOK", "buy"), "arrived, not fitted": ("FIT", "fit"), "not measured": ("MEASURE", "measure"),
    "cannot tell": ("MEASURE", "measure"), "two looks differ": ("LOOK AGAIN", "second"),
    "points to look at": ("LOOK", "points"), "points that differ": ("LOOK", "points"),
    "another part fitted": ("FIT", "fit"), "fitted the other way round": ("FIT", "fit"),
    "not to be refitted, fitted": ("FIT", "fit"), "another torque": ("FASTEN", "fit"),
    "changed after comparing": ("COMPARE", "result"),
}  # fmt: skip
"""Kind of open item -> what is done about it, and the screen where."""


def grouped(
    job: Job, items: Iterable[OpenItem], at: str, ways: Mapping[str, tuple[str, str]] = WAYS
) -> list[tuple[str, list[str], str, str]]:
    """Open items in words by kind and way: what is done about them, and the screen where."""
    groups: dict[tuple[str, str, str], list[str]] = {}
    for item in items:
        groups.setdefault((item.kind, *_way(item, ways)), []).append(item_words(job, item, at))
    return [(kind, words, way, screen) for (kind, way, screen), words in groups.items()]


def _way(item: OpenItem, ways: Mapping[str, tuple[str, str]]) -> tuple[str, str]:
    """A direction is looked at where directions are asked for: no figure tells it."""
    if item.what == FACING and item.entry and item.kind in ("cannot tell", "not looked at"):
        return "LOOK", "second"
    return ways.get(item.kind, ("", ""))


def resume(visit: Visit, folder: JobFolder) -> Response:
    if visit.is_post and visit.said("again"):
        passed = [event for event in folder.job.live if isinstance(event, (NotSeen, TakenApart))]
        folder.record(*(Undone(event=event.number, by=visit.by) for event in passed))
        return visit.go_to(f"/job/{folder.name}", "What was not seen is asked again.")
    if visit.is_post:
        number = visit.said("event", 9)
        if number.isdecimal() and any(event.number == int(number) for event in folder.job.live):
            folder.record(Confirmed(events=(int(number),), still=visit.said("still") == "yes", by=visit.by))
        return visit.go_to(f"/job/{folder.name}/open")
    job, at = folder.job, now()
    items = open_items(job, job.comparison)
    ways = WAYS | (
        {"not looked at": ("LOOK NOW", "again")}
        if job.of(NotSeen) and job.closed is None and not job.of(Fitted)
        else {}
    )
    groups = grouped(job, items, at, ways)
    confirmed = {number: event.still for event in job.of(Confirmed) for number in event.events}
    last = [
        (event.number, said_of(job, event), ago(event.at, at), confirmed.get(event.number)) for event in job.last_said()
    ]
    warning = not_to_use(job) if job.offs and job.closed is None else ""
    touched = f"{ago(job.live[-1].at, at)}{f' by {job.live[-1].by}' if job.live[-1].by else ''}"
    stopped = (
        (f"Saved, {job.live[-1].at[11:16]}. The job goes on here, on any device, at any time.",)
        if visit.said("stop")
        else ()
    )
    return visit.page(
        "open.html",
        said=stopped,
        job=job,
        state=state_of(job, items),
        warning=warning,
        touched=touched,
        blocks=told_blocks(head(job, items, at)),
        groups=groups,
        last=last,
    )
