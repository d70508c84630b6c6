"""In which stacks a part lies that is not where it belongs.

A part between two neighbours of the line may lie in any stack that runs past that spot: between a seal and a bearing,
on the shaft or in the housing. It lies only where its face meets the faces beside it, so its bore and outside diameter
decide when they are known; where they do not, every possibility is kept. A stack of which it would only be a new end
counts when no stack has it between two of its members, and two fixed members leave no room between them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stackcheck.mechanics.lengths import RING_WIDTH, Ruler
from stackcheck.mechanics.steps import end_section
from stackcheck.model.finding import Standing
from stackcheck.model.reference import Stack
from stackcheck.value import Value


class Spot(Value, kw_only=True):
    """Where a part would lie in one stack: its neighbours there, None beyond an end."""

    stack: Stack
    before: Standing | None
    after: Standing | None

    @property
    def neighbours(self) -> tuple[Standing, ...]:
        return tuple(standing for standing in (self.before, self.after) if standing is not None)


def stacks_at(
    ruler: Ruler, line: Sequence[Standing], settled: Mapping[int, frozenset[str]], index: int
) -> tuple[str, ...]:
    """Names of the stacks in which the part at `index` of the line may lie; `settled` tells where the others do.

    None where every face beside it is known to miss its own: it lies loose, around or inside the others.
    """
    standing = line[index]
    own_stacks = _own_stacks(ruler, standing)
    inside, at_end, no_room = _spots(ruler, line, settled, index, own_stacks)
    for spots in (inside, at_end):
        own = [spot for spot in spots if spot.stack.name in own_stacks]
        meeting = own or [spot for spot in spots if _meets(ruler, standing, spot)]
        if meeting:
            return tuple(spot.stack.name for spot in meeting)
    if inside or at_end:
        return ()  # its face meets none beside it: it lies loose around or inside the others
    return tuple(spot.stack.name for spot in no_room)


def _spots(
    ruler: Ruler,
    line: Sequence[Standing],
    settled: Mapping[int, frozenset[str]],
    index: int,
    own_stacks: frozenset[str],
) -> tuple[list[Spot], list[Spot], list[Spot]]:
    """Spots between two members of a stack, at an end of one, and between two fixed members."""
    inside, at_end, between_fixed = [], [], []
    beside = (
        max((i for i in settled if i < index), default=None),
        min((i for i in settled if i > index), default=None),
    )
    for stack in ruler.reference.stacks:
        members = [i for i, stacks in settled.items() if stack.name in stacks]
        left = max((i for i in members if i < index), default=None)
        right = min((i for i in members if i > index), default=None)
        spot = Spot(
            stack=stack, before=None if left is None else line[left], after=None if right is None else line[right]
        )
        if left is not None and right is not None:
            fixed = all(ruler.reference.part_at(standing.home).fixed for standing in spot.neighbours if standing.home)
            (between_fixed if fixed else inside).append(spot)
        elif members and (stack.name in own_stacks or beside[0] in members or beside[1] in members):
            at_end.append(spot)
    return inside, at_end, between_fixed


def _own_stacks(ruler: Ruler, standing: Standing) -> frozenset[str]:
    """The stacks of the places that the part has in the reference: it keeps to its path wherever it was put."""
    reference = ruler.reference
    if ruler.part(standing) is None:
        return frozenset()
    homes = [standing.home] if standing.home else [place.name for place in reference.places_of(standing.part)]
    return frozenset(stack.name for stack in reference.stacks if not set(homes).isdisjoint(stack.places))


def _meets(ruler: Ruler, standing: Standing, spot: Spot) -> bool:
    """Whether its face meets every face beside it, as far as bores and outside diameters are known."""
    for neighbour, end, its_end in ((spot.before, "first", "second"), (spot.after, "second", "first")):
        if neighbour is None:
            continue
        bore, outside = _across(ruler, standing, end)
        inner, outer = _face(ruler, neighbour, its_end, spot.stack.through)
        if bore is not None and outer is not None and bore >= outer:
            return False
        if outside is not None and inner is not None and outside <= inner:
            return False
    return True


def _face(ruler: Ruler, standing: Standing, end: str, through: str) -> tuple[float | None, float | None]:
    """Inner and outer diameter of the face that looks at this end in this stack [mm];
    the rings of a bearing part half way.
    """
    bore, outside = _across(ruler, standing, end)
    part = ruler.part(standing)
    if part is not None and "bearing" in part.kind and through in RING_WIDTH and None not in (bore, outside):
        middle = (bore + outside) / 2
        return (bore, middle) if through == "inner rings" else (middle, outside)
    return bore, outside


def _across(ruler: Ruler, standing: Standing, end: str) -> tuple[float | None, float | None]:
    """Bore and outside where it looks at this end [mm]: of its end section where it has steps."""
    if (section := end_section(ruler, standing, end)) is not None:
        return section.bore.nominal_mm if section.bore is not None else 0.0, section.outside.nominal_mm
    return diameter(ruler, standing, "bore"), diameter(ruler, standing, "outside")


def diameter(ruler: Ruler, standing: Standing, name: str) -> float | None:
    if (reading := ruler.readings.size(standing, name)) is not None:
        return reading.value_mm
    part = ruler.part(standing)
    size = part.size(name) if part is not None else None
    return None if size is None else size.nominal_mm
