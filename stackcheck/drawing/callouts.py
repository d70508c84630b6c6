"""The few words that stand at an item or a gap in a picture; whole sentences stand in the text beside it."""

from __future__ import annotations

import textwrap

from stackcheck.model.reference import Gap
from stackcheck.present.words import LABELS, gap_words, limits_words, mm
from stackcheck.result.comparison import Comparison
from stackcheck.value import Value

WIDEST = 13
"""Letters to a line of a label."""


class Callout(Value, kw_only=True):
    """Words for whatever bears one of the keys (place names, entry numbers); with no key, for the list as a whole."""

    keys: tuple[object, ...]
    words: tuple[str, ...]


def callouts(comparison: Comparison) -> list[Callout]:
    """One or more for every finding; gaps carry their own."""
    told = []
    for result in comparison.findings:
        finding = result.finding
        label = LABELS[finding.kind]
        if finding.kind in ("entered_twice", "entered_from_other_end"):
            told.append(Callout(keys=(), words=(label,)))
        elif finding.kind == "count_differs":
            told.append(Callout(keys=finding.places, words=(*_lines(label), f"{finding.found} for {finding.wanted}")))
        elif finding.kind == "extra":
            told.append(Callout(keys=finding.entries, words=(label,)))
        elif finding.kind == "size_differs":
            told.append(Callout(keys=finding.places, words=(*_lines(label), mm(finding.reading.value_mm))))
        elif finding.kind != "gap_differs":
            told.append(Callout(keys=finding.places or finding.entries, words=_lines(label)))
    return told


def gap_label(comparison: Comparison, gap: Gap, *, as_found: bool) -> tuple[str, ...]:
    """Name and figure of a gap, as measured or summed; nothing for a gap without limits or sum."""
    result = next((each for each in comparison.loops if each.as_found.loop.name == gap.name), None)
    if result is None:
        return ()
    state = result.as_found if as_found else result.reference
    loop = state.loop
    differs = LABELS["gap_differs"] if as_found and state.verdict == "differs" else ""
    if as_found and state.measured is not None:
        figure = _figure(state.measured.value_mm)
    elif state.gap is not None:
        figure = _figure(state.gap.nominal_mm)
    elif as_found:
        figure = "not known"
    else:
        figure = limits_words(loop.least_mm, loop.most_mm)
    return (*_lines(differs), *_lines(gap.name), figure)


def _figure(gap_mm: float) -> str:
    return mm(gap_mm) if gap_mm >= 0 else gap_words(gap_mm, gap_mm)


def _lines(words: str) -> tuple[str, ...]:
    lines = textwrap.wrap(words, WIDEST, break_long_words=True)
    return tuple(lines if len(lines) <= 3 else [*lines[:2], lines[2][: WIDEST - 1] + "…"])
