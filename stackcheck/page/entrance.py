"""Before any job: the code typed once, the list of jobs, and beginning one."""

from __future__ import annotations

from starlette.responses import Response

from stackcheck.job.folder import now
from stackcheck.page.guard import set_cookie
from stackcheck.page.visit import Visit
from stackcheck.present.job_page import not_to_use
from stackcheck.present.job_state import ago, state_of


def code(visit: Visit) -> Response:
    if not visit.guard.code:
        return visit.go_to("/")
    if not visit.is_post:
        return visit.page("code.html", problem="")
    if not visit.guard.may_try():
        return visit.page("code.html", 429, problem="Too many tries. Wait a minute.")
    if not visit.guard.is_code(visit.form.get("code", "")):
        return visit.page("code.html", 403, problem="That is not the code on the computer's screen.")
    response = visit.go_to("/")
    set_cookie(response, visit.guard.admit())
    return response


def home(visit: Visit) -> Response:
    jobs = []
    for folder in visit.bench.folders():
        job = folder.job
        warning = f". {not_to_use(job)}" if job.offs and job.closed is None else ""
        jobs.append((job.name, job.begun.title, state_of(job, ()) + warning, ago(job.live[-1].at, now())))
    references = [
        (id, id.partition("/")[0].replace("-", " "), id.partition("/")[2].replace("-", " "))
        for id in visit.bench.library.files
    ]
    return visit.page("home.html", jobs=jobs, references=references)


def begin(visit: Visit) -> Response:
    with visit.bench.taking:
        folder = visit.bench.begin(visit.form.get("reference", ""), visit.form.get("why", ""), visit.by, visit.sent)
    if folder is None:
        return visit.refused("There is no such reference.", 404)
    return visit.go_to(f"/job/{folder.name}")


def here(visit: Visit) -> Response:
    """That the bench can be reached: asked before a tap leaves a page, so that without network none is left."""
    return Response(status_code=204)
