"""The page at the bench: the same questions, words and journal as at the terminal, and nobody else gets in."""

from __future__ import annotations

import base64
import hashlib
import io
import re
from concurrent.futures import ThreadPoolExecutor

import pytest
from PIL import Image
from starlette.testclient import TestClient

from stackcheck.bench.answers import answer
from stackcheck.bench.questions import all_questions, lasting_name, next_question
from stackcheck.formats import journal_file
from stackcheck.job.events import Noted
from stackcheck.job.folder import JobFolder
from stackcheck.page.answers import ahead, take
from stackcheck.page.app import application
from stackcheck.page.guard import MOST_TRIES, Guard
from stackcheck.page.jobs import Bench
from tests.page.phones import BASE, HOST, Phone, job, say_until, take_apart

# --- the teardown ----------------------------------------------------------------------------------------------------


def test_a_whole_teardown_without_script_is_the_same_record_as_at_the_terminal(bench, phone):
    for _ in range(60):
        question = next_question(job(bench))
        if question is None or question.key == "taken apart":
            break
        phone.say("" if question.kind == "part" and question.place else "2" if question.choices else "0")
    assert len(job(bench).offs) == 11 and {event.by for event in job(bench).events} == {"A"}
    assert phone.say("1").status_code == 200 and "Nothing is left to ask" in phone.get("/job/front-hub").text


def test_a_job_goes_on_at_the_terminal_at_the_question_where_the_page_left_it(bench, phone):
    phone.say("3.0..3.5 feeler")
    folder = JobFolder.open(bench.jobs / "front-hub")
    question = next_question(folder.job)
    folder.record(*answer(folder.job, question, "129.2 cal").events)
    assert "129.2" not in phone.get("/job/front-hub").text and "Hub to left fork leg" in phone.page.text


def test_the_page_never_says_what_is_expected(bench, phone):
    for _ in range(20):
        phone.say("" if next_question(job(bench)).kind == "part" else "0")
        shown = re.sub(r"<script.*?</script>|<[^>]+>", " ", phone.page.text, flags=re.DOTALL)
        assert not re.search(r"18\.0|22\.0|58\.0|57\.9|short|long", shown, re.IGNORECASE)


def test_an_answer_that_is_sent_twice_counts_once(bench, phone):
    name = lasting_name(job(bench), next_question(job(bench)))
    for _ in range(2):
        phone.post("/job/front-hub/answer", name=name, text="3.0..3.5 feeler", sent="7-1")
    assert len(job(bench).readings(gap="free gap")[""]) == 1 and len(job(bench).events) == 2


def test_an_answer_that_is_sent_eight_times_at_once_counts_once(bench, phone):
    name, mark = lasting_name(job(bench), next_question(job(bench))), phone.mark
    form = {"mark": mark, "name": name, "text": "3.0..3.5 feeler", "sent": "7-1"}
    with ThreadPoolExecutor(8) as pool:
        replies = list(
            pool.map(
                lambda _: phone.client.post("/job/front-hub/answer", data=form, headers={"origin": BASE}).status_code,
                range(8),
            )
        )
    assert set(replies) == {200} and len(job(bench).events) == 2


def test_devices_are_admitted_in_any_number_and_only_so_many_are_kept():
    from stackcheck.page.guard import MOST_DEVICES

    guard = Guard({HOST})
    tokens = [guard.admit().token for _ in range(MOST_DEVICES + 5)]
    assert len(guard._devices) == MOST_DEVICES and tokens[-1] in guard._devices and tokens[0] not in guard._devices


