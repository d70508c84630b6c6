"""One request of a device: who asks, with which form, and what it is answered with. Mistakes become pages."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from secrets import token_urlsafe
from typing import Any
from urllib.parse import quote, unquote

from jinja2 import Environment, PackageLoader, select_autoescape
from starlette.concurrency import run_in_threadpool
from starlette.formparsers import MultiPartException
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, RedirectResponse, Response

from stackcheck.errors import InputError, SizeError
from stackcheck.job.folder import JobFolder
from stackcheck.page.assets import ICON, PAD_SCRIPT, QUESTION_SCRIPT, SEND_SCRIPT, STYLE
from stackcheck.page.guard import LARGEST_PHOTO, Device, Guard, set_cookie
from stackcheck.page.jobs import Bench
from stackcheck.page.outlines import OUTLINES
from stackcheck.page.telling import FIELD, new_word, tell, told
from stackcheck.present.blocks import Block, Heading, Rows, Text

SLOWEST_SECONDS = 20.0
"""A request that takes longer to arrive is given up."""

TEMPLATES = Environment(
    loader=PackageLoader("stackcheck.page"), autoescape=select_autoescape(), trim_blocks=True, lstrip_blocks=True
)

TEMPLATES.globals |= {
    "new_mark": lambda: token_urlsafe(12),
    "style": STYLE,
    "icon": ICON,
    "pad_script": PAD_SCRIPT,
    "question_script": QUESTION_SCRIPT,
    "send_script": SEND_SCRIPT,
    "drawn": OUTLINES,
}

Screen = Callable[["Visit"], Response]
JobScreen = Callable[["Visit", JobFolder], Response]


class Visit:
    """One request: its form, and the pages it may be answered with."""

    def __init__(
        self, bench: Bench, guard: Guard, request: Request, device: Device, form: dict[str, str], photo: bytes
    ):
        self.bench, self.guard, self.request, self.device, self.form, self.photo = (
            bench,
            guard,
            request,
            device,
            form,
            photo,
        )

    @property
    def by(self) -> str:
        return self.form.get("by", unquote(self.request.cookies.get("by", "")))[:20]

    @property
    def is_post(self) -> bool:
        return self.request.method == "POST"

    @property
    def wants_json(self) -> bool:
        return self.request.headers.get("accept", "") == "application/json"

    @property
    def sent(self) -> str:
        """The mark of this one form: a second sending of it does nothing."""
        return self.form.get("sent", "")[:64]

    def said(self, name: str, most: int = 200) -> str:
        """What a field of the form says, or a word behind the address; no longer than `most`."""
        return (self.form if self.is_post else self.request.query_params).get(name, "").strip()[:most]

    def page(self, template: str, status: int = 200, **values: Any) -> Response:
        values["said"] = [*told(self.request), *values.get("said", ())]
        html = TEMPLATES.get_template(template).render(mark=self.device.mark, by=self.by, **values)
        return HTMLResponse(html, status_code=status)

    def refused(self, problem: str, status: int = 422, back: str = "") -> Response:
        if self.wants_json:
            return JSONResponse({"again": problem}, status_code=status)
        return self.page(
            "said.html",
            status,
            title="Not taken",
            said=[problem],
            back=back or self.request.url.path.rpartition("/")[0] or "/",
        )

    def go_to(self, address: str, *said: str, to: str = "") -> Response:
        """On to a page that is read, with what is to be said on it: loading that one again sends nothing again."""
        word = new_word()
        if said:
            address += f"{'&' if '?' in address else '?'}{FIELD}={word}"
        response = RedirectResponse(address + (f"#{to}" if to else ""), status_code=303)
        if said:
            tell(response, word, said)
        return response


def of_job(screen: JobScreen) -> Screen:
    """A screen of one job, which the address names."""

    def answer(visit: Visit) -> Response:
        folder = visit.bench.folder(visit.request.path_params["name"])
        if folder is None:
            return visit.refused("There is no such job.", 404)
        if not visit.is_post:
            return screen(visit, folder)
        with visit.bench.taking:
            folder.refresh()
            if visit.sent in folder.job.sent and not visit.wants_json:
                return visit.go_to(after(visit, folder), "Already saved.")
            folder.sent = visit.sent
            return screen(visit, folder)

    return answer


SCREENS = ("open", "result", "measure", "points", "gauges", "fit", "buy", "decide", "close")
"""The screens of a job that UNDO comes back to; every other one is that of the questions."""


def after(visit: Visit, folder: JobFolder) -> str:
    """Where the form of this request leads when it is done."""
    own = visit.request.url.path.rpartition("/")[2]
    screen = {"decide": "result", "undo": visit.said("to", 20)}.get(own, own)
    return f"/job/{folder.name}/{screen}" if screen in SCREENS else f"/job/{folder.name}"


class Address:
    """What stands behind one address: lets the device in, reads its form, asks the screen."""

    def __init__(self, bench: Bench, guard: Guard, screen: Screen, *, open_to_all: bool = False):
        self.bench, self.guard, self.screen, self.open_to_all = bench, guard, screen, open_to_all

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
            response = await run_in_threadpool(self.screen, visit)
        except InputError as problem:
            response = visit.refused(problem.mistakes[0].what + ": " + problem.mistakes[0].wanted)
        except SizeError as problem:
            response = visit.refused(f'"{problem.said}" cannot be read: {problem.wanted}', back=request.url.path)
        if is_new:
            set_cookie(response, device)
        if "by" in form:
            response.set_cookie("by", quote(visit.by), httponly=True, samesite="strict", path="/")
        return response


async def _form_of(request: Request) -> tuple[dict[str, str], bytes]:
    if request.method != "POST":
        return {}, b""
    async with request.form(max_files=1, max_fields=40, max_part_size=LARGEST_PHOTO) as form:
        texts = {name: value for name, value in form.items() if isinstance(value, str)}
        if texts.get("text") == "ticks":
            texts["text"] = (
                "".join(value for name, value in form.multi_items() if name == "tick" and isinstance(value, str)) or "0"
            )
        files = [value for value in form.values() if not isinstance(value, str)]
        return texts, await files[0].read() if files else b""


def told_blocks(blocks: list[Block]) -> list[dict[str, Any]]:
    """A page's blocks as the templates need them; the same words in the same sequence as in a terminal."""
    told: list[dict[str, Any]] = []
    for block in blocks:
        if isinstance(block, Heading):
            told.append({"kind": "heading", "text": block.text})
        elif isinstance(block, Text):
            told.append(
                {
                    "kind": "text",
                    "text": f"{block.mark.strip()} {block.text}".strip(),
                    "strong": block.strong,
                    "indent": block.indent,
                }
            )
        elif isinstance(block, Rows):
            told.append({"kind": "rows", "header": block.header, "rows": block.rows})
    return told
