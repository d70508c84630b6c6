"""Sizes typed behind a command: what is understood, and what is refused with a reason."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stackcheck.errors import InputError
from stackcheck.formats.asked_sizes import read_asked


def values(text):
    return tuple(reading and reading.value_mm for reading in read_asked(text).readings)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("28x20x0.5 mic", (20, 28, 0.5)),
        ("20 x 28 x 0,5", (20, 28, 0.5)),
        ("17×30 cal", (17, 30, None)),
        ("bore 17 outside 30", (17, 30, None)),
        ("OD 30 ID 17 thick 3 rule", (17, 30, 3)),
        ("20 x 1 in", (25.4, 508, None)),
        ("thickness 0.9", (None, None, 0.9)),
        ("bore 1/2 outside 1 thickness 1/8 in", (12.7, 25.4, 3.175)),
        ("bore 17.1 17.2 17.3 cal outside 30", (17.2, 30, None)),
    ],
)
def test_sizes_are_understood_as_written(text, expected):
    assert values(text) == expected


def test_an_instrument_at_the_end_counts_for_the_sizes_without_their_own():
    asked = read_asked("bore 17.10 cal outside 29.90 thickness 3.00 mic")
    assert [reading.how for reading in asked.readings] == ["calliper", "micrometer", "micrometer"]


def test_the_kind_stands_before_the_sizes():
    assert read_asked("plain washer 28x20").kind == "washer"
    assert read_asked("28x20").kind == ""


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("bore 20 outside 15", "the bore (20 mm) is not below the outside diameter (15 mm)"),
        ("20x20x1", "is not below the outside"),
        ("28x20x0 mic", 'the thickness "0 mic" cannot be read'),
        ("bore 17 bore 18", "a size is given twice"),
        ("28x20x1x2", "4 sizes without a name"),
        ("washer 28", "1 size without a name"),
        ("washer", "no size is given"),
        ("28 bore 17", "stands before the first named size"),
        ("gizmo 28x20", '"gizmo" is no kind of part'),
        ("28x20x0.5 hammer", '"28 hammer" cannot be read'),
        ("28x20x0.2 rule", 'below what a rule can show: that is "not measured"'),
        ("bore 17 kg", "cannot be read"),
    ],
)
def test_what_cannot_be_is_refused_with_its_reason(text, reason):
    with pytest.raises(InputError) as refused:
        read_asked(text)
    assert reason in str(refused.value)


@given(st.text(alphabet="0123456789.,x /mic bored=±-inwashe", max_size=40))
def test_any_text_is_read_or_refused(text):
    try:
        assert any(read_asked(text).readings)
    except InputError:
        pass
