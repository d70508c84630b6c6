"""One quantity is one figure wherever it stands: like bearings, halves of one force, a loop as found beside its reference."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from stackcheck.cli import main
from stackcheck.mechanics.unknowns import Spanned, told_apart, with_variants

ROOT = Path(__file__).parents[2]


@pytest.fixture
def ask(capsys, monkeypatch):
    monkeypatch.chdir(ROOT)

    def run(*words: str) -> str:
        main(["stack", *words])
        return capsys.readouterr().out

    return run


@pytest.mark.parametrize("hub", ["freight-tricycle/rear-hub", "boat-trailer/hub", "freight-tricycle/steering-head"])
def test_two_like_bearings_under_one_load_show_one_range(hub, ask):
    """Their guesses are called by their names, and were drawn by them: 325 to 556 N beside 327 to 556 N."""
    found = re.findall(r"pushed\s+apart\s+by ([^;]*);", " ".join(ask(hub, "--radial", "1.5 kN").split()))
    assert len(found) == 2 and found[0] == found[1]


def test_draws_do_not_hang_on_whose_an_unknown_is():
    def build(whose):
        return lambda u: u.value(f"angle of the {whose}", 10.0, 13.0, 16.0) * u.value("share", 0.9, 1.0, 1.1)

    one, other = (
        unknowns.spanned(values)
        for whose in ("large bearing", "small bearing")
        for unknowns, values in [with_variants(build(whose), whose=(whose,))]
    )
    assert (one.least, one.usual, one.most) == (other.least, other.usual, other.most)
    assert (one.main_cause, other.main_cause) == ("angle of the large bearing", "angle of the small bearing")


def test_two_unknowns_of_one_answer_stay_two_though_they_are_drawn_without_whose_they_are():
    unknowns, total = with_variants(
        lambda u: u.value("angle of the large one", -1.0, 0.0, 1.0) - u.value("angle of the small one", -1.0, 0.0, 1.0),
        whose=("large", "small"),
    )
    assert unknowns.spanned(total).most > 0.5


def test_of_two_causes_that_move_an_answer_alike_the_first_one_asked_for_is_named():
    unknowns, total = with_variants(lambda u: u.value("left", -1, 0, 1) + u.value("right", -1.001, 0, 1.001))
    assert unknowns.spanned(total).main_cause == "left"


def test_ranges_nearer_than_the_draws_can_tell_are_not_told_apart():
    one = Spanned(usual=53.0, least=21.0, most=87.0)
    assert not told_apart(one, Spanned(usual=52.5, least=21.4, most=87.6))
    assert told_apart(one, Spanned(usual=53.0, least=21.0, most=88.0))
    assert not told_apart(one, Spanned(usual=53.0, least=21.0, most=88.0), least=1.0)


@pytest.mark.parametrize("listed", ["02-grinder-arbor-clean", "28-grinder-tubes-exchanged"])
def test_a_loop_that_is_the_same_as_found_is_told_once(listed, ask):
    """ "22 to 88 N" as found stood above "21 to 87 N" of the reference, and no difference was told."""
    out = " ".join(ask("arbor", "--found", f"examples/{listed}.toml").split())
    assert "room for the waves of the washer, as found and by the reference: preload 21 to 87 N, about 53" in out


def test_the_clamp_that_bearings_carry_whole_is_one_figure_in_the_terms(ask):
    """33.5 kN through the nut stood beside 33.4 kN in the balls: a few draws of four hundred."""
    out = ask("pinion-shaft", "--found", "examples/10-pinion-shim-short.toml", "--terms")
    most = set(re.findall(r"\.\.(\d+\.\d) kN", out))
    assert most == {"33.5"}


def test_a_range_in_newtons_has_no_more_digits_than_one_force_has(ask):
    """From 100 N on to tens, as everywhere else."""
    out = " ".join(ask("rear-hub", "--radial", "1.5 kN").split())
    assert "pushed apart by 330 to 570 N, about 440" in out
