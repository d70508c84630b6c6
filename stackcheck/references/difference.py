"""Two references laid against each other: what is the same, renumbered, resized, added, dropped, moved, turned.

The second reference is read as if somebody had taken it apart: its places become a list of what came off, and the
engine of `compare` finds the fewest changes that lead from the first to it. Then the parts that stand in each other's
places are laid side by side, size by size, and so are gaps, limits, pairings and joints. Nothing is judged: an older
reference is no worse than a newer one.
"""

from __future__ import annotations

from stackcheck.compare import explanations
from stackcheck.model.finding import Explanation, Finding
from stackcheck.model.found import Entry, Found
from stackcheck.model.part import Part, Reading, Size
from stackcheck.model.reference import Place, Reference
from stackcheck.references.mirror import mirrored
from stackcheck.references.must_hold import Rule, limits_text, told_rules
from stackcheck.references.partners import partners
from stackcheck.units import in_inches
from stackcheck.value import Value, replace

PLACE_CHANGES = {
    "missing": "dropped", "extra": "added", "different_part": "replaced", "swapped": "swapped",
    "turned_round": "turned", "out_of_place": "moved", "run_moved": "moved", "run_end_for_end": "end for end",
    "count_differs": "count", "entered_from_other_end": "from the other end",
}  # fmt: skip
"""What the engine calls a difference of a machine -> what it is between two references."""

SEQUENCE = (
    "from the other end", "added", "dropped", "replaced", "swapped", "moved", "end for end", "turned", "facing",
    "count", "may be absent", "renumbered", "resized", "described otherwise", "must hold",
    "state",
)  # fmt: skip
"""Kinds of change as they are listed: what stands where, then the parts, then what must hold, then how warm it is."""

PART_CHANGES = frozenset({"renumbered", "resized", "described otherwise"})
"""Changes of a part itself; one that only stands elsewhere or is turned is the same part."""

SIZE_DECIDES_MM = 1e-6

LONGEST_ASKED = 500
"""Beyond so many places the engine is left to find out by itself from which end a reference runs."""

PLAINLY = 3  # two parts that changed places cost two
"""So many more parts in sequence when read backwards leave no doubt from which end a reference was written."""


class Change(Value, kw_only=True):
    """One thing that differs. `places` are those of the first reference, `others` those of the second.

    `part` and `other` are the ids of the part in the first and in the second, "" where there is none. `what` says which
    size, feature or limit changed, `was` and `now` in the words of the files, `was_mm` and `now_mm` the range where
    those are inches. `after` and `before` are places of the first reference between which something now stands.
    """

    kind: str
    places: tuple[str, ...] = ()
    others: tuple[str, ...] = ()
    part: str = ""
    other: str = ""
    what: str = ""
    was: str = ""
    now: str = ""
    was_mm: str = ""
    now_mm: str = ""
    after: str = ""
    before: str = ""


class Difference(Value, kw_only=True):
    """Everything between two references. `same` are (part of the first, its partner) that are the same part,
    wherever it stands.
    """

    first: Reference
    second: Reference
    changes: tuple[Change, ...]
    same: tuple[tuple[str, str], ...]
    proved_least: bool = True


def with_variants(before: Reference, after: Reference) -> tuple[Difference, ...]:
    """What an edit changed: in the reference as it stands,
    then in every variant that says something else than before.
    """
    changed = [
        difference(was.as_reference, now.as_reference)
        for was, now in zip(before.variants, after.variants)
        if (was.told, was.name, was.years, was.serials) != (now.told, now.name, now.years, now.serials)
    ]
    whole = difference(before, after)
    return (whole, *changed) if whole.changes or not changed else tuple(changed)


def difference(first: Reference, second: Reference) -> Difference:
    """What changes from the first to the second; the same references give no change.

    A second reference that runs plainly the other way is read from its other end, as its mirror image shows it.
    """
    if _runs_the_other_way(first, second):
        answer = difference(first, mirrored(second))
        return replace(answer, changes=(Change(kind="from the other end"), *answer.changes))
    pairs = partners(first, second)
    bare = _to_take_apart(first)
    found, names = _as_taken_apart(first, second, pairs)
    explanation = explanations(bare, found, most=1)[0]
    homes = [
        (standing.home, names[standing.entry]) for standing in explanation.line if standing.home and standing.entry
    ]
    changes = [_of_place(finding, explanation, first, second, names) for finding in explanation.findings]
    changes += _told_otherwise(first, second, homes)
    side_by_side = _side_by_side(first, second, pairs, homes)
    for one, other in side_by_side:
        changes += part_changes(first.part(one), second.part(other))
    changes += _rules(first, second)
    changed = {(change.part, change.other) for change in changes if change.kind in PART_CHANGES}
    return Difference(
        first=first, second=second, changes=tuple(sorted(changes, key=lambda change: SEQUENCE.index(change.kind))),
        same=tuple(pair for pair in side_by_side if pair not in changed), proved_least=explanation.proved_least,
    )  # fmt: skip


