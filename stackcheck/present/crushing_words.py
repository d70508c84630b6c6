"""What a joint may press harder than a mild metal bears, a sentence each."""

from __future__ import annotations

from stackcheck.mechanics.crushing import Crushing
from stackcheck.mechanics.forces import JointForces
from stackcheck.present.force_figures import because

SHOWN = 3


def crushing_lines(value: JointForces) -> list[str]:
    """ "between the short collar and the washer: 410 to 760 N/mm², beyond the 490 that ...; it may give for good"."""
    return [_words(each) for each in value.crushing[:SHOWN]]


def _words(value: Crushing) -> str:
    stress = f"{value.stress_mpa.least:.0f} to {value.stress_mpa.most:.0f} N/mm²"
    if len(value.what) == 1:
        what, bears = (
            f"in the {value.what[0]}",
            f"the {value.limit_mpa:g} at which mild {value.metal} begins to yield (from memory)",
        )
    else:
        what, bears = (
            f"between the {' and the '.join(value.what)}",
            f"the {value.limit_mpa:g} that a face of mild {value.metal} bears (VDI 2230 part 1, Table A9, from memory)",
        )
    return f"pressed with {stress} {what}{because(value.stress_mpa)}; beyond {bears} it may give for good"
