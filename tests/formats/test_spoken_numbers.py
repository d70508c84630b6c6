"""Numbers in words, as dictation takes them down."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.formats.spoken_numbers import spoken_numbers

TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
DIGITS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]


@pytest.mark.parametrize(
    ("spoken", "figures"),
    [
        ("fifteen sixteenths", ["15/16"]), ("one and a quarter inch", ["1 1/4"]),
        ("an inch and a half", ["1 1/2 inch"]), ("three quarters of an inch", ["3/4"]), ("half an inch", ["1/2"]),
        ("twenty-two balls five thirty-seconds", ["22", "5/32"]),
        ("eighteen point oh two", ["18.02"]), ("nought point five", ["0.5"]), ("22 point 02", ["22.02"]),
        ("point 29", ["0.29"]), ("one hundred and twenty", ["120"]), ("one shim", ["1"]), ("sixty thou", ["60"]),
    ],
)  # fmt: skip
def test_numbers_in_words_become_figures(spoken, figures):
    assert [figure for _, _, figure in spoken_numbers(spoken)] == figures


@pytest.mark.parametrize(
    "words",
    [
        "this one is rusty",
        "one of them bent",
        "half worn",
        "at one place",
        "a point of rust",
        "second hand",
        "the quarter",
    ],
)
def test_words_that_are_no_figures_stay_words(words):
    assert spoken_numbers(words) == []


@given(number=st.integers(2, 99), places=st.lists(st.integers(1, 9), max_size=3))
def test_every_number_below_a_hundred_is_read(number, places):
    small = [
        *DIGITS,
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ]
    words = (
        small[number - 1]
        if number < 20
        else " ".join([TENS[number // 10 - 2], *([DIGITS[number % 10 - 1]] if number % 10 else [])])
    )
    behind = f" point {' '.join(DIGITS[place - 1] for place in places)}" if places else ""
    figure = f"{number}" + (f".{''.join(map(str, places))}" if places else "")
    assert spoken_numbers(words + behind) == [(0, len(words + behind), figure)]
