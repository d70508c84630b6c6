"""What is said the moment a part or a fastener goes in, and stays open until it is put right or decided to be kept."""

from __future__ import annotations

import pytest

from stackcheck.job.deciding import key_of, record_comparison
from stackcheck.job.events import Answered, Arrived, Decided, Fastened, Fitted, Measured, Off, Seen
from stackcheck.job.fit_remarks import OTHER_TORQUE, all_remarks, fit_remarks, still_inside, torque_remark
from stackcheck.job.fitting import PULLED_THROUGH
from stackcheck.job.open_items import open_items
from stackcheck.page.fitting import fitted, next_places
from stackcheck.present.putting_right_page import beside_as_found, remark_words
from tests.job.at_the_bench import Bench, front_hub


@pytest.fixture
def hub(tmp_path) -> Bench:
    """The collars lay in each other's places: entry 3 is the long one, entry 9 the short one."""
    bench = Bench(tmp_path)
    front_hub(bench, collars=("22.02 cal", "18.01 cal"))
    record_comparison(bench.folder, bench.compared())
    return bench


def said(bench: Bench, event: Fitted | Fastened) -> list[str]:
    bench.folder.record(event)
    if isinstance(event, Fastened):
        remark = torque_remark(bench.job, event)
        return [remark_words(bench.job, remark)] if remark else []
    return [remark_words(bench.job, remark) for remark in fit_remarks(bench.job, bench.compared(), event)]


def kinds(bench: Bench) -> list[str]:
    return [item.kind for item in open_items(bench.job, bench.compared())]


def choice(bench: Bench, place: str):
    while (found := next((each for each in next_places(bench.job) if each.place == place), None)) is None:
        before = next_places(bench.job)[0].place
        bench.folder.record(Fitted(place=before, item="new"))
    return found


def test_the_part_offered_first_is_the_one_that_belongs_there_not_the_one_that_lay_there(hub):
    parts = choice(hub, "collar-short@left").parts
    assert parts == (
        ("entry:9", "short collar (entry 9, came off the right)"),
        ("entry:3", "long collar (entry 3, came off the left): another part"),
    )


def test_a_part_put_back_where_it_was_wrong_is_said_at_once_and_stays_open(hub):
    told = said(hub, Fitted(place="collar-short@left", entry=3, toward="left"))
    assert told == [
        "Another part than the reference's: left short collar: entry 3, the long collar. It stays among the open items."
    ]
    assert kinds(hub)[0] == "another part fitted"


def test_it_is_open_no_longer_once_the_other_one_is_in(hub):
    said(hub, Fitted(place="collar-short@left", entry=3, toward="left"))
    assert said(
        hub, Fitted(place="collar-short@left", entry=9, toward="left")
    ) == [] and "another part fitted" not in kinds(hub)


def test_a_difference_that_somebody_decided_to_keep_is_not_open_again(hub):
    finding = hub.compared().findings[0].finding
    hub.folder.record(Decided(about=key_of(finding), decision="keep as is", reason="bought so", by="A"))
    assert said(hub, Fitted(place="collar-short@left", entry=3, toward="left")) == []


def test_a_seal_fitted_the_other_way_round_is_said_at_once_and_open_until_it_is_turned(hub):
    told = said(hub, Fitted(place="seal@left", item="hub seal", toward="left"))
    assert told == [
        (
            "The other way round: left hub seal: spring side toward left; reference: toward right. "
            "It stays among the open items."
        )
    ]
    assert "fitted the other way round" in kinds(hub)
    said(hub, Fitted(place="seal@left", item="hub seal", toward="right"))
    assert "fitted the other way round" not in kinds(hub)


def test_a_way_round_that_was_not_seen_at_fitting_is_not_verified(hub):
    assert said(hub, Fitted(place="seal@left", item="hub seal", toward="not seen"))[0].startswith(
        "Which way round was not seen: not verified"
    )
    assert "way round not seen at fitting" in kinds(hub)


@pytest.mark.parametrize(
    ("what", "why"),
    [
        (Seen(entry=5, feel=("gritty",)), "gritty"),
        (Seen(entry=5, look=(PULLED_THROUGH,)), PULLED_THROUGH),
        (Decided(about="condition:bearing@left:5", decision="renew"), "decided: renew"),
    ],
)
def test_a_part_that_is_not_to_be_refitted_is_no_ordinary_choice_and_open_where_it_was_taken(hub, what, why):
    hub.folder.record(what)
    told = dict(choice(hub, "bearing@left").parts)
    assert next(iter(told)) == "entry:11" and told["entry:5"].endswith(f": not to be refitted ({why})")
    assert f"Not to be refitted: left hub bearing, entry 5: {why}. It stays among the open items." in said(
        hub, Fitted(place="bearing@left", entry=5)
    )
    assert "not to be refitted, fitted" in kinds(hub)


def test_where_nothing_ordinary_lies_there_nothing_is_preset_and_a_tap_alone_fits_nothing(hub):
    hub.folder.record(Seen(entry=5, feel=("gritty",)), Seen(entry=11, feel=("gritty",)))
    assert choice(hub, "bearing@left").parts[0][0] == ""
    assert fitted(hub.job, "bearing@left", "", "") == "Say which part goes in."


def test_a_part_whose_name_begins_with_no_is_inside_all_the_same(hub):
    hub.folder.record(Answered(key="inside", question="inside", answer="notched outer ring of the right bearing"))
    assert still_inside(hub.job, "bearing@right")
    hub.folder.record(Answered(key="inside", question="inside", answer="Nothing, no bearing either"))
    assert not still_inside(hub.job, "bearing@right")


def test_a_new_part_in_the_place_of_one_still_inside_is_asked_about_until_it_is_out(hub):
    assert still_inside(hub.job, "bearing@right") == ""
    hub.folder.record(Answered(key="inside", question="inside", answer="outer ring of the right bearing"))
    assert (
        still_inside(hub.job, "bearing@right")
        and not still_inside(hub.job, "bearing@left")
        and not still_inside(hub.job, "seal@right")
    )
    hub.folder.record(Off(what="outer ring", place="bearing@right"))
    assert still_inside(hub.job, "bearing@right") == ""


@pytest.mark.parametrize(("value", "is_remarked"), [("60 N·m", False), ("75 N·m", True), ("", False)])
def test_a_torque_outside_the_wanted_one_is_said_and_stays_open(hub, value, is_remarked):
    told = said(hub, Fastened(joint="axle nut", state="tightened", value=value))
    assert bool(told) == is_remarked == (OTHER_TORQUE in kinds(hub))
    if is_remarked:
        assert told == ["Another torque: axle nut: 75 N·m, reference 60 N·m. It stays among the open items."]


def test_what_agrees_is_not_remarked(hub):
    for name in ("bearing@left", "bearing@right"):
        hub.folder.record(
            Arrived(item="hub bearing"),
            Measured(item="hub bearing", size="length", reading="13.99 mic"),
            Fitted(place=name, item="hub bearing"),
        )
    assert all_remarks(hub.job, hub.compared()) == ()


def test_the_result_shows_as_fitted_beside_as_found_once_something_went_in(hub):
    assert beside_as_found(hub.job, hub.compared()) == []
    said(hub, Fitted(place="seal@left", item="hub seal", toward="left"))
    told = [getattr(block, "text", "") for block in beside_as_found(hub.job, hub.compared())]
    assert (
        told[0] == "AS FITTED"
        and any(words.startswith("left hub seal turned round") for words in told)
        and any(words.startswith("As found: ") for words in told)
    )
