"""A load across shared by two bearings, by the reference and as found, with the preload that stands beside it."""

from __future__ import annotations

from collections.abc import Iterable

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.bodies import Missing
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.load_across import LoadAcross, LoadPoint, load_across, the_two_bearings
from stackcheck.mechanics.loop_forces import either_way
from stackcheck.mechanics.set_gap import SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.reference import Reference
from stackcheck.model.touching_pairs import bearing_loops
from stackcheck.value import Value


class AcrossResult(Value, kw_only=True):
    """One load across by the reference and as found."""

    reference: LoadAcross
    as_found: LoadAcross


def across(
    arrangements: tuple[Arrangement, Arrangement],
    load_n: float,
    point: LoadPoint,
    joints: tuple[tuple[JointForces, ...], tuple[JointForces, ...]],
    gaps: tuple[tuple[SetGap, ...], tuple[SetGap, ...]],
) -> AcrossResult:
    """`arrangements`, `joints` and `gaps` by the reference and as found."""
    own, seen = (
        load_across(arrangement, load_n, point, _preload(arrangement.reference, joint, gap))
        for arrangement, joint, gap in zip(arrangements, joints, gaps)
    )
    return AcrossResult(reference=own, as_found=seen)


def _preload(reference: Reference, joints: Iterable[JointForces], gaps: Iterable[SetGap]) -> Spanned | None:
    """What presses the two bearings together before the load comes [N]; None where no figure of it holds."""
    try:
        pair = set(the_two_bearings(reference))
    except Missing:
        return None
    names = {loop.name for loop in bearing_loops(reference) if {loop.start, loop.end} == pair}
    for loop in (loop for joint in joints for loop in joint.loops if loop.loop in names):
        if loop.slides is None or loop.held is None or loop.only_if_held:
            return None
        preload = either_way(loop.slides, loop.held)
        return None if loop.beyond_n is not None and preload.most > loop.beyond_n else preload
    if any(gap.gap in names and gap.play is not None and gap.play.least_mm > 0 for gap in gaps):
        return Spanned(usual=0.0, least=0.0, most=0.0)
    return None
