"""What stands in each stack, first end to second end:
as the reference wants it, or as an explanation believes it stood.

An explanation gives one line through the whole assembly. A part in its place lies in the stacks of that place, one that
was swapped in those of the other place, a moved or extra one where `stackcheck.mechanics.paths` finds it. A gap stays
beside the fixed member it is next to in the reference. No length is looked at here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from stackcheck.mechanics.lengths import Readings, Ruler
from stackcheck.mechanics.paths import stacks_at
from stackcheck.model.finding import Explanation, Finding, OutOfPlace, RunMoved, Standing, Swapped
from stackcheck.model.found import Found
from stackcheck.model.reference import Gap, Place, Reference, Stack
from stackcheck.value import Value, replace


class Member(Value, kw_only=True):
    """Something in a stack; `or_else` names all the stacks it may lie in where that cannot be told.

    `place` is the place that it stands in, None where it stands in none of the reference.
    """

    standing: Standing
    place: str | None = None
    or_else: tuple[str, ...] = ()


Path = tuple["Member | Gap", ...]


class Arrangement(Value, kw_only=True):
    """The stacks with what stands in them, and the ruler for it."""

    ruler: Ruler
    paths: Mapping[str, Path]

    @property
    def reference(self) -> Reference:
        return self.ruler.reference

    def members(self, stack: str) -> tuple[Member, ...]:
        return tuple(item for item in self.paths[stack] if isinstance(item, Member))


def standing_in(place: Place, *, turned: bool = False) -> Standing:
    """What the reference wants in a place."""
    return Standing(part=place.part, home=place.name, count=place.count, turned=turned)


def reference_line(reference: Reference) -> tuple[Standing, ...]:
    return tuple(standing_in(reference.place(name)) for name in reference.line)


def as_wanted(reference: Reference) -> Arrangement:
    """Everything in its place, with the sizes of the reference."""
    return _arranged(Ruler(reference=reference), reference_line(reference), ())


def as_believed(reference: Reference, found: Found, explanation: Explanation) -> Arrangement:
    """What stood where by this explanation, with everything that was measured."""
    ruler = Ruler(reference=reference, readings=Readings.of(found), as_found=True)
    return arranged(ruler, explanation.line, explanation.findings)


def arranged(ruler: Ruler, line: Iterable[Standing], findings: Iterable[Finding]) -> Arrangement:
    """A line of standings shared out to the stacks; the findings tell which of them are not in their places."""
    opened = tuple(standing for lump in line for standing in _opened(ruler.reference, lump))
    return _arranged(ruler, opened, tuple(findings))


def _arranged(ruler: Ruler, line: tuple[Standing, ...], findings: tuple[Finding, ...]) -> Arrangement:
    places = {
        index: place
        for index, standing in enumerate(line)
        if (place := _place_of(standing, findings, line)) is not None
    }
    settled = {index: _stacks_of(ruler.reference, place) for index, place in places.items()}
    lies_in: dict[str, list[Member]] = {stack.name: [] for stack in ruler.reference.stacks}
    for index, standing in enumerate(line):
        stacks = settled.get(index)
        or_else: tuple[str, ...] = ()
        if stacks is None:
            stacks = stacks_at(ruler, line, settled, index)
            if len(stacks) > 1 and not _belongs_to_all(ruler.reference, standing, stacks):
                or_else = stacks
        for name in stacks:
            lies_in[name].append(Member(standing=standing, place=places.get(index), or_else=or_else))
    swapped = {line[index]: place for index, place in places.items() if place != line[index].home}
    return Arrangement(
        ruler=replace(ruler, stands_in=swapped) if swapped else ruler,
        paths={stack.name: _with_gaps(ruler.reference, stack, lies_in[stack.name]) for stack in ruler.reference.stacks},
    )


def _place_of(standing: Standing, findings: tuple[Finding, ...], line: tuple[Standing, ...]) -> str | None:
    """The place in which it stands, None for a part that stands in no place of the reference."""
    place = standing.home
    for finding in findings:
        if place is None or place not in finding.places or not _speaks_of(finding, standing, line):
            continue
        if isinstance(finding, Swapped):
            place = finding.places[1 - finding.places.index(place)]
        elif isinstance(finding, (OutOfPlace, RunMoved)):
            return None
    return place


def _speaks_of(finding: Finding, standing: Standing, line: tuple[Standing, ...]) -> bool:
    """Whether a finding is about this standing: of a counted place only about the pieces of its entries."""
    if standing.entry is None:
        return not any(other.home == standing.home and other.entry in finding.entries for other in line)
    return not finding.entries or standing.entry in finding.entries


def _stacks_of(reference: Reference, place: str) -> frozenset[str]:
    return frozenset(stack.name for stack in reference.stacks if place in stack.places)


def _belongs_to_all(reference: Reference, standing: Standing, stacks: tuple[str, ...]) -> bool:
    """A bearing that was moved still lies in both its stacks; that is no doubt."""
    homes = (
        [standing.home] if standing.home else [place.name for place in reference.places if place.part == standing.part]
    )
    return any(set(stacks) <= _stacks_of(reference, home) for home in homes)


def _opened(reference: Reference, standing: Standing) -> tuple[Standing, ...]:
    """A unit that came off closed as its members; a length measured on it is of no single member."""
    for unit in reference.units:
        if unit.id in (standing.part, standing.home):
            members = [standing_in(reference.place(name), turned=standing.turned) for name in unit.members]
            return tuple(reversed(members) if standing.turned else members)
    return (standing,)


def _with_gaps(reference: Reference, stack: Stack, members: list[Member]) -> Path:
    path: list[Member | Gap] = list(members)
    for before, gap, after in _gaps(reference, stack):
        homes = [item.standing.home if isinstance(item, Member) else None for item in path]
        after_stays = after in homes and reference.part_at(after).fixed
        if before in homes and not after_stays:
            path.insert(homes.index(before) + 1, gap)
        elif after in homes:
            path.insert(homes.index(after), gap)
    return tuple(path)


def _gaps(reference: Reference, stack: Stack) -> list[tuple[str, Gap, str]]:
    """Every gap of the stack with its neighbours:
    those written in it, and those that a limit puts on one of its faces.
    """
    line = ("", *stack.items, "")
    gaps = [(a, item, b) for a, item, b in zip(line, line[1:], line[2:]) if isinstance(item, Gap)]
    for loop in reference.loops:
        if loop.stated and loop.open_stack == stack.name and not any(gap.name == loop.name for gap in stack.gaps):
            before, after = sorted(loop.gap_between, key=stack.places.index)
            gaps.append((before, Gap(name=loop.name, least_mm=loop.least_mm, most_mm=loop.most_mm), after))
    return gaps
