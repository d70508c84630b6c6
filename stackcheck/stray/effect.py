"""What a stray part does where it was found, what its absence does, and what it does not explain.

Stays in against left out, by the same sums as every finding (`stackcheck.mechanics.effects`). A part that lies between
the bearings, in the stack through their rings, is in the path of the preload; outside both it changes none.
"""

from __future__ import annotations

from stackcheck.mechanics.effects import Effect, effect
from stackcheck.model.finding import CountDiffers, Finding, Missing
from stackcheck.model.part import BLOCKING_DUTIES
from stackcheck.stray.bench import Assembly
from stackcheck.value import Value

BETWEEN, OUTSIDE, NO_BEARINGS = "between the bearings", "outside the bearings", "no bearings in this stack"
A_BEARING = "one of the bearings"


class Path(Value, kw_only=True):
    """Where a part stands in one stack, seen from its bearings:
    `where` is `BETWEEN`, `OUTSIDE`, `A_BEARING` or `NO_BEARINGS`.
    """

    stack: str
    where: str


class Doing(Value, kw_only=True):
    """What a part does at one spot.

    `stays` is what changes against the reference while it is there, `left_out` what its absence changes; None where
    there is nothing to add up. `finding` says where it stood. `paths` tells of each stack whether it is in the
    bearings' path. `not_explained` are the findings that are there with it or without it. `keeps` are duties that work
    without a load.
    """

    finding: Finding | None = None
    stays: Effect | None = None
    left_out: Effect | None = None
    paths: tuple[Path, ...] = ()
    not_explained: tuple[Finding, ...] = ()
    keeps: tuple[str, ...] = ()


def where_found(assembly: Assembly, entry: int) -> Doing:
    """What an entry of a compared list does where it stood; for a part in its own place, what its absence would do."""
    finding = assembly.finding_of(entry)
    home = assembly.home_of(entry)
    others = tuple(other for other in assembly.explanation.findings if other is not finding)
    keeps = _duties(assembly, home)
    stays = left_out = None
    if finding is not None:
        stays = effect(assembly.reference, assembly.found, finding, explanation=assembly.explanation)
    if assembly.is_needed(entry):
        left_out = absence(assembly, home)
    paths = _paths(assembly, finding, home)
    return Doing(finding=finding, stays=stays, left_out=left_out, paths=paths, not_explained=others, keeps=keeps)


def absence(assembly: Assembly, place: str) -> Effect | None:
    """What one missing piece does to lengths and gaps."""
    if not assembly.reference.has_place(place) or assembly.found is None:
        return None
    count = assembly.reference.place(place).count
    absent = CountDiffers(places=(place,), wanted=count, found=count - 1) if count > 1 else Missing(places=(place,))
    return effect(assembly.reference, assembly.found, absent)


def _duties(assembly: Assembly, place: str) -> tuple[str, ...]:
    if not place:
        return ()
    part = assembly.reference.part_at(place)
    return tuple(duty.name for duty in part.duties if duty.name in BLOCKING_DUTIES)


def _paths(assembly: Assembly, finding: Finding | None, home: str) -> tuple[Path, ...]:
    found = []
    for stack in assembly.reference.stacks:
        spot = _spot(stack.places, finding, home)
        if spot is None:
            continue
        bearings = [
            index
            for index, place in enumerate(stack.places)
            if assembly.reference.part_at(place).kind.endswith("bearing")
        ]
        found.append(Path(stack=stack.name, where=_where(spot, bearings)))
    return tuple(found)


def _where(spot: float, bearings: list[int]) -> str:
    if not bearings:
        return NO_BEARINGS
    if spot in bearings:
        return A_BEARING
    return BETWEEN if bearings[0] < spot < bearings[-1] else OUTSIDE


def _spot(places: tuple[str, ...], finding: Finding | None, home: str) -> float | None:
    """Where it stands among these places; None where it is not in this stack."""
    if finding is not None and (finding.after or finding.before):
        if finding.after in places:
            return places.index(finding.after) + 0.5
        return places.index(finding.before) - 0.5 if finding.before in places else None
    place = finding.places[0] if finding is not None and finding.places else home
    return float(places.index(place)) if place in places else None
