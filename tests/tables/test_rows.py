"""What every row of the hardware tables promises, and that the stored limits are those of the named rules."""

from itertools import pairwise

import pytest

from stackcheck.model.hardware import HARDWARE_KINDS, REFERENCE_SIZES
from stackcheck.model.part import KINDS, SIZE_NAMES
from stackcheck.tables import fit_limits, resolve, rows, tables
from tests.tables import limit_rules as rule

ALL_ROWS = [row for table in tables() for row in rows(table.id)]
BY_NAME = {row.designation: row for row in ALL_ROWS}
LEAST_ROWS = {"ball bearing": 130, "angular bearing": 36, "taper bearing": 50, "washer": 100, "nut": 50, "circlip": 100}
each_row = pytest.mark.parametrize("row", ALL_ROWS, ids=lambda row: row.designation)


def of_kind(kind):
    chosen = [row for row in ALL_ROWS if row.kind == kind]
    assert len(chosen) >= LEAST_ROWS[kind]
    return chosen


def close(left, right):
    return abs(left - right) < 1e-6


def test_the_shelf_is_not_nearly_empty():
    """A loader that drops rows would otherwise pass every other test of this file."""
    assert len(ALL_ROWS) >= 500
    for kind in LEAST_ROWS:
        assert of_kind(kind)


def test_designations_are_unique():
    assert len(BY_NAME) == len(ALL_ROWS)


@each_row
def test_reading_a_designation_again_gives_the_same_row(row):
    assert resolve(row.designation) == row


@each_row
def test_every_size_has_limits_in_sequence_and_a_name_from_the_vocabulary(row):
    """Whoever compares a measured size needs least and most, never a bare nominal."""
    assert row.sizes and row.kind in HARDWARE_KINDS and row.kind in KINDS
    assert len({size.name for size in row.sizes}) == len(row.sizes)
    for size in row.sizes:
        assert size.name in SIZE_NAMES
        assert 0 <= size.least_mm <= size.nominal_mm <= size.most_mm
        assert (size.least_mm < size.most_mm) is (size.name not in REFERENCE_SIZES)


@each_row
def test_every_row_names_two_sources_or_one_and_a_rule(row):
    assert len(row.sources) >= 2 and all(len(text) > 15 for text in row.sources)


@each_row
def test_no_part_is_larger_inside_than_outside(row):
    bore, outside, shaft, groove = (row.size(name) for name in ("bore", "outside", "shaft", "groove"))
    if bore and outside:
        assert bore.most_mm < outside.least_mm
    if shaft and groove:
        assert groove.most_mm < shaft.nominal_mm
    if row.size("groove_width"):
        assert row.size("groove_width").least_mm > row.size("length").most_mm, "the ring would not enter its groove"


def test_every_table_says_what_it_covers_and_what_not():
    for table in tables():
        assert table.covers and table.not_covered and table.edition and table.title
        assert len(table.sources) >= 2
        assert rows(table.id)


def test_an_unknown_table_is_refused():
    with pytest.raises(KeyError):
        rows("iso-0")


def test_ball_bearings_have_the_limits_of_iso_492_normal():
    for row in of_kind("ball bearing") + of_kind("angular bearing"):
        d, outer, width = (row.size(name) for name in ("bore", "outside", "length"))
        assert close(d.least_mm, d.nominal_mm - rule.band(rule.BORE_492, d.nominal_mm))
        assert close(outer.least_mm, outer.nominal_mm - rule.band(rule.OUTSIDE_492, outer.nominal_mm))
        assert close(width.least_mm, width.nominal_mm - rule.band(rule.WIDTH_492, d.nominal_mm))
        assert all(size.most_mm == size.nominal_mm for size in (d, outer, width))
        for name in ("inner_width", "outer_width"):
            assert (row.size(name).least_mm, row.size(name).most_mm) == (width.least_mm, width.most_mm)


