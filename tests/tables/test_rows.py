"""What every row of the hardware tables promises, and that the stored limits are those of the named rules."""

from fractions import Fraction
from itertools import pairwise

import pytest

from stackcheck.mechanics.axial.springs import DiscSpring
from stackcheck.model.part import KINDS, SIZE_NAMES
from stackcheck.tables import fit_limits, resolve, rows, tables
from tests.discs import disc_force
from tests.tables import limit_rules as rule

ALL_ROWS = [row for table in tables() for row in rows(table.id)]
BY_NAME = {row.designation: row for row in ALL_ROWS}
LEAST_ROWS = {
    "ball bearing": 148,
    "angular bearing": 36,
    "taper bearing": 90,
    "disc spring": 18,
    "washer": 142,
    "nut": 63,
    "circlip": 111,
    "loose balls": 42,
    "split pin": 16,
    "bolt": 38,
}
each_row = pytest.mark.parametrize("row", ALL_ROWS, ids=lambda row: row.designation)

HARDWARE_KINDS = (
    "ball bearing", "angular bearing", "taper bearing", "washer", "circlip", "nut", "disc spring", "shim ring",
    "split pin", "loose balls", "bolt",
)  # fmt: skip
"""Kinds a row may have; words of `KINDS`."""

REFERENCE_SIZES = frozenset({"shaft", "seat", "thread_diameter", "thread_pitch"})
"""Sizes that name what the part is made for. Their limits equal the nominal: the standard sets none."""
PROFILE_SIZES = frozenset({"pitch_diameter", "core_diameter"})
"""Sizes of a bolt that are those of the basic profile and have no limits either.
The hole of a nut, `core_diameter`, has.
"""


def of_kind(kind):
    chosen = [row for row in ALL_ROWS if row.kind == kind]
    assert len(chosen) >= LEAST_ROWS[kind]
    return chosen


def close(left, right):
    return abs(left - right) < 1e-6


def test_the_shelf_is_not_nearly_empty():
    """A loader that drops rows would otherwise pass every other test of this file."""
    assert len(ALL_ROWS) >= 731
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
        nominal_only = size.name in REFERENCE_SIZES or (row.kind == "bolt" and size.name in PROFILE_SIZES)
        assert (size.least_mm < size.most_mm) is not nominal_only


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
        assert (t.least_mm, t.most_mm) == pytest.approx(
            [t.nominal_mm + end for end in rule.band(rule.T_492_TAPER, d.nominal_mm)]
        )
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


INCH_THICKNESS = {  # basic: (least, most) thousandths of an inch
    "asme-b18-21-1-a": {  # Machinery's Handbook, 31st edition, page 1694, read
        20: (16, 25), 32: (25, 40), 49: (36, 65), 65: (51, 80), 83: (64, 104), 95: (74, 121), 109: (86, 132), 134: (108, 160), 148: (122, 177)
    },
    "asme-b18-21-1-b": {  # the same, page 1697, and Adfast's sheet, read
        25: (22, 28), 32: (28, 36), 40: (36, 45), 63: (56, 71), 100: (90, 112), 160: (146, 174)
    },
}  # fmt: skip
INCH_ALLOWANCES = {
    "asme-b18-21-1-a": {(-5, 0), (-5, 8), (-5, 15), (-7, 15), (-7, 30)},
    "asme-b18-21-1-b": {(-5, 0), (-5, 8), (-5, 15), (-7, 15), (-7, 30)},
}


@pytest.mark.parametrize(("table", "least_rows"), [("asme-b18-21-1-a", 25), ("asme-b18-21-1-b", 43)])
def test_inch_washers_have_the_printed_limits_to_the_thousandth(table, least_rows):
    """Every figure was printed in thousandths of an inch, so a wrong conversion or digit leaves a broken thousandth."""
    inch_washers = rows(table)
    assert len(inch_washers) >= least_rows
    for row in inch_washers:
        for size in row.sizes:
            printed = [figure / 0.0254 for figure in (size.least_mm, size.nominal_mm, size.most_mm)]
            least, nominal, most = (round(figure) for figure in printed)
            assert printed == pytest.approx([least, nominal, most], abs=1e-6)
            if size.name == "length":
                assert (least, most) == INCH_THICKNESS[table][nominal]
            else:
                assert (least - nominal, most - nominal) in INCH_ALLOWANCES[table]


