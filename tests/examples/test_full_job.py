"""A whole job from the first look to the closed job, replayed: what is shown with it is what the tool answers."""

from __future__ import annotations

import re

from tests.examples.replay import ROOT, replay

FOLDER = ROOT / "examples/full-job"
AVOIDED = (
    "safe", "roadworthy", "pass", "passed", "fail", "failed", "ok", "certified", "approved", "calibrated", "correct", "defective", "faulty",
    "brinelled", "useless", "probably", "minor", "error", "warning", "critical", "score", "leftover",
)  # fmt: skip
"""Words that no output may contain: each of them judges the machine or means two things."""


def test_a_whole_job_with_nine_days_in_between_answers_what_is_shown(tmp_path, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    assert replay((FOLDER / "steps.txt").read_text(), tmp_path) == (FOLDER / "shown.txt").read_text()


def test_no_answer_of_the_whole_job_contains_a_word_that_judges_the_machine():
    words = set(re.findall(r"[a-z]+", (FOLDER / "shown.txt").read_text().lower()))
    assert words & set(AVOIDED) == set()


def test_the_pieces_of_the_job_in_the_manual_are_those_that_it_shows():
    manual = (ROOT / "stackcheck/manual/bench.md").read_text()
    whole = (FOLDER / "shown.txt").read_text()
    shown = re.findall(r"^```text\n(.*?)^```$", manual, re.MULTILINE | re.DOTALL)
    assert len(shown) >= 4
    assert [
        piece for block in shown for piece in re.split(r"^\.\.\.\n", block, flags=re.MULTILINE) if piece not in whole
    ] == []
