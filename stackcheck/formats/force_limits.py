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
from itertools import combinations, pairwise
from typing import Any

from stackcheck.errors import SizeError
from stackcheck.formats.reference_places import limits_in_sequence, limits_text
from stackcheck.formats.reference_tables import ForceLimitTable, StateLimitTable
from stackcheck.formats.source import Reader, Table, did_you_mean
from stackcheck.model.limits import ForceLimit, StateLimit
from stackcheck.model.loops import NEIGHBOURS
from stackcheck.model.reference import Loop, Reference
from stackcheck.model.touching_pairs import bearing_loops, pair_name
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


def note_unknown_names(reader: Reader) -> None:
    """Notes every limit that is of nothing the file names, while other mistakes keep its reference from being built.

    What is not read yet may still name a joint or a gap, so any word that stands where one could be named counts.
    """
    joints, gaps, possible = _named(reader.tree)
    limits = reader.tree.get("limits")
    for index, raw in enumerate(limits if isinstance(limits, list) else ()):
        of = raw.get("of") if is_of_a_force(raw) else None
        if isinstance(of, str) and of and of not in possible:
            _note_unknown(reader, index, raw, list(dict.fromkeys([*joints, *gaps])))


def _note_unknown(reader: Reader, index: int, raw: dict[str, Any], known: list[str]) -> None:
    what = f'limit "{raw["what"]}"' if isinstance(raw.get("what"), str) else f"limit {index + 1}"
    wanted = did_you_mean(raw["of"], known)
    reader.mistake(("limits", index, "of"), f'{what}: unknown joint or gap "{raw["of"][:40]}"', wanted, said=raw["of"])


def _named(tree: dict[str, Any]) -> tuple[list[str], list[str], set[str]]:
    """The joints and gaps that a tree names, whatever else is wrong with it, and every word that may name one."""
    stacks, joints, limits = (
        [raw for raw in tree.get(name, ()) if isinstance(raw, dict)] if isinstance(tree.get(name), list) else []
        for name in ("stacks", "joints", "limits")
    )
    orders = [raw["order"] for raw in stacks if isinstance(raw.get("order"), list)]
    items = [item for order in orders for item in order if isinstance(item, dict)]
    own = [raw["name"] for raw in joints if isinstance(raw.get("name"), str)]
    gaps = [raw["gap"] for raw in items if isinstance(raw.get("gap"), str)]
    gaps += [raw["what"] for raw in limits if not is_of_a_force(raw) and isinstance(raw.get("what"), str)]
    lines = [raw["name"] for raw in stacks if isinstance(raw.get("name"), str)]
    against = {f"{first} against {second}" for first, second in combinations(lines, 2)}
    against |= {pair_name(*two) for order in orders for two in pairwise(map(_place, order))}
    said = {word for raw in (*joints, *items) for word in raw.values() if isinstance(word, str)}
    return own, gaps, {*own, *gaps, *against, *said}


def _place(item: Any) -> str:
    place = item.get("place") if isinstance(item, dict) else item
    return place if isinstance(place, str) else ""


def check_force_limits(reader: Reader, reference: Reference) -> None:
    """Notes every limit of a force that belongs to no joint and to no gap in whose place a force can be."""
    joints = [joint.name for joint in reference.joints]
    loops = {loop.name: loop for loop in bearing_loops(reference)}
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
            _note_unknown(reader, index, raw, list(dict.fromkeys([*joints, *loops])))


def _no_force(loop: Loop) -> str:
    if loop.set_by == NEIGHBOURS:
        return "no second stack closes this gap, so no force of it is told"
    return f"this gap is set by the {loop.set_by}, so no force of it is told"
