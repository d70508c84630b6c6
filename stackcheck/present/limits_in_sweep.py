"""What the forces of a sweep are against their limits, and where along it that changes: for its page and its drawing."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, log10

from stackcheck.mechanics.limit_crossings import Stretch, stretches
from stackcheck.model.limits import ForceLimit
from stackcheck.result.forces import ForcesResult
from stackcheck.value import Value


class LimitInSweep(Value, kw_only=True):
    """One limit of a force, and the verdicts on it along a sweep."""

    limit: ForceLimit
    stretches: tuple[Stretch, ...]

    @property
    def crossings(self) -> tuple[float, ...]:
        """Where one verdict gives way to the next."""
        return tuple(stretch.start for stretch in self.stretches[1:])


def limits_in_sweep(at: Sequence[float], steps: Sequence[ForcesResult], of: str) -> tuple[LimitInSweep, ...]:
    """Every limit of one force, by the name of its joint or loop: as found, by the reference where there is no list."""
    return tuple(
        LimitInSweep(limit=limit, stretches=stretches(limit, at, [step.as_found for step in steps]))
        for limit in steps[0].limits
        if limit.of == of
    )


def stretch_words(value: LimitInSweep, at: Sequence[float], unit: str) -> str:
    """ "differs up to about 34 N·m, cannot tell from there to about 52 N·m, agrees above"; "agrees at all of them"."""
    first, *others = value.stretches
    if not others:
        return f"{first.verdict} at all of them"
    step = (at[-1] - at[0]) / (len(at) - 1)
    words = [f"{first.verdict} up to about {_rounded(first.end, step)} {unit}"]
    words += [f"{stretch.verdict} from there to about {_rounded(stretch.end, step)} {unit}" for stretch in others[:-1]]
    return ", ".join([*words, f"{others[-1].verdict} above"])


def _rounded(place: float, step: float) -> str:
    """To a part of a step: a crossing between two steps is known no closer."""
    digits = max(0, -floor(log10(step / 5)))
    return f"{round(place, digits):.{digits}f}"
