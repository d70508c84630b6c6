"""The screens beside the teardown: measuring, buying, fasteners, points of the machine, gauges; each writes the same journal."""

from __future__ import annotations

import html
import re

import pytest

from stackcheck.job.events import (
    Arrived,
    Confirmed,
    Fastened,
    Fitted,
    GaugeRead,
    GaugesBegun,
    GaugesCompared,
    Looked,
    ToBuy,
    Undone,
)
from stackcheck.job.gauging import gauging
from tests.page.phones import FITTED, HOST, Phone, job, say_until, take_apart

POINTS = ("brake hose at full steer", "box latch", "tyre pressure, front pair", "chain sag", "brake cable clamps")


def words(html: str) -> str:
    """What a person reads of a page."""
    text = re.sub(r"<(script|style|svg).*?</\1>|<[^>]+>", " ", html, flags=re.DOTALL)
    return re.sub(r"\s+", " ", text)


# --- what arrived ----------------------------------------------------------------------------------------------------


@pytest.fixture
def bearings(bench, phone):
    """The teardown is over, new bearings are here and nobody measured them."""
    take_apart(phone, bench)
    bench.folder("front-hub").record(Arrived(item="hub bearing"))
    return phone


def test_what_arrived_is_asked_for_first_and_its_wanted_size_is_not_shown(bearings):
    asked = words(bearings.get("/job/front-hub/measure").text)
    assert "Hub bearing, the new one: length" in asked and "13.88" not in asked and "14.00" not in asked


def test_a_size_that_was_measured_is_laid_beside_the_reference_and_opens_the_way_to_fitting(bench, bearings):
    told = words(bearings.post("/job/front-hub/measure", what="hub bearing", size="length", reading="13.97 mic").text)
    assert "13.97 mm (0.550 in) by micrometer" in told and "reference 13.88 to 14.00: agrees" in told
    assert "Hub bearing, the new one" not in words(bearings.get("/job/front-hub/measure").text)
    assert "filled" not in bearings.post("/job/front-hub/fit", place="bearing@left", what="item:hub bearing").text


def test_a_new_part_of_another_width_is_said_to_differ(bearings):
    told = words(bearings.post("/job/front-hub/measure", what="hub bearing", size="length", reading="12.00 mic").text)
    assert "reference 13.88 to 14.00: differs" in told


def test_what_the_teardown_left_unmeasured_can_be_measured_later(bench, bearings):
    assert "Spacer tube, length" in words(bearings.get("/job/front-hub/measure").text)
    bearings.post("/job/front-hub/measure", what="spacer-tube", size="length", reading="57.94 57.95 57.94 mic")
    assert job(bench).readings(entry=6)["length"][-1].value_mm == 57.94


def test_a_figure_that_cannot_be_read_is_said_again_and_nothing_is_recorded(bench, bearings):
    before = len(job(bench).events)
    for what, reading in (("hub bearing", "about so"), ("hub bearing", ""), ("nothing of that name", "14 mic")):
        assert bearings.post("/job/front-hub/measure", what=what, size="length", reading=reading).status_code == 422
    assert len(job(bench).events) == before


def test_undo_on_a_screen_comes_back_to_it(bench, bearings):
    bearings.post("/job/front-hub/measure", what="hub bearing", size="length", reading="13.97 mic")
    back = bearings.post("/job/front-hub/undo", to="measure")
    assert back.url.path == "/job/front-hub/measure" and "Hub bearing, the new one" in words(back.text)
    assert isinstance(job(bench).events[-1], Undone)


def test_a_form_that_is_sent_again_does_nothing_again(bench, bearings):
    """Reload, Back and a second tap send the same form: by its mark it is one form."""
    forms = (
        ("undo", {"to": "measure"}), ("photo", {"card": "6"}), ("measure", {"what": "hub bearing", "size": "length", "reading": "13.97 mic"}),
        ("buy", {"state": "to buy", "item": "grease"}), ("points", {"point": "box latch", "found": "agrees"}),
        ("fit", {"joint": "axle nut", "state": "tightened", "value": "60 N·m"}),
    )  # fmt: skip
    for screen, form in forms:
        counts = []
        for _ in range(2):
            reply = bearings.client.post(
                f"/job/front-hub/{screen}",
                data={"mark": bearings.mark, "sent": f"mark of {screen}", **form},
                follow_redirects=False,
            )
            assert reply.status_code == 303, screen
            counts.append(len(job(bench).events))
        assert counts[0] == counts[1], screen


