"""A part described by hand on the command line: what is understood, and what is refused by name."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from stackcheck.errors import InputError
from stackcheck.formats.bench_line import read_line
from stackcheck.formats.typed_part import read_typed_part
from stackcheck.units import read_reading


def entry(text):
    return read_typed_part([text]).entry


def sizes(text):
    read = {name: reading.value_mm for name, reading in entry(text).sizes}
    return read.get("bore"), read.get("outside"), read.get("length")


def how(text):
    return {name: reading.how for name, reading in entry(text).sizes}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("28x20x0.5 mic", (20, 28, 0.5)),
        ("20 x 28 x 0,5", (20, 28, 0.5)),
        ("17×30 cal", (17, 30, None)),
        ("28x?x0.5", (None, 28, 0.5)),
        ("Ø30 x Ø17 x 3", (17, 30, 3)),
        ("28mm x 20mm x 0.5mm mic", (20, 28, 0.5)),
        ("3/4x1/2x1/16 in", (12.7, 19.05, 1.5875)),
        ('3/4"x1/2"x1/16"', (12.7, 19.05, 1.5875)),
        ("¾x½x1/16 in rule", (12.7, 19.05, 1.5875)),
        ("1 1/2 x 1/2 in", (12.7, 38.1, None)),
        ("1-1/2 3/4 1/8 in", (19.05, 38.1, 3.175)),
        ("20 x 1 in", (25.4, 508, None)),
        ("20 47 14", (20, 47, 14)),
        ("20, 47, 14 cal", (20, 47, 14)),
        ("47 20", (20, 47, None)),
        ("bore 17 outside 30", (17, 30, None)),
        ("OD 30 ID 17 thick 3 rule", (17, 30, 3)),
        ("bore=17 outside=30 width=9", (17, 30, 9)),
        ("thickness 0.9", (None, None, 0.9)),
        ("bore 1/2 outside 1 thickness 1/8 in", (12.7, 25.4, 3.175)),
        ("bore 17.1 17.2 17.3 cal outside 30", (17.2, 30, None)),
        ("bearing 6204 47x20x14 cal", (20, 47, 14)),
    ],
)
def test_sizes_are_understood_as_written(text, expected):
    assert sizes(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("disc spring 20x10.2x1.1", {"outside": 20, "bore": 10.2, "disc_thickness": 1.1}),
        ("disc spring 20x10.2x1.1x1.55", {"outside": 20, "bore": 10.2, "disc_thickness": 1.1, "disc_height": 1.55}),
        ("20x10.2 disc spring thickness 1.1", {"outside": 20, "bore": 10.2, "disc_thickness": 1.1}),
        ("O-ring 20x2.5", {"bore": 20, "length": 2.5}),
        ("split pin 3.2x40", {"shaft": 3.2, "length": 40}),
        ("loose balls 6.35", {"ball": 6.35}),
        ("shim ring 0.5x45x35", {"length": 0.5, "outside": 45, "bore": 35}),
        ("collar bore 20 outside 30 width 12", {"bore": 20, "outside": 30, "length": 12}),
    ],
)
def test_the_kind_says_which_size_a_bare_figure_is(text, expected):
    """The same rule as at the bench: what is typed here and there is one part."""
    assert {name: reading.value_mm for name, reading in entry(text).sizes} == expected
    (part,) = read_line(text).parts
    assert {name: read_reading(size).value_mm for name, size in part.sizes} == expected


def test_two_figures_of_a_bolt_are_no_pair_of_diameters():
    with pytest.raises(InputError, match="2 sizes without a name"):
        entry("bolt 8x30")


def test_words_may_come_in_one_piece_or_many():
    assert read_typed_part(["washer", "28x20x0.5", "mic"]) == read_typed_part(["washer 28x20x0.5 mic"])


def test_inches_off_a_rule_are_good_to_a_sixty_fourth_also_where_they_are_whole():
    """ "1 in" in such a list is no reading to the nearest inch."""
    assert {reading.good_to_mm for _, reading in entry("1x1/2x1/16 in").sizes} == {25.4 / 64}


def test_an_instrument_at_the_end_counts_for_the_sizes_without_their_own():
    assert how("bore 17.10 cal outside 29.90 thickness 3.00 mic") == {
        "bore": "calliper",
        "outside": "micrometer",
        "length": "micrometer",
    }
    assert how("28 cal x 20 pin x 0.5 mic") == {"bore": "pin gauge", "outside": "calliper", "length": "micrometer"}


@pytest.mark.parametrize(
    "text", ["shim 45x35x0.5 mic no marking", "shim 45x35x0.5 no marking mic", "mic 45x35x0.5 shim, no marking"]
)
def test_no_marking_says_nothing_about_how_the_sizes_were_got(text):
    assert set(how(text).values()) == {"micrometer"}


@pytest.mark.parametrize(
    ("text", "mark"),
    [
        ("bearing 6204 2RS", "6204 2RS"), ("ISO 7089 M16 washer", "ISO 7089 M16"), ("washer 28x20, marked X5", "X5"),
        ("washer number=FT-1207", "FT-1207"), ("625x600x3", ""), ("bearing 625", "625"),
    ],
)  # fmt: skip
def test_a_mark_or_a_designation_is_no_size_and_a_size_no_designation(text, mark):
    assert entry(text).marked == mark


def test_a_mark_given_as_one_word_keeps_its_blanks():
    assert read_typed_part(["washer", "number=FT 1207", "28x20"]).entry.marked == "FT 1207"


def test_the_kind_may_stand_before_or_behind_the_sizes():
    assert entry("plain washer 28x20").kind == entry("28x20 washer").kind == "washer"
    assert entry("28x20").kind == ""
    assert entry("ball 6.35 mic").kind == entry("ball=4").kind == "loose balls"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("bore 20 outside 15", "the bore 20 is not smaller than the outside 15"),
        ("20x20x1", "is not smaller than the outside"),
        ("28x20x0 mic", 'the length "0 mic" cannot be read'),
        ("bore 17 bore 18", "the bore is given twice"),
        ("28x20 bore 18", "the bore is given twice"),
        ("28x20x1x2", "4 sizes without a name"),
        ("washer 28", "1 size without a name: 28"),
        ("washer 28x20x0.5 mic 17", "1 size without a name: 17"),
        ("washer 28x20x0.5 1/2", "1 size without a name: 1/2"),
        ("28 20 x 5", "1 size without a name: 5"),
        ("1 1/2 3/4 1/8 in", "can be read two ways"),
        ("28.01 28.02 28.01 mic", "may be several readings of one size"),
        ("608 22 7", "may be sizes, or the number of a bearing"),
        ("washer M16", '"M16" is not read'),
        ("-5x3", '"-5x3" is not read'),
        ("20,47,14", '"20,47,14" is not read'),
        ("28x20x0.5 hammer", '"hammer" is no way of measuring known here'),
        ("28x20x0.5 in tray", '"tray" is no way of measuring known here'),
        ("bore 17 kg", "kg is no unit known here"),
        ("washer 28x.", '"28x" is not read'),
        ("bore=abc", 'the bore "abc" cannot be read'),
        ("widht=3", 'unknown size "widht"'),
    ],
)
def test_what_cannot_be_is_refused_with_its_reason(text, reason):
    with pytest.raises(InputError) as refused:
        read_typed_part([text])
    assert reason in str(refused.value)


def test_every_mistake_of_the_words_is_said_at_once():
    with pytest.raises(InputError) as refusal:
        read_typed_part(["washer", "28x20x0.5", "gaw", "widht=3"])
    assert len(refusal.value.mistakes) == 2


@given(st.text(alphabet='0123456789.,x /mic bored=±-inwashe?"', max_size=40))
@example("0x.")
@example("washer bore .")
def test_any_text_is_read_or_refused(text):
    try:
        read_typed_part([text])
    except InputError:
        pass


figure = st.sampled_from(["17", "0.5", "1/2", "20,1", "M8", "-3", "2x", "1e3", "4th"])


@given(
    st.lists(
        st.sampled_from(["washer", "shim", "painted", "mic", "cal", "not magnetic", "bore 17", "28x20x0.5"]), max_size=5
    ),
    figure,
    st.randoms(),
)
def test_no_figure_is_ever_passed_over(words, extra, random):
    """A figure beside the sizes is a size, a mark, or a mistake that names it; it never falls under the bench."""
    place = random.randint(0, len(words))
    text = " ".join([*words[:place], extra, *words[place:]])
    try:
        read = read_typed_part([text]).entry
    except InputError:
        return
    written = [text for _, reading in read.sizes for text in [reading.text]]
    assert any(extra in each for each in [*written, read.marked, str(read.count)]), text


@pytest.mark.parametrize(
    ("text", "behind"),
    [
        ("gasket thickness 0.15 mic, torn", "torn"), ("washer 30.6x17.1x3.0 cal burred", "burred"),
        ("washer 28x16.3x1.0, bent tab", "bent tab"), ("bearing 47x20x14, seized", "seized"),
        ("disc spring outside=44.9 cal, flattened", "flattened"), ("seal 47x30x7, lip hard", "lip hard"),
        ("washer 30x17x3 mic, under the bench", "under the bench"),
    ],
)  # fmt: skip
def test_what_somebody_says_of_a_part_is_taken_for_no_way_of_measuring(text, behind):
    """The words of the bench stand behind the sizes as often as before them;
    a word behind a tool names no second tool.
    """
    assert read_typed_part([text]).behind == behind


@pytest.mark.parametrize("text", ["washer 28x20x0.5 ruel", "washer 28x20x0.5, ruel"])
def test_a_slip_in_the_name_of_a_tool_is_never_passed_over(text):
    """Counted as by calliper, a rule would make the answer surer than it may be."""
    with pytest.raises(InputError, match='"ruel" is no way of measuring'):
        entry(text)


@pytest.mark.parametrize(
    ("text", "count"),
    [("3 balls 6.35 mic", 3), ("3 balls ball=6.35 mic", 3), ("2 thin washers 30x17x3", 2), ("washer 30x17x3", 1)],
)
def test_how_many_there_are_may_stand_before_the_kind(text, count):
    assert entry(text).count == count
    assert "3" not in entry(text).what and len(entry(text).sizes) in (1, 3)


def test_a_figure_before_a_size_is_no_count():
    with pytest.raises(InputError, match="1 size without a name: 20"):
        entry("20 bore 30 outside")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("nut M20x1.5 across_flats=30 cal", {"thread_diameter": 20, "thread_pitch": 1.5, "across_flats": 30}),
        ("nut M16", {"thread_diameter": 16}),
        ("bolt M8x1.25", {"thread_diameter": 8, "thread_pitch": 1.25}),
    ],
)
def test_a_nut_or_a_bolt_is_told_by_its_thread(text, expected):
    assert {name: reading.value_mm for name, reading in entry(text).sizes} == expected


@pytest.mark.parametrize("text", ["washer 30x3 cal", "paper disc 64x0.6", "gasket 60 0.5"])
def test_two_figures_far_apart_may_be_a_diameter_and_a_thickness(text):
    """Read as a bore, a thickness would rule out everything that the part may be."""
    with pytest.raises(InputError, match="may be two diameters, or an outside diameter and a thickness"):
        entry(text)


def test_a_size_in_mm_before_one_in_inches_is_said_to_be_taken_in_inches():
    with pytest.raises(
        InputError, match=r'counts for every size without its own: write "10.3 mm" if\s+it is not in in'
    ):
        read_typed_part(["washer", "bore=10.3", "outside=.812 in", "length=.065 in"])
