"""Standard parts by the words people type, and what they are told when nothing fits."""

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from stackcheck.tables import UnknownStandard, resolve


def clearance(designation):
    size = resolve(designation).size("radial_clearance")
    return (round(1000 * size.least_mm), round(1000 * size.most_mm)) if size else None


@pytest.mark.parametrize(
    ("typed", "designation"),
    [
        ("6204 c3", "6204 C3"),
        ("6204/C3", "6204 C3"),
        ("  6204-2rs   c3 ", "6204-2RS C3"),
        ("6204 2RSC3", "6204-2RS C3"),
        ("6204ZZ", "6204-ZZ"),
        ("6204-ZZNR C3", "6204-ZZ-NR C3"),
        ("62/28 CN", "62/28 CN"),
        ("608-2Z", "608-2Z"),
        ("7205b", "7205 B"),
        ("7205-AC", "7205 AC"),
        ("32004X", "32004 X"),
        ("32004", "32004 X"),
        ("320/28x", "320/28 X"),
        ("iso 7089 m12", "ISO 7089 M12"),
        ("ISO 7089-12", "ISO 7089 M12"),
        ("ISO 7089 - M12 - 200HV", "ISO 7089 M12 200 HV"),
        ("DIN EN ISO 7093-1 M5", "ISO 7093-1 M5"),
        ("ISO 4032-M12-8", "ISO 4032 M12-8"),
        ("ISO 4032 M12x1.75", "ISO 4032 M12"),
        ("din 471 - 20x1,2", "DIN 471 20"),
        ("DIN471-20", "DIN 471 20"),
        ("DIN 472 47 \u00d7 1.75", "DIN 472 47"),
        ("asme b18.21.1 a no. 10", "ASME B18.21.1 type A No. 10"),
        ("ASME B18.21.1 type A #10", "ASME B18.21.1 type A No. 10"),
        ('ANSI/ASME B18.21.1-2009 type A 3/8" wide', "ASME B18.21.1 type A 3/8 W"),
        ("asme b18.21.1 b 3/4 regular", "ASME B18.21.1 type B 3/4 R"),
        ("ASME B18.21.1 type B 1 in N", "ASME B18.21.1 type B 1 N"),
        ("ASME B18.21.1 type A 9/16 wide", "ASME B18.21.1 type A 9/16 W"),
        ("ISO 4161 - M10 - 8", "ISO 4161 M10-8"),
        ("iso 1234 - 0,8", "ISO 1234 0.8"),
        ("DIN EN 16983 - B 50", "EN 16983 B 50"),
        ("605-ZZ", "605-ZZ"),
        ("635 2RS", "635-2RS"),
        ("iso 7089 - M22", "ISO 7089 M22"),
        ("iso 1234 - 3,2x20", "ISO 1234 3.2x20"),
        ('ISO 3290 1/4"', "ISO 3290-1 1/4 in"),
        ("ISO 3290-1 6", "ISO 3290-1 6 mm"),
        ("iso 261 M10x1,5", "ISO 261 M10"),
        ("ISO 261 M10 x 1.25", "ISO 261 M10x1.25"),
    ],
)
def test_ways_of_writing_lead_to_one_designation(typed, designation):
    """Case, blanks, dashes and the decimal comma carry no meaning on a bag or a bearing."""
    row = resolve(typed)
    assert row.designation == designation
    assert resolve(row.designation) == row


def test_a_ball_bearing_has_its_sizes_with_limits():
    """By hand from ISO 492 Normal: bore 20 0/-10, outside 47 0/-11, width 0/-120 micrometres."""
    sizes = {size.name: (size.least_mm, size.most_mm) for size in resolve("6204").sizes}
    assert sizes["bore"] == (19.99, 20)
    assert sizes["outside"] == (46.989, 47)
    assert sizes["length"] == sizes["inner_width"] == sizes["outer_width"] == (13.88, 14)


def test_a_taper_bearing_may_be_wider_than_nominal_and_never_narrower():
    length = resolve("30205").size("length")
    assert (length.nominal_mm, length.least_mm, length.most_mm) == (16.25, 16.25, 16.45)


CLEARANCE = {  # NSK Rolling Bearings catalogue, Table 9.9, read; the same in TPI catalogue 2202/TE, Table 6.1, read
    "6200": [(0, 7), (2, 13), (8, 23), (14, 29), (20, 37)], "6202": [(0, 9), (3, 18), (11, 25), (18, 33), (25, 45)],
    "6204": [(0, 10), (5, 20), (13, 28), (20, 36), (28, 48)], "6206": [(1, 11), (5, 20), (13, 28), (23, 41), (30, 53)],
    "6208": [(1, 11), (6, 20), (15, 33), (28, 46), (40, 64)], "6210": [(1, 11), (6, 23), (18, 36), (30, 51), (45, 73)],
    "6212": [(1, 15), (8, 28), (23, 43), (38, 61), (55, 90)], "6216": [(1, 15), (10, 30), (25, 51), (46, 71), (65, 105)],
    "6220": [(1, 18), (12, 36), (30, 58), (53, 84), (75, 120)],
}  # fmt: skip


