"""Whether a force keeps the limits that somebody sets for it: the preload of a loop, or what a joint clamps with.

A force is a range, so there are four answers: all of it lies within ("agrees"), none of it ("differs"), part of it
("cannot tell"), or the bearings are forced beyond what the model can say ("outside the model"). The force is the one
that is told beside it: tightened, new faces not yet settled, at the temperature asked for.
"""

from __future__ import annotations

from math import inf

from stackcheck.mechanics.clamp import clamps_loop
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.loop_forces import NOTHING_N
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.limits import ForceLimit
from stackcheck.model.reference import Joint, Reference
from stackcheck.model.touching_pairs import bearing_loops
from stackcheck.value import Value

AGREES, DIFFERS, CANNOT_TELL, OUTSIDE = "agrees", "differs", "cannot tell", "outside the model"
NOTHING = Spanned(usual=0.0, least=0.0, most=0.0)


class HeldForce(Value, kw_only=True):
    """A verdict, and the range that it rests on [N]:
    to infinity where no figure holds, None where it cannot be told.
    """

    verdict: str
    least_n: float | None = None
    most_n: float | None = None
    needs: tuple[str, ...] = ()


def belongs(limit: ForceLimit, reference: Reference, joint: Joint) -> bool:
    """Whether a limit is of this joint, or of two bearings that it clamps."""
    return limit.of == joint.name or any(
        loop.name == limit.of and clamps_loop(reference, joint, loop) for loop in bearing_loops(reference)
    )


class Told(Value, kw_only=True):
    """What is told of one force: by each way that its rings may be held, None where that cannot be told;
    above `beyond_n` no figure holds [N].
    """

    ways: tuple[Spanned | None, ...]
    beyond_n: float | None = None
    needs: tuple[str, ...] = ()


def held_force(limit: ForceLimit, forces: JointForces) -> HeldForce:
    """What the force of a joint, or of a loop that it clamps, is against its limit."""
    return judged(limit, told_of(limit, forces))


def told_of(limit: ForceLimit, forces: JointForces) -> Told:
    """The force that a limit is of."""
    told, beyond, needs = (forces.now_n,), None, forces.needs
    if loop := next((loop for loop in forces.loops if loop.loop == limit.of), None):
        told, beyond, needs = (loop.slides, loop.held), loop.beyond_n, loop.needs
    if forces.is_unclamped or loop is not None and loop.one_way:
        told = (NOTHING,)
    elif forces.may_be_unclamped or loop is not None and loop.only_if_held:
        told = (*told, NOTHING)
    return Told(ways=told, beyond_n=beyond, needs=needs)


def judged(limit: ForceLimit, told: Told) -> HeldForce:
    """What is told of a force against its limit."""
    ways = [way for way in told.ways if way is not None]
    if len(ways) < len(told.ways):
        return HeldForce(verdict=CANNOT_TELL, needs=told.needs)
    verdicts = {_against(limit, way, told.beyond_n) for way in ways}
    return HeldForce(
        verdict=verdicts.pop() if len(verdicts) == 1 else CANNOT_TELL,
        least_n=min(inf if told.beyond_n is not None and way.least > told.beyond_n else way.least for way in ways),
        most_n=max(_upper(way, told.beyond_n) for way in ways),
    )


def _upper(way: Spanned, beyond: float | None) -> float:
    return inf if beyond is not None and way.most > beyond else way.most


def _against(limit: ForceLimit, way: Spanned, beyond: float | None) -> str:
    if beyond is not None and way.least > beyond:
        return OUTSIDE
    low, high = way.least if way.least > NOTHING_N else 0.0, _upper(way, beyond)
    least, most = limit.least_n or 0.0, inf if limit.most_n is None else limit.most_n
    if high < least or low > most:
        return DIFFERS
    return AGREES if least <= low and high <= most and high < inf else CANNOT_TELL
