"""Several machines as one reference: ranges that hold them all, and every difference between them said.

The arrangement of the first machine stands. Where another one is arranged otherwise, that is told in the words of
`difference` and written into the file; nobody decides here which of them is as it should be. Sizes are ranges from the
smallest to the largest that was measured, each with what it can be off; two that do not agree are said as two, and
never averaged away.
"""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.formats.remarks import Remarks
from stackcheck.model.part import SIZE_NAMES, Reading
from stackcheck.model.reference import Reference, Source
from stackcheck.references.difference import Change, Difference, difference
from stackcheck.references.partners import partners
from stackcheck.references.resized import resized
from stackcheck.references.taken import SizeKey, Taken, range_of
from stackcheck.value import Value, replace

ARRANGEMENT = frozenset(
    {
        "added",
        "dropped",
        "replaced",
        "swapped",
        "moved",
        "end for end",
        "turned",
        "facing",
        "count",
        "from the other end",
        "renumbered",
    }
)
"""Changes in which machines are arranged otherwise or hold other parts;
sizes are told apart, what files say does not count.
"""


class Merged(Value, kw_only=True):
    """One reference of several machines. `differ` are (machine, what differs from the first, in the first's words)."""

    reference: Reference
    remarks: Remarks
    differ: tuple[tuple[str, Difference, Change], ...]
    look: tuple[str, ...]


def merged(machines: Sequence[Taken], title: str = "") -> Merged:
    """One or more machines of the same assembly, the first of which gives the arrangement."""
    first = machines[0]
    differences = [(machine, difference(first.reference, machine.reference)) for machine in machines[1:]]
    differ = tuple(
        (machine.machine, each, change)
        for machine, each in differences
        for change in each.changes
        if change.kind in ARRANGEMENT
    )
    readings = _readings(machines)
    remarks = dict(first.remarks)
    look = [*first.look]
    apart_in = 0
    parts = []
    for part in first.reference.parts:
        sizes = dict(part.sizes)
        for name in SIZE_NAMES:
            met = readings.get((part.id, name))
            if not met:
                continue
            sizes[name] = range_of(tuple(reading for _, reading in met))
            count = len({machine for machine, _ in met})
            of = f"{count} machines, measured" if len(machines) > 1 else "measured"
            remarks["parts", part.id, name] = f"{of}: {', '.join(reading.text for _, reading in met)}"
            if len(machines) > 1 and (apart := _apart(met)):
                apart_in += 1
                look.append(f"{part.name}: {name} differs between machines: {apart}")
        parts.append(resized(part, {name: sizes[name] for name in SIZE_NAMES if name in sizes}))
    look += [
        f"{machine.machine}: {sentence}"
        for machine in machines[1:]
        for sentence in machine.look
        if sentence not in first.look
    ]
    reference = replace(
        first.reference,
        parts=tuple(parts),
        source=_source(machines, len(differ) + apart_in),
        title=title or first.reference.title,
    )
    return Merged(
        reference=reference,
        remarks=Remarks(head=_head(reference, machines), behind=remarks),
        differ=differ,
        look=tuple(look),
    )


def _readings(machines: Sequence[Taken]) -> dict[SizeKey, list[tuple[str, Reading]]]:
    """Every reading of every machine, under the part of the first machine that it belongs to."""
    found: dict[SizeKey, list[tuple[str, Reading]]] = {}
    for index, machine in enumerate(machines):
        own = {other: one for one, other in partners(machines[0].reference, machine.reference).items()} if index else {}
        for (part, name), readings in machine.measured:
            key = (own.get(part, "") if index else part, name)
            if key[0]:
                found.setdefault(key, []).extend((f"{index} {machine.machine}", reading) for reading in readings)
    return found


def _apart(met: list[tuple[str, Reading]]) -> str:
    """The smallest and the largest, where the measuring cannot explain what lies between them."""
    low, high = min(met, key=lambda one: one[1].high_mm)[1], max(met, key=lambda one: one[1].low_mm)[1]
    return f"{low.text} and {high.text}" if low.high_mm < high.low_mm - 1e-9 else ""


def _source(machines: Sequence[Taken], differences: int) -> Source:
    first = machines[0].reference.source
    if len(machines) == 1:
        return first
    what = "; ".join(dict.fromkeys(machine.reference.source.what for machine in machines))
    state = (
        f"{len(machines)} machines agree"
        if not differences
        else f"{len(machines)} machines, which differ in {differences} point{'s' * (differences > 1)}"
    )
    return Source(kind=first.kind, what=what, state=f"draft, {state}")


def _head(reference: Reference, machines: Sequence[Taken]) -> tuple[str, ...]:
    return (
        (
            f"{reference.title}, taken from {'one machine' if len(machines) == 1 else f'{len(machines)} machines'}: "
            f"{reference.source.what}."
        ),
        "It is how they were, not how they should be. A measured size is the range in which it lies.",
    )