def test_answers_given_without_the_network_find_their_questions_in_any_entry_numbering(bench, phone):
    """Another device enters a stray meanwhile: the entry numbers move, the answers still go where they belong."""
    say_until(phone, bench, "part:left:collar-short@left:3")
    likely = [lasting_name(*each) for each in ahead(job(bench))][:4]
    Phone(application(bench, Guard({HOST}))).post(
        "/job/front-hub/answer", name=likely[0], text="thin ring 45x35x0.5 mic, drip tray"
    )
    for name, text in zip(likely, ("22.02 cal", "1", "", "2")):
        take(bench.folder("front-hub"), name=name, text=text)
    entries = {off.place: off for off in job(bench).offs if off.place}
    assert entries["collar-short@left"].toward == "left" and entries["collar-short@left"].sizes == {
        "length": "22.02 mm cal"
    }


def test_an_answer_that_comes_too_late_is_kept_as_a_note(bench, phone):
    name = lasting_name(job(bench), next_question(job(bench)))
    phone.say("3.0..3.5 feeler")
    phone.post("/job/front-hub/answer", name=name, text="2.9 feeler", sent="9-9")
    assert "kept as a note" in phone.page.text and "2.9 feeler" in (bench.jobs / "front-hub/journal.toml").read_text()


def test_every_open_question_has_a_name_of_its_own(bench, phone):
    for _ in range(40):
        names = [lasting_name(job(bench), question) for question in all_questions(job(bench))]
        assert len(names) == len(set(names))
        question = next_question(job(bench))
        if question is None:
            break
        phone.say("" if question.kind == "part" else "0")


def test_what_would_have_to_be_guessed_is_asked_on_the_page(bench, phone):
    while next_question(job(bench)).kind != "part":
        phone.say("0")
    phone.say("long collar 22, gritty")
    assert "Gritty - the bearing beside it?" in phone.page.text and not job(bench).offs


def test_several_feels_are_ticked_together(bench, phone):
    say_until(phone, bench, "feel:")
    name = lasting_name(job(bench), next_question(job(bench)))
    phone.client.post(
        "/job/front-hub/answer",
        data={"mark": phone.mark, "name": name, "text": "ticks", "tick": ["4", "5"]},
        headers={"origin": BASE},
    )
    assert job(bench).offs[-1].feel == ("gritty", "notchy")


def test_undo_on_the_page_takes_back_the_last_answer(bench, phone):
    phone.say("3.0..3.5 feeler")
    assert "Undone" in phone.post("/job/front-hub/undo").text and not job(bench).readings(gap="free gap")


def test_a_photo_is_kept_under_our_own_name(bench, phone):
    picture = io.BytesIO()
    Image.new("RGB", (20, 20), "grey").save(picture, "JPEG")
    phone.post("/job/front-hub/photo", files={"picture": ("../../x.jpg", picture.getvalue(), "image/jpeg")}, card="6")
    assert (bench.jobs / "front-hub/photos/card-6.jpg").exists() and job(bench).cards == ("6",)
    assert not list((bench.jobs / "front-hub").glob(".upload*"))


def test_what_is_no_picture_is_refused_and_leaves_nothing_behind(bench, phone):
    reply = phone.post("/job/front-hub/photo", files={"picture": ("x.jpg", b"<script>", "image/jpeg")}, card="6")
    assert reply.status_code == 422 and not job(bench).cards and not list((bench.jobs / "front-hub").glob("*/card*"))


def test_result_shows_the_sentence_first_the_findings_and_not_verified_in_the_same_size(bench, phone):
    take_apart(phone, bench)
    text = phone.get("/job/front-hub/result").text
    assert text.index("Cannot tell whether") < text.index("NOT VERIFIED") and "<small" not in text


def test_the_drawing_and_the_report_are_one_tap_away_and_can_do_nothing(bench, phone):
    say_until(phone, bench, "part:left:axle-washer:2")
    assert "/job/front-hub/drawing.svg" in phone.get("/job/front-hub/result").text
    for path, kind in (("drawing.svg", "image/svg+xml"), ("report", "text/html")):
        reply = phone.get(f"/job/front-hub/{path}")
        assert (
            reply.status_code == 200 and reply.headers["content-type"].startswith(kind) and "<script" not in reply.text
        )
        assert (
            "script-src" not in reply.headers["content-security-policy"]
            and "default-src 'none'" in reply.headers["content-security-policy"]
        )


