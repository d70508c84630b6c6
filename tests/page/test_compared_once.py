"""The list of a job is compared once, however many screens and steps ask for it: a phone that waits takes the bench for gone."""

from __future__ import annotations

import pytest

import stackcheck.result
from stackcheck.job.events import Decided, Measured
from stackcheck.page.fitting import fitted, next_places
from tests.page.phones import job, take_apart


@pytest.fixture
def times(monkeypatch) -> list[int]:
    """One number for each comparison that is made."""
    made: list[int] = []
    compare = stackcheck.result.compare

    def counted(reference, found):
        made.append(len(made))
        return compare(reference, found)

    monkeypatch.setattr(stackcheck.result, "compare", counted)
    return made


def test_the_fitting_and_all_it_asks_compares_the_list_once(phone, bench, times):
    take_apart(phone, bench)
    times.clear()
    open_job = job(bench)
    place = next_places(open_job)[0]
    fitted(open_job, place.place, place.parts[0][0], "")
    assert len(times) == 1


def test_what_was_compared_holds_for_the_next_request_and_after_a_decision(phone, bench, times):
    take_apart(phone, bench)
    seen = job(bench).comparison
    times.clear()
    assert job(bench).comparison is seen
    bench.folder("front-hub").record(Decided(about="missing:seal@left", decision="hold", reason="asked", by="A"))
    assert job(bench).comparison is seen and times == []


def test_a_size_that_was_measured_is_compared_anew(phone, bench, times):
    take_apart(phone, bench)
    seen = job(bench).comparison
    bench.folder("front-hub").record(Measured(entry=3, size="length", reading="25.00 mm cal", by="A"))
    again = job(bench).comparison
    assert again is not seen and again.found == job(bench).found and again.findings != seen.findings
