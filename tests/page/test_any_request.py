"""Any request to any address, hostile ones too: never a status of 500, never a traceback, and the journal stays readable.

Drawn by hypothesis from addresses, forms and headers that fit nearly or not at all.
"""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stackcheck.bench.questions import all_questions, lasting_name
from stackcheck.job.events import Arrived
from stackcheck.job.folder import JobFolder
from stackcheck.page.app import OF_A_JOB, application
from stackcheck.page.guard import Guard
from stackcheck.page.jobs import Bench
from tests.page.phones import BASE, HOST, LIBRARY, Phone, say_until

ADDRESSES = ("/", "/code", "/begin", *(f"/job/front-hub{rest}" for rest, _, _ in OF_A_JOB))
FIELDS = (
    "name", "text", "typed", "sent", "by", "card", "event", "still", "finding", "decision", "reason", "item", "state", "marked", "place", "what", "toward", "joint",
    "value", "thread", "size", "reading", "point", "found", "note", "reading-1", "gauge-1", "gauge-2", "how-1", "source", "unit", "agree_within", "gauge", "round",
    "do", "to", "reference", "why", "code", "tick",
)  # fmt: skip
KNOWN = (
    "1", "0", "", "-", "+6", "/", "*", "ticks", "yes", "no", "renew", "keep as is", "hub bearing", "ordered", "arrived", "to buy", "bearing@left", "entry:5", "item:hub bearing",
    "left", "not seen", "axle nut", "tightened", "60 N·m", "length", "22.02 cal", "57.94 57.95 57.94 mic", "3.0..3.5 feeler", "chain sag", "agrees", "17 rule", "mm", "calliper",
    "compare", "freight-tricycle/front-hub", "gauges", "thin ring 45x35x0.5 mic, drip tray", "free gap",
)  # fmt: skip
HOSTILE = (
    "9" * 5000, "-1", "1e999", "NaN", "٣", "\x00", "\x1b[2J", "\u202e", "\ud7ff", "'''", '"""\n[[event]]\ndid = "closed"', "../../etc/passwd", "<script>alert(1)</script>",
    "{{7*7}}", "%s%n", "a" * 3000, "\r\nset-cookie: bench=x", "0x10", "1/0", "5..", "..5", "-" * 500, "(" * 800,
)  # fmt: skip
WORDS = st.one_of(st.sampled_from(KNOWN), st.sampled_from(HOSTILE), st.text(max_size=60))


@pytest.fixture(scope="module")
def asked(tmp_path_factory):
    """A job in the middle of its teardown, where every screen has something to show."""
    bench = Bench(tmp_path_factory.mktemp("any") / "jobs", LIBRARY)
    phone = Phone(application(bench, Guard({HOST})))
    phone.post("/begin", reference="freight-tricycle/front-hub", by="A")
    say_until(phone, bench, "part:left:spacer-tube")
    bench.folder("front-hub").record(Arrived(item="hub bearing"))
    return bench, phone


@pytest.fixture(scope="module")
def begun_with(asked):
    """The journal as every request finds it."""
    return (asked[0].jobs / "front-hub/journal.toml").read_bytes()


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_no_request_breaks_a_screen_or_the_journal(asked, begun_with, data):
    bench, phone = asked
    (bench.jobs / "front-hub/journal.toml").write_bytes(begun_with)
    job = bench.folder("front-hub").job
    form = data.draw(st.dictionaries(st.sampled_from(FIELDS), WORDS, max_size=5))
    if data.draw(st.booleans()):
        open_now = list(all_questions(job))
        form["name"] = lasting_name(job, open_now[data.draw(st.integers(0, 9)) % len(open_now)])
    address, method = (
        data.draw(st.sampled_from(ADDRESSES)),
        data.draw(st.sampled_from(("GET", "POST", "POST", "POST", "HEAD"))),
    )
    headers = {"origin": BASE, "accept": data.draw(st.sampled_from(("text/html", "application/json", "*/*")))}
    before = len(job.events)
    if method == "POST":
        reply = phone.client.request(
            method, address, data={"mark": phone.mark, **form}, headers=headers, follow_redirects=False
        )
    else:
        reply = phone.client.request(method, address, params=form, headers=headers, follow_redirects=False)
    assert reply.status_code < 500 and "Traceback" not in reply.text
    assert "<script>alert" not in reply.text and "set-cookie: bench=x" not in str(reply.headers).lower()
    after = JobFolder.open(bench.jobs / "front-hub")
    assert not after.reports and len(after.job.events) >= before
    if method != "POST":
        assert len(after.job.events) <= before + 1, "only that somebody compared is recorded by looking"
    assert phone.client.get("/job/front-hub/open").status_code == 200


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    body=st.binary(max_size=2000),
    kind=st.sampled_from(
        (
            "application/x-www-form-urlencoded",
            "multipart/form-data; boundary=x",
            "multipart/form-data",
            "text/plain",
            "application/json",
            "",
        )
    ),
    address=st.sampled_from(ADDRESSES),
)
def test_no_body_of_any_kind_breaks_a_screen(asked, body, kind, address):
    bench, phone = asked
    before = (bench.jobs / "front-hub/journal.toml").read_bytes()
    reply = phone.client.post(
        address, content=body, headers={"origin": BASE, "content-type": kind}, follow_redirects=False
    )
    assert reply.status_code in (200, 303, 400, 403, 405, 413, 422) and "Traceback" not in reply.text
    assert (bench.jobs / "front-hub/journal.toml").read_bytes() == before