def test_a_photo_that_was_kept_is_not_asked_for_again(bench, phone):
    phone.post("/job/front-hub/photo", card="6")
    assert job(bench).answers["before:photo"] == "card 6" and job(bench).cards


def test_undo_says_what_was_taken_back_and_asks_before_it_reaches_into_another_screen(bench, bearings):
    asked = bearings.post("/job/front-hub/undo", to="points")
    assert "The last thing said is of another screen" in words(asked.text) and "TAKE IT BACK" in asked.text
    assert not isinstance(job(bench).events[-1], Undone)
    number = re.search(r'name="event" value="(\d+)"', asked.text)[1]
    assert "Undone: " in words(bearings.post("/job/front-hub/undo", to="points", event=number).text)
    assert job(bench).events[-1].event == int(number)
    for screen in ("fit", "result", "measure", "points", "buy"):
        assert (
            f'<input type="hidden" name="to" value="{screen}"><button>UNDO'
            in bearings.get(f"/job/front-hub/{screen}").text
        ), screen


def test_every_open_item_leads_to_the_screen_where_something_is_done_about_it(bearings):
    page = bearings.get("/job/front-hub/open").text
    for way, screen in (("MEASURE", "measure"), ("DECIDE", "result"), ("FIT", "fit"), ("LOOK", "points")):
        if f">{way}<" in page:
            assert f'href="/job/front-hub/{screen}">{way}<' in page
    assert ">MEASURE<" in page and ">FIT<" in page and ">LOOK<" in page


def test_the_last_things_said_are_read_out_as_somebody_would_say_them(bearings):
    read_out = words(bearings.get("/job/front-hub/open").text)
    assert (
        "right right" not in read_out
        and "right hub bearing" in read_out
        and "Anything loose: tray, rag, floor?: no," in read_out
    )


def test_a_thing_said_last_is_confirmed_or_no_longer_so(bench, bearings):
    number = job(bench).last_said()[-1].number
    assert "no longer so" in bearings.post("/job/front-hub/open", event=str(number), still="no").text
    bearings.post("/job/front-hub/open", event="9" * 5000, still="yes")
    assert [event.events for event in job(bench).of(Confirmed)] == [(number,)]


# --- buying and fasteners --------------------------------------------------------------------------------------------


def test_something_is_asked_for_in_words_ordered_and_arrives_with_the_number_on_it(bench, bearings):
    bearings.post("/job/front-hub/buy", state="to buy", item="brake cable end cap")
    bearings.post("/job/front-hub/buy", state="ordered", item="brake cable end cap")
    bearings.post("/job/front-hub/buy", state="arrived", item="brake cable end cap", marked="BC-2")
    assert [event.item for event in job(bench).of(ToBuy)] == ["brake cable end cap"] and job(bench).of(Arrived)[
        -1
    ].marked == "BC-2"
    assert bearings.post("/job/front-hub/buy", state="to buy", item="").status_code == 422


def test_a_fastener_is_recorded_with_its_torque_and_thread(bench, bearings):
    bearings.post("/job/front-hub/fit", joint="axle nut", state="tightened", value="60 N·m", thread="dry")
    assert [(each.joint, each.state, each.value, each.thread) for each in job(bench).of(Fastened)] == [
        ("axle nut", "tightened", "60 N·m", "dry")
    ]
    for wrong in ({"state": "safe"}, {"joint": "another"}, {"value": "60 bananas"}):
        assert (
            bearings.post("/job/front-hub/fit", **{"joint": "axle nut", "state": "tightened", **wrong}).status_code
            == 422
        )
    assert len(job(bench).of(Fastened)) == 1


