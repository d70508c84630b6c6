"""The scorer against strays of known truth: the limits that it promises, on a sample small enough for every run.

`python -m tests.stray.simulation` does the same with 2,000 and prints the table of the manual.
"""

import re
from functools import cache
from pathlib import Path

import pytest

from tests.stray.simulation import Table, baseline, cases, run

COUNT, SEED = 500, 1
MANUAL = Path(__file__).parents[2] / "stackcheck/manual/stray.md"


@cache
def thrown():
    return cases(COUNT, SEED)


@cache
def scored():
    return run(thrown())


@cache
def blurred():
    return run(thrown(), blur=2.0)


def test_the_sample_holds_every_origin_and_true_unknowns():
    origins = {case.origin for case in thrown()}
    assert origins == {"here", "elsewhere", "spare", "standard", "substitute", "piece", "nothing known", "near miss"}
    assert scored()[0].count["true unknown"] >= 25
    assert scored()[0].count["identified"] >= 100


@pytest.mark.parametrize("answer", [scored, blurred], ids=["as measured", "uncertainties doubled"])
def test_the_promised_limits_hold(answer):
    """Wrong among identified at most 1 in 100, and so on: what somebody may rely on who reads "identified"."""
    table: Table = answer()[0]
    assert table.wrong_among_identified <= 0.01
    assert table.known_called_unknown <= 0.03
    assert table.unknown_identified <= 0.02
    shortlists = table.count["shortlist of known"]
    without_truth = shortlists * (1 - table.shortlists_with_truth) if shortlists else 0
    assert without_truth <= max(1.01, 0.05 * shortlists)  # so few shortlists that one alone is more than 5 in 100


def test_a_coarser_tool_never_makes_an_answer_surer():
    turned = [
        number
        for number, (fine, coarse) in enumerate(zip(scored()[1], blurred()[1]))
        if (fine, coarse) == ("shortlist", "identified")
    ]
    assert turned == []


def test_the_nearest_size_is_far_more_often_wrong():
    assert baseline(thrown()).wrong_among_identified > 5 * max(0.01, scored()[0].wrong_among_identified)


def test_the_table_in_the_manual_keeps_the_promise():
    rows = dict(re.findall(r"^\| ([a-z ]+) \| ([\d.]+) %", MANUAL.read_text(), re.MULTILINE))
    assert float(rows["wrong among identified"]) <= 1
    assert float(rows["known called unknown"]) <= 3
    assert float(rows["true unknowns identified"]) <= 2
    assert float(rows["shortlists with the truth inside"]) >= 95
