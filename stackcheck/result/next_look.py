"""What to measure next: the cheapest look that would narrow the answers of `stack` most.

First what is needed for any answer at all, then a look at rings that may slide or not, then a gap that may lie inside
or outside its limits, then what moves the bearings most, then a gap that nobody read. An end float read by a dial is
worth more than any that is computed: it holds whatever is inside the bearings. What cannot be measured at the bench
(friction, settling) is never asked for. Costs and ways are common practice, no source.
"""

from __future__ import annotations

from stackcheck.mechanics.bodies import lower
from stackcheck.mechanics.chain import LoopState
from stackcheck.mechanics.forces import JointForces
from stackcheck.mechanics.loop_forces import NOTHING_N, LoopForces
from stackcheck.mechanics.set_gap import GAUGE_N
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.model.reference import Reference
from stackcheck.result.forces import AllForces
from stackcheck.result.lengths import LoopResult
from stackcheck.result.points import CANNOT_TELL, DIFFERS
from stackcheck.value import Value

LEAST_SHARE = 0.2
"""What moves an answer less than this is not worth a measurement."""


class NextLook(Value, kw_only=True):
    """One measurement: what, how, what it narrows,
    and the share of that range it accounts for (None: all of it, or not known).
    """

    what: str
    how: str
    narrows: str
    share: float | None = None


WAYS = (
    ("length of ", "length of ", "by micrometer"),
    ("room beside ", "room beside ", "by feeler"),
    ("free length of ", "free length of ", "by calliper"),
    ("free height of ", "free height of ", "by micrometer"),
    ("thickness of ", "thickness of ", "by micrometer"),
    ("prevailing torque of ", "prevailing torque of ", "by torque wrench, before it touches"),
    ("hold of the axle on the end of ", "side stiffness of ", "pull its end with a spring balance, axle in"),
    ("overlap of the inner ring at ", "bore and seat of the inner ring at ", "by micrometer"),
    ("overlap of the outer ring at ", "outside and seat of the outer ring at ", "by micrometer"),
    ("stand-out of ", "stand-out of ", "by depth micrometer"),
)
"""How the name of an unknown begins -> what is measured, and with what."""

SECTION = "stiffness of the "
SLIDES = "whether the outer rings can slide in their seats"
HELD_TOGETHER = "whether the outer rings are held together"


def next_look(
    reference: Reference, loops: tuple[LoopResult, ...], forces: AllForces, *, with_found: bool
) -> NextLook | None:
    """The first that helps, in the sequence above; None where nothing at the bench would tell more."""
    states = [result.as_found if with_found else result.reference for result in loops]
    joints = [result.as_found if with_found else result.reference for result in forces.joints]
    if any(joint.is_unclamped for joint in joints):
        return None  # what is not clamped has no gap and no end float to read
    clamped = {loop.loop for joint in joints for loop in joint.loops}
    springs = frozenset(f"{SECTION}{lower(part.name)}" for part in reference.parts if part.stiffness is not None)
    for ways in (
        _needed(joints),
        map(_of_rings, joints),
        (_of_gap(state, clamped) for state in states),
        _of_bearings(joints, springs),
        _of_springs(forces, springs, with_found=with_found),
        map(_unread, states),
        _of_joints(joints),
    ):
        if (look := next((each for each in ways if each is not None), None)) is not None:
            return look
    return None


def _needed(joints: list[JointForces]) -> list[NextLook]:
    """What is missing for a force."""
    holders = [each for joint in joints for each in (joint, *joint.loops)]
    return [
        NextLook(
            what=each.needs[0],
            how="",
            narrows=each.loop if isinstance(each, LoopForces) else f"tension of the {each.joint.name}",
        )
        for each in holders
        if each.needs
    ]


def _of_rings(joint: JointForces) -> NextLook | None:
    """A look tells whether bearings are loaded at all, where they are only if their outer rings are held fast,
    or only if they slide.
    """
    both = [
        (loop, loop.slides.most > NOTHING_N, loop.held.most > NOTHING_N)
        for loop in joint.loops
        if loop.slides is not None and loop.held is not None
    ]
    return next(
        (
            NextLook(what=HELD_TOGETHER if loop.only_if_held else SLIDES, how="", narrows=loop.loop)
            for loop, slides, held in both
            if slides != held or loop.only_if_held
        ),
        None,
    )


