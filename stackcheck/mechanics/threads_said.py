"""The thread of a joint by what its designation says."""

from __future__ import annotations

from stackcheck.mechanics.axial.threads import Thread
from stackcheck.mechanics.nut_slots import thread_pitch_mm
from stackcheck.model.reference import Joint


def thread_of(joint: Joint) -> Thread | None:
    pitch = thread_pitch_mm(joint.thread)
    digits = joint.thread.strip().lstrip("Mm").replace(",", ".")
    size = ""
    for sign in digits:
        if not (sign.isdigit() or sign in "./ "):
            break
        size += sign
    if pitch is None or not size.strip():
        return None
    diameter = sum(_fraction(piece) for piece in size.split())
    return Thread(d_mm=diameter if joint.thread.strip()[:1] in "Mm" else 25.4 * diameter, pitch_mm=pitch)


def _fraction(text: str) -> float:
    over, _, under = text.partition("/")
    return float(over) / float(under) if under else float(over)
