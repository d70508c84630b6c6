"""A ring that may lie in the inner or in the outer path moves the hub by all of its thickness or not at all,
never by half.
"""

from __future__ import annotations

import pytest

from stackcheck.drawing.layout import layout
from stackcheck.job.events import Measured
from stackcheck.present import as_json
from stackcheck.present.words import effect_words, sentence
from tests.job.at_the_bench import Bench, front_hub


@pytest.fixture
def compared(tmp_path):
    """A thin ring of unknown bore came off between the left bearing and the spacer tube."""
    bench = Bench(tmp_path)
    bench.skip_to("part:")
    bench.say("", "2", "2", "1", "", "18.01", "1", "", "2", "", "2", "1", "thin ring .5", "", "58.00", "", "2", "")
    bench.say("22.01", "2", "", "1", "", "2", "1")
    bench.skip_to("taken apart")
    bench.say("1")
    return bench.compared()


def test_the_shift_is_told_as_its_alternatives(compared):
    (effect,) = [result.effect for result in compared.findings if result.effect and result.effect.shifts]
    assert effect.shifts[0].either_mm == (0.0, 0.5)
    assert "hub 0 or 0.50 further toward right" in effect_words(effect, compared.reference)


def test_the_drawing_says_the_same_as_the_text(compared):
    assert all("0.00 or 0.50 further" in moved.words for moved in layout(compared).moved)


def test_json_gives_both_and_no_middle(compared):
    shifts = [
        shift
        for finding in as_json.comparison(compared)["findings"]
        if finding["effect"]
        for shift in finding["effect"]["shifts"]
    ]
    assert shifts == [{"place": "hub", "shift_mm": None, "either_mm": [0.0, 0.5]}]


def test_a_distance_typed_on_the_assembly_that_the_parts_contradict_is_named_and_causes_the_gap(tmp_path):
    """The seat gap by the sum cannot be 11 where the ring between makes at most 0.6 of it:
    the figure typed for the hub does.
    """
    bench = Bench(tmp_path)
    front_hub(bench)
    bench.folder.record(Measured(place="hub", size="length", reading="47 rule"))
    said = bench.compared()
    size, gap = [result for result in said.findings if result.finding.kind in ("size_differs", "gap_differs")]
    assert said.findings[gap.follows] == size and len(said.mistakes) == 1
    assert sentence(size.finding, said.reference, said.found).endswith(
        "as typed it does not agree with the parts: measure it again"
    )
