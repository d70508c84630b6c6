"""How sure a sum is that was partly measured.

JCGM 100:2008 (clauses from memory): readings of one instrument share its unknown offset, are fully correlated, and so
add linearly with their signs (5.2.2, note 1); everything else is independent and adds as the root of the squares
(5.1.2). A part that nobody measured is taken as evenly spread between its limits (4.3.7), which is an assumption of
ours and not of the drawing. A size that was read several times counts with the mean of its readings; their scatter is
its own, independent contribution with as many degrees of freedom as there were further readings (4.2.3), the offset of
the instrument stays. Figures written to a coarser step than the instrument is good to are each off by up to half of
that step, independently (F.2.2.1); a finer step is within what it is good to already. What was measured warm brings the
doubts of `stackcheck.model.warm_reading`. The result is the best estimate, not the worst case: one-sided limits move it
off the nominal sum.
"""

from __future__ import annotations

from math import inf, sqrt

from stackcheck.mechanics.budget import to_a_step
from stackcheck.mechanics.degrees_of_freedom import (
    TWO_STANDARD_UNCERTAINTIES,
    effective_degrees_of_freedom,
    student_factor,
)
from stackcheck.mechanics.lengths import INSTRUMENT_NOT_SAID, Term
from stackcheck.model.part import Reading
from stackcheck.units import INSTRUMENTS
from stackcheck.units.scan import RANGE
from stackcheck.value import Value

COVERAGE_OF_FEW = (
    "{factor:.2f} standard uncertainties, Student's t at {degrees:.1f} degrees of freedom, about 95 in 100 (JCGM "
    "100:2008, G.4): "
    "readings were repeated only a few times; parts not measured taken as evenly spread between their limits"
)
COVERAGE = (
    "two standard uncertainties, about 95 in 100 where no single part outweighs the rest (JCGM 100:2008, 6.3.3); "
    "parts not measured taken as evenly spread between their limits"
)


class Contribution(Value, kw_only=True):
    """What one instrument, the scatter of one size,
    or one part that was not measured adds to the standard uncertainty [mm].

    `degrees` of freedom are infinite but for the scatter of repeated readings. `what` names it where it is none of the
    part: how warm something was, the step of a figure.
    """

    name: str
    uncertainty_mm: float
    terms: tuple[Term, ...]
    degrees: float = inf
    what: str = ""


class Measurement(Value, kw_only=True):
    """A sum as measured: `value_mm` ± `good_to_mm`. `largest` names the next thing to measure better.

    `good_to_mm` is `factor` standard uncertainties; `degrees` of freedom are infinite where no reading was repeated.
    """

    value_mm: float
    good_to_mm: float
    coverage: str
    largest: Term
    contributions: tuple[Contribution, ...]
    degrees: float = inf
    factor: float = 2.0


