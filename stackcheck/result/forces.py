"""What the joints of a reference clamp, beside the same as found.
Loads the numerical libraries: only asked where wanted.

`explanation` says who stands where; where it is not given it is worked out from the list,
which can take longer than the forces.
"""

from __future__ import annotations

from stackcheck.compare import explanations
from stackcheck.mechanics.arrangement import Arrangement, as_believed, as_wanted
from stackcheck.mechanics.force_limits import belongs
from stackcheck.mechanics.forces import JointChange, JointForces, compared_forces, joint_forces
from stackcheck.mechanics.frames import frame
from stackcheck.mechanics.heat import COLD, Heat, put_together
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.load_across import LoadPoint, thrust_anywhere
from stackcheck.mechanics.loops import measured_gap
from stackcheck.mechanics.radial_load import SelfThrust, self_thrusts
from stackcheck.mechanics.set_gap import SetGap, set_gap
from stackcheck.mechanics.set_pair import set_loops
from stackcheck.mechanics.spring_rate import taken_of
from stackcheck.mechanics.spring_stacks import SpringStack, spring_stacks
from stackcheck.mechanics.supports import SupportForces, support_forces
from stackcheck.mechanics.warm_gaps import WarmGap, warm_gaps
from stackcheck.mechanics.working_springs import WorkingSpring, working_springs
from stackcheck.model.finding import Explanation
from stackcheck.model.found import Found
from stackcheck.model.limits import ForceLimit
from stackcheck.model.part import Amount
from stackcheck.model.reference import Joint, Reference
from stackcheck.result.across import AcrossResult, across
from stackcheck.result.sweep_steps import sweep_steps
from stackcheck.value import Value, replace


class SetGapResult(Value, kw_only=True):
    """One play that a nut sets, by the reference and as found; `is_measured`: somebody read it, or its lengths tell it."""

    reference: SetGap
    as_found: SetGap
    is_measured: bool = False


class ForcesResult(Value, kw_only=True):
    """One joint by the reference and as found, the difference (None where nothing was found),
    and the limits of its forces; `plays` are those that it sets, told in a sweep of temperature only.
    """

    reference: JointForces
    as_found: JointForces
    change: JointChange | None = None
    limits: tuple[ForceLimit, ...] = ()
    plays: tuple[SetGapResult, ...] = ()


def sweep(
    reference: Reference,
    found: Found | None,
    *,
    torque: Amount | None,
    temperature: Amount | None,
    angle: Amount | None = None,
    heat: Heat | None = None,
    explanation: Explanation | None = None,
) -> tuple[tuple[ForcesResult, ...], ...]:
    """The forces at `sweep_steps` over a range of torque [N·mm] or of the temperature of everything that is not told
    apart in `heat` [°C]; nothing where neither is a range.
    """
    amount = next((each for each in (torque, temperature) if _is_range(each)), None)
    if amount is None:
        return ()
    if found is not None and explanation is None:
        explanation = explanations(reference, found)[0]
    heat, fixed = heat or put_together(reference), None if torque is None else torque.nominal
    told = []
    for step in sweep_steps(amount.least, amount.most):
        at = {"torque_nmm": step, "heat": heat}
        if amount is temperature:
            at = {"torque_nmm": fixed, "heat": replace(heat, at_c=step)}
        joints = forces(reference, found, angle=angle, explanation=explanation, **at)
        plays = set_gaps(reference, found, explanation, heat=at["heat"]) if amount is temperature else ()
        told.append(tuple(replace(each, plays=_set_by(each.reference.joint, plays)) for each in joints))
    return tuple(told)


def _set_by(joint: Joint, plays: tuple[SetGapResult, ...]) -> tuple[SetGapResult, ...]:
    return tuple(play for play in plays if play.reference.joint == joint.name)


def _is_range(amount: Amount | None) -> bool:
    return amount is not None and amount.least is not None and amount.most is not None and amount.least < amount.most


class SpringsResult(Value, kw_only=True):
    """One stack of disc springs by the reference and as found."""

    reference: SpringStack
    as_found: SpringStack


