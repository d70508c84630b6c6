"""No page about references assures, blames or judges: the words of the vocabulary hold here too."""

import pytest

from stackcheck.cli import main
from tests.avoided_words import AVOIDED
from tests.strategies import ROOT

EARLY = "examples/generations/freight-tricycle-early"


@pytest.mark.parametrize(
    "arguments",
    [
        ("check",),
        ("check", "--library", "tests/good_library"),
        ("check", "--library", "examples/generations"),
        ("compare", f"{EARLY}/front-hub.toml", "front-hub"),
        ("compare", EARLY, "freight-tricycle"),
        ("compare", "front-hub", "hub"),
        ("shares", "front-hub"),
        ("show", "front-hub", "--library", "examples/generations"),
        ("mirror", "arbor", "NEW"),
        (
            "from-job",
            "NEW",
            "examples/01-front-hub-collars-swapped.toml",
            "examples/06-front-hub-short-tube-and-ring.toml",
        ),
        ("new", "NEW", "--parts", "examples/parts-list/tensioner.csv"),
    ],
    ids=" ".join,
)
def test_a_page_holds_no_word_that_is_not_ours_to_say(arguments, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
    assert main(["references", *(str(tmp_path / "new.toml") if word == "NEW" else word for word in arguments)]) in (
        0,
        1,
    )
    out = capsys.readouterr().out
    assert not AVOIDED.search(out), AVOIDED.search(out)
    for path in tmp_path.glob("*.toml"):
        assert not AVOIDED.search(path.read_text(encoding="utf-8"))
