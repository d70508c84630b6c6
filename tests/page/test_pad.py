"""The number pad in Chromium: what is asked, the way out, the field, SAY and every key stand on one screen of any size, and stay there."""

from __future__ import annotations

import shutil

import pytest
from playwright.sync_api import expect

from stackcheck.bench.questions import all_questions
from stackcheck.job.events import Arrived, Undone
from stackcheck.job.folder import JobFolder
from stackcheck.page.app import application
from stackcheck.page.guard import Guard
from stackcheck.page.jobs import Bench
from tests.page.browsers import Hand, served
from tests.page.phones import HOST, LIBRARY, Phone, job, say_until

UPRIGHT, LYING, TABLETS = (
    ((360, 740), (360, 640), (320, 568)),
    ((740, 360), (640, 360), (568, 320)),
    ((768, 1024), (1024, 768), (1280, 800)),
)
WIDE = TABLETS[1:]
"""Here a part that is offered has its field and pad beside it."""

SIZES = (*UPRIGHT, *LYING, *TABLETS)
PARTS = "header h1, #asks h2, #choices button, .undo, .sized input, .sized .line button, .pad button"
OUTSIDE = """parts => { const foot = document.querySelector("footer"), end = getComputedStyle(foot).position === "fixed" ? foot.getBoundingClientRect().top : innerHeight;
  return [...document.querySelectorAll(parts)].filter(each => { const box = each.getBoundingClientRect();
    return box.width && (box.top < 0 || box.bottom > end + 0.5 || box.right > innerWidth + 0.5 || (each.tagName === "BUTTON" && each.scrollWidth > each.clientWidth + 8)); }).map(each => each.textContent); }"""
LAID = "const words = document.getElementById('text'); words.textContent = text; words.classList.toggle('wordy', text.length > 44);"
BOXES = """() => [...document.querySelectorAll("#choices, #choices button, .sized input, .sized .line button, .pad button")].map(each => each.getBoundingClientRect())
  .filter(box => box.width).map(box => [box.left, box.top, box.width, box.height].map(Math.round).join(" "))"""
KEYS = "() => [...document.querySelectorAll('.pad button')].map(each => each.getBoundingClientRect()).map(box => [Math.round(box.width), Math.round(box.height)])"


@pytest.fixture(scope="module")
def asked(tmp_path_factory):
    """The same job where a gap is asked for, where a part is offered, where a size must be measured; one with something that arrived, one at its gauges."""
    bench = Bench(tmp_path_factory.mktemp("pad") / "jobs", LIBRARY)
    phone = Phone(application(bench, Guard({HOST})))
    phone.post("/begin", reference="freight-tricycle/front-hub", by="A")
    screens = {"gap": "before:", "part": "part:left:axle-nut", "facing": "facing:", "size": "size:", "feel": "feel:"}
    for name, key in {**screens, "apart": "taken apart"}.items():
        say_until(phone, bench, key)
        shutil.copytree(bench.jobs / "front-hub", bench.jobs / name)
    bench.folder("apart").record(Arrived(item="hub bearing"))
    shutil.copytree(bench.jobs / "gap", bench.jobs / "gauges")
    phone.post(
        "/job/gauges/gauges", source="50 mm block", unit="mm", **{"gauge-1": "calliper 1", "gauge-2": "calliper 2"}
    )
    return bench


@pytest.fixture(scope="module")
def page(chromium, asked):
    with served(asked) as address:
        context = chromium.new_context(has_touch=True, base_url=address)
        yield context.new_page()
        context.close()


def at(page, screen, size):
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.goto(f"/job/{screen}")
    if screen == "part" and size not in WIDE:
        page.get_by_text("A SIZE, OR SOMETHING ELSE").tap()
    expect(page.locator(".pad")).to_be_visible()
    return page


@pytest.mark.parametrize("screen", ["gap", "part", "size", "apart/measure", "gauges/gauges"])
def test_question_field_say_and_pad_are_on_one_screen(page, screen):
    for size in SIZES:
        assert at(page, screen, size).evaluate(OUTSIDE, PARTS) == [], size
        assert page.evaluate("document.documentElement.scrollWidth") == size[0]


