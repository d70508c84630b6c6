"""Distances from a part to the members at both ends, seen before loosening,
as one more thing that a finding must explain.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from stackcheck.formats.library import Library
from stackcheck.job.distances_seen import stood_off
from stackcheck.job.events import Answered
from stackcheck.job.folder import JobFolder
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.distance import distance_in
from stackcheck.present.symptom_words import symptom_words

LIBRARY = Library(Path(__file__).parents[2] / "reference_assemblies")
HUB = "freight-tricycle/front-hub"


@pytest.fixture
def seen(tmp_path):
    """What follows from these answers to "Hub to left fork leg" and "Hub to right fork leg"."""

    def seen(left, right, unit="mm"):
        folder = JobFolder.begin(
            tmp_path / "hub", LIBRARY.reference(HUB), LIBRARY.files[HUB], why="", by="A", unit=unit
        )
        answers = {"before:hub to leg@left": left, "before:hub to leg@right": right}
        job = folder.record(
            *(Answered(key=key, question="distance", answer=said) for key, said in answers.items() if said is not None)
        )
        assert job.found.symptoms == stood_off(job)
        return stood_off(job), job.reference

    return seen


def test_a_hub_nearer_to_the_right_leg_than_the_sums_say_stood_off_toward_right(seen):
    (symptom,), reference = seen("15 rule", "14 rule")
    assert (symptom.place, symptom.toward) == ("hub", "second") and symptom.by.value_mm == pytest.approx(4.12, abs=0.01)
    words = symptom_words(symptom, reference)
    assert (
        words.startswith("hub stood off toward right, 4.12")
        and "seen 15 rule and 14 rule" in words
        and "as far beyond its seats at both ends" in words
    )


def test_half_the_difference_of_the_distances_is_held_against_half_that_of_the_sums(seen):
    (symptom,), reference = seen("9.0 cal", "20.0 cal")
    wanted = as_wanted(reference)
    sums = [distance_in(wanted, "hub", leg).total.nominal_mm for leg in ("leg@left", "leg@right")]
    off = (9.0 - 20.0) / 2 - (-sums[0] - sums[1]) / 2
    assert symptom.by.value_mm == pytest.approx(abs(off), abs=0.01) and symptom.toward == (
        "second" if off > 0 else "first"
    )


@pytest.mark.parametrize(("left", "right"), [("11", "18"), ("15", None), (None, "14"), ("15", "about so"), ("", "")])
def test_where_it_should_be_one_distance_alone_and_words_make_nothing_of_it(seen, left, right):
    assert seen(left, right)[0] == ()


def test_a_bare_figure_is_in_the_unit_of_the_job(seen):
    (symptom,), _ = seen("0.6", "0.55", unit="in")
    assert symptom.by.value_mm == pytest.approx((0.05 * 25.4 + 7.25) / 2, abs=0.02)