def _runs_the_other_way(first: Reference, second: Reference) -> bool:
    """Whether far more parts stand in sequence when the second is read backwards; a near tie is left to the engine."""
    if max(len(first.places), len(second.places)) > LONGEST_ASKED:
        return False
    return _alike(first, mirrored(second)) >= _alike(first, second) + PLAINLY


def _alike(first: Reference, second: Reference) -> int:
    """How many parts at most stand in the same sequence in both, by the line of the second that comes nearest."""
    known = {other: one for one, other in partners(first, second).items()}
    line = [first.place(name).part for name in first.line]
    return _in_sequence(
        line, [known.get(second.place(name).part, "") for name in second.line_by(_rank(first, second, known))]
    )


def _in_sequence(line: list[str], other: list[str]) -> int:
    """How many parts at most stand in one sequence on both sides: the longest common subsequence, row by row."""
    row = [0] * (len(other) + 1)
    for part in line:
        diagonal = 0
        for index, candidate in enumerate(other, 1):
            diagonal, row[index] = row[index], diagonal + 1 if part == candidate else max(row[index], row[index - 1])
    return row[-1]


def _to_take_apart(reference: Reference) -> Reference:
    """The first reference with every member in the list: a leg that is gone is a change, and so is an optional part."""
    return replace(
        reference,
        parts=tuple(replace(part, fixed=False, duties=(), number="", accepts=()) for part in reference.parts),
        places=tuple(replace(place, may_be_absent="") for place in reference.places),
        units=(),
    )


def _as_taken_apart(first: Reference, second: Reference, pairs: dict[str, str]) -> tuple[Found, dict[int, str]]:
    """The second reference as a list of what came off its first end, and the place that each entry came from."""
    known = {other: one for one, other in pairs.items()}
    line = second.line_by(_rank(first, second, known))
    entries = []
    for number, name in enumerate(line, 1):
        place, part = second.place(name), second.part_at(name)
        own = known.get(part.id)
        entries.append(
            Entry(
                number=number, what=part.name, end=0, part=own, kind=part.kind, count=place.count, toward=place.facing,
                sizes=() if own else _as_drawn(part), tag=name,
            )
        )  # fmt: skip
    found = Found(reference=first.id, revision=first.revision, entries=tuple(entries))
    return found, dict(enumerate(line, 1))


def _as_drawn(part: Part) -> tuple[tuple[str, Reading], ...]:
    """The sizes of a part without a partner, for the engine to tell by what it may be."""
    return tuple(
        (
            name,
            Reading(
                text=size.text, value_mm=size.nominal_mm, good_to_mm=(size.high_mm - size.low_mm) / 2, how="drawing"
            ),
        )
        for name, size in part.sizes
        if size.nominal_mm > 0
    )


def _rank(first: Reference, second: Reference, known: dict[str, str]) -> dict[str, tuple[int, int]]:
    """Where each place of the second would stand in the line of the first:
    of all lines it allows, the nearest is taken.
    """
    position = {name: index for index, name in enumerate(first.line)}
    free = {part.id: [place.name for place in first.places_of(part.id)] for part in first.parts}
    homes: dict[str, str] = {}
    for place in second.places:
        twin = f"{known.get(place.part)}@{place.name.partition('@')[2]}".removesuffix("@")
        if twin in free.get(known.get(place.part, ""), ()):
            homes[place.name] = twin
            free[known[place.part]].remove(twin)
    for place in second.places:
        waiting = free.get(known.get(place.part, ""), ())
        if place.name not in homes and waiting:
            homes[place.name] = waiting.pop(0)
    rank: dict[str, tuple[int, int]] = {}
    last = -1
    for index, name in enumerate(second.line):
        last = position[homes[name]] if name in homes else last
        rank[name] = (last, index)
    return rank


def _of_place(
    finding: Finding, explanation: Explanation, first: Reference, second: Reference, names: dict[int, str]
) -> Change:
    kind = PLACE_CHANGES[finding.kind]
    others = tuple(names[number] for number in finding.entries)
    ours = tuple(place for place in finding.places if first.has_place(place))
    was = now = ""
    if kind == "turned":
        was, now = first.place(ours[0]).facing, finding.toward
        was, now = first.end_name(was), first.end_name(now or ("first" if was == "second" else "second"))
    if kind == "count":
        was, now = str(finding.wanted), str(finding.found)
    return Change(
        kind=kind, places=ours, others=others, part=first.place(ours[0]).part if ours else "",
        other=second.place(others[0]).part if others else "", was=was, now=now, after=finding.after,
        before=finding.before,
    )  # fmt: skip


