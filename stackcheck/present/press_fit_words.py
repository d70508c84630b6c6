"""What press fits hold along the axis beside a loop of forces, in one sentence."""

from __future__ import annotations

from stackcheck.mechanics.forces import NOTHING_N, LoopForces
from stackcheck.mechanics.press_fit import INNER, OUTER
from stackcheck.mechanics.unknowns import Spanned


def press_fit_words(value: LoopForces) -> str:
    """ "press fits hold each inner ring with none to 7.5 kN, about 3.0 kN: ..."; "" where no ring may be one."""
    parts = []
    for ring in (INNER, OUTER):
        held = [fit for name, fit in value.press_fits if name.startswith(ring)]
        if held:
            parts.append(f"each {ring} {_range(max(held, key=lambda fit: fit.most))}")
    if not parts:
        return ""
    return f"a press fit may hold {' and '.join(parts)} on its seat: less load than that may not arise there, or stay locked in"


def _range(fit: Spanned) -> str:
    from stackcheck.present.forces_page import force_words  # that page shows this sentence

    usual = f", about {force_words(fit.usual)}," if fit.usual > NOTHING_N else ""
    return f"with {'up to' if fit.least <= NOTHING_N else force_words(fit.least) + ' to'} {force_words(fit.most)}{usual}"
