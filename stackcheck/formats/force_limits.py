"""Limits of forces: a table of `[[limits]]` that says `of` what it is instead of `between` which places.

[[limits]]
what = "preload of the pinion"
of = "end float of the pinion"     # a gap between two bearings: the force in its place; or a joint: what it clamps with
least = "3 kN"
most = "10 kN"
source = "maker's drawing"
state = "running"                  # where it is said for one state alone

One in lengths with a `state` is of the gap itself, in that state.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stackcheck.errors import SizeError
from stackcheck.formats.reference_places import limits_in_sequence, limits_text
from stackcheck.formats.reference_tables import ForceLimitTable, StateLimitTable
from stackcheck.formats.source import Reader, Table, did_you_mean
from stackcheck.model.limits import ForceLimit, StateLimit
from stackcheck.model.loops import NEIGHBOURS
from stackcheck.model.reference import Loop, Reference
from stackcheck.units import read_limits


def is_of_a_force(raw: Any) -> bool:
    """Whether a limit says of what it is; one of a gap in a state is among them."""
    return isinstance(raw, dict) and "of" in raw


def _is_of_a_gap(raw: Any) -> bool:
    """Whether it is of a length: said for one state, and its figures are no forces."""
    return is_of_a_force(raw) and "state" in raw and any(_is_length(raw.get(key)) for key in ("least", "most"))


def _is_length(said: Any) -> bool:
    try:
        return said is not None and bool(read_limits(said, may_be_negative=True))
    except SizeError:
        return False


def read_force_limits(reader: Reader, tables: list[Any]) -> tuple[ForceLimit, ...]:
    """Those tables of `[[limits]]` that are of forces; whether what they are of is there `check_force_limits` tells."""
    return tuple(
        ForceLimit(
            what=table.what,
            of=table.of,
            least_n=table.least and table.least.nominal,
            most_n=table.most and table.most.nominal,
            text=limits_text(table),
            source=table.source,
            state=table.state,
        )
        for table in _sound(reader, tables, ForceLimitTable, by="nominal")
    )


def read_state_limits(reader: Reader, tables: list[Any]) -> tuple[StateLimit, ...]:
    """Those tables of `[[limits]]` that are of a gap in one state."""
    return tuple(
        StateLimit(
            what=table.what,
            of=table.of,
            state=table.state,
            least_mm=table.least and table.least.nominal_mm,
            most_mm=table.most and table.most.nominal_mm,
            text=limits_text(table),
            source=table.source,
        )
        for table in _sound(reader, tables, StateLimitTable, by="nominal_mm")
    )


def _sound(reader: Reader, tables: list[Any], schema: type[Table], *, by: str) -> Iterator[Any]:
    """The tables of one sort without a mistake of their own."""
    for index, raw in enumerate(tables):
        if not is_of_a_force(raw) or _is_of_a_gap(raw) != (schema is StateLimitTable):
            continue
        path = ("limits", index)
        table = reader.check(schema, raw, path, f"limit {index + 1}")
        if table is None:
            continue
        what = f'limit "{table.what}"'
        if table.least is None and table.most is None:
            reader.mistake(path, f"{what}: neither least nor most is given", 'add least = "3 kN" or most = "10 kN"')
        elif limits_in_sequence(reader, table, path, what, by=by):
            yield table


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
        elif _is_of_a_gap(raw):
            if of not in loops:
                reader.mistake(path, f'{what}: unknown gap "{of}"', did_you_mean(of, list(loops)), said=of)
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
