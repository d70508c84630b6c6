"""Tables that were read in public text and typed here, to be compared cell by cell like those of the packages.

Each reader yields cells as `outside_tables` does. A comment names the source and which figure its column holds; the sources
in full stand in `stackcheck/tables/data/sources.csv`. Figures only, all read; where a reader leaves something out, it says so.
"""

from __future__ import annotations

from collections.abc import Iterator

from tests.tables.outside_tables import Cell

# BOLTS, open tables (DIN 125 with ISO 7089 and 7090, DIN 126 with ISO 7091, DIN 433 with ISO 7092): least hole, greatest outside, thickness.
# Sizes that ISO 7089 does not have (M1, M1.7, M7 and others), and those above M36, where the two standards part, are left out.
BOLTS_7089 = {
    "M1.6": (1.7, 4, 0.3), "M2": (2.2, 5, 0.3), "M2.5": (2.7, 6, 0.5), "M3": (3.2, 7, 0.5), "M3.5": (3.7, 8, 0.5), "M4": (4.3, 9, 0.8), "M5": (5.3, 10, 1),
    "M6": (6.4, 12, 1.6), "M8": (8.4, 16, 1.6), "M10": (10, 20, 2), "M12": (13, 24, 2.5), "M14": (15, 28, 2.5), "M16": (17, 30, 3), "M18": (19, 34, 3),
    "M20": (21, 37, 3), "M22": (23, 39, 3), "M24": (25, 44, 4), "M27": (28, 50, 4), "M30": (31, 56, 4), "M33": (34, 60, 5), "M36": (37, 66, 5),
}  # fmt: skip
BOLTS_7091 = {
    "M5": (5.5, 10, 1), "M6": (6.6, 12, 1.6), "M8": (9, 16, 1.6), "M10": (11, 20, 2), "M12": (13.5, 24, 2.5), "M14": (15.5, 28, 2.5), "M16": (17.5, 30, 3),
    "M20": (22, 37, 3), "M24": (26, 44, 4), "M30": (33, 56, 4), "M36": (39, 66, 5),
}  # fmt: skip
BOLTS_7092 = {
    "M1.6": (1.7, 3.5, 0.3), "M2": (2.2, 4.5, 0.3), "M2.5": (2.7, 5, 0.5), "M3": (3.2, 6, 0.5), "M3.5": (3.7, 7, 0.5), "M4": (4.3, 8, 0.5), "M5": (5.3, 9, 1),
    "M6": (6.4, 11, 1.6), "M8": (8.4, 15, 1.6), "M10": (10.5, 18, 1.6), "M12": (13, 20, 2), "M14": (15, 24, 2.5), "M16": (17, 28, 2.5), "M18": (19, 30, 2.5),
    "M20": (21, 34, 3), "M24": (25, 39, 4), "M30": (31, 50, 4), "M36": (37, 60, 5),
}  # fmt: skip


def bolts_washers() -> Iterator[Cell]:
    for standard, washers in {
        "ISO 7089": BOLTS_7089,
        "ISO 7090": BOLTS_7089,
        "ISO 7091": BOLTS_7091,
        "ISO 7092": BOLTS_7092,
    }.items():
        for thread, (hole, outside, thick) in washers.items():
            yield Cell(f"{standard} {thread}", "bore", "least", hole)
            yield Cell(f"{standard} {thread}", "outside", "most", outside)
            yield Cell(f"{standard} {thread}", "length", "nominal", thick)


# omdl, open table of ISO 7091 with limits: hole most and least, outside most and least, thickness most and least.
OMDL_7091 = {
    "M5": (5.80, 5.5, 10, 9.1, 1.2, 0.8), "M6": (6.96, 6.6, 12, 10.9, 1.9, 1.3), "M8": (9.36, 9.0, 16, 14.9, 1.9, 1.3), "M10": (11.43, 11.0, 20, 18.7, 2.3, 1.7),
    "M12": (13.93, 13.5, 24, 22.7, 2.8, 2.2), "M14": (15.93, 15.5, 28, 26.7, 2.8, 2.2), "M16": (17.93, 17.5, 30, 28.7, 3.6, 2.4), "M20": (22.52, 22.0, 37, 35.4, 3.6, 2.4),
    "M24": (26.52, 26.0, 44, 42.4, 4.6, 3.4), "M30": (33.62, 33.0, 56, 54.1, 4.6, 3.4), "M36": (40.00, 39.0, 66, 64.1, 6.0, 4.0),
}  # fmt: skip


def omdl_7091() -> Iterator[Cell]:
    for thread, limits in OMDL_7091.items():
        for size, most, least in zip(("bore", "outside", "length"), limits[::2], limits[1::2], strict=True):
            yield Cell(f"ISO 7091 {thread}", size, "most", most)
            yield Cell(f"ISO 7091 {thread}", size, "least", least)


