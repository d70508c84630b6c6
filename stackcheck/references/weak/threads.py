"""Torques without the condition of the thread, and joints that press a part against itself or draw a gap shut first."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.mechanics.clamp import drawn_shut
from stackcheck.mechanics.nut_slots import thread_pitch_mm
from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness


def threads(reference: Reference) -> Iterator[Weakness]:
    """The same torque pulls much harder on an oiled thread than on a dry one."""
    for joint in reference.joints:
        if joint.clamps[0] == joint.clamps[1]:
            yield Weakness(
                check="thread",
                grade=TO_MEND,
                about=("joints", joint.name, "clamps"),
                sentence=f"{joint.name} presses {joint.clamps[0]} against itself, "
                "so nothing between its ends is clamped",
                mend="name the first and the last place that it draws together",
            )
        for gap in drawn_shut(reference, joint):
            yield Weakness(
                check="thread", grade=OPEN, about=("joints", joint.name, "clamps"),
                sentence=f"{joint.name}: draws the {gap} shut before it clamps, and nothing says what that takes",
                mend="add a [[supports]] entry for the member beside it that gives, with its stiffness",
            )  # fmt: skip
        if joint.torque and not joint.thread_condition:
            yield Weakness(
                check="thread",
                grade=TO_MEND,
                about=("joints", joint.name, "torque"),
                sentence=f"{joint.name}: {joint.torque.text}, "
                "and nothing says whether the thread is dry, oiled or greased",
                mend='add thread_condition = "dry", "oiled", ... as whoever gives the torque says it',
            )
        if joint.torque and joint.thread and thread_pitch_mm(joint.thread) is None:
            yield Weakness(
                check="thread", grade=TO_MEND, about=("joints", joint.name, "thread"),
                sentence=f"{joint.name}: {joint.thread} says no pitch that is known, so no pull can be told",
                mend='write it with its pitch, like "M16x1.5" or "1/2-13"; "M16" is the coarse thread',
            )  # fmt: skip
        if joint.torque and not joint.thread:
            yield Weakness(
                check="thread", grade=TO_MEND, about=("joints", joint.name, "torque"),
                sentence=f"{joint.name}: {joint.torque.text}, and no thread is given, so no pull can be told",
                mend='add thread = "M16x1.5"',
            )  # fmt: skip
