"""The points of a machine: the list to look at, and what was found there, as pages and as trees of plain values."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.agreeing import COMPARED, Agreement
from stackcheck.mechanics.gauges import AGREES, CANNOT_TELL, DIFFERS
from stackcheck.model.machine import Machine, Point
from stackcheck.present.blocks import Block, Heading, Text
from stackcheck.present.gauge_figures import Figures, digits_of
from stackcheck.present.names import counted, listed
from stackcheck.result.machine_points import NOT_LOOKED_AT, PointResult, PointsResult

HEADINGS = {DIFFERS: "DIFFERS", CANNOT_TELL: "CANNOT TELL", NOT_LOOKED_AT: "NOT LOOKED AT", AGREES: "AGREES"}
UNSEEN = "what nobody listed here"


def list_page(machine: Machine) -> list[Block]:
    """What is to be looked at, in the sequence of the machine's file."""
    blocks: list[Block] = [
        Text(f"{machine.name}: {counted(len(machine.points), 'point')} to look at that are no stack.", strong=True)
    ]
    for number, point in enumerate(machine.points, start=1):
        blocks.append(Text(f"{point.name}: {point.look}{_wanted_behind(point)}", mark=f"{number:>3}  "))
    return blocks


def _wanted_behind(point: Point) -> str:
    words = [f"{point.readings} readings"] if point.readings > 1 else []
    words += [f"within {_range_words(point)}"] if point.limits else []
    words += [f"to agree within {point.agree_within}"] if point.agree_within else []
    if not words:
        return ""
    source = f" ({point.source})" if point.source else " (no source given)" if point.is_measured else ""
    return f"; {', '.join(words)}{source}"


def _range_words(point: Point) -> str:
    return point.limits.replace("..", " to ")


def points_page(result: PointsResult) -> list[Block]:
    """The sentence, then every point under what came of it, most serious first."""
    blocks: list[Block] = [Text(headline(result), strong=True)]
    for verdict, heading in HEADINGS.items():
        found = result.of(verdict)
        if found:
            blocks.append(Heading(heading))
            blocks += [Text(point_sentence(each), mark=" -  ") for each in found]
    blocks.append(Heading("NOT VERIFIED"))
    blocks.append(Text(" · ".join(not_verified(result))))
    return blocks


def headline(result: PointsResult) -> str:
    """One of the three forms: agrees, differs, cannot tell; never without what was not verified."""
    total, name = len(result.results), f'the points of "{result.machine.name}"'
    differs, unsure, unseen = (result.of(verdict) for verdict in (DIFFERS, CANNOT_TELL, NOT_LOOKED_AT))
    if differs:
        words = f"Differs from {name} in {len(differs)} of {total}: {listed(each.point.name for each in differs)}"
        words += f"; cannot tell in {len(unsure)}" if unsure else ""
    elif unsure or len(unseen) == total:
        words = f"Cannot tell whether it agrees with {name}"
        words += f": {listed(each.point.name for each in unsure)}" if unsure else ""
    else:
        words = f"Agrees with {name} in {len(result.of(AGREES))} of {total}"
    words += f"; {len(unseen)} not looked at" if unseen else ""
    return f"{words}. Not verified: {', '.join(not_verified(result)[:3])}."


def point_sentence(result: PointResult) -> str:
    """ "plug gap: 0.65 feeler; wanted 0.6 to 0.7 mm"."""
    point, entry = result.point, result.entry
    if entry is None:
        return f"{point.name}: {point.look}"
    words = []
    if entry.readings and not result.agreement:
        words.append(listed(reading.text for reading in entry.readings))
    if result.agreement:
        words += _agreement_words(result, result.agreement)
    if point.limits:
        words.append(_limits_words(result))
    if point.is_measured and result.not_read:
        words.append("no reading" if not entry.readings else f"{len(entry.readings)} of {point.readings} read")
    if entry.found and not (point.is_measured and entry.readings):
        words.append(f"looked at: {entry.found}")
    if not words and not entry.found:
        words.append("nobody says what came of it")
    if entry.note:
        words.append(f'"{entry.note}"')
    return f"{point.name}: {'; '.join(words)}"


def _limits_words(result: PointResult) -> str:
    wanted = f"wanted {_range_words(result.point)}"
    if CANNOT_TELL not in result.in_limits or DIFFERS in result.in_limits:
        return wanted
    reading = result.entry.readings[result.in_limits.index(CANNOT_TELL)]
    if reading.good_to is None:
        return f"{wanted}; nothing says what the gauge is good to"
    figures = _figures(result)
    return f"{wanted}; {reading.text} is good to {figures.good_to(reading.good_to)} {figures.unit}, so it may be either"


