"""Gauges on the page: read one after the other on one source, round by round, then compared.

What was read before is not shown meanwhile, so that nobody reads what is expected.
Every reading is on disk before the next.
"""

from __future__ import annotations

from starlette.responses import Response

from stackcheck.errors import SizeError
from stackcheck.formats.gauges_file import INSTRUMENTS_READ
from stackcheck.job.events import GaugeRead, GaugesBegun
from stackcheck.job.folder import JobFolder
from stackcheck.job.gauging import Gauging, compare_read, compared, gauging
from stackcheck.mechanics.gauges import compare_gauges
from stackcheck.page.visit import Visit, told_blocks
from stackcheck.present.gauges_page import gauges_page
from stackcheck.units import find_unit, read_figure

MOST = 4
UNITS = ("mm", "in", "bar", "°C", "N·m")


def gauges(visit: Visit, folder: JobFolder) -> Response:
    back = f"/job/{folder.name}/gauges"
    going_on = gauging(folder.job)
    if visit.is_post:
        refused = _begun(visit, folder) if going_on is None else _read(visit, folder, going_on)
        return visit.refused(refused, back=back) if refused else visit.go_to(back)
    if going_on is not None:
        return visit.page("gauge_reading.html", job=folder.job, going_on=going_on)
    earlier = compared(folder)
    blocks = told_blocks(gauges_page(compare_gauges(earlier[-1]))) if earlier else []
    return visit.page("gauges.html", job=folder.job, blocks=blocks, most=MOST, units=UNITS, hows=INSTRUMENTS_READ)


def _begun(visit: Visit, folder: JobFolder) -> str:
    """Begins a comparison; returns what is lacking."""
    named = [(visit.said(f"gauge-{number}", 60), visit.said(f"how-{number}", 40)) for number in range(1, MOST + 1)]
    named = [(name, how) for name, how in named if name]
    source, unit, agree_within = visit.said("source", 100), visit.said("unit", 10), visit.said("agree_within", 20)
    if unit not in UNITS or any(
        how and (how not in INSTRUMENTS_READ or find_unit(unit)[0] != "length") for _, how in named
    ):
        return "Say the unit, and a way of measuring only for lengths."
    if not source or len(named) < 2 or len({name for name, _ in named}) < len(named):
        return "Say what they are read on, and the names of two gauges or more, each of its own."
    if agree_within and not read_figure(agree_within, dimension=find_unit(unit)[0], default_unit=unit).value > 0:
        return "How near they should be is more than nothing."
    names, hows = zip(*named)
    folder.record(
        GaugesBegun(
            source=source,
            gauges=names,
            hows=hows if any(hows) else (),
            unit=unit,
            agree_within=agree_within,
            by=visit.by,
        )
    )
    return ""


def _read(visit: Visit, folder: JobFolder, going_on: Gauging) -> str:
    """Takes one reading, or compares what was read; returns what is lacking."""
    if visit.said("do") == "compare":
        if not going_on.rounds:
            return "Read every gauge once before they are compared."
        compare_read(folder, going_on, by=visit.by)
        return ""
    if (visit.said("gauge", 60), visit.said("round", 6)) != (going_on.following, str(going_on.round)):
        return "That gauge was read meanwhile: look at the page again."
    reading = visit.said("reading", 60)
    try:
        read_figure(reading, dimension=find_unit(going_on.begun.unit)[0], default_unit=going_on.begun.unit)
    except SizeError as problem:
        return f'"{problem.said}" cannot be read: {problem.wanted}'
    folder.record(GaugeRead(gauge=going_on.following, round=going_on.round, reading=reading, by=visit.by))
    return ""
