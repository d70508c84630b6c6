"""The words for places, sizes, findings and verdicts, in the speech of the bench.

Rounding happens here and nowhere else. A gap below nothing is an overlap, never a bare minus sign; left and right are
sides; the reference is always named with its revision and state; nothing says whether a machine may be used.
"""

from __future__ import annotations

from collections.abc import Callable

from stackcheck.compare.sizes import size_verdict
from stackcheck.mechanics.effects import Change, Effect, LoopChange
from stackcheck.model.finding import Finding
from stackcheck.model.found import Found
from stackcheck.model.part import SIZE_NAMES, Reading
from stackcheck.model.reference import SOURCE_KINDS, Reference
from stackcheck.present.figures import good_to, mm, reading_mm
from stackcheck.present.names import end_words, listed, lower_first, place_words, the
from stackcheck.present.where_words import between_words, home_words
from stackcheck.units.inches import in_inches, inch_figure

LABELS = {
    "missing": "MISSING", "different_part": "DIFFERENT PART", "swapped": "SWAPPED", "turned_round": "TURNED ROUND",
    "out_of_place": "OUT OF PLACE", "run_moved": "RUN MOVED", "run_end_for_end": "END FOR END", "extra": "EXTRA",
    "count_differs": "COUNT DIFFERS", "pairing_differs": "PAIRING DIFFERS", "size_differs": "SIZE DIFFERS",
    "gap_differs": "GAP DIFFERS", "condition": "CONDITION", "entered_twice": "ENTERED TWICE",
    "entered_from_other_end": "ENTERED FROM THE OTHER END", "alternate": "ACCEPTED ALTERNATE",
    "not_reached": "NOT REACHED", "not_verified": "NOT VERIFIED",
}  # fmt: skip
"""Kind of finding -> its word on a screen."""


def span(low: float, high: float, figure: Callable[[float], str] = mm) -> str:
    return figure(low) if figure(low) == figure(high) else f"{figure(low)} to {figure(high)}"


def narrow_span(low: float, high: float) -> str:
    """A range as files and tables write it: "21.99..22.05"."""
    return span(low, high).replace(" to ", "..")


_NOTHING_MM = 1e-9
"""What adding up leaves of nothing."""


def gap_words(low: float, high: float, figure: Callable[[float], str] = mm) -> str:
    """ "gap 3.02 to 3.64", "overlap 0.01 to 0.05", "between overlap 0.05 and gap 0.03"."""
    low, high = (0.0 if abs(end) < _NOTHING_MM else end for end in (low, high))
    if low >= 0:
        return f"gap {span(low, high, figure)}"
    if high <= 0:
        return f"overlap {span(-high, -low, figure)}"
    return f"between overlap {figure(-low)} and gap {figure(high)}"


def limits_words(least: float | None, most: float | None, figure: Callable[[float], str] = mm) -> str:
    if least is not None and most is not None:
        return span(least, most, figure) if least >= 0 else gap_words(least, most, figure)
    return (
        f"at least {figure(least)}"
        if least is not None
        else f"at most {figure(most)}"
        if most is not None
        else "no limits given"
    )


def beside(inch: bool, words: Callable[..., str], *lengths: float | None) -> str:
    """Lengths in mm, with inches behind them where somebody works in inches: "0.025 to 0.127 (0.001 to 0.005 in)"."""
    said = words(*lengths)
    if not inch or all(length is None for length in lengths):
        return said
    return f"{said} ({words(*lengths, figure=inch_figure).removeprefix('gap ')} in)"


def length(value: float, figure: Callable[[float], str] = mm) -> str:
    return figure(value)


def named_gap(name: str, low: float, high: float, inch: bool = False) -> str:
    """ "end float 0.18 to 0.22", "seat gap: overlap 0.01 to 0.05": the name says already that it is a gap."""
    return f"{name} {beside(inch, span, low, high)}" if low >= 0 else f"{name}: {beside(inch, gap_words, low, high)}"


def in_inches_too(reference: Reference, found: Found) -> bool:
    """Whether somebody works in inches here: the reference is written in them, or something was measured in them."""
    return reference.inches or found.inches


