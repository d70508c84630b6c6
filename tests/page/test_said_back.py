"""What the page says back of an answer tells by itself what it is about: the question has left the screen by then."""

import re

import pytest

from stackcheck.bench.questions import next_question
from stackcheck.job.buying import buying
from stackcheck.job.events import Arrived, Fitted
from stackcheck.page.app import application
from stackcheck.page.fitting import next_places
from stackcheck.page.guard import Guard
from stackcheck.page.jobs import Bench
from tests.page.phones import HOST, LIBRARY, Phone, job, say_until, take_apart
from tests.page.test_screens import words


def said(phone: Phone) -> str:
    """The lines between the head of the page and the question."""
    return words(phone.page.text.partition('<div id="said" role="status">')[2].partition("</div>")[0]).strip()


def test_a_size_that_is_read_back_says_which_size_of_which_part(bench, phone):
    phone.say("3.0..3.5 feeler")
    assert said(phone).startswith("Free gap: 3 to 3.5 mm")
    say_until(phone, bench, "size:")
    asked = next_question(job(bench))
    phone.say("22.02 cal")
    off = job(bench).offs[asked.entry - 1]
    assert said(phone) == f"{off.what.capitalize()}, {asked.size}: 22.02 mm (0.867 in) by calliper."


def test_undo_says_of_which_part_it_takes_something_back(bench, phone):
    say_until(phone, bench, "facing:")
    asked = next_question(job(bench))
    off = job(bench).offs[asked.entry - 1]
    phone.say("2")
    feature = job(bench).offs[asked.entry - 1].feature
    phone.post("/job/front-hub/undo")
    assert said(phone) == f"Undone: entry {asked.entry}, {off.what}: {feature} toward right."


def test_after_something_loose_was_named_it_is_asked_what_else_is(bench, phone):
    say_until(phone, bench, "inside")
    phone.say("0")
    assert next_question(job(bench)).text == "Anything loose: tray, rag, floor?"
    phone.say("thin ring 45 od 35 id 0.5")
    say_until(phone, bench, "loose")
    assert next_question(job(bench)).text == "Anything else loose: tray, rag, floor?"


def test_a_job_that_is_begun_twice_by_one_form_is_one_even_when_the_server_was_started_anew(bench, phone):
    for own in (bench, Bench(bench.jobs, LIBRARY)):
        again = Phone(application(own, Guard({HOST})))
        again.post("/begin", reference="freight-tricycle/front-hub", why="noise", by="A", sent="one-form")
        assert again.page.url.path == "/job/front-hub-2"
    assert len(bench.folders()) == 2


def test_the_first_question_of_an_end_offers_to_begin_at_the_other_one(bench, phone):
    say_until(phone, bench, "part:")
    offer = r'<button name="text" value="\w+">BEGIN AT THE OTHER END: '
    assert re.search(offer, phone.get("/job/front-hub").text)
    phone.say("right")
    assert next_question(job(bench)).where == "Right 1."
    assert not re.search(offer, phone.get("/job/front-hub").text), "somebody has just come from there"
    phone.post("/job/front-hub/undo")
    phone.say("")
    say_until(phone, bench, "part:")
    assert next_question(job(bench)).where == "Left 2." and not re.search(offer, phone.get("/job/front-hub").text)


@pytest.mark.parametrize("screen", ["open", "result", "buy", "fit", "points", "gauges", "close"])
def test_a_page_that_may_be_longer_than_the_screen_leads_from_its_head_to_the_menu(bench, phone, screen):
    take_apart(phone, bench)
    page = phone.get(f"/job/front-hub/{screen}").text
    assert re.search(r'<h1>[^<]+</h1><a class="to-menu" href="#menu">MENU</a>', page) and '<nav id="menu"' in page


def test_a_bare_size_at_an_offered_part_is_read_back_with_its_name(bench, phone):
    say_until(phone, bench, "part:left:collar-short@left")
    phone.say("22.02 cal")
    assert said(phone) == "Left collar, length: 22.02 mm (0.867 in) by calliper."


def test_a_size_that_still_cannot_tell_is_asked_for_again_with_the_reason(bench, phone):
    take_apart(phone, bench)
    entry = next(number for number, off in enumerate(job(bench).offs, start=1) if off.place == "spacer-tube")
    phone.post("/job/front-hub/measure", what=str(entry), size="length", reading="58 rule")
    page = words(phone.get(f"/job/front-hub/measure?what={entry}&size=length").text)
    assert "Read 58 rule, good to 0.5 mm: too near a limit for that to tell. Measure it finer." in page


def test_with_one_bearing_not_seen_as_many_are_bought_as_are_offered_at_the_fitting(bench, phone):
    say_until(phone, bench, "part:left:bearing@left")
    phone.say("0")
    take_apart(phone, bench)
    bearing = next(item for item in buying(job(bench)) if item.name == "hub bearing")
    assert bearing.count == 2 and "renewed together" in bearing.why
    folder = bench.folder("front-hub")
    folder.record(Arrived(item="hub bearing"))
    offered = lambda: sum("item:hub bearing" in dict(each.parts) for each in next_places(job(bench)))
    assert offered() == 2
    folder.record(*(Fitted(place=place, item="hub bearing") for place in ("bearing@left", "bearing@right")))
    assert offered() == 0


def test_a_closed_job_leads_to_its_report(bench, phone):
    take_apart(phone, bench)
    assert "STRIP REPORT" in phone.post("/job/front-hub/close", by="AB").text
