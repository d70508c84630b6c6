"""The gallery of the manual: every screen in Chromium at phone size, taken anew.

    python -m tests.page.manual_gallery [FOLDER]

One job of the front hub, tapped through; the pictures go to the manual's folder, in grey and few shades, each below 40 KB.
"""

from __future__ import annotations

import io
import os
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from PIL import Image
from playwright.sync_api import expect

from stackcheck.bench.questions import next_question
from stackcheck.job.events import Arrived
from stackcheck.page.jobs import Bench
from tests.page.browsers import Hand, chromium_running, served
from tests.page.phones import FITTED, LIBRARY, job

FOLDER = Path(__file__).parents[2] / "stackcheck/manual/pictures"
SHADES = 12
LARGEST = 40_000
CLOCK = "2031-05-06T09:12:00+02:00"


def taken(hand: Hand, folder: Path) -> Callable[[str], None]:
    def take(name: str) -> None:
        picture = Image.open(io.BytesIO(hand.page.screenshot())).convert("L").quantize(SHADES)
        file = folder / f"page-{name}.png"
        picture.save(file, optimize=True)
        assert file.stat().st_size < LARGEST, f"{file.name}: {file.stat().st_size} bytes"

    return take


def gallery(folder: Path) -> None:
    os.environ["STACKCHECK_CLOCK"] = CLOCK
    with tempfile.TemporaryDirectory() as name, chromium_running() as chromium:
        bench = Bench(Path(name) / "jobs", LIBRARY)
        with served(bench) as address:
            hand = Hand(chromium, address)
            take = taken(hand, folder)
            hand.go("/")
            hand.page.select_option("#reference", "freight-tricycle/front-hub")
            hand.page.fill("#why", "wheel off centre")
            hand.page.fill("#by", "A")
            take("begin")
            hand.page.locator("button.main").tap()
            expect(hand.page.locator("#question")).to_be_visible()
            take("size")
            hand.say("3 . 0 mm")
            _teardown(hand, bench, take)
            _afterwards(hand, bench, take)
            hand.close()


def _teardown(hand: Hand, bench: Bench, take: Callable[[str], None]) -> None:
    hand.answer_until("part:left:axle-nut", bench)
    take("part")
    hand.answer_until("facing:", bench)
    hand.tap(".faces button >> nth=1")
    hand.answer_until("facing:4", bench)
    take("facing")
    hand.tap(".faces button >> nth=1")
    hand.answer_until("feel:", bench)
    take("feel")
    hand.context.set_offline(True)
    for _ in range(2):
        hand.answer()
    take("unsent")
    hand.context.set_offline(False)
    expect(hand.page.locator("#unsent")).to_be_hidden()
    while not next_question(job(bench)).key.startswith("taken apart"):
        faces = hand.page.locator(".faces button").count()
        hand.tap(".faces button >> nth=1") if faces else hand.answer()
    hand.page.locator("#choices .two button").tap()
    expect(hand.page.locator("main")).to_contain_text("Nothing is left to ask")


def _afterwards(hand: Hand, bench: Bench, take: Callable[[str], None]) -> None:
    bench.folder("front-hub").record(Arrived(item="hub bearing", by="A"))
    for screen in ("open", "result", "buy", "points", "photo"):
        hand.go(f"/job/front-hub/{screen}")
        take(screen)
    hand.go("/job/front-hub/measure")
    take("measure")
    for key in ["1", "3", ".", "9", "7", "mic"]:
        hand.page.locator(".pad button").get_by_text(key, exact=True).tap()
    hand.page.locator(".line button").tap()
    expect(hand.page.locator("#said")).to_contain_text("agrees")
    take("measured")
    bench.folder("front-hub").record(*FITTED)
    hand.go("/job/front-hub/fit")
    take("fit")
    hand.go("/job/front-hub/gauges")
    hand.page.fill("#source", "50 mm block")
    for number in (1, 2):
        hand.page.fill(f"#gauge-{number}", f"calliper {number}")
    hand.page.locator("button.main").tap()
    expect(hand.page.locator("h2").first).to_contain_text("reads?")
    take("gauges")
    hand.go("/job/front-hub/result").page.locator(".card").first.scroll_into_view_if_needed()
    hand.page.evaluate(
        "document.querySelector('.card details').open = true; document.querySelector('.card').scrollIntoView()"
    )
    hand.page.wait_for_load_state("networkidle")
    take("finding")


if __name__ == "__main__":
    gallery(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
