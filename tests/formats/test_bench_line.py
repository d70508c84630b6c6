"""One line as typed at the bench: what it is read as, and what has to be asked."""

import subprocess
import sys

import pytest

from stackcheck.errors import SizeError
from stackcheck.formats.bench_line import ReadPart, read_line
from stackcheck.formats.library import Library
from stackcheck.units import read_reading
from tests.strategies import LIBRARY

library = Library(LIBRARY)


def only(text, **options) -> ReadPart:
    line = read_line(text, **options)
    assert not line.questions
    (part,) = line.parts
    return part


def sizes(text, **options) -> dict[str, str]:
    return dict(only(text, **options).sizes)


def part(what="", *, sizes=None, **fields) -> ReadPart:
    return ReadPart(what=what, sizes=tuple((sizes or {}).items()), **fields)


RING = {"length": "0.5 mm", "bore": "35 mm", "outside": "45 mm"}
BEARING = {"length": "14 mm", "bore": "20 mm", "outside": "47 mm"}


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("thin ring 45 od 35 id .5, drip tray",
         part("thin ring", kind="ring", sizes=RING, place_seen="found loose", where="drip tray")),
        ("washer 37x21x3",
         part("washer", kind="washer", sizes={"length": "3 mm", "bore": "21 mm", "outside": "37 mm"})),
        ("brg 20 47 14 open, smooth",
         part("brg", kind="ball bearing", sizes=BEARING, feel=("smooth",), look=("no seals",))),
        ("brg 20 47 14 2 rubber seals gritty",
         part("brg", kind="ball bearing", sizes=BEARING, feel=("gritty",), look=("two rubber seals",))),
        ("1 1/4 arbor flange, hollow side in",
         part("arbor flange", kind="flange", sizes={"length": "1 1/4 in"}, feature="hollow side", toward="in")),
        ("spacer, 2 thou short", part("spacer", kind="spacer tube", note="2 thou short")),
        ("seal spring side out", part("seal", kind="seal", feature="spring side", toward="out")),
        ("circlip sharp edge away from plate",
         part("circlip", kind="circlip", feature="sharp edge", toward="away from plate")),
        ("22 balls 5/32", part("balls", kind="loose balls", count=22, sizes={"ball": "5/32 in"})),
        ("forty-five od half a millimetre ring",
         part("ring", kind="ring", sizes={"length": "0.5 mm", "outside": "45 mm"})),
        ("nut, nylon, used", part("nut", kind="nut", look=("nylon insert", "used"))),
        ("dont know, rusty ring", part("ring", kind="ring", look=("rust",), unknown=True)),
        ("same as other side", part(same_as_other_side=True)),
        ("fell out", part(place_seen="found loose")),
        ("15/16 long collar, step out",
         part("long collar", kind="collar", sizes={"length": "15/16 in"}, feature="step", toward="out")),
        ("three shims point two nine", part("shims", kind="shim ring", count=3, sizes={"length": "0.29 mm"})),
        ("57.94 57.95 57.94 mic", part(sizes={"length": "57.94 57.95 57.94 mm mic"})),
        ("22.02 cal", part(sizes={"length": "22.02 mm cal"})),
        ("axle nut, flange to leg, very hard",
         part("axle nut", kind="nut", feature="flange", toward="leg", came_off="very hard")),
        ("right: collar 18.01, flange toward right leg",
         part("collar", kind="collar", end=1, sizes={"length": "18.01 mm"}, feature="flange", toward="right leg")),
        ("bearing 6204-2RS C3 gritty all round, card 6",
         part("bearing", kind="ball bearing", marked="6204-2RS C3", feel=("gritty all round",), card="6")),
        ("bearing, inner ring rusty and outer ring worn",
         part("bearing", kind="ball bearing", look=("inner ring rust", "outer ring worn"))),
        ("bearing no 6204Z, rust on outer ring, came off by hand",
         part("bearing", kind="ball bearing", marked="6204Z", look=("rust on outer ring",), came_off="by hand")),
        ("tab washer, tab in slot", part("tab washer", kind="tab washer", feature="tab", toward="slot")),
        ("washer, same both ways", part("washer", kind="washer", toward="same both ways")),
        ("two 6204 bearings smooth", part("bearings", kind="ball bearing", marked="6204", count=2, feel=("smooth",))),
        ("seal, note: 12 mm too far in", part("seal", kind="seal", note="12 mm too far in")),
    ],
)  # fmt: skip
def test_a_line_is_read_as_it_is_meant(typed, read):
    assert only(typed) == read


