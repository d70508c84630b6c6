"""`references compare` and `references shares` on the command line:
words, JSON, exit status, and what cannot be compared.
"""

import json

import pytest

from stackcheck.cli import main
from tests.strategies import ROOT

EARLY = "examples/generations/freight-tricycle-early"


def answer(capsys, monkeypatch, *arguments: str) -> tuple[int, str, str]:
    monkeypatch.chdir(ROOT)
    monkeypatch.delenv("STACKCHECK_LIBRARY", raising=False)
    status = main(list(arguments))
    captured = capsys.readouterr()
    return status, captured.out, captured.err


def test_two_equal_references_end_with_status_0_and_two_others_with_1(capsys, monkeypatch):
    assert answer(capsys, monkeypatch, "references", "compare", "front-hub", "front-hub")[0] == 0
    status, out, _ = answer(capsys, monkeypatch, "references", "compare", f"{EARLY}/front-hub.toml", "front-hub")
    assert status == 1
    assert "DROPPED  dust shield, which stood between left short collar and left hub" in out


@pytest.mark.parametrize(
    ("arguments", "changes"),
    [
        (
            (f"{EARLY}/front-hub.toml", "--first", "serial 42", "--second", "serial 120"),
            ["added", "renumbered", "resized"],
        ),
        ((f"{EARLY}/front-hub.toml", "--second", "without shield"), ["dropped", "renumbered", "resized"]),
        (
            (
                f"{EARLY}/front-hub.toml",
                f"{EARLY}/front-hub.toml",
                "--first",
                "serial 42",
                "--second",
                "without shield",
            ),
            [],
        ),
        (
            (
                f"{EARLY}/front-hub.toml",
                f"{EARLY}/front-hub.toml",
                "--first",
                "year 2009, serial 42",
                "--second",
                "serial 60",
            ),
            [],
        ),
    ],
)
def test_a_variant_of_one_file_is_compared_with_another_of_it(arguments, changes, capsys, monkeypatch):
    status, out, _ = answer(capsys, monkeypatch, "references", "compare", *arguments, "--json")
    assert [change["kind"] for change in json.loads(out)["changes"]] == changes
    assert status == bool(changes)


def test_a_variant_is_compared_with_another_file_and_the_answer_says_which(capsys, monkeypatch):
    _, out, _ = answer(
        capsys, monkeypatch, "references", "compare", f"{EARLY}/front-hub.toml", "front-hub", "--first", "serial 42"
    )
    words = " ".join(out.split())
    assert words.startswith(
        'From freight-tricycle-early/front-hub rev A, variant "without shield", '
        "for the machine (serial 42) to freight-tricycle/front-hub rev B: 2 turned"
    )
    assert "DROPPED" not in words and "length 19.0 mm ±0.05, now 18.0 mm ±0.05" in words
    assert (
        'Variant "without shield", for the machine (serial 42): the first sixty frames came without a dust shield'
        in words
    )


def test_variants_that_nobody_asked_for_are_said_not_to_be_looked_at(capsys, monkeypatch):
    _, out, _ = answer(capsys, monkeypatch, "references", "compare", f"{EARLY}/front-hub.toml", "front-hub")
    assert 'variants not looked at: "without shield"' in out


def test_two_machines_are_compared_by_their_serials(capsys, monkeypatch):
    status, out, _ = answer(
        capsys, monkeypatch, "references", "compare", EARLY, "--first", "serial 42", "--second", "serial 120"
    )
    assert status == 1
    assert f"FROM {EARLY.rpartition('/')[2]}, serial 42 TO {EARLY.rpartition('/')[2]}, serial 120" in out
    assert "ADDED  dust shield" in out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((f"{EARLY}/front-hub.toml",), "one reference is named"),
        ((f"{EARLY}/front-hub.toml", "--first", "without shild"), 'did you mean "without shield"?'),
        (("front-hub", "--first", "early"), "freight-tricycle/front-hub has no variants"),
        ((EARLY, EARLY, EARLY, "--first", "serial 42"), "more than two machines are named"),
    ],
)
def test_a_variant_that_cannot_be_chosen_is_refused(arguments, said, capsys, monkeypatch):
    status, _, err = answer(capsys, monkeypatch, "references", "compare", *arguments)
    assert (status, said in " ".join(err.split())) == (3, True)


def test_machines_are_compared_assembly_by_assembly(capsys, monkeypatch):
    status, out, _ = answer(capsys, monkeypatch, "references", "compare", EARLY, "freight-tricycle")
    assert status == 1
    assert "freight-tricycle-early/rear-hub rev A -> freight-tricycle/rear-hub rev B" in out
    assert "THE SAME THROUGH ALL OF THEM" in out


def test_json_names_every_change_with_its_places_on_both_sides(capsys, monkeypatch):
    _, out, _ = answer(capsys, monkeypatch, "references", "compare", f"{EARLY}/front-hub.toml", "front-hub", "--json")
    tree = json.loads(out)
    turned = [change for change in tree["changes"] if change["kind"] == "turned"]
    assert [(change["places"], change["places_second"]) for change in turned] == [
        (["seal@left"], ["seal@left"]),
        (["seal@right"], ["seal@right"]),
    ]
    machines = json.loads(answer(capsys, monkeypatch, "references", "compare", EARLY, "freight-tricycle", "--json")[1])
    assert machines["machines"] == ["freight-tricycle-early", "freight-tricycle"]
    assert machines["same_through"]


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (("front-hub",), "one reference is named"),
        (("front-hub", "freight-tricycle"), "machines and references are named together"),
        (("front-hub", "rear-hub", "arbor"), "more than two references are named"),
        (("front-hub", "nowhere.toml"), "there is no such file"),
        (("front-hub", "front-hubb"), 'unknown reference "front-hubb"'),
        (("front-hub", f"{EARLY}/machine.toml"), "this is the words about a machine"),
    ],
)
def test_what_cannot_be_compared_is_said_with_status_3(names, said, capsys, monkeypatch):
    status, _, err = answer(capsys, monkeypatch, "references", "compare", *names)
    assert status == 3
    assert said in err


def test_a_part_that_is_not_in_the_reference_is_refused_with_one_that_is_like_it(capsys, monkeypatch):
    status, _, err = answer(capsys, monkeypatch, "references", "shares", "front-hub", "bearign")
    assert (status, 'did you mean "bearing"?' in err) == (3, True)


def test_shares_says_which_parts_are_met_nowhere_else(capsys, monkeypatch):
    """Whoever looks for a spare learns that there is none to borrow."""
    _, out, _ = answer(capsys, monkeypatch, "references", "shares", "front-hub", "bearing", "spacer-tube")
    assert "Met nowhere else: Spacer tube." in out


def test_variants_of_a_machine_that_nobody_asked_for_are_said_not_to_be_looked_at(capsys, monkeypatch):
    _, out, _ = answer(capsys, monkeypatch, "references", "compare", EARLY, "freight-tricycle")
    assert 'freight-tricycle-early/front-hub: variants not looked at: "without shield"' in out


def test_shares_names_the_other_assembly_and_how_it_is_known(capsys, monkeypatch):
    status, out, _ = answer(capsys, monkeypatch, "references", "shares", "front-hub")
    assert status == 0
    assert "bench-grinder/arbor" in out and "standard part" in out
    assert json.loads(answer(capsys, monkeypatch, "references", "shares", "front-hub", "bearing", "--json")[1])[
        "shared"
    ]
