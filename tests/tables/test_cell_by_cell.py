"""Our tables against other people's, cell by cell; the differences we accept stand here, each with what decides.

A new difference fails, and so does an accepted one that no longer occurs: both mean that a table has changed. Hand-typed
open tables carry about one wrong value in a hundred rows, so a difference alone says nothing about who is right; the
second source or the rule does, never memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import pytest

from stackcheck.tables import rows, tables
from tests.tables import outside_tables, read_tables


class Difference(NamedTuple):
    designation: str
    size: str
    figure: str
    ours: float
    theirs: float


class Accepted(NamedTuple):
    difference: Difference
    reason: str


def accept(reason: str, *differences: tuple[str, str, str, float, float]) -> Iterator[Accepted]:
    for difference in differences:
        yield Accepted(Difference(*difference), reason)


GRADE_C = "their rows from M20 are grade C (ISO 7093-2); second source: Fasteners workbench, ISO 7093-1; limits: ISO 4759-3 grade A"
COPIED = (
    "their limits of the thickness at 11 to 48 mm are those of the free diameter (+0.06/-0.18); DIN 472 gives the same "
    "thicknesses 0/-0.06 in their own table, and Westfield Fasteners' sheet of DIN 471 prints 0/-0.06 from 9 mm"
)
COPIED_AT = {
    1.0: (11, 12, 13, 14, 15, 16, 17),
    1.2: (18, 19, 20, 21, 22, 24, 25, 26),
    1.5: (28, 29, 30, 32, 34, 35),
    1.75: (36, 38, 40, 42, 45),
}

ACCEPTED_WASHERS = (
    *accept(
        GRADE_C,
        ("ISO 7093-1 M20", "bore", "least", 21, 22),
        ("ISO 7093-1 M20", "length", "most", 4.3, 4.6),
        ("ISO 7093-1 M24", "bore", "least", 25, 26),
        ("ISO 7093-1 M24", "length", "most", 5.6, 6),
        ("ISO 7093-1 M30", "length", "most", 6.6, 7),
        ("ISO 7093-1 M36", "length", "most", 9, 9.2),
    ),
    *accept(
        "theirs is the 1.2 mm thickness of DIN 9021; second source: Fasteners workbench, ISO 7093-1, h 1.0 to 1.1",
        ("ISO 7093-1 M5", "length", "most", 1.1, 1.4),
    ),
    *accept(
        "58 is off the run; two tables print 60: Fasteners workbench and omdl (58.80 to 60.00), ISO 7092",
        ("ISO 7092 M36", "outside", "most", 60, 58),
    ),
)

ACCEPTED_NUTS = (
    *accept(
        "theirs are the widths of DIN 439; second sources: cq-queryabolt and omdl, ISO 4035 (M22: cq-queryabolt and ISO 272)",
        ("ISO 4035 M10", "across_flats", "nominal", 16, 17),
        ("ISO 4035 M12", "across_flats", "nominal", 18, 19),
        ("ISO 4035 M14", "across_flats", "nominal", 21, 22),
        ("ISO 4035 M22", "across_flats", "nominal", 34, 32),
    ),
    *accept(
        "M3 coarse is 0.5; their own ISO 4032 row and BS EN ISO 4032:2001 say so",
        ("ISO 4035 M3", "thread_pitch", "nominal", 0.5, 0.45),
    ),
)

ACCEPTED_CIRCLIPS = (
    *(
        accepted
        for s, shafts in COPIED_AT.items()
        for d1 in shafts
        for accepted in accept(
            COPIED,
            (f"DIN 471 {d1}", "length", "most", s, round(s + 0.06, 2)),
            (f"DIN 471 {d1}", "length", "least", round(s - 0.06, 2), round(s - 0.18, 2)),
        )
    ),
    *accept(
        "a 2 mm ring would not enter their own groove of 1.85 mm; second source: Fasteners workbench, 1.75",
        ("DIN 471 48", "length", "nominal", 1.75, 2),
        ("DIN 471 48", "length", "most", 1.75, 2.06),
        ("DIN 471 48", "length", "least", 1.69, 1.82),
    ),
    *accept(
        "their neighbours of 3 mm thickness (85 to 95 mm, and DIN 472 85 to 100) have 0/-0.08",
        ("DIN 471 100", "length", "least", 2.92, 2.9),
    ),
    *accept(
        "H11 of 9.4 mm is 0.09, printed by a public DIN 472 data sheet for 8 and 9 mm together",
        ("DIN 472 9", "groove", "most", 9.49, 9.51),
    ),
    *accept(
        "a 3 mm ring would not enter their own groove of 2.65 mm; second source: Fasteners workbench, 2.5",
        ("DIN 472 82", "length", "nominal", 2.5, 3),
        ("DIN 472 82", "length", "most", 2.5, 3),
        ("DIN 472 82", "length", "least", 2.43, 2.93),
    ),
)

ACCEPTED_READ = (
    *accept(
        "10 would not go over a bolt of 10 mm; bd-warehouse, Fasteners workbench and omdl print 10.5",
        ("ISO 7089 M10", "bore", "least", 10.5, 10),
        ("ISO 7090 M10", "bore", "least", 10.5, 10),
    ),
)
ACCEPTED_INCH = (
    *accept(
        "their 0.419 and 0.401 are 2 and 0 thousandths off 0.406 +0.015/-0.005, as Machinery's Handbook and Portland Bolt print",
        ("ASME B18.21.1 type A 3/8 N", "bore", "most", 10.6934, 10.6426),
    ),
    *accept(
        "their hole is 21/32 in; Machinery's Handbook and Portland Bolt print 0.688 (11/16 in) for the type A washer",
        ("ASME B18.21.1 type A 5/8 W", "bore", "most", 18.2372, 17.4498),
        ("ASME B18.21.1 type A 5/8 W", "bore", "least", 17.2974, 16.4846),
    ),
)

OURS = {row.designation: row for table in tables() for row in rows(table.id)}
OURS |= {  # a coarse thread by its full name too
    f"{row.designation}x{row.size('thread_pitch').nominal_mm:g}": row
    for row in rows("iso-261")
    if "x" not in row.designation
}


@pytest.mark.parametrize(
    ("read", "accepted", "least_cells"),
    [
        (outside_tables.bd_washers, ACCEPTED_WASHERS, 279),
        (outside_tables.bd_nuts, ACCEPTED_NUTS, 165),
        (outside_tables.bd_flange_nuts, (), 16),
        (outside_tables.bd_threads, (), 60),
        (outside_tables.bd_circlips, ACCEPTED_CIRCLIPS, 897),
        (outside_tables.bd_bearings, (), 192),
        (outside_tables.queryabolt_nuts, (), 110),
        (outside_tables.melib_bearings, (), 192),
        (read_tables.bolts_washers, ACCEPTED_READ, 195),
        (read_tables.omdl_7091, (), 66),
        (read_tables.threadlib_nuts, (), 126),
        (read_tables.tgr_split_pins, (), 32),
        (read_tables.read_balls, (), 144),
        (read_tables.ap_discs, (), 54),
        (read_tables.inch_washers, ACCEPTED_INCH, 170),
    ],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_every_cell_both_have_is_equal_or_accepted(read, accepted, least_cells):
    found, compared = set(), 0
    for cell in read():
        size = OURS[cell.designation].size(cell.size) if cell.designation in OURS else None
        if size is None:
            continue
        compared += 1
        ours = getattr(size, f"{cell.figure}_mm")
        if abs(ours - cell.theirs) > 1e-6:
            found.add(Difference(cell.designation, cell.size, cell.figure, ours, cell.theirs))
    assert compared >= least_cells, "an empty or shrunken comparison proves nothing"
    expected = {entry.difference for entry in accepted}
    assert found - expected == set(), "new differences"
    assert expected - found == set(), "accepted differences that no longer occur"


def test_every_accepted_difference_says_what_decides():
    for entry in (*ACCEPTED_WASHERS, *ACCEPTED_NUTS, *ACCEPTED_CIRCLIPS, *ACCEPTED_READ, *ACCEPTED_INCH):
        assert len(entry.reason) > 30 and entry.difference.ours != entry.difference.theirs