def test_a_word_that_does_not_fit_the_part_is_asked_about():
    """A collar cannot feel gritty: the person most likely means the bearing beside it."""
    line = read_line("long collar 22, gritty")
    assert line.parts == (part("long collar", kind="collar", sizes={"length": "22 mm"}, note="gritty"),)
    (question,) = line.questions
    assert question.text == "Gritty - the bearing beside it?"
    beside, itself = (read_line(again) for _, again in question.choices)
    assert (beside.parts[0].note, beside.questions) == ("the bearing beside it gritty", ())
    assert (itself.parts[0].look, itself.questions) == (("gritty",), ())


def test_each_piece_of_a_pack_is_a_part_of_its_own():
    line = read_line("3 shims .29 .29 .20 mic, input", reference=library.reference("pinion-shaft"))
    assert [(one.count, one.end, one.size("length")) for one in line.parts] == [
        (1, 1, "0.29 mm mic"),
        (1, 1, "0.29 mm mic"),
        (1, 1, "0.20 mm mic"),
    ]


def test_two_shims_with_a_word_between_their_figures():
    assert [(one.end, one.size("length")) for one in read_line("2 shims .3 and .25, right").parts] == [
        (1, "0.3 mm"),
        (1, "0.25 mm"),
    ]


def test_diameters_before_the_pieces_count_for_all_of_them():
    parts = read_line("5 shims 45x35, .1 .1 .2 .5 1.0 mic").parts
    assert [one.size("length") for one in parts] == [
        "0.1 mm mic",
        "0.1 mm mic",
        "0.2 mm mic",
        "0.5 mm mic",
        "1.0 mm mic",
    ]
    assert {(one.size("outside"), one.size("bore")) for one in parts} == {("45 mm mic", "35 mm mic")}


def test_pieces_that_were_not_measured_are_said_to_be_so():
    line = read_line("4 shims .29 .30 mic")
    assert [(one.count, one.size("length")) for one in line.parts] == [(1, "0.29 mm mic"), (1, "0.30 mm mic"), (2, "")]
    assert line.questions[0].text == "4 pieces said, 2 figures: 2 not measured?"
    assert read_line(line.questions[0].choices[0][1]).questions == ()


@pytest.mark.parametrize("typed", ["pack 0.80", "shim pack 0.80", "pack is .80"])
def test_a_pack_is_no_part(typed):
    line = read_line(typed, how="mic")
    assert line.parts == ()
    assert read_reading(line.pack).value_mm == 0.8


def test_a_pack_stands_beside_its_pieces():
    line = read_line("6 friction plates, as a pack 16.78 cal")
    assert line.pack == "16.78 mm cal"
    assert line.parts == (part("friction plates", kind="friction plate", count=6),)


@pytest.mark.parametrize("typed", ["f s f s f f s f s f s", "F,S,F,S,F,F,S,F,S,F,S", "fsfsffsfsfs"])
def test_plates_called_by_their_letters_keep_their_sequence(typed):
    line = read_line(typed, reference=library.reference("clutch-pack"))
    assert "".join(one.kind[0] for one in line.parts) == "fsfsffsfsfs"
    assert {one.kind for one in line.parts} == {"friction plate", "steel plate"}