def springs(
    reference: Reference, found: Found | None, explanation: Explanation | None = None
) -> tuple[SpringsResult, ...]:
    """Every stack of disc springs; as found also at the length that was measured, where somebody did."""
    own = spring_stacks(as_wanted(reference))
    seen = own
    if own and found is not None:
        measured = {
            each.gap: reading.value_mm for each in own if (reading := measured_gap(found, each.gap)) is not None
        }
        seen = spring_stacks(_believed(reference, found, explanation), measured)
    return tuple(SpringsResult(reference=a, as_found=b) for a, b in zip(own, seen))


class WorkingSpringResult(Value, kw_only=True):
    """One coil spring by the reference and as found."""

    reference: WorkingSpring
    as_found: WorkingSpring


def coil_springs(
    reference: Reference, found: Found | None, explanation: Explanation | None = None
) -> tuple[WorkingSpringResult, ...]:
    """Every coil spring at the length that its place leaves it."""
    own = seen = working_springs(as_wanted(reference))
    if own and found is not None:
        seen = working_springs(_believed(reference, found, explanation))
    return tuple(WorkingSpringResult(reference=a, as_found=b) for a, b in zip(own, seen))


def forces(
    reference: Reference,
    found: Found | None,
    *,
    torque_nmm: float | None = None,
    angle: Amount | None = None,
    heat: Heat | None = None,
    explanation: Explanation | None = None,
) -> tuple[ForcesResult, ...]:
    """Every joint of a reference; `torque_nmm` and `angle` instead of those that it states [N·mm, degrees],
    `heat` instead of how warm it is put together.
    """
    heat = heat or put_together(reference)
    wanted = as_wanted(reference)
    believed = _believed(reference, found, explanation) if found is not None else None
    results = []
    for stated in reference.joints:
        joint = stated if angle is None else replace(stated, angle=angle)
        asked = {"torque_nmm": torque_nmm, "heat": heat}
        if believed is None:
            own = seen = joint_forces(wanted, joint, **asked)
            change = None
        else:
            own, seen, change = compared_forces(wanted, believed, joint, **asked)
        limits = tuple(
            limit
            for limit in reference.force_limits
            if belongs(limit, reference, stated) and limit.state in ("", heat.state)
        )
        results.append(ForcesResult(reference=own, as_found=seen, change=change, limits=limits))
    return tuple(results)


def set_gaps(
    reference: Reference,
    found: Found | None,
    explanation: Explanation | None = None,
    *,
    heat: Heat | None = None,
) -> tuple[SetGapResult, ...]:
    """Every play between two bearings that a joint or a cover sets; as found with the reading of it, where there is one."""
    loops, heat = set_loops(reference), heat or put_together(reference)
    wanted = as_wanted(reference)
    believed = _believed(reference, found, explanation) if found is not None and loops else None
    results = []
    for joint, loop in loops:
        own = seen = set_gap(wanted, joint, loop, heat=heat)
        reading = None
        if believed is not None:
            reading = measured_gap(found, loop.name)
            seen = set_gap(
                believed, joint, loop, measured=None if reading is None else Interval.of_reading(reading), heat=heat
            )
        is_known = reading is not None or seen.is_sum and seen.play is not None
        results.append(SetGapResult(reference=own, as_found=seen, is_measured=is_known))
    return tuple(results)


class SupportResult(Value, kw_only=True):
    """One support by the reference and as found."""

    reference: SupportForces
    as_found: SupportForces


def supports(
    reference: Reference, found: Found | None, explanation: Explanation | None = None
) -> tuple[SupportResult, ...]:
    """Every support; as found with the room that was measured beside it, where somebody did."""
    wanted = as_wanted(reference)
    believed = _believed(reference, found, explanation) if found is not None and reference.supports else None
    results = []
    for support in reference.supports:
        own = seen = support_forces(wanted, support)
        if believed is not None:
            seen = support_forces(believed, support, measured=_measured_room(reference, found, support.place))
        results.append(SupportResult(reference=own, as_found=seen))
    return tuple(results)


