"""Words for how a sum is spread, and for how often it would cross a limit."""

from __future__ import annotations

from stackcheck.mechanics.loops import LoopState, against
from stackcheck.mechanics.spread import Spread
from stackcheck.present.words import gap_words, limits_words, mm, narrow_span

SHARE = 0.95
_NEVER = 1e-9
NARROW_MM = 0.04


def spread_words(spread: Spread) -> str:
    """The middle stretch of an even spread, and beside it the root of squares, which never stands alone."""
    half, middle = spread.root_sum_of_squares_mm, spread.middle_mm
    return (
        f"Even spread: 95 in 100 within {narrow_span(*rounded_stretch(*spread.central(SHARE)))}. "
        f"Root of squares: {narrow_span(*rounded_stretch(middle - half, middle + half))}."
    )


def gap_spread_words(state: LoopState) -> str:
    """The same of a gap, with the share of assemblies that would lie outside its limits."""
    how = "what was not measured evenly spread" if any(term.is_measured for term in state.terms) else "even spread"
    words = f"{how}: 95 in 100 {gap_words(*rounded_stretch(*state.spread.central(SHARE)))}"
    if state.limits == (None, None):
        return words
    if state.gap is not None and against(state.gap, state.limits) == "agrees":
        return words  # the worst case says so; tails of readings go on beyond it
    sides = zip(state.share_outside, ("below", "above"), state.limits)
    outside = [f"{share_words(share)} {_past(side, limit)}" for share, side, limit in sides if share > _NEVER]
    return f"{words}; {' and '.join(outside) or f'fewer than 1 in 1,000,000 outside {limits_words(*state.limits)}'}"


def _past(side: str, limit: float) -> str:
    """ "below 0.10"; of an overlap "past overlap 1.00" or "short of overlap 0.20"."""
    if limit >= 0:
        return f"{side} {mm(limit)}"
    return f"{'past' if side == 'below' else 'short of'} overlap {mm(-limit)}"


def share_words(share: float) -> str:
    """A share as a count: "about 7 in 100", "about 3 in 10,000", "fewer than 1 in 1,000,000"."""
    if share > 0.995:
        return "nearly all" if share < 1 - _NEVER else "all"
    for count in (100, 1_000, 10_000, 100_000, 1_000_000):
        if share * count >= 0.95:
            return f"about {share * count:.0f} in {count:,}"
    return "fewer than 1 in 1,000,000"


def rounded_stretch(low: float, high: float) -> tuple[float, float]:
    """Hundredths, or thousandths where the stretch is so narrow that a hundredth would hide it."""
    digits = 2 if high - low >= NARROW_MM else 3
    return round(low, digits), round(high, digits)
