"""Which tables there are: one entry per file in `data`, with the standard, the kind of part and the words of the shelf.

A new table is one CSV file and one entry here. Editions are those the sources name; where no source names one, the
edition is from memory and says so. The limits in the files are stored results of the rules named on each row; the tests
compute them again from the rules.
"""

from __future__ import annotations

from stackcheck.value import Value

FROM_MEMORY = " (edition from memory)"
RING_WIDTH = ("length", "inner_width", "outer_width")
"""A ball bearing's ring width B is the width of both rings, and of the bearing where the rings are flush."""


class TableSpec(Value, kw_only=True):
    """One file of `data`: what its rows are and how they are written.

    `prefix` is what stands before the size in a designation ("ISO 7089 "), empty for bearings. `features` are those of
    every row. A `width` column is given under the names in `width_names`.
    """

    id: str
    file: str
    kind: str
    standard: str
    edition: str
    title: str
    covers: str
    not_covered: str
    prefix: str = ""
    features: tuple[str, ...] = ()
    width_names: tuple[str, ...] = RING_WIDTH


def _ball(series: str, covers: str) -> TableSpec:
    return TableSpec(
        id=f"iso-15-{series}",
        file=f"iso_15_{series}.csv",
        kind="ball bearing",
        standard="ISO 15",
        edition="2017" + FROM_MEMORY,
        title=f"Deep groove ball bearings, series {series}",
        covers=f"{covers}; bore, outside diameter, ring width, limits of ISO 492 class Normal; clearance of ISO 5753-1",
        not_covered="corner radius, snap ring groove sizes, classes 6 to 2, taper bores",
    )


def _angular(series: str, covers: str) -> TableSpec:
    return TableSpec(
        id=f"iso-15-{series}",
        file=f"iso_15_{series}.csv",
        kind="angular bearing",
        standard="ISO 15",
        edition="2017" + FROM_MEMORY,
        title=f"Angular contact ball bearings, series {series}",
        covers=f"{covers}; bore, outside diameter, ring width, limits of ISO 492 class Normal, single bearing",
        not_covered="rings ground for pairs (their width limits are wider), corner radius, classes 6 to 2",
    )


def _taper(series: str, covers: str) -> TableSpec:
    return TableSpec(
        id=f"iso-355-{series}",
        file=f"iso_355_{series}.csv",
        kind="taper bearing",
        standard="ISO 355",
        edition="2007" + FROM_MEMORY,
        title=f"Taper bearings, series {series}",
        covers=f"{covers}; bore, outside diameter, overall width T, inner ring width, limits of ISO 492 class Normal",
        not_covered="outer ring width (sources differ on its limits), steep angles, class 6X, inch sizes",
    )


def _washer(number: str, edition: str, title: str, covers: str, not_covered: str) -> TableSpec:
    return TableSpec(
        id=f"iso-{number}",
        file=f"iso_{number.replace('-', '_')}.csv",
        kind="washer",
        standard=f"ISO {number}",
        edition=edition,
        title=title,
        covers=f"{covers}; hole, outside diameter, thickness, limits of ISO 4759-3",
        not_covered=not_covered,
        prefix=f"ISO {number} ",
    )


def _nut(
    number: str, edition: str, title: str, covers: str, not_covered: str, features: tuple[str, ...] = ()
) -> TableSpec:
    return TableSpec(
        id=f"iso-{number}",
        file=f"iso_{number}.csv",
        kind="nut",
        standard=f"ISO {number}",
        edition=edition,
        title=title,
        covers=(
            f"{covers}, coarse thread; height, width across flats, limits of ISO 4759-1; minor diameter of the "
            "thread, limits of ISO 965-1 class 6H"
        ),
        not_covered=not_covered,
        prefix=f"ISO {number} ",
        features=features,
    )


