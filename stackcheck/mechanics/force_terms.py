"""A tension and what it loses, opened to their terms: what the torque goes into, and what gives under the pull.

Everything here is at the usual value of what is not known; how far each unknown moves an answer stands with the answer
(`stackcheck.mechanics.unknowns`, `Spanned.causes`).
Source: the torque of a 60° thread, Shigley's Mechanical Engineering Design, 9th ed. (2011), eq. 8-26 (from memory).
"""

from __future__ import annotations

from math import pi
from typing import Any

from stackcheck.mechanics.arrangement import Arrangement, Member
from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.axle import axle_stiffness, rods, stretches
from stackcheck.mechanics.bodies import Missing, step_stiffness
from stackcheck.mechanics.grip_gives import grip_gives, pressed_row
from stackcheck.mechanics.joint_pull import asked, face_radius, pull_at
from stackcheck.mechanics.pressure_cone import Pressed
from stackcheck.mechanics.settling import pairs_of_faces, settles_mm, threads_of
from stackcheck.mechanics.thread_friction import friction_of
from stackcheck.mechanics.threads_said import thread_of
from stackcheck.mechanics.unknowns import Unknowns
from stackcheck.model.part import RING_BEARINGS
from stackcheck.model.reference import Joint
from stackcheck.value import Value


class TorqueTerms(Value, kw_only=True):
    """Where a torque goes [N·mm]: a locking nut, the stretch of the axle, the flanks, the face under the nut;
    and what it leaves [N].

    `d_mm`, `pitch_mm` and `flank_mm` (pitch diameter) are the thread's, `face_radius_mm` the mean radius under the nut.
    """

    friction: float
    d_mm: float
    pitch_mm: float
    flank_mm: float
    face_radius_mm: float
    prevailing_nmm: float
    stretch_nmm: float
    flanks_nmm: float
    face_nmm: float
    tension_n: float


class Gives(Value, kw_only=True):
    """One part under the pull: its length [mm] and stiffness [N/mm], None for one that gives nothing.

    `sections` are its steps, first end to second, of one that is given by them.
    """

    name: str
    length_mm: float
    stiffness_n_per_mm: float | None
    sections: tuple[Gives, ...] = ()


class ForceTerms(Value, kw_only=True):
    """One joint: its torque, what it presses together, the axle that it stretches, and what the faces settle [mm]
    (least, usual, most). `sets` is the play that it is backed off to set: nothing is a row of pressed parts there.
    """

    torque: TorqueTerms
    parts: tuple[Gives, ...] = ()
    axle_n_per_mm: float | None = None
    stack_n_per_mm: float | None = None
    faces: int = 0
    threads: int = 1
    settles_mm: tuple[float, float, float] | None = None
    sets: str = ""
    needs: tuple[str, ...] = ()


def force_terms(arrangement: Arrangement, joint: Joint, torque_nmm: float | None) -> ForceTerms | None:
    """The terms of one joint of an arrangement at this torque [N·mm]; None where torque or thread are not known."""
    thread = thread_of(joint)
    if thread is None or torque_nmm is None:
        return None
    torque = torque_terms(joint, torque_nmm, thread)
    if sets := next((loop.name for loop in arrangement.reference.loops if loop.set_by == joint.name), ""):
        return ForceTerms(torque=torque, sets=sets)
    try:
        row, shank = _row(arrangement, joint), rods(arrangement.reference, joint)
    except Missing as problem:
        return ForceTerms(torque=torque, needs=tuple(map(str, problem.args)))
    soft = float(sum(soft for _, soft, _ in row))
    if not soft > 0:
        return ForceTerms(torque=torque, needs=(f"lengths of what the {joint.name} clamps",))
    faces, threads = pairs_of_faces(arrangement, joint), threads_of(arrangement, joint)
    return ForceTerms(
        torque=torque,
        parts=_parts(arrangement, joint, row),
        axle_n_per_mm=axle_stiffness(Unknowns(), thread, stretches(arrangement, row), shank=shank),
        stack_n_per_mm=1 / soft,
        faces=faces,
        threads=threads,
        settles_mm=settles_mm(faces, threads),
    )


def torque_terms(joint: Joint, torque_nmm: float, thread: Thread) -> TorqueTerms:
    """What a torque goes into at the usual friction:
    F P/2π stretches the axle, F μ r_h is lost under the nut, the rest on the flanks.
    """
    friction = friction_of(joint).usual
    tension = float(pull_at(Unknowns(), joint, torque_nmm, thread))
    prevailing = (
        0.0
        if joint.prevailing is None
        else min(torque_nmm, float(asked(Unknowns(), "prevailing torque", joint.prevailing)))
    )
    radius = face_radius(joint, thread)
    stretch, face = tension * thread.pitch_mm / (2 * pi), tension * friction * radius
    return TorqueTerms(
        friction=friction,
        d_mm=thread.d_mm,
        pitch_mm=thread.pitch_mm,
        flank_mm=thread.flank_mm,
        face_radius_mm=radius,
        prevailing_nmm=prevailing,
        stretch_nmm=stretch,
        flanks_nmm=torque_nmm - prevailing - stretch - face,
        face_nmm=face,
        tension_n=tension,
    )


def _row(arrangement: Arrangement, joint: Joint) -> list[tuple[Member, Any, float]]:
    terms = grip_gives(Unknowns(), arrangement, joint)
    if not terms:
        raise Missing(f"lengths of what the {joint.name} clamps")
    return terms


def _parts(arrangement: Arrangement, joint: Joint, row: list[tuple[Member, Any, float]]) -> tuple[Gives, ...]:
    pressing = pressed_row(Unknowns(), arrangement, joint)
    return tuple(
        Gives(
            name=arrangement.ruler.name(member.standing),
            length_mm=length,
            stiffness_n_per_mm=float(1 / soft) if soft > 0 else None,
            sections=_sections(arrangement, member, length, each) if soft > 0 else (),
        )
        for (member, soft, length), each in zip(row, pressing, strict=True)
    )


def _sections(arrangement: Arrangement, member: Member, length: float, pressing: Pressed) -> tuple[Gives, ...]:
    part = arrangement.ruler.part(member.standing)
    if part is not None and part.kind in RING_BEARINGS:
        return ()
    steps = step_stiffness(Unknowns(), arrangement.ruler, member.standing, length, pressing)
    return tuple(
        Gives(
            name=f"section {step.number}, {step.outside_mm:.6g}/{step.bore_mm:.6g} mm",
            length_mm=step.length_mm,
            stiffness_n_per_mm=float(k),
        )
        for step, k in steps
        if step is not None
    )
