"""What press fits hold along the axis beside a loop of forces, in one sentence."""

from __future__ import annotations

from stackcheck.mechanics.loop_forces import NOTHING_N, LoopForces
from stackcheck.mechanics.press_fit import INNER, OUTER
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.present.force_figures import force_words


def press_fit_lines(value: LoopForces) -> list[str]:
    """ "seat gap: a press fit may hold each inner ring with up to 7.5 kN, about 3.0 kN, ...";
    nothing where no ring may be one.
    """
    parts = []
    for ring in (INNER, OUTER):
        held = [fit for name, fit in value.press_fits if name.startswith(ring)]
        if held:
            parts.append(f"each {ring} {_range(max(held, key=lambda fit: fit.most))}")
    if not parts:
        return []
    return [
        (
            f"{value.loop}: a press fit may hold {' and '.join(parts)} on its seat: "
            "less load than that may not arise there, or stay locked in"
        )
    ]


def _range(fit: Spanned) -> str:
    usual = f", about {force_words(fit.usual)}," if fit.usual > NOTHING_N else ""
    return (
        f"with {'up to' if fit.least <= NOTHING_N else force_words(fit.least) + ' to'} {force_words(fit.most)}{usual}"
    )