def test_which_way_round_a_part_was_fitted_is_one_of_two_drawings_as_at_the_teardown(bench, bearings):
    """The same two mirror pictures that lie as the part lies; neither is marked, and nothing is chosen beforehand."""
    bench.folder("front-hub").record(*FITTED)
    page = bearings.get("/job/front-hub/fit").text
    card = re.search(
        r'<section class="card" aria-label="[^"]*left hub seal.*?</section>', page, re.IGNORECASE | re.DOTALL
    )[0]
    first, second = re.findall(
        r'<button name="toward" value="(left|right)"><svg[^>]*?( class="turned")?><use href="#spring"/></svg>toward ([^<]+)</button>',
        card,
    )
    assert (first[:2], second[:2]) == (("left", ""), ("right", ' class="turned"')) and first[2] != second[2]
    assert 'id="spring"' in page and "checked" not in card and 'toward"><option' not in card
    bearings.post("/job/front-hub/fit", place="seal@left", what="entry:4", toward=second[0])
    assert (job(bench).of(Fitted)[-1].place, job(bench).of(Fitted)[-1].toward) == ("seal@left", "right")


# --- points of the machine -------------------------------------------------------------------------------------------


def test_a_job_begun_on_the_page_knows_the_points_of_its_machine(bench, phone):
    assert job(bench).begun.points == POINTS


def test_points_are_asked_one_by_one_and_what_is_wanted_is_not_shown_before(bench, phone):
    asked = words(phone.get("/job/front-hub/points?point=chain sag").text)
    assert "Up and down in the middle of the lower run" in asked and "10 to 15" not in asked
    told = words(phone.post("/job/front-hub/points", point="chain sag", **{"reading-1": "17 rule"}).text)
    assert "Differs. chain sag: 17 rule; wanted 10 to 15 mm" in told
    assert "Brake hose at full steer" in told or "steer fully" in told.lower()


def test_readings_that_must_agree_are_held_against_each_other_by_the_gauges_of_the_job(bench, phone):
    read_gauges(
        phone,
        {"foot pump": ("2.61", "2.60", "2.61"), "pencil gauge": ("2.50", "2.49", "2.50")},
        source="front tyre",
        unit="bar",
    )
    told = phone.post(
        "/job/front-hub/points",
        point=POINTS[2],
        **{"reading-1": "2.50", "gauge-1": "foot pump", "reading-2": "2.7", "gauge-2": "pencil gauge"},
    )
    assert "on one source foot pump reads" in words(told.text) and job(bench).of(Looked)[0].verdict == "differs"


def test_a_look_is_an_answer_of_its_own_and_silence_is_none(bench, phone):
    phone.post("/job/front-hub/points", point="box latch", found="agrees", note="spring renewed")
    assert phone.post("/job/front-hub/points", point="brake cable clamps").status_code == 422
    assert [(event.point, event.verdict) for event in job(bench).of(Looked)] == [("box latch", "agrees")]
    assert "box latch" not in words(phone.get("/job/front-hub/open").text)


def test_what_differs_gets_its_words_afterwards_and_still_differs(bench, phone):
    """DIFFERS is one tap; what was seen is written when the hands are clean."""
    phone.post("/job/front-hub/points", point="box latch", found="differs")
    again = phone.get("/job/front-hub/points?point=box latch").text
    assert "Said before: box latch: looked at: differs" in again and "ADD THESE WORDS" in again
    told = words(phone.post("/job/front-hub/points", point="box latch", found="", note="hook bent").text)
    assert "Differs. box latch: looked at: differs; &#34;hook bent&#34;" in told
    assert [event.verdict for event in job(bench).of(Looked)] == ["differs", "differs"]
    assert job(bench).of(Looked)[0].seen == "box latch: looked at: differs"
    assert "ADD THESE WORDS" not in phone.get("/job/front-hub/points?point=brake cable clamps").text


def test_a_note_alone_cannot_tell(bench, phone):
    phone.post("/job/front-hub/points", point="box latch", note="rusty")
    assert job(bench).of(Looked)[0].verdict == "cannot tell"


# --- gauges ----------------------------------------------------------------------------------------------------------