@pytest.mark.parametrize(
    "typed", ["7 friction 6 steel", "7 friction plates, 6 steel plates", "7 f and 6 s", "7 friction and 6 steel plates"]
)
def test_plates_may_be_counted_only(typed):
    assert [(one.count, one.kind) for one in read_line(typed).parts] == [(7, "friction plate"), (6, "steel plate")]


def test_a_letter_that_two_kinds_begin_with_names_none():
    """In the front hub, "s" may be a seal or a spacer tube."""
    assert len(read_line("s b s", reference=library.reference("front-hub")).parts) == 1


@pytest.mark.parametrize(
    "typed",
    [
        "3.0 goes in, 3.5 does not",
        "3.0 goes 3.5 doesn't",
        "3.5 does not, 3.0 goes",
        "3.0..3.5",
        "3.0 to 3.5 feeler",
        "gap 3.0-3.5",
    ],
)
def test_a_gap_lies_between_what_goes_in_and_what_does_not(typed):
    line = read_line(typed)
    assert (line.gap, line.parts) == ("3.0..3.5 mm feeler", ())


def test_end_float_is_a_gap():
    line = read_line("end float .05 dial")
    assert (line.gap_name, line.gap) == ("end float", "0.05 mm dial")
    assert read_line("between the legs 129.2 inside cal").gap_name == "between the legs"


def test_a_pack_that_was_measured_whole_is_no_size_of_a_piece():
    line = read_line("pack of 3 shims .78 mic")
    assert (line.pack, line.parts) == ("0.78 mm mic", (part("shims", kind="shim ring", count=3),))


def test_several_pieces_that_nobody_counted_are_asked_about():
    """Balls and shims count: one too few is a finding."""
    assert [question.text for question in read_line("balls 1/4").questions] == ["How many balls?"]


@pytest.mark.parametrize("typed", ["no washer", "split pin missing", "nothing under the nut"])
def test_what_is_said_to_be_missing_is_no_part_that_came_off(typed):
    (question,) = read_line(typed).questions
    assert question.about == "missing"
    assert read_line(question.choices[0][1]).parts == (part(note=typed),)


def test_a_lump_keeps_its_parts_together():
    line = read_line("stuck: bearing + seal")
    assert [(one.kind, one.stuck_to_next) for one in line.parts] == [("ball bearing", True), ("seal", False)]
    assert line == read_line("stuck: bearing + seal")
    assert [one.stuck_to_next for one in read_line("nut and washer, by hand").parts] == [False, False]


# --- what a bare figure is ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("seal 30 47 7", {"bore": "30 mm", "outside": "47 mm", "length": "7 mm"}),
        ("seal 30-47-7", {"bore": "30 mm", "outside": "47 mm", "length": "7 mm"}),
        ("ring 45 35 .48", {"outside": "45 mm", "bore": "35 mm", "length": "0.48 mm"}),
        ("shim 35 x 45 x 0,3", {"outside": "45 mm", "bore": "35 mm", "length": "0.3 mm"}),
        ("collar 18.02", {"length": "18.02 mm"}),
        ("M16 nut", {"thread_diameter": "16 mm"}),
        ("bolt M10x1.25x40", {"thread_diameter": "10 mm", "thread_pitch": "1.25 mm", "length": "40 mm"}),
        ("nut 3/4-16 UNF", {"thread_diameter": "3/4 in", "thread_pitch": "1/16 in"}),
        ("hex nut 24 af", {"across_flats": "24 mm"}),
        ("washer 0.5x45x35", {"outside": "45 mm", "bore": "35 mm", "length": "0.5 mm"}),
        ('washer 5/8" x 1 1/4" x 3/32"', {"bore": "5/8 in", "outside": "1 1/4 in", "length": "3/32 in"}),
        ("item 4 washer 3 mm", {"length": "3 mm"}),
        ("spacer 58.00 mic 57.98 57.99", {"length": "58.00 57.98 57.99 mm mic"}),
        ("o-ring 20 x 2.5", {"bore": "20 mm", "length": "2.5 mm"}),
        ("split pin 4x40", {"shaft": "4 mm", "length": "40 mm"}),
        ("disc spring 45x22.4x2, 3.1 high",
         {"outside": "45 mm", "bore": "22.4 mm", "disc_thickness": "2 mm", "disc_height": "3.1 mm"}),
        ("ring od 45 bore 35 thick .5 mic", {"outside": "45 mm mic", "bore": "35 mm mic", "length": "0.5 mm mic"}),
        ("washer od 28 rule, id 17, 3 thick cal", {"outside": "28 mm rule", "bore": "17 mm cal", "length": "3 mm cal"}),
        ("collar 22.02 22.03 22.02 mic", {"length": "22.02 22.03 22.02 mm mic"}),
        ("collar 22.0 ±0.05 mic", {"length": "22.0 mm ±0.05 mic"}),
        ("eighteen point oh two collar, calliper", {"length": "18.02 mm calliper"}),
    ],
)  # fmt: skip
def test_the_kind_says_what_bare_figures_are(typed, read):
    assert sizes(typed) == {name: read[name] for name in read}


