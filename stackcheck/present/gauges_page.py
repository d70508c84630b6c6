"""The answer of `gauges` as a page and as a tree of plain values."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.gauges import NOT_JUDGED, REPEATS, Contrast, GaugeComparison, GaugeResult
from stackcheck.model.gauges import GaugeReadings
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.gauge_figures import Figures, digits_of
from stackcheck.present.names import counted, listed

NOT_CALIBRATED = "Compared with each other on one source; none with a calibrated standard."
AGAINST_KNOWN = "Compared with one known size; the rest of the range was not looked at."
NOT_VERIFIED = ("other sizes than this one", "how another hand reads")
"""What such a comparison never sees."""


HEADER = ("gauge", "reads", "good to", "wanted within", "verdict")


def gauges_page(comparison: GaugeComparison) -> list[Block]:
    readings = comparison.readings
    figures = figures_of(readings)
    blocks: list[Block] = [Text(headline(comparison), strong=True)]
    room = f" Room at {readings.room.text}." if readings.room else ""
    rounds = counted(len(readings.rounds), "round")
    blocks.append(Text(f"Read on: {_source_words(readings)}.{room} {rounds}. {_drift_words(comparison, figures)}"))
    blocks.append(Heading(f"AS READ, {figures.unit}"))
    blocks.append(Rows(("gauge", "round by round", "mean"), _read_rows(comparison, figures), right=(2,), wraps=(0, 1)))
    if readings.known is not None:
        blocks.append(Heading(f"AGAINST {readings.known.text}"))
        rows = tuple(_result_row(result, result.from_known, figures) for result in comparison.results)
        blocks.append(Rows(HEADER, rows, right=(2, 3)))
    if len(readings.gauges) > 2:
        leaving_out = f", LEAVING OUT {comparison.odd_one_out}" if comparison.odd_one_out else ""
        blocks.append(Heading(f"AGAINST THE MIDDLE OF THE OTHERS{leaving_out}, {figures.unit}"))
        rows = tuple(_result_row(result, result.from_others, figures) for result in comparison.results)
        columns = 5 if any(result.limit is not None for result in comparison.results) and readings.known is None else 3
        blocks.append(Rows(HEADER[:columns], tuple(row[:columns] for row in rows), right=(2, 3)))
    if comparison.pairs:
        blocks.append(Heading(f"ONE AGAINST ANOTHER, {figures.unit}"))
        blocks.append(Rows(("gauge", "reads", "good to", "verdict"), _pair_rows(comparison, figures), right=(2,)))
    blocks.append(Heading("WHAT TO GO ON WITH"))
    blocks += [Text(_go_on_words(comparison, result, figures), mark=" -  ") for result in comparison.results]
    if any(_wants_rounds(result) for result in comparison.results):
        blocks.append(Text("More rounds narrow this most: how well a reading repeats weighs more than anything else."))
    blocks.append(Heading("NOT VERIFIED"))
    blocks.append(Text(" · ".join(not_verified(comparison))))
    return blocks


def headline(comparison: GaugeComparison) -> str:
    """What the comparison found, in one or two sentences, and what it is not."""
    readings, figures = comparison.readings, figures_of(comparison.readings)
    found = _found_words(comparison, figures)
    words = [f"{readings.title}: {found}" if readings.title else found[:1].upper() + found[1:]]
    words += [line for line in (_judged_words(comparison, figures),) if line]
    words.append(AGAINST_KNOWN if readings.known else NOT_CALIBRATED)
    return " ".join(words)


def _found_words(comparison: GaugeComparison, figures: Figures) -> str:
    results, unit = comparison.results, figures.unit
    if len(results) == 1:
        only = results[0]
        return f"{only.gauge.name} reads {_reads(only.from_known, figures)} than the known size."
    if comparison.odd_one_out:
        odd = comparison.result_of(comparison.odd_one_out)
        rest = [
            pair.contrast.difference for pair in comparison.pairs if odd.gauge.name not in (pair.first, pair.second)
        ]
        others = f"the other {len(results) - 1} agree within {figures.good_to(max(map(abs, rest)))} {unit}"
        return (
            f"{others}; the odd one out is {odd.gauge.name}: "
            f"it reads {_reads(odd.from_others, figures)} than their middle."
        )
    widest = comparison.widest
    spread = (
        f"the {counted(len(results), 'gauge')} read within {figures.size(widest.contrast.difference)} {unit} "
        "of one another"
    )
    return f"{spread}. No odd one out: {comparison.why_none}."


def _judged_words(comparison: GaugeComparison, figures: Figures) -> str:
    if comparison.verdict == NOT_JUDGED:
        judged = [result.gauge.name for result in comparison.results if result.verdict != NOT_JUDGED]
        some = f" but for {listed(judged)}" if judged and len(judged) < len(comparison.results) else ""
        return f"How near they should be is not said{some}, so that is not judged."
    within = comparison.readings.agree_within
    limit = f"{figures.size(within)} {figures.unit}" if within is not None else "what each is taken to be good to"
    return {
        "agrees": f"That agrees with {limit}.",
        "differs": f"That differs by more than {limit}.",
        "cannot tell": f"Cannot tell whether that is within {limit}.",
    }[comparison.verdict]


def _reads(contrast: Contrast, figures: Figures) -> str:
    """ "0.050 mm more (good to 0.011)"."""
    words = figures.more(contrast.difference)
    good_to = (
        "what that is good to is not known"
        if contrast.good_to is None
        else f"good to {figures.good_to(contrast.good_to)}"
    )
    amount, _, side = words.partition(" ")
    return f"{amount} {figures.unit} {side} ({good_to})" if side != "same" else f"no more ({good_to})"


def _source_words(readings: GaugeReadings) -> str:
    if readings.known is None:
        return readings.source
    from_where = (
        f" ({readings.known.known_from})" if readings.known.known_from else ", and nobody says from where that is known"
    )
    return f"{readings.source}, known to be {readings.known.text}{from_where}"


def _drift_words(comparison: GaugeComparison, figures: Figures) -> str:
    readings, first = comparison.readings, comparison.readings.gauges[0].name
    if comparison.drift is None:
        return "The first gauge was not read again: whether the source moved was not looked at."
    if all(turn.again is None or turn.again.value == turn.read[0].value for turn in readings.rounds):
        return f"{first}, read again at the end, shows the same."
    words = figures.more(comparison.drift)
    moved = "on average the same" if words == "the same" else f"{words} on average"
    return f"{first}, read again at the end of a round, shows {moved}; spread evenly over the round."


def _read_rows(comparison: GaugeComparison, figures: Figures) -> tuple[tuple[str, ...], ...]:
    rounds = comparison.readings.rounds
    rows = [
        (result.gauge.name, "  ".join(turn.read[number].text for turn in rounds), figures.fine(result.mean))
        for number, result in enumerate(comparison.results)
    ]
    if comparison.drift is not None:
        again = "  ".join(turn.again.text if turn.again else "not read" for turn in rounds)
        rows.append((f"{rows[0][0]} again", again, ""))
    return tuple(rows)


def _result_row(result: GaugeResult, contrast: Contrast, figures: Figures) -> tuple[str, ...]:
    limit = "" if result.limit is None else figures.good_to(result.limit)
    return (
        result.gauge.name,
        figures.more(contrast.difference),
        figures.good_to(contrast.good_to),
        limit,
        result.verdict,
    )


def _pair_rows(comparison: GaugeComparison, figures: Figures) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (
            f"{pair.first} against {pair.second}", figures.more(pair.contrast.difference),
            figures.good_to(pair.contrast.good_to), pair.verdict,
        )
        for pair in comparison.pairs
    )  # fmt: skip


def _go_on_words(comparison: GaugeComparison, result: GaugeResult, figures: Figures) -> str:
    name, unit = result.gauge.name, figures.unit
    if result.correction is not None:
        sign = "add" if result.correction >= 0 else "take off"
        change = (
            f"{sign} {figures.fine(abs(result.correction))} {unit}"
            if float(figures.fine(result.correction))
            else "no correction"
        )
        if result.good_to is None:
            return f"{name}: {change}; what a reading is then good to is not known: {result.needs}"
        return f"{name}: {change}; one reading near this size is then good to {figures.good_to(result.good_to)} {unit}"
    if result.good_to is None:
        return f"{name}: correction not known; what a reading is good to is not known: {result.needs}"
    against = "the middle of the others" if len(comparison.results) > 2 else "the other"
    return (
        f"{name}: correction not known; one reading as it stands is good "
        f"to {figures.good_to(result.good_to)} {unit} against {against}"
    )


def _wants_rounds(result: GaugeResult) -> bool:
    own = result.from_known or result.from_others
    return own.good_to is not None and own.budget.largest.name == REPEATS


def not_verified(comparison: GaugeComparison) -> list[str]:
    items = [] if comparison.readings.known else ["what all these gauges have in common"]
    if comparison.drift is None and len(comparison.results) > 1:
        items.append("whether the source moved while reading")
    if len(comparison.readings.rounds) < 2:
        items.append("how well a reading repeats")
    items += NOT_VERIFIED
    return items if comparison.readings.room else [*items, "whether source and gauges were equally warm"]


def figures_of(readings: GaugeReadings) -> Figures:
    step = min(figure.step for turn in readings.rounds for figure in turn.read)
    return Figures(readings.scale, digits_of(step, readings.scale))


def gauges_json(comparison: GaugeComparison) -> dict[str, Any]:
    """`gauges`: every amount in `unit`."""
    readings, figures = comparison.readings, figures_of(comparison.readings)
    known = readings.known
    return {
        "verdict": comparison.verdict,
        "sentence": headline(comparison),
        "title": readings.title,
        "source": readings.source,
        "dimension": readings.scale.dimension,
        "unit": figures.unit,
        "known": None
        if known is None
        else {
            "value": _rounded(known.value, figures),
            "good_to": _rounded(known.good_to, figures),
            "from": known.known_from,
        },
        "room": readings.room.text if readings.room else "",
        "agree_within": _rounded(readings.agree_within, figures),
        "rounds": len(readings.rounds),
        "drift": _rounded(comparison.drift, figures),
        "odd_one_out": comparison.odd_one_out,
        "why_none": comparison.why_none,
        "gauges": [
            {
                "name": result.gauge.name,
                "how": result.gauge.how,
                "mean": _rounded(result.mean, figures),
                "from_others": _contrast(result.from_others, figures),
                "from_known": _contrast(result.from_known, figures),
                "limit": _rounded(result.limit, figures),
                "verdict": result.verdict,
                "correction": _rounded(result.correction, figures),
                "good_to": _rounded(result.good_to, figures),
                "needs": result.needs,
            }
            for result in comparison.results
        ],
        "pairs": [
            {"first": pair.first, "second": pair.second, "verdict": pair.verdict} | _contrast(pair.contrast, figures)
            for pair in comparison.pairs
        ],
        "not_verified": not_verified(comparison),
    }


def _contrast(value: Contrast | None, figures: Figures) -> dict[str, Any] | None:
    if value is None:
        return None
    degrees = value.budget.degrees_of_freedom if value.good_to is not None else None
    return {
        "difference": _rounded(value.difference, figures), "good_to": _rounded(value.good_to, figures),
        "degrees_of_freedom": None if degrees is None or degrees > 1e6 else round(degrees, 1),
    }  # fmt: skip


def _rounded(value: float | None, figures: Figures) -> float | None:
    return None if value is None else round(figures.shown(value), 6) + 0.0
