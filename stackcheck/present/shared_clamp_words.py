"""How a clamp divides between two paths side by side, a sentence each."""

from __future__ import annotations

from stackcheck.mechanics.loop_forces import NOTHING_N
from stackcheck.mechanics.shared_clamp import SharedClamp
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.force_figures import because, force_words, spanned_force
from stackcheck.present.side_by_side import beside_lines
from stackcheck.result.forces import ForcesResult

ONE_ROW = "what heat does, and which faces settle, are told of the joint's own stack alone"
THREE = (
    "cannot tell how it divides between {}: a third path stands beside them; angle, settling, heat and what may be crushed "
    "are told of the joint's own stack alone"
)


def shared_lines(value: ForcesResult, *, with_found: bool) -> list[str]:
    """ "inner against outer: the inner tube bears 43.0 to 60.0 kN, about 55.0, the outer tube ...", as found before the
    reference.
    """
    if value.as_found.is_unclamped:
        return []
    own, seen = ({each.loop: _words(each) for each in forces.shared} for forces in (value.reference, value.as_found))
    lines = []
    for loop in own | seen:
        said = (each.get(loop, "cannot tell how it divides") for each in (own, seen))
        lines += beside_lines(*said, called=loop, with_found=with_found)
    return lines


def _words(value: SharedClamp) -> str:
    if value.carried_n is None:
        return THREE.format(" and ".join(value.paths))
    each = ", ".join(f"{path} bears {_bears(force)}" for path, force in zip(value.paths, value.carried_n))
    return f"{each}{because(value.carried_n[1])}; {ONE_ROW}"


def _bears(force: Spanned) -> str:
    if force.most < NOTHING_N:
        return "nothing"
    if force.least < NOTHING_N:
        return f"up to {force_words(force.most)}, or nothing"
    return spanned_force(force)