# threadlib, open table of metric threads: least and greatest minor diameter of the nut thread, class 6H.
THREADLIB_6H = {
    "M1.6": (1.221, 1.321), "M2": (1.567, 1.679), "M2.5": (2.013, 2.138), "M3": (2.459, 2.599), "M3.5": (2.85, 3.01), "M4": (3.242, 3.422), "M5": (4.134, 4.334),
    "M6": (4.917, 5.153), "M8": (6.647, 6.912), "M10": (8.376, 8.676), "M12": (10.106, 10.441), "M14": (11.835, 12.21), "M16": (13.835, 14.21), "M18": (15.294, 15.744),
    "M20": (17.294, 17.744), "M22": (19.294, 19.744), "M24": (20.752, 21.252), "M27": (23.752, 24.252), "M30": (26.211, 26.771), "M33": (29.211, 29.771),
    "M36": (31.67, 32.27), "M39": (34.67, 35.27), "M42": (37.129, 37.799), "M45": (40.129, 40.799), "M48": (42.587, 43.297), "M52": (46.587, 47.297),
    "M56": (50.046, 50.796), "M60": (54.046, 54.796), "M64": (57.505, 58.305),
}  # fmt: skip


def threadlib_nuts() -> Iterator[Cell]:
    for standard in ("ISO 4032", "ISO 4035", "ISO 4161"):
        for thread, (least, most) in THREADLIB_6H.items():
            yield Cell(f"{standard} {thread}", "core_diameter", "least", least)
            yield Cell(f"{standard} {thread}", "core_diameter", "most", most)


# TGR Fastening, table of split pins: least and greatest diameter of the closed legs.
TGR_1234 = {
    "0.6": (0.4, 0.5), "0.8": (0.6, 0.7), "1": (0.8, 0.9), "1.2": (0.9, 1), "1.6": (1.3, 1.4), "2": (1.7, 1.8), "2.5": (2.1, 2.3), "3.2": (2.7, 2.9),
    "4": (3.5, 3.7), "5": (4.4, 4.6), "6.3": (5.7, 5.9), "8": (7.3, 7.5), "10": (9.3, 9.5), "13": (12.1, 12.4), "16": (15.1, 15.4), "20": (19, 19.3),
}  # fmt: skip


def tgr_split_pins() -> Iterator[Cell]:
    for hole, (least, most) in TGR_1234.items():
        yield Cell(f"ISO 1234 {hole}", "outside", "least", least)
        yield Cell(f"ISO 1234 {hole}", "outside", "most", most)


# omdl, open table of radial ball bearings, and Softsolder, table of miniature ones: bore, outside, width.
OMDL_BALLS = {
    "604": (4, 12, 4), "605": (5, 14, 5), "606": (6, 17, 6), "607": (7, 19, 6), "608": (8, 22, 7), "609": (9, 24, 7), "625": (5, 16, 5), "626": (6, 19, 6),
    "627": (7, 22, 7), "628": (8, 24, 8), "629": (9, 26, 8), "6000": (10, 26, 8), "6001": (12, 28, 8), "6002": (15, 32, 9), "6003": (17, 35, 10), "6004": (20, 42, 12),
    "6005": (25, 47, 12), "6006": (30, 55, 13), "6007": (35, 62, 14), "6008": (40, 68, 15), "6009": (45, 75, 16), "6010": (50, 80, 16), "6011": (55, 90, 18),
    "6012": (60, 95, 18), "6013": (65, 100, 18), "6200": (10, 30, 9), "6201": (12, 32, 10), "6202": (15, 35, 11), "6203": (17, 40, 12), "6204": (20, 47, 14),
    "6205": (25, 52, 15), "6206": (30, 62, 16), "6207": (35, 72, 17), "6208": (40, 80, 18), "6209": (45, 85, 19), "6210": (50, 90, 20), "6300": (10, 35, 11),
    "6301": (12, 37, 12), "6302": (15, 42, 13), "6900": (10, 22, 6),
}  # fmt: skip
SOLDER_BALLS = {
    "605": (5, 14, 5), "606": (6, 17, 6), "608": (8, 22, 7), "623": (3, 10, 4), "625": (5, 16, 5), "626": (6, 19, 6), "629": (9, 26, 8), "635": (5, 19, 6),
}  # fmt: skip


def read_balls() -> Iterator[Cell]:
    for number, sizes in (*OMDL_BALLS.items(), *SOLDER_BALLS.items()):
        for name, theirs in zip(("bore", "outside", "length"), sizes, strict=True):
            yield Cell(number, name, "nominal", theirs)


