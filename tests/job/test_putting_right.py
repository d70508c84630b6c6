"""Decisions, the buying list, fitting: nothing is decided by the tool, nothing forgotten, nothing fitted unmeasured."""

from __future__ import annotations

import pytest

from stackcheck.job.buying import ARRIVED, ON_ORDER, READY, TO_BUY, before_fitting, buying
from stackcheck.job.deciding import key_of, lacking_words, spare, undecided
from stackcheck.job.events import Arrived, Decided, Fastened, Fitted, Measured, Noted, Off, Ordered, Seen, ToBuy
from stackcheck.job.fitting import PULLED_THROUGH, as_fitted, fit_sequence, joint_states
from stackcheck.job.open_items import open_items
from stackcheck.model.part import Size
from stackcheck.result import compare
from stackcheck.value import replace
from tests.job.at_the_bench import LIBRARY, Bench, front_hub


@pytest.fixture
def hub(tmp_path) -> Bench:
    """The front hub of a tricycle whose collars were exchanged, all off."""
    bench = Bench(tmp_path)
    front_hub(bench, collars=("22.02", "18.01"))
    return bench


def kinds(bench: Bench) -> set[str]:
    return {item.kind for item in open_items(bench.job, bench.compared())}


def item(bench: Bench, name: str):
    return next(each for each in buying(bench.job) if each.name == name)


# --- deciding --------------------------------------------------------------------------------------------------------


def test_every_finding_is_undecided_until_somebody_decides(hub):
    (finding,) = undecided(hub.job, hub.compared())
    hub.folder.record(Decided(about=key_of(finding), decision="rework", reason="each into its own place", by="A"))
    assert undecided(hub.job, hub.compared()) == () and "undecided" not in kinds(hub)


@pytest.mark.parametrize(
    ("decision", "reason", "by", "retains", "lacking"),
    [
        ("renew", "", "", False, ""), ("keep as is", "", "", False, "a reason (--reason) and initials (--by)"),
        ("keep as is", "old frame", "A", False, ""),
        ("leave out", "", "", False, ""), ("leave out", "", "", True, "a reason (--reason) and initials (--by)"),
        ("ask", "", "", False, "a reason (--reason)"),
    ],
)  # fmt: skip
def test_what_keeps_a_difference_or_leaves_out_what_retains_needs_a_reason_and_initials(
    decision, reason, by, retains, lacking
):
    assert lacking_words(decision, reason, by, retains=retains) == lacking


# --- buying ----------------------------------------------------------------------------------------------------------


def test_single_use_parts_that_came_off_are_on_the_list_with_number_and_count(hub):
    told = {each.name: (each.count, each.number, each.state) for each in buying(hub.job)}
    assert told == {
        "axle nut": (1, "FT-1201", TO_BUY),
        "hub seal": (2, "FT-1210", TO_BUY),
        "hub bearing": (2, "FT-1211", TO_BUY),
    }


def test_a_bearing_that_is_renewed_takes_its_partner_with_it(tmp_path):
    rear = Bench(tmp_path, "arbor")
    rear.skip_to("part:left:bearing")
    rear.say("")
    rear.folder.record(Decided(about="condition:bearing@left:1", decision="renew"))
    bearing = next(each for each in buying(rear.job) if each.part.startswith("bearing"))
    assert bearing.count == 2 and "renewed together" in bearing.why


def test_what_is_asked_for_in_words_is_on_the_list_too(hub):
    hub.folder.record(ToBuy(item="tab washer for the pinion nut", count=1))
    assert item(hub, "tab washer for the pinion nut").state == TO_BUY


def test_a_part_goes_from_to_buy_to_on_order_to_arrived_to_ready(hub):
    states = [item(hub, "hub bearing").state]
    for event in (
        Ordered(item="hub bearing"),
        Arrived(item="hub bearing"),
        Measured(item="hub bearing", size="length", reading="13.99 mic"),
    ):
        hub.folder.record(event)
        states.append(item(hub, "hub bearing").state)
    assert states == [TO_BUY, ON_ORDER, ARRIVED, READY]


def test_a_new_bearing_of_the_same_bore_and_outside_but_another_width_is_caught(hub):
    for event in (
        Arrived(item="hub bearing"), Measured(item="hub bearing", size="bore", reading="20.00 mic"),
        Measured(item="hub bearing", size="outside", reading="47.00 mic"),
        Measured(item="hub bearing", size="length", reading="15.00 mic"),
    ):  # fmt: skip
        hub.folder.record(event)
    bearing = item(hub, "hub bearing")
    assert bearing.differs and bearing.state == ARRIVED and "arrived, differs" in kinds(hub)
    assert [each.size for each in bearing.measured if each.verdict == "gross"] == ["length"]


def test_what_arrived_and_was_not_measured_is_an_open_item(hub):
    hub.folder.record(Arrived(item="hub bearing"))
    assert "arrived, not measured" in kinds(hub) and item(hub, "hub bearing").not_measured == ("length",)


def test_a_reading_of_an_arrived_part_is_never_taken_for_one_of_the_old_part(hub):
    before = hub.job.found
    hub.folder.record(Arrived(item="hub bearing"), Measured(item="hub bearing", size="length", reading="15.00 mic"))
    assert hub.job.found == before