def _told_otherwise(first: Reference, second: Reference, homes: list[tuple[str, str]]) -> list[Change]:
    """Facings that only one of the two states, and places that may be empty in only one of them."""
    changes = []
    for ours, theirs in homes:
        one, other = first.place(ours), second.place(theirs)
        about = {"places": (ours,), "others": (theirs,), "part": one.part, "other": other.part}
        if bool(one.facing) != bool(other.facing):
            changes.append(Change(kind="facing", was=_facing(first, one), now=_facing(second, other), **about))
        if bool(one.may_be_absent) != bool(other.may_be_absent):
            changes.append(Change(kind="may be absent", was=one.may_be_absent, now=other.may_be_absent, **about))
    return changes


def _facing(reference: Reference, place: Place) -> str:
    return reference.end_name(place.facing) if place.facing else ""


def _side_by_side(
    first: Reference, second: Reference, pairs: dict[str, str], homes: list[tuple[str, str]]
) -> list[tuple[str, str]]:
    """The parts to lay against each other: partners, and those that stand in the place of one that has none."""
    found = dict.fromkeys(pairs.items())
    for ours, theirs in homes:
        one, other = first.place(ours).part, second.place(theirs).part
        if one not in pairs and other not in pairs.values():
            found[one, other] = None
    return list(found)


def part_changes(one: Part, other: Part) -> list[Change]:
    """What differs between two parts that are meant to be the same: number, sizes, and what else the files say."""
    about = {"part": one.id, "other": other.id}
    changes = []
    if one.number != other.number:
        accepted = one.number in other.accepts or other.number in one.accepts
        changes.append(
            Change(kind="renumbered", was=one.number, now=other.number, what="accepted" if accepted else "", **about)
        )
    if one.standard != other.standard:
        changes.append(
            Change(kind="described otherwise", what="standard", was=one.standard, now=other.standard, **about)
        )
    sizes, others = dict(one.sizes), dict(other.sizes)
    for name in dict.fromkeys((*sizes, *others)):
        was, now = sizes.get(name), others.get(name)
        if was is None or now is None or not _equal(was, now):
            changes.append(
                Change(
                    kind="resized", what=name, was=was.text if was else "", now=now.text if now else "",
                    was_mm=_size_mm(was), now_mm=_size_mm(now), **about
                )
            )  # fmt: skip
    for what, read in TOLD_OF_A_PART.items():
        if read(one) != read(other):
            changes.append(Change(kind="described otherwise", what=what, was=read(one), now=read(other), **about))
    return changes


TOLD_OF_A_PART = {
    "kind": lambda part: part.kind,
    "material": lambda part: part.material,
    "sections": lambda part: "; ".join(section.words for section in part.sections),
    "feature": lambda part: "same both ways" if part.same_both_ways else part.feature,
    "stays on the machine": lambda part: "yes" if part.fixed else "no",
    "duty": lambda part: ", ".join(sorted(duty.name for duty in part.duties)),
    "must measure": lambda part: ", ".join(sorted(part.must_measure)),
    "stiffness": lambda part: part.stiffness.text if part.stiffness else "",
    "working coils": lambda part: f"{part.coils:g}" if part.coils else "",
    "waves": lambda part: f"{part.waves}" if part.waves else "",
    "preload of a pair": lambda part: part.pair_preload.text if part.pair_preload else "",
}
"""What a file says of a part beside number and sizes. Partners of a pair go by ids, which each reference chooses."""


def _size_mm(size: Size | None) -> str:
    return limits_text(size.low_mm, size.high_mm, 3) if size is not None and in_inches(size.text) else ""


def _equal(was, now) -> bool:
    figures = zip((was.nominal_mm, was.least_mm, was.most_mm), (now.nominal_mm, now.least_mm, now.most_mm))
    return all(a is b if a is None or b is None else abs(a - b) < SIZE_DECIDES_MM for a, b in figures)


def _rules(first: Reference, second: Reference) -> list[Change]:
    """Gaps, limits, pairings, joints, supports and states by their names:
    one that only one of the two has, or that says something else.
    """
    ours, theirs = told_rules(first), told_rules(second)
    nothing = Rule(said="")
    return [
        Change(
            kind="state" if was.is_state or now.is_state else "must hold",
            what=name,
            was=was.said,
            now=now.said,
            was_mm=was.mm,
            now_mm=now.mm,
        )
        for name in dict.fromkeys((*ours, *theirs))
        if (was := ours.get(name, nothing)).told != (now := theirs.get(name, nothing)).told
    ]
