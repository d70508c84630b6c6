"""What must hold in a reference, and what clamps, gives and comes off as one:
limits, pairings, joints, supports, units.

Each names places or parts that the stacks have brought in; a name that is not known there is a mistake.
"""

from __future__ import annotations

from typing import Any

from stackcheck.formats.force_limits import is_of_a_force
from stackcheck.formats.positions import TreePath
from stackcheck.formats.reference_parts import ID, ID_WANTED
from stackcheck.formats.reference_places import PlacesReader, limits_in_sequence, limits_text
from stackcheck.formats.reference_tables import (
    HistoryTable,
    JointTable,
    LimitTable,
    PairingTable,
    SupportTable,
    UnitTable,
)
from stackcheck.formats.sections import check_steps, sections_of
from stackcheck.formats.source import Model, did_you_mean
from stackcheck.model.limits import Limit, Pairing
from stackcheck.model.reference import Joint, Revised, Support, Unit


def _joint(table: JointTable) -> Joint:
    said = dict(table)
    slots, holes, shank = said.pop("slots"), said.pop("holes"), sections_of(said.pop("shank"))
    return Joint(slots=slots or 0, holes_deg=tuple(map(float, holes)), shank=shank, **said)


class RulesReader:
    def __init__(self, known: PlacesReader):
        self.known, self.reader = known, known.reader

    def limits(self, tables: list[Any]) -> tuple[Limit, ...]:
        limits = []
        for index, raw in enumerate(tables):
            if is_of_a_force(raw):
                continue
            path = ("limits", index)
            table = self._check(LimitTable, raw, path, f"limit {index + 1}")
            if table is None:
                continue
            what = f'limit "{table.what}"'
            known = self._are_places(table.between, path + ("between",), what, may_have_face=True)
            if table.least is None and table.most is None:
                self.reader.mistake(
                    path, f"{what}: neither least nor most is given", 'add least = "0.00 mm" or most = "0.10 mm"'
                )
            if table.between[0] == table.between[1]:
                self.reader.mistake(
                    path + ("between",), f"{what}: one place is named twice", "name two places", said=""
                )
            if known and limits_in_sequence(self.reader, table, path, what):
                limits.append(
                    Limit(
                        what=table.what,
                        between=table.between,
                        least_mm=table.least and table.least.nominal_mm,
                        most_mm=table.most and table.most.nominal_mm,
                        text=limits_text(table),
                        source=table.source,
                    )
                )
        return tuple(limits)

    def pairings(self, tables: list[Any]) -> tuple[Pairing, ...]:
        pairings = []
        for index, raw in enumerate(tables):
            path = ("pairings", index)
            table = self._check(PairingTable, raw, path, f"pairing {index + 1}")
            if table is None:
                continue
            what = f'pairing "{table.what}"'
            known = [self._is_size(*getattr(table, side), path + (side,), what) for side in ("outer", "inner")]
            if limits_in_sequence(self.reader, table, path, what) and all(known):
                pairings.append(
                    Pairing(
                        what=table.what,
                        outer=table.outer,
                        inner=table.inner,
                        least_mm=table.least and table.least.nominal_mm,
                        most_mm=table.most and table.most.nominal_mm,
                        text=limits_text(table),
                        source=table.source,
                    )
                )
        return tuple(pairings)

    def joints(self, tables: list[Any]) -> tuple[Joint, ...]:
        joints = []
        for index, raw in enumerate(tables):
            path = ("joints", index)
            table = self._check(JointTable, raw, path, f"joint {index + 1}")
            what = f'joint "{table.name}"' if table else ""
            if (
                table
                and self._are_places(table.clamps, path + ("clamps",), what)
                and self._has_path(table.clamps, path, what)
            ):
                joints.append(_joint(table))
                check_steps(self.reader, joints[-1].shank, path + ("shank",), what)
        return tuple(joints)

    def supports(self, tables: list[Any]) -> tuple[Support, ...]:
        supports = []
        for index, raw in enumerate(tables):
            path = ("supports", index)
            table = self._check(SupportTable, raw, path, f"support {index + 1}")
            if table and self._are_places((table.place,), path + ("place",), f"support {index + 1}"):
                if table.outside and table.bore and not table.bore.high_mm < table.outside.low_mm:
                    self.reader.mistake(
                        path + ("bore",),
                        f"support {index + 1}: the bore is as wide as the outside",
                        "look at both figures",
                    )
                    continue
                supports.append(Support(**dict(table)))
        return tuple(supports)

    def units(self, tables: dict[str, Any]) -> tuple[Unit, ...]:
        units = []
        for id, raw in tables.items():
            path, what = ("units", id), f'unit "{id[:40]}"'
            if not ID.fullmatch(id):
                self.reader.mistake(path, f"{what}: the id cannot be used", ID_WANTED)
            elif id in self.known.declared:
                self.reader.mistake(path, f"{what}: a part has this id already", "give the unit another id")
            table = self._check(UnitTable, raw, path, what)
            if table and self._are_places(table.members, path + ("members",), what):
                units.append(Unit(id=id, name=table.name, members=table.members))
        return tuple(units)

    def history(self, tables: list[Any]) -> tuple[Revised, ...]:
        entries = (
            self._check(HistoryTable, raw, ("history", index), f"history {index + 1}")
            for index, raw in enumerate(tables)
        )
        return tuple(Revised(**dict(table)) for table in entries if table)

    def _has_path(self, clamps: tuple[str, str], path: TreePath, what: str) -> bool:
        """Whether the pull can go from one place to the other; with stacks that could not be read nobody can tell."""
        if not self.known.complete or any(set(clamps) <= set(stack.places) for stack in self.known.stacks):
            return True
        self.reader.mistake(
            path + ("clamps",), f"{what}: no stack leads from one place to the other, so its pull has no path",
            "name two places of one stack: the first and the last that it draws together", said=clamps[0],
        )  # fmt: skip
        return False

    def _check(self, schema: type[Model], raw: Any, path: TreePath, what: str) -> Model | None:
        return self.reader.check(schema, raw, path, what)

    def _are_places(self, names: tuple[str, ...], path: TreePath, what: str, *, may_have_face: bool = False) -> bool:
        # All of them, so that each is noted.
        known = [self._is_place(name, path, what, may_have_face) for name in names]
        return all(known)

    def _is_place(self, text: str, path: TreePath, what: str, may_have_face: bool) -> bool:
        places, ends = self.known.places, self.known.ends
        name, slash, side = text.partition("/")
        if name not in places:
            if self.known.complete or name.partition("@")[0] not in self.known.declared:
                self.reader.mistake(
                    path, f'{what}: unknown place "{name}"', did_you_mean(name, list(places)), said=text
                )
            return False
        if slash and not may_have_face:
            self.reader.mistake(path, f"{what}: a face is named", f'write the place alone: "{name}"', said=text)
            return False
        if slash and ends and side not in ends:
            wanted = f'write "{name}/{ends[0]}" or "{name}/{ends[1]}"'
            self.reader.mistake(path, f'{what}: unknown face "{side}"', wanted, said=text)
            return False
        return True

    def _is_size(self, part: str, size: str, path: TreePath, what: str) -> bool:
        declared = self.known.declared
        if part not in declared:
            self.reader.mistake(path, f'{what}: unknown part "{part}"', did_you_mean(part, declared), said=part)
            return False
        known = self.known.parts.get(part)
        if known is not None and known.size(size) is None:
            sizes = [name for name, _ in known.sizes]
            self.reader.mistake(path, f'{what}: part "{part}" has no {size}', did_you_mean(size, sizes), said=size)
            return False
        return True
