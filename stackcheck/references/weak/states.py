"""Limits of gaps in a state that the reference itself does not keep."""

from __future__ import annotations

from collections.abc import Iterator

from stackcheck.model.reference import Reference
from stackcheck.references.weak.weakness import OPEN, TO_MEND, Weakness

MEND = {
    TO_MEND: "look at the limit, the temperatures and what the gap is fitted to: one of them is not what was meant",
    OPEN: "give what the range comes from (`stack` names it) closer limits, or look at the limit of the gap",
}


def wanted_gaps(reference: Reference) -> Iterator[Weakness]:
    """Does a gap that is fitted within its limits keep those that are said for a state?"""
    if not reference.state_limits:
        return  # the numerical libraries take longer to load than all other checks to run
    from stackcheck.mechanics.heat import heat_in
    from stackcheck.result.lengths import lengths
    from stackcheck.result.points import AGREES, CANNOT_TELL
    from stackcheck.result.states import gaps_in

    loops = lengths(reference, None)[1]
    for name in dict.fromkeys(limit.state for limit in reference.state_limits):
        _, _, gaps_held = gaps_in(reference, None, None, loops, heat_in(reference, name))
        for held in gaps_held:
            if held.limit is not None and held.reference != AGREES:
                grade = OPEN if held.reference == CANNOT_TELL else TO_MEND
                gap = held.own
                told = "it cannot be told" if gap is None else f"{gap.least_mm:.2f} to {gap.most_mm:.2f} mm"
                yield Weakness(
                    check="state", grade=grade, about=("limits", held.limit.what),
                    sentence=f"{held.limit.what}: by the reference itself {told} in the state {name}",
                    mend=MEND[grade],
                )  # fmt: skip
