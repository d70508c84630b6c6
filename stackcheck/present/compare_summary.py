"""The answer of `compare` in at most six sentences."""

from __future__ import annotations

from stackcheck.mechanics.chain import LoopState
from stackcheck.model.finding import Finding
from stackcheck.present.compare_sums import contradiction, gap_span
from stackcheck.present.names import capital_first, listed
from stackcheck.present.verdict_words import headline, not_verified_sentence
from stackcheck.present.words import (
    beside,
    entry_words,
    in_inches_too,
    limits_words,
    named_gap,
    sentence,
    set_words,
    shift_words,
)
from stackcheck.result.comparison import Comparison, FindingResult
from stackcheck.result.points import CANNOT_TELL, DIFFERS, NOT_REACHED

MOST_SENTENCES = 6


def summary(comparison: Comparison) -> str:
    """At most six sentences: verdict, the findings with what they bring out of its limits, not verified."""
    contradicted = _contradicted(comparison)
    room = MOST_SENTENCES - 2 - len(contradicted)
    sentences = [headline(comparison)]
    results = comparison.mistakes
    shown = results if len(results) <= room else results[: room - 1]
    gaps = _gaps_by_finding(comparison)
    for result in shown:
        words = "; ".join(
            [_with_what_follows(comparison, result), *_does(comparison, result), *gaps.pop(result.finding, ())]
        )
        sentences.append(f"{capital_first(words)}.")
    if len(results) > len(shown):
        sentences.append(f"{len(results) - len(shown)} more findings below.")
    sentences += contradicted
    sentences.append(not_verified_sentence(comparison))
    return " ".join(sentences)


def _contradicted(comparison: Comparison) -> list[str]:
    """One sentence for the gaps that were measured otherwise than the parts leave them."""
    inch = in_inches_too(comparison.reference, comparison.found)
    states = [result.as_found for result in comparison.loops if result.as_found.contradicted]
    words = [f"in {state.loop.name}: {contradiction(state, inch)}" for state in states]
    return [f"The list contradicts itself {'; '.join(words)}."] if words else []


def _with_what_follows(comparison: Comparison, result: FindingResult) -> str:
    """The sentence of a finding, with the part that stands in the place of a missing one,
    and the fits that it spoils.
    """
    words = sentence(result.finding, comparison.reference, comparison.found)
    following = _following(comparison, result)
    stands_in = [each.finding for each in following if each.finding.kind == "extra"]
    things = listed(
        entry_words(comparison.reference, comparison.found, n) for finding in stands_in for n in finding.entries
    )
    fits = dict.fromkeys(each.finding.what for each in following if each.finding.kind == "pairing_differs")
    return "; ".join(
        [
            words,
            *([f"in its stead {things}"] if things else []),
            *([f"outside its limits the fit of {listed(fits)}"] if fits else []),
        ]
    )


def _following(comparison: Comparison, result: FindingResult) -> list[FindingResult]:
    number = comparison.findings.index(result)
    return [each for each in comparison.findings if each.follows == number]


def _does(comparison: Comparison, result: FindingResult) -> list[str]:
    """What nobody may miss: what stands elsewhere, and a gap that is set and comes out otherwise."""
    if result.effect is None:
        return []
    inch = in_inches_too(comparison.reference, comparison.found)
    return [*shift_words(result.effect, comparison.reference, inch), *set_words(result.effect, inch)]


def _gaps_by_finding(comparison: Comparison) -> dict[Finding, list[str]]:
    """The gaps as found that are not inside their limits, each beside the finding that it comes from.

    As found, not as one finding alone would leave it: what is measured and what other parts do is in it.
    """
    told = {result.finding.what for result in comparison.mistakes if result.finding.kind == "gap_differs"}
    words: dict[Finding, list[str]] = {}
    for result in comparison.loops:
        state = result.as_found
        moved_by = [each for each in comparison.findings if _moves(each, state.loop.name)]
        if (
            state.verdict not in (DIFFERS, CANNOT_TELL)
            or state.loop.name in told
            or not moved_by
            or gap_span(state) is None
        ):
            continue
        cause = moved_by[0] if moved_by[0].follows is None else comparison.findings[moved_by[0].follows]
        words.setdefault(cause.finding, []).append(_gap_as_found(comparison, state))
    return words


def _moves(result: FindingResult, loop: str) -> bool:
    changes = result.effect.loop_changes if result.effect else ()
    return (
        any(change.loop == loop for change in changes)
        or result.finding.kind == "gap_differs"
        and result.finding.what == loop
    )


def _gap_as_found(comparison: Comparison, state: LoopState) -> str:
    """ "seat gap: overlap 0.23 to 0.27, allowed 0.00 to 0.10"; it says where it counts on what was not reached."""
    inch = in_inches_too(comparison.reference, comparison.found)
    measured = " measured" if state.measured else ""
    words = (
        f"{named_gap(state.loop.name, *gap_span(state), inch)}{measured}, allowed "
        f"{beside(inch, limits_words, state.loop.least_mm, state.loop.most_mm)}"
    )
    deeper = {point.place for point in comparison.points_in(NOT_REACHED)} & {
        *state.loop.open_path,
        *state.loop.closed_path,
    }
    return f"{words}, if what was not reached is as in the reference" if deeper and not measured else words
