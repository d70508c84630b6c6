"""Forces in words: no figure has more digits than the doubt about friction and stiffness allows."""

from stackcheck.mechanics.static_limit import RATING, StaticLimit
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.force_figures import force_words, limit_words, spanned_force


def test_a_force_has_two_or_three_digits_however_large_it_is():
    assert [force_words(newton) for newton in (87.4, 583, 2540, 23_040, 99_940, 99_960, 1_915_100)] == [
        "87 N", "580 N", "2.5 kN", "23.0 kN", "99.9 kN", "100 kN", "1915 kN",
    ]  # fmt: skip


def test_a_range_of_large_forces_is_told_in_whole_kilonewtons():
    assert spanned_force(Spanned(least=174_100, usual=243_200, most=319_200)) == "174 to 319 kN, about 243"


def test_an_estimated_rating_has_two_digits():
    assert limit_words(StaticLimit(force_n=141_234, called=RATING)) == "an estimated static rating C0, about 140 kN"