def as_measured(terms: tuple[Term, ...]) -> Measurement | None:
    """The best estimate of a sum, good to about 95 in 100; None for a sum of nothing.

    u² = Σ over instruments (Σ sign · offset)² + Σ over repeated sizes s²/n + Σ over coarse figures step²/12
         + Σ over temperatures and metals (Σ sign · doubt)² + Σ over the others half_width²/(3 · pieces)

    Units: mm. `Reading.good_to_mm` is two standard uncertainties, so half of it is the offset. The pieces of an
    unmeasured group are independent of one another, those of a measured one share the instrument. The factor is 2, or
    Student's t at the effective degrees of freedom where readings were repeated.
    Source: JCGM 100:2008, 4.2.1, 4.2.3, 4.3.7, 5.1.2, 5.2.2 note 1, 6.3.3, F.2.2.1, G.4 and H.1 (clauses from memory).
    """
    if not terms:
        return None
    contributions = sorted(_contributions(terms), key=lambda each: -each.uncertainty_mm)
    uncertainty_mm = sqrt(sum(each.uncertainty_mm**2 for each in contributions))
    degrees = effective_degrees_of_freedom((each.uncertainty_mm, each.degrees) for each in contributions)
    factor = student_factor(TWO_STANDARD_UNCERTAINTIES, degrees)
    return Measurement(
        value_mm=sum(term.sign * _best_mm(term) for term in terms),
        good_to_mm=factor * uncertainty_mm,
        coverage=COVERAGE if factor == 2.0 else COVERAGE_OF_FEW.format(factor=factor, degrees=degrees),
        largest=max(contributions[0].terms, key=_own_uncertainty_mm),
        contributions=tuple(contributions),
        degrees=degrees,
        factor=factor,
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
    scattered = [
        Contribution(
            name=f"readings of the {term.name}",
            uncertainty_mm=_scale(term) * stdev(repeated) / sqrt(len(repeated)),
            terms=(term,),
            degrees=len(repeated) - 1,
        )
        for term in terms
        if (repeated := repeated_readings(term)) and stdev(repeated) > 0
    ]
    assumed = [
        Contribution(name=term.name, uncertainty_mm=_own_uncertainty_mm(term), terms=(term,))
        for term in terms
        if not term.is_measured
    ]
    return measured + scattered + _steps(terms) + _warm(terms) + assumed


def _steps(terms: tuple[Term, ...]) -> list[Contribution]:
    """What the step of a figure adds that is coarser than its instrument (JCGM 100:2008, F.2.2.1)."""
    return [
        Contribution(
            name=f"step of the figure of the {term.name}",
            uncertainty_mm=_scale(term) * to_a_step(term.reading.step_mm),
            terms=(term,),
            what=f"the step of {term.reading.step_mm:g} that the {term.name} was written to",
        )
        for term in terms
        if term.is_measured and _is_coarse(term.reading)
    ]


def _is_coarse(reading: Reading) -> bool:
    """Whether the digits written are coarser than what the instrument is good to; a ± written beside them holds all."""
    instrument = INSTRUMENTS.get(reading.how or "calliper")
    return instrument is not None and not reading.own_good_to and reading.step_mm / 2 > instrument.good_to_mm


def _warm(terms: tuple[Term, ...]) -> list[Contribution]:
    """What is not known of how warm parts and instruments were: one temperature, one metal behind several readings adds
    linearly with the signs of the parts (JCGM 100:2008, 5.2.2, note 1).
    """
    behind: dict[str, list[tuple[Term, float]]] = {}
    for term in terms:
        warm = term.reading.warm if term.is_measured else None
        for doubt in warm.doubts if warm else ():
            behind.setdefault(doubt.name, []).append((term, term.sign * _scale(term) * doubt.adds_mm))
    return [
        Contribution(
            name=name,
            uncertainty_mm=abs(sum(adds for _, adds in each)),
            terms=tuple(term for term, _ in each),
            what=name,
        )
        for name, each in behind.items()
    ]


def repeated_readings(term: Term) -> tuple[float, ...]:
    """The readings of a size that was read more than once [mm];
    none for one reading, and for the two ends of a range.
    """
    reading = term.reading if term.is_measured else None
    if reading is None or len(reading.readings_mm) < 2:
        return ()
    return () if RANGE.search(reading.text) else reading.readings_mm


def stdev(values: tuple[float, ...]) -> float:
    """Standard deviation of a sample (JCGM 100:2008, 4.2.2)."""
    mean = sum(values) / len(values)
    return sqrt(sum((value - mean) ** 2 for value in values) / (len(values) - 1))


def _of_one_instrument(how: str, terms: list[Term]) -> float:
    """Where nobody said the instrument it may be one or several:
    then no offset cancels another, which is the cautious sum.
    """
    signs = (1 if how == INSTRUMENT_NOT_SAID else term.sign for term in terms)
    return abs(sum(sign * _offset_mm(term) for sign, term in zip(signs, terms)))


def _offset_mm(term: Term) -> float:
    """The offset of the instrument alone: of repeated readings the scatter counts by itself."""
    reading, repeated = term.reading, repeated_readings(term)
    own = reading.good_to_mm if reading.warm is None else reading.warm.read_good_to_mm
    instrument = INSTRUMENTS.get(reading.how or "calliper")
    if instrument is not None and _is_coarse(reading):
        return _scale(term) * min(instrument.good_to_mm, own) / 2
    scatter = max((abs(value - reading.value_mm) for value in repeated), default=0.0)
    if not repeated or reading.own_good_to and own > scatter:
        return _scale(term) * own / 2
    good_to = own if instrument is None else max(instrument.good_to_mm, reading.step_mm / 2)
    return _scale(term) * min(good_to, own) / 2


def _scale(term: Term) -> float:
    """How many times the reading counts in its term: several pieces, or a share of a pack."""
    return term.interval.nominal_mm / term.reading.value_mm if term.reading.value_mm else 1.0


def _best_mm(term: Term) -> float:
    if not term.is_measured:
        return term.interval.middle_mm
    repeated = repeated_readings(term)
    return term.interval.nominal_mm if not repeated else _scale(term) * sum(repeated) / len(repeated)


def _own_uncertainty_mm(term: Term) -> float:
    if term.is_measured:
        return term.interval.half_width_mm / 2
    return term.interval.half_width_mm / sqrt(3 * term.pieces)