def test_fitting_by_taps_asks_which_way_and_refuses_what_was_not_measured(bench, phone):
    from stackcheck.job.events import Arrived, Fitted, Measured

    take_apart(phone, bench)
    bench.folder("front-hub").record(Arrived(item="hub bearing"))
    assert "not measured yet" in phone.post("/job/front-hub/fit", place="bearing@left", what="item:hub bearing").text
    bench.folder("front-hub").record(Measured(item="hub bearing", size="length", reading="13.99 mic"))
    phone.post("/job/front-hub/fit", place="bearing@left", what="item:hub bearing")
    phone.post("/job/front-hub/fit", place="spacer-tube", what="entry:6")
    phone.post("/job/front-hub/fit", place="bearing@right", what="item:hub bearing")
    assert "Which way round?" in phone.post("/job/front-hub/fit", place="seal@left", what="entry:4").text
    phone.post("/job/front-hub/fit", place="seal@left", what="entry:4", toward="right")
    told = [(event.place, event.item or event.entry, event.toward) for event in job(bench).of(Fitted)]
    assert told == [
        ("bearing@left", "hub bearing", ""),
        ("spacer-tube", 6, ""),
        ("bearing@right", "hub bearing", ""),
        ("seal@left", 4, "right"),
    ]
    assert "filled meanwhile" in phone.post("/job/front-hub/fit", place="seal@left", what="entry:4", toward="left").text


def test_a_decision_that_keeps_a_difference_needs_a_reason_on_the_page_too(bench, phone):
    say_until(phone, bench, "part:left:axle-washer:2")
    phone.say("1")
    take_apart(phone, bench)
    phone.get("/job/front-hub/result")
    assert "needs a reason" in phone.post("/job/front-hub/decide", finding="1", decision="keep as is").text
    phone.post("/job/front-hub/decide", finding="1", decision="keep as is", reason="never had one", by="A")
    assert [each.decision for each in job(bench).decisions.values()] == ["keep as is"]


def test_a_second_look_does_not_show_the_first_answer(bench, phone):
    say_until(phone, bench, "part:left:axle-washer:2", facing="1")
    other = Phone(application(bench, Guard({HOST})))
    other.client.cookies.set("by", "B")
    page = other.get("/job/front-hub/second").text
    assert "Flange toward" in page and "first answer is not shown" in page
    other.post("/job/front-hub/second", name="facing@axle-nut", text="2", by="B")
    assert job(bench).disagreed == {1}


@pytest.mark.parametrize("initials", ["Łö", "Ж", "李; x=1", "\x00\n", '"A"', "50%"])
def test_initials_in_any_letters_are_kept_from_request_to_request(bench, phone, initials):
    phone.post("/begin", reference="freight-tricycle/front-hub", by=initials)
    phone.say("3.0 feeler")
    assert phone.page.status_code == 200 and job(bench).events[-1].by == initials


# --- one job, many requests ---------------------------------------------------------------------------------------------


def test_only_what_was_added_is_read_however_long_the_journal_is(bench, phone, monkeypatch):
    for number in range(40):
        phone.post("/job/front-hub/answer", name="late", text=f"answer {number}", sent=str(number))
    phone.get("/job/front-hub")
    read = []
    monkeypatch.setattr(
        journal_file, "_read_block", lambda data, own=journal_file._read_block: read.append(data) or own(data)
    )
    phone.get("/job/front-hub")
    assert read == []
    JobFolder.open(bench.jobs / "front-hub").record(Noted(text="by another program"))
    read.clear()
    phone.get("/job/front-hub/open")
    assert len(read) == 1


def test_a_journal_changed_by_hand_is_read_anew(bench, phone):
    phone.say("3.0..3.5 feeler")
    journal = bench.jobs / "front-hub" / "journal.toml"
    journal.write_text(journal.read_text().replace("3.0..3.5", "2.0..2.5"))
    assert [reading.text for reading in job(bench).readings(gap="free gap")[""]] == ["2.0..2.5 feeler"]
    assert any("changed by hand" in report for report in bench.folder("front-hub").reports)