def read_gauges(phone, readings, *, source="50 mm block", unit="mm", hows=()):
    """Begin with these gauges, read them round by round, compare."""
    names = list(readings)
    how = {f"how-{number}": each for number, each in enumerate(hows, start=1)}
    begun = phone.post(
        "/job/front-hub/gauges",
        source=source,
        unit=unit,
        **{f"gauge-{number}": name for number, name in enumerate(names, start=1)},
        **how,
    )
    assert begun.status_code == 200, words(begun.text)
    for number, figures in enumerate(zip(*readings.values()), start=1):
        for name, figure in zip(names, figures):
            phone.post("/job/front-hub/gauges", gauge=name, round=str(number), reading=figure)
    return phone.post("/job/front-hub/gauges", do="compare")


CALLIPERS = {
    "calliper 1": ("50.01", "50.01", "50.02"),
    "calliper 2": ("50.00", "50.01", "50.01"),
    "calliper 3": ("50.06", "50.07", "50.06"),
}


def test_gauges_are_read_round_by_round_and_the_odd_one_out_is_named(bench, phone):
    told = words(read_gauges(phone, CALLIPERS, hows=("calliper",) * 3).text)
    assert "the odd one out is calliper 3" in told and "none with a calibrated standard" in told
    kept = job(bench).last(GaugesCompared)
    assert (bench.jobs / "front-hub" / kept.file).exists() and kept.good_to_mm["calliper"] > 0.03


def test_a_reading_is_on_disk_before_the_next_and_is_not_shown_to_whoever_reads_next(bench, phone):
    phone.post(
        "/job/front-hub/gauges", source="50 mm block", unit="mm", **{"gauge-1": "calliper 1", "gauge-2": "calliper 2"}
    )
    phone.post("/job/front-hub/gauges", gauge="calliper 1", round="1", reading="50.013")
    asked = words(phone.get("/job/front-hub/gauges").text)
    assert "calliper 2 reads?" in asked and "50.013" not in asked and gauging(job(bench)).begun_round == ("50.013",)


def test_a_gauge_is_read_once_in_a_round_however_often_the_form_is_sent(bench, phone):
    phone.post(
        "/job/front-hub/gauges", source="50 mm block", unit="mm", **{"gauge-1": "calliper 1", "gauge-2": "calliper 2"}
    )
    for _ in range(2):
        phone.post("/job/front-hub/gauges", gauge="calliper 1", round="1", reading="50.01")
    assert len(job(bench).of(GaugeRead)) == 1


def test_gauges_that_cannot_be_compared_are_refused_in_words(bench, phone):
    two = {"gauge-1": "calliper 1", "gauge-2": "calliper 2"}
    for wrong in (
        {"source": ""}, {"unit": "furlong"}, {"gauge-2": ""}, {"gauge-2": "calliper 1"}, {"how-1": "eye"}, {"unit": "bar", "how-1": "calliper"},
        {"agree_within": "soon"},
    ):  # fmt: skip
        reply = phone.post("/job/front-hub/gauges", **{"source": "50 mm block", "unit": "mm", **two, **wrong})
        assert reply.status_code == 422, wrong
    phone.post("/job/front-hub/gauges", source="50 mm block", unit="mm", **two)
    for form in (
        {"gauge": "calliper 1", "round": "1", "reading": "soon"},
        {"gauge": "calliper 2", "round": "1", "reading": "50"},
        {"do": "compare"},
    ):
        assert phone.post("/job/front-hub/gauges", **form).status_code == 422
    assert len(job(bench).of(GaugesBegun)) == 1 and not job(bench).of(GaugeRead)


def test_undo_takes_a_reading_back(bench, phone):
    say_until(phone, bench, "part:")
    phone.post(
        "/job/front-hub/gauges", source="50 mm block", unit="mm", **{"gauge-1": "calliper 1", "gauge-2": "calliper 2"}
    )
    phone.post("/job/front-hub/gauges", gauge="calliper 1", round="1", reading="50.01")
    assert (
        "calliper 1 reads?" in words(phone.post("/job/front-hub/undo", to="gauges").text)
        and not gauging(job(bench)).begun_round
    )