def entry_words(reference: Reference, found: Found, number: int) -> str:
    entry = found.entry(number)
    return f"{entry.what} (entry {number})"


def reading_words(reading: Reading, inch: bool = False) -> str:
    """ "57.94 by micrometer, good to 0.01"; with inches beside it where they are asked for or were typed."""
    how = f" by {reading.how}" if reading.how else ""
    value = reading_mm(reading.value_mm, min(reading.good_to_mm, reading.step_mm or reading.good_to_mm))
    typed = f" ({inch_figure(reading.value_mm)} in)" if inch or in_inches(reading.text) else ""
    return f"{value}{typed}{how}, good to {good_to(reading.good_to_mm)}"


def _missing(finding, reference: Reference, found: Found) -> str:
    place = finding.places[0]
    where = home_words(reference, place, finding.after, finding.before)
    loose = (
        f"; {entry_words(reference, found, finding.entries[0])} was found loose and would suit"
        if finding.entries
        else ""
    )
    return f"{place_words(reference, place)} missing {where}{loose}".rstrip()


def _different_part(finding, reference: Reference, found: Found) -> str:
    marked = found.entry(finding.entries[0]).marked if finding.entries else ""
    there = (
        lower_first(reference.part(finding.part).name)
        if finding.part
        else entry_words(reference, found, finding.entries[0])
    )
    there += f", number {marked}" if marked and marked not in there else ""
    return f"in the place of the {place_words(reference, finding.places[0])} stands another part: {there}"


def _swapped(finding, reference: Reference, found: Found) -> str:
    first, second = (lower_first(reference.part_at(place).name) for place in finding.places[:2])
    if first == second:
        first, second = (place_words(reference, place) for place in finding.places[:2])
    if len(finding.entries) == 2:
        pairs = zip((first, second), finding.places, finding.entries)
        first, second = (
            _of_a_pack(name, reference.place(place).count, found.entry(number).count) for name, place, number in pairs
        )
    return f"{first} and {second} swapped: each stands in the other's place"


def _of_a_pack(name: str, wanted: int, pieces: int) -> str:
    """The name of what was swapped; "one ..." where the rest of a counted place stayed."""
    return f"one {name}" if pieces == 1 < wanted else name


def _turned_round(finding, reference: Reference, found: Found) -> str:
    place = reference.place(finding.places[0])
    feature = reference.part(place.part).feature
    wanted = _toward_words(reference, place.toward)
    seen = reference.end_name(finding.toward or ("first" if place.facing == "second" else "second"))
    if finding.toward == place.facing:
        return f"{place_words(reference, place.name)} turned round besides: {feature} toward {seen} again"
    wanted_end = reference.end_name(place.facing)
    said = "" if place.toward in reference.ends else f", which is {wanted_end}"
    return (
        f"{place_words(reference, place.name)} turned round: {feature} toward {seen}; reference: toward {wanted}{said}"
    )


def _toward_words(reference: Reference, toward: str) -> str:
    if toward in (*reference.ends, "middle", "outside") or toward.startswith("away from"):
        return toward
    return the(place_words(reference, toward)) if reference.has_place(toward) else f"the {toward.replace('-', ' ')}"


def _where(finding: Finding, reference: Reference, found: Found) -> str:
    """Between which neighbours it stands; beside which one where the teardown stopped there."""
    ends = {entry.end for entry in found.entries}
    one_end = 0 if 1 not in ends else 1 if 0 not in ends else None
    deepest = (
        finding.after
        if one_end == 0 and not finding.before
        else finding.before
        if one_end == 1 and not finding.after
        else ""
    )
    if deepest and not found.finished:
        return f"beside {place_words(reference, deepest)}, where the teardown stopped"
    return between_words(reference, finding.after, finding.before)


def _out_of_place(finding, reference: Reference, found: Found) -> str:
    place = finding.places[0]
    home = home_words(reference, place)
    return f"{place_words(reference, place)} out of place: {_where(finding, reference, found)}; its place is {home}"


