"""Several gauges read on one common source: how far apart they read, which is the odd one out, what each is good to.

Every answer is one *contrast*: some of the gauges less some others (or less a known size), taken in every round and
averaged over the rounds, so that what the source does from round to round drops out. Where the first gauge was read
again at the end of a round, the source is taken to have moved by equal steps from reading to reading. What all gauges
share stays unseen unless the source is of known size: compared with each other, not calibrated.

Nothing is said about other sizes than the one of the source.
"""

from __future__ import annotations

from itertools import combinations
from math import inf, sqrt

from stackcheck.mechanics.budget import Budget, Influence, Quantity, mean_of, scatter_of, to_a_step, within_limits
from stackcheck.mechanics.by_a_standard import length_by_a_standard
from stackcheck.model.gauges import Gauge, GaugeReadings, KnownSource, Room, Round
from stackcheck.units.instruments import INSTRUMENTS
from stackcheck.value import Value

AGREES, DIFFERS, CANNOT_TELL, NOT_JUDGED = "agrees", "differs", "cannot tell", "not judged"
ONE_ROUND = "one round does not show how well a reading repeats; read another"
STEEL_PER_K, STEELS_DIFFER_PER_K = 11.5e-6, 1e-6
REPEATS = "how well a reading repeats"
"""The influence that more rounds make smaller."""


class Contrast(Value, kw_only=True):
    """A difference between gauges, in our inside unit.

    `good_to` belongs to the difference itself, `once_good_to` to the same difference between single readings later on;
    None where `needs` says what is missing for it.
    """

    difference: float
    rounds: int
    good_to: float | None = None
    once_good_to: float | None = None
    budget: Budget = Budget(())
    needs: str = ""


class Pair(Value, kw_only=True):
    """How much more the first gauge reads than the second, judged where somebody said what they are to agree within."""

    first: str
    second: str
    contrast: Contrast
    verdict: str


class GaugeResult(Value, kw_only=True):
    """One gauge. What the measuring goes on with are `correction` and `good_to`.

    `from_others` is its reading less the middle of the others, leaving out an odd one; `from_known` less the known
    size; `limit` is what that is judged against, None where nobody says. `correction` is what to add to a reading, None
    where the comparison cannot know it. `good_to` is what one later reading near this size is good to: after the
    correction where one is known, else as read, against the middle of the others.
    """

    gauge: Gauge
    mean: float
    from_others: Contrast | None = None
    from_known: Contrast | None = None
    limit: float | None = None
    verdict: str = NOT_JUDGED
    correction: float | None = None
    good_to: float | None = None
    needs: str = ""


class GaugeComparison(Value, kw_only=True):
    """What the readings tell. `odd_one_out` is "" where none stands out; `why_none` then says why.

    `drift` is how far the source (or the first gauge) moved within a round, on average; None: not looked at.
    """

    readings: GaugeReadings
    results: tuple[GaugeResult, ...]
    pairs: tuple[Pair, ...]
    odd_one_out: str = ""
    why_none: str = ""
    drift: float | None = None
    verdict: str = NOT_JUDGED

    @property
    def widest(self) -> Pair | None:
        """The two gauges farthest apart: the spread."""
        return max(self.pairs, key=lambda pair: abs(pair.contrast.difference), default=None)

    def result_of(self, name: str) -> GaugeResult | None:
        return next((result for result in self.results if result.gauge.name == name), None)

    def between(self, first: str, second: str) -> Contrast | None:
        """How much more one gauge reads than another; None where the two were not compared here."""
        names = [result.gauge.name for result in self.results]
        if first not in names or second not in names or first == second:
            return None
        return contrast(self.readings, {names.index(first): 1.0, names.index(second): -1.0})


def compare_gauges(readings: GaugeReadings) -> GaugeComparison:
    """Everything that the readings tell about the gauges.

    Source: JCGM 100:2008, 4.2 (readings), 4.3.7 (limits), 5.1.2 (independent influences), G.4 (degrees of freedom),
        F.2.4.5 (a correction that is not made widens what the reading is good to).
    """
    numbers = range(len(readings.gauges))
    ranks = [_rank(readings, number) for number in numbers]
    pairs = tuple(_pair(readings, first, second) for first, second in combinations(numbers, 2))
    results = tuple(_result(readings, ranks, number) for number in numbers)
    odd, why_none = _odd_one(readings, ranks, results)
    if odd:  # nobody else is held against the one that stands out
        results = tuple(
            each if each.gauge.name == odd else _result(readings, ranks, number, odd)
            for number, each in enumerate(results)
        )
    verdicts = {pair.verdict for pair in pairs} if readings.agree_within is not None else set()
    if readings.known is not None or readings.agree_within is None:
        verdicts |= {result.verdict for result in results}
    drifts = [turn.again.value - turn.read[0].value for turn in readings.rounds if turn.again is not None]
    return GaugeComparison(
        readings=readings,
        results=results,
        pairs=pairs,
        odd_one_out=odd,
        why_none=why_none,
        drift=mean_of(drifts) if drifts else None,
        verdict=next((word for word in (DIFFERS, CANNOT_TELL, NOT_JUDGED) if word in verdicts), AGREES),
    )


