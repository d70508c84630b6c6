"""With which ring of its face a part touches what stands beside it, where that is not all of it.

`face_outside` and `face_bore` are those of both faces, `feature_face_outside` and `feature_face_bore` of the one that
the feature is on; one that is given by its sections touches with those at its ends. No force is computed, and no
numerical library is loaded.
"""

from __future__ import annotations

from stackcheck.mechanics.steps import end_section
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part
from stackcheck.model.reference import Reference


def face_size(reference: Reference, standing: Standing, part: Part | None, end: str, name: str) -> float | None:
    """The "outside" or "bore" of the face that looks at this end ("first" or "second") [mm];
    None where it is that of the part.
    """
    if part is None:
        return None
    facing = reference.place(standing.home).facing if standing.home and reference.has_place(standing.home) else ""
    fronts = ["feature_face_"] if facing and (facing == end) != standing.turned else []
    sizes = [part.size(front + name) for front in (*fronts, "face_")]
    if (section := end_section(reference, standing, part, end)) is not None:
        sizes.append(section.outside if name == "outside" else section.bore)
    return next((size.nominal_mm for size in sizes if size is not None), None)


def wide_end(reference: Reference, standing: Standing) -> str:
    """The end that the wide face of the outer ring of a bearing of one direction looks to, "first" or "second";
    "" where nobody says.
    """
    facing = reference.place(standing.home).facing if standing.home and reference.has_place(standing.home) else ""
    return facing if not standing.turned else {"first": "second", "second": "first"}.get(facing, "")
