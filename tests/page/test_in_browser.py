"""Whole pieces of work in Chromium: by taps, without the network, by two people, by keyboard alone, without script."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import expect

from stackcheck.bench.questions import next_question
from stackcheck.job.events import Answered, Fitted, Measured, Noted, Photographed, Undone
from stackcheck.page.app import application
from stackcheck.page.guard import Guard
from tests.page.browsers import Hand
from tests.page.phones import HOST, Phone, job, say_until

LEFT_COLLAR = "part:left:collar-short@left"


@pytest.fixture
def hand(chromium, address):
    hand = Hand(chromium, address)
    yield hand.begin()
    hand.close()


def test_a_whole_teardown_by_taps_at_phone_size(bench, hand):
    hand.say("3 . 0 mm")
    hand.answer_until(LEFT_COLLAR, bench)
    hand.say("2 2 . 0 2 cal")
    hand.answer_until("taken apart", bench)
    hand.page.locator("#choices .two button").tap()
    expect(hand.page.locator("main")).to_contain_text("Nothing is left to ask")
    hand.page.get_by_text("COMPARE").tap()
    expect(hand.page.locator("main")).to_contain_text("NOT VERIFIED")
    record = job(bench)
    assert len(record.offs) == 11 and record.taken_apart and record.offs[2].sizes == {"length": "22.02 mm cal"}
    assert (
        record.offs[4].feel == ("smooth",)
        and record.offs[0].toward == "left"
        and {event.by for event in record.events[:-1]} == {"A"}
    )


def test_the_network_may_go_in_the_middle_and_nothing_is_lost_or_doubled(bench, hand):
    hand.answer_until(LEFT_COLLAR, bench)
    before = len(job(bench).events)
    hand.context.set_offline(True)
    for _ in range(6):
        hand.answer()
    expect(hand.page.locator("#unsent")).to_have_text("FRONT HUB: 6 answers not yet at the bench")
    assert len(job(bench).events) == before
    hand.context.set_offline(False)
    expect(hand.page.locator("#unsent")).to_be_hidden()
    hand.answer_until("taken apart", bench)
    assert [off.place for off in job(bench).offs].count("collar-short@left") == 1 and len(job(bench).offs) == 11
    assert job(bench).offs[2].toward == "left" and not job(bench).of(Noted)


def test_a_reload_while_the_network_is_gone_keeps_what_was_answered(bench, hand):
    hand.answer_until(LEFT_COLLAR, bench)
    hand.context.set_offline(True)
    for _ in range(2):
        hand.answer()
    hand.page.goto("about:blank")
    hand.context.set_offline(False)
    hand.go()
    expect(hand.page.locator("#unsent")).to_be_hidden()
    expect(hand.page.locator("#row")).to_contain_text("left: 3 off")
    assert job(bench).offs[2].toward == "left"


def test_undo_without_network_stays_on_the_page_and_is_numbered_like_an_answer(bench, hand):
    """What was answered and taken back offline is all in the journal afterwards, in the sequence in which it was said."""
    hand.answer_until(LEFT_COLLAR, bench)
    hand.context.set_offline(True)
    asked = hand.question
    hand.answer()
    undo(hand)
    expect(hand.page.locator("#name")).to_have_value(asked)
    expect(hand.page.locator("#said")).to_have_text("Undone: kept on this device, not yet at the bench.")
    hand.say("2 1 . 5 0 mm")
    expect(hand.page.locator("#unsent")).to_have_text("FRONT HUB: 3 answers not yet at the bench")
    hand.context.set_offline(False)
    expect(hand.page.locator("#unsent")).to_be_hidden()
    record = job(bench)
    assert len(record.of(Undone)) == 0 and len([event for event in record.events if isinstance(event, Undone)]) == 1
    assert record.offs[2].sizes == {"length": "21.50 mm"} and len(record.offs) == 3 and not record.of(Noted)


def undo(hand: Hand) -> None:
    hand.page.locator("footer button").tap()


def test_without_network_no_tap_leaves_the_page(bench, hand):
    asked = hand.question
    hand.context.set_offline(True)
    for words in ("STOP HERE", "PHOTO", "Result"):
        hand.page.get_by_text(words, exact=True).tap()
        expect(hand.page.locator("#network")).to_contain_text("No network: this page stays.")
        assert hand.question == asked
    hand.context.set_offline(False)
    expect(hand.page.locator("#network")).to_be_hidden()
    hand.page.get_by_text("STOP HERE").tap()
    expect(hand.page.locator("h1")).to_contain_text("WHOLE")


def test_a_photo_without_network_waits_on_its_page_and_is_kept_once(bench, hand, tmp_path):
    hand.go("/job/front-hub/photo").page.fill("#card", "6")
    hand.context.set_offline(True)
    hand.page.get_by_text("KEEP").tap()
    expect(hand.page.locator("#network")).to_contain_text("the photo is kept on this page, not yet at the bench")
    hand.context.set_offline(False)
    expect(hand.page.locator("#said")).to_contain_text("Photo kept, card 6.")
    hand.page.reload()
    assert [event.card for event in job(bench).of(Photographed)] == ["6"]


def test_loading_the_page_again_after_undo_takes_back_no_more(bench, hand):
    hand.answer_until(LEFT_COLLAR, bench)
    undo(hand)
    expect(hand.page.locator("#said")).to_contain_text("Undone")
    before = len(job(bench).events)
    hand.page.reload()
    hand.go("/job/front-hub/measure")
    hand.page.reload()
    assert len(job(bench).events) == before


def test_two_pages_at_once_keep_both_answers(bench, chromium, address, hand):
    other = Hand(chromium, address).go()
    other.page.context.add_cookies([{"name": "by", "value": "B", "url": address}])
    hand.say("3 . 0 mm")
    other.say("2 . 9 mm")
    expect(other.page.locator("#said")).to_contain_text("kept as a note")
    assert [reading.value_mm for reading in job(bench).readings(gap="free gap")[""]] == [3.0]
    assert "2.9" in job(bench).of(Noted)[0].text and {event.by for event in job(bench).events[1:]} == {"A", "B"}
    expect(hand.page.locator("#name")).to_have_value(other.question)
    other.close()


def test_by_keyboard_alone(bench, chromium, address):
    hand = Hand(chromium, address).go("/")
    keys = hand.page.keyboard
    for key in ("Tab", "f", "r", "e", "i", "g", "h", "t", "Tab", "Tab", "A", "Tab", "Enter"):
        keys.press(key)
    expect(hand.page.locator("#question")).to_be_visible()
    while next_question(job(bench)).kind != "part":  # the first thing that can be reached is the way out
        _press(hand, "Tab", "Enter")
    _press(hand, "Tab", "Enter")  # YES, THIS IS IT
    assert job(bench).offs[0].kind == "nut"
    _press(hand, "Tab", "Tab", "Enter")  # the second choice: by spanner
    _press(hand, "Tab", "Enter")  # the left one of two drawings
    assert (job(bench).offs[0].came_off, job(bench).offs[0].toward) == ("spanner", "left")
    hand.close()


def _press(hand: Hand, *keys: str) -> None:
    asked = hand.question
    if hand.page.evaluate("document.activeElement === document.body"):
        hand.page.locator("#text").focus()
    for key in keys:
        hand.page.keyboard.press(key)
    hand.asked_after(asked)


def test_with_script_switched_off_every_question_is_a_plain_form(bench, chromium, address):
    hand = Hand(chromium, address, java_script_enabled=False).begin()
    hand.page.fill("#entry", "3.0..3.5 feeler")
    hand.page.locator("#typing .line button").tap()
    expect(hand.page.locator("#text")).not_to_contain_text("Free gap")
    while not job(bench).offs or not job(bench).offs[-1].feel:
        hand.answer()
    assert (
        job(bench).readings(gap="free gap")
        and job(bench).offs[-1].feel == ("smooth",)
        and job(bench).offs[2].toward == "left"
    )
    hand.page.locator("footer").get_by_text("UNDO").tap()
    expect(hand.page.locator("#said")).to_contain_text(re.compile(r"Undone: entry \d+, .*: smooth"))
    hand.page.get_by_text("STOP HERE").tap()
    expect(hand.page.locator("h1")).to_contain_text("IN PIECES. DO NOT RIDE.")
    hand.close()


@pytest.fixture
def apart(bench, hand):
    """Everything came off, and the spacer tube was measured."""
    say_until(Phone(application(bench, Guard({HOST}))), bench, "taken apart")
    bench.folder("front-hub").record(Measured(entry=6, size="length", reading="57.99 mic"))
    return hand


def test_a_reading_far_from_the_one_before_is_asked_about_with_script_and_each_way_on_does_what_it_says(bench, apart):
    """The screen that asks takes the place of the one that measured; nothing is recorded until it is answered."""
    for way, kept in (("THIS PART, MEASURED AGAIN", ["57.99 mic", "22.03 mic"]), ("NONE OF THESE", ["57.99 mic"])):
        begun = len(job(bench).events)
        apart.go("/job/front-hub/measure?what=6&size=length")
        if apart.page.locator("input[name=what]").get_attribute("value") != "6":
            apart.page.evaluate("document.querySelector('input[name=what]').value = '6'")
        for key in ("2", "2", ".", "0", "3", "mic"):
            apart.page.locator(".pad button").get_by_text(key, exact=True).tap()
        apart.page.locator(".sized .line button").tap()
        expect(apart.page.locator("main")).to_contain_text("The same part?")
        assert (
            len(job(bench).events) == begun
            and apart.page.evaluate("document.documentElement.scrollWidth - innerWidth") == 0
        )
        apart.page.get_by_text(way).tap()
        expect(apart.page.locator("main")).not_to_contain_text("The same part?")
        texts = [event.reading.replace(" mm", "") for event in job(bench).of(Measured) if event.entry == 6]
        assert texts == kept, way
        apart.page.wait_for_load_state()
        while job(bench).of(Measured)[-1].reading != "57.99 mic":
            bench.folder("front-hub").record(Undone(event=job(bench).of(Measured)[-1].number))


def test_a_part_still_inside_is_asked_about_with_script_before_another_is_fitted(bench, apart):
    bench.folder("front-hub").record(
        Answered(key="inside", question="inside", answer="spacer tube stuck"), Fitted(place="bearing@left", entry=5)
    )
    for way, fitted in (("NOT YET", 1), ("IT IS OUT", 2)):
        apart.go("/job/front-hub/fit").page.locator("section.card button").first.tap()
        expect(apart.page.locator("main")).to_contain_text("Is it out?")
        assert (
            len(job(bench).of(Fitted)) == 1
            and apart.page.evaluate("document.documentElement.scrollWidth - innerWidth") == 0
        )
        apart.page.get_by_text(way).tap()
        expect(apart.page.locator("main")).not_to_contain_text("Is it out?")
        apart.page.wait_for_load_state()
        assert len(job(bench).of(Fitted)) == fitted, way
    assert "none, it is out" in job(bench).answers["inside"]


def test_an_answer_about_the_answer_is_asked_on_a_page_of_its_own(bench, hand):
    hand.answer_until("part:", bench)
    hand.page.get_by_text("A SIZE, OR SOMETHING ELSE").tap()
    hand.page.fill("#entry", "long collar 22, gritty")
    hand.page.locator("#typing .line button").tap()
    expect(hand.page.locator("#text")).to_contain_text("Gritty - the bearing beside it?")
    hand.page.locator("button.main").first.tap()
    expect(hand.page.locator("#text")).not_to_contain_text("Gritty")
    assert len(job(bench).offs) == 1 and not [
        event for event in job(bench).of(Answered) if event.answer and not event.key.startswith("before:")
    ]


def test_a_second_tap_of_a_trembling_thumb_answers_nothing(bench, hand):
    """YES lies where the next question has its two directions: what nobody read must not be said of a seal."""
    hand.answer_until("part:left:seal@left", bench)
    hand.page.wait_for_timeout(600)
    box = hand.page.get_by_text("YES, THIS IS IT").bounding_box()
    for _ in range(2):
        hand.page.touchscreen.tap(box["x"] + box["width"] - 40, box["y"] + box["height"] / 2)
        hand.page.wait_for_timeout(60)
    expect(hand.page.locator("#text")).to_have_text("Spring side toward")
    hand.page.wait_for_timeout(600)
    expect(hand.page.locator("#text")).to_have_text("Spring side toward")
    assert job(bench).offs[-1].place == "seal@left" and job(bench).offs[-1].toward == ""
    hand.tap(".faces button")
    assert job(bench).offs[-1].toward == "left"


def test_a_size_that_is_not_taken_stands_in_its_field_again_and_no_key_has_moved(hand):
    keys = "() => [...document.querySelectorAll('.pad button')].map(key => Math.round(key.getBoundingClientRect().top))"
    before = hand.page.evaluate(keys)
    for key in ("3", ".", "1", "..", "feeler"):
        hand.page.locator("#pad button").get_by_text(key, exact=True).tap()
    hand.page.locator("#typing .line button").tap()
    expect(hand.page.locator("#said")).to_contain_text("a number is wanted here")
    expect(hand.page.locator("#entry")).to_have_value("3.1.. feeler")
    assert hand.page.evaluate(keys) == before


def test_every_answer_leaves_its_words_and_no_key_moves_for_them(bench, hand):
    """A range by feeler is told in two lines, above a question of two lines: the last row of keys must not slide under the foot."""
    keys = "() => [...document.querySelectorAll('.pad button')].map(key => Math.round(key.getBoundingClientRect().top))"
    before = hand.page.evaluate(keys)
    hand.say("3 . 0 .. 3 . 5 feeler")
    expect(hand.page.locator("#said")).to_have_text("Free gap: 3 to 3.5 mm (0.118 to 0.138 in) by feeler.")
    assert hand.page.evaluate(keys) == before
    hand.answer_until("part:left:seal@left", bench)
    hand.tap("#choices button.main")
    expect(hand.page.locator("#said")).to_have_text("Left hub seal: off.")
    hand.tap(".faces button")
    expect(hand.page.locator("#said")).to_have_text("Spring side toward outside")


def test_done_with_nothing_ticked_is_asked_about_and_not_taken_for_not_seen(bench, hand):
    hand.answer_until("feel:", bench)
    number = len(job(bench).events)
    hand.page.get_by_text("DONE", exact=True).tap()
    expect(hand.page.locator("#said")).to_contain_text("Tick all that fit")
    assert len(job(bench).events) == number


def test_what_a_page_was_opened_with_is_not_said_again_after_later_answers(hand):
    hand.page.get_by_text("PHOTO", exact=True).tap()
    expect(hand.page.locator("#card")).to_have_value("1")
    hand.page.get_by_text("KEEP").tap()
    expect(hand.page.locator("#said")).to_have_text("Photo kept, card 1.")
    hand.tap("#choices button")
    hand.page.reload()
    expect(hand.page.locator("#text")).to_be_visible()
    expect(hand.page.locator("#said")).not_to_contain_text("Photo kept")


def test_a_decision_leads_back_to_its_finding_and_not_to_the_head_of_the_page(bench, hand):
    hand.page.goto("about:blank")  # the page of the question would load itself again when the job has gone on
    say_until_apart(bench)
    hand.go("/job/front-hub/result")
    last = hand.page.locator("section.card").last
    last.get_by_role("link", name="DECIDE").tap()
    hand.page.select_option("select", "hold")
    hand.page.locator("#reason").fill("asked")
    hand.page.locator("main button.main").tap()
    expect(hand.page.get_by_text("Decided: hold.")).to_be_in_viewport()


def say_until_apart(bench) -> None:
    """The whole teardown by forms, with both collars written as the other one."""
    phone = Phone(application(bench, Guard({HOST})))
    say_until(phone, bench, LEFT_COLLAR)
    phone.say("25.00 mm cal")
    say_until(phone, bench, "part:right:collar-long@right")
    phone.say("30.00 mm cal")
    say_until(phone, bench, "taken apart")
    phone.say("1")