def _run_moved(finding, reference: Reference, found: Found) -> str:
    names = listed(place_words(reference, place) for place in finding.places)
    return f"{names} moved together: now {_where(finding, reference, found)}"


def _run_end_for_end(finding, reference: Reference, found: Found) -> str:
    names = listed(place_words(reference, place) for place in finding.places)
    return f"{names} turned end for end as one lump"


def _extra(finding, reference: Reference, found: Found) -> str:
    things = listed(entry_words(reference, found, number) for number in finding.entries)
    if finding.loose:
        return f"{things} found loose: no place for it here{'' if found.finished else ' so far'}"
    where = _where(finding, reference, found)
    return f"{things} extra {where}: the reference has nothing there".replace("  ", " ")


def _count_differs(finding, reference: Reference, found: Found) -> str:
    loose = [number for number in finding.entries if found.entry(number).is_loose]
    suits = (
        f"; {listed(entry_words(reference, found, number) for number in loose)} found loose would suit" if loose else ""
    )
    return (
        f"{place_words(reference, finding.places[0])}: {finding.found} found, {finding.wanted} in the reference{suits}"
    )


def _size_differs(finding, reference: Reference, found: Found) -> str:
    low, high = finding.size.low_mm, finding.size.high_mm
    value, inch = finding.reading.value_mm, in_inches_too(reference, found)
    below = f"{beside(inch, length, low - value)} below the low limit {beside(inch, length, low)}"
    beyond = (
        below
        if value < low
        else f"{beside(inch, length, value - high)} above the high limit {beside(inch, length, high)}"
    )
    name = SIZE_NAMES[finding.size_name].removesuffix(" along the axis")
    # A distance on what stays on was typed in; where it is too far out for wear, the figure is as likely as the part.
    is_typed = reference.part_at(finding.places[0]).fixed and size_verdict(finding.reading, finding.size) == "gross"
    typed = "; as typed it does not agree with the parts: measure it again" if is_typed else ""
    return (
        f"{listed(place_words(reference, place) for place in finding.places)}: {name} "
        f"{reading_words(finding.reading, inch)}: {beyond}{typed}"
    )


def _gap_differs(finding, reference: Reference, found: Found) -> str:
    how = "measured" if finding.measured else "by the sum"
    inch = in_inches_too(reference, found)
    return (
        f"{named_gap(finding.what, *finding.gap_mm, inch)} {how}; "
        f"allowed {beside(inch, limits_words, *finding.limits_mm)}"
    )


def _pairing_differs(finding, reference: Reference, found: Found) -> str:
    names = " with ".join(place_words(reference, place) for place in finding.places)
    inch = in_inches_too(reference, found)
    return _as_fit(
        f"{finding.what} ({names}): {beside(inch, gap_words, *finding.clearance_mm)}; "
        f"allowed {beside(inch, limits_words, *finding.limits_mm)}"
    )


def _as_fit(words: str) -> str:
    """Two parts that sit on one another have a clearance or an interference between them, no gap and no overlap."""
    return words.replace("gap ", "clearance ").replace("overlap ", "interference ")


def _condition(finding, reference: Reference, found: Found) -> str:
    thing = (
        place_words(reference, finding.places[0])
        if finding.places
        else entry_words(reference, found, finding.entries[0])
    )
    return f"{thing}: {listed(finding.words)}; do not refit as it is"


def _entered_twice(finding, reference: Reference, found: Found) -> str:
    return f"entries {listed(str(number) for number in finding.entries)} are the same thing typed twice"


def _entered_from_other_end(finding, reference: Reference, found: Found) -> str:
    ends = f"{end_words(reference, 0)} and {end_words(reference, 1)}"
    return f"the list was entered from the other end, {ends} exchanged, or all of it stands end for end: look which"


def _alternate(finding, reference: Reference, found: Found) -> str:
    return f"{place_words(reference, finding.places[0])}: number {finding.number}, which the reference accepts".replace(
        "number ,", "another number,"
    )


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


