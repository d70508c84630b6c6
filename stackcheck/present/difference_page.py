"""Two references on a page: what changed from one to the other, part by part; whole machines; parts met elsewhere."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from typing import Any

from stackcheck.model.part import SIZE_NAMES
from stackcheck.model.reference import Reference
from stackcheck.present.blocks import Block, Heading, Rows, Text
from stackcheck.present.names import counted
from stackcheck.present.where_words import between_words, home_words
from stackcheck.present.words import grade_words, listed, place_words
from stackcheck.references.difference import Change, Difference
from stackcheck.references.generations import Step, Through
from stackcheck.references.shared import Shared

LABELS = {
    "from the other end": "FROM THE OTHER END", "may be absent": "MAY BE ABSENT",
    "described otherwise": "DESCRIBED OTHERWISE", "must hold": "MUST HOLD", "end for end": "END FOR END",
    "facing": "FACING",
}  # fmt: skip


def difference_page(value: Difference) -> list[Block]:
    """The sentence, who says so on either side, then every change."""
    blocks: list[Block] = [Text(headline(value), strong=True)]
    blocks += [Text(f"{_named(each)}: {grade_words(each)}.") for each in (value.first, value.second)]
    blocks += [
        Text(f"{each.for_machine[:1].upper()}{each.for_machine[1:]}.")
        for each in (value.first, value.second)
        if ": " in each.for_machine
    ]
    blocks += [Text(words) for words in _not_looked_at(value)]
    if value.changes:
        blocks.append(Heading("CHANGES"))
        blocks += [
            Text(f"{change_label(change)}  {change_words(change, value)}", mark=" -  ") for change in value.changes
        ]
    if value.same:
        blocks.append(Heading("THE SAME"))
        names = (value.first.part(one).name for one, _ in value.same)
        blocks.append(Text(f"{' · '.join(names)}.", indent=1))
    if not value.proved_least:
        blocks.append(
            Text("Another, smaller set of moves may lead from one sequence to the other: the search was cut.")
        )
    return blocks


def change_label(change: Change) -> str:
    return LABELS.get(change.kind, change.kind.upper())


def headline(value: Difference) -> str:
    return f"From {_named(value.first)} to {_named(value.second)}: {_summary(value)}."


def _summary(value: Difference) -> str:
    counts = Counter(change.kind for change in value.changes)
    told = [f"{count} {kind}" for kind, count in counts.items()]
    return f"{', '.join(told) or 'no change'}; {len(value.same)} of {counted(len(value.first.parts), 'part')} the same"


def _named(reference: Reference) -> str:
    return ", ".join(
        filter(None, (f"{reference.id} rev {reference.revision}", reference.for_machine.partition(": ")[0]))
    )


def _not_looked_at(value: Difference) -> list[str]:
    """Variants that nobody chose are no part of the answer."""
    names = {
        each.id: [f'"{variant.name}"' for variant in each.variants]
        for each in (value.first, value.second)
        if not each.for_machine
    }
    return [f"{id}: variants not looked at: {listed(quoted)}." for id, quoted in names.items() if quoted]


def change_words(change: Change, value: Difference) -> str:
    """One change as a sentence without a full stop, in the places of the first reference."""
    return _SENTENCES[change.kind](change, value)


def _ours(change: Change, value: Difference) -> str:
    return listed(place_words(value.first, place) for place in change.places)


def _theirs(change: Change, value: Difference) -> str:
    return listed(place_words(value.second, place) for place in change.others)


def _added(change: Change, value: Difference) -> str:
    return f"{_theirs(change, value)} {between_words(value.first, change.after, change.before)}".rstrip()


def _dropped(change: Change, value: Difference) -> str:
    return f"{_ours(change, value)}, which stood {home_words(value.first, change.places[0])}"


def _moved(change: Change, value: Difference) -> str:
    return f"{_ours(change, value)}: now {between_words(value.first, change.after, change.before)}"


def _part(change: Change, value: Difference) -> str:
    return (value.first.part(change.part) if change.part else value.second.part(change.other)).name


def _size(change: Change, value: Difference) -> str:
    name = SIZE_NAMES[change.what].removesuffix(" along the axis")
    return f"{_part(change, value)}: {name} {_was_and_now(change, 'not given')}"


def _was_and_now(change: Change, nothing: str) -> str:
    was, now = (
        f"{said} ({mm})" if mm else said or nothing
        for said, mm in ((change.was, change.was_mm), (change.now, change.now_mm))
    )
    return f"{was}, now {now}"


def _numbers(change: Change, value: Difference) -> str:
    accepted = "; one is accepted for the other" if change.what else ""
    return f"{_part(change, value)}: {_number(change.was)}, now {_number(change.now)}{accepted}"


def _number(number: str) -> str:
    return f"number {number}" if number else "no number"


def _told(what: str) -> Callable[[Change, Difference], str]:
    return lambda change, value: (
        f"{_ours(change, value)}: {what} {change.was or 'not stated'}, now {change.now or 'not stated'}"
    )


_SENTENCES: dict[str, Callable[[Change, Difference], str]] = {
    "from the other end": lambda change, value: "the second runs the other way; below it is read as its mirror image",
    "added": _added,
    "dropped": _dropped,
    "replaced": lambda change, value: f"in the place of the {_ours(change, value)} stands {_theirs(change, value)}",
    "swapped": lambda change, value: f"{_ours(change, value)} each in the other's place",
    "moved": _moved,
    "end for end": lambda change, value: f"{_ours(change, value)}: sequence and facings turned together",
    "turned": lambda change, value: (
        f"{_ours(change, value)}: {value.first.part(change.part).feature} toward {change.was}, now toward {change.now}"
    ),
    "facing": _told("facing toward"),
    "count": lambda change, value: f"{_ours(change, value)}: {change.was} pieces, now {change.now}",
    "may be absent": _told("may be absent:"),
    "renumbered": _numbers,
    "resized": _size,
    "described otherwise": lambda change, value: (
        f"{_part(change, value)}: {change.what} {change.was or 'not stated'}, now {change.now or 'not stated'}"
    ),
    "must hold": lambda change, value: f"{change.what}: {_was_and_now(change, 'not stated')}",
    "state": lambda change, value: f"{change.what.removeprefix('state ')}: {_was_and_now(change, 'not stated')}",
}


def machines_page(names: Sequence[str], steps: Sequence[Step], through: Sequence[Through]) -> list[Block]:
    """From machine to machine, every assembly; then the parts that stayed the same all along."""
    blocks: list[Block] = []
    for (first, second), step in zip(pairwise(names), steps):
        blocks.append(Heading(f"FROM {first} TO {second}"))
        for item in step.assemblies:
            blocks.append(Text(f"{_named(item.first)} -> {_named(item.second)}: {_summary(item)}"))
            blocks += [
                Text(f"{change_label(change)}  {change_words(change, item)}", mark="  -  ") for change in item.changes
            ]
            blocks += [Text(words, mark="  -  ") for words in _not_looked_at(item)]
        blocks += [
            Text(f"{_named(reference)}: dropped, the second machine has nothing like it") for reference in step.dropped
        ]
        blocks += [
            Text(f"{_named(reference)}: added, the first machine has nothing like it") for reference in step.added
        ]
    blocks.append(Heading("THE SAME THROUGH ALL OF THEM"))
    named = {item.first.id: item.first for step in steps for item in step.assemblies}
    rows = []
    for chain in through:
        part = named[chain.assemblies[0]].part(chain.parts[0])
        rows.append((part.name, part.number or part.standard, chain.assemblies[0].rpartition("/")[2]))
    blocks.append(Rows(("part", "number", "assembly"), tuple(rows), wraps=(0,)) if rows else Text("No part.", indent=1))
    total = sum(len(item.first.parts) for item in steps[0].assemblies) + sum(len(one.parts) for one in steps[0].dropped)
    blocks.append(Text(f"{len(through)} of the {counted(total, 'part')} of the first stayed the same."))
    return blocks


def shared_page(reference: Reference, asked: Sequence[str], met: Sequence[Shared], looked_in: int) -> list[Block]:
    """Which other assemblies hold the same parts, how we know, and which parts are met nowhere else."""
    blocks: list[Block] = [
        Text(
            f"Parts of {_named(reference)} met elsewhere; looked in {counted(looked_in, 'other reference')}.",
            strong=True,
        )
    ]
    rows = [
        (reference.part(item.part).name, item.reference.id, item.reference.part(item.other).name, item.by)
        for item in met
    ]
    if not rows:
        return [*blocks, Text("None of them is met elsewhere.")]
    blocks.append(Rows(("part", "also in", "where it is called", "by"), tuple(rows), wraps=(0, 2)))
    elsewhere = {item.part for item in met}
    nowhere = [part.name for part in reference.parts if part.id not in elsewhere and (part.id in asked or not asked)]
    if nowhere:
        blocks.append(Text(f"Met nowhere else: {' · '.join(nowhere)}."))
    if any(item.by == "equal sizes" for item in met):
        blocks.append(
            Text(
                "Equal sizes alone do not show that two parts are the same: "
                "material, hardness and finish are not compared."
            )
        )
    return blocks


def difference_json(value: Difference) -> dict[str, Any]:
    return {
        "first": {"id": value.first.id, "revision": value.first.revision, "for_machine": value.first.for_machine},
        "second": {"id": value.second.id, "revision": value.second.revision, "for_machine": value.second.for_machine},
        "changes": [change_json(change, value) for change in value.changes],
        "same": [list(pair) for pair in value.same],
        "proved_least": value.proved_least,
    }  # fmt: skip


def change_json(change: Change, value: Difference) -> dict[str, Any]:
    return {
        "kind": change.kind,
        "sentence": change_words(change, value),
        "places": list(change.places),
        "places_second": list(change.others),
        "part": change.part,
        "part_second": change.other,
        "what": change.what,
        "was": change.was,
        "now": change.now,
        "between": [change.after, change.before] if change.after or change.before else [],
    }


def machines_json(names: Sequence[str], steps: Sequence[Step], through: Sequence[Through]) -> dict[str, Any]:
    return {
        "machines": list(names),
        "steps": [
            {
                "assemblies": [difference_json(item) for item in step.assemblies],
                "dropped": [reference.id for reference in step.dropped],
                "added": [reference.id for reference in step.added],
            }
            for step in steps
        ],
        "same_through": [{"assemblies": list(chain.assemblies), "parts": list(chain.parts)} for chain in through],
    }


def shared_json(reference: Reference, met: Iterable[Shared]) -> dict[str, Any]:
    return {
        "reference": reference.id,
        "shared": [
            {"part": item.part, "reference": item.reference.id, "other": item.other, "by": item.by} for item in met
        ],
    }