def test_clearance_groups_are_those_of_iso_5753_1():
    compared = 0
    for number, groups in CLEARANCE.items():
        for group, expected in zip(("C2", "CN", "C3", "C4", "C5"), groups, strict=True):
            assert clearance(f"{number} {group}") == expected
            compared += 1
    assert compared == 45


def test_a_bearing_without_a_mark_has_normal_clearance_and_says_so():
    assert clearance("6204") == clearance("6204 CN")
    assert "clearance group CN (not marked)" in resolve("6204").features


def test_seals_are_kept_as_facts_in_words():
    assert resolve("6204-2RS").features[0] == "two seals"
    assert resolve("6204-Z").features[0] == "one shield"
    assert resolve("6204 LLU C3").features == ("two seals", "clearance group C3")


@pytest.mark.parametrize(("letters", "angle"), [("A", 30), ("A5", 25), ("AC", 25), ("B", 40), ("C", 15)])
def test_the_contact_angle_is_a_feature_where_it_is_marked(letters, angle):
    assert resolve(f"7204 {letters}").features == (f"contact angle {angle}",)
    assert resolve("7204").features == ()


@pytest.mark.parametrize(
    ("typo", "meant"),
    [
        ("6024", "6204"),
        ("6240", "6204"),
        ("30240", "30204"),
        ("ISO 7098 M12", "ISO 7089 M12"),
        ("ISO 7089 M13", "ISO 7089 M12"),
        ("DIN 417 20", "DIN 471 20"),
        ("DIN 471 23", "DIN 471 22"),
        ("DIN 125 M12", "ISO 7089 M12"),
        ("DIN 934 M12", "ISO 4032 M12"),
        ("ISO 7093 M12", "ISO 7093-1 M12"),
        ("ASME B18.21.1 type A 1/4", "ASME B18.21.1 type A 1/4 N"),
        ("ASME B18.21.1 1/4 N", "ASME B18.21.1 type A 1/4 N"),
        ("ASME B18.21.1 type B 1/2 N", "ASME B18.21.1 type B 1/4 N"),
        ("DIN 6923 M10", "ISO 4161 M10"),
        ("DIN 94 3.2", "ISO 1234 3.2"),
        ("ISO 3290 7 mm", "ISO 3290-1 6 mm"),
    ],
)
def test_near_designations_are_suggested(typo, meant):
    """Exchanged digits are the usual slip; an older standard is suggested, never silently read as the newer one."""
    with pytest.raises(UnknownStandard) as caught:
        resolve(typo)
    assert meant in caught.value.suggestions
    assert caught.value.designation == typo
    for suggestion in caught.value.suggestions:
        assert resolve(suggestion).designation == suggestion


def test_the_likeliest_slip_comes_first():
    with pytest.raises(UnknownStandard) as caught:
        resolve("6024")
    assert caught.value.suggestions[0] == "6204"


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("6204 P6", "class of accuracy"),
        ("6204 XYZ", 'the suffix "XYZ" is not known here'),
        ("6204 K", "suffix"),
        ("7204 C3", "suffix"),
        ("ISO 4032 M12x1.25", "has 1.75, not 1.25"),
        ("DIN 471 20x1.5", "has 1.2, not 1.5"),
        ("DIN 471", "such as DIN 471 20"),
        ("ISO 7089", "such as ISO 7089 M12"),
        ("ASME B18.21.1", "read with type and size"),
        ("608 C2", ""),
        ("624 C2", "no second source"),
        ("washer", "names no standard"),
        ("ISO 15", "names no standard"),
    ],
)
def test_what_cannot_be_looked_up_is_refused_with_the_reason(typed, words):
    """A suffix that may change a size is never skipped."""
    if typed == "608 C2":
        assert clearance(typed) == (0, 7)
        return
    with pytest.raises(UnknownStandard) as caught:
        resolve(typed)
    assert words in str(caught.value)
    assert "Covered: bearing series 60, 62" in str(caught.value)


def test_only_the_number_is_suggested_when_the_suffix_was_not_understood():
    with pytest.raises(UnknownStandard) as caught:
        resolve("6204 TN9")
    assert caught.value.suggestions == ("6204",)


pieces = st.sampled_from(
    ["6204", "62", "/28", "320", "32004", "7204", "C3", "2RS", "ZZ", "NR", " ", "-", "/", "X", "ISO ", "7089", "7093-1", "DIN ",
     "471", "M12", "M", "20", "x1.2", ",", ".", "200HV", "-8", "\u00d7", "\u2013", "\u0664", "P6", "EN ", "ASME B18.21.1 ", "type A ", "1/4", " N", "No. 10"]
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=30), st.lists(pieces, max_size=6).map("".join)))
@example("\u0130SO 7089 M12")
@example("6204\n")
@example("9" * 5000)
@example("ISO 7089 M1.6.2")
def test_any_text_is_a_row_or_an_unknown_standard_and_nothing_else(text):
    try:
        row = resolve(text)
    except UnknownStandard as error:
        assert len(str(error)) < 700
    else:
        assert resolve(row.designation) == row
