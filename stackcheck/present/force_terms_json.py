"""The terms of a tension as a tree of plain values; the manual describes every field."""

from __future__ import annotations

from typing import Any

from stackcheck.mechanics.force_terms import ForceTerms, Gives


def force_terms(value: ForceTerms | None) -> dict[str, Any] | None:
    if value is None:
        return None
    torque = value.torque
    return {
        "thread_mm": torque.d_mm,
        "pitch_mm": torque.pitch_mm,
        "pitch_diameter_mm": round(torque.flank_mm, 4),
        "face_radius_mm": round(torque.face_radius_mm, 4),
        "prevailing_nmm": round(torque.prevailing_nmm, 1),
        "stretch_nmm": round(torque.stretch_nmm, 1),
        "flanks_nmm": round(torque.flanks_nmm, 1),
        "face_nmm": round(torque.face_nmm, 1),
        "parts": [_gives(part) | {"sections": [_gives(section) for section in part.sections]} for part in value.parts],
        "axle_n_per_mm": _stiff(value.axle_n_per_mm),
        "stack_n_per_mm": _stiff(value.stack_n_per_mm),
        "settles_mm": None if value.settles_mm is None else round(value.settles_mm[1], 6),
        "settles_least_mm": None if value.settles_mm is None else round(value.settles_mm[0], 6),
        "settles_most_mm": None if value.settles_mm is None else round(value.settles_mm[2], 6),
        "sets": value.sets,
        "needs": list(value.needs),
    }


def _gives(part: Gives) -> dict[str, Any]:
    return {
        "name": part.name,
        "length_mm": round(part.length_mm, 6),
        "stiffness_n_per_mm": _stiff(part.stiffness_n_per_mm),
    }


def _stiff(value: float | None) -> float | None:
    return None if value is None else round(value)