# Open catalogue of motion parts, DIN 2093 series A and B to 50 mm: outside, bore, thickness. Sizes without a row of ours (B to 28 mm) are
# compared with nothing: their height stands in no source read.
AP_DISCS = {
    "A": ((8, 4.2, 0.4), (10, 5.2, 0.5), (12.5, 6.2, 0.7), (14, 7.2, 0.8), (16, 8.2, 0.9), (18, 9.2, 1), (20, 10.2, 1.1), (22.5, 11.2, 1.25), (25, 12.2, 1.5),
          (28, 14.2, 1.5), (31.5, 16.3, 1.75), (40, 20.4, 2.25), (45, 22.4, 2.5), (50, 25.4, 3)),
    "B": ((31.5, 16.3, 1.25), (40, 20.4, 1.5), (45, 22.4, 1.75), (50, 25.4, 2)),
}  # fmt: skip


def ap_discs() -> Iterator[Cell]:
    for series, discs in AP_DISCS.items():
        for outside, bore, thick in discs:
            designation = f"EN 16983 {series} {outside:g}"
            yield Cell(designation, "outside", "nominal", outside)
            yield Cell(designation, "bore", "nominal", bore)
            yield Cell(designation, "disc_thickness", "nominal", thick)


# Sheet of USS flat washers, greatest and least outside, greatest and least hole in inches; its thickness is another washer's.
USS_WASHERS = {
    "1/4 W": (0.749, 0.727, 0.327, 0.307), "5/16 W": (0.905, 0.868, 0.390, 0.370), "3/8 W": (1.030, 0.993, 0.453, 0.433), "7/16 W": (1.280, 1.243, 0.515, 0.495),
    "1/2 W": (1.405, 1.368, 0.577, 0.557), "9/16 W": (1.499, 1.462, 0.640, 0.620), "5/8 W": (1.780, 1.743, 0.687, 0.649), "3/4 W": (2.030, 1.993, 0.842, 0.805),
}  # fmt: skip
# Sheet of SAE flat washers citing ASME B18.21.1-2009: greatest and least outside, hole and thickness in inches.
SAE_WASHERS = {
    "No. 4": (0.320, 0.307, 0.133, 0.120, 0.040, 0.025), "No. 6": (0.390, 0.370, 0.164, 0.151, 0.065, 0.036), "No. 8": (0.453, 0.433, 0.196, 0.183, 0.065, 0.036),
    "No. 10": (0.515, 0.495, 0.227, 0.214, 0.065, 0.036), "3/16": (0.577, 0.557, 0.265, 0.245, 0.065, 0.036), "No. 12": (0.577, 0.557, 0.265, 0.245, 0.080, 0.051),
    "1/4 N": (0.640, 0.620, 0.296, 0.276, 0.080, 0.051), "5/16 N": (0.703, 0.681, 0.359, 0.339, 0.080, 0.051), "3/8 N": (0.827, 0.805, 0.419, 0.401, 0.080, 0.051),
    "7/16 N": (0.937, 0.915, 0.484, 0.464, 0.080, 0.051), "1/2 N": (1.092, 1.055, 0.546, 0.526, 0.121, 0.074), "9/16 N": (1.186, 1.149, 0.609, 0.589, 0.121, 0.074),
    "5/8 N": (1.342, 1.305, 0.686, 0.649, 0.121, 0.074), "3/4 N": (1.499, 1.462, 0.842, 0.805, 0.160, 0.108), "7/8 N": (1.780, 1.743, 0.968, 0.931, 0.160, 0.108),
    "1 N": (2.030, 1.993, 1.092, 1.055, 0.160, 0.108),
}  # fmt: skip
# Nickel Systems, table of SAE flat washers with limits: the same figures.
NICKEL_SAE = {
    "No. 2": (0.250, 0.245, 0.094, 0.089, 0.025, 0.016), "No. 4": (0.320, 0.307, 0.133, 0.120, 0.040, 0.025), "No. 6": (0.390, 0.370, 0.164, 0.151, 0.065, 0.036),
    "No. 8": (0.453, 0.433, 0.196, 0.183, 0.065, 0.036), "No. 10": (0.515, 0.495, 0.227, 0.214, 0.065, 0.036), "No. 12": (0.577, 0.557, 0.265, 0.245, 0.080, 0.051),
    "1/4 N": (0.640, 0.620, 0.296, 0.276, 0.080, 0.051),
}  # fmt: skip


def inch_washers() -> Iterator[Cell]:
    for washers in (USS_WASHERS, SAE_WASHERS, NICKEL_SAE):
        for thread, limits in washers.items():
            for size, most, least in zip(("outside", "bore", "length"), limits[::2], limits[1::2]):
                yield Cell(f"ASME B18.21.1 type A {thread}", size, "most", round(most * 25.4, 4))
                yield Cell(f"ASME B18.21.1 type A {thread}", size, "least", round(least * 25.4, 4))
