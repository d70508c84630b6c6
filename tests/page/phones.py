"""A bench with one job, and browsers that speak to it as forms do: for every test of the page."""

from __future__ import annotations

import re
from pathlib import Path

from starlette.testclient import TestClient

from stackcheck.bench.questions import lasting_name, next_question
from stackcheck.formats.library import Library
from stackcheck.job.events import Fitted
from stackcheck.job.state import Job
from stackcheck.page.answers import take
from stackcheck.page.jobs import Bench

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
HOST = "bench.local:8093"
BASE = f"http://{HOST}"


FITTED = tuple(
    Fitted(place=place, entry=entry) for place, entry in (("bearing@left", 5), ("spacer-tube", 6), ("bearing@right", 7))
)
"""What goes into the front hub before its seals, where everything that came off goes back."""


class Phone:
    """A browser of one device: keeps its cookie, reads the mark out of each page, posts forms."""

    def __init__(self, app):
        self.client = TestClient(app, base_url=BASE, follow_redirects=True)
        self.page = None
        self._mark = ""

    def get(self, path: str):
        self.page = self.client.get(path)
        return self.page

    @property
    def mark(self) -> str:
        self._mark = self._mark or re.search(r'name="mark" value="([^"]+)"', self.client.get("/").text)[1]
        return self._mark

    def post(self, path: str, files=None, **form: str):
        headers = {"origin": BASE}
        self.page = self.client.post(path, data={"mark": self.mark, **form}, headers=headers, files=files)
        return self.page

    def say(self, text: str, job: str = "front-hub", **more: str):
        name = re.search(r'id="name" value="([^"]+)"', self.get(f"/job/{job}").text)
        assert name, "no question stands on the page"
        return self.post(f"/job/{job}/answer", name=_plain(name[1]), text=text, **more)


def _plain(html: str) -> str:
    return html.replace("&#39;", "'").replace("&amp;", "&")


def job(bench: Bench) -> Job:
    return bench.folder("front-hub").job


def say_until(phone: Phone, bench: Bench, key: str, *, facing: str = "0") -> None:
    """Answer YES to every part and 0 to everything else until this question comes next.

    The phone only says who it is: a browser sends each answer in `tests/page/test_in_browser.py` and `test_serving.py`.
    """
    folder = bench.folder("front-hub")
    by = phone.client.cookies.get("by", "")
    while not (question := next_question(folder.job)).key.startswith(key):
        is_part = question.kind == "part" and question.place
        text = "" if is_part else facing if question.key.startswith("facing") else "0"
        assert take(folder, name=lasting_name(folder.job, question), text=text, by=by).step is None


def take_apart(phone: Phone, bench: Bench) -> None:
    """The whole teardown; nobody looks which way anything points."""
    say_until(phone, bench, "taken apart")
    phone.say("1")
