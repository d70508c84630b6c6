"""Side load and shift of the members that a stack stands between: the legs of a fork, the cheeks of a bracket.

The room between them less the stack is what they are pulled over (above nothing) or spread by (below). A member that
the joint clamps goes along: both give, each by its own stiffness. A member that floats and is pinched after it has
settled carries nothing as long as there is room; pinched before that, pulled against the stack, it keeps that load for
good, and no length shows it. An end that the axle keeps from turning is four times as stiff (12EI/L³ against 3EI/L³).

Left out: that a leg bends out of line, gives differently fore and aft, or slides in its clamp.
Source: two cantilevers tied by the axle, Roark's Formulas for Stress and Strain, 7th ed. (2002), Table 8.1
(from memory).
"""

from __future__ import annotations

from typing import Any

import numpy as np

from stackcheck.mechanics.arrangement import Arrangement
from stackcheck.mechanics.axial.stiffness import MODULUS_MPA, leg_stiffness, tied_legs
from stackcheck.mechanics.frames import frame, room
from stackcheck.mechanics.joint_pull import asked
from stackcheck.mechanics.lengths import Interval
from stackcheck.mechanics.thread_end import thread_room
from stackcheck.mechanics.unknowns import Spanned, Unknowns, with_variants
from stackcheck.model.part import Amount
from stackcheck.model.reference import Loop, Reference, Support
from stackcheck.value import Value, replace

GUIDED = 4.0
"""How many times stiffer a leg is whose end cannot turn: 12EI/L³ over 3EI/L³."""

RIGID_N_PER_MM = 1e6
"""A member at the other side that nobody calls a support gives as good as nothing."""

REACH_MM = 10.0
"""A member bent further than this is taken to stay bent, so that no figure holds: common practice, no source."""

LEGS = Amount(text="50..300 N/mm", dimension="stiffness", nominal=150.0, least=50.0, most=300.0)
"""Side stiffness of a fork leg that nobody pulled: common practice, no source."""


CLAMP_GIVES = (0.7, 0.85, 1.0)
"""A leg reckoned from its tube is softer than that by what gives where it is held: share of 3EI/L³, our own figures."""


class SupportForces(Value, kw_only=True):
    """One support.

    `room` is what the members have to spare over the stack [mm], below nothing an overlap. `side_load_n` draws the
    member toward the stack, below nothing it is pushed away; `shift_mm` is how far it goes, toward the second end above
    0. `pinched_early_n` is what a floating member keeps when it is pulled against the stack and pinched before it has
    settled. `reaches` is False where the member would have to bend further than `REACH_MM`: then no load of it is told.
    """

    support: Support
    room: Interval | None = None
    side_load_n: Spanned | None = None
    shift_mm: Spanned | None = None
    pinched_early_n: Spanned | None = None
    reaches: bool = True
    needs: tuple[str, ...] = ()
    defaults: tuple[str, ...] = ()


def support_forces(arrangement: Arrangement, support: Support, *, measured: Interval | None = None) -> SupportForces:
    """What one support carries; `measured` is the room beside it where somebody measured it [mm]."""
    reference = arrangement.reference
    loop = frame(reference, support.place)
    if loop is None:
        return SupportForces(
            support=support, needs=(f"a second path that stays on the machine, up to {support.place}",)
        )
    if loose := _loose(arrangement, loop):
        return SupportForces(support=support, needs=(f"a clamp: the {loose} meets the end of its thread first",))
    space = measured if measured is not None else room(arrangement, loop)
    if space is None:
        return SupportForces(support=support, needs=(f"the lengths beside {support.place}",))
    unknowns, (load, shift, early) = with_variants(lambda unknowns: _carried(unknowns, reference, loop, support, space))
    load, shift, early = (unknowns.spanned(np.ravel(np.asarray(values, float))) for values in (load, shift, early))
    told = SupportForces(
        support=support,
        room=space,
        side_load_n=load,
        shift_mm=shift,
        pinched_early_n=early if support.floating else None,
        defaults=_defaults(reference, loop, support),
    )
    if max(abs(space.least_mm), abs(space.most_mm)) <= REACH_MM:
        return told
    # One that floats with room beside it carries nothing, however much room there is.
    is_idle = load.least == load.most == 0
    return replace(
        told, reaches=False, pinched_early_n=None, **({} if is_idle else {"side_load_n": None, "shift_mm": None})
    )


