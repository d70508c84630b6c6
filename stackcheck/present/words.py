"""The words for places, sizes, findings and verdicts, in the speech of the bench.

Rounding happens here and nowhere else. A gap below nothing is an overlap, never a bare minus sign; left and right are
sides; the reference is always named with its revision and state; nothing says whether a machine may be used.
"""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.mechanics.effects import Change, Effect, LoopChange
from stackcheck.model.finding import Finding
from stackcheck.model.found import Found
from stackcheck.model.part import SIZE_NAMES, Reading
from stackcheck.model.reference import SOURCE_KINDS, Reference
from stackcheck.present.figures import mm
from stackcheck.present.names import counted, end_words, listed, lower_first, place_words
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

LABELS = {
    "missing": "MISSING", "different_part": "DIFFERENT PART", "swapped": "SWAPPED", "turned_round": "TURNED ROUND",
    "out_of_place": "OUT OF PLACE", "run_moved": "RUN MOVED", "run_end_for_end": "END FOR END", "extra": "EXTRA",
    "count_differs": "COUNT DIFFERS", "pairing_differs": "PAIRING DIFFERS", "size_differs": "SIZE DIFFERS",
    "gap_differs": "GAP DIFFERS", "condition": "CONDITION", "entered_twice": "ENTERED TWICE",
    "entered_from_other_end": "ENTERED FROM THE OTHER END", "alternate": "ACCEPTED ALTERNATE",
    "not_reached": "NOT REACHED", "not_verified": "NOT VERIFIED",
}  # fmt: skip
"""Kind of finding -> its word on a screen."""


def span(low: float, high: float) -> str:
    return mm(low) if mm(low) == mm(high) else f"{mm(low)} to {mm(high)}"


def narrow_span(low: float, high: float) -> str:
    """A range as files and tables write it: "21.99..22.05"."""
    return span(low, high).replace(" to ", "..")


def gap_words(low: float, high: float) -> str:
    """ "gap 3.02 to 3.64", "overlap 0.01 to 0.05", "between overlap 0.05 and gap 0.03"."""
    if low >= 0:
        return f"gap {span(low, high)}"
    if high <= 0:
        return f"overlap {span(-high, -low)}"
    return f"between overlap {mm(-low)} and gap {mm(high)}"


def limits_words(least: float | None, most: float | None) -> str:
    if least is not None and most is not None:
        return span(least, most) if least >= 0 else gap_words(least, most)
    return f"at least {mm(least)}" if least is not None else f"at most {mm(most)}" if most is not None else "no limits given"


def entry_words(reference: Reference, found: Found, number: int) -> str:
    entry = found.entry(number)
    return f"{entry.what} (entry {number})"


def between_words(reference: Reference, after: str, before: str) -> str:
    """ "between left collar and left bearing", "outside the axle nut, at the left end"."""
    if after and before:
        return f"between {place_words(reference, after)} and {place_words(reference, before)}"
    if before:
        return f"outside {place_words(reference, before)}, at the {end_words(reference, 0)}"
    return f"outside {place_words(reference, after)}, at the {end_words(reference, 1)}" if after else ""


def neighbours(reference: Reference, place: str) -> tuple[str, str]:
    """The places beside this one in the first stack that holds it ("" at an end)."""
    for stack in reference.stacks:
        places = stack.places
        if place in places:
            here = places.index(place)
            return (places[here - 1] if here else "", places[here + 1] if here + 1 < len(places) else "")
    return "", ""


def reading_words(reading: Reading) -> str:
    """ "57.94 by micrometer (57.93 to 57.95)"."""
    how = f" by {reading.how}" if reading.how else ""
    if reading.low_mm < 0:  # a gap of about nothing: its range would begin with a minus sign
        return f"{mm(reading.value_mm)}{how}, good to {mm(reading.good_to_mm)}"
    return f"{mm(reading.value_mm)}{how} ({span(reading.low_mm, reading.high_mm)})"


def _missing(finding, reference: Reference, found: Found) -> str:
    place = finding.places[0]
    after, before = (finding.after, finding.before) if finding.after or finding.before else neighbours(reference, place)
    where = between_words(reference, after, before)
    loose = f"; {entry_words(reference, found, finding.entries[0])} was found loose and would suit" if finding.entries else ""
    return f"{place_words(reference, place)} missing {where}{loose}".rstrip()