# --- what every screen keeps to --------------------------------------------------------------------------------------


def test_not_verified_is_never_folded_away_and_stands_in_the_same_size_as_the_findings(bench, phone):
    take_apart(phone, bench)
    page = phone.get("/job/front-hub/result").text
    unfolded = re.sub(r"<details.*?</details>", "", page, flags=re.DOTALL)
    assert "<h2>NOT VERIFIED</h2>" in unfolded and "<h2>CAUTIONS</h2>" in unfolded and "<small" not in page


def test_the_result_begins_with_the_count_and_the_titles_of_the_findings_and_says_no_word_of_a_terminal(bench, phone):
    take_apart(phone, bench)
    page = phone.get("/job/front-hub/result").text
    read = words(page)
    assert "stackcheck stack" not in read and "--json" not in read
    assert read.index("DO NOT RIDE") < read.index("Mind: stands, tipping") < read.index("WHAT WAS COMPARED WITH WHAT")


def test_the_short_cautions_stand_before_the_first_loosening_and_at_the_fitting(bench, phone):
    assert "Mind: stands, tipping" in words(phone.get("/job/front-hub").text)
    say_until(phone, bench, "came off")
    assert "Mind: stands" not in words(phone.get("/job/front-hub").text)
    read = words(phone.get("/job/front-hub/fit").text)
    assert "check disc in the carrier on both sides, pads, hose" in read and "Keep grease and cleaner off disc" in read


def test_deciding_begins_with_no_choice_and_later_with_the_one_that_was_made(bench, phone):
    say_until(phone, bench, "taken apart", facing="2")
    phone.say("1")
    asked = phone.get("/job/front-hub/decide?finding=1").text
    assert '<option value="">choose</option>' in asked and "selected" not in asked
    assert phone.post("/job/front-hub/decide", finding="1", decision="").status_code == 422
    told = phone.post("/job/front-hub/decide", finding="1", decision="refit as reference", by="A")
    assert "Decided: refit as reference." in words(told.text) and told.url.fragment == "finding-1"
    assert '<option value="refit as reference" selected>' in phone.get("/job/front-hub/decide?finding=1").text


def test_a_person_closes_the_job_and_what_hinders_it_leads_to_where_it_is_cleared(bench, phone):
    take_apart(phone, bench)
    page = phone.get("/job/front-hub/close").text
    assert (
        'href="/job/front-hub/points">LOOK<' in page
        and 'href="/job/front-hub/fit">FIT<' in page
        and "DO NOT RIDE. Still open" in page
    )
    phone.client.cookies.delete("by")
    assert phone.post("/job/front-hub/close").status_code == 422 and job(bench).closed is None
    assert "closed by B with" in words(phone.post("/job/front-hub/close", by="B").text) and job(bench).closed.by == "B"


def test_closing_asks_what_was_looked_up_about_recalls_and_says_it_in_the_words_of_the_terminal(bench, phone, capsys):
    from stackcheck.cli import main

    take_apart(phone, bench)
    assert "What was looked up about recalls of the maker" in words(phone.get("/job/front-hub/close").text)
    told = html.unescape(words(phone.post("/job/front-hub/close", by="B", recall="none on 2031-05-06").text))
    assert "recall of the maker: none on 2031-05-06 ·" in told and job(bench).answers["recall"] == "none on 2031-05-06"
    main(["close", "front-hub", "--jobs", str(bench.jobs), "--by", "C"])
    at_the_terminal = re.sub(r"\s+", " ", capsys.readouterr().out)
    assert at_the_terminal.partition("NOT VERIFIED")[2].strip() in told


def test_nothing_looked_up_about_recalls_stays_not_verified(bench, phone):
    take_apart(phone, bench)
    assert (
        "recall of the maker: not looked up" in words(phone.post("/job/front-hub/close", by="B").text)
        and "recall" not in job(bench).answers
    )


# --- what is said on the page that a form leads to -----------------------------------------------------------------------


