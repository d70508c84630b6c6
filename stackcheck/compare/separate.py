"""Which look or measurement decides between two explanations, and what each outcome would mean.

Cheapest first: look whether two entries are one thing, measure a part whose two possible numbers have limits that do
not meet, read its number, look at the part in doubt; where the explanations differ in what was not reached, go on.
Where no measurement can tell, because the parts are equal, that is said with the entries it concerns.
"""

from __future__ import annotations

from stackcheck.compare.evidence import millimetres
from stackcheck.model.finding import Explanation, Finding, Standing
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import SIZE_NAMES, Part
from stackcheck.model.reference import Reference
from stackcheck.units.digits import good_to

EQUAL_PARTS = "no measurement tells which of equal parts"
"""How what separates two readings begins where they differ in equal parts only."""
MOST_NAMES = 3
GAUGE_SHARE = 4  # the gauge should be good to a quarter of the distance that it must tell


def separation(reference: Reference, found: Found, least: Explanation, other: Explanation) -> str:
    """What decides between the least explanation and another one."""
    return (
        _one_thing(least, other)
        or _by_size_or_number(reference, found, least, other)
        or _by_going_on(reference, found, least, other)
        or _by_looking(least, other)
    )


def says(reference: Reference, explanation: Explanation, other: Explanation) -> str:
    """The findings that the other explanation has not, in a few words, for "... means ..."."""
    told = {key(finding) for finding in other.findings}
    own = [finding for finding in explanation.findings if key(finding) not in told]
    words = "; ".join(_words(reference, finding) for finding in own)
    return words or ("the rest alone" if explanation.findings else "no difference")


def key(finding: Finding) -> tuple:
    """What makes two findings of two explanations the same."""
    return finding.kind, finding.places, finding.entries, getattr(finding, "toward", "")


_DONE = {
    "run_moved": "moved together",
    "run_end_for_end": "turned end for end",
    "different_part": "another part",
    "entered_from_other_end": "the list entered from the other end",
}


def _words(reference: Reference, finding: Finding) -> str:
    names = list(dict.fromkeys(_name(reference, place) for place in finding.places)) or [
        f"entry {number}" for number in finding.entries
    ]
    named = " and ".join(names) if len(names) <= MOST_NAMES else f"{len(names)} parts from {names[0]} to {names[-1]}"
    return f"{named} {_DONE.get(finding.kind, finding.kind.replace('_', ' '))}".strip()


def _name(reference: Reference, place: str) -> str:
    if not reference.has_place(place):
        return place
    part, its = reference.part_at(place), reference.place(place)
    if len(reference.places_of(part.id)) == 1:
        return part.name
    return (
        f"{part.name} ({reference.ends[its.end]})" if its.end is not None else f"{part.name} {place.partition('@')[2]}"
    )


def _outcomes(reference: Reference, least: Explanation, other: Explanation, one: str, two: str) -> str:
    return f"{one} means {says(reference, least, other)}, {two} means {says(reference, other, least)}"


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


def _by_size(reference: Reference, entry: Entry, one: Part, two: Part, least: Explanation, other: Explanation) -> str:
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
    gauge = good_to(-apart / GAUGE_SHARE)
    size_name = SIZE_NAMES.get(name, name).removesuffix(" along the axis")
    return f"measure the {size_name} of entry {entry.number}: {outcomes} (good to {gauge} mm or better)"


def _by_going_on(reference: Reference, found: Found, least: Explanation, other: Explanation) -> str:
    if found.finished:
        return ""
    deep = [{note.places[0] for note in e.notes if note.kind == "not_reached" and note.places} for e in (least, other)]
    for which, only in ((1, deep[1] - deep[0]), (0, deep[0] - deep[1])):
        for place in sorted(only):
            name = _name(reference, place)
            with_it, without = (other, least) if which else (least, other)
            return (
                f"go on with the teardown: {name} found deeper means {says(reference, with_it, without)}, "
                f"not found means {says(reference, without, with_it)}"
            )
    return ""


def _by_looking(least: Explanation, other: Explanation) -> str:
    here, there = _standings(least), _standings(other)
    doubtful = [n for n in sorted(here.keys() & there.keys()) if here[n].home != there[n].home]
    if doubtful and all(here[n].part is not None and here[n].part == there[n].part for n in doubtful):
        named, _, are = _named(doubtful)
        return f"{EQUAL_PARTS} {named} {are}; look for witness marks and wear on {'them' if are == 'are' else 'it'}"
    if not doubtful and any(finding.kind == "entered_from_other_end" for finding in (*least.findings, *other.findings)):
        return "look at the machine, or at a photo of it, for the end that the first entry came off"
    doubtful = doubtful or sorted({n for e in (least, other) for f in e.findings for n in f.entries})
    if not doubtful:
        return "no measurement of what came off tells these two apart"
    named, they, _ = _named(doubtful)
    return f"look at {named} again: number, tag, witness marks and facing show where {they} stood"


def _named(numbers: list[int]) -> tuple[str, str, str]:
    """ "entries 4, 5 and 10" with "they" and "are"; "entry 4" with "it" and "is"."""
    if len(numbers) == 1:
        return f"entry {numbers[0]}", "it", "is"
    first = [str(number) for number in numbers[:MOST_NAMES]]
    return f"entries {', '.join(first[:-1])} and {first[-1]}", "they", "are"
