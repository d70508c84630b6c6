"""Limits of forces: a table of `[[limits]]` that says `of` what it is instead of `between` which places.

[[limits]]
what = "preload of the pinion"
of = "end float of the pinion"     # a gap between two bearings: the force in its place; or a joint: what it clamps with
least = "3 kN"
most = "10 kN"
source = "maker's drawing"
"""

from __future__ import annotations

from typing import Any

from stackcheck.formats.reference_places import limits_in_sequence, limits_text
from stackcheck.formats.reference_tables import ForceLimitTable
from stackcheck.formats.source import Reader, did_you_mean
from stackcheck.model.limits import ForceLimit
from stackcheck.model.loops import NEIGHBOURS
from stackcheck.model.reference import Loop, Reference


def is_of_a_force(raw: Any) -> bool:
    return isinstance(raw, dict) and "of" in raw


def read_force_limits(reader: Reader, tables: list[Any]) -> tuple[ForceLimit, ...]:
    """Those tables of `[[limits]]` that are of forces; whether what they are of is there `check_force_limits` tells."""
    limits = []
    for index, raw in enumerate(tables):
        path = ("limits", index)
        table = reader.check(ForceLimitTable, raw, path, f"limit {index + 1}") if is_of_a_force(raw) else None
        if table is None:
            continue
        what = f'limit "{table.what}"'
        if table.least is None and table.most is None:
            reader.mistake(path, f"{what}: neither least nor most is given", 'add least = "3 kN" or most = "10 kN"')
        elif limits_in_sequence(reader, table, path, what, by="nominal"):
            limits.append(
                ForceLimit(
                    what=table.what,
                    of=table.of,
                    least_n=table.least and table.least.nominal,
                    most_n=table.most and table.most.nominal,
                    text=limits_text(table),
                    source=table.source,
                )
            )
    return tuple(limits)


def check_force_limits(reader: Reader, reference: Reference) -> None:
    """Notes every limit of a force that belongs to no joint and to no gap in whose place a force can be."""
    joints = [joint.name for joint in reference.joints]
    loops = {loop.name: loop for loop in reference.loops}
    for index, raw in enumerate(reader.tree.get("limits", ())):
        if not is_of_a_force(raw):
            continue
        path, of, what = ("limits", index, "of"), raw["of"], f'limit "{raw["what"]}"'
        if of in joints and of in loops:
            reader.mistake(path, f"{what}: a joint and a gap are both called that", "rename one of them", said=of)
        elif of in loops and loops[of].set_by:
            reader.mistake(
                path, f"{what}: {_no_force(loops[of])}", "name a joint, or give the gap its own limits", said=of
            )
        elif of not in joints and of not in loops:
            reader.mistake(
                path,
                f'{what}: unknown joint or gap "{of}"',
                did_you_mean(of, list(dict.fromkeys([*joints, *loops]))),
                said=of,
            )


def _no_force(loop: Loop) -> str:
    if loop.set_by == NEIGHBOURS:
        return "no second stack closes this gap, so no force of it is told"
    return f"this gap is set by the {loop.set_by}, so no force of it is told"
