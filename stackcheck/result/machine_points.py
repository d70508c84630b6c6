"""The points of a machine that are no stack, each judged by what was found there: looks, readings, agreement."""

from __future__ import annotations

from stackcheck.formats.amounts import read_distance, read_range
from stackcheck.mechanics.agreeing import Agreement, agreement, within
from stackcheck.mechanics.gauges import AGREES, CANNOT_TELL, DIFFERS, compare_gauges
from stackcheck.model.machine import Machine, Point
from stackcheck.model.points import PointEntry, PointsSeen
from stackcheck.value import Value

NOT_LOOKED_AT = "not looked at"


class PointResult(Value, kw_only=True):
    """One point: `in_limits` has a verdict for each reading, `agreement` is None where none is wanted or made."""

    point: Point
    verdict: str
    entry: PointEntry | None = None
    in_limits: tuple[str, ...] = ()
    agreement: Agreement | None = None

    @property
    def not_read(self) -> int:
        """How many of the readings that the point wants were not taken."""
        taken = len(self.entry.readings) if self.entry else 0
        return self.point.readings - taken if self.point.is_measured else 0


class PointsResult(Value, kw_only=True):
    machine: Machine
    seen: PointsSeen
    results: tuple[PointResult, ...]

    @property
    def verdict(self) -> str:
        """Of the whole: one that differs decides, then one that cannot be told, then one not looked at."""
        verdicts = {result.verdict for result in self.results}
        return next((word for word in (DIFFERS, CANNOT_TELL, NOT_LOOKED_AT) if word in verdicts), AGREES)

    def of(self, verdict: str) -> tuple[PointResult, ...]:
        return tuple(result for result in self.results if result.verdict == verdict)


def judge_points(machine: Machine, seen: PointsSeen) -> PointsResult:
    """Every point of the machine in the sequence of its file."""
    comparisons = [compare_gauges(readings) for readings in seen.gauges]
    results = []
    for point in machine.points:
        entry = seen.entry(point.name)
        if entry is None or not (entry.found or entry.readings or entry.note):
            results.append(PointResult(point=point, verdict=NOT_LOOKED_AT))
            continue
        readings = entry.readings
        in_limits: tuple[str, ...] = ()
        if point.limits:
            least, most = read_range(point.limits, point.scale)
            in_limits = tuple(within(reading, least, most) for reading in readings)
        agreeing = None
        if point.agree_within:
            suited = [each for each in comparisons if each.readings.scale.dimension == point.scale.dimension]
            agreeing = agreement(readings, read_distance(point.agree_within, point.scale), suited)
        result = PointResult(point=point, verdict="", entry=entry, in_limits=in_limits, agreement=agreeing)
        results.append(
            PointResult(point=point, verdict=_verdict(result), entry=entry, in_limits=in_limits, agreement=agreeing)
        )
    return PointsResult(machine=machine, seen=seen, results=tuple(results))


def _verdict(result: PointResult) -> str:
    """Anything that differs decides; a reading not taken, or nothing but a note, leaves the point open."""
    parts = {result.entry.found, *result.in_limits}
    parts |= {result.agreement.verdict} if result.agreement else set()
    if DIFFERS in parts:
        return DIFFERS
    judged = parts - {""}
    return AGREES if judged == {AGREES} and not result.not_read else CANNOT_TELL