def _different_part(finding, reference: Reference, found: Found) -> str:
    marked = found.entry(finding.entries[0]).marked if finding.entries else ""
    there = lower_first(reference.part(finding.part).name) if finding.part else entry_words(reference, found, finding.entries[0])
    there += f", number {marked}" if marked and marked not in there else ""
    return f"in the place of the {place_words(reference, finding.places[0])} stands another part: {there}"


def _swapped(finding, reference: Reference, found: Found) -> str:
    first, second = (lower_first(reference.part_at(place).name) for place in finding.places[:2])
    if first == second:
        first, second = (place_words(reference, place) for place in finding.places[:2])
    if len(finding.entries) == 2:
        pairs = zip((first, second), finding.places, finding.entries)
        first, second = (_of_a_pack(name, reference.place(place).count, found.entry(number).count) for name, place, number in pairs)
    return f"{first} and {second} swapped: each stands in the other's place"


def _of_a_pack(name: str, wanted: int, pieces: int) -> str:
    """The name of what was swapped; "one ..." where the rest of a counted place stayed."""
    return f"one {name}" if pieces == 1 < wanted else name


def _turned_round(finding, reference: Reference, found: Found) -> str:
    place = reference.place(finding.places[0])
    feature = reference.part(place.part).feature
    wanted = _toward_words(reference, place.toward)
    seen = reference.end_name(finding.toward or ("first" if place.facing == "second" else "second"))
    wanted_end = reference.end_name(place.facing)
    said = "" if place.toward in reference.ends else f", which is {wanted_end}"
    return f"{place_words(reference, place.name)} turned round: {feature} toward {seen}; reference: toward {wanted}{said}"


def _toward_words(reference: Reference, toward: str) -> str:
    if toward in (*reference.ends, "middle", "outside") or toward.startswith("away from"):
        return toward
    return f"the {place_words(reference, toward)}" if reference.has_place(toward) else f"the {toward.replace('-', ' ')}"


def _out_of_place(finding, reference: Reference, found: Found) -> str:
    place = finding.places[0]
    home = between_words(reference, *neighbours(reference, place))
    return f"{place_words(reference, place)} out of place: {between_words(reference, finding.after, finding.before)}; its place is {home}"


def _run_moved(finding, reference: Reference, found: Found) -> str:
    names = listed(place_words(reference, place) for place in finding.places)
    return f"{names} moved together: now {between_words(reference, finding.after, finding.before)}"


def _run_end_for_end(finding, reference: Reference, found: Found) -> str:
    names = listed(place_words(reference, place) for place in finding.places)
    return f"{names} turned end for end as one lump"


def _extra(finding, reference: Reference, found: Found) -> str:
    things = listed(entry_words(reference, found, number) for number in finding.entries)
    if finding.loose:
        return f"{things} found loose: no place for it here{'' if found.finished else ' so far'}"
    where = between_words(reference, finding.after, finding.before)
    return f"{things} extra {where}: the reference has nothing there".replace("  ", " ")


def _count_differs(finding, reference: Reference, found: Found) -> str:
    return f"{place_words(reference, finding.places[0])}: {finding.found} found, {finding.wanted} in the reference"


def _size_differs(finding, reference: Reference, found: Found) -> str:
    low, high = finding.size.low_mm, finding.size.high_mm
    value = finding.reading.value_mm
    beyond = f"{mm(low - value)} below the low limit {mm(low)}" if value < low else f"{mm(value - high)} above the high limit {mm(high)}"
    name = SIZE_NAMES[finding.size_name].removesuffix(" along the axis")
    return f"{place_words(reference, finding.places[0])}: {name} {reading_words(finding.reading)}: {beyond}"


def _gap_differs(finding, reference: Reference, found: Found) -> str:
    how = "measured" if finding.measured else "by the sum"
    return f"{finding.what}: {gap_words(*finding.gap_mm)} ({how}); allowed {limits_words(*finding.limits_mm)}"


def _pairing_differs(finding, reference: Reference, found: Found) -> str:
    names = " with ".join(place_words(reference, place) for place in finding.places)
    return _as_fit(f"{finding.what} ({names}): {gap_words(*finding.clearance_mm)}; allowed {limits_words(*finding.limits_mm)}")


def _as_fit(words: str) -> str:
    """Two parts that sit on one another have a clearance or an interference between them, no gap and no overlap."""
    return words.replace("gap ", "clearance ").replace("overlap ", "interference ")


