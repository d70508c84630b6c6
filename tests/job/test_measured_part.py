"""A size goes to the part that was measured: by what it is, asked about where it cannot be,
never to what lay in its place.
"""

from __future__ import annotations

import pytest

from stackcheck.bench.answers import answer, said_again
from stackcheck.bench.measuring import take_size
from stackcheck.job.deciding import record_comparison
from stackcheck.job.measuring import what_is_measured
from stackcheck.job.open_items import open_items
from stackcheck.page.measuring import to_measure
from stackcheck.present.job_page import item_words
from tests.job.at_the_bench import Bench, front_hub


@pytest.fixture
def hub(tmp_path) -> Bench:
    """The collars lay in each other's places; somebody compared."""
    bench = Bench(tmp_path)
    front_hub(bench, collars=("22.02 cal", "18.01 cal"))
    record_comparison(bench.folder, bench.compared())
    return bench


def test_the_long_collar_is_the_entry_that_is_long_wherever_it_lay(hub):
    assert what_is_measured(hub.job, "long collar", "length", "22.03") == {
        "entry": 3,
        "size": "length",
        "reading": "22.03",
    }
    assert what_is_measured(hub.job, "collar-short@left", "length", "18.00")["entry"] == 9


def test_a_swapped_part_is_asked_for_by_what_it_is_and_where_it_came_off(hub):
    for entry, place, words in (
        (3, "collar-long@right", "long collar (entry 3, came off the left), length"),
        (9, "collar-short@left", "short collar (entry 9, came off the right), length"),
    ):
        item = next(each for each in open_items(hub.job, hub.compared()) if each.kind == "undecided")
        assert (
            item_words(hub.job, type(item)(kind="not measured", place=place, what="length", entry=entry), "") == words
        )


def test_what_is_still_to_be_measured_is_asked_of_an_entry(hub):
    told = [(each.what, each.words) for each in to_measure(hub.job) if each.size == "length"]
    assert all(what.isdecimal() or what in ("hub", "spacer-tube") for what, _ in told)


def test_a_reading_that_cannot_be_of_the_same_part_is_asked_about_before_it_counts(hub):
    taken = take_size(hub.folder, "9", "length", "22.03 cal")
    assert taken.asks == "Entry 9, right collar, length: 22.03 cal. Before: 18.01 mm cal. The same part?"
    assert [choice.words for choice in taken.choices] == [
        "this part, measured again",
        "another part: entry 3, left collar",
    ]
    assert [each.text for each in hub.job.readings(entry=9)["length"]] == ["18.01 mm cal"]


def test_the_other_part_then_gets_the_reading(hub):
    other = take_size(hub.folder, "9", "length", "22.03 cal").choices[1]
    assert not take_size(hub.folder, other.what, "length", other.reading, is_same=other.is_same).choices
    assert hub.job.readings(entry=3)["length"][-1].text == "22.03 cal"


def test_the_same_part_measured_again_keeps_both(hub):
    same = take_size(hub.folder, "9", "length", "18.40 cal").choices[0]
    assert (
        "Both kept; 18.40 cal counts."
        in take_size(hub.folder, same.what, "length", same.reading, is_same=same.is_same).said[1]
    )


def test_a_finer_reading_within_the_doubt_of_the_first_is_not_asked_about(hub):
    assert not take_size(hub.folder, "9", "length", "18.02 mic").choices


@pytest.mark.parametrize(
    ("typed", "lines"), [("867", ["867 thou cal", "867 mm cal"]), ("0.867", ["0.867 in cal", "0.867 mm cal"])]
)
def test_a_bare_figure_in_a_unit_that_cannot_be_meant_is_asked_about(hub, typed, lines):
    taken = take_size(hub.folder, "3", "length", typed)
    assert [choice.reading for choice in taken.choices] == lines and taken.asks.startswith(f"{typed} mm?")
    assert not any(choice.reading == typed for choice in take_size(hub.folder, "3", "length", lines[1]).choices)


def test_thou_is_taken_once_it_is_said(hub):
    choice = take_size(hub.folder, "3", "length", "867").choices[0]
    assert "22.0218 mm" in take_size(hub.folder, choice.what, "length", choice.reading).said[0]


def test_the_teardown_asks_about_such_a_figure_too(tmp_path):
    bench = Bench(tmp_path)
    bench.skip_to("part:left:collar")
    for text in ("867", "0.867"):
        step = answer(bench.job, bench.question, text)
        assert not step.events and step.ask.text.startswith(f"{text} mm?")
    (off,) = said_again(bench.job, bench.question, step.ask.choices[0][1], "0.867").events
    assert off.place == "collar-short@left" and off.sizes["length"].startswith("0.867 in")


def test_a_size_asked_for_alone_is_asked_about_in_the_same_words(tmp_path):
    bench = Bench(tmp_path)
    bench.skip_to("part:left:collar")
    bench.say("")
    bench.skip_to("size:")
    assert answer(bench.job, bench.question, "867").ask.text == "867 mm? That is longer than anything here: which unit?"