Rank = tuple[float, ...]
"""The mean of a gauge, then its rounds: gauges of one mean keep a sequence
that does not hang on how they are listed.
"""


def _rank(readings: GaugeReadings, number: int) -> Rank:
    column = steady(readings, number)
    return (mean_of(column), *column)


def steady(readings: GaugeReadings, number: int) -> tuple[float, ...]:
    """What a gauge reads in each round, as if the source had stood still since the round began."""
    return tuple(turn.read[number].value - _moved(turn, number) for turn in readings.rounds)


def _moved(turn: Round, number: int) -> float:
    """How far the source has moved when this gauge is read: by equal steps until the first one is read again."""
    return 0.0 if turn.again is None else (turn.again.value - turn.read[0].value) * number / len(turn.read)


def contrast(readings: GaugeReadings, weights: dict[int, float]) -> Contrast:
    """A difference between gauges and what it is good to.

    In every round Σ weight · reading; the mean d over n rounds. u²(d) = s²/n + Σ (weight · step)²/12 + drift, where s
    is the scatter of the rounds and the steps round every round alike, so they do not shrink; where the source moved,
    half of that as a limit, because nobody saw when. With a single round s is taken from what handling the instruments
    costs, where that is known. The known size counts with weight -1 where the weights add up to 1.

    Args:
        readings: the comparison.
        weights: number of a gauge, from 0, and its weight;
            together 0 for a difference, 1 for one against the known size.
    Source: JCGM 100:2008, 4.2.2, 4.2.3, 4.3.7, 5.1.2, F.2.2.1; drift by equal steps is an assumption of ours.
    """
    against_known = abs(sum(weights.values()) - 1) < 1e-9
    columns = {number: steady(readings, number) for number in weights}
    known = readings.known.value if against_known and readings.known else 0.0
    rounds = [
        sum(weight * columns[number][turn] for number, weight in weights.items()) - known
        for turn in range(len(readings.rounds))
    ]
    shared = _shared(readings, weights, against_known)
    handling = _handling(readings, weights, rounds)
    if not handling:
        return Contrast(difference=mean_of(rounds), rounds=len(rounds), needs=ONE_ROUND)
    once, degrees = handling
    mean = Budget((*shared, _repeats(once / sqrt(len(rounds)), degrees)))
    later = Budget((*shared, _repeats(once * sqrt(1 + 1 / len(rounds)), degrees)))
    return Contrast(
        difference=mean_of(rounds),
        rounds=len(rounds),
        good_to=mean.good_to(),
        once_good_to=later.good_to(),
        budget=mean,
    )


def _repeats(uncertainty: float, degrees: float) -> Influence:
    return Influence(name=REPEATS, uncertainty=uncertainty, degrees_of_freedom=degrees)


def _handling(readings: GaugeReadings, weights: dict[int, float], rounds: list[float]) -> tuple[float, float] | None:
    """Scatter of the contrast over the rounds, and its degrees of freedom; None where a single round leaves it open."""
    if len(rounds) > 1:
        return scatter_of(rounds), len(rounds) - 1
    used = [(weight, readings.gauges[number].how) for number, weight in weights.items()]
    if any(not how for _, how in used):
        return None
    return sqrt(sum((weight * INSTRUMENTS[how].feel_mm) ** 2 for weight, how in used)), inf


def _shared(readings: GaugeReadings, weights: dict[int, float], against_known: bool) -> list[Influence]:
    """The influences that more rounds do not shrink."""
    influences = [
        Influence(
            name=f"digits of {readings.gauges[number].name}",
            uncertainty=to_a_step(max(turn.read[number].step for turn in readings.rounds)),
            sensitivity=weight,
        )
        for number, weight in weights.items()
    ]
    drifts = [turn.again.value - turn.read[0].value for turn in readings.rounds if turn.again is not None]
    if drifts and mean_of(drifts) != 0:
        influences.append(
            Influence(name="source moved while reading", uncertainty=within_limits(abs(mean_of(drifts)) / 2))
        )
    if against_known and readings.known:
        influences += _known(readings.known, readings.room)
    return influences


def _known(known: KnownSource, room: Room | None) -> tuple[Influence, ...]:
    """What the known size hangs on; where the room is known also what a block and a gauge of steel do in it.

    Source: JCGM 100:2008, H.1.3 (11.5e-6 per K, two steels within 1e-6 of one another).
    """
    size = Quantity(value=known.value, uncertainty=known.good_to / 2)
    if room is None:
        return (size.influence("size of the source"),)
    return length_by_a_standard(
        standard=size,
        difference=Quantity(value=0.0),
        expansion_per_k=Quantity(value=STEEL_PER_K),
        expansion_differs_per_k=Quantity(value=0.0, uncertainty=within_limits(STEELS_DIFFER_PER_K)),
        warmer_k=Quantity(value=room.warmer_k, uncertainty=room.warmer_good_to_k / 2),
        warmth_differs_k=Quantity(value=0.0, uncertainty=within_limits(room.differ_k)),
        second_order=True,
    ).budget.influences


