"""Hidden bridges: a ring or washer beside a bearing that is wide enough to press its inner and its outer ring at once.

Clamped against the inner ring and reaching the outer one it carries the force past the balls and brakes the bearing: a
path that no stack of the reference has, and no sum of lengths shows. Told by diameters alone. Where a ring ends is
estimated from bore and outside diameter, with a doubt (`ring_share`), unless the reference gives the `shoulder` of the
inner ring.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.faces import face_size, wide_end
from stackcheck.mechanics.paths import diameter
from stackcheck.mechanics.ring_share import face_share
from stackcheck.model.finding import Standing
from stackcheck.model.part import RING_BEARINGS
from stackcheck.value import Value

PLAIN_KINDS = frozenset(
    {"washer", "shim ring", "spacer tube", "collar", "thrust washer", "tab washer", "ring", "gasket"}
)
"""Parts that touch a bearing with their whole face.
A flange or a pulley has a boss, and is judged only where its sections are given.
"""

PRESSES_BOTH, MAY_PRESS_BOTH, OVER_THE_SEAL, NEEDS_SIZE = (
    "presses both rings",
    "may press both rings",
    "stands over the seal",
    "needs its size",
)


class Bridge(Value, kw_only=True):
    """One part beside a bearing: `reaches_mm` its outside (or bore), `begins_mm` where the other ring begins,
    least and most.
    """

    standing: Standing
    bearing: str
    other_ring: str
    size: str
    answer: str
    reaches_mm: float | None = None
    begins_mm: tuple[float, float] | None = None


def bridges(arrangement: Arrangement) -> tuple[Bridge, ...]:
    """Every part beside a bearing that reaches its other ring or its seal, or that nobody can tell this of."""
    found: dict[tuple[Standing, str], Bridge] = {}
    for stack in arrangement.reference.stacks:
        members = arrangement.paths[stack.name]
        for one, other in pairwise(members):
            if (
                isinstance(one, Member)
                and isinstance(other, Member)
                and stack.through in ("inner rings", "outer rings")
            ):
                for bearing, beside, end in ((one, other, "first"), (other, one, "second")):
                    for bridge in _bridge(arrangement, bearing.standing, beside.standing, stack.through, end):
                        # It may lie in either stack: once is enough.
                        found.setdefault((bridge.standing, bridge.bearing), bridge)
    return tuple(found.values())


def _bridge(arrangement: Arrangement, bearing: Standing, beside: Standing, through: str, end: str) -> Iterator[Bridge]:
    ruler = arrangement.ruler
    own, part = ruler.part(bearing), ruler.part(beside)
    if (
        own is None
        or own.kind not in RING_BEARINGS
        or bearing.home is None
        or part is not None
        and (part.kind not in PLAIN_KINDS and not part.sections or part.fixed)
    ):
        return
    bore, outside = own.size("bore"), own.size("outside")
    if bore is None or outside is None:
        return
    is_inner = through == "inner rings"
    size, other = ("outside", "outer ring") if is_inner else ("bore", "inner ring")
    wide = wide_end(arrangement.ruler, bearing)
    # The end of the washer that the bearing is at: the bearing looks to the other one there.
    share = face_share(own.kind, "outer" if is_inner else "inner", wide != end if wide else None)
    section = outside.nominal_mm - bore.nominal_mm
    ends = [each * section for each in (share.least, share.most)]
    begins = tuple(sorted(outside.nominal_mm - end if is_inner else bore.nominal_mm + end for end in ends))
    reaches = face_size(ruler, beside, part, end, size) or diameter(ruler, beside, size)
    said = {
        "standing": beside,
        "bearing": bearing.home,
        "other_ring": other,
        "size": size,
        "reaches_mm": reaches,
        "begins_mm": begins,
    }
    if reaches is None:
        if beside.home is None:
            yield Bridge(answer=NEEDS_SIZE, **said)
    elif (reaches > begins[1]) if is_inner else (reaches < begins[0]):
        yield Bridge(answer=PRESSES_BOTH, **said)
    elif (reaches > begins[0]) if is_inner else (reaches < begins[1]):
        yield Bridge(answer=MAY_PRESS_BOTH, **said)
    elif is_inner and (shoulder := own.size("shoulder")) is not None and reaches > shoulder.high_mm:
        yield Bridge(answer=OVER_THE_SEAL, **said)
