"""The stories of stray parts: each command in `examples/strays/` gets the answer that its story calls for.

A story says the exit status, the verdict on the object, and what may not be left out of the page; `names` must stand
among the named objects, `not_names` must not; `not_says` may not be said. The expectation follows from the story and the references by hand.
"""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path

import pytest

from stackcheck.cli import main
from tests.cli.test_cli import AVOIDED

ROOT = Path(__file__).parent.parent.parent
STORIES = sorted((ROOT / "examples/strays").glob("*.toml"))


@pytest.fixture(autouse=True)
def here(monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)


def test_there_are_stories_of_every_verdict():
    verdicts = [tomllib.loads(path.read_text(encoding="utf-8"))["object"] for path in STORIES]
    assert len(verdicts) >= 25
    assert all(verdicts.count(verdict) >= 4 for verdict in ("identified", "shortlist", "unknown"))


@pytest.mark.parametrize("path", STORIES, ids=lambda path: path.stem)
def test_a_stray_gets_the_answer_that_its_story_calls_for(path, capsys):
    story = tomllib.loads(path.read_text(encoding="utf-8"))
    status = main(["explain", *story["command"], "--json"])
    tree = json.loads(capsys.readouterr().out)
    main(["explain", *story["command"]])
    page = capsys.readouterr().out
    words = re.sub(r"\s+", " ", page)
    named = {member["name"] for answer in tree["object"]["named"] for member in answer["members"]}
    assert (tree["verdict"], status) == (story["object"], story["exit_status"])
    assert tree["origin"]["verdict"] == story.get("origin", tree["origin"]["verdict"])
    assert set(story.get("names", [])) <= named
    assert not set(story.get("not_names", [])) & named
    assert [said for said in story.get("says", []) if said not in words] == []
    assert [said for said in story.get("not_says", []) if said in words] == []
    assert not AVOIDED.search(page), AVOIDED.search(page)
