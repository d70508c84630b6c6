"""The rules that fix the limits of standard parts, written once more and apart from the tables, to compute them again.

Each rule names its source. Grades come from `fit_limits`, which has its own tests.
"""

from __future__ import annotations

from stackcheck.tables import fit_limits

BORE_492 = ((18, 0.008), (30, 0.010), (50, 0.012), (80, 0.015), (120, 0.020))
WIDTH_492 = ((2.5, 0.040), (50, 0.120), (80, 0.150), (120, 0.200))
OUTSIDE_492 = (
    (18, 0.008),
    (30, 0.009),
    (50, 0.011),
    (80, 0.013),
    (120, 0.015),
    (150, 0.018),
    (180, 0.025),
    (250, 0.030),
)
BORE_492_TAPER = ((50, 0.012), (80, 0.015), (120, 0.020))
OUTSIDE_492_TAPER = ((30, 0.012), (50, 0.014), (80, 0.016), (120, 0.018), (150, 0.020), (180, 0.025), (250, 0.030))
T_492_TAPER = ((80, (0.0, 0.2)), (120, (-0.2, 0.2)))
"""ISO 492, class Normal, all to bore 120: T below and above nominal by bore; read in the catalogues named in `sources.csv`."""
DISC_THICKNESS = ((0.6, (-0.06, 0.02)), (1.249, (-0.09, 0.03)), (3.8, (-0.12, 0.04)))
DISC_HEIGHT = ((1.249, (-0.05, 0.10)), (2.0, (-0.08, 0.15)), (3.0, (-0.10, 0.20)))
"""EN 16983, by thickness; read on three tolerance pages named in `sources.csv`."""


def band(bands, size):
    """The figure of the first band that reaches the size, "over, up to and including"."""
    return next(value for upper, value in bands if size <= upper)


def grade(size, number):
    """The width of a standard tolerance grade [mm]."""
    return fit_limits(size, f"H{number}")[1]


def washer_thickness_limit(h, product_grade):
    """ISO 4759-3, limit on either side of the thickness [mm], by value."""
    grade_a = ((0.5, 0.05), (1, 0.1), (2.5, 0.2), (4, 0.3), (6, 0.6), (10, 1.0))
    grade_c = ((0.5, 0.1), (1, 0.2), (2.5, 0.3), (4, 0.6), (6, 1.0), (10, 1.2))
    return band(grade_a if product_grade == "A" else grade_c, h)


def washer_hole(d1, h, product_grade):
    """ISO 4759-3: the thicker washer has the coarser hole."""
    return grade(d1, {("A", True): 13, ("A", False): 14, ("C", True): 14, ("C", False): 15}[product_grade, h <= 4])


def washer_outside(d2, h, product_grade):
    """ISO 4759-3: grade C is h16 at any thickness."""
    return grade(d2, {("A", True): 14, ("A", False): 15, ("C", True): 16, ("C", False): 16}[product_grade, h <= 4])


def nut_height(thread, m):
    """ISO 4759-1: h14 to M12, h15 to M18, h16 above."""
    return grade(m, 14 if thread <= 12 else 15 if thread <= 18 else 16)


def nut_across_flats(thread, s):
    """ISO 4759-1: h13 to M16, then h15 to 60 mm, h16 above."""
    return grade(s, 13 if thread <= 16 else 15 if s <= 60 else 16)


def circlip_thickness(s):
    """DIN 471 and DIN 472: below nominal only."""
    return band(((0.8, 0.05), (1.75, 0.06), (2.5, 0.07), (3, 0.08), (4, 0.10)), s)


def groove_grade(standard, d1):
    """DIN 471: h10 below 10 mm, h11 to 22, h12 above. DIN 472: H11 to 22, H12 above."""
    if standard == "DIN 471" and d1 < 10:
        return 10
    return 11 if d1 <= 22 else 12


def bolt_outside(pitch):
    """ISO 965-1 class 6g [mm]: (gap to the profile, tolerance) by the formulas, before the standard rounds them."""
    return (15 + 11 * pitch) / 1000, (180 * pitch ** (2 / 3) - 3.15 / pitch**0.5) / 1000


def nut_hole(pitch):
    """ISO 965-1 class 6H, tolerance of the minor diameter [mm] by the formulas, before the standard rounds them."""
    return (433 * pitch - 190 * pitch**1.22 if pitch <= 0.8 else 230 * pitch**0.7) / 1000
