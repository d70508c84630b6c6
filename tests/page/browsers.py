"""Debian's Chromium, and the page served to it: for tests that see and tap what a person would.

Playwright drives it and downloads nothing. Where there is no Chromium these tests are skipped; on a machine that says CI=true
they fail instead.
"""

from __future__ import annotations

import os
import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect, sync_playwright

from stackcheck.bench.questions import next_question
from stackcheck.page.app import application
from stackcheck.page.guard import Guard
from stackcheck.page.jobs import Bench
from tests.page.phones import job

PHONE, NARROW, TABLETS = (360, 740), (320, 640), ((768, 1024), (1024, 768))
ARGUMENTS = [
    "--no-sandbox",
    "--disable-dev-shm-usage",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-sync",
    "--disable-component-update",
]
SCREENS = ("", "/open", "/result", "/measure", "/buy", "/fit", "/points", "/gauges", "/photo", "/second")
SLOW_MS = 30_000
"""How long something may take to show; the machine may be busy."""

expect.set_options(timeout=SLOW_MS)


@contextmanager
def chromium_running() -> Iterator[Browser]:
    program = shutil.which("chromium")
    if program is None:
        if os.environ.get("CI") == "true":
            pytest.fail("no Chromium on this machine: apt-get install chromium")
        pytest.skip("no Chromium on this machine: apt-get install chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=ARGUMENTS)
        yield browser
        browser.close()


def turned_to(page: Page, width: int, height: int) -> None:
    """The screen at another size, as it is drawn: what the page lays out again it does before the next picture."""
    page.set_viewport_size({"width": width, "height": height})
    page.evaluate("() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)))")


@contextmanager
def served(bench: Bench) -> Iterator[str]:
    """The page on a free port of this computer, and its address."""
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    host = f"127.0.0.1:{listening.getsockname()[1]}"
    server = uvicorn.Server(
        uvicorn.Config(application(bench, Guard({host})), log_level="warning", timeout_graceful_shutdown=1)
    )
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    yield f"http://{host}"
    server.should_exit = True
    thread.join()
    listening.close()


class Hand:
    """A person with one device: taps what the page shows and waits until it shows the next question."""

    def __init__(self, browser: Browser, address: str, size: tuple[int, int] = PHONE, **more: object):
        self.context = browser.new_context(viewport={"width": size[0], "height": size[1]}, has_touch=True, **more)
        self.page: Page = self.context.new_page()
        self.page.set_default_timeout(SLOW_MS)
        self.address = address
        self.complaints: list[str] = []
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on(
            "console",
            lambda message: self.complaints.append(message.text) if "Content Security Policy" in message.text else None,
        )

    def go(self, path: str = "/job/front-hub") -> Hand:
        self.page.goto(self.address + path)
        return self

    def begin(self, by: str = "A") -> Hand:
        self.go("/")
        self.page.select_option("#reference", "freight-tricycle/front-hub")
        self.page.fill("#by", by)
        self.page.locator("button.main").tap()
        expect(self.page.locator("#question")).to_be_visible()
        return self

    @property
    def question(self) -> str:
        return self.page.locator("#name").input_value()

    def tap(self, selector: str) -> None:
        """Tap, and wait until another question stands there."""
        self.moment_passed()
        asked = self.question
        self.page.locator(selector).first.tap()
        self.asked_after(asked)

    def asked_after(self, asked: str) -> None:
        """Wait until another question stands there; looked for often, because a teardown waits forty times."""
        another = "asked => { const name = document.getElementById('name'); return name && name.value !== asked; }"
        self.page.wait_for_function(another, arg=asked, polling=20)

    def moment_passed(self) -> None:
        """As if the moment were over in which a new question takes no tap: waited out, it is most of a teardown."""
        self.page.evaluate("document.querySelector('main.fresh')?.classList.remove('fresh')")

    def say(self, keys: str) -> None:
        """A size by the page's own number pad, one key after the other."""
        self.moment_passed()
        if self.page.locator("#pad").is_hidden():
            self.page.get_by_text("A SIZE, OR SOMETHING ELSE").tap()
        for key in keys.split():
            self.page.locator("#pad button").get_by_text(key, exact=True).tap()
        self.tap("#typing .line button")

    def answer(self) -> None:
        """One question: YES to a part, the first choice of several, else the way out."""
        self.moment_passed()
        choices = self.page.locator("#choices")
        if choices.locator(".tick").count():
            choices.locator(".tick").first.tap()
        for selector in (".faces button", "button.main", ".two button", "button"):
            if choices.locator(selector).count():
                return self.tap(f"#choices {selector}")
        raise AssertionError("nothing to tap")

    def answer_until(self, key: str, bench: Bench) -> None:
        while not next_question(job(bench)).key.startswith(key):
            self.answer()

    def close(self) -> None:
        assert self.complaints == []
        self.context.close()