def _agreement_words(result: PointResult, agreeing: Agreement) -> list[str]:
    figures, readings = _figures(result), result.entry.readings
    texts = [f"{reading.text} ({reading.gauge})" if agreeing.by == COMPARED else reading.text for reading in readings]
    first, second = readings[agreeing.first], readings[agreeing.second]
    apart = figures.fine(abs(first.value - second.value))
    words = [listed(texts), f"{apart} {figures.unit} apart as read" + (" at most" if len(readings) > 2 else "")]
    if agreeing.by == COMPARED:
        gauges = figures.more(agreeing.gauges_differ)
        words.append(
            f"on one source {first.gauge} reads {gauges}{' as' if gauges == 'the same' else ' than'} {second.gauge}: "
            f"without that {figures.fine(abs(agreeing.difference))} apart, good to {figures.good_to(agreeing.good_to)}"
        )
    elif agreeing.good_to is None:
        words.append(agreeing.by)
    else:
        words.append(f"{agreeing.by}, good to {figures.good_to(agreeing.good_to)}")
    return [*words, f"wanted within {result.point.agree_within}"]


def _figures(result: PointResult) -> Figures:
    scale = result.point.scale
    steps = [reading.step for reading in result.entry.readings if reading.step > 0]
    return Figures(scale, digits_of(min(steps, default=scale.factor), scale))


def not_verified(result: PointsResult) -> list[str]:
    """Not looked at, then too rough to tell, then gauges nobody compared, then what such a list never sees."""
    items = [f"{each.point.name} (not looked at)" for each in result.of(NOT_LOOKED_AT)]
    items += [f"{each.point.name} (cannot tell)" for each in result.of(CANNOT_TELL)]
    read = [reading for each in result.results if each.entry for reading in each.entry.readings]
    compared = {gauge.name for readings in result.seen.gauges for gauge in readings.gauges}
    alone = sorted({reading.gauge for reading in read if reading.gauge} - compared)
    if alone:
        items.append(f"{listed(alone)} compared with anything")
    return [*items, UNSEEN]


def list_json(machine: Machine) -> dict[str, Any]:
    """`points MACHINE`."""
    return {"machine": {"id": machine.id, "name": machine.name}, "points": [_point(point) for point in machine.points]}


def points_json(result: PointsResult) -> dict[str, Any]:
    """`points MACHINE FILE`."""
    return {
        "machine": {"id": result.machine.id, "name": result.machine.name},
        "verdict": result.verdict,
        "sentence": headline(result),
        "by": result.seen.by,
        "date": result.seen.date,
        "points": [
            _point(each.point)
            | {
                "verdict": each.verdict,
                "found": each.entry.found if each.entry else "",
                "note": each.entry.note if each.entry else "",
                "read": _readings(each),
                "agreement": _agreement(each),
                "sentence": point_sentence(each),
            }
            for each in result.results
        ],
        "not_verified": not_verified(result),
    }


def _point(point: Point) -> dict[str, Any]:
    return {
        "name": point.name, "look": point.look, "readings": point.readings, "limits": point.limits,
        "agree_within": point.agree_within, "unit": point.scale.unit if point.scale else "", "source": point.source,
    }  # fmt: skip


def _readings(result: PointResult) -> list[dict[str, Any]]:
    if result.entry is None:
        return []
    verdicts = result.in_limits or ("",) * len(result.entry.readings)
    factor = result.point.scale.factor if result.point.scale else 1.0
    return [
        {
            "as_typed": reading.text,
            "value": round(reading.value / factor, 6),
            "gauge": reading.gauge,
            "good_to": None if reading.good_to is None else round(reading.good_to / factor, 6),
            "within_limits": verdict,
        }
        for reading, verdict in zip(result.entry.readings, verdicts)
    ]


def _agreement(result: PointResult) -> dict[str, Any] | None:
    own = result.agreement
    if own is None:
        return None
    factor = result.point.scale.factor
    return {
        "verdict": own.verdict,
        "first": own.first + 1,
        "second": own.second + 1,
        "difference": round(own.difference / factor, 6),
        "gauges_differ": round(own.gauges_differ / factor, 6),
        "good_to": None if own.good_to is None else round(own.good_to / factor, 6),
        "by": own.by,
    }
