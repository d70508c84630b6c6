"""In which respects it agrees: a row each, what differs by name, and what of it has an effect that can be computed."""

from __future__ import annotations

from typing import Any

from stackcheck.model.found import Found
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Rows
from stackcheck.present.force_path_words import force_sentence
from stackcheck.present.names import in_place_words, listed, place_words, size_words, the
from stackcheck.present.words import LABELS
from stackcheck.result.agreement import CONDITION, GAPS, OUTSIDE, SIZES, Aspect, Told, has_effect
from stackcheck.result.comparison import FindingResult
from stackcheck.result.points import AGREES, CANNOT_TELL, DIFFERS, Point

TIGHTENED = "tightened as told below: "
WANTED = "against what is wanted: "
NO_EFFECT = "no effect on lengths, gaps or forces computed"


def agreement_blocks(aspects: tuple[Aspect, ...], reference: Reference, found: Found) -> list[Block]:
    rows = tuple((aspect.name, in_place_words(reference, aspect_words(aspect, reference, found))) for aspect in aspects)
    return [Heading("BESIDE THE REFERENCE, each respect by itself"), Rows(("", ""), rows, wraps=(1,))]


def aspect_words(aspect: Aspect, reference: Reference, found: Found) -> str:
    """ "differs: spacer tube missing; agrees in 9 of 10; not looked at in 1"."""
    if aspect.told:
        computed, wanted = (
            _told_words([each for each in aspect.told if each.is_wanted == is_]) for is_ in (False, True)
        )
        return "; ".join([*([TIGHTENED + computed] if computed else []), *([WANTED + wanted] if wanted else [])])
    if aspect.name == GAPS:
        named = {
            state: [point.gap for point in aspect.points if point.state == state]
            for state in (DIFFERS, *(point.state for point in aspect.points))
        }
        return "; ".join(f"{state}: {', '.join(gaps)}" for state, gaps in named.items() if gaps)
    states = [point.state for point in aspect.points]
    words = (
        [
            (
                f"{HOW_CALLED.get(aspect.name, DIFFERS)}: "
                f"{', '.join(finding_words(result, reference, found) for result in aspect.findings)}"
            )
        ]
        if aspect.findings
        else []
    )
    words += (
        [f"{AGREES} in {states.count(AGREES)} of {len(states)}"]
        if AGREES in states
        else []
        if aspect.findings or states
        else [AGREES]
    )
    rest = dict.fromkeys(state for state in states if state != AGREES and not (state == DIFFERS and aspect.findings))
    if aspect.name == SIZES and DIFFERS in rest:  # those of a part that is missing, or another one
        del rest[DIFFERS]
        words.insert(0, f"{DIFFERS}: {_sizes_words(aspect.points, reference)}")
    return "; ".join([*words, *(f"{state} in {states.count(state)}" for state in rest)])


def _sizes_words(points: tuple[Point, ...], reference: Reference) -> str:
    """ "bore and length of the left hub bearing"."""
    at: dict[str, list[str]] = {}
    for point in points:
        if point.state == DIFFERS:
            at.setdefault(point.place, []).append(size_words(point.what))
    return ", ".join(f"{listed(sizes)} of {the(place_words(reference, place))}" for place, sizes in at.items())


HOW_CALLED = {CONDITION: "noted"}


def finding_words(result: FindingResult, reference: Reference, found: Found) -> str:
    """ "left short collar and right long collar (swapped)", "length of the spacer tube"."""
    finding = result.finding
    if finding.kind == "pairing_differs":
        return finding.what
    names = [place_words(reference, place) for place in finding.places] if finding.kind != "extra" else []
    said = (
        listed(dict.fromkeys(names or [f"{found.entry(number).what}, entry {number}" for number in finding.entries]))
        or "the list"
    )
    if finding.kind == "size_differs":
        return f"{size_words(finding.size_name)} of {the(said)}"
    if finding.kind == "condition":
        return said
    computed = has_effect(result.effect) or force_sentence(finding, result.effect, reference)
    return f"{said} ({LABELS[finding.kind].lower()}{'' if computed else f'; {NO_EFFECT}'})"


def _told_words(told: list[Told]) -> str:
    """ "differs: tension of the axle nut; agrees: bearings (seat gap)", the heaviest first."""
    by_verdict = {
        verdict: [f"{each.what}{f', {each.why}' if each.why else ''}" for each in told if each.verdict == verdict]
        for verdict in (OUTSIDE, DIFFERS, CANNOT_TELL, AGREES)
    }
    return "; ".join(f"{verdict}: {', '.join(names)}" for verdict, names in by_verdict.items() if names)


def agreement_tree(aspects: tuple[Aspect, ...]) -> list[dict[str, Any]]:
    return [
        {
            "respect": each.name,
            "verdict": each.verdict,
            "forces": [
                {"what": told.what, "verdict": told.verdict, "why": told.why, "is_wanted": told.is_wanted}
                for told in each.told
            ],
        }
        for each in aspects
    ]
