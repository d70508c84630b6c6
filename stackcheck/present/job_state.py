"""How a job stands, in two words each; nothing is compared for it, so a list of jobs is there at once."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from stackcheck.job.events import Fitted
from stackcheck.job.state import Job
from stackcheck.present.names import counted

if TYPE_CHECKING:
    from stackcheck.job.open_items import OpenItem


def ago(then: str, now: str) -> str:
    """ "9 days ago", "3 hours ago", "just now"; "" where a time cannot be read."""
    try:
        seconds = (datetime.fromisoformat(now) - datetime.fromisoformat(then)).total_seconds()
    except (ValueError, TypeError):
        return ""
    for size, name in ((86400, "day"), (3600, "hour"), (60, "minute")):
        if seconds >= size:
            return f"{counted(int(seconds // size), name)} ago"
    return "just now" if seconds >= 0 else "in the future: look at the clock"


def state_of(job: Job, items: tuple[OpenItem, ...]) -> str:
    """ "whole", "in pieces", "waiting", "refitting", "closed", "closed, with differences kept"."""
    if job.closed is not None:
        kept = any(decided.decision in ("keep as is", "repair") for decided in job.decisions.values())
        return "closed, with differences kept" if kept else "closed"
    if job.of(Fitted):
        return "refitting"
    if not job.offs and not job.empty:
        return "whole"
    waiting = any(item.kind in ("on order", "to buy") for item in items) and job.taken_apart
    return "in pieces, waiting for parts" if waiting else "in pieces"