def judged(difference: float, good_to: float | None, limit: float | None) -> str:
    """Whether a difference is within a limit, whatever it is within what it is good to."""
    if limit is None:
        return NOT_JUDGED
    if good_to is None:
        return CANNOT_TELL
    tiny = 1e-9 * (abs(limit) + good_to)  # so that 0.3 - 0.1 stays within 0.2
    if abs(difference) + good_to <= limit + tiny:
        return AGREES
    return DIFFERS if abs(difference) - good_to > limit + tiny else CANNOT_TELL


def _pair(readings: GaugeReadings, first: int, second: int) -> Pair:
    own = contrast(readings, {first: 1.0, second: -1.0})
    return Pair(
        first=readings.gauges[first].name,
        second=readings.gauges[second].name,
        contrast=own,
        verdict=judged(own.difference, own.good_to, readings.agree_within),
    )


def _result(readings: GaugeReadings, ranks: list[Rank], number: int, odd: str = "") -> GaugeResult:
    names = [gauge.name for gauge in readings.gauges]
    weights = _against_the_middle(
        ranks, number, [other for other, name in enumerate(names) if other != number and name != odd]
    )
    from_others = contrast(readings, weights) if len(weights) > 1 else None
    from_known = contrast(readings, {number: 1.0}) if readings.known else None
    own = from_known or from_others
    limit = _limit(readings, {number: 1.0} if from_known else weights)
    good_to = own.once_good_to
    if from_known is None and good_to is not None:
        good_to += abs(own.difference)
    return GaugeResult(
        gauge=readings.gauges[number],
        mean=ranks[number][0],
        from_others=from_others,
        from_known=from_known,
        limit=limit,
        verdict=judged(own.difference, own.good_to, limit),
        correction=-own.difference if from_known else None,
        good_to=good_to,
        needs=own.needs,
    )


def _against_the_middle(ranks: list[Rank], number: int, others: list[int]) -> dict[int, float]:
    """The weights of a gauge less the middle value of the others: one of them, or the mean of two."""
    others = sorted(others, key=ranks.__getitem__)
    middle = others[(len(others) - 1) // 2 : len(others) // 2 + 1]
    return {number: 1.0} | {other: -1 / len(middle) for other in middle}


def _limit(readings: GaugeReadings, weights: dict[int, float]) -> float | None:
    """What the difference may be by what the gauges in it are taken to be good to; None where one says nothing.

    A limit for the agreement of two gauges is one for pairs, and counts here only against a known size.
    """
    if readings.agree_within is not None:
        return readings.agree_within if readings.known else None
    sizes = [(weight, readings.gauges[number].good_to) for number, weight in weights.items()]
    return None if any(size is None for _, size in sizes) else sqrt(sum((weight * size) ** 2 for weight, size in sizes))


def _odd_one(readings: GaugeReadings, ranks: list[Rank], results: tuple[GaugeResult, ...]) -> tuple[str, str]:
    """The gauge farthest from the middle of the others, or why none is named.

    It stands out where it is farther from them than the readings can tell, and farther than any other gauge by as much.
    """
    if len(results) < 3:
        return "", "two gauges cannot show which of them is out; a third can" if len(results) == 2 else ""
    ranked = sorted(
        range(len(results)), key=lambda number: (-abs(results[number].from_others.difference), ranks[number])
    )
    own, name = results[ranked[0]].from_others, results[ranked[0]].gauge.name
    farthest = f"{name} is farthest from the middle of the others"
    if own.good_to is None:
        return "", f"{farthest}, and one round does not show whether that is more than chance"
    if abs(own.difference) <= own.good_to:
        return "", f"{farthest}, by no more than the readings can tell"
    for other in ranked[1:]:
        farther = contrast(readings, _farther(ranks, results, ranked[0], other))
        if farther.difference <= farther.good_to:
            next_name = results[other].gauge.name
            return (
                "",
                f"the readings cannot tell whether {name} or {next_name} is farther from the middle of the others",
            )
    return name, ""


def _farther(ranks: list[Rank], results: tuple[GaugeResult, ...], one: int, other: int) -> dict[int, float]:
    """The weights of how much farther one gauge is from the middle of its others than another is
    from that of its own.
    """
    weights: dict[int, float] = {}
    for number, sign in ((one, 1.0), (other, -1.0)):
        sign = sign if results[number].from_others.difference >= 0 else -sign
        rest = [each for each in range(len(ranks)) if each != number]
        for each, weight in _against_the_middle(ranks, number, rest).items():
            weights[each] = weights.get(each, 0.0) + sign * weight
    return weights
