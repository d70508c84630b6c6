"""`compare`: a reference and what was found -> everything that can be said about the difference.

The engines are asked one after the other: who stands where (compare), what that does to lengths and gaps (mechanics),
then the checks that need both. The verdict is one of four words, and is worked out here in one place.
"""

from __future__ import annotations

from stackcheck.compare import explanations
from stackcheck.mechanics.arrangement import as_believed, as_wanted, standing_in
from stackcheck.mechanics.disc_groups import DiscGroups
from stackcheck.mechanics.effects import Effect, discs_laid, effect
from stackcheck.mechanics.symptoms import Tried, try_symptoms
from stackcheck.model.finding import NOTES, SEQUENCE, Explanation, Finding, Missing, Swapped
from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.result.alike import told_as_one
from stackcheck.result.beside import told_in_its_stack
from stackcheck.result.cautions import Caution, triggered
from stackcheck.result.checks import condition_findings, gap_findings, measured_size_findings, pairing_findings
from stackcheck.result.following import Told, causes
from stackcheck.result.lengths import LoopResult, StackResult, lengths
from stackcheck.result.moved import told_as_moved
from stackcheck.result.points import (
    AGREES,
    CANNOT_TELL,
    DIFFERS,
    NOT_LOOKED_AT,
    UNSETTLED,
    Point,
    points,
)
from stackcheck.value import Value, replace

VERDICTS = (AGREES, DIFFERS, CANNOT_TELL, NOT_LOOKED_AT)
EXIT_STATUS = {AGREES: 0, DIFFERS: 1, CANNOT_TELL: 2, NOT_LOOKED_AT: 2}


class FindingResult(Value, kw_only=True):
    """One finding with what it does, taken alone, to stack lengths, gaps and watched positions.

    `follows` is the number of the finding that it follows from, counted from 0; None for a mistake of its own.
    """

    finding: Finding
    effect: Effect | None
    follows: int | None = None


class Comparison(Value, kw_only=True):
    """Everything that `compare` answers; `verdict` is one of `VERDICTS`.

    `discs` is how disc springs lie by the reference and as found, with all findings together.
    """

    reference: Reference
    found: Found
    best: Explanation
    others: tuple[Explanation, ...]
    findings: tuple[FindingResult, ...]
    notes: tuple[Finding, ...]
    points: tuple[Point, ...]
    stacks: tuple[StackResult, ...]
    loops: tuple[LoopResult, ...]
    cautions: tuple[Caution, ...]
    verdict: str
    symptoms: tuple[Tried, ...] = ()
    discs: tuple[tuple[DiscGroups, DiscGroups], ...] = ()

    @property
    def exit_status(self) -> int:
        return EXIT_STATUS[self.verdict]

    @property
    def mistakes(self) -> tuple[FindingResult, ...]:
        """The findings that follow from no other one: what the headline counts."""
        return tuple(result for result in self.findings if result.follows is None)

    def points_in(self, *states: str) -> tuple[Point, ...]:
        return tuple(point for point in self.points if point.state in states)


def compare(reference: Reference, found: Found) -> Comparison:
    """Compare what was found with its reference; the same input gives the same answer."""
    best, *others = (
        told_as_one(reference, _completed(reference, found, _with_empty(found, each)))
        for each in explanations(_as_seen(reference, found), found)
    )
    best = told_in_its_stack(reference, found, told_as_moved(reference, found, best))
    stack_results, loop_results = lengths(reference, found, best)
    states = tuple(result.as_found for result in loop_results)
    effects = tuple((finding, effect(reference, found, finding, explanation=best)) for finding in best.findings)
    later = (
        *gap_findings(states, effects),
        *measured_size_findings(reference, found),
        *pairing_findings(reference, found, best),
        *condition_findings(found, best),
    )
    findings = _in_sequence(reference, best, [*effects, *((finding, None) for finding in later)])
    all_points = points(reference, found, best, states)
    tried = (
        try_symptoms(reference, found, best, tuple((result.finding, result.effect) for result in findings))
        if found.symptoms
        else ()
    )
    return Comparison(
        reference=reference,
        found=found,
        best=best,
        others=tuple(others),
        findings=findings,
        notes=tuple(note for note in best.notes if note.kind in NOTES),
        points=all_points,
        stacks=stack_results,
        loops=loop_results,
        cautions=triggered(reference, found, findings, all_points),
        verdict=verdict(findings, all_points),
        symptoms=tried,
        discs=discs_laid(as_wanted(reference), as_believed(reference, found, best))
        if any(its.discs for _, its in effects)
        else (),
    )


