"""Closing a job: what was looked up about recalls of the maker, and who closed it with how much open."""

from __future__ import annotations

from stackcheck.job.events import Answered, Closed
from stackcheck.job.folder import JobFolder
from stackcheck.job.open_items import OpenItem, open_items

RECALL = "recall"
RECALL_QUESTION = "Recalls of the maker"
RECALL_ASKS = "what was looked up about recalls of the maker"


def close_job(folder: JobFolder, *, by: str, recall: str = "", note: str = "") -> tuple[OpenItem, ...]:
    """Record that a person closes the job; returns what is still open."""
    if recall and recall != folder.job.answers.get(RECALL):
        folder.record(Answered(key=RECALL, question=RECALL_QUESTION, answer=recall, by=by))
    items = open_items(folder.job, folder.job.comparison)
    folder.record(Closed(open_items=len(items), note=note, by=by))
    return items