def test_what_one_request_records_is_there_for_the_next_and_not_for_one_that_began_before(bench, phone):
    earlier = bench.folder("front-hub")
    bench.folder("front-hub").record(Noted(text="said meanwhile"))
    assert len(earlier.job.events) + 1 == len(job(bench).events)
    earlier.record(Noted(text="said later"))
    assert (
        [event.text for event in job(bench).of(Noted)]
        == [event.text for event in earlier.job.of(Noted)]
        == ["said meanwhile", "said later"]
    )


# --- every page ------------------------------------------------------------------------------------------------------

SCREENS = ("", "/open", "/result", "/measure", "/buy", "/fit", "/points", "/gauges", "/photo", "/second")
PAGES = ["/", *(f"/job/front-hub{screen}" for screen in SCREENS)]


@pytest.mark.parametrize("path", PAGES)
def test_every_page_is_small_fetches_nothing_from_outside_and_carries_its_headers(path, phone):
    reply = phone.get(path)
    assert reply.status_code == 200 and len(reply.content) < 60_000
    assert not re.search(r"(?:https?:)?//(?!www\.w3\.org)[a-z]", reply.text.replace(BASE, ""))
    assert (
        "default-src 'none'" in reply.headers["content-security-policy"]
        and reply.headers["x-content-type-options"] == "nosniff"
    )
    assert not re.search(r"<(?:script|link|img)[^>]* (?:src|href)=\"(?!data:|/job/)| on[a-z]+=\"|style=", reply.text)
    for kind, text in re.findall(r"<(style|script)>(.*?)</\1>", reply.text, re.DOTALL):
        fingerprint = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert f"'sha256-{fingerprint}'" in reply.headers["content-security-policy"], (
            f"the page's own {kind} would be refused"
        )


@pytest.mark.parametrize("path", PAGES)
def test_every_field_has_a_label_and_every_page_a_language_a_title_and_one_first_heading(path, phone):
    text = phone.get(path).text
    fields = re.findall(r'<(?:input|select)(?![^>]*type="(?:hidden|checkbox)")[^>]*id="([^"]+)"', text)
    assert all(f'for="{field}"' in text for field in fields)
    assert '<html lang="en">' in text and "<title>" in text and text.count("<h1>") == 1


# --- who gets in -----------------------------------------------------------------------------------------------------


def guarded(bench: Bench) -> Phone:
    return Phone(application(bench, Guard({HOST}, code="ABC234")))


def test_on_the_network_a_device_types_the_code_once(bench, phone):
    tablet = guarded(bench)
    assert "Type them once" in tablet.get("/job/front-hub").text
    tablet.client.post("/code", data={"code": "abc 234"}, headers={"origin": BASE})
    assert "Front hub" in tablet.get("/job/front-hub").text
    cookie = next(each for each in tablet.client.cookies.jar if each.name == "bench")
    assert cookie.has_nonstandard_attr("HttpOnly") and cookie.get_nonstandard_attr("SameSite") == "strict"


def test_the_code_cannot_be_tried_through(bench):
    tablet = guarded(bench)
    replies = [
        tablet.client.post("/code", data={"code": f"AAA{number:03}"}, headers={"origin": BASE}).status_code
        for number in range(MOST_TRIES + 3)
    ]
    assert replies == [403] * MOST_TRIES + [429] * 3
    assert tablet.client.post("/code", data={"code": "ABC234"}, headers={"origin": BASE}).status_code == 429