def test_what_was_said_is_said_again_after_the_server_has_started_anew_and_when_the_page_is_loaded_again(bench, phone):
    from stackcheck.page.app import application
    from stackcheck.page.guard import Guard

    told = phone.post("/job/front-hub/undo")
    assert "There is nothing to undo" in words(told.text)
    phone.client.app.app, phone.client._transport.app = None, application(bench, Guard({HOST}))
    for _ in range(2):
        assert "There is nothing to undo" in words(phone.get(str(told.url)).text)


def test_what_was_said_to_one_device_is_not_said_to_another_nor_under_another_address(bench, phone):
    from stackcheck.page.app import application
    from stackcheck.page.guard import Guard

    told = phone.post("/job/front-hub/undo")
    other = Phone(application(bench, Guard({HOST})))
    other.post("/job/front-hub/photo", card="3")
    assert "nothing to undo" not in words(other.get(str(told.url)).text)
    assert "nothing to undo" not in words(phone.get("/job/front-hub?told=another").text)


@pytest.mark.parametrize(
    "kept",
    ["x.", "x.!!!", "x.eJwDAAAAAAE=", "x." + "A" * 3000, "x.eJxTVPIvUUjMU0hUSMxNLMlIVShOTS5KLVHISczJAfIV8osUEgE3MgxV"],
)
def test_a_cookie_that_was_made_up_says_nothing(bench, phone, kept):
    phone.client.cookies.set("told", kept)
    reply = phone.get("/job/front-hub?told=x")
    assert reply.status_code == 200 and '<p class="said">' not in reply.text


def test_words_too_long_for_a_cookie_are_cut_and_the_page_still_comes(bench, phone):
    import secrets

    from starlette.requests import Request
    from starlette.responses import Response

    from stackcheck.page.telling import tell, told

    response = Response()
    tell(response, "word", (secrets.token_hex(9000), "Undone: 57.96 mm."))
    cookie = response.headers["set-cookie"].partition(";")[0]
    assert len(cookie) < 4000
    lines = told(Request({"type": "http", "headers": [(b"cookie", cookie.encode())], "query_string": b"told=word"}))
    assert len(lines) == 2 and lines[0].endswith("…")


def test_the_list_of_jobs_and_the_report_say_not_to_ride_what_is_open_and_the_report_leads_back(bench, phone):
    take_apart(phone, bench)
    assert "in pieces. DO NOT RIDE" in words(phone.get("/").text)
    report = phone.get("/job/front-hub/report").text
    assert "DO NOT RIDE" in report and 'href="/job/front-hub/result"' in report and "FASTENERS" in report


def test_no_screen_says_a_word_that_no_output_may_contain(bench, phone):
    from tests.avoided_words import AVOIDED

    take_apart(phone, bench)
    read_gauges(phone, CALLIPERS)
    for screen in ("", "/open", "/result", "/measure", "/buy", "/fit", "/points", "/gauges", "/photo", "/second"):
        assert not AVOIDED.search(words(phone.get(f"/job/front-hub{screen}").text)), screen


def test_a_reading_of_another_part_is_asked_about_on_the_page_before_it_counts(bench, bearings):
    from stackcheck.job.events import Measured

    bench.folder("front-hub").record(Measured(entry=6, size="length", reading="57.99 mic"))
    asked = bearings.post("/job/front-hub/measure", what="6", size="length", reading="22.03 mic")
    assert (
        asked.status_code == 422
        and "The same part?" in words(asked.text)
        and "THIS PART, MEASURED AGAIN" in words(asked.text)
    )
    assert bearings.post("/job/front-hub/measure", what="6", size="length", reading="867").status_code == 422
    assert (
        bearings.post("/job/front-hub/measure", what="6", size="length", reading="22.03 mic", same="yes").status_code
        == 200
    )


def test_a_part_in_the_place_of_one_still_inside_is_asked_about_on_the_page(bench, bearings):
    from stackcheck.job.events import Answered

    bench.folder("front-hub").record(Answered(key="inside", question="inside", answer="spacer tube stuck"))
    asked = bearings.post("/job/front-hub/fit", place="spacer-tube", what="entry:6")
    assert asked.status_code == 422 and "Is it out?" in words(asked.text)
    assert bearings.get("/job/front-hub/result").status_code == 200
