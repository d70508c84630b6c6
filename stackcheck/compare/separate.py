"""Which look or measurement decides between two explanations, and what each outcome would mean.

Cheapest first: look whether two entries are one thing, measure a part whose two possible numbers have limits that do not
meet, read its number, look at the part in doubt; where the explanations differ in what was not reached, go on. Where no
measurement can tell, because the parts are equal, that is said with the entries it concerns.
"""

from __future__ import annotations

from stackcheck.compare.evidence import millimetres
from stackcheck.model.finding import Explanation, Finding, Standing
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import SIZE_NAMES, Part
from stackcheck.model.reference import Reference

GAUGE_SHARE = 4  # the gauge should be good to a quarter of the distance that it must tell


def separation(reference: Reference, found: Found, least: Explanation, other: Explanation) -> str:
    """What decides between the least explanation and another one."""
    return (
        _one_thing(least, other)
        or _by_size_or_number(reference, found, least, other)
        or _by_going_on(reference, found, least, other)
        or _by_looking(reference, found, least, other)
    )


def says(reference: Reference, explanation: Explanation) -> str:
    """The findings in a few words, for "... means ..."."""
    return "; ".join(_words(reference, finding) for finding in explanation.findings) or "no difference"


def _words(reference: Reference, finding: Finding) -> str:
    names = " and ".join(dict.fromkeys(_name(reference, place) for place in finding.places))
    entries = " and ".join(f"entry {number}" for number in finding.entries)
    return f"{names or entries} {finding.kind.replace('_', ' ')}"


def _name(reference: Reference, place: str) -> str:
    if not reference.has_place(place):
        return place
    part = reference.part_at(place)
    return part.name if len(reference.places_of(part.id)) == 1 else f"{part.name} ({place})"


def _outcomes(reference: Reference, least: Explanation, other: Explanation, one: str, two: str) -> str:
    return f"{one} means {says(reference, least)}, {two} means {says(reference, other)}"


def _one_thing(least: Explanation, other: Explanation) -> str:
    pairs = [{f.entries for f in e.findings if f.kind == "entered_twice"} for e in (least, other)]
    for pair in sorted(pairs[0] ^ pairs[1]):
        a, b = sorted(pair)
        return f"look whether entries {a} and {b} are one thing on the bench or two"
    return ""


def _standings(explanation: Explanation) -> dict[int, Standing]:
    return {standing.entry: standing for standing in explanation.line if standing.entry is not None}


def _by_size_or_number(reference: Reference, found: Found, least: Explanation, other: Explanation) -> str:
    here, there = _standings(least), _standings(other)
    for number in sorted(here.keys() & there.keys()):
        a, b = (s[number].part for s in (here, there))
        if a is None or b is None or a == b or not (reference.has_part(a) and reference.has_part(b)):
            continue
        one, two, entry = reference.part(a), reference.part(b), found.entry(number)
        if entry.part is not None and entry.sure:
            continue
        told = _by_size(reference, entry, one, two, least, other)
        if not told and one.number and two.number and one.number != two.number:
            outcomes = _outcomes(reference, least, other, one.number, two.number)
            told = f"read the number on entry {number}: {outcomes}"
        if told:
            return told
    return ""


def _by_size(
    reference: Reference, entry: Entry, one: Part, two: Part, least: Explanation, other: Explanation
) -> str:
    ways = []
    for name, size in one.sizes:
        its = two.size(name)
        if its is None:
            continue
        apart = max(its.low_mm - size.high_mm, size.low_mm - its.high_mm)
        reading = entry.size(name)
        if apart > 0 and not (reading and reading.is_measurement and reading.good_to_mm <= apart / GAUGE_SHARE):
            ways.append((-apart, name, size, its))
    if not ways:
        return ""
    apart, name, size, its = min(ways, key=lambda way: way[:2])
    outcomes = _outcomes(reference, least, other, millimetres(size.nominal_mm), millimetres(its.nominal_mm))
    gauge = millimetres(round(-apart / GAUGE_SHARE, 3))
    return f"measure the {SIZE_NAMES.get(name, name)} of entry {entry.number}: {outcomes} (good to {gauge} or better)"


def _by_going_on(reference: Reference, found: Found, least: Explanation, other: Explanation) -> str:
    if found.finished:
        return ""
    deep = [{note.places[0] for note in e.notes if note.kind == "not_reached" and note.places} for e in (least, other)]
    for which, only in ((1, deep[1] - deep[0]), (0, deep[0] - deep[1])):
        for place in sorted(only):
            name = _name(reference, place)
            with_it, without = (other, least) if which else (least, other)
            return (
                f"go on with the teardown: {name} found deeper means {says(reference, with_it)}, "
                f"not found means {says(reference, without)}"
            )
    return ""


def _by_looking(reference: Reference, found: Found, least: Explanation, other: Explanation) -> str:
    here, there = _standings(least), _standings(other)
    doubtful = [n for n in sorted(here.keys() & there.keys()) if here[n].home != there[n].home]
    if not doubtful:
        doubtful = sorted({n for e in (least, other) for f in e.findings for n in f.entries})
    if not doubtful:
        return "no measurement of what came off tells these two apart"
    named = " and ".join(f"entry {number}" for number in doubtful[:3])
    part = {here[n].part for n in doubtful if n in here} | {there[n].part for n in doubtful if n in there}
    if len(part) == 1 and None not in part:
        return f"no measurement tells which of equal parts {named} is; look for witness marks and wear on it"
    return f"look at {named} again: number, tag, witness marks and facing show where it stood"