SPECS = (
    _ball("60", "604 to 609, 6000 to 6020 with 60/22, 60/28, 60/32"),
    _ball("62", "623 to 629, 6200 to 6220 with 62/22, 62/28, 62/32"),
    _ball("63", "635, 6300 to 6320 with 63/22, 63/28, 63/32"),
    _ball("160", "16001 to 16020"),
    _ball("68", "6800 to 6820"),
    _ball("69", "6900 to 6920"),
    _angular("70", "7000 to 7011"),
    _angular("72", "7200 to 7212"),
    _angular("73", "7300 to 7312"),
    _taper("302", "30203 to 30220 with 302/28"),
    _taper("303", "30302 to 30320"),
    _taper("320", "32004 X to 32020 X with 320/22 X, 320/28 X, 320/32 X"),
    _taper("322", "32203 to 32220 with 322/28"),
    _taper("323", "32303 to 32320"),
    _washer("7089", "2000" + FROM_MEMORY, "Plain washers, normal series, grade A", "M1.6 to M36", "above M36"),
    _washer(
        "7090",
        "2000" + FROM_MEMORY,
        "Plain washers, chamfered, normal series, grade A",
        "M5 to M36",
        "above M36; the chamfer",
    ),
    _washer(
        "7091",
        "2000" + FROM_MEMORY,
        "Plain washers, normal series, grade C",
        "M1.6 to M36",
        "M3.5, M18, M22, M27, M33: no second source; above M36",
    ),
    _washer(
        "7092",
        "2000" + FROM_MEMORY,
        "Plain washers, small series, grade A",
        "M1.6 to M36",
        "M22, M27, M33: in no source read",
    ),
    _washer(
        "7093-1",
        "2000" + FROM_MEMORY,
        "Plain washers, large series, grade A",
        "M3 to M36",
        (
            "M18, M22, M27, M33: in no source read, or grade C; ISO 7093-2 (grade C); DIN 9021, which differs at M5 "
            "and from M20"
        ),
    ),
    _washer(
        "7094",
        "2000" + FROM_MEMORY,
        "Plain washers, extra large series, grade C",
        "M5 to M36",
        "M14, M18, M22, M27, M33: no second source",
    ),
    TableSpec(
        id="asme-b18-21-1-b",
        file="asme_b18_21_1_b.csv",
        kind="washer",
        standard="ASME B18.21.1 type B",
        edition="2009",
        title="Plain washers type B, inch sizes",
        prefix="ASME B18.21.1 type B ",
        covers="No. 0 to 1/4 in, 5/16 N, 3/4 to 1 in; N narrow, R regular and W wide; with the printed limits, in mm",
        not_covered=(
            "5/16 R and W to 5/8 in: basic sizes in one table, limits of the outside in no source read, "
            "and type A has others at the same size"
        ),
    ),
    TableSpec(
        id="asme-b18-21-1-a",
        file="asme_b18_21_1_a.csv",
        kind="washer",
        standard="ASME B18.21.1 type A",
        edition="2009",
        title="Plain washers type A, inch sizes",
        prefix="ASME B18.21.1 type A ",
        covers=(
            "No. 2, No. 4 to 3/4 in, 7/8 N, 1 N; N narrow and W wide; hole, outside diameter, thickness with "
            "the printed limits, in mm"
        ),
        not_covered="7/8 W and 1 W: thickness in no source read; No. 0 and above 1 in: no second source",
    ),
    _nut(
        "4032",
        "2001",
        "Hexagon nuts, style 1",
        "M1.6 to M64",
        "fine threads (ISO 8673), DIN 934, which is lower from M5",
    ),
    _nut(
        "4035",
        "2012" + FROM_MEMORY,
        "Hexagon thin nuts, chamfered",
        "M1.6 to M52",
        "M1.8, above M52, fine threads (ISO 8675), DIN 439, whose widths differ at M10 to M14 and M22",
    ),
    _nut(
        "4161",
        "2012" + FROM_MEMORY,
        "Hexagon nuts with flange, style 2",
        "M5 to M20",
        (
            "the flange, whose diameter has one limit only; fine threads (ISO 10663), DIN 6923, which is 16 mm across "
            "flats at M10"
        ),
        ("flange",),
    ),
    TableSpec(
        id="iso-1234",
        file="iso_1234.csv",
        kind="split pin",
        standard="ISO 1234",
        edition="1997",
        title="Split pins",
        prefix="ISO 1234 ",
        covers="for holes 0.6 to 20 mm; diameter of the closed legs with limits, and the hole it is made for",
        not_covered="length, eye, legs spread or worn apart",
    ),
    TableSpec(
        id="iso-3290-1",
        file="iso_3290_1.csv",
        kind="loose balls",
        standard="ISO 3290-1",
        edition="2014",
        title="Steel balls by themselves",
        prefix="ISO 3290-1 ",
        covers="1/16 to 1 in, exact inch sizes, and 1.5 to 25 mm; limits of grade 100, which holds every finer grade",
        not_covered="grades 200 and coarser, sizes that the list read does not have (5.5, 7, 8, 9, 11 mm and others)",
    ),
    TableSpec(
        id="iso-261",
        file="iso_261.csv",
        kind="bolt",
        standard="ISO 261",
        edition="1998" + FROM_MEMORY,
        title="Metric threads, coarse and fine, sizes of ISO 724",
        prefix="ISO 261 ",
        covers=(
            "coarse M1.6 to M64, fine M8x1 to M20x1.5; pitch, pitch and minor diameter, nominal; outside of a "
            "bolt with limits of ISO 965-1 class 6g"
        ),
        not_covered=(
            "limits of the flanks, nut threads (with the nuts), classes other than 6g, other fine pitches, inch threads"
        ),
    ),
    TableSpec(
        id="en-16983",
        file="en_16983.csv",
        kind="disc spring",
        standard="EN 16983",
        edition="2016",
        title="Disc springs, series A and B",
        prefix="EN 16983 ",
        covers=(
            "series A 8 to 31.5, 40, 45 and 50 mm outside, series B 31.5, 40, 45 and 50 mm; bore, outside "
            "diameter, thickness and free height of one disc with limits"
        ),
        not_covered=(
            "A 35.5 and series B below 31.5 mm: height in no source that fits the formula; above 50 mm: "
            "one table, whose forces are the formula itself; series C: the forces of the one list read are 11 to 29 % "
            "off the formula"
        ),
    ),
    TableSpec(
        id="din-471",
        file="din_471.csv",
        kind="circlip",
        standard="DIN 471",
        edition="1981",
        title="Circlips for shafts, normal type",
        prefix="DIN 471 ",
        features=("for a shaft",),
        covers="shafts 3 to 100 mm; thickness, groove diameter and width; inside diameter when free up to 38 mm",
        not_covered=(
            "heavy type, shafts found in one table only (23, 27, 31 and others), lugs, limits of the free "
            "ring above 38 mm"
        ),
    ),
    TableSpec(
        id="din-472",
        file="din_472.csv",
        kind="circlip",
        standard="DIN 472",
        edition="1981" + FROM_MEMORY,
        title="Circlips for bores, normal type",
        prefix="DIN 472 ",
        features=("for a bore",),
        covers="bores 8 to 100 mm; thickness, groove diameter and width; outside diameter when free up to 16 mm",
        not_covered=(
            "heavy type, bores found in one table only (23, 27, 29 and others), lugs, limits of the free "
            "ring above 16 mm"
        ),
    ),
)
"""Every table, in the sequence of the shelf."""