TYPE_B_BASIC = {  # Fasteners workbench, open tables of type B (read): hole, and outside of N, R, W [mm]; thickness [mm]
    "No. 0": (1.7272, (3.175, 4.7752, 6.35), (0.635, 0.635, 0.635)), "No. 2": (2.3876, (4.7752, 6.35, 8.7376), (0.635, 0.8128, 0.8128)),
    "No. 6": (3.9624, (7.9248, 11.1252, 14.2748), (0.8128, 1.016, 1.016)), "No. 10": (5.1562, (10.3124, 14.2748, 18.6436), (1.016, 1.016, 1.6002)),
    "1/4": (7.1374, (12.7, 18.6436, 25.4), (1.6002, 1.6002, 1.6002)), "3/4": (20.6248, (34.925, 50.8, 63.5), (2.54, 2.54, 4.064)),
    "7/8": (23.8252, (37.3126, 57.15, 69.85), (2.54, 4.064, 4.064)), "1": (26.9748, (44.45, 63.5, 76.2), (2.54, 4.064, 4.064)),
}  # fmt: skip


def test_type_b_washers_have_the_basic_sizes_of_a_second_source():
    for size, (hole, outsides, thicknesses) in TYPE_B_BASIC.items():
        for series, outside, thickness in zip("NRW", outsides, thicknesses, strict=True):
            row = BY_NAME[f"ASME B18.21.1 type B {size} {series}"]
            assert [row.size(name).nominal_mm for name in ("bore", "outside", "length")] == [hole, outside, thickness]


def test_type_b_washers_of_one_screw_share_their_hole_and_grow_from_narrow_to_wide():
    for size in ("No. 0", "No. 4", "No. 8", "No. 12", "1/4", "3/4", "7/8", "1"):
        narrow, regular, wide = (BY_NAME[f"ASME B18.21.1 type B {size} {series}"] for series in "NRW")
        assert narrow.size("bore").nominal_mm == regular.size("bore").nominal_mm == wide.size("bore").nominal_mm
        assert narrow.size("outside").most_mm < regular.size("outside").least_mm < wide.size("outside").least_mm


def test_inch_balls_are_their_fraction_to_the_last_digit():
    """11.1125 is no 11 mm ball; a list rounded to a tenth would make it one."""
    for row in rows("iso-3290-1"):
        size, unit = row.designation.removeprefix("ISO 3290-1 ").split()
        ball = row.size("ball")
        assert ball.nominal_mm == pytest.approx(float(Fraction(size)) * (25.4 if unit == "in" else 1), abs=1e-9)
        assert (ball.least_mm, ball.most_mm) == (
            pytest.approx(ball.nominal_mm - 0.04),
            pytest.approx(ball.nominal_mm + 0.04),
        )


PRINTED_BALLS = {  # Technoball, sheet of sizes, read, rounded there to 0.0001
    "1/16": 1.5875, "3/32": 2.3812, "1/8": 3.175, "5/32": 3.9688, "3/16": 4.7625, "7/32": 5.5562, "1/4": 6.350, "9/32": 7.1438, "5/16": 7.9375,
    "11/32": 8.7312, "3/8": 9.525, "7/16": 11.1125, "15/32": 11.9062, "1/2": 12.7, "9/16": 14.2875, "5/8": 15.875, "3/4": 19.05, "1": 25.4,
}  # fmt: skip


def test_inch_balls_are_those_of_a_printed_list():
    for size, printed in PRINTED_BALLS.items():
        assert BY_NAME[f"ISO 3290-1 {size} in"].size("ball").nominal_mm == pytest.approx(printed, abs=0.6e-4)


def test_the_middle_of_a_split_pin_is_what_the_second_source_prints():
    """Fasteners workbench, open table of ISO 1234 (read), gives the middle of the limits that GOST 397-79 prints."""
    middle = {
        0.6: 0.45,
        0.8: 0.65,
        1: 0.85,
        1.2: 0.95,
        1.6: 1.35,
        2: 1.75,
        2.5: 2.2,
        3.2: 2.8,
        4: 3.6,
        5: 4.5,
        6.3: 5.8,
        8: 7.4,
        10: 9.4,
        13: 12.25,
        16: 15.25,
        20: 19.15,
    }
    pins = {row.size("seat").nominal_mm: row.size("outside") for row in rows("iso-1234")}
    assert {size: round((pin.least_mm + pin.most_mm) / 2, 3) for size, pin in pins.items()} == middle
    assert all(pin.most_mm < size for size, pin in pins.items()), "a pin enters the hole it is made for"


