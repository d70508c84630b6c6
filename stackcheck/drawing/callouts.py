"""The few words that stand at an item or a gap in a picture; whole sentences stand in the text beside it."""

from __future__ import annotations

import textwrap

from stackcheck.model.finding import CountDiffers, Finding, Missing, SizeDiffers
from stackcheck.model.reference import Gap
from stackcheck.present.words import LABELS, gap_words, limits_words, mm
from stackcheck.result.comparison import Comparison
from stackcheck.value import Value

WIDEST, NARROWER = 12, 9
"""Letters to a line of a label: of a name, of words of difference."""


class Callout(Value, kw_only=True):
    """Words for whatever bears one of the keys (place names, entry numbers); with no key, for the list as a whole."""

    keys: tuple[object, ...]
    words: tuple[str, ...]


def callouts(comparison: Comparison) -> list[Callout]:
    """One for every finding; gaps carry their own."""
    return [_callout(result.finding) for result in comparison.findings if result.finding.kind != "gap_differs"]


def _callout(finding: Finding) -> Callout:
    label = _lines(LABELS[finding.kind], NARROWER)
    if finding.kind in ("entered_twice", "entered_from_other_end"):
        return Callout(keys=(), words=(LABELS[finding.kind],))
    if isinstance(finding, CountDiffers):
        return Callout(keys=finding.places, words=(*label, f"{finding.found} for {finding.wanted}"))
    if isinstance(finding, SizeDiffers):
        return Callout(keys=finding.entries or finding.places, words=(*label, mm(finding.reading.value_mm)))
    if isinstance(finding, Missing):
        return Callout(keys=finding.places, words=label)
    return Callout(keys=finding.entries or finding.places, words=label)


def unseen_words(comparison: Comparison, home: str | None) -> tuple[str, ...]:
    """Why nothing is said of a part: not reached, inside a unit that stayed closed, or passed without a look."""
    for kind, words in (("not_reached", "not reached"), ("not_verified", "not stripped")):
        if any(home in note.places for note in comparison.notes if note.kind == kind):
            return tuple(words.split())
    return ("not seen",)


BY_THE_SUM = "by the sum"


def gap_label(comparison: Comparison, gap: Gap, *, as_found: bool, drawn_mm: float) -> tuple[str, ...]:
    """Name and figure of a gap, as measured or summed; nothing for a gap without limits or sum.

    Where parts had to give way in the picture, the sum is another one than what is drawn: it is called so.
    """
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
    summed = (
        as_found
        and state.measured is None
        and state.gap is not None
        and abs(max(state.gap.nominal_mm, 0.0) - drawn_mm) > _ANOTHER_MM
    )
    return (*_lines(differs, NARROWER), *_lines(gap.name), *((BY_THE_SUM,) if summed else ()), figure)


_ANOTHER_MM = 0.5


def _figure(gap_mm: float) -> str:
    return mm(gap_mm) if gap_mm >= 0 else gap_words(gap_mm, gap_mm)


def _lines(words: str, widest: int = WIDEST) -> tuple[str, ...]:
    lines = textwrap.wrap(words, widest, break_long_words=True)
    return tuple(lines if len(lines) <= 3 else [*lines[:2], lines[2][: widest - 1] + "…"])