FIGURES = (
    TableSpec(
        id="iso-286-1",
        file="iso_286_grades.csv",
        kind="",
        standard="ISO 286-1",
        edition="2010" + FROM_MEMORY,
        title="Standard tolerance grades",
        covers="IT1 to IT18 to 500 mm, IT1 to 180 mm; used by every size written with a fit",
        not_covered="IT01, IT0, above 500 mm",
    ),
    TableSpec(
        id="iso-286-2",
        file="iso_286_deviations.csv",
        kind="",
        standard="ISO 286-2",
        edition="2010" + FROM_MEMORY,
        title="Fundamental deviations",
        covers="shafts c to h, j5 to j7, js, k to s and holes D to H, JS, K to S, to 500 mm",
        not_covered="a, b, cd, ef, fg, t to zc and their holes, above 500 mm",
    ),
    TableSpec(
        id="iso-5753-1",
        file="iso_5753_1.csv",
        kind="",
        standard="ISO 5753-1",
        edition="2009" + FROM_MEMORY,
        title="Radial clearance of deep groove ball bearings",
        covers="groups C2 to C5 by bore, over 2.5 to 100 mm; used by every ball bearing of these tables",
        not_covered="above 100 mm bore, other kinds of bearing; below 6 mm C2, C4 and C5",
    ),
)
"""Figures that rows and written sizes are made with; no parts by themselves."""

BY_ID = {spec.id: spec for spec in SPECS}

OLDER_NAMES = {
    "DIN 125": "ISO 7089", "DIN 126": "ISO 7091", "DIN 433": "ISO 7092", "DIN 9021": "ISO 7093-1",
    "DIN 440": "ISO 7094",
    "DIN 934": "ISO 4032", "DIN 439": "ISO 4035", "ISO 7093": "ISO 7093-1", "ISO 8673": "ISO 4032",
    "ISO 8675": "ISO 4035",
    "DIN 6923": "ISO 4161", "ISO 10663": "ISO 4161", "DIN 94": "ISO 1234", "ISO 262": "ISO 261", "DIN 13": "ISO 261",
    "DIN 5401": "ISO 3290-1", "DIN 2093": "EN 16983",
}  # fmt: skip
"""Neighbours people write instead. Suggested, never read as the same: they are equal at most sizes and not at all."""