def _loose(arrangement: Arrangement, loop: Loop) -> str:
    """The joint that should draw these members to the stack, and meets the end of its thread first; "" for none."""
    stack = {*loop.open_path, *loop.closed_path, loop.start, loop.end}
    for joint in arrangement.reference.joints:
        spare = thread_room(arrangement, joint) if stack >= set(joint.clamps) else None
        if spare is not None and spare.most_mm < 0:
            return joint.name
    return ""


def _carried(
    unknowns: Unknowns, reference: Reference, loop: Loop, support: Support, space: Interval
) -> tuple[Any, Any, Any]:
    """Side load and shift as the reference has it pinched,
    and the load if it is pinched against the stack too early.
    """
    out = 1.0 if support.place == loop.end else -1.0
    spare = unknowns.value(f"room beside {support.place}", space.least_mm, space.nominal_mm, space.most_mm)
    if support.free_position is not None:
        at = support.free_position
        spare = spare + out * unknowns.value(f"free position of {support.place}", at.low_mm, at.nominal_mm, at.high_mm)
    own, other = _stiffness(unknowns, support), _other(unknowns, reference, loop, support)
    load, moved, _ = tied_legs(mismatch_mm=spare, k1=own, k2=other)
    # One that floats and has settled is only ever pushed, where the stack is longer than the members are apart.
    settled = (
        (np.minimum(load, 0.0), np.minimum(moved, 0.0))
        if support.floating and support.pinched_after_settling
        else (load, moved)
    )
    return settled[0], -out * settled[1], np.maximum(load, 0.0)


def _stiffness(unknowns: Unknowns, support: Support) -> Any:
    k = _free_stiffness(unknowns, support)
    if support.end:
        return k * (GUIDED if support.end == "guided" else 1.0)
    return k * unknowns.value(f"hold of the axle on the end of {support.place}", 1.0, 1.0, GUIDED)


def _free_stiffness(unknowns: Unknowns, support: Support) -> Any:
    """Of its free end [N/mm]: as pulled, else by its tube, 3EI/L³, else as legs are."""
    place = support.place
    if support.stiffness is not None or not by_its_tube(support):
        return asked(unknowns, f"stiffness of {place}", support.stiffness or LEGS)
    outside, reach = (
        unknowns.value(f"{name} of {place}", size.low_mm, size.nominal_mm, size.high_mm)
        for name, size in (("outside", support.outside), ("reach", support.reach))
    )
    bore = support.bore
    k = leg_stiffness(
        outside_mm=outside,
        bore_mm=0.0 if bore is None else unknowns.value(f"bore of {place}", bore.low_mm, bore.nominal_mm, bore.high_mm),
        length_mm=reach,
        modulus_mpa=MODULUS_MPA[support.material or "steel"],
        guided=False,
    )
    return k * unknowns.value(f"give where {place} is held", *CLAMP_GIVES)


def by_its_tube(support: Support) -> bool:
    """Whether the sizes of its tube tell how stiff it is."""
    known = (support.material or "steel") in MODULUS_MPA
    return support.outside is not None and support.reach is not None and known


def _other(unknowns: Unknowns, reference: Reference, loop: Loop, support: Support) -> Any:
    """The member at the other side: a support too, or as good as rigid."""
    place = loop.start if support.place == loop.end else loop.end
    other = next((each for each in reference.supports if each.place == place), None)
    return RIGID_N_PER_MM if other is None else _stiffness(unknowns, other)


def _defaults(reference: Reference, loop: Loop, support: Support) -> tuple[str, ...]:
    used = []
    if support.stiffness is None and by_its_tube(support):
        hollow = "" if support.bore else ", solid"
        metal = "" if support.material else ", of steel"
        used.append(
            f"stiffness of {support.place} by its tube{hollow}{metal}, 3EI/L³, of which what holds it leaves "
            f"{CLAMP_GIVES[0]:g} to {CLAMP_GIVES[2]:g} (our own figures)"
        )
    elif support.stiffness is None:
        used.append(f"stiffness of {support.place} {LEGS.text} (common practice, no source)")
    if not support.end:
        used.append(f"end of {support.place} free to turn, or kept straight by the axle and four times as stiff")
    place = loop.start if support.place == loop.end else loop.end
    if not any(each.place == place for each in reference.supports):
        used.append(f"{place} gives nothing")
    return tuple(used)