def test_ring_stand_out_is_measured_before_a_bearing_goes_in_where_the_reference_has_one():
    bearing = LIBRARY.reference("front-hub").part("bearing")
    assert before_fitting(bearing) == ("length",)
    standout = Size(text="0.5 mm", nominal_mm=0.5, least_mm=0.4, most_mm=0.6)
    assert before_fitting(replace(bearing, sizes=(*bearing.sizes, ("inner_standout", standout)))) == (
        "length",
        "inner_standout",
    )


# --- fitting ---------------------------------------------------------------------------------------------------------


def test_the_first_bearing_goes_fully_home_then_the_tube_then_the_second_until_it_touches():
    sequence = fit_sequence(LIBRARY.reference("front-hub"))
    assert sequence[:3] == (
        ("bearing@left", "fully home"),
        ("spacer-tube", ""),
        ("bearing@right", "only until it touches"),
    )


def test_nuts_come_after_what_they_clamp_and_pins_last():
    names = [name for name, _ in fit_sequence(LIBRARY.reference("rear-hub"))]
    assert names.index("axle-nut") > names.index("thrust-washer") and names.index("split-pin") > names.index("axle-nut")


def test_a_pack_in_a_drum_is_filled_from_the_closed_end():
    sequence = [name for name, _ in fit_sequence(LIBRARY.reference("clutch-pack"))]
    assert sequence[0] == "steel-plate@1" and sequence[-1] == "circlip"


@pytest.mark.parametrize("reference", sorted(LIBRARY.files))
def test_every_part_of_every_reference_is_fitted_once(reference):
    own = LIBRARY.reference(reference)
    off = [place.name for place in own.places if not own.part(place.part).fixed]
    assert sorted(name for name, _ in fit_sequence(own)) == sorted(off)


def fit_all(bench: Bench, **instead: Fitted) -> None:
    """Everything back in its place with its old part, the way the reference wants it."""
    reference, found = bench.job.reference, bench.job.found
    line = {standing.home: standing.entry for standing in bench.compared().best.line if standing.home}
    for name, _ in fit_sequence(reference):
        toward = reference.end_name(reference.place(name).facing) if reference.place(name).facing else ""
        bench.folder.record(
            instead.get(name.replace("-", "_").replace("@", "_"), Fitted(place=name, entry=line[name], toward=toward))
        )
    assert found == bench.job.found


def test_as_fitted_is_compared_like_as_found(hub):
    fit_all(hub)
    assert [result.finding.kind for result in compare(hub.job.reference, as_fitted(hub.job)).findings] == []
    assert [result.finding.kind for result in hub.compared().findings] == ["swapped"]


def test_a_seal_fitted_the_other_way_is_a_finding_of_the_fitted_list(hub):
    fit_all(hub, seal_left=Fitted(place="seal@left", item="hub seal", toward="left"))
    assert [result.finding.kind for result in compare(hub.job.reference, as_fitted(hub.job)).findings] == [
        "turned_round"
    ]


def test_while_refitting_what_is_not_in_yet_is_neither_missing_nor_in_agreement(hub):
    hub.folder.record(Fitted(place="bearing@left", item="hub bearing"))
    said = compare(hub.job.reference, as_fitted(hub.job))
    assert said.findings == () and said.verdict != "agrees"


def test_spare_on_the_bench_must_equal_what_was_decided_out(hub):
    fit_all(hub, seal_left=Fitted(place="seal@left", item="hub seal", toward="right"))
    assert [number for number, _ in spare(hub.job)] == []
    hub.folder.record(Off(what="thin ring", kind="ring", place_seen="found loose"))
    assert [number for number, _ in spare(hub.job)] == [12] and "spare on the bench" in kinds(hub)
    hub.folder.record(Decided(about="extra::12", decision="hold", by="A"))
    assert "spare on the bench" not in kinds(hub)


def test_a_bearing_that_was_pulled_through_its_balls_and_fitted_again_stays_open(hub):
    hub.folder.record(Seen(entry=5, look=(PULLED_THROUGH,)), Fitted(place="bearing@left", entry=5))
    assert "not to be refitted, fitted" in kinds(hub)


def test_a_part_that_is_neither_fitted_nor_decided_out_is_spare_on_the_bench(hub):
    fit_all(hub, axle_washer=Fitted(place="seal@left", entry=4, toward="right"))
    assert [off.place for _, off in spare(hub.job)] == ["axle-washer"] and {
        "spare on the bench",
        "not fitted",
    } <= kinds(hub)


def test_an_old_single_use_part_that_was_fitted_again_stays_open(hub):
    fit_all(hub)
    assert "single-use, fitted again" in kinds(hub)


def test_a_fastener_is_open_until_it_is_tightened_marked_or_locked(hub):
    fit_all(hub)
    states = []
    for state in ("", "finger tight", "tightened"):
        if state:
            hub.folder.record(Fastened(joint="axle nut", state=state, value="60 N·m" if state == "tightened" else ""))
        states.append(joint_states(hub.job)[0].is_open)
    assert states == [True, True, False]


def test_open_items_are_worked_out_and_come_in_one_sequence(hub):
    hub.folder.record(Ordered(item="hub seal"), Noted(text="strap holds the box", until="temporary"))
    told = [each.kind for each in open_items(hub.job, hub.compared())]
    assert told[0] == "not fitted" and told.index("undecided") < told.index("to buy") < told.index(
        "on order"
    ) < told.index("temporary")
