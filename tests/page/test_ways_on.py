"""No screen is a dead end: whoever comes second says who looks, what was not seen can be looked at later, STOP HERE says that all is saved."""

from __future__ import annotations

import re

from stackcheck.bench.questions import next_question
from stackcheck.job.events import Seen
from stackcheck.page.app import application
from stackcheck.page.guard import Guard
from tests.page.phones import HOST, Phone, job, say_until, take_apart


def test_a_second_person_says_who_looks_where_the_second_look_begins(bench, phone):
    """The first page asks for initials only where a job is begun: that of a job that is open has no place for them."""
    say_until(phone, bench, "taken apart", facing="1")
    other = Phone(application(bench, Guard({HOST})))
    asked = other.get("/job/front-hub/second").text
    assert 'name="by"' in asked and "Who looks?" in asked
    other.post("/job/front-hub/second", by="B")
    assert "Second look by B" in other.page.text and "Flange" in other.page.text


def test_two_looks_that_differ_are_looked_at_again_by_whoever_did_not_look_last_until_they_agree(bench, phone):
    """LOOK AGAIN led to the two answers, and to no way of looking."""
    say_until(phone, bench, "taken apart", facing="1")
    other = Phone(application(bench, Guard({HOST})))
    other.post("/job/front-hub/second", by="B")
    for answer in ("2", "1", "1", "1", "1"):
        second(other, answer)
    assert job(bench).disagreed == {1} and "1: A: left and B: right" in other.page.text.replace(
        "entry 1, axle nut", "1"
    )
    assert "Second look by A" in phone.get("/job/front-hub/second").text
    second(phone, "2")
    assert job(bench).disagreed == frozenset() and job(bench).offs[0].toward == "right"
    assert "5 directions agree." in phone.get("/job/front-hub/second").text


def second(phone: Phone, text: str) -> None:
    name = re.search(r'name="name" value="([^"]+)"', phone.get("/job/front-hub/second").text)[1]
    phone.post("/job/front-hub/second", name=name, text=text)


def test_a_direction_that_cannot_be_told_leads_to_where_directions_are_looked_at_and_a_size_to_measuring(bench, phone):
    """The screen of sizes does not list a direction: nobody measures it."""
    say_until(phone, bench, "taken apart", facing="1")
    bench.folder("front-hub").record(Seen(entry=4, toward="cannot tell"))
    for screen in ("open", "close"):
        text = phone.get(f"/job/front-hub/{screen}").text
        groups = [group for group in text.split("<section") if ">Cannot tell<" in group or ">Not looked at<" in group]
        facings = [group for group in groups if "spring side" in group]
        assert facings and all('href="/job/front-hub/second">LOOK<' in group for group in facings)
        assert not any("/measure" in group for group in facings)
    phone.post("/job/front-hub/second", by="B")
    assert "Second look by B" in phone.page.text


def test_the_same_person_is_told_so_and_may_hand_the_device_to_another(bench, phone):
    say_until(phone, bench, "taken apart", facing="1")
    phone.get("/job/front-hub/second")
    assert "a second look by the same person" in phone.page.text and "If somebody else looks now:" in phone.page.text
    phone.post("/job/front-hub/second", by="B")
    assert "Second look by B" in phone.page.text


def test_a_part_that_was_not_seen_is_asked_for_again_when_somebody_can_look(bench, phone):
    say_until(phone, bench, "part:right:bearing@right")
    phone.say("0")
    take_apart(phone, bench)
    assert "LOOK NOW" in phone.get("/job/front-hub/open").text and next_question(job(bench)) is None
    phone.post("/job/front-hub/open", again="yes")
    assert "What was not seen is asked again." in phone.page.text
    assert next_question(job(bench)).place == "bearing@right" and not job(bench).taken_apart
    phone.say("")
    take_apart(phone, bench)
    assert job(bench).offs[-1].place == "bearing@right" and job(bench).found.not_seen == ()
    assert "LOOK NOW" not in phone.get("/job/front-hub/open").text


def test_stop_here_says_that_what_was_said_is_saved(bench, phone):
    assert 'href="/job/front-hub/open?stop=1">STOP HERE' in phone.get("/job/front-hub").text
    assert f"Saved, {job(bench).live[-1].at[11:16]}." in phone.get("/job/front-hub/open?stop=1").text
    assert "Saved, " not in phone.get("/job/front-hub/open").text


def test_no_assembly_is_chosen_before_somebody_chooses(phone):
    page = phone.get("/").text
    assert '<select id="reference" name="reference" required>\n<option value="">choose</option>' in page


def test_a_photo_offers_the_number_of_the_next_card(phone):
    assert 'name="card" inputmode="numeric" maxlength="20" value="1"' in phone.get("/job/front-hub/photo").text
    phone.post("/job/front-hub/photo", card="7")
    assert 'value="8"' in phone.get("/job/front-hub/photo").text


def test_where_a_part_is_to_be_measured_before_it_goes_in_the_way_to_measuring_lies_beside_it(bench, phone):
    take_apart(phone, bench)
    page = phone.get("/job/front-hub/fit").text
    cards = [card.partition("</section>")[0] for card in page.split('<section class="card"')[1:]]
    assert ["measure length first" in card.lower() for card in cards] == ['/measure">MEASURE' in card for card in cards]
    assert any('/measure">MEASURE' in card for card in cards)
