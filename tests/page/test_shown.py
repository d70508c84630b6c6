"""How every screen looks in Chromium: nothing sideways, targets for gloves, text for sun, and no finding of axe-core."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from stackcheck.formats.found_file import read_found
from stackcheck.job.events import Arrived, Seen
from stackcheck.page.app import application
from stackcheck.page.guard import Guard
from stackcheck.page.jobs import Bench
from stackcheck.present.finding_title import finding_title
from stackcheck.result import compare
from tests.page.browsers import NARROW, PHONE, SCREENS, TABLETS, served, turned_to
from tests.page.phones import FITTED, HOST, LIBRARY, Phone, say_until

EXAMPLES = Path(__file__).parents[2] / "examples"
ALL = (
    "/",
    *(f"/job/front-hub{screen}" for screen in SCREENS),
    "/job/front-hub/decide?finding=1",
    "/job/front-hub-2/gauges",
    "/job/refitting/fit",
)
QUESTIONS = (
    "before:",
    "part:left:axle-nut",
    "came off:",
    "loosened:",
    "facing:",
    "size:",
    "feel:",
    "loose",
    "taken apart",
)

SMALL = """() => {
  const small = [];
  for (const target of document.querySelectorAll("button, a, select, input:not([type=hidden]):not([type=checkbox]), label.tick")) {
    const box = target.getBoundingClientRect();
    if (!box.width) continue;
    const wanted = target.closest(".faces") ? 150 : target.closest(".pad") ? (innerHeight < 760 ? 64 : 72) : target.matches(".main, .equal") ? 96 : 64;
    if (box.height < wanted - 0.5 || box.width < 48) small.push([target.textContent.trim().slice(0, 30) || target.name || target.tagName, box.width, box.height]);
  }
  return small;
}"""
NEAR = """() => {
  const boxes = [...document.querySelectorAll("#choices button, .pad button, footer button, footer a")].map((each) => [each.textContent, each.getBoundingClientRect()]).filter(([, box]) => box.width);
  const near = [];
  for (const [a, p] of boxes) for (const [b, q] of boxes) {
    if (a === b || ["UNDO", "PHOTO", "STOP HERE"].includes(a) !== ["UNDO", "PHOTO", "STOP HERE"].includes(b)) continue; // the foot stands still while the rest goes by
    const apart = Math.max(p.left - q.right, q.left - p.right, p.top - q.bottom, q.top - p.bottom);
    if (apart < 11.5) near.push([a, b, apart]);
  }
  return near;
}"""
SIZES = """() => {
  const small = new Set();
  const walk = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
  for (let node; (node = walk.nextNode()); ) {
    const own = node.parentElement;
    if (!node.textContent.trim() || ["SCRIPT", "OPTION"].includes(own.tagName)) continue;
    if (parseFloat(getComputedStyle(own).fontSize) < 20) small.add(node.textContent.trim());
  }
  return [...small];
}"""
PLACES = """() => [...document.querySelectorAll("footer button, footer a")].map((each) => each.textContent + " " + Math.round(each.getBoundingClientRect().left) + ", " + Math.round(each.getBoundingClientRect().width))
  .concat(Math.round(document.getElementById("choices").getBoundingClientRect().top)).join("; ")"""
SIDEWAYS = "() => [document.documentElement.scrollWidth - innerWidth, ...[...document.querySelectorAll('main *')].filter((each) => each.scrollWidth > each.clientWidth + 1 && each.clientWidth && getComputedStyle(each).display !== 'inline' && !each.closest('svg') && !each.closest('.sideways') && !['SELECT', 'INPUT', 'OPTION'].includes(each.tagName)).map((each) => each.outerHTML.slice(0, 80))]"


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """A job with a finding, something that arrived and everything still open; beside it the same job at every kind of question."""
    bench = Bench(tmp_path_factory.mktemp("shown") / "jobs", LIBRARY)
    phone = Phone(application(bench, Guard({HOST})))
    phone.post("/begin", reference="freight-tricycle/front-hub", by="A")
    for number, key in enumerate(QUESTIONS):
        say_until(phone, bench, key)
        shutil.copytree(bench.jobs / "front-hub", bench.jobs / f"at-{number}")
    phone.say("1")
    shutil.copytree(bench.jobs / "front-hub", bench.jobs / "turned")
    bench.folder("turned").record(Seen(entry=4, toward="left"))
    bench.folder("front-hub").record(Arrived(item="hub bearing"))
    shutil.copytree(bench.jobs / "front-hub", bench.jobs / "refitting")
    bench.folder("refitting").record(*FITTED)
    phone.post("/begin", reference="freight-tricycle/front-hub", by="A")
    phone.post(
        "/job/front-hub-2/gauges", source="50 mm block", unit="mm", **{"gauge-1": "calliper 1", "gauge-2": "calliper 2"}
    )
    with served(bench) as address:
        yield address


@pytest.fixture(scope="module")
def page(chromium, site):
    context = chromium.new_context(has_touch=True)
    context.add_cookies([{"name": "by", "value": "B", "url": site}])
    yield context.new_page()
    context.close()


@pytest.fixture
def screens(page, site):
    """Every screen, one after the other, by its address."""
    return ((path, page) for path in ALL if page.goto(site + path))


@pytest.fixture
def questions(page, site):
    """Every kind of question of a teardown, one after the other."""
    return ((key, page) for number, key in enumerate(QUESTIONS) if page.goto(f"{site}/job/at-{number}"))


def sound(page, where):
    """What holds of every page at every size."""
    for width, height in (NARROW, PHONE, *TABLETS):
        turned_to(page, width, height)
        assert page.evaluate(SIDEWAYS) == [0], f"{where} at {width} px"
        assert page.evaluate(SMALL) == [], f"{where} at {width} px"
        assert page.evaluate(NEAR) == [], f"{where} at {width} px"
        assert page.evaluate(SIZES) == [], f"{where} at {width} px"


def test_no_screen_goes_sideways_or_has_small_targets_or_small_text(screens):
    for where, page in screens:
        sound(page, where)


def test_no_question_does_either(questions):
    for where, page in questions:
        sound(page, where)


def test_every_screen_beside_the_questions_begins_with_a_way_to_the_menu(screens):
    for where, page in screens:
        turned_to(page, *NARROW)
        if page.locator("nav#menu").count():
            assert where.endswith("/front-hub") or page.locator("header a.to-menu:visible").count() == 1, where


def test_undo_photo_stop_and_the_first_answer_stay_where_they_are_from_question_to_question(questions):
    places = set()
    for _, page in questions:
        turned_to(page, *PHONE)
        places.add(page.evaluate(PLACES))
    assert len(places) == 1 and places.pop().startswith("UNDO 12,")


def compared_examples():
    for path in sorted(EXAMPLES.glob("*.toml")):
        found, reference = read_found(path, LIBRARY.reference)
        yield compare(reference, found)


def test_the_title_of_every_finding_takes_three_lines_at_most_on_a_phone_and_its_sentence_stands_below(page, site):
    """Over every list in examples/: each title laid into the card as it stands."""
    titles = [
        finding_title(comparison, each.finding) for comparison in compared_examples() for each in comparison.findings
    ]
    assert len(titles) > 40
    turned_to(page, *PHONE)
    page.goto(f"{site}/job/turned/result")
    lines = page.evaluate(
        """titles => { const summary = document.querySelector(".card summary"), lone = summary.cloneNode(), line = (lone.textContent = "X", summary.replaceWith(lone), lone.clientHeight - 16);
      return titles.map(title => { lone.textContent = title; return Math.round((lone.clientHeight - 16) / line); }); }""",
        [f"{number}  {title}" for number, title in enumerate(titles, start=1)],
    )
    assert max(lines) <= 3
    page.goto(f"{site}/job/turned/result")
    assert page.locator(".card summary").first.inner_text().startswith("1 TURNED ROUND: ")
    expect(page.locator(".card details p").first).to_be_hidden()
    page.locator(".card summary").first.tap()
    expect(page.locator(".card details p").first).to_contain_text("reference: toward")


def serious(page):
    """What axe-core finds serious or critical, with contrast as for sun: 7 to 1, success criterion 1.4.6 of WCAG 2.2."""
    page.set_viewport_size({"width": PHONE[0], "height": 2400})  # so that the foot of the page covers nothing
    options = {
        "rules": {"color-contrast-enhanced": {"enabled": True}, "target-size": {"enabled": True}},
        "resultTypes": ["violations"],
    }
    broken = Axe().run(page, options=options).response["violations"]
    return [
        (each["id"], each["impact"], each["nodes"][0]["html"][:120])
        for each in broken
        if each["impact"] in ("serious", "critical")
    ]


def test_axe_finds_nothing_serious_on_any_screen(screens):
    assert [(where, found) for where, page in screens if (found := serious(page))] == []


def test_axe_finds_nothing_serious_at_any_question(questions):
    assert [(where, found) for where, page in questions if (found := serious(page))] == []


def test_axe_finds_nothing_serious_in_the_strip_report(page, site):
    page.goto(f"{site}/job/front-hub/report")
    assert "strip report" in page.title().lower() and serious(page) == []


def test_the_two_drawings_of_a_direction_are_mirror_pictures_of_one_size_and_neither_is_marked(questions):
    page = next(page for key, page in questions if key == "facing:")
    styles = [
        button.evaluate(
            "each => [each.className, ...['background-color', 'border-color', 'height', 'width', 'font-weight'].map(p => getComputedStyle(each)[p])]"
        )
        for button in page.locator(".faces button").all()
    ]
    assert styles[0] == styles[1]
    turned = [svg.evaluate("each => getComputedStyle(each).transform") for svg in page.locator(".faces svg").all()]
    assert turned == ["none", "matrix(-1, 0, 0, 1, 0, 0)"]