def test_a_line_without_a_name_is_read_as_the_part_that_was_asked_about():
    assert sizes("20 47 14, smooth", kind="ball bearing") == BEARING


def test_how_it_was_measured_last_counts_where_nothing_is_said():
    assert sizes("collar 22.02", how="cal") == {"length": "22.02 mm cal"}
    assert sizes("collar 22.02 mic", how="cal") == {"length": "22.02 mm mic"}
    assert sizes("collar 15/16", how="cal") == {"length": "15/16 in"}


def test_a_lone_figure_that_cannot_be_the_thickness_is_asked_about():
    (question,) = read_line("shim 45").questions
    assert question.text == "45 mm: outside, bore or thickness?"
    assert [sizes(again) for _, again in question.choices[:2]] == [{"outside": "45 mm"}, {"bore": "45 mm"}]


def test_a_bare_figure_on_a_nut_is_asked_about():
    (question,) = read_line("nut 24").questions
    assert [sizes(again) for _, again in question.choices] == [{"across_flats": "24 mm"}, {"length": "24 mm"}]


def test_a_bore_larger_than_the_outside_is_asked_about():
    (question,) = read_line("washer bore 45 od 35").questions
    assert question.text == "bore 45 mm is not smaller than the outside 35 mm: exchanged?"
    assert sizes(question.choices[0][1]) == {"bore": "35 mm", "outside": "45 mm"}


# --- units ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("collar 0,5 in", 12.7), ('collar 1 1/2"', 38.1), ("collar 1-1/2", 38.1), ("collar 15/16", 23.8125),
        ("shim 60 thou", 1.524),
        ("shim 300 um", 0.3), ("shim half a millimetre", 0.5), ("collar an inch and a half", 38.1),
        ("collar ½ in", 12.7), ("shim 0,5", 0.5),
    ],
)  # fmt: skip
def test_every_figure_may_carry_its_own_unit(typed, mm):
    assert read_reading(sizes(typed)["length"]).value_mm == pytest.approx(mm)


def test_a_figure_written_as_inches_are_is_asked_about_in_a_mm_job():
    (question,) = read_line("shim .060").questions
    assert question.text == "0.060 mm or 0.060 in (1.52 mm)?"
    assert [sizes(again) for _, again in question.choices] == [{"length": "0.060 mm"}, {"length": "0.060 in"}]
    (question,) = read_line(".060 goes in, .062 does not").questions
    assert [read_line(again).gap for _, again in question.choices] == [
        "0.060..0.062 mm feeler",
        "0.060..0.062 in feeler",
    ]


