"""Where a part stood, from the two distances that were seen before anything was loosened: to the member at each end.

How far a part reaches beyond its seats no reference says. Where it reaches as far at both ends, that falls out of half
the difference of the two distances; held against half the difference of the sums of the reference, it tells how far it
stood off. What the words say is said under that condition.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stackcheck.errors import SizeError
from stackcheck.formats.readings import reading_of
from stackcheck.mechanics.arrangement import as_wanted
from stackcheck.mechanics.distance import distance_in
from stackcheck.model.found import STANDS_OFF, Symptom
from stackcheck.model.part import Reading
from stackcheck.units import read_reading

if TYPE_CHECKING:
    from stackcheck.job.state import Job

BEFORE, TO = "before:", " to "


def stood_off(job: Job) -> tuple[Symptom, ...]:
    """Every part whose distance to both ends was seen, and which stood further off than its readings are good to."""
    seen: dict[str, dict[str, str]] = {}
    for key, answer in job.answers.items():
        place, to, end = key.removeprefix(BEFORE).rpartition(TO)
        if key.startswith(BEFORE) and to and job.reference.has_place(place) and job.reference.has_place(end) and answer:
            seen.setdefault(place, {})[end] = answer
    return tuple(
        symptom for place, distances in seen.items() if (symptom := _stood_off(job, place, distances)) is not None
    )


def _stood_off(job: Job, place: str, distances: dict[str, str]) -> Symptom | None:
    line, wanted = job.reference.line, as_wanted(job.reference)
    ends = sorted(distances, key=line.index)
    if len(ends) != 2 or not line.index(ends[0]) < line.index(place) < line.index(ends[1]):
        return None
    first, second = (_reading(job, distances[end]) for end in ends)
    sums = [distance_in(wanted, place, end).total for end in ends]
    if first is None or second is None or None in sums:
        return None
    off = (first.value_mm - second.value_mm + sums[0].nominal_mm + sums[1].nominal_mm) / 2
    good_to = (first.good_to_mm + second.good_to_mm) / 2
    if abs(off) <= good_to:
        return None
    by = reading_of(f"{abs(off) - good_to:.2f}..{abs(off) + good_to:.2f} mm")
    note = (
        f"seen {distances[ends[0]]} and {distances[ends[1]]} from the ends, "
        "if it reaches as far beyond its seats at both ends"
    )
    return Symptom(what=STANDS_OFF, place=place, toward="second" if off > 0 else "first", by=by, note=note)


def _reading(job: Job, answer: str) -> Reading | None:
    try:
        read_reading(answer, default_unit=job.begun.unit, may_be_zero=True)
        return reading_of(
            answer
            if job.begun.unit == "mm" or any(sign.isalpha() for sign in answer)
            else f"{answer} {job.begun.unit}",
            may_be_zero=True,
        )
    except SizeError:
        return None