@pytest.mark.parametrize("screen", ["part", "facing", "feel"])
def test_no_answer_lies_under_the_foot_or_needs_scrolling(page, screen):
    """Two answers of a part lay half under the foot of the smallest phone held lying, and DONE below its end."""
    for size in SIZES:
        page.set_viewport_size({"width": size[0], "height": size[1]})
        page.goto(f"/job/{screen}")
        expect(page.locator("#choices button, #choices .tick").first).to_be_visible()
        assert page.evaluate(OUTSIDE, "#text, #choices button, #choices .tick, .undo") == [], size
        assert page.evaluate("document.documentElement.scrollWidth") == size[0]


def test_a_wide_tablet_has_field_and_pad_beside_the_part_that_is_offered_and_a_narrow_one_behind_a_tap(page):
    for size in SIZES:
        page.set_viewport_size({"width": size[0], "height": size[1]})
        page.goto("/job/part")
        expect(page.get_by_text("YES, THIS IS IT")).to_be_visible()
        assert page.locator(".pad").is_visible() == (size in WIDE), size
        assert page.get_by_text("A SIZE, OR SOMETHING ELSE").count() == (size not in WIDE)
    page.set_viewport_size({"width": 768, "height": 1024})  # turned in the hand
    expect(page.get_by_text("A SIZE, OR SOMETHING ELSE")).to_be_visible()
    expect(page.locator(".pad")).to_be_hidden()


def test_a_key_is_64_high_on_any_phone_held_upright_but_the_smallest_and_never_below_44(page):
    for size in SIZES:
        for width, height in at(page, "gap", size).evaluate(KEYS):
            wanted = 72 if size in TABLETS else 64 if size in UPRIGHT[:2] else 44
            assert height >= wanted and width >= 48, (size, width, height)


def test_the_longest_question_of_every_reference_leaves_room_for_the_pad(page, tmp_path):
    """The words of each question that takes a size, laid into the screen as it stands."""
    texts = set()
    for number, id in enumerate(sorted(LIBRARY.files)):
        folder = JobFolder.begin(
            tmp_path / str(number), LIBRARY.reference(id), LIBRARY.files[id], why="", by="A", points=()
        )
        texts |= {question.text for question in all_questions(folder.job) if question.kind in ("reading", "part")}
    assert len(texts) > 60
    for size in SIZES:
        for screen in ("gap", "size"):
            at(page, screen, size)
            assert (
                page.evaluate(
                    f"([texts, parts]) => texts.filter(text => {{ {LAID} return ({OUTSIDE})(parts).length; }})",
                    [sorted(texts), PARTS],
                )
                == []
            ), size


def test_nothing_moves_while_a_size_is_typed_or_from_one_size_to_the_next(page):
    for size in SIZES[:-1]:
        before = at(page, "gap", size).evaluate(BOXES)
        for key in ("3", ".", "..", "feeler", "DEL"):
            page.locator(".pad button").get_by_text(key, exact=True).tap()
            assert page.evaluate(BOXES) == before, (size, key)
        pad = before[-20:]
        assert at(page, "size", size).evaluate(BOXES)[-20:] == pad, size


@pytest.fixture
def hand(chromium, address):
    hand = Hand(chromium, address, (360, 640))
    yield hand.begin()
    hand.close()


def test_where_the_foot_lies_under_the_pad_undo_stands_beside_the_way_out(bench, hand):
    hand.tap("#choices button")
    assert hand.page.locator("footer").evaluate("each => getComputedStyle(each).position") in ("fixed", "static")
    hand.page.locator(".undo:visible, footer button:visible").first.tap()
    expect(hand.page.locator("#said")).to_contain_text("Undone")
    assert any(isinstance(event, Undone) for event in job(bench).events)
    expect(hand.page.locator(".undo")).to_be_visible()
    hand.page.get_by_text("STOP HERE").scroll_into_view_if_needed()
    expect(hand.page.get_by_text("STOP HERE")).to_be_in_viewport()


def test_a_part_that_is_offered_has_its_field_and_pad_behind_a_tap_and_a_way_back(bench, hand):
    hand.answer_until("part:left:collar-short@left", bench)
    expect(hand.page.locator("#typing")).to_be_hidden()
    assert hand.page.evaluate(OUTSIDE, "#choices button") == []
    hand.page.get_by_text("A SIZE, OR SOMETHING ELSE").tap()
    hand.page.get_by_text("BACK", exact=True).tap()
    expect(hand.page.get_by_text("YES, THIS IS IT")).to_be_visible()
    hand.say("2 2 . 0 2 cal")
    assert job(bench).offs[-1].sizes == {"length": "22.02 mm cal"}