class AllForces(Value, kw_only=True):
    """Everything that a reference can be asked about forces, in the sequence of its file.

    `of_springs` is what was taken of springs that the reference does not give; `unclamped` are limits of loops that no
    joint clamps.
    """

    joints: tuple[ForcesResult, ...]
    set_gaps: tuple[SetGapResult, ...]
    supports: tuple[SupportResult, ...]
    discs: tuple[SpringsResult, ...]
    coils: tuple[WorkingSpringResult, ...]
    of_springs: tuple[str, ...] = ()
    radial_n: float | None = None
    thrusts: tuple[SelfThrust, ...] = ()
    thrust_anywhere_n: tuple[float, float] | None = None
    across: AcrossResult | None = None
    warm_gaps: tuple[WarmGap, ...] = ()
    unclamped: tuple[ForceLimit, ...] = ()
    heat: Heat = COLD

    @property
    def defaults(self) -> tuple[str, ...]:
        """What was taken where nothing is given, each said once."""
        results = (*self.joints, *self.set_gaps, *self.supports)
        taken = [
            *(each.reference.defaults for each in results),
            *(gap.defaults for gap in self.warm_gaps),
            self.of_springs,
        ]
        return tuple(dict.fromkeys(default for defaults in taken for default in defaults))


def kept_forces(reference: Reference, found: Found | None, explanation: Explanation | None = None) -> AllForces:
    """What no temperature is asked for: springs and supports alone."""
    return AllForces(
        joints=(),
        set_gaps=(),
        supports=supports(reference, found, explanation),
        discs=springs(reference, found, explanation),
        coils=coil_springs(reference, found, explanation),
    )


def all_forces(
    reference: Reference,
    found: Found | None,
    explanation: Explanation | None = None,
    *,
    torque_nmm: float | None = None,
    angle: Amount | None = None,
    heat: Heat | None = None,
    radial_n: float | None = None,
    radial_at: LoadPoint | None = None,
) -> AllForces:
    """Joints, plays that a nut sets, supports and springs;
    `explanation` says who stands where, `radial_n` a load across [N], anywhere or where `radial_at` says.
    """
    if found is not None and explanation is None:
        explanation = explanations(reference, found)[0]
    heat = heat or put_together(reference)
    joints = forces(reference, found, torque_nmm=torque_nmm, angle=angle, heat=heat, explanation=explanation)
    set_by_nuts = set_gaps(reference, found, explanation, heat=heat)
    told = {loop.loop for each in joints for loop in each.reference.loops} | {
        each.reference.gap for each in set_by_nuts
    }
    thrusts = () if radial_n is None or radial_at is not None else self_thrusts(reference, radial_n)
    return AllForces(
        joints=joints,
        set_gaps=set_by_nuts,
        warm_gaps=warm_gaps(as_wanted(reference), heat, told=told),
        supports=supports(reference, found, explanation),
        discs=springs(reference, found, explanation),
        coils=coil_springs(reference, found, explanation),
        of_springs=tuple(words for place in reference.places for words in taken_of(reference.part_at(place.name))),
        unclamped=tuple(
            limit
            for limit in reference.force_limits
            if not any(belongs(limit, reference, each.reference.joint) for each in joints)
        ),
        heat=heat,
        radial_n=radial_n,
        thrusts=thrusts,
        thrust_anywhere_n=thrust_anywhere(as_wanted(reference), thrusts) if thrusts else None,
        across=None
        if radial_n is None or radial_at is None
        else across(
            (wanted := as_wanted(reference), wanted if found is None else _believed(reference, found, explanation)),
            radial_n,
            radial_at,
            (tuple(each.reference for each in joints), tuple(each.as_found for each in joints)),
            (tuple(each.reference for each in set_by_nuts), tuple(each.as_found for each in set_by_nuts)),
        ),
    )


def _believed(reference: Reference, found: Found, explanation: Explanation | None) -> Arrangement:
    return as_believed(reference, found, explanation or explanations(reference, found)[0])


def _measured_room(reference: Reference, found: Found, place: str) -> Interval | None:
    loop = frame(reference, place)
    reading = measured_gap(found, loop.name) if loop is not None else None
    return None if reading is None else Interval.of_reading(reading)
