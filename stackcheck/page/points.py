"""The points of the machine on the page: hoses, levels, readings that must agree, one look a screen.

What a reading is wanted to be is shown only with the judgement, after it was entered.
"""

from __future__ import annotations

from starlette.responses import Response

from stackcheck.formats.points_file import point_reading
from stackcheck.job.events import Looked
from stackcheck.job.folder import JobFolder
from stackcheck.job.gauging import compared
from stackcheck.job.state import Job
from stackcheck.model.machine import Machine, Point
from stackcheck.model.points import FOUND, PointEntry, PointsSeen
from stackcheck.page.visit import Visit
from stackcheck.present.points_page import point_sentence
from stackcheck.result.machine_points import judge_points


def points(visit: Visit, folder: JobFolder) -> Response:
    machine = visit.bench.library.machine_of(folder.begun.reference)
    if machine is None or not machine.points:
        return visit.page("points.html", job=folder.job, point=None, looked=[], others=[])
    named = {point.name: point for point in machine.points}
    point = named.get(visit.said("point"))
    if visit.is_post:
        if point is None:
            return visit.refused(
                "There is no such point any more: look at the page again.", back=f"/job/{folder.name}/points"
            )
        event = _looked(visit, folder, machine, point)
        if event is None:
            return visit.refused("Nothing was said about it.", back=f"/job/{folder.name}/points")
        folder.record(event)
        return visit.go_to(f"/job/{folder.name}/points", f"{event.verdict.capitalize()}. {event.seen}")
    judged = judged_points(folder.job)
    open_points = [each for each in machine.points if each.name not in judged]
    point = point or (open_points[0] if open_points else None)
    others = [each.name for each in open_points if each != point]
    looked = [judged[name] for name in named if name in judged]
    return visit.page(
        "points.html",
        job=folder.job,
        point=point,
        said_before=judged[point.name].seen if point and point.name in judged else "",
        looked=looked,
        others=others,
        of=len(named),
        found=FOUND,
    )


def judged_points(job: Job) -> dict[str, Looked]:
    """Name of a point -> what was last said of it."""
    return {event.point: event for event in job.of(Looked)}


def _looked(visit: Visit, folder: JobFolder, machine: Machine, point: Point) -> Looked | None:
    """The event of a look or of readings; words alone are added to what was said before; None where nothing was said."""
    said = [
        (visit.said(f"reading-{number}", 60), visit.said(f"gauge-{number}", 60))
        for number in range(1, point.readings + 1)
    ]
    readings = tuple(point_reading(point, text, gauge) for text, gauge in said if text) if point.is_measured else ()
    found = visit.said("found")
    entry = PointEntry(
        name=point.name, found=found if found in FOUND else "", readings=readings, note=visit.said("note", 500)
    )
    before = judged_points(folder.job).get(point.name)
    if entry.note and before is not None and not (entry.found or entry.readings):
        return Looked(point=point.name, verdict=before.verdict, seen=f'{before.seen}; "{entry.note}"', by=visit.by)
    if not (entry.found or entry.readings or entry.note):
        return None
    seen = PointsSeen(machine=machine.id, entries=(entry,), gauges=compared(folder))
    result = next(each for each in judge_points(machine, seen).results if each.point == point)
    return Looked(point=point.name, verdict=result.verdict, seen=point_sentence(result), by=visit.by)