def test_threads_have_the_sizes_of_iso_724():
    """Basic profile: H = P √3/2, pitch diameter d - 2 · 3/8 H, minor diameter d - 2 · 5/8 H."""
    for row in rows("iso-261"):
        d, pitch, middle, core = (
            row.size(name).nominal_mm for name in ("thread_diameter", "thread_pitch", "pitch_diameter", "core_diameter")
        )
        height = pitch * 3**0.5 / 2
        assert middle == pytest.approx(d - 2 * 3 / 8 * height, abs=0.51e-3)
        assert core == pytest.approx(d - 2 * 5 / 8 * height, abs=0.51e-3)


LISTED_DISCS = {  # outside, bore, thickness, cone -> force at 0.75 of the cone [N]: Shuangyuan, list of series A to 31.5 mm, read;
    # above and series B an open program's table of DIN 2093, read, whose forces may be computed: A 50 and B 50 are those of DIN 2093:1992 (memory)
    (8, 4.2, 0.4, 0.2): 210, (10, 5.2, 0.5, 0.25): 329, (12.5, 6.2, 0.7, 0.3): 673, (14, 7.2, 0.8, 0.3): 813, (16, 8.2, 0.9, 0.35): 1000,
    (18, 9.2, 1, 0.4): 1250, (20, 10.2, 1.1, 0.45): 1530, (22.5, 11.2, 1.25, 0.5): 1950, (25, 12.2, 1.5, 0.55): 2910, (28, 14.2, 1.5, 0.65): 2850,
    (31.5, 16.3, 1.75, 0.7): 3900, (40, 20.4, 2.25, 0.9): 6500, (45, 22.4, 2.5, 1): 7720, (50, 25.4, 3, 1.1): 12000,
    (31.5, 16.3, 1.25, 0.9): 1910, (40, 20.4, 1.5, 1.15): 2620, (45, 22.4, 1.75, 1.3): 3650, (50, 25.4, 2, 1.4): 4760,
}  # fmt: skip


def test_disc_springs_have_the_listed_sizes_and_by_the_formula_the_listed_forces():
    """A wrong digit in a size moves the force by far more than 2 %: EN 16984, E 206 GPa, Poisson's ratio 0.3."""
    found = {}
    for row in of_kind("disc spring"):
        outside, bore, thick, high = (
            row.size(name).nominal_mm for name in ("outside", "bore", "disc_thickness", "disc_height")
        )
        spring = DiscSpring(outside_mm=outside, inside_mm=bore, thickness_mm=thick, cone_mm=high - thick)
        found[outside, bore, thick, round(high - thick, 4)] = disc_force(spring, 0.75 * (high - thick))
    assert found == pytest.approx(LISTED_DISCS, rel=0.02)


def test_disc_springs_have_the_limits_of_en_16983():
    for row in of_kind("disc spring"):
        outside, bore, thick, high = (row.size(name) for name in ("outside", "bore", "disc_thickness", "disc_height"))
        assert (bore.least_mm, outside.most_mm) == (bore.nominal_mm, outside.nominal_mm)
        assert close(bore.most_mm, bore.nominal_mm + rule.grade(bore.nominal_mm, 12))
        assert close(outside.least_mm, outside.nominal_mm - rule.grade(outside.nominal_mm, 12))
        for size, limits in ((thick, rule.DISC_THICKNESS), (high, rule.DISC_HEIGHT)):
            ends = [size.nominal_mm + end for end in rule.band(limits, thick.nominal_mm)]
            assert (size.least_mm, size.most_mm) == pytest.approx(ends)


