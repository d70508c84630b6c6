"""The verdict in its one form, what a point is about, and what no comparison of this list has verified.

The reference is always named with its revision and state; nothing says whether a machine may be used.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.model.part import SIZE_NAMES
from stackcheck.model.reference import Reference
from stackcheck.present.names import counted, listed, place_words, the
from stackcheck.present.words import entry_words, grade_words, reference_words
from stackcheck.result.checks import not_judged
from stackcheck.result.comparison import Comparison
from stackcheck.result.points import (
    AGREES,
    CANNOT_TELL,
    DIFFERS,
    FACING,
    GAP,
    NOT_LOOKED_AT,
    NOT_REACHED,
    NOT_VERIFIED,
    PRESENCE,
    Point,
)


def size_or_feature(reference: Reference, point: Point) -> str:
    """ "length", "outside diameter", "spring side": what of its part a point is about."""
    if point.what == FACING:
        return reference.part_at(point.place).feature
    return (
        SIZE_NAMES.get(point.what, point.what).partition(",")[0].removesuffix(" along the axis").removesuffix(" (OD)")
    )


def point_words(reference: Reference, point: Point) -> str:
    """What a point is about: "spring side of the left hub seal", "length of the spacer tube", "seat gap"."""
    if point.what == GAP:
        return point.gap
    name = place_words(reference, point.place)
    return name if point.what == PRESENCE else f"{size_or_feature(reference, point)} of {the(name)}"


def points_words(reference: Reference, points: Iterable[Point]) -> list[str]:
    """Each point once; a place that is open as a whole is not told again for its facing and sizes."""
    points = list(points)
    whole = {point.place for point in points if point.what == PRESENCE}
    return [point_words(reference, point) for point in points if point.what == PRESENCE or point.place not in whole]


def headline(comparison: Comparison) -> str:
    """The one verdict form: agrees, differs or cannot tell, the reference named, and the counts."""
    reference = reference_words(comparison.reference)
    unsure = comparison.points_in(CANNOT_TELL)
    if comparison.verdict == DIFFERS:
        deeper = len(points_words(comparison.reference, comparison.points_in(NOT_REACHED)))
        so_far = f" so far, {counted(deeper, 'place')} not reached" if deeper else ""
        also = f"; cannot tell in {len(unsure)}" if unsure else ""
        return f"Differs from {reference} in {counted(len(comparison.mistakes), 'point')}{so_far}{also}."
    if comparison.verdict == CANNOT_TELL:
        far = ["nothing differs so far"] if comparison.points_in(NOT_REACHED) else []
        return f"Cannot tell whether it agrees with {reference}: {'; '.join([*far, *open_words(comparison)])}."
    agreeing = len(comparison.points_in(AGREES))
    total = len(comparison.points)
    rest = open_words(comparison)
    return f"Agrees with {reference} in {agreeing} of {total} points{'; ' + '; '.join(rest) if rest else ''}."


def open_words(comparison: Comparison) -> list[str]:
    """Which points are unsettled, by state, the blocking ones first; at most three named for each."""
    words = []
    unsure = comparison.points_in(CANNOT_TELL)
    for found, said in (
        ([point for point in unsure if point.what != PRESENCE], "measured too roughly or not clear"),
        ([point for point in unsure if point.called], "called by another name, and not measured"),
        ([point for point in unsure if point.what == PRESENCE and not point.called], "not seen in place or not named"),
        (comparison.points_in(NOT_LOOKED_AT), "not looked at"),
        (comparison.points_in(NOT_REACHED), "not reached"),
        (comparison.points_in(NOT_VERIFIED), "not stripped"),
    ):
        if found:
            names = points_words(comparison.reference, sorted(found, key=lambda point: not point.blocks))
            more = f" and {len(names) - 3} more" if len(names) > 3 else ""
            words.append(f"{said}: {', '.join(names[:3])}{more}")
    return words


BLIND_SPOTS = (
    "cracks, hardness and material",
    "straightness of axle or shaft",
    "inside of sealed bearings",
    "grease and dirt",
    "the torque wrench's own reading",
    "the truth of the entries",
)
"""What no comparison of parts can see; named on every page."""


def _unsettled(comparison: Comparison) -> list[str]:
    reference = comparison.reference
    points = comparison.points_in(NOT_LOOKED_AT, NOT_REACHED, NOT_VERIFIED)
    # Somebody was asked, and said so.
    not_measured = [point for point in points if (point.place, point.what) in comparison.found.not_measured]
    words = points_words(reference, (*not_measured, *(point for point in points if point not in not_measured)))
    return words + [f"{point_words(reference, point)} (cannot tell)" for point in comparison.points_in(CANNOT_TELL)]


def not_verified(comparison: Comparison) -> list[str]:
    """Everything this comparison does not cover, nearest first; never empty."""
    return list(dict.fromkeys([*_unsettled(comparison), *_never_looked_at(comparison)]))


def _never_looked_at(comparison: Comparison) -> list[str]:
    """What no entry settles: looks that were not judged, instruments, fits that nobody measured,
    and the blind spots.
    """
    reference, found = comparison.reference, comparison.found
    words = [f'{entry_words(reference, found, number)}: "{said}", not judged' for number, said in not_judged(found)]
    instruments = dict.fromkeys(
        reading.how
        for reading in (
            *(reading for entry in found.entries for _, reading in entry.sizes),
            *(item.reading for item in found.measured),
        )
        if reading.how and reading.is_measurement
    )
    compared = [how for how in instruments if how in found.compared_tools]
    if others := [how for how in instruments if how not in compared]:
        words.append(f"{listed(others)}: not compared with anything in this job")
    if compared:
        words.append(f"{listed(compared)}: compared with each other, not with a calibrated standard")
    words += [
        f"{joint.name}: thread condition not given"
        for joint in reference.joints
        if joint.torque and not joint.thread_condition
    ]
    judged = {result.finding.what for result in comparison.findings if result.finding.kind == "pairing_differs"}
    words += [f"fit of {pairing.what}" for pairing in reference.pairings if pairing.what not in judged]
    words += BLIND_SPOTS
    if reference.outside or reference.variants:
        words.append(reference.for_machine or "year and serial of the machine")
    if reference.source.kind != "maker's drawing" or reference.source.is_draft:
        words.append(f"the reference itself: {grade_words(reference)}")
    return words


def not_verified_sentence(comparison: Comparison, named: int = 3) -> str:
    """The nearest few by name; what the headline has just named or counted is not named again."""
    if comparison.verdict == DIFFERS:
        told, said = points_words(comparison.reference, comparison.points_in(NOT_REACHED)), "what was not reached"
    else:
        told, said = _unsettled(comparison), "these"
    words = [*([said] if told else []), *(each for each in not_verified(comparison) if each not in told)]
    more = f"; and {len(words) - named} more" if len(words) > named else ""
    return f"Not verified: {'; '.join(words[:named])}{more}."