def effect_words(effect: Effect, reference: Reference, inch: bool = False) -> str:
    """What a finding alone does, in one line: stacks, gaps, positions, and which gaps stay as they are.

    A gap is told with all else as in the reference;
    what it is as found stands in the table and in the sentence above all.
    """
    if not (effect.changes or effect.loop_changes or effect.shifts):
        return f"no stack changes in length; {listed(effect.unchanged)} unchanged" if effect.unchanged else ""
    words = [_change_words(change, inch) for change in effect.changes] or ["no stack changes in length"]
    words += [_loop_change_words(change, inch) for change in effect.loop_changes]
    words += shift_words(effect, reference, inch)
    if effect.unchanged:
        words.append(f"{listed(effect.unchanged)} unchanged")
    alone = "taken alone, " if any(change.after for change in effect.loop_changes) else ""
    return alone + "; ".join(words)


def shift_words(effect: Effect, reference: Reference, inch: bool = False) -> list[str]:
    """ "hub 4.00 further toward right"; where a ring may lie in either path, how far in each case, never the middle."""
    words = []
    for shift in effect.shifts:
        far = [beside(inch, length, abs(each)) if each else "0" for each in shift.either_mm] or [
            beside(inch, length, abs(shift.mm))
        ]
        words.append(
            f"{place_words(reference, shift.place)} {listed(far, 'or')} further toward {reference.ends[shift.mm > 0]}"
        )
    return words


def set_words(effect: Effect, inch: bool = False) -> list[str]:
    """ "the end float of the shaft comes out 0.05 to 0.25 wider": gaps that something else than a joint sets."""
    return [
        (
            f"the {name} comes out {beside(inch, span, *sorted((abs(c.least_mm), abs(c.most_mm))))} "
            f"{'wider' if c.nominal_mm > 0 else 'narrower'}"
        )
        for name, c in effect.set_changes
    ]


def _loop_change_words(change: LoopChange, inch: bool) -> str:
    before = beside(inch, gap_words, change.before.least_mm, change.before.most_mm) if change.before else "not known"
    after = (
        named_gap(change.loop, change.after.least_mm, change.after.most_mm, inch)
        if change.after
        else f"{change.loop}: cannot tell"
    )
    said = {
        "crosses": ", outside its limits",
        "stays inside": ", inside its limits",
        "cannot tell": ", may cross a limit",
    }
    return f"{after}{said.get(change.crosses_limit, '') if change.after else ''} (reference {before})".replace(
        "(reference gap", "(reference"
    )


def _change_words(change: Change, inch: bool) -> str:
    if change.change is None:
        return f"{change.stack}: cannot tell by how much its length changes"
    low, high = sorted((abs(change.change.least_mm), abs(change.change.most_mm)))
    if change.change.least_mm < 0 < change.change.most_mm:
        shorter, longer = beside(inch, length, -change.change.least_mm), beside(inch, length, change.change.most_mm)
        return f"{change.stack} between {shorter} shorter and {longer} longer"
    return f"{change.stack} {beside(inch, span, low, high)} {'longer' if change.change.nominal_mm > 0 else 'shorter'}"


def reference_words(reference: Reference) -> str:
    """'reference "Front hub, rev B"', with "(draft)" where it is one."""
    said = [
        word
        for word, holds in (("draft", reference.source.is_draft), ("this machine lies outside it", reference.outside))
        if holds
    ]
    return f'reference "{reference.title}, rev {reference.revision}"' + (f" ({'; '.join(said)})" if said else "")


def grade_words(reference: Reference) -> str:
    """Who says so, and how far it was checked: "from the maker, sheet 12; checked on 2 machines; frames 400 and up"."""
    source = reference.source
    said = SOURCE_KINDS[source.kind]
    pieces = [f"{said}, {source.what}" if source.what else said, source.state]
    if reference.covers:
        pieces.append(f"covers {reference.covers}")
    pieces += [
        coverage.text
        for coverage in (reference.years, reference.serials)
        if coverage and coverage.text not in reference.covers
    ]
    if reference.replaced_by:
        pieces.append(f"replaced by {reference.replaced_by}")
    return "; ".join(piece for piece in pieces if piece)