def _condition(finding, reference: Reference, found: Found) -> str:
    thing = place_words(reference, finding.places[0]) if finding.places else entry_words(reference, found, finding.entries[0])
    return f"{thing}: {listed(finding.words)}; do not refit as it is"


def _entered_twice(finding, reference: Reference, found: Found) -> str:
    return f"entries {listed(str(number) for number in finding.entries)} are the same thing typed twice"


def _entered_from_other_end(finding, reference: Reference, found: Found) -> str:
    return f"the list was entered from the other end: {end_words(reference, 0)} and {end_words(reference, 1)} are exchanged"


def _alternate(finding, reference: Reference, found: Found) -> str:
    return f"{place_words(reference, finding.places[0])}: number {finding.number}, which the reference accepts".replace("number ,", "another number,")


def _not_reached(finding, reference: Reference, found: Found) -> str:
    return listed(place_words(reference, place) for place in finding.places)


def _not_verified(finding, reference: Reference, found: Found) -> str:
    return f"{listed(place_words(reference, place) for place in finding.places)}, inside a unit that was not stripped"


_SENTENCES = {
    "missing": _missing, "different_part": _different_part, "swapped": _swapped, "turned_round": _turned_round,
    "out_of_place": _out_of_place, "run_moved": _run_moved, "run_end_for_end": _run_end_for_end, "extra": _extra,
    "count_differs": _count_differs, "size_differs": _size_differs, "gap_differs": _gap_differs,
    "pairing_differs": _pairing_differs, "condition": _condition, "entered_twice": _entered_twice,
    "entered_from_other_end": _entered_from_other_end, "alternate": _alternate, "not_reached": _not_reached,
    "not_verified": _not_verified,
}  # fmt: skip


def sentence(finding: Finding, reference: Reference, found: Found) -> str:
    """One finding in words, without a full stop."""
    return _SENTENCES[finding.kind](finding, reference, found)


def effect_words(effect: Effect, reference: Reference) -> str:
    """What a finding alone does, in one line: stacks, gaps, positions, and which gaps stay as they are."""
    if not (effect.changes or effect.loop_changes or effect.shifts):
        return f"no stack changes in length; {listed(effect.unchanged)} unchanged" if effect.unchanged else ""
    words = [_change_words(change) for change in effect.changes] or ["no stack changes in length"]
    words += [_loop_change_words(change) for change in effect.loop_changes]
    words += _shift_words(effect, reference)
    if effect.unchanged:
        words.append(f"{listed(effect.unchanged)} unchanged")
    return "; ".join(words)


def main_effect_words(effect: Effect, reference: Reference) -> str:
    """The part of an effect that nobody may miss: what stands elsewhere, and gaps that may be outside their limits."""
    words = _shift_words(effect, reference)
    words += [_loop_change_words(change) for change in effect.loop_changes if change.crosses_limit in ("crosses", "cannot tell")]
    return "; ".join(words)


def _shift_words(effect: Effect, reference: Reference) -> list[str]:
    return [
        f"{place_words(reference, shift.place)} {mm(abs(shift.mm))} further toward {reference.ends[shift.mm > 0]}"
        for shift in effect.shifts
    ]


def _loop_change_words(change: LoopChange) -> str:
    before = gap_words(change.before.least_mm, change.before.most_mm) if change.before else "not known"
    after = gap_words(change.after.least_mm, change.after.most_mm) if change.after else "cannot tell"
    said = {"crosses": ", outside its limits", "stays inside": ", inside its limits", "cannot tell": ", may cross a limit"}
    return f"{change.loop}: {after}{said.get(change.crosses_limit, '') if change.after else ''}; reference {before}"


def _change_words(change: Change) -> str:
    if change.change is None:
        return f"{change.stack}: cannot tell by how much its length changes"
    low, high = sorted((abs(change.change.least_mm), abs(change.change.most_mm)))
    if change.change.least_mm < 0 < change.change.most_mm:
        return f"{change.stack} between {mm(-change.change.least_mm)} shorter and {mm(change.change.most_mm)} longer"
    return f"{change.stack} {span(low, high)} {'longer' if change.change.nominal_mm > 0 else 'shorter'}"