HOSTILE = [
    *[("GET", path, {}, b"") for path in (
        "/job/../../etc/passwd", "/job/%2e%2e%2f%2e%2e%2fetc%2fpasswd", "/job/..%5c..%5cwindows", "/job/front-hub%00", "/job/front-hub/../../x", "/job/.",
        "/job/%2e%2e", "/static/../app.py", "/static/%2e%2e/app.py", "/static/..%2fapp.py", "/static/....//app.py", "/static/page.css/../../guard.py",
        "/job/front-hub/journal.toml", "/job/front-hub/reference.toml", "/journal.toml", "/jobs/front-hub/journal.toml", "/static/../../../journal.toml",
        "/job/" + "a" * 5000, "/job/<script>alert(1)</script>", "/job/'%20or%201=1", "/%c0%ae%c0%ae/", "/job/front-hub/photos/card-6.jpg", "/.git/config",
        "/job/front-hub?name=" + "x" * 3000, "//evil.example/", "/job/front-hub/answer", "/begin", "/job/nothing", "/job/front-hub/nothing", "/wp-login.php",
    )],
    *[("POST", path, {}, body) for path in ("/job/front-hub/answer", "/begin", "/job/front-hub/result", "/job/front-hub/buy", "/job/front-hub/undo", "/job/front-hub/open", "/job/front-hub/fit")
      for body in (b"", b"mark=guess&name=x&text=y", b"\xff\xfe\x00", b"mark[]=1&name=" + b"%00" * 50)],
    *[(method, "/job/front-hub", {}, b"") for method in ("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT")],
    *[("GET", "/", {"host": host}, b"") for host in ("evil.example", "evil.example:8093", "bench.local", "bench.local:8093.evil.example", "127.0.0.1:8093", "", "bench.local:8093@evil")],
    *[("POST", "/job/front-hub/undo", headers, b"MARK") for headers in (
        {"origin": "http://evil.example"}, {"origin": "null"}, {"origin": "https://bench.local:8093"}, {"origin": BASE, "sec-fetch-site": "cross-site"},
        {"origin": BASE, "sec-fetch-site": "same-site"},
    )],
    ("POST", "/job/front-hub/answer", {"content-length": "9" * 30}, b"x"), ("POST", "/job/front-hub/answer", {}, b"text=" + b"x" * 70_000),
    ("POST", "/job/front-hub/answer", {"content-type": "multipart/form-data; boundary=x"}, b"--x\r\nbroken"),
    ("POST", "/job/front-hub/answer", {"content-type": "multipart/form-data"}, b"--x"), ("POST", "/job/front-hub/answer", {"content-type": "application/json"}, b"{"),
]  # fmt: skip


def test_there_are_at_least_sixty_hostile_requests():
    assert len(HOSTILE) >= 60


@pytest.mark.parametrize("number", range(len(HOSTILE)))
def test_a_hostile_request_gets_nothing_changes_nothing_and_stops_nothing(number, bench, phone):
    method, path, headers, body = HOSTILE[number]
    before = (bench.jobs / "front-hub/journal.toml").read_bytes()
    if body == b"MARK":
        body = f"mark={phone.mark}".encode()
    if method == "POST" and "content-type" not in headers:
        headers = {"content-type": "application/x-www-form-urlencoded", **headers}
    client = TestClient(
        phone.client.app,
        base_url=BASE,
        follow_redirects=False,
        raise_server_exceptions=False,
        cookies=dict(phone.client.cookies),
    )
    reply = client.request(method, path, headers=headers, content=body)
    assert reply.status_code in (200, 303, 307, 400, 403, 404, 405, 413, 421, 422) and "Traceback" not in reply.text
    assert (
        "root:" not in reply.text
        and "did = " not in reply.text
        and "<script>alert" not in reply.text
        and "import " not in reply.text
    )
    assert (bench.jobs / "front-hub/journal.toml").read_bytes() == before
    assert phone.get("/job/front-hub").status_code == 200


def test_words_with_markup_are_shown_as_words(bench, phone):
    while next_question(job(bench)).kind != "part":
        phone.say("0")
    phone.say('ring <img src=x onerror="alert(1)">, drip tray')
    for path in PAGES:
        assert "<img src=x" not in phone.get(path).text
