"""Closing the job: what hinders it with the way to each, who closes it; a person closes, the page records."""

from __future__ import annotations

from starlette.responses import Response

from stackcheck.job.closing import RECALL, RECALL_ASKS, close_job
from stackcheck.job.folder import JobFolder, now
from stackcheck.job.open_items import open_items
from stackcheck.page.resume import grouped
from stackcheck.page.visit import Visit, told_blocks
from stackcheck.present.job_page import closing_page, not_to_use


def close(visit: Visit, folder: JobFolder) -> Response:
    job = folder.job
    items, back = open_items(job, job.comparison), f"/job/{folder.name}/close"
    if visit.is_post:
        if not visit.by:
            return visit.refused("Nobody says who closes it: a person closes a job, by initials.", back=back)
        if job.closed is None:
            close_job(folder, by=visit.by, recall=visit.said("recall", 500), note=visit.said("note", 500))
        return visit.go_to(back)
    groups = grouped(job, items, now())
    told = (
        told_blocks(closing_page(job, items, job.closed.by))
        if job.closed
        else told_blocks(closing_page(job, (), "")[-3:])
    )
    return visit.page(
        "close.html",
        job=job,
        groups=groups,
        count=len(items),
        blocks=told,
        recall=job.answers.get(RECALL, ""),
        recall_asks=RECALL_ASKS,
        warning=not_to_use(job) if items else "",
    )