def test_it_is_not_asked_about_where_only_inches_can_be():
    assert sizes("washer .750 x .500 x .060") == {"outside": "0.750 in", "bore": "0.500 in", "length": "0.060 in"}
    assert sizes("seal 1.688 x 2.437 x .375") == {"bore": "1.688 in", "outside": "2.437 in", "length": "0.375 in"}
    assert sizes("ring od 1 3/4 id 1-3/8 thick .020")["length"] == "0.020 in"
    assert sizes("castle nut .625 high", default_unit="in") == {"length": "0.625 in"}


def test_three_decimals_behind_a_nought_or_few_decimals_are_mm_in_a_mm_job():
    assert sizes("shim 0.060") == {"length": "0.060 mm"}
    assert sizes("shim .06") == {"length": "0.06 mm"}


@pytest.mark.parametrize("typed", ["tube 1,500", "collar 1.2.3", "collar 1/0", "ring 3..2 thick", "shim 45,35,0.5"])
def test_a_figure_that_may_be_read_two_ways_is_refused(typed):
    with pytest.raises(SizeError):
        read_line(typed)


# --- what is not understood -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "note"),
    [
        ("bearing, not gritty", "not gritty"),
        ("washer, no rust", "no rust"),
        ("spacer 0.5 too long", "0.5 too long"),
        ("collar long by 2 thou", "long by 2 thou"),
        ("washer, something odd about it", "something odd about it"),
        ("plate 118 84 1.6 2.0 7", "118 84 1.6 2.0 7"),
        ("washer 0", "0"),
        ("nut, 60 Nm", "60 Nm"),
        ("gear 20 teeth", "20 teeth"),
        ("left 4: washer", "left 4"),
    ],
)
def test_what_is_not_understood_stays_as_typed(typed, note):
    assert only(typed).note == note


def test_one_of_several_is_no_count_and_no_size():
    assert only("two washers, one bent") == part("washers", kind="washer", count=2, look=("bent",), note="one")


# --- what a reference adds ------------------------------------------------------------------------------------------


def test_a_reference_brings_names_numbers_and_features():
    hub, arbor = library.reference("front-hub"), library.reference("arbor")
    read = only("FT-1107 22.02 cal, flange to the leg", reference=hub)
    assert (read.marked, read.kind, read.feature, read.toward) == ("FT-1107", "collar", "flange", "leg")
    assert only("felt ring 32 od 20 id 5", reference=arbor).kind == "seal"
    assert only("pulley, set screw toward the right", reference=arbor).feature == "set screw"
    assert (
        only("wide face to gear", reference=library.reference("pinion-shaft")).feature == "wide face of the outer ring"
    )


def test_a_name_of_the_reference_inside_another_name_is_not_the_thing():
    hub = library.reference("front-hub")
    assert only("hub nut", reference=hub).kind == "nut"
    assert only("right leg clamp bolt, very hard", reference=hub).kind == "bolt"


def test_a_reference_names_its_ends():
    hub = library.reference("boat-trailer/hub")
    assert only("seal, outboard", reference=hub).end == 1
    assert only("seal, spring side inboard", reference=hub).toward == "inboard"
    assert only("left collar", reference=library.reference("front-hub")).end is None


def test_bearing_alone_is_the_kind_of_bearing_that_the_reference_has():
    pinion = library.reference("pinion-shaft")
    assert only("tail bearing, smooth", reference=pinion).kind == "angular bearing"
    assert only("tail bearing, taper, small end of rollers to gear, smooth", reference=pinion) == part(
        "tail bearing", kind="taper bearing", feature="small end of the rollers", toward="gear", feel=("smooth",)
    )


def test_reading_a_line_loads_neither_pydantic_nor_the_matcher_of_names():
    """`off` is typed for each part: it has to start at once."""
    program = (
        "import sys, stackcheck.formats.bench_line as b; b.read_line('ring 45 35 .5'); "
        "print(sorted({'pydantic', 'rapidfuzz', 'pint', 'networkx'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True).stdout == "[]\n"
