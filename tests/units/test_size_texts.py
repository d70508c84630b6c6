"""What people write on a drawing or at the bench, and what it means in mm."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from stackcheck.errors import SizeError
from stackcheck.units import INCH_MM, read_limits, read_reading
from stackcheck.units.known import DIMENSIONS

WITH_LIMITS = {
    "22.0 mm ±0.05": (22.0, 21.95, 22.05),
    "22 +0.02/-0.05 mm": (22.0, 21.95, 22.02),
    "22 +0.02 -0.05 mm": (22.0, 21.95, 22.02),
    "24 +0.02/–0.05": (24.0, 23.95, 24.02),
    "20.2 mm +0.1/0": (20.2, 20.2, 20.3),
    "22 0/-0.1": (22.0, 21.9, 22.0),
    "22 mm +/- 0.05": (22.0, 21.95, 22.05),
    "22 mm +- 0.05 mm": (22.0, 21.95, 22.05),
    "18.35..18.45 mm": (18.4, 18.35, 18.45),
    "18.35 mm to 18.45 mm": (18.4, 18.35, 18.45),
    "1 1/2 in ±1/64 in": (38.1, 37.703125, 38.496875),
    "22.0 mm ±0.05 (sheet 12)": (22.0, 21.95, 22.05),
    "1 in ±0.1 mm": (25.4, 25.3, 25.5),
}
PLAIN = {
    "15/16 in": 23.8125, '1 1/2"': 38.1, "1-1/2 in": 38.1, "1½ in": 38.1, "60 thou": 1.524, ".060 in": 1.524, "0,5 mm": 0.5,
    "d 20": 20.0, "Ø20": 20.0, "dia. 20 mm": 20.0, "20.0mm": 20.0, "20": 20.0, "2 cm": 20.0, "1.5 in.": 38.1, "1.5”": 38.1,
}  # fmt: skip
FITS = {
    "20 H8": (20.0, "H8"),
    "20H8": (20.0, "H8"),
    "35 mm k6": (35.0, "k6"),
    "47 N7 mm": (47.0, "N7"),
    "20 js6": (20.0, "js6"),
    "Ø20 m6": (20.0, "m6"),
}
READINGS = {
    "18.02 cal": (18.02, 0.03, "calliper"),
    "18.02": (18.02, 0.03, ""),
    "18.0": (18.0, 0.05, ""),
    "0.5mm mic": (0.5, 0.05, "micrometer"),
    "57.94 57.95 57.94 mic": (57.94, 0.01, "micrometer"),
    "57.94, 57.95; 57.94 mic": (57.94, 0.01, "micrometer"),
    "18.02 22.01 cal": (20.015, 1.995, "calliper"),
    "3.0..3.5 feeler": (3.25, 0.25, "feeler"),
    "3.0-3.5 feeler": (3.25, 0.25, "feeler"),
    "22.02 cal ±0.02": (22.02, 0.02, "calliper"),
    "22.02 ±0.02 cal": (22.02, 0.02, "calliper"),
    "22.02 cal (at the rust)": (22.02, 0.03, "calliper"),
    "22.02 (mic)": (22.02, 0.01, "micrometer"),
    '15/16" rule': (23.8125, INCH_MM / 64, "rule"),
    "15/16 in": (23.8125, INCH_MM / 64, "rule"),
    "1 in": (25.4, INCH_MM / 64, "rule"),
    "15/16 in cal": (23.8125, 0.03, "calliper"),
    "1.002 in mic": (25.4508, 0.0127, "micrometer"),
    "57.97 depth mic": (57.97, 0.01, "depth micrometer"),
    "14 marking": (14.0, 0.0, "marking"),
    "about 22": (22.0, 2.2, "guess"),
    "22 by eye": (22.0, 2.2, "guess"),
    "1.5 thou feeler": (0.0381, 0.03, "feeler"),
}
REFUSED = {
    "": "nothing is written", "abc": "a number is wanted", "22 kg": "is no unit known here", "22 N": "measures force",
    "nan mm": "plain number", "inf": "plain number", "1e308": "plain number", "m**999999": "plain number", "22 mm^99": "is no unit",
    "-5 mm": "below zero", "22 ±30": "below zero", "18.45..18.35": "low limit stands first", "22 +0.05": "both limits",
    "18.4-18.5": "18.35..18.45", "22,000 mm": "two ways", "22.0.1": "two decimal points", "1 1/0 in": "below the stroke",
    "200 m": "far too large", "22 mm foo": "cannot be read behind 22 mm", "9" * 121: "far too long",
}  # fmt: skip


@pytest.mark.parametrize("text", WITH_LIMITS)
def test_a_size_has_its_limits(text):
    written = read_limits(text)
    assert (written.nominal, written.least, written.most) == pytest.approx(WITH_LIMITS[text], abs=1e-9)
    assert written.text == text


@pytest.mark.parametrize("text", PLAIN)
def test_a_size_without_limits_has_none(text):
    written = read_limits(text)
    assert (written.nominal, written.least, written.most, written.fit) == (pytest.approx(PLAIN[text]), None, None, "")


@pytest.mark.parametrize("text", FITS)
def test_a_fit_is_kept_by_its_letters(text):
    written = read_limits(text)
    assert (written.nominal, written.fit) == FITS[text]


@pytest.mark.parametrize("text", READINGS)
def test_a_reading_knows_its_instrument_and_what_it_is_good_to(text):
    reading = read_reading(text)
    value, good_to, how = READINGS[text]
    assert (reading.value_mm, reading.good_to_mm, reading.how) == (pytest.approx(value), pytest.approx(good_to), how)


@pytest.mark.parametrize("text", REFUSED)
def test_what_cannot_be_read_is_refused_with_what_to_write(text):
    with pytest.raises(SizeError) as refusal:
        read_limits(text)
    assert REFUSED[text] in refusal.value.wanted


@pytest.mark.parametrize("text", ["-3", "0 feeler", "3.5..3.0 feeler", "22 cal mic", "22 ±", "?"])
def test_a_reading_that_says_nothing_is_refused(text):
    with pytest.raises(SizeError):
        read_reading(text)


def test_a_gap_may_be_nothing_at_all():
    assert read_reading("0.00 feeler", may_be_zero=True).value_mm == 0.0


def test_an_overlap_may_be_below_zero():
    assert read_limits("-0.05 mm", may_be_negative=True).nominal == -0.05


@pytest.mark.parametrize(
    "value, own",
    [
        (22, '"22 mm"'),
        (18.0, '"18.0 mm"'),
        (float("nan"), '"22.0 mm"'),
        (10**400, '"22.0 mm"'),
        (True, '"22.0 mm"'),
        ([], '"22.0 mm"'),
    ],
)
def test_a_bare_number_is_shown_as_the_text_to_write(value, own):
    with pytest.raises(SizeError, match="write it as text with its unit") as refusal:
        read_limits(value)
    assert own in refusal.value.wanted


@pytest.mark.parametrize(
    "text, dimension, inside",
    [("40 N·m", "torque", 40_000), ("40 Nm", "torque", 40_000), ("30 ft-lb", "torque", 40674.538), ("200 kgf·cm", "torque", 19613.3), ("60 deg", "angle", 60), ("1/4 turn", "angle", 90),
     ("2.5 bar", "pressure", 0.25), ("12 kN", "force", 12_000), ("180 N/mm", "stiffness", 180), ("20 °C", "temperature", 20)],
)  # fmt: skip
def test_every_dimension_comes_out_in_our_inside_unit(text, dimension, inside):
    assert read_limits(text, dimension=dimension).nominal == pytest.approx(inside)


lengths = st.decimals(min_value="0.001", max_value="2000", places=3)


@given(inch=lengths, decimals=st.integers(0, 3))
def test_inch_and_mm_say_the_same_length(inch, decimals):
    assume(float(inch) * INCH_MM < 1e5)
    assert read_limits(f"{inch} in").nominal == pytest.approx(read_limits(f"{inch * 254 / 10} mm").nominal, abs=1e-9)


@given(value=lengths)
def test_comma_and_point_are_one(value):
    text = str(value)
    assume(text.startswith("0"))  # 1,250 may be read two ways and is refused
    assert read_limits(text.replace(".", ",")).nominal == read_limits(text).nominal


@given(whole=st.integers(1, 900), decimals=st.integers(0, 4))
def test_the_digits_written_tell_the_resolution(whole, decimals):
    """18 mm from a calliper was read to the nearest mm, whatever the calliper can do."""
    reading = read_reading(f"{whole:.{decimals}f} cal")
    assert reading.good_to_mm == pytest.approx(max(0.03, 10.0**-decimals / 2))


@given(values=st.lists(lengths, min_size=1, max_size=6))
def test_every_reading_lies_within_what_the_middle_is_good_to(values):
    reading = read_reading(" ".join(map(str, values)) + " mic")
    assert all(abs(value - reading.value_mm) <= reading.good_to_mm + 1e-6 for value in reading.readings_mm)
    assert min(reading.readings_mm) <= reading.value_mm <= max(reading.readings_mm)


@given(text=st.text(max_size=30) | st.text('0123456789.,/-+±() mincalthouHh"½', max_size=20))
def test_any_text_is_read_or_refused(text):
    for read in (read_limits, read_reading):
        try:
            read(text)
        except SizeError as refusal:
            assert refusal.wanted


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("68 °F", (20.0, None, None)), ("32 degF", (0.0, None, None)), ("-40 °F", (-40.0, None, None)), ("32..212 °F", (50.0, 0.0, 100.0)),
     ("68 ±9 °F", (20.0, 15.0, 25.0)), ("20 °C", (20.0, None, None))],
)  # fmt: skip
def test_a_temperature_is_counted_from_the_zero_of_its_scale_and_a_deviation_is_not(text, celsius):
    """Freezing 32, boiling 212, the two scales meet at -40 (NIST SP 811, 2008, B.8)."""
    written = read_limits(text, dimension="temperature", may_be_negative=True)
    assert (written.nominal, written.least, written.most) == pytest.approx(celsius)


@pytest.mark.parametrize("dimension", [dimension for dimension in DIMENSIONS if dimension != "length"])
@pytest.mark.parametrize("text", ["0", "60", "20..80", "60 ±5"])
def test_an_amount_that_is_no_length_names_its_unit(dimension, text):
    """A bare "60" may be N·m or lbf·in, °C or °F: nobody's guess is taken, and the answer says which unit is wanted."""
    with pytest.raises(SizeError) as refusal:
        read_limits(text, dimension=dimension)
    assert "no unit" in refusal.value.wanted and DIMENSIONS[dimension][1] in refusal.value.wanted
