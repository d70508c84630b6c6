"""The page as an ASGI application: addresses, and what each answers."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable
from pathlib import Path
from threading import Lock
from typing import Any

from jinja2 import Environment, PackageLoader, select_autoescape
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.formparsers import MultiPartException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from stackcheck.bench.answers import event_words
from stackcheck.bench.questions import Question, lasting_name, next_question
from stackcheck.bench.second_look import comparison_words, next_second_look, second_answer
from stackcheck.errors import InputError
from stackcheck.formats.journal_file import JOURNAL_FILE
from stackcheck.formats.library import Library
from stackcheck.formats.photo_file import bring_in
from stackcheck.job.deciding import key_of, lacking_words, record_comparison, retains
from stackcheck.job.events import DECISIONS, Arrived, Confirmed, Decided, Ordered, Photographed, Undone
from stackcheck.job.folder import JobFolder, jobs_in, now
from stackcheck.job.open_items import open_items
from stackcheck.job.state import Job, undoable
from stackcheck.page.answers import ahead, take
from stackcheck.page.fitting import fitted, next_places
from stackcheck.page.guard import LARGEST_PHOTO, PAPER_HEADERS, Device, Gate, Guard, set_cookie
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.compare_page import page as compare_page
from stackcheck.present.job_page import ago, came_off_words, state_of
from stackcheck.present.job_page import page as job_page
from stackcheck.present.names import capital_first
from stackcheck.present.putting_right_page import buying_page, fitting_page
from stackcheck.present.words import sentence
from stackcheck.result import Comparison, compare
from stackcheck.value import replace

SLOWEST_SECONDS = 20.0
"""A request that takes longer to arrive is given up."""


class Bench:
    """The jobs and references that the page shows. Names from a request are looked up here, never made into a path."""

    def __init__(self, jobs: Path, library: Library):
        self.jobs, self.library = jobs, library
        self.taking = Lock()
        """Held while one answer is taken: two of one mark at the same moment are one answer."""

    def folder(self, name: str) -> JobFolder | None:
        path = next((path for path in jobs_in(self.jobs) if path.name == name), None)
        return None if path is None else JobFolder.open(path)

    def folders(self) -> list[JobFolder]:
        return [JobFolder.open(path) for path in jobs_in(self.jobs)]

    def begin(self, reference: str, why: str, by: str) -> JobFolder | None:
        if reference not in self.library.files:
            return None
        name, number = reference.rpartition("/")[2], 1
        while (self.jobs / (own := name if number == 1 else f"{name}-{number}") / JOURNAL_FILE).exists():
            number += 1
        return JobFolder.begin(self.jobs / own, self.library.reference(reference), self.library.files[reference], why=why[:500], by=by[:20])


def application(bench: Bench, guard: Guard) -> Any:
    """The whole application, behind its gate."""
    routes = [
        Route("/", _Page(bench, guard, _home)),
        Route("/code", _Page(bench, guard, _code, open_to_all=True), methods=["GET", "POST"]),
        Route("/begin", _Page(bench, guard, _begin), methods=["POST"]),
        Route("/job/{name}", _Page(bench, guard, _question)),
        Route("/job/{name}/answer", _Page(bench, guard, _answer), methods=["POST"]),
        Route("/job/{name}/undo", _Page(bench, guard, _undo), methods=["POST"]),
        Route("/job/{name}/photo", _Page(bench, guard, _photo), methods=["GET", "POST"]),
        Route("/job/{name}/open", _Page(bench, guard, _open), methods=["GET", "POST"]),
        Route("/job/{name}/result", _Page(bench, guard, _result), methods=["GET", "POST"]),
        Route("/job/{name}/buy", _Page(bench, guard, _buy), methods=["GET", "POST"]),
        Route("/job/{name}/fit", _Page(bench, guard, _fit), methods=["GET", "POST"]),
        Route("/job/{name}/second", _Page(bench, guard, _second), methods=["GET", "POST"]),
        Route("/job/{name}/drawing.svg", _Page(bench, guard, _drawing)),
        Route("/job/{name}/report", _Page(bench, guard, _report)),
        Route("/job/{name}/state", _Page(bench, guard, _state)),
        Mount("/static", StaticFiles(packages=[("stackcheck.page", "static")])),
    ]
    return Gate(Starlette(routes=routes), guard=guard)


Answer = Callable[["Visit"], Response]


class Visit:
    """One request of a device: its form, and the pages it may be answered with."""

    def __init__(self, bench: Bench, guard: Guard, request: Request, device: Device, form: dict[str, str], photo: bytes):
        self.bench, self.guard, self.request, self.device, self.form, self.photo = bench, guard, request, device, form, photo

    @property
    def by(self) -> str:
        return self.form.get("by", self.request.cookies.get("by", ""))[:20]

    @property
    def is_post(self) -> bool:
        return self.request.method == "POST"

    @property
    def wants_json(self) -> bool:
        return self.request.headers.get("accept", "") == "application/json"

    def folder(self) -> JobFolder | None:
        return self.bench.folder(self.request.path_params["name"])

    def page(self, template: str, status: int = 200, **values: Any) -> Response:
        html = _TEMPLATES.get_template(template).render(mark=self.device.mark, by=self.by, **values)
        return HTMLResponse(html, status_code=status)

    def refused(self, problem: str, status: int = 422) -> Response:
        if self.wants_json:
            return JSONResponse({"again": problem}, status_code=status)
        return self.page("said.html", status, title="Not taken", said=[problem], back=self.request.url.path.rpartition("/")[0] or "/")


_TEMPLATES = Environment(loader=PackageLoader("stackcheck.page"), autoescape=select_autoescape(), trim_blocks=True, lstrip_blocks=True)


class _Page:
    """A handler of one address: who asks, with which form; mistakes become pages."""

    def __init__(self, bench: Bench, guard: Guard, answer: Answer, *, open_to_all: bool = False):
        self.bench, self.guard, self.answer, self.open_to_all = bench, guard, answer, open_to_all

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        response = await self._respond(Request(scope, receive))
        await response(scope, receive, send)

    async def _respond(self, request: Request) -> Response:
        device, is_new = self.guard.device(request), False
        if device is None and (not self.guard.code or self.open_to_all):
            device, is_new = (self.guard.admit(), True) if not self.guard.code else (Device("", ""), False)
        if device is None:
            return RedirectResponse("/code", status_code=303)
        try:
            form, photo = await asyncio.wait_for(_form_of(request), SLOWEST_SECONDS)
        except (TimeoutError, MultiPartException, ValueError, UnicodeDecodeError):
            return PlainTextResponse("this form cannot be read\n", status_code=400)
        if request.method == "POST" and device.mark and not self.guard.is_own_form(device, form.get("mark", "")):
            return PlainTextResponse("this form is not of this page: load it again\n", status_code=403)
        visit = Visit(self.bench, self.guard, request, device, form, photo)
        try:
            response = await run_in_threadpool(self.answer, visit)
        except InputError as problem:
            response = visit.refused(problem.mistakes[0].what + ": " + problem.mistakes[0].wanted)
        if is_new:
            set_cookie(response, device)
        if "by" in form:
            response.set_cookie("by", visit.by, httponly=True, samesite="strict", path="/")
        return response


async def _form_of(request: Request) -> tuple[dict[str, str], bytes]:
    if request.method != "POST":
        return {}, b""
    async with request.form(max_files=1, max_fields=20, max_part_size=LARGEST_PHOTO) as form:
        texts = {name: value for name, value in form.items() if isinstance(value, str)}
        if texts.get("text") == "ticks":
            texts["text"] = "".join(value for name, value in form.multi_items() if name == "tick" and isinstance(value, str)) or "0"
        files = [value for value in form.values() if not isinstance(value, str)]
        return texts, await files[0].read() if files else b""


# --- screens ---------------------------------------------------------------------------------------------------------


def _code(visit: Visit) -> Response:
    if not visit.guard.code:
        return RedirectResponse("/", status_code=303)
    if not visit.is_post:
        return visit.page("code.html", problem="")
    if not visit.guard.may_try():
        return visit.page("code.html", 429, problem="Too many tries. Wait a minute.")
    if not visit.guard.is_code(visit.form.get("code", "")):
        return visit.page("code.html", 403, problem="That is not the code on the computer's screen.")
    response = RedirectResponse("/", status_code=303)
    set_cookie(response, visit.guard.admit())
    return response


def _home(visit: Visit) -> Response:
    jobs = []
    for folder in visit.bench.folders():
        job = folder.job
        jobs.append((job.name, job.begun.title, state_of(job, ()), ago(job.live[-1].at, now())))
    references = [(id, id.partition("/")[0].replace("-", " "), id.partition("/")[2].replace("-", " ")) for id in visit.bench.library.files]
    return visit.page("home.html", jobs=jobs, references=references)


def _begin(visit: Visit) -> Response:
    folder = visit.bench.begin(visit.form.get("reference", ""), visit.form.get("why", ""), visit.by)
    if folder is None:
        return visit.refused("There is no such reference.", 404)
    return RedirectResponse(f"/job/{folder.name}", status_code=303)


def _gone(visit: Visit) -> Response:
    return visit.refused("There is no such job.", 404)


def _question(visit: Visit, said: tuple[str, ...] = (), asked: dict[str, Any] | None = None, status: int = 200) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    job = folder.job
    question = next_question(job)
    if question is None or job.closed is not None:
        return visit.page("done.html", job=job, words=came_off_words(job), said=said)
    return visit.page(
        "question.html", status, job=job, question=told(job, question), said=said, asked=asked, row=_row(job), saved=job.live[-1].at[11:16],
        ahead=json.dumps([told(*each) for each in ahead(job)[1:]]), number=job.events[-1].number,
    )  # fmt: skip


def told(job: Job, question: Question) -> dict[str, Any]:
    """A question as the page needs it."""
    return {
        "name": lasting_name(job, question), "text": question.text,
        "where": question.where or (f"Entry {question.entry}, {job.offs[question.entry - 1].what}." if question.entry else ""),
        "kind": question.kind, "zero": question.zero, "choices": [choice.shown for choice in question.choices],
        "offered": bool(question.place) and question.kind == "part", "facing": question.key.startswith(("facing:", "second")),
    }  # fmt: skip


def _row(job: Job) -> str:
    """The row on the rag: how many came off each end."""
    ends = job.reference.ends
    return " · ".join(f"{end}: {sum(off.end == end for off in job.offs)} off" for end in ends)


def _answer(visit: Visit) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    form = visit.form
    with visit.bench.taking:
        taken = take(
            folder, name=form.get("name", ""), text=form.get("text", "")[:2000], sent=form.get("sent", "")[:64], by=visit.by, typed=form.get("typed", "")[:2000]
        )  # fmt: skip
    asked = None
    said = taken.said
    if taken.step is not None and taken.step.again:
        said = (taken.step.again,)
    elif taken.step is not None and taken.step.ask is not None:
        asked = {"text": taken.step.ask.text, "choices": taken.step.ask.choices, "name": form.get("name", ""), "typed": form.get("text", "")}
    if visit.wants_json:
        return JSONResponse(_reply(folder.job, said, asked, again=taken.step is not None))
    if taken.step is None:
        return RedirectResponse(f"/job/{folder.name}", status_code=303) if not said else _question(visit, said)
    return _question(visit, said, asked, 422)


def _reply(job: Job, said: tuple[str, ...], asked: dict[str, Any] | None, *, again: bool) -> dict[str, Any]:
    question = next_question(job)
    return {
        "said": list(said), "again": again, "asked": asked, "next": told(job, question) if question else None, "row": _row(job),
        "ahead": [told(*each) for each in ahead(job)[1:]], "saved": job.live[-1].at[11:16], "number": job.events[-1].number,
    }  # fmt: skip


def _undo(visit: Visit) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    event = undoable(folder.job)
    if event is None:
        return _question(visit, ("There is nothing to undo.",))
    folder.record(Undone(event=event.number, by=visit.by))
    return _question(visit, (f"Undone: {event_words(event, folder.job.reference)}.",))


def _photo(visit: Visit) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    if not visit.is_post:
        return visit.page("photo.html", job=folder.job)
    card = visit.form.get("card", "")[:20]
    if not card:
        return visit.refused("Which card is in the picture?")
    file = ""
    if visit.photo:
        beside = folder.path / f".upload-{folder.job.events[-1].number}"
        beside.write_bytes(visit.photo)
        try:
            file = bring_in(beside, folder.path, card)
        finally:
            beside.unlink(missing_ok=True)
    folder.record(Photographed(card=card, entry=len(folder.job.offs), file=file, by=visit.by))
    return _question(visit, (f"Photo, card {card}.",))


def _compared(job: Job) -> Comparison:
    return compare(job.reference, job.found)


def _open(visit: Visit) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    if visit.is_post:
        still = visit.form.get("still") == "yes"
        number = visit.form.get("event", "")
        if number.isdecimal():
            folder.record(Confirmed(events=(int(number),), still=still, by=visit.by))
    job = folder.job
    items = open_items(job, _compared(job))
    confirmed = {number for event in job.of(Confirmed) for number in event.events}
    last = [(event.number, event_words(event, job.reference), ago(event.at, now()), event.number in confirmed) for event in job.last_said()]
    return visit.page("open.html", job=job, blocks=_blocks(job_page(job, items, now())), last=last)


def _result(visit: Visit) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    job = folder.job
    comparison = _compared(job)
    if visit.is_post:
        refused = _decide(visit, folder, comparison)
        if refused:
            return visit.refused(refused)
        job = folder.job
    elif job.offs:
        record_comparison(folder, comparison)
    findings = [
        (number, capital_first(sentence(result.finding, job.reference, comparison.found)), job.decisions.get(key_of(result.finding)))
        for number, result in enumerate(comparison.findings, start=1)
    ]
    return visit.page("result.html", job=job, blocks=_blocks(compare_page(comparison, all_cautions=True)), findings=findings, decisions=list(DECISIONS))


def _drawing(visit: Visit) -> Response:
    from stackcheck.drawing.layout import layout
    from stackcheck.drawing.svg import svg

    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    return Response(svg(layout(_compared(folder.job))), media_type="image/svg+xml", headers=PAPER_HEADERS)


def _report(visit: Visit) -> Response:
    from stackcheck.report.content import strip_report
    from stackcheck.report.from_job import job_parts
    from stackcheck.report.html import html

    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    comparison = _compared(folder.job)
    return HTMLResponse(html(strip_report(comparison, job_parts(folder, comparison, now()))), headers=PAPER_HEADERS)


def _decide(visit: Visit, folder: JobFolder, comparison: Comparison) -> str:
    """Records a decision; returns what it lacks, "" where it was recorded."""
    number, decision = visit.form.get("finding", ""), visit.form.get("decision", "")
    if not number.isdecimal() or not 1 <= int(number[:6]) <= len(comparison.findings) or decision not in DECISIONS:
        return "There is no such finding or decision any more: look at the page again."
    finding = comparison.findings[int(number) - 1].finding
    lacking = lacking_words(decision, visit.form.get("reason", ""), visit.by, retains=retains(folder.job, finding))
    if lacking:
        return f'"{decision}" needs {lacking.replace(" (--reason)", "").replace(" (--by)", "")}: whoever comes later must know why, and who said so.'
    folder.record(Decided(about=key_of(finding), decision=decision, reason=visit.form.get("reason", "")[:500], by=visit.by))
    return ""


def _buy(visit: Visit) -> Response:
    from stackcheck.job.buying import buying

    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    if visit.is_post:
        names = {item.name for item in buying(folder.job)}
        item, state = visit.form.get("item", ""), visit.form.get("state", "")
        if item not in names or state not in ("ordered", "arrived"):
            return visit.refused("That is not on the buying list any more.")
        folder.record(Ordered(item=item, by=visit.by) if state == "ordered" else Arrived(item=item, by=visit.by))
    job = folder.job
    return visit.page("buy.html", job=job, blocks=_blocks(buying_page(job)), items=[(item.name, item.state) for item in buying(job)])


def _fit(visit: Visit) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    if visit.is_post:
        event = fitted(folder.job, visit.form.get("place", ""), visit.form.get("what", ""), visit.form.get("toward", ""))
        if isinstance(event, str):
            return visit.refused(event)
        folder.record(replace(event, by=visit.by))
    job = folder.job
    return visit.page("fit.html", job=job, places=next_places(job) if job.offs else [], blocks=_blocks(fitting_page(job)))


def _second(visit: Visit) -> Response:
    folder = visit.folder()
    if folder is None:
        return _gone(visit)
    if not visit.by:
        return visit.refused("Say your initials first, on the first page: a second look is somebody's.")
    if visit.is_post:
        second_answer(folder, visit.form.get("name", ""), visit.form.get("text", "")[:200], by=visit.by)
    question = next_second_look(folder.job, visit.by)
    if question is None:
        return visit.page("said.html", title="Second look", said=comparison_words(folder.job, visit.by), back=f"/job/{folder.name}")
    return visit.page("second.html", job=folder.job, question=told(folder.job, question))


def _state(visit: Visit) -> Response:
    """The number of the last event: another device asks whether something was added."""
    folder = visit.folder()
    return _gone(visit) if folder is None else JSONResponse({"number": folder.job.events[-1].number})


def _blocks(blocks: list[Block]) -> list[dict[str, Any]]:
    """A page's blocks as the templates need them; the same words in the same sequence as in a terminal."""
    told_blocks: list[dict[str, Any]] = []
    for block in blocks:
        if isinstance(block, Heading):
            told_blocks.append({"kind": "heading", "text": block.text})
        elif isinstance(block, Text):
            told_blocks.append({"kind": "text", "text": f"{block.mark.strip()} {block.text}".strip(), "strong": block.strong, "indent": block.indent})
        elif isinstance(block, Rows):
            told_blocks.append({"kind": "rows", "header": block.header, "rows": block.rows})
    return told_blocks
