"""With which ring of its face a part touches what stands beside it, where that is not all of it.

`face_outside` and `face_bore` are those of both faces, `feature_face_outside` and `feature_face_bore` of the one that
the feature is on; one that is given by its sections touches with those at its ends. No force is computed, and no
numerical library is loaded.
"""

from __future__ import annotations

from stackcheck.mechanics.lengths import Ruler
from stackcheck.mechanics.steps import end_section
from stackcheck.model.finding import Standing
from stackcheck.model.part import Part


def face_size(ruler: Ruler, standing: Standing, part: Part | None, end: str, name: str) -> float | None:
    """The "outside" or "bore" of the face that looks at this end ("first" or "second") [mm];
    None where it is that of the part.
    """
    facing = ruler.facing(standing)
    fronts = ["feature_face_"] if facing and (facing == end) != standing.turned else []
    sizes = [part.size(front + name) for front in (*fronts, "face_")] if part is not None else []
    if (section := end_section(ruler, standing, end)) is not None:
        sizes.append(section.outside if name == "outside" else section.bore)
    return next((size.nominal_mm for size in sizes if size is not None), None)


def wide_end(ruler: Ruler, standing: Standing) -> str:
    """The end that the wide face of the outer ring of a bearing of one direction looks to, "first" or "second";
    "" where nobody says.
    """
    facing = ruler.facing(standing)
    return facing if not standing.turned else {"first": "second", "second": "first"}.get(facing, "")
