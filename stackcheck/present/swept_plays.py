"""A play that a nut sets, along a sweep of temperature: what a dial reads of it, and the preload where it is used up."""

from __future__ import annotations

from collections.abc import Sequence

from stackcheck.mechanics.set_gap import SetGap
from stackcheck.mechanics.unknowns import Spanned
from stackcheck.result.forces import ForcesResult
from stackcheck.value import Value

NONE = Spanned(usual=0.0, least=0.0, most=0.0)


class SweptPlay(Value, kw_only=True):
    """One play, step by step: the dial [mm] and the preload [N], None where a step cannot be told.

    `name` says whose play it is: as found only where somebody read it.
    """

    name: str
    dial: tuple[Spanned | None, ...]
    preload: tuple[Spanned | None, ...]
    beyond_n: float | None = None


def swept_plays(steps: Sequence[ForcesResult]) -> tuple[SweptPlay, ...]:
    """Every play that one joint sets, along its steps."""
    return tuple(_swept(steps, position) for position in range(len(steps[0].plays)))


def _swept(steps: Sequence[ForcesResult], position: int) -> SweptPlay:
    results = [step.plays[position] for step in steps]
    has_list = steps[0].as_found is not steps[0].reference
    told = [each.as_found if each.is_measured else each.reference for each in results]
    by_whom = ", as the reference sets it" if has_list and not results[0].is_measured else ""
    limit = told[0].limit
    return SweptPlay(
        name=f"{told[0].gap}{by_whom}",
        dial=tuple(each.then_reads_mm or each.float_mm for each in told),
        preload=tuple(map(_preload, told)),
        beyond_n=None if limit is None else limit.force_n,
    )


def _preload(value: SetGap) -> Spanned | None:
    """Of a play that is as it was set: none, unless it may be used up."""
    is_open = value.float_mm is not None and value.play is not None and value.play.least_mm > 0
    return value.then_n or (NONE if is_open else None)