def _of_gap(state: LoopState, clamped: set[str]) -> NextLook | None:
    """A gap that may lie inside or outside its limits:
    a reading of it, or where bearings close it in, of its largest term.
    """
    if state.verdict != CANNOT_TELL or state.measured is not None:
        return None
    if state.gap is None:
        return NextLook(what=state.needs[0], how="", narrows=state.loop.name) if state.needs else None
    if state.loop.name not in clamped:
        return _unread(state)
    widest = max(state.terms, key=lambda term: term.interval.most_mm - term.interval.least_mm)
    share = (widest.interval.most_mm - widest.interval.least_mm) / (state.gap.most_mm - state.gap.least_mm)
    return NextLook(
        what=f"length of the {lower(widest.name)}", how="by micrometer", narrows=state.loop.name, share=share
    )


def _of_bearings(joints: list[JointForces], springs: frozenset[str]) -> list[NextLook | None]:
    return [
        _of_bearing(joint, loop, springs)
        for joint in joints
        for loop in joint.loops
        if loop.slides is not None and loop.held is not None
    ]


def _of_bearing(joint: JointForces, loop: LoopForces, springs: frozenset[str]) -> NextLook | None:
    """An end float is read as it is; a preload by its largest term."""
    if max(loop.slides.most, loop.held.most) <= NOTHING_N:
        return NextLook(
            what="end float of the bearings",
            how=f"by dial under ±{GAUGE_N:g} N, {joint.joint.name} tight",
            narrows=loop.loop,
        )
    if loop.beyond_n is not None and max(loop.slides.least, loop.held.least) > loop.beyond_n:
        return None
    widest = max((loop.slides, loop.held), key=lambda way: way.most - way.least)
    return _largest(widest, loop.loop, springs)


def _of_springs(forces: AllForces, springs: frozenset[str], *, with_found: bool) -> list[NextLook | None]:
    coils = [each.as_found if with_found else each.reference for each in forces.coils]
    discs = [each.as_found if with_found else each.reference for each in forces.discs]
    return [
        *(_largest(each.force_n, f"force of {each.name}", springs) for each in coils if each.force_n is not None),
        *(_largest(each.force_n[0], f"force of the {each.stack}") for each in discs if each.force_n),
    ]  # fmt: skip


def _unread(state: LoopState) -> NextLook | None:
    """A gap that nobody read: one reading in the place of its sum, or of no answer at all. An overlap takes no feeler."""
    if state.measured is not None or state.verdict == DIFFERS or state.gap is not None and state.gap.most_mm <= 0:
        return None
    return NextLook(what=state.loop.name, how="by dial" if state.loop.set_by else "by feeler", narrows=state.loop.name)


def _of_joints(joints: list[JointForces]) -> list[NextLook | None]:
    """The thread condition where nobody wrote it down, else what the loss by settling hangs on."""
    looks: list[NextLook | None] = [
        NextLook(
            what="whether the thread is dry, oiled or greased", how="", narrows=f"tension of the {each.joint.name}"
        )
        for each in joints
        if each.tension_n is not None and not each.joint.thread_condition and not each.joint.friction
    ]
    losses = [
        (joint, joint.settling.loss_n)
        for joint in joints
        if joint.settling is not None and joint.settling.loss_n is not None
    ]
    return looks + [
        _largest(loss, f"what the {joint.joint.name} loses when its faces settle") for joint, loss in losses
    ]


def _largest(value: Spanned, narrows: str, springs: frozenset[str] = frozenset()) -> NextLook | None:
    """The largest cause that somebody can measure; `springs` are the causes that are the stiffness of one."""
    for cause in value.causes:
        if cause.share < LEAST_SHARE:
            break
        for begins, what, how in WAYS:
            if cause.name.startswith(begins):
                return NextLook(
                    what=what + cause.name.removeprefix(begins), how=how, narrows=narrows, share=cause.share
                )
        if cause.name in springs:
            return NextLook(
                what=cause.name.removeprefix("stiffness of "),
                how="pressed to its fitted length on a scale",
                narrows=narrows,
                share=cause.share,
            )
        if cause.name.startswith(SECTION) and not cause.name.endswith(("axle", "bearing")):
            return NextLook(
                what=f"bore and outside of the {cause.name.removeprefix(SECTION)}",
                how="by calliper",
                narrows=narrows,
                share=cause.share,
            )
    return None
