"""What a stray part could be: parts of the references, rows of the standard tables, pieces of larger parts, shop items.

A candidate is a known part of `catalogue.known` with what else is believed of it:
material, marks, looks, how common it is.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from stackcheck.catalogue.known import Known, Limits, reference_part, standard_parts
from stackcheck.formats.words import head_of_name
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference
from stackcheck.stray.beliefs import belief, family, records
from stackcheck.stray.seen import name_words
from stackcheck.tables import tables
from stackcheck.value import Value

LEAST_TAPER_RING = 0.6
"""No ring of a taper bearing is narrower than this share of the whole:
ISO 355 has 0.73 and more for outer rings, from memory.
"""
LEAST_WIDTH_MM = 0.001
"""Limits nearer than this count as so far apart: a density needs a width."""
SECOND_CHOICE = frozenset({"M3.5", "M14", "M18", "M22", "M27", "M33", "M39", "M45", "M52", "M60"})
"""Threads of the second choice of ISO 261 (edition 1998, from memory; open washer tables set them in brackets)."""


class Candidate(Value, kw_only=True):
    """Something that the stray part could be.

    `source` is "part", "standard", "piece" or "shop"; `reference` and `part` name a part of a reference; `parent` the
    part that a piece comes from. `weight` is how common a standard item is beside others. `numbers` may be marked on
    it; `features` are looks that are known of it: name -> there or not there. `assumed`: limits that no drawing gives
    stand in for some. `loose` are sizes that nothing fixes closely, by which it is not told from others.
    """

    kind: str
    name: str
    source: str
    sizes: tuple[Limits, ...]
    material: str = ""
    numbers: tuple[str, ...] = ()
    features: tuple[tuple[str, bool], ...] = ()
    reference: str = ""
    part: str = ""
    parent: str = ""
    weight: float = 1.0
    assumed: bool = False
    loose: tuple[str, ...] = ()
    called: tuple[tuple[str, ...], ...] = ()
    keeps: bool = False
    look_alikes: tuple[str, ...] = ()

    def size(self, name: str) -> Limits | None:
        for limits in self.sizes:  # asked a thousand times for one stray
            if limits.name == name:
                return limits
        return None

    @property
    def object(self) -> tuple:
        """What makes two candidates the same object: family and limits.
        Nothing measured can tell them apart by size.
        """
        sizes = (size for size in self.sizes if size.name not in self.loose)
        return (
            self.source == "piece",
            family(self.kind),
            tuple((size.name, round(size.low_mm, 4), round(size.high_mm, 4)) for size in sizes),
        )


def of_reference(reference: Reference) -> tuple[Candidate, ...]:
    """Every part that can lie on a bench and has a size to be told by."""
    return tuple(
        candidate
        for part in reference.parts
        if can_lie_loose(part)
        for candidate in (of_part(part, reference.id),)
        if candidate.sizes
    )


def can_lie_loose(part: Part) -> bool:
    """Whether somebody may hold it in the hand:
    what comes off, and what stays but is a ring of its own, driven out to be renewed.
    """
    return not part.fixed or not {"outside", "bore"}.isdisjoint(dict(part.sizes))


def of_part(part: Part, reference: str) -> Candidate:
    """One part of a reference."""
    known = reference_part(reference, part)
    features = {word: True for word in ("chamfer", "teeth") if word in part.feature}
    if family(part.kind) in ("flat rings", "cones"):
        features |= {
            "tab": part.kind == "tab washer",
            "dished": family(part.kind) == "cones" or "hollow" in part.feature,
        }
    features |= dict(_features_of(part.standard))
    return Candidate(
        kind=part.kind, name=part.name, source="part", sizes=_sizes(known), material=part.material, reference=reference,
        part=part.id, numbers=tuple(filter(None, (part.number, *part.accepts, part.standard))), assumed=known.assumed,
        features=tuple(sorted(features.items())), called=_called(part.name, part.also),
        keeps=part.kind == "tab washer" or part.has_duty("retention") or part.has_duty("anti-turn"),
        look_alikes=tuple(duty.detail for duty in part.duties if duty.name == "look-alike"),
    )  # fmt: skip


@cache
def _called(name: str, also: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """ "Felt ring in its cover" is called so, or just "felt ring"."""
    return tuple(dict.fromkeys(name_words(each) for each in (name.replace(",", " "), head_of_name(name), *also)))


@cache
def standard() -> tuple[Candidate, ...]:
    """Every row of the standard tables that has a size to be told by."""
    common = {record["table"]: record for record in records("commonness.csv")}
    return tuple(
        Candidate(
            kind=part.kind, name=part.name, source="standard", sizes=_sizes(part), numbers=(part.name,),
            weight=_weight(common.get(table, common["other"]), part.name), features=_features_of(part.name),
        )
        for table, part in standard_parts()
    )  # fmt: skip


def _weight(common: dict[str, str], designation: str) -> float:
    """How common one size of a table is: a table that learns a rare size must not make its everyday ones rarer."""
    seldom = designation.rpartition(" ")[2] in SECOND_CHOICE
    return float(common["weight"]) * (belief("factor", "second choice") if seldom else 1.0)


def _sizes(part: Known) -> tuple[Limits, ...]:
    return tuple(_limits(size.name, size.low_mm, size.high_mm) for size in part.sizes)


def _features_of(designation: str) -> tuple[tuple[str, bool], ...]:
    """What the commonness table knows of the looks of a standard: "chamfer", "no chamfer"."""
    for start, words in _features_by_standard():
        if designation.startswith(start):
            known = {words.removeprefix("no "): not words.startswith("no "), "dished": False, "tab": False}
            return tuple(sorted(known.items()))
    return ()


@cache
def _features_by_standard() -> tuple[tuple[str, str], ...]:
    words = {record["table"]: record["features"] for record in records("commonness.csv")}
    return tuple((f"{table.standard} ", words[table.id]) for table in tables() if words.get(table.id))


def pieces(whole: Iterable[Candidate]) -> tuple[Candidate, ...]:
    """Rings of the bearings among these: a burst bearing leaves rings, never an extra part.

    How wide one ring of a taper bearing is, the width of the whole says only roughly.
    """
    found = []
    for bearing in whole:
        if not bearing.kind.endswith("bearing"):
            continue
        width = bearing.size("length")
        for ring, name in (("inner ring", "bore"), ("outer ring", "outside")):
            own, other = bearing.size(name), bearing.size("outside" if name == "bore" else "bore")
            if own is not None and other is not None and width is not None:
                # How thick a ring is stands in no table, but the balls run on the mean diameter, between the two rings.
                mean, wall = (own.low_mm + other.low_mm) / 2, abs(own.low_mm - other.low_mm) / 20
                edge = own.low_mm + wall if name == "bore" else own.low_mm - wall
                track = _limits(other.name, *sorted((mean, edge)))
                is_taper = bearing.kind == "taper bearing"
                wide = _limits("length", LEAST_TAPER_RING * width.low_mm, width.high_mm) if is_taper else width
                found.append(
                    Candidate(
                        kind="ring",
                        name=f"{ring} of {bearing.name}",
                        source="piece",
                        sizes=(own, track, wide),
                        material="steel",
                        reference=bearing.reference,
                        part=bearing.part,
                        parent=bearing.name,
                        weight=bearing.weight,
                        loose=(other.name, "length") if is_taper else (other.name,),
                    )
                )
    return tuple(found)


def shop() -> tuple[Candidate, ...]:
    """Tools and packing, with the wide sizes of such things."""
    return tuple(
        Candidate(
            kind=record["kind"],
            name=record["name"],
            source="shop",
            sizes=tuple(
                _limits(name, float(record[f"{name}_least"]), float(record[f"{name}_most"]))
                for name in ("bore", "outside", "length")
            ),
        )
        for record in records("shop.csv")
    )


def _limits(name: str, low: float, high: float) -> Limits:
    return Limits(name, low, max(high, low + LEAST_WIDTH_MM))