def reference_words(reference: Reference) -> str:
    """ 'reference "Front hub, rev B"', with "(draft)" where it is one."""
    said = [word for word, holds in (("draft", reference.source.is_draft), ("this machine lies outside it", reference.outside)) if holds]
    return f'reference "{reference.title}, rev {reference.revision}"' + (f" ({'; '.join(said)})" if said else "")


def grade_words(reference: Reference) -> str:
    """Who says so, and how far it was checked: "from the maker, sheet 12; checked on 2 machines; frames 400 and up"."""
    source = reference.source
    said = SOURCE_KINDS[source.kind]
    pieces = [f"{said}, {source.what}" if source.what else said, source.state]
    if reference.covers:
        pieces.append(f"covers {reference.covers}")
    pieces += [coverage.text for coverage in (reference.years, reference.serials) if coverage and coverage.text not in reference.covers]
    if reference.replaced_by:
        pieces.append(f"replaced by {reference.replaced_by}")
    return "; ".join(piece for piece in pieces if piece)


def point_words(reference: Reference, point: Point) -> str:
    """What a point is about: "left hub seal, spring side", "spacer tube, length", "seat gap"."""
    if point.what == GAP:
        return point.gap
    name = place_words(reference, point.place)
    if point.what == PRESENCE:
        return name
    part = reference.part_at(point.place)
    return f"{name}, {part.feature if point.what == FACING else point.what.replace('_', ' ')}"


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
        also = f"; cannot tell in {len(unsure)}" if unsure else ""
        return f"Differs from {reference} in {counted(len(comparison.findings), 'point')}{also}."
    if comparison.verdict == CANNOT_TELL:
        reasons = open_words(comparison)
        return f"Cannot tell whether it agrees with {reference}: {'; '.join(reasons)}."
    agreeing = len(comparison.points_in(AGREES))
    total = len(comparison.points)
    rest = open_words(comparison)
    return f"Agrees with {reference} in {agreeing} of {total} points{'; ' + '; '.join(rest) if rest else ''}."


def open_words(comparison: Comparison) -> list[str]:
    """Which points are unsettled, by state, the blocking ones first; at most three named for each."""
    words = []
    for state, said in (
        (CANNOT_TELL, "measured too roughly or not clear"),
        (NOT_LOOKED_AT, "not looked at"),
        (NOT_REACHED, "not reached"),
        (NOT_VERIFIED, "not stripped"),
    ):
        found = sorted(comparison.points_in(state), key=lambda point: not point.blocks)
        if found:
            names = points_words(comparison.reference, found)
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


def not_verified(comparison: Comparison) -> list[str]:
    """Everything this comparison does not cover, nearest first; never empty."""
    reference, found = comparison.reference, comparison.found
    words = points_words(reference, comparison.points_in(NOT_LOOKED_AT, NOT_REACHED, NOT_VERIFIED))
    words += [f"{point_words(reference, point)} (cannot tell)" for point in comparison.points_in(CANNOT_TELL)]
    words += [f'{entry_words(reference, found, number)}: "{said}", not judged' for number, said in not_judged(found)]
    instruments = dict.fromkeys(
        reading.how
        for reading in (*(reading for entry in found.entries for _, reading in entry.sizes), *(item.reading for item in found.measured))
        if reading.how and reading.is_measurement
    )
    compared = [how for how in instruments if how in found.compared_tools]
    if others := [how for how in instruments if how not in compared]:
        words.append(f"{listed(others)}: not compared with anything in this job")
    if compared:
        words.append(f"{listed(compared)}: compared with each other, not with a calibrated standard")
    words += [f"{joint.name}: thread condition not given" for joint in reference.joints if joint.torque and not joint.thread_condition]
    judged = {result.finding.what for result in comparison.findings if result.finding.kind == "pairing_differs"}
    words += [f"fit of {pairing.what}" for pairing in reference.pairings if pairing.what not in judged]
    words += BLIND_SPOTS
    if reference.outside or reference.variants:
        words.append(reference.for_machine or "year and serial of the machine")
    if reference.source.kind != "maker's drawing" or reference.source.is_draft:
        words.append(f"the reference itself: {grade_words(reference)}")
    return list(dict.fromkeys(words))


def not_verified_sentence(comparison: Comparison, named: int = 3) -> str:
    words = not_verified(comparison)
    more = f", and {len(words) - named} more" if len(words) > named else ""
    return f"Not verified: {', '.join(words[:named])}{more}."
