"""What heat does to a play, in words: one side, the other, or either; and no figure past the static rating."""

from __future__ import annotations

from stackcheck.mechanics.heat import Heat
from stackcheck.mechanics.set_gap import SetGap
from stackcheck.mechanics.static_limit import StaticLimit
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.heat_words import heat_words, play_terms, warm_play_words
from stackcheck.value import replace


def spanned(least: float, most: float, cause: str = "") -> Spanned:
    return Spanned(usual=(least + most) / 2, least=least, most=most, main_cause=cause)


def warm(play: tuple[float, float], force: tuple[float, float], limit: StaticLimit | None = None) -> str:
    return warm_play_words(SetGap(
        gap="end float", joint="nut", play=None, heat=Heat(at_c=60.0), then_mm=spanned(*play), then_n=spanned(*force),
        by_length_mm=spanned(-0.02, -0.02), by_races_mm=spanned(0.0, 0.0), limit=limit,
    ))  # fmt: skip


def test_play_that_is_left_and_play_that_is_used_up():
    assert (
        warm((0.02, 0.05), (0, 0))
        == "then, all of it at 60 °C: gap 0.02 to 0.05 (0.02 less by length, nothing by the races); no preload"
    )
    assert warm((-0.04, -0.02), (600, 2000)).endswith(
        "overlap 0.02 to 0.04 (0.02 less by length, nothing by the races); preload 600 N to 2.0 kN"
    )


def test_races_that_may_go_either_way_are_told_with_both_ends():
    """Told by its larger end alone, a range about nothing would have one sign for both."""
    value = SetGap(
        gap="end float", joint="nut", play=None, by_length_mm=spanned(0.0, 0.0),
        by_races_mm=Spanned(usual=-0.001, least=-0.02, most=0.05),
    )  # fmt: skip
    assert play_terms(value) == "nothing by length, 0.02 less to 0.05 more by the races"
    assert play_terms(replace(value, by_races_mm=spanned(0.0, 0.05))).endswith("up to 0.05 more by the races")


def test_near_nothing_it_may_be_either():
    assert warm((-0.01, 0.02), (0, 800)).endswith("; may be either: no preload, or up to 800 N")


def test_past_the_static_rating_no_figure_is_told():
    limit = StaticLimit(force_n=1500.0, called="an estimated static rating along the axis")
    assert warm((-0.04, -0.02), (600, 2000), limit).endswith(
        "; preload 600 N to beyond an estimated static rating along the axis, about 1.5 kN"
    )
    assert "no figure holds there" in warm((-0.04, -0.02), (1600, 2000), limit)


def test_temperatures_are_said_with_what_is_told_apart():
    assert heat_words(Heat(at_c=60.0)) == "all of it at 60 °C"
    assert heat_words(Heat(at_c=60.0, named=(("hub", 45.0),))) == "at 60 °C, hub at 45 °C"
    assert heat_words(Heat(named=(("hub", 45.0),))) == "hub at 45 °C"
    assert warm_play_words(SetGap(gap="end float", joint="nut", play=None)) == ""