def test_taper_bearings_have_the_limits_of_iso_492_normal():
    for row in of_kind("taper bearing"):
        d, outer, t, b = (row.size(name) for name in ("bore", "outside", "length", "inner_width"))
        assert close(d.least_mm, d.nominal_mm - rule.band(rule.BORE_492_TAPER, d.nominal_mm))
        assert close(outer.least_mm, outer.nominal_mm - rule.band(rule.OUTSIDE_492_TAPER, outer.nominal_mm))
        assert (t.least_mm, t.most_mm) == (t.nominal_mm, pytest.approx(t.nominal_mm + rule.T_492_TAPER))
        assert close(b.least_mm, b.nominal_mm - rule.band(rule.WIDTH_492, d.nominal_mm))
        assert row.size("outer_width") is None, "sources differ on the limits of C"


def test_the_bore_of_a_bearing_follows_its_number():
    """Two exchanged lines of a table show here: 04 and above is five times, 00 to 03 and /28 are by name."""
    by_name = {"00": 10, "01": 12, "02": 15, "03": 17}
    for row in of_kind("ball bearing") + of_kind("angular bearing") + of_kind("taper bearing"):
        number = row.designation.removesuffix(" X")
        if "/" in number:
            bore = int(number.partition("/")[2])
        elif len(number) == 3:
            bore = int(number[-1])
        else:
            bore = by_name.get(number[-2:]) or 5 * int(number[-2:])
        assert row.size("bore").nominal_mm == bore, row.designation


def test_outside_diameters_grow_with_the_bore_within_a_series():
    """A digit exchanged in one row breaks the run of its neighbours."""
    for table in tables():
        if table.standard in ("ISO 15", "ISO 355"):
            run = sorted((row.size("bore").nominal_mm, row.size("outside").nominal_mm) for row in rows(table.id))
            assert all(left[1] < right[1] for left, right in pairwise(run)), table.id


def test_angular_bearings_have_the_boundary_sizes_of_the_ball_bearings():
    """ISO 15: 72 and 62 share a dimension series, so do 73 and 63, 70 and 60."""
    for row in of_kind("angular bearing"):
        twin = BY_NAME["6" + row.designation[1:]]
        for name in ("bore", "outside", "length"):
            assert row.size(name) == twin.size(name)


def test_washers_have_the_limits_of_iso_4759_3():
    product_grade = {"ISO 7091": "C", "ISO 7094": "C"}
    metric = [row for row in of_kind("washer") if row.standard.startswith("ISO ")]
    assert len(metric) >= 84
    for row in metric:
        letter = product_grade.get(row.standard, "A")
        hole, outside, h = (row.size(name) for name in ("bore", "outside", "length"))
        thickness = rule.washer_thickness_limit(h.nominal_mm, letter)
        assert close(h.least_mm, h.nominal_mm - thickness) and close(h.most_mm, h.nominal_mm + thickness)
        assert hole.least_mm == hole.nominal_mm
        assert close(hole.most_mm, hole.nominal_mm + rule.washer_hole(hole.nominal_mm, h.nominal_mm, letter))
        assert outside.most_mm == outside.nominal_mm
        assert close(
            outside.least_mm, outside.nominal_mm - rule.washer_outside(outside.nominal_mm, h.nominal_mm, letter)
        )


INCH_THICKNESS = {  # basic: (least, most) thousandths of an inch; Machinery's Handbook, 31st edition, page 1694, read
    32: (25, 40), 49: (36, 65), 65: (51, 80), 83: (64, 104), 95: (74, 121), 109: (86, 132), 134: (108, 160), 148: (122, 177)
}  # fmt: skip
INCH_ALLOWANCES = {(-5, 8), (-5, 15), (-7, 15), (-7, 30)}


def test_inch_washers_have_the_printed_limits_to_the_thousandth():
    """Every figure was printed in thousandths of an inch, so a wrong conversion or digit leaves a broken thousandth."""
    inch_washers = rows("asme-b18-21-1-a")
    assert len(inch_washers) >= 20
    for row in inch_washers:
        for size in row.sizes:
            printed = [figure / 0.0254 for figure in (size.least_mm, size.nominal_mm, size.most_mm)]
            least, nominal, most = (round(figure) for figure in printed)
            assert printed == pytest.approx([least, nominal, most], abs=1e-6)
            if size.name == "length":
                assert (least, most) == INCH_THICKNESS[nominal]
            else:
                assert (least - nominal, most - nominal) in INCH_ALLOWANCES


