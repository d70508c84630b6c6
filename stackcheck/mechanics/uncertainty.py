"""How sure a sum is that was partly measured.

JCGM 100:2008 (clauses from memory): readings of one instrument share its unknown offset, are fully correlated, and so add
linearly with their signs (5.2.2, note 1); everything else is independent and adds as the root of the squares (5.1.2). A
part that nobody measured is taken as evenly spread between its limits (4.3.7), which is an assumption of ours and not of
the drawing. The result is the best estimate, not the worst case: one-sided limits move it off the nominal sum.
"""

from __future__ import annotations

from math import sqrt

from stackcheck.mechanics.lengths import INSTRUMENT_NOT_SAID, Term
from stackcheck.value import Value

COVERAGE = (
    "two standard uncertainties, about 95 in 100 where no single part outweighs the rest (JCGM 100:2008, 6.3.3); "
    "parts not measured taken as evenly spread between their limits"
)


class Contribution(Value, kw_only=True):
    """What one instrument, or one part that was not measured, adds to the standard uncertainty [mm]."""

    name: str
    uncertainty_mm: float
    terms: tuple[Term, ...]


class Measurement(Value, kw_only=True):
    """A sum as measured: `value_mm` ± `good_to_mm`. `largest` names the next thing to measure better."""

    value_mm: float
    good_to_mm: float
    coverage: str
    largest: Term
    contributions: tuple[Contribution, ...]


def as_measured(terms: tuple[Term, ...]) -> Measurement | None:
    """The best estimate of a sum, good to two standard uncertainties; None for a sum of nothing.

    u² = Σ over instruments (Σ sign · good_to/2)² + Σ over the others half_width²/(3 · pieces)

    Units: mm. `Reading.good_to_mm` is two standard uncertainties, so half of it enters. The pieces of an unmeasured group
    are independent of one another, those of a measured one share the instrument.
    Source: JCGM 100:2008, 5.1.2, 5.2.2 note 1, 4.3.7 and 6.3.3 (clauses from memory).
    """
    if not terms:
        return None
    contributions = sorted(_contributions(terms), key=lambda each: -each.uncertainty_mm)
    uncertainty_mm = sqrt(sum(each.uncertainty_mm**2 for each in contributions))
    return Measurement(
        value_mm=sum(term.sign * _best_mm(term) for term in terms),
        good_to_mm=2 * uncertainty_mm,
        coverage=COVERAGE,
        largest=max(contributions[0].terms, key=_own_uncertainty_mm),
        contributions=tuple(contributions),
    )


def _contributions(terms: tuple[Term, ...]) -> list[Contribution]:
    by_instrument: dict[str, list[Term]] = {}
    for term in terms:
        if term.is_measured:
            by_instrument.setdefault(term.how, []).append(term)
    measured = [
        Contribution(name=how, uncertainty_mm=_of_one_instrument(how, group), terms=tuple(group))
        for how, group in by_instrument.items()
    ]
    assumed = [
        Contribution(name=term.name, uncertainty_mm=_own_uncertainty_mm(term), terms=(term,))
        for term in terms
        if not term.is_measured
    ]
    return measured + assumed


def _of_one_instrument(how: str, terms: list[Term]) -> float:
    """Where nobody said the instrument it may be one or several: then no offset cancels another, which is the cautious sum."""
    signs = (1 if how == INSTRUMENT_NOT_SAID else term.sign for term in terms)
    return abs(sum(sign * _own_uncertainty_mm(term) for sign, term in zip(signs, terms)))


def _best_mm(term: Term) -> float:
    return term.interval.nominal_mm if term.is_measured else term.interval.middle_mm


def _own_uncertainty_mm(term: Term) -> float:
    if term.is_measured:
        return term.interval.half_width_mm / 2
    return term.interval.half_width_mm / sqrt(3 * term.pieces)
