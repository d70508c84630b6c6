"""ISO 286 limits against printed values, an outside package, the formulas of the standard, and laws of the system."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.tables import UnknownFit, fit_limits

sizes = st.floats(min_value=0.5, max_value=500, allow_nan=False)
grades = st.integers(min_value=5, max_value=11)


def micrometres(nominal, tolerance_class):
    lower, upper = fit_limits(nominal, tolerance_class)
    return round(1000 * lower, 1), round(1000 * upper, 1)


@pytest.mark.parametrize(
    ("nominal", "grade", "width"), [(25, 6, 13), (25, 7, 21), (40, 7, 25), (65, 9, 74), (100, 8, 54)]
)
def test_standard_grades_are_those_of_iso_286_1(nominal, grade, width):
    """ISO 286-1, Table 1 (from memory, re-derived from the formula of the standard)."""
    assert micrometres(nominal, f"H{grade}") == (0, width)


def test_a_shaft_of_a_published_bearing_fit():
    """NKE bearing catalogue, fit example (read): shaft 75 j5 is +6 / -7."""
    assert micrometres(75, "j5") == (-7, 6)


HOUSING_BORES = {  # NSK Rolling Bearings catalogue, Appendix Table 10 (read): lower, upper [micrometres]
    18: {"E6": "32 43", "F6": "16 27", "F7": "16 34", "G6": "6 17", "G7": "6 24", "H6": "0 11", "H7": "0 18", "H8": "0 27", "JS6": "-5.5 5.5", "JS7": "-9 9",
             "K5": "-6 2", "K6": "-9 2", "K7": "-12 6", "M5": "-12 -4", "M6": "-15 -4", "M7": "-18 0", "N5": "-17 -9", "N6": "-20 -9", "N7": "-23 -5", "P6": "-26 -15", "P7": "-29 -11"},
    30: {"E6": "40 53", "F6": "20 33", "F7": "20 41", "G6": "7 20", "G7": "7 28", "H6": "0 13", "H7": "0 21", "H8": "0 33", "JS6": "-6.5 6.5", "JS7": "-10.5 10.5",
             "K5": "-8 1", "K6": "-11 2", "K7": "-15 6", "M5": "-14 -5", "M6": "-17 -4", "M7": "-21 0", "N5": "-21 -12", "N6": "-24 -11", "N7": "-28 -7", "P6": "-31 -18", "P7": "-35 -14"},
    50: {"E6": "50 66", "F6": "25 41", "F7": "25 50", "G6": "9 25", "G7": "9 34", "H6": "0 16", "H7": "0 25", "H8": "0 39", "JS6": "-8 8", "JS7": "-12.5 12.5",
             "K5": "-9 2", "K6": "-13 3", "K7": "-18 7", "M5": "-16 -5", "M6": "-20 -4", "M7": "-25 0", "N5": "-24 -13", "N6": "-28 -12", "N7": "-33 -8", "P6": "-37 -21", "P7": "-42 -17"},
    80: {"E6": "60 79", "F6": "30 49", "F7": "30 60", "G6": "10 29", "G7": "10 40", "H6": "0 19", "H7": "0 30", "H8": "0 46", "JS6": "-9.5 9.5", "JS7": "-15 15",
             "K5": "-10 3", "K6": "-15 4", "K7": "-21 9", "M5": "-19 -6", "M6": "-24 -5", "M7": "-30 0", "N5": "-28 -15", "N6": "-33 -14", "N7": "-39 -9", "P6": "-45 -26", "P7": "-51 -21"},
    120: {"E6": "72 94", "F6": "36 58", "F7": "36 71", "G6": "12 34", "G7": "12 47", "H6": "0 22", "H7": "0 35", "H8": "0 54", "JS6": "-11 11", "JS7": "-17.5 17.5",
              "K5": "-13 2", "K6": "-18 4", "K7": "-25 10", "M5": "-23 -8", "M6": "-28 -6", "M7": "-35 0", "N5": "-33 -18", "N6": "-38 -16", "N7": "-45 -10", "P6": "-52 -30", "P7": "-59 -24"},
    180: {"E6": "85 110", "G7": "14 54", "H7": "0 40", "K6": "-21 4", "K7": "-28 12", "M6": "-33 -8", "M7": "-40 0", "N6": "-45 -20", "N7": "-52 -12", "P6": "-61 -36", "P7": "-68 -28"},
    250: {"E6": "100 129", "G7": "15 61", "H7": "0 46", "K6": "-24 5", "K7": "-33 13", "M6": "-37 -8", "M7": "-46 0", "N6": "-51 -22", "N7": "-60 -14", "P6": "-70 -41", "P7": "-79 -33"},
    315: {"E6": "110 142", "G7": "17 69", "H7": "0 52", "K6": "-27 5", "K7": "-36 16", "M6": "-41 -9", "M7": "-52 0", "N6": "-57 -25", "N7": "-66 -14", "P6": "-79 -47", "P7": "-88 -36"},
    400: {"E6": "125 161", "G7": "18 75", "H7": "0 57", "K6": "-29 7", "K7": "-40 17", "M6": "-46 -10", "M7": "-57 0", "N6": "-62 -26", "N7": "-73 -16", "P6": "-87 -51", "P7": "-98 -41"},
    500: {"E6": "135 175", "G7": "20 83", "H7": "0 63", "K6": "-32 8", "K7": "-45 18", "M6": "-50 -10", "M7": "-63 0", "N6": "-67 -27", "N7": "-80 -17", "P6": "-95 -55", "P7": "-108 -45"},
}  # fmt: skip


def test_housing_bores_are_those_of_a_makers_appendix():
    """Every hole class of that table up to 500 mm; K to P show the delta rule, M6 at 315 its printed exception."""
    compared = 0
    for nominal, classes in HOUSING_BORES.items():
        for tolerance_class, printed in classes.items():
            lower, upper = map(float, printed.split())
            assert micrometres(nominal, tolerance_class) == (lower, upper), (nominal, tolerance_class)
            compared += 1
    assert compared == 160


SHAFTS = {  # NSK Rolling Bearings catalogue, Appendix Table 9 (read): lower deviation of r6, limits of j5, j6, j7
    6: (15, "-2 3", "-2 6", "-4 8"), 10: (19, "-2 4", "-2 7", "-5 10"), 18: (23, "-3 5", "-3 8", "-6 12"), 30: (28, "-4 5", "-4 9", "-8 13"),
    50: (34, "-5 6", "-5 11", "-10 15"), 65: (41, "-7 6", "-7 12", "-12 18"), 80: (43, "-7 6", "-7 12", "-12 18"),
    100: (51, "-9 6", "-9 13", "-15 20"), 120: (54, "-9 6", "-9 13", "-15 20"), 180: (68, "-11 7", "-11 14", "-18 22"),
    250: (84, "-13 7", "-13 16", "-21 25"), 315: (98, "-16 7", "-16 16", "-26 26"), 400: (114, "-18 7", "-18 18", "-28 29"),
    500: (132, "-20 7", "-20 20", "-32 31"),
}  # fmt: skip


def test_shafts_j_and_r_are_those_of_a_makers_appendix():
    """The two letters that the outside package lacks."""
    for nominal, (r, *js) in SHAFTS.items():
        assert micrometres(nominal, "r6")[0] == r
        for grade, printed in zip((5, 6, 7), js, strict=True):
            assert micrometres(nominal, f"j{grade}") == tuple(map(float, printed.split()))


def test_shafts_and_bores_agree_with_an_outside_package_in_every_band():
    """Every letter and grade that pressfit carries, at every step of ISO 286 to 500 mm, and just above each step."""
    package = pytest.importorskip("pressfit.tables")
    steps = sorted({*package.IT_BANDS, *(upper for upper, _ in package.DEV_SUBBAND["c"])})
    nominals = [1.0, *steps, *(step + 0.001 for step in steps[:-1])]
    compared = 0
    for nominal in nominals:
        for grade in package.GRADES:
            width = package.it_value(nominal, grade)
            assert micrometres(nominal, f"H{grade}") == (0, width)
            assert micrometres(nominal, f"js{grade}") == (-width / 2, width / 2)
            compared += 2
            for letter in set(package.SHAFT_LETTERS) - {"js", "u"}:
                value = package.shaft_deviation(nominal, letter, grade)
                expected = (value - width, value) if letter in "cdefgh" else (value, value + width)
                assert micrometres(nominal, f"{letter}{grade}") == expected, (nominal, letter, grade)
                compared += 1
    assert compared >= 4000


def geometric_mean(nominal):
    steps = (0, 3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500)
    upper = next(step for step in steps if nominal <= step)
    lower = steps[steps.index(upper) - 1]
    return math.sqrt((lower or 1) * upper)


@pytest.mark.parametrize("grade", range(5, 19))
@pytest.mark.parametrize("nominal", [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500])
def test_grades_follow_the_formula_of_the_standard(nominal, grade):
    """ISO 286-1: multiples of i = 0.45 D^(1/3) + 0.001 D, rounded by the standard: up to 10 %, and 17 % in the first band,
    whose lower end (taken as 1 mm here) the standard leaves open."""
    multiple = {5: 7, 6: 10, 7: 16, 8: 25, 9: 40}.get(grade) or 64 * 10 ** ((grade - 10) / 5)
    mean = geometric_mean(nominal)
    expected = multiple * (0.45 * mean ** (1 / 3) + 0.001 * mean)
    assert micrometres(nominal, f"H{grade}")[1] == pytest.approx(expected, rel=0.17 if nominal <= 3 else 0.10, abs=0.6)


FINE = {  # NSK Rolling Bearings catalogue, Appendix Table 11, and to 180 mm TPI catalogue 2202/TE, Table 5.3 (read): IT1 to IT3
    3: (0.8, 1.2, 2), 6: (1, 1.5, 2.5), 10: (1, 1.5, 2.5), 18: (1.2, 2, 3), 30: (1.5, 2.5, 4), 50: (1.5, 2.5, 4), 80: (2, 3, 5),
    120: (2.5, 4, 6), 180: (3.5, 5, 8), 250: (4.5, 7, 10), 315: (6, 8, 12), 400: (7, 9, 13), 500: (8, 10, 15),
}  # fmt: skip


def test_the_finest_grades_are_those_printed_and_one_source_alone_is_not_enough():
    for nominal, printed in FINE.items():
        for grade, width in zip((1, 2, 3), printed, strict=True):
            if grade == 1 and nominal > 180:
                with pytest.raises(UnknownFit):
                    fit_limits(nominal, "h1")
            else:
                assert micrometres(nominal, f"h{grade}") == (-width, 0)


def test_grades_two_and_three_lie_in_geometric_progression():
    """ISO 286-1: IT2 to IT4 step evenly from IT1 to IT5; printed figures are rounded by the standard."""
    for nominal, (first, *printed) in FINE.items():
        step = (micrometres(nominal, "H5")[1] / first) ** 0.25
        assert printed == pytest.approx([first * step, first * step**2], rel=0.10, abs=0.61)


def test_a_fine_hole_that_needs_a_finer_grade_is_refused():
    """K to S lean on the grade below, which no source read prints for these."""
    with pytest.raises(UnknownFit):
        fit_limits(25, "K2")
    assert micrometres(25, "K3")[1] == micrometres(25, "K3")[0] + 4


@pytest.mark.parametrize("nominal", [6, 10, 18, 30, 50, 65, 80, 100, 120, 180, 250, 315, 400, 500])
def test_r_is_the_geometric_mean_of_p_and_s(nominal):
    """ISO 286-1; rounded by the standard."""
    p, r, s = (micrometres(nominal, f"{letter}6")[0] for letter in "prs")
    assert r == pytest.approx(math.sqrt(p * s), rel=0.10)


@pytest.mark.parametrize(
    ("letter", "formula"),
    [
        ("d", lambda d: 16 * d**0.44),
        ("e", lambda d: 11 * d**0.41),
        ("f", lambda d: 5.5 * d**0.41),
        ("g", lambda d: 2.5 * d**0.34),
    ],
)
def test_clearance_letters_follow_their_formulas(letter, formula):
    """ISO 286-1, fundamental deviations; rounded by the standard, which sets the first band (to 3 mm) apart."""
    for nominal in (6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500):
        upper = micrometres(nominal, f"{letter}7")[1]
        assert -upper == pytest.approx(formula(geometric_mean(nominal)), rel=0.08, abs=0.9)


@given(nominal=sizes, grade=grades)
def test_a_hole_and_a_shaft_of_clearance_letters_mirror_each_other(nominal, grade):
    for letter in "defgh":
        lower, upper = fit_limits(nominal, f"{letter}{grade}")
        assert fit_limits(nominal, f"{letter.upper()}{grade}") == pytest.approx((-upper, -lower))


@given(nominal=st.floats(min_value=3.001, max_value=500), letter=st.sampled_from("prs"))
def test_a_hole_fit_and_the_shaft_fit_of_the_same_letters_hold_alike(nominal, letter):
    """The purpose of the delta rule: H7/p6 and P7/h6 have the same interference."""
    _, hole_upper = fit_limits(nominal, "H7")
    shaft_lower, _ = fit_limits(nominal, f"{letter}6")
    _, mirrored_upper = fit_limits(nominal, f"{letter.upper()}7")
    basic_lower, _ = fit_limits(nominal, "h6")
    assert hole_upper - shaft_lower == pytest.approx(mirrored_upper - basic_lower)


@given(
    nominal=sizes,
    letter=st.sampled_from(
        ["D", "E", "F", "G", "H", "JS", "M", "N", "P", "S", "c", "d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "s"]
    ),
    grade=grades,
)
def test_every_class_is_as_wide_as_its_grade(nominal, letter, grade):
    lower, upper = fit_limits(nominal, f"{letter}{grade}")
    assert upper - lower == pytest.approx(fit_limits(nominal, f"H{grade}")[1])


@pytest.mark.parametrize(
    ("nominal", "tolerance_class", "words"),
    [
        (25, "h", "no letter and grade"),
        (25, "", "no letter and grade"),
        (25, "t6", '"t" is not among the letters'),
        (25, "J7", '"J" is not among the letters'),
        (25, "h0", "grade 0 is not in the tables"),
        (25, "h19", "grade 19"),
        (0, "h6", "outside the size range"),
        (-5, "h6", "outside the size range"),
        (501, "h6", "outside the size range"),
        (math.nan, "h6", "outside the size range"),
        (math.inf, "h6", "outside the size range"),
        (25, "j8", '"j8" is not in the tables'),
        (25, "K9", '"K9" is not in the tables'),
        (2, "r6", '"r" has no figure at 2 mm'),
        (2, "j6", "no figure"),
    ],
)
def test_what_is_not_in_the_tables_is_refused_and_the_range_is_named(nominal, tolerance_class, words):
    with pytest.raises(UnknownFit) as caught:
        fit_limits(nominal, tolerance_class)
    assert words in str(caught.value)
    assert "sizes over 0 to 500 mm" in str(caught.value)


@given(nominal=st.floats(), tolerance_class=st.text(max_size=6))
def test_any_size_and_text_give_limits_or_an_unknown_fit(nominal, tolerance_class):
    try:
        lower, upper = fit_limits(nominal, tolerance_class)
    except UnknownFit:
        return
    assert lower < upper