def test_a_narrow_half_inch_washer_by_hand():
    """0.531 +0.015 -0.005, 1.062 +0.030 -0.007, 0.074 to 0.121 in, each times 25.4."""
    sizes = {size.name: (size.least_mm, size.most_mm) for size in BY_NAME["ASME B18.21.1 type A 1/2 N"].sizes}
    assert sizes["bore"] == (13.3604, 13.8684)
    assert sizes["outside"] == (26.797, 27.7368)
    assert sizes["length"] == (1.8796, 3.0734)


def test_nuts_have_the_limits_of_iso_4759_1():
    for row in of_kind("nut"):
        thread = row.size("thread_diameter").nominal_mm
        m, s = row.size("length"), row.size("across_flats")
        assert m.most_mm == m.nominal_mm and s.most_mm == s.nominal_mm
        assert close(m.least_mm, m.nominal_mm - rule.nut_height(thread, m.nominal_mm))
        assert close(s.least_mm, s.nominal_mm - rule.nut_across_flats(thread, s.nominal_mm))


PRINTED_4032 = {  # least m, least s as printed in BS EN ISO 4032:2001, Tables 1 and 2 (read in a public reprint)
    "M1.6": (1.05, 3.02), "M2": (1.35, 3.82), "M2.5": (1.75, 4.82), "M3": (2.15, 5.32), "M4": (2.9, 6.78), "M5": (4.4, 7.78),
    "M6": (4.9, 9.78), "M8": (6.44, 12.73), "M10": (8.04, 15.73), "M12": (10.37, 17.73), "M16": (14.1, 23.67),
    "M20": (16.9, 29.16), "M24": (20.2, 35), "M30": (24.3, 45), "M36": (29.4, 53.8), "M42": (32.4, 63.1), "M48": (36.4, 73.1),
    "M56": (43.4, 82.8), "M64": (49.1, 92.8),
}  # fmt: skip


def test_the_least_sizes_of_iso_4032_are_those_printed():
    for size, printed in PRINTED_4032.items():
        row = BY_NAME[f"ISO 4032 {size}"]
        assert (row.size("length").least_mm, row.size("across_flats").least_mm) == printed


def test_circlips_and_their_grooves_have_the_limits_of_their_standards():
    for row in of_kind("circlip"):
        d1 = (row.size("shaft") or row.size("seat")).nominal_mm
        s, groove, width = (row.size(name) for name in ("length", "groove", "groove_width"))
        assert s.most_mm == s.nominal_mm
        assert close(s.least_mm, s.nominal_mm - rule.circlip_thickness(s.nominal_mm))
        assert close(width.most_mm - width.least_mm, rule.grade(width.nominal_mm, 13))
        on_shaft = row.standard == "DIN 471"
        assert (groove.most_mm if on_shaft else groove.least_mm) == groove.nominal_mm
        by_rule = rule.grade(groove.nominal_mm, rule.groove_grade(row.standard, d1))
        printed = groove.most_mm - groove.least_mm
        if row.designation == "DIN 471 10":
            assert close(printed, 0.11)  # printed so by two tables; h11 of 9.6 mm would be 0.09
        else:
            assert abs(printed - by_rule) <= 0.0021  # 0.058 is printed as 0.06


def test_a_fit_of_the_washer_hole_is_the_one_fit_limits_gives():
    """One worked cell by hand: ISO 7089 M12, hole 13 H13 = 13.00 to 13.27."""
    assert fit_limits(13, "H13") == (0.0, 0.27)
    hole = BY_NAME["ISO 7089 M12"].size("bore")
    assert (hole.least_mm, hole.most_mm) == (13.0, 13.27)