PRINTED_BOLTS = {  # Apporo, chart of external threads 6g (read) to M10; threadlib (read, two decimals) above: most, least
    "M1.6": (1.581, 1.496), "M3": (2.980, 2.874), "M5": (4.976, 4.826), "M6": (5.974, 5.794), "M8": (7.972, 7.760), "M8x1": (7.974, 7.794),
    "M10": (9.968, 9.732), "M10x1.25": (9.972, 9.760), "M12": (11.97, 11.70), "M16": (15.96, 15.68), "M20": (19.96, 19.62), "M24": (23.95, 23.58),
    "M30": (29.95, 29.52), "M36": (35.94, 35.47), "M42": (41.94, 41.44), "M45": (44.94, 44.44), "M48": (47.93, 47.40), "M52": (51.93, 51.40),
    "M56": (55.93, 55.37), "M60": (59.93, 59.37), "M64": (63.92, 63.32),
}  # fmt: skip


def test_bolts_have_the_outside_of_iso_965_1_class_6g():
    """By the formulas everywhere, which the standard rounds (up to 5.2 % at 4 mm pitch), and as printed where it was read."""
    measured = {row.designation: row.size("outside") for row in rows("iso-261") if row.size("outside")}
    assert len(measured) == 38
    for name, outside in measured.items():
        diameter, pitch = (BY_NAME[name].size(size).nominal_mm for size in ("thread_diameter", "thread_pitch"))
        gap, tolerance = rule.bolt_outside(pitch)
        assert diameter - outside.most_mm == pytest.approx(gap, abs=0.0016)
        assert outside.most_mm - outside.least_mm == pytest.approx(tolerance, rel=0.052)
    for name, printed in PRINTED_BOLTS.items():
        outside = measured[f"ISO 261 {name}"]
        assert (outside.most_mm, outside.least_mm) == pytest.approx(printed, abs=0.0051)


PRINTED_THREADS = {  # Yamawa, catalogue 2016-2017, page 795 (read): pitch and minor diameter
    "M5": (4.480, 4.134), "M6": (5.350, 4.917), "M8": (7.188, 6.647), "M8x1": (7.350, 6.917), "M10": (9.026, 8.376), "M10x1.25": (9.188, 8.647), "M10x1": (9.350, 8.917),
}  # fmt: skip


def test_threads_have_the_printed_sizes():
    for size, printed in PRINTED_THREADS.items():
        row = BY_NAME[f"ISO 261 {size}"]
        assert (row.size("pitch_diameter").nominal_mm, row.size("core_diameter").nominal_mm) == printed


def test_the_hole_of_a_nut_is_that_of_iso_965_1_class_6h():
    """From the basic profile upward by the formulas, which the standard rounds (up to 3.8 %, at 0.5 mm pitch)."""
    for row in of_kind("nut"):
        hole, pitch = row.size("core_diameter"), row.size("thread_pitch").nominal_mm
        basic = row.size("thread_diameter").nominal_mm - 2 * 5 / 8 * pitch * 3**0.5 / 2
        assert hole.nominal_mm == hole.least_mm == pytest.approx(basic, abs=0.51e-3)
        assert hole.most_mm - hole.least_mm == pytest.approx(rule.nut_hole(pitch), rel=0.038)


SERIES = {
    "A": (18, 0.4),
    "B": (28, 0.75),
}  # SPIROL, disc spring catalogue (read): outside to thickness and cone to thickness, about


def test_disc_springs_have_the_proportions_of_their_series():
    """A thickness of the neighbouring series would show here."""
    for row in of_kind("disc spring"):
        to_thickness, to_cone = SERIES[row.designation.removeprefix("EN 16983 ")[0]]
        outside, thick, high = (row.size(name).nominal_mm for name in ("outside", "disc_thickness", "disc_height"))
        assert outside / thick == pytest.approx(to_thickness, rel=0.12)
        assert (high - thick) / thick == pytest.approx(to_cone, rel=0.26)


def test_outsides_of_type_b_washers_are_whole_64ths_of_an_inch():
    """What decides between 0.405 and 0.406 at No. 3 W."""
    for row in rows("asme-b18-21-1-b"):
        inches = row.size("outside").nominal_mm / 25.4
        assert round(inches, 3) == pytest.approx(round(inches * 64) / 64, abs=0.51e-3), row.designation


def test_a_nut_has_the_pitch_of_the_coarse_thread_it_is_named_for():
    for row in of_kind("nut"):
        thread = BY_NAME.get(f"ISO 261 M{row.size('thread_diameter').nominal_mm:g}")
        if thread is not None:
            assert row.size("thread_pitch") == thread.size("thread_pitch"), row.designation


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