def _in_sequence(reference: Reference, best: Explanation, told: list[Told]) -> tuple[FindingResult, ...]:
    """Most serious first, and what follows from a finding right behind it."""
    told = sorted(told, key=lambda each: SEQUENCE.index(each[0].kind))
    cause = causes(reference, best, told)
    sequence = sorted(range(len(told)), key=lambda n: (n, -1) if cause[n] is None else (cause[n], n))
    numbers = {before: now for now, before in enumerate(sequence)}
    return tuple(
        FindingResult(finding=told[n][0], effect=told[n][1], follows=None if cause[n] is None else numbers[cause[n]])
        for n in sequence
    )


def _as_seen(reference: Reference, found: Found) -> Reference:
    """The reference with every place that nobody looked at allowed to be empty: what was not seen is not missing."""
    if not found.not_seen:
        return reference
    places = (
        replace(place, may_be_absent="not seen") if place.name in found.not_seen else place
        for place in reference.places
    )
    return replace(reference, places=tuple(places))


def _with_empty(found: Found, explanation: Explanation) -> Explanation:
    """The explanation with every place that was seen empty missing, also where the teardown has not gone farther."""
    notes = [note for note in explanation.notes if note.kind == "not_reached" and note.places[0] in found.seen_empty]
    if not notes:
        return explanation
    empty = {note.places[0] for note in notes}
    missing = (Missing(places=note.places, evidence=("its place was seen empty",)) for note in notes)
    return replace(
        explanation,
        findings=(*explanation.findings, *missing),
        notes=tuple(note for note in explanation.notes if note not in notes),
        line=tuple(
            standing for standing in explanation.line if standing.entry is not None or standing.home not in empty
        ),
    )


def _completed(reference: Reference, found: Found, explanation: Explanation) -> Explanation:
    """The explanation with the reference's own part standing in every place that nobody looked at:
    nothing else is claimed.
    """
    line = list(explanation.line)
    homes = {standing.home for standing in line}
    swapped = [finding.places for finding in explanation.findings if isinstance(finding, Swapped)]
    stands = {**{one: other for one, other in swapped}, **{other: one for one, other in swapped}}
    for name in reference.line if found.not_seen else ():
        if name in found.not_seen and name not in homes:
            line.insert(
                _where_it_belongs(reference, name, [stands.get(standing.home, standing.home) for standing in line]),
                standing_in(reference.place(name)),
            )
    return explanation if len(line) == len(explanation.line) else replace(explanation, line=tuple(line))


def _where_it_belongs(reference: Reference, name: str, line: list[str | None]) -> int:
    """The position behind a place that comes before this one,
    with the fewest places on the other side than by the reference.
    """
    after = set(reference.line[reference.line.index(name) + 1 :])
    sides = [(place in after) - (place is not None and place not in after) for place in line]
    behind = [position for position in range(len(line) + 1) if position == 0 or sides[position - 1] < 0]
    return min(behind, key=lambda position: (sum(sides[:position]) - sum(sides[position:]), -position))


def verdict(findings: tuple[FindingResult, ...], all_points: tuple[Point, ...]) -> str:
    """Differs before cannot tell before not looked at; agrees only where nothing is left unsettled."""
    if findings:
        return DIFFERS
    open_points = [point for point in all_points if point.state in UNSETTLED]
    if any(point.state == CANNOT_TELL or point.blocks for point in open_points):
        return CANNOT_TELL
    return NOT_LOOKED_AT if open_points else AGREES
