"""Coming back: what is no longer so does not count, and is asked again;
what was asked for and not measured is said first.
"""

from __future__ import annotations

import pytest

from stackcheck.job.events import Confirmed, Fitted, Measured
from stackcheck.job.fitting import fit_steps
from stackcheck.job.open_items import open_items
from stackcheck.page.measuring import to_measure
from stackcheck.present.verdict_words import not_verified
from tests.job.at_the_bench import Bench, front_hub


@pytest.fixture
def hub(tmp_path) -> Bench:
    bench = Bench(tmp_path)
    front_hub(bench)
    return bench


def no_longer(bench: Bench) -> None:
    """NO to "still so?" of the last thing said."""
    bench.folder.record(Confirmed(events=(bench.job.last_said()[-1].number,), still=False))


def asked(bench: Bench) -> list[str]:
    return [each.words for each in to_measure(bench.job)]


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (Measured(entry=6, size="length", reading="57.99 mic"), "Spacer tube, length"),
        (Measured(place="hub", size="length", reading="57.95 depth mic"), "Hub, length"),
        (Measured(entry=4, size="bore", reading="30.00 cal"), "Left hub seal, bore"),
        (Measured(gap="free gap", reading="3.2 feeler"), "Free gap"),
    ],
)  # fmt: skip
def test_a_size_that_is_no_longer_so_counts_no_more_and_is_asked_again(hub, said, words):
    hub.folder.record(said)
    assert words not in asked(hub)
    no_longer(hub)
    assert not hub.job.readings(entry=said.entry, place=said.place, gap=said.gap).get(said.size)
    assert words in asked(hub)


def test_it_counts_again_once_it_was_measured_again(hub):
    hub.folder.record(Measured(entry=6, size="length", reading="57.99 mic"))
    no_longer(hub)
    hub.folder.record(Measured(entry=6, size="length", reading="57.80 mic"))
    assert [each.text for each in hub.job.readings(entry=6)["length"]] == ["57.80 mic"]
    assert "Spacer tube, length" not in asked(hub)


def test_an_earlier_reading_does_not_come_back_in_its_stead(hub):
    assert hub.job.found.entries[5].size("length").value_mm == 58
    hub.folder.record(Measured(entry=6, size="length", reading="57.99 mic"))
    no_longer(hub)
    assert hub.job.found.entries[5].size("length") is None


def test_a_yes_after_a_no_lets_it_count_again(hub):
    hub.folder.record(Measured(entry=6, size="length", reading="57.99 mic"))
    no_longer(hub)
    hub.folder.record(Confirmed(events=(hub.job.last_said()[-1].number,), still=True))
    assert hub.job.readings(entry=6)["length"]


def test_a_part_that_is_no_longer_fitted_is_to_be_fitted(hub):
    hub.folder.record(Fitted(place="spacer-tube", entry=6))
    no_longer(hub)
    assert next(step for step in fit_steps(hub.job) if step.place == "spacer-tube").fitted is None


def test_the_entries_keep_their_numbers_whatever_is_no_longer_so(hub):
    off = hub.job.offs[2]
    hub.folder.record(Confirmed(events=(off.number,), still=False))
    assert len(hub.job.offs) == 11 and hub.job.offs[2].place == off.place and not hub.job.offs[2].sizes


def test_what_was_asked_for_and_not_measured_stands_first_in_not_verified_and_among_what_is_open(hub):
    assert not_verified(hub.compared())[0] == "length of the hub"
    first = next(item for item in open_items(hub.job, hub.compared()) if item.kind == "not measured")
    assert (first.place, first.what) == ("hub", "length")
    assert "length of the hub" not in not_verified(Bench.compared(measured(hub)))


def measured(bench: Bench) -> Bench:
    bench.folder.record(Measured(place="hub", size="length", reading="57.95 depth mic"))
    return bench
