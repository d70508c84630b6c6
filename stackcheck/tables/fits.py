"""ISO 286 limit deviations: tolerance grade and fundamental deviation by size band, and the rule that joins them.

A shaft class gives one deviation from a table and the other by adding the grade. A hole class is the mirror of the
shaft class of the same letter, and for K, M, N to grade 8 and P, R, S to grade 7 the mirror is shifted by the
difference between the grade and the next finer one ("delta"), so that a hole fit and the shaft fit of the same letters
clear alike.

Source: ISO 286-1:2010 (rules from memory, figures from the tables in `data`, checked against two sources).
"""

from __future__ import annotations

import re
from functools import cache

from stackcheck.tables.loader import read_records

SHAFT_LETTERS = ("c", "d", "e", "f", "g", "h", "j", "js", "k", "m", "n", "p", "r", "s")
HOLE_LETTERS = ("D", "E", "F", "G", "H", "JS", "K", "M", "N", "P", "R", "S")
GRADES = range(1, 19)
LEAST_SHIFTED_GRADE = 3
"""Finer K to S holes stand in no table read: the shift needs the grade below."""
GREATEST_IT1_MM = 180.0
"""Above it IT1 has one source only."""
GREATEST_MM = 500.0
COVERED = (
    "sizes over 0 to 500 mm; shafts c, d, e, f, g, h, j (grades 5 to 7), js, k, m, n, p, r, s; "
    "holes D, E, F, G, H, JS, K (to grade 8), M, N, P, R, S; grades 1 to 18 (1 to 180 mm, holes K to S from 3); j, r "
    "and R from over 3 mm"
)
_CLASS = re.compile(r"([A-Za-z]{1,2})([0-9]{1,2})")


class UnknownFit(ValueError):
    """No limits for this size and class: the message says why and what is covered."""

    def __init__(self, why: str):
        super().__init__(f"{why}. Covered: {COVERED}")


def fit_limits(nominal_mm: float, tolerance_class: str) -> tuple[float, float]:
    """Lower and upper limit deviation of a size with an ISO 286 tolerance class.

    Args:
        nominal_mm: nominal size [mm], above 0 and up to 500.
        tolerance_class: letter and grade, upper case for a hole ("H8", "JS7"), lower case for a shaft ("h6", "js5").
    Returns:
        (lower, upper) deviation from nominal [mm].
    Raises:
        UnknownFit: size, letter or grade is not in the tables; the message says which is.

    Source: ISO 286-1:2010 and ISO 286-2:2010.

    >>> fit_limits(25, "H7")
    (0.0, 0.021)
    >>> fit_limits(47, "P7")  # an outer ring held with interference
    (-0.042, -0.017)
    """
    match = _CLASS.fullmatch(tolerance_class.strip())
    if match is None:
        raise UnknownFit(f'"{tolerance_class[:20]}" is no letter and grade such as H8 or h6')
    letter, grade = match[1], int(match[2])
    if letter not in SHAFT_LETTERS and letter not in HOLE_LETTERS:
        raise UnknownFit(f'"{letter}" is not among the letters in the tables')
    if grade not in GRADES:
        raise UnknownFit(f"grade {grade} is not in the tables")
    if not 0 < nominal_mm <= GREATEST_MM:
        raise UnknownFit(f"{nominal_mm:g} mm is outside the size range")
    if (grade == 1 and nominal_mm > GREATEST_IT1_MM) or (letter in "KMNPRS" and grade < LEAST_SHIFTED_GRADE):
        raise UnknownFit(f"{letter}{grade} at {nominal_mm:g} mm has no second source")
    lower, upper = (_hole if letter.isupper() else _shaft)(nominal_mm, letter, grade)
    return round(lower / 1000, 5) + 0.0, round(upper / 1000, 5) + 0.0  # + 0.0 turns -0.0 into 0.0


@cache
def _bands(file: str) -> tuple[tuple[float, dict[str, str]], ...]:
    return tuple((float(record["to"]), record) for record in read_records(file))


def _cell(file: str, nominal_mm: float, column: str) -> float | None:
    """The figure of the size band that holds the nominal, "over, up to and including" [µm]; None for an empty cell."""
    for upper, record in _bands(file):
        if nominal_mm <= upper:
            return float(record[column]) if record[column] else None
    return None


def _grade(nominal_mm: float, grade: int) -> float:
    return _cell("iso_286_grades.csv", nominal_mm, f"IT{grade}")


def _deviation(nominal_mm: float, column: str) -> float:
    value = _cell("iso_286_deviations.csv", nominal_mm, column)
    if value is None:
        raise UnknownFit(f'"{column}" has no figure at {nominal_mm:g} mm')
    return value


def _shaft(nominal_mm: float, letter: str, grade: int) -> tuple[float, float]:
    width = _grade(nominal_mm, grade)
    if letter == "js":
        return -width / 2, width / 2
    if letter == "j":
        if grade not in (5, 6, 7):
            raise UnknownFit(f'"j{grade}" is not in the tables')
        lower = _deviation(nominal_mm, f"j{grade}")
        return lower, lower + width
    if letter == "k" and not 4 <= grade <= 7:
        return 0.0, width  # k leaves the line only in grades 4 to 7
    value = _deviation(nominal_mm, letter)
    return (value - width, value) if letter <= "h" else (value, value + width)


def _hole(nominal_mm: float, letter: str, grade: int) -> tuple[float, float]:
    width = _grade(nominal_mm, grade)
    if letter == "JS":
        return -width / 2, width / 2
    mirrored = -_deviation(nominal_mm, letter.lower())
    if letter <= "H":
        return mirrored, mirrored + width
    if letter == "K" and grade > 8:
        raise UnknownFit(f'"K{grade}" is not in the tables')
    if letter == "N" and grade > 8 and nominal_mm > 3:
        upper = 0.0
    elif letter == "M" and grade == 6 and 250 < nominal_mm <= 315:
        upper = -9.0  # the one exception ISO 286-1 prints beside the rule, which would give -11
    else:
        last_shifted = 8 if letter in "KMN" else 7
        shifted = grade <= last_shifted and nominal_mm > 3
        upper = mirrored + (width - _grade(nominal_mm, grade - 1) if shifted else 0.0)
    return upper - width, upper
